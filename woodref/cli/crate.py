"""The command about the crate or carton around a piece: crate."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Explain,
    Force,
    Format,
    PlaceOption,
    RoomAsked,
    Save,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    mass_unit,
    reference,
    source_of,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.quantity import Range
from woodref.written import parse_density, parse_length, parse_mass


def _weight(expected: str, low: str, high: str, unit: str) -> Range:
    """The weight of the piece, its ends the same where they are not given."""
    middle = parse_mass(expected, unit)
    ends = parse_mass(low, unit) if low else middle, parse_mass(high, unit) if high else middle
    if not 0.0 < ends[0] <= middle <= ends[1]:
        raise InputError("--weight-low, --weight and --weight-high must be above 0 and not fall")
    return Range(middle, *ends)


def _battens(width: str, thickness: str, unit: str) -> tuple[float, float]:
    if bool(width) != bool(thickness):
        missing = "--batten-thickness" if width else "--batten-width"
        raise InputError(f"{missing} is missing; a batten needs a width and a thickness")
    return (parse_length(width, unit), parse_length(thickness, unit)) if width else (0.0, 0.0)


def _one_person(reach: str, hands: str, way: str, unit: str) -> float | None:
    """What one person should lift [kg], None for the ideal lift."""
    from woodref.shipping.lifting import recommended_weight_limit

    if not reach:
        if hands or way:
            raise InputError(f"{'--hands' if hands else '--rise'} goes with --reach; give that too")
        return None
    figures = {"horizontal_cm": reach, "vertical_cm": hands, "distance_cm": way}
    given = {key: parse_length(text, unit) / 10.0 for key, text in figures.items() if text}
    return recommended_weight_limit(**given)


def _of_piece(
    context: typer.Context, piece: Path, style: Style, save: Path | None, force: bool
) -> None:
    """The crate of a piece file, as its table [shipping] has it."""
    for name, value in context.params.items():
        if value and name not in ("piece", "place", "units", "style", "save", "force", "explain"):
            raise InputError(
                f"--{name.replace('_', '-')} has no place beside a piece, whose file says it all; "
                f"write it into [shipping] of {piece}"
            )
    from woodref.answers.crate import crate_answer
    from woodref.cli.piece import rooms_asked
    from woodref.piece.estimate import estimate_piece
    from woodref.piece.piece import read_piece
    from woodref.reference.shipping import shipping_facts

    read = read_piece(piece, rooms_asked(context, RoomAsked(context.params["place"])))
    # What is bought for it and the months after delivery weigh nothing and take long to plan.
    estimate = estimate_piece(reference(), replace(read, buying=None, room=None))
    if estimate.crate is None or read.shipping is None:
        raise InputError(f"{piece}: shipping: is missing; give length, depth and height there")
    shown = read.units if source_of(context, "units") == "DEFAULT" else context.params["units"]
    packing, facts = read.shipping.packing, shipping_facts(reference())
    answer = crate_answer(
        estimate.crate, estimate.masses.packed, packing, facts, str(shown), estimate.unweighed
    )
    if context.params["explain"]:
        from woodref.explain.in_use import crate_steps

        add_steps(answer, crate_steps(estimate.crate, read.shipping.size_mm[0], packing))
    emit(answer, str(shown), style, save, force=force)


def crate_command(
    context: typer.Context,
    piece: Annotated[
        Path | None, typer.Argument(help="A piece file with [shipping], in place of sizes.")
    ] = None,
    length: Annotated[str, typer.Option("--length", help="Outside length of the piece.")] = "",
    depth: Annotated[str, typer.Option("--depth", help="Outside depth.")] = "",
    height: Annotated[str, typer.Option("--height", help="Outside height.")] = "",
    weight: Annotated[
        str, typer.Option("--weight", help="What the piece weighs: 140 lb, 64 kg.")
    ] = "",
    weight_low: Annotated[
        str, typer.Option("--weight-low", help="Low end of its likely weight.")
    ] = "",
    weight_high: Annotated[
        str, typer.Option("--weight-high", help="High end of its likely weight.")
    ] = "",
    padding: Annotated[
        str, typer.Option("--padding", help="Padding on every side; else the usual, 1-1/2 in.")
    ] = "",
    wall: Annotated[
        str, typer.Option("--wall", help="Thickness of the panels of a crate; none is a carton.")
    ] = "",
    wall_density: Annotated[
        str, typer.Option("--wall-density", help="Density of the panels: 36 lb/ft3, 580 kg/m3.")
    ] = "",
    batten_width: Annotated[
        str, typer.Option("--batten-width", help="Width of the battens along the edges.")
    ] = "",
    batten_thickness: Annotated[
        str, typer.Option("--batten-thickness", help="Their thickness, outside the panels.")
    ] = "",
    batten_density: Annotated[
        str, typer.Option("--batten-density", help="Density of the battens.")
    ] = "",
    pallet: Annotated[bool, typer.Option("--pallet", help="It stands on a pallet.")] = False,
    pallet_height: Annotated[
        str, typer.Option("--pallet-height", help="Height of the pallet.")
    ] = "",
    packing_weight: Annotated[
        str, typer.Option("--packing-weight", help="What all the packing weighs, where known.")
    ] = "",
    divisor: Annotated[
        list[str] | None,
        typer.Option("--divisor", help="Your divisor: 139 in3/lb, 5000 cm3/kg; may be repeated."),
    ] = None,
    reach: Annotated[
        str, typer.Option("--reach", help="Hands that far ahead of the ankles at the lift.")
    ] = "",
    hands: Annotated[
        str, typer.Option("--hands", help="With --reach: hands that far above the floor.")
    ] = "",
    rise: Annotated[str, typer.Option("--rise", help="With --reach: lifted that far up.")] = "",
    place: PlaceOption = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """The crate or carton of a piece: weight, size, freight class.

    Says too whether two people can lift it, what its volume counts as, and which of the usual
    limits of a parcel it exceeds.
    """
    if piece:
        _of_piece(context, piece, style, save, force)
        return
    for name, given in (
        ("length", length),
        ("depth", depth),
        ("height", height),
        ("weight", weight),
    ):
        if not given:
            raise InputError(f"--{name} is missing; or name a piece file that has [shipping]")
    from woodref.answers.crate import crate_answer
    from woodref.reference.shipping import parse_divisor, shipping_facts
    from woodref.shipping.crate import USUAL_PADDING_MM, Packing, crate

    bare, mass = length_unit(units), mass_unit(units)
    dense = "lb/ft3" if units is UnitSystem.us else "kg/m3"
    usual = Packing(USUAL_PADDING_MM)
    packing = Packing(
        padding_mm=parse_length(padding, bare) if padding else USUAL_PADDING_MM,
        wall_mm=parse_length(wall, bare) if wall else 0.0,
        wall_density_kg_m3=parse_density(wall_density, dense)
        if wall_density
        else usual.wall_density_kg_m3,
        batten_mm=_battens(batten_width, batten_thickness, bare),
        batten_density_kg_m3=parse_density(batten_density, dense)
        if batten_density
        else usual.batten_density_kg_m3,
        pallet=pallet or bool(pallet_height),
        pallet_height_mm=parse_length(pallet_height, bare)
        if pallet_height
        else usual.pallet_height_mm,
        mass_kg=parse_mass(packing_weight, mass) if packing_weight else None,
    )
    facts = shipping_facts(reference())
    load_kg = _weight(weight, weight_low, weight_high, mass)
    size = (parse_length(length, bare), parse_length(depth, bare), parse_length(height, bare))
    packed = crate(
        size,
        load_kg,
        packing,
        facts,
        [parse_divisor(text) for text in divisor or ()],
        _one_person(reach, hands, rise, bare),
    )
    answer = crate_answer(packed, load_kg, packing, facts, units.value)
    if explain:
        from woodref.explain.in_use import crate_steps

        add_steps(answer, crate_steps(packed, size[0], packing))
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "crate",
        epilog=example(
            "woodref crate sideboard.toml",
            "woodref crate --length 60in --depth 18in --height 34in --weight 140lb "
            "--weight-low 128lb --weight-high 152lb --padding 2in --wall 1/2in "
            "--batten-width 2-1/2in --batten-thickness 3/4in --pallet",
            'woodref crate --length 900 --depth 250 --height 300 --weight 9kg --divisor "4000 '
            'cm3/kg" --units si',
        ),
    )(crate_command)
