"""Commands about the weight of a wood: by volume, and of a piece of any shape."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Explain,
    Force,
    Format,
    OwnShrinkage,
    Save,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
    with_own,
)
from woodref.cli.output import emit

Moisture = Annotated[
    str, typer.Option("--moisture", help="Moisture content: 8, green (30 %), or air 68F,40%.")
]


def density_command(
    species: Species,
    percent: Moisture = "12",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """What a wood weighs by volume, its water included."""
    from woodref.answers.weight import density_answer
    from woodref.board.weight import density_of

    density = density_of(reference().wood(species), moisture(percent, units))
    answer = density_answer(density, units)
    if explain:
        from woodref.explain.board import density_step

        add_steps(answer, [density_step(density)._replace(what="density")], density.values[:1])
    emit(answer, units, style, save, force=force)


def _flag(size: str) -> str:
    return f"--{size.replace('_', '-')}"


def weight_command(
    species: Species,
    length: Annotated[str, typer.Option("--length", help="Length: 10ft, 8ft 6in, 3048mm.")] = "",
    width: Annotated[
        str,
        typer.Option("--width", "--diameter", help="Width, or diameter: 8in, 7-1/2, 200mm."),
    ] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Thickness: rough 4/4 (1 in), 3/4in, 27mm.")
    ] = "",
    shape: Annotated[
        str,
        typer.Option("--shape", help="box, disc, cylinder, tapered leg, ring or volume."),
    ] = "box",
    end_width: Annotated[
        str, typer.Option("--end-width", help="Width of a tapered leg at its other end.")
    ] = "",
    end_thickness: Annotated[
        str, typer.Option("--end-thickness", help="Its thickness there; a square leg stays square.")
    ] = "",
    inner: Annotated[str, typer.Option("--inner", help="Inner diameter of a ring.")] = "",
    volume: Annotated[
        str, typer.Option("--volume", help="The volume itself: 120 in3, 2 L, 800 cm3.")
    ] = "",
    removed: Annotated[
        str, typer.Option("--removed", help="Volume cut away from one piece: 3 in3, 50 cm3.")
    ] = "",
    percent: Moisture = "8",
    quantity: Annotated[int, typer.Option("--quantity", help="Number of such pieces.")] = 1,
    shrinkage: OwnShrinkage = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """What a board weighs, or a leg, a disc or a ring.

    The sizes are those at the moisture content given.
    """
    from woodref.answers.weight import weight_answer
    from woodref.board.shapes import parse_shape
    from woodref.board.weight import weight_of_shape

    given = {
        "length": length,
        "width": width,
        "thickness": thickness,
        "end_width": end_width,
        "end_thickness": end_thickness,
        "inner": inner,
        "volume": volume,
        "removed": removed,
    }
    written = {name: text for name, text in given.items() if text}
    form = parse_shape(shape, written, length_unit(units), _flag)
    w = weight_of_shape(
        with_own(reference().wood(species), shrinkage), form, moisture(percent, units), quantity
    )
    answer = weight_answer(w, form, units)
    if explain:
        from woodref.explain.board import weight_steps

        add_steps(answer, weight_steps(w), w.density.values[:1])
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("density", epilog=example("woodref density cherry --moisture 8"))(density_command)
    app.command(
        "weight",
        epilog=example(
            "woodref weight cherry --thickness 4/4 --width 8in --length 10ft --moisture 8",
            'woodref weight "white ash"'
            " --shape tapered-leg --length 28in --width 2in --thickness 2in "
            "--end-width 1in --quantity 4",
            "woodref weight teak --shape ring --diameter 30in --inner 22in --thickness 3/4in",
        ),
    )(weight_command)
