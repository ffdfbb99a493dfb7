"""The commands about joints that let wood move: fixing, gluing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Cut,
    Explain,
    Force,
    Format,
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
    from woodref.climate.part_seasons import PartSeasons
    from woodref.joinery.clearance import Fixing
    from woodref.joinery.fixing_types import FixingSpec, Sizes
    from woodref.joinery.holding import Holding, ScrewHoles


def _sizes(given: dict[str, str], unit: str) -> Sizes:
    """The sizes of the command line by their keys [mm].

    Raises: InputError, one line naming the option.
    """
    from woodref.joinery.fixing_types import Sizes
    from woodref.joinery.hardware import parse_screw

    sizes_mm = {}
    for key, text in given.items():
        if text:
            try:
                read = parse_screw if key == "screw" else parse_length
                sizes_mm[key] = read(text, unit)
            except InputError as error:
                raise error.headed(f"--{key}: ") from None
    return Sizes(**sizes_mm)


def _screw(fixing: Fixing, into_mm: float | None) -> tuple[ScrewHoles | None, Holding | None]:
    """The pilot holes of the screw of a fixing, and what it holds where its depth is given."""
    shank = fixing.spec.sizes.screw
    if shank is None:
        if into_mm is not None:
            raise InputError("--into needs a screw, for example --screw '#8'")
        return None, None
    from woodref.joinery.fastener import screw_of
    from woodref.joinery.holding import holding, screw_holes
    from woodref.reference.fasteners import fastener_tables

    tables = fastener_tables(reference())
    if into_mm is None:
        return screw_holes(shank, tables), None
    if not fixing.spec.bites:
        raise InputError("that screw bites into another wood: woodref fastener tells what it holds")
    held = holding(fixing.wood, screw_of(shank), tables, into_mm)
    return screw_holes(shank, tables), held


def _answer(
    species: str,
    spec: FixingSpec,
    seasons: PartSeasons,
    monthly: bool,
    units: UnitSystem,
    style: Style,
    save: Path | None,
    explain: bool,
    force: bool,
    plot: str = "",
    into_mm: float | None = None,
) -> None:
    from woodref.answers.fixing import fixing_answer
    from woodref.joinery.clearance import fixing_of
    from woodref.joinery.travel import MoistureRange

    fixing = fixing_of(spec, reference().wood(species), MoistureRange(*seasons.moistures_pct))
    holes, held = _screw(fixing, into_mm)
    long = monthly or style is not Style.table
    answer = fixing_answer(fixing, seasons, reference(), long, holes, held)
    answer.headline += outdoor_lines(seasons.room, fixing.wood)
    short = save and not long
    whole = fixing_answer(fixing, seasons, reference(), True, holes, held) if short else answer
    if explain:
        from woodref.explain.in_use import fixing_steps

        steps = [*fixing_steps(fixing)]
        if held:
            from woodref.explain.fastening import holding_steps

            steps += holding_steps(held)
        for told in dict.fromkeys((answer, whole)):
            add_steps(told, steps)

    def draw() -> Figure:
        from woodref.charts.fixing_room import fixing_year

        assert seasons.room
        return fixing_year(fixing, seasons.room, units)

    emit_with_plot(answer, units, style, plot, draw, save, whole, force)


def fixing_command(
    context: typer.Context,
    species: Species,
    kind: Annotated[
        str,
        typer.Option(
            "--kind",
            help="round-hole, slotted-hole, button, breadboard, floating-panel, drawer-bottom, "
            "drawer-front or glued.",
        ),
    ],
    width: Annotated[
        str, typer.Option("--width", help="Width of the part that moves, across the grain.")
    ] = "",
    fixed: Annotated[
        str,
        typer.Option("--fixed", help="Where it is held: center, edge, or a length from an edge."),
    ] = "",
    at: Annotated[
        str, typer.Option("--at", help="Where the fixing is, from that edge; else the far edge.")
    ] = "",
    distance: Annotated[
        str, typer.Option("--distance", help="From where it is fixed, in place of the two.")
    ] = "",
    screw: Annotated[str, typer.Option("--screw", help="Screw: #8, or its shank, 4mm.")] = "",
    into: Annotated[
        str,
        typer.Option("--into", help="How deep it bites into the part that moves: what it holds."),
    ] = "",
    peg: Annotated[str, typer.Option("--peg", help="Diameter of the peg.")] = "",
    hole: Annotated[str, typer.Option("--hole", help="Hole you have or plan.")] = "",
    slot: Annotated[str, typer.Option("--slot", help="Length of the slot.")] = "",
    washer: Annotated[str, typer.Option("--washer", help="Diameter of the washer.")] = "",
    recess: Annotated[str, typer.Option("--recess", help="Recess the washer lies in.")] = "",
    gap: Annotated[str, typer.Option("--gap", help="Gap left when it is fitted.")] = "",
    groove: Annotated[str, typer.Option("--groove", help="Depth of the groove.")] = "",
    tongue: Annotated[
        str, typer.Option("--tongue", help="Length of a button's tongue, from its shoulder.")
    ] = "",
    engage: Annotated[
        str, typer.Option("--engage", help="Least tongue left in the groove; else 1/8 in.")
    ] = "",
    spare: Annotated[
        str, typer.Option("--spare", help="Gap to be there even at the wettest; else none.")
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
    monthly: Annotated[
        bool, typer.Option("--monthly", help="What to make for each month of fitting it.")
    ] = False,
    plot: Plot = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """Holes, slots, gaps so wood can move, and if yours are enough.

    What to drill, cut and leave, and whether the sizes you give leave room for a board at the
    high end of its likely range.
    --plot draws, with a place, the travel through the year and the room your sizes leave.
    """
    from woodref.board.movement import ring_angle
    from woodref.joinery.fixing_types import fixing_spec, known_kind

    checked_plot(plot, force)
    if not (width or distance):
        raise InputError("give the --width of the part, or the --distance from where it is fixed")
    unit = length_unit(units)
    names = ("peg", "hole", "slot", "washer", "recess", "gap", "groove", "tongue", "engage")
    texts = (peg, hole, slot, washer, recess, gap, groove, tongue, engage)
    given = {"screw": screw, **dict(zip(names, texts, strict=True)), "spare": spare}
    spec = fixing_spec(
        known_kind(kind),
        width_mm=parse_length(width, unit) if width else None,
        distance_mm=parse_length(distance, unit) if distance else None,
        fixed=fixed,
        at_mm=parse_length(at, unit) if at else None,
        sizes=_sizes(given, unit),
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        units=units.value,
    )
    asked = RoomAsked(place, setting, room_figures)
    seasons = seasons_asked(context, units, (built, month), (driest, wettest), asked)
    if monthly and not seasons.room:
        raise InputError("--monthly needs a town, for example --place Savannah")
    if not seasons.room:
        needs_room(plot)
    depth = parse_length(into, unit) if into else None
    _answer(species, spec, seasons, monthly, units, style, save, explain, force, plot, depth)


def gluing_command(
    context: typer.Context,
    species: Species,
    length: Annotated[
        str, typer.Option("--length", help="Of the joint, across the grain of that wood.")
    ],
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
    plot: Plot = "",
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """If a batten or a joint across the grain may be glued.

    A batten, a frame or a wide tenon whose own grain lies the other way holds the wood fast.
    --plot draws how far the wood would move in a year if it were free.
    """
    from woodref.board.movement import ring_angle
    from woodref.joinery.fixing_types import fixing_spec

    spec = fixing_spec(
        "glued",
        distance_mm=parse_length(length, length_unit(units)),
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        units=units.value,
    )
    checked_plot(plot, force)
    asked = RoomAsked(place, setting, room_figures)
    seasons = seasons_asked(context, units, (built, month), (driest, wettest), asked)
    if not seasons.room:
        needs_room(plot)
    _answer(species, spec, seasons, False, units, style, save, explain, force, plot)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "fixing",
        epilog=example(
            "woodref fixing cherry --kind floating-panel --width 14in --gap 3/16in --month "
            'February --place "Columbus, Ohio"',
            'woodref fixing "sugar maple" --kind breadboard --width 42in --at 3in --peg 3/8in '
            "--built 7 --driest 6 --wettest 11",
            'woodref fixing "white oak" --kind round-hole --distance 9in --screw "#8" '
            "--hole 3/8in --washer 5/8in --recess 7/8in",
        ),
    )(fixing_command)
    app.command(
        "gluing",
        epilog=example(
            "woodref gluing cherry --length 4in",
            'woodref gluing "white oak" --length 60mm --cut quarter --place Duluth',
        ),
    )(gluing_command)
