"""The command about joints whose parts move against each other: joint."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.cli.options import (
    Cut,
    Explain,
    Force,
    Format,
    PlaceOption,
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
from woodref.cli.part_moisture import (
    Built,
    Driest,
    InMonth,
    Staves,
    Wettest,
    seasons_asked,
)
from woodref.units import parse_length


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
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How far a miter opens, and what else moves in a joint.

    Miters, wide tenons, dowels across the grain, edge strips and breadboard ends: what moves
    against what from the build to the driest and the wettest, and what the trade does.
    """
    from woodref.answers.joint import joint_answer
    from woodref.board.movement import ring_angle
    from woodref.cli.output import checked_save, emit
    from woodref.joinery.joint_types import joint_spec, known_joint
    from woodref.joinery.joints import joint_of
    from woodref.joinery.travel import MoistureRange

    checked_save(save, force)
    spec = joint_spec(
        known_joint(kind),
        parse_length(width, length_unit(units)),
        fixed=fixed,
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        core=reference().wood(core) if core else None,
        # Its faces are the width of the core's boards: the thickness takes the complement.
        core_ring_angle_deg=90.0 - ring_angle(core_cut),
        units=units.value,
    )
    asked = RoomAsked(place, setting, room_figures)
    seasons = seasons_asked(context, units, (built, month), (driest, wettest), asked)
    joint = joint_of(spec, reference().wood(species), MoistureRange(*seasons.moistures_pct))
    answer = joint_answer(joint, seasons, reference())
    answer.headline += outdoor_lines(seasons.room, joint.wood)
    if explain:
        from woodref.answers.steps import add_steps
        from woodref.explain.joint import joint_steps

        add_steps(answer, joint_steps(joint))
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "joint",
        epilog=example(
            "woodref joint cherry --kind miter --width 3in --place Duluth",
            'woodref joint "white oak" --kind tenon --width 6in --built 8',
            'woodref joint "white ash" --kind veneer --width 3/4in --cut quarter',
        ),
    )(joint_command)
