"""The command about joints whose parts move against each other: joint."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Cut,
    Explain,
    Force,
    Format,
    Full,
    PlaceOption,
    Plot,
    RoomAsked,
    RoomFigures,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    outdoor_lines,
    reference,
)
from woodref.cli.output import checked_save, emit
from woodref.cli.part_moisture import (
    Built,
    Driest,
    InMonth,
    Staves,
    Wettest,
    seasons_asked,
)
from woodref.cli.plot import checked_plot, emit_with_plot, needs_room
from woodref.errors import InputError
from woodref.written import parse_length

if TYPE_CHECKING:
    from woodref.charts.figure import Figure


def joint_command(
    context: typer.Context,
    species: Species,
    kind: Annotated[str, typer.Option("--kind", help="miter, tenon, dowel, veneer or breadboard.")],
    width: Annotated[
        str,
        typer.Option(
            "--width",
            help="Across the grain: of the mitered member, of the rail, between the outer dowels, "
            "of the panel at a breadboard end; of an edge strip the thickness of its panel.",
        ),
    ],
    fixed: Annotated[
        str,
        typer.Option(
            "--fixed",
            help="Where it is glued or held: center, edge, or a length from an edge; else a tenon "
            "at an edge, dowels and breadboard ends in the center.",
        ),
    ] = "",
    core: Annotated[
        str, typer.Option("--core", help="Wood of a solid core under an edge strip.")
    ] = "",
    core_cut: Annotated[
        str,
        typer.Option("--core-cut", help="Cut of that core: flat, rift, quarter or an angle."),
    ] = "flat",
    corner: Annotated[
        str,
        typer.Option("--corner", help="Of a miter: angle between its members; 90, or 120 of six."),
    ] = "",
    other: Annotated[
        str, typer.Option("--other", help="Wood of the second member of a miter, if another.")
    ] = "",
    other_width: Annotated[
        str, typer.Option("--other-width", help="Width of the second member, if another.")
    ] = "",
    other_cut: Annotated[
        str, typer.Option("--other-cut", help="Cut of the second member, if another.")
    ] = "",
    cut: Cut = "flat",
    staves: Staves = 1,
    built: Built = "",
    month: InMonth = "",
    driest: Driest = "",
    wettest: Wettest = "",
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    units: Units = UnitSystem.us,
    explain: Explain = False,
    full: Full = False,
    plot: Plot = "",
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How far a miter opens, and what else moves in a joint.

    Miters, wide tenons, dowels across the grain, edge strips and breadboard ends: what moves
    against what from the build to the driest and the wettest, and what the trade does. With a
    place --full adds the months of its year, and --plot draws them.
    """
    from woodref.answers.joint import joint_answer
    from woodref.board.movement import ring_angle
    from woodref.joinery.joint_types import joint_spec, known_joint
    from woodref.joinery.joints import joint_of
    from woodref.joinery.travel import MoistureRange

    checked_plot(plot, force)
    checked_save(save, force)
    unit = length_unit(units)
    spec = joint_spec(
        known_joint(kind),
        parse_length(width, unit),
        fixed=fixed,
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        core=reference().wood(core) if core else None,
        # Its faces are the width of the core's boards: the thickness takes the complement.
        core_ring_angle_deg=90.0 - ring_angle(core_cut),
        other=reference().wood(other) if other else None,
        other_width_mm=parse_length(other_width, unit) if other_width else None,
        other_ring_angle_deg=ring_angle(other_cut) if other_cut else None,
        corner_deg=_degrees(corner) if corner else None,
        units=units.value,
    )
    asked = RoomAsked(place, setting, room_figures)
    seasons = seasons_asked(context, units, (built, month), (driest, wettest), asked)
    joint = joint_of(spec, reference().wood(species), MoistureRange(*seasons.moistures_pct))
    monthly = full or style is not Style.table
    answer = joint_answer(joint, seasons, reference(), monthly)
    answer.headline += outdoor_lines(seasons.room, joint.wood)
    if explain:
        from woodref.answers.steps import add_steps
        from woodref.explain.joint import joint_steps

        add_steps(answer, joint_steps(joint))
    room = seasons.room
    if room is None:
        needs_room(plot)
        emit(answer, units, style, save, force=force)
        return

    def draw() -> Figure:
        from woodref.charts.offset_year import joint_year

        return joint_year(joint, room, units)

    emit_with_plot(answer, units, style, plot, draw, save, force=force)


def _degrees(text: str) -> float:
    """An angle in degrees; InputError for what is none."""
    try:
        return float(text.removesuffix("degrees").removesuffix("deg").strip())
    except ValueError:
        raise InputError(
            f"--corner '{text}' is not an angle; write for example 90 or 120"
        ) from None


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "joint",
        epilog=example(
            "woodref joint cherry --kind miter --width 3in --place Duluth",
            "woodref joint cherry --kind miter --width 2in --other walnut --other-width 3in",
            'woodref joint "white oak" --kind tenon --width 6in --built 8',
            'woodref joint "white ash" --kind veneer --width 3/4in --cut quarter',
        ),
    )(joint_command)
