"""The command about a cross-section: cup, diamond and oval of a piece cut anywhere in the log."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from functools import partial
from math import inf
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
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
    moisture,
    reference,
    room_asked,
)
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.written import parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.board.cross_section import CrossSection, Round
    from woodref.board.outline import Pith
    from woodref.board.panel_section import PanelSection
    from woodref.charts.figure import Figure

    Compute = Callable[[float, float], CrossSection | Round | PanelSection]


class Rings(StrEnum):
    """How the boards of a panel lie."""

    alike = "alike"
    alternating = "alternating"


def _far_or_length(text: str, unit: str) -> float:
    return inf if text.strip().lower() == "far" else parse_length(text, unit)


def _pith(
    distance: str,
    side: str,
    offset: str,
    ring_angle: float | None,
    ring_radius: str,
    sizes: tuple[float, float],
    unit: str,
) -> Pith:
    """The pith from either way of saying where it lies.

    Raises: InputError where neither or both are used.
    """
    from woodref.board.movement import ring_angle as checked_angle
    from woodref.board.outline import pith_beside, pith_by_rings

    if bool(distance) == (ring_angle is not None):
        raise InputError(
            "say where the pith lies either by --pith-distance "
            f"{'2in' if unit == 'in' else '50mm'} (and --side), or by the rings on the end, "
            "--ring-angle 30 (and --ring-radius)"
        )
    if ring_angle is not None:
        if offset or side != "below":
            raise InputError("--side and --offset go with --pith-distance, not with --ring-angle")
        return pith_by_rings(checked_angle(ring_angle), _far_or_length(ring_radius or "far", unit))
    if ring_radius:
        raise InputError("--ring-radius goes with --ring-angle; the distance says enough")
    right = _signed(offset, unit) if offset else 0.0
    return pith_beside(side, _far_or_length(distance, unit), right, *sizes)


def _signed(text: str, unit: str) -> float:
    """A length that may be negative [mm]."""
    clean = text.strip()
    return -parse_length(clean[1:], unit) if clean.startswith("-") else parse_length(clean, unit)


def _moistures(start: str, end: str, units: UnitSystem) -> tuple[float, float]:
    """Moisture contents now and then [%].

    Raises: InputError where one is missing.
    """
    for option, value in (("--from", start), ("--to", end)):
        if not value:
            raise InputError(
                f"{option} is missing; give --from and --to, for example --from 12 --to 6, or "
                "a town and a room, for example --place Savannah --setting heated-house"
            )
    return moisture(start, units), moisture(end, units)


def section_command(
    context: typer.Context,
    species: Species,
    start: Annotated[
        str, typer.Option("--from", help="Moisture content now: 12, green, or air 68F,40%.")
    ] = "",
    end: Annotated[str, typer.Option("--to", help="Moisture content then, the same way.")] = "",
    width: Annotated[str, typer.Option("--width", help="Width of the board or leg.")] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Its thickness: 1in, 20mm or rough 8/4.")
    ] = "",
    diameter: Annotated[
        str, typer.Option("--diameter", help="Of a dowel or turned leg, in place of both.")
    ] = "",
    distance: Annotated[
        str,
        typer.Option("--pith-distance", help="From the pith to the nearest face, or far."),
    ] = "",
    side: Annotated[
        str, typer.Option("--side", help="Where the pith lies: below, above, left, right, inside.")
    ] = "below",
    offset: Annotated[
        str,
        typer.Option("--offset", help="The pith off the middle line, to the right or up."),
    ] = "",
    ring_angle: Annotated[
        float | None,
        typer.Option("--ring-angle", help="Rings to the wide face on the end: 0 flat, 90 quarter."),
    ] = None,
    ring_radius: Annotated[
        str, typer.Option("--ring-radius", help="Radius of the ring in the middle; else far.")
    ] = "",
    boards: Annotated[
        int, typer.Option("--boards", help="Such boards glued side by side to a panel.")
    ] = 1,
    rings: Annotated[
        Rings,
        typer.Option("--rings", help="Boards of the panel alike, or every other turned over."),
    ] = Rings.alike,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    plot: Plot = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How a board cups, a squared leg goes diamond, a dowel oval.

    The piece may come from anywhere in the log; say where the pith lies as seen on its end.
    With --place and --setting between the driest and the wettest of a room. --plot
    draws that end before and after.
    """
    from woodref.answers.section import SectionYear, section_answer
    from woodref.board.cross_section import board_section, refuse_inside, round_section
    from woodref.board.panel_section import MOST_BOARDS, panel_section
    from woodref.climate.part_seasons import year_span

    checked_plot(plot, force)
    unit = length_unit(units)
    if bool(diameter) == bool(width or thickness) or (not diameter and not (width and thickness)):
        raise InputError("give --width and --thickness, or --diameter alone")
    if boards != 1 and diameter:
        raise InputError("--boards goes with --width and --thickness, not with --diameter")
    if diameter:
        sizes = (parse_length(diameter, unit),) * 2
    else:
        sizes = (parse_length(width, unit), parse_thickness(thickness, unit))
    room = room_asked(context, RoomAsked(place, setting, room_figures), bool(end))
    if room and end:
        raise InputError("--to does not go with a place; leave one out")
    made = moisture(start, units) if start and room else None
    span = year_span(room.season, made) if room else None
    first, second = (span.start_pct, span.end_pct) if span else _moistures(start, end, units)
    wood = reference().wood(species)
    if side.strip().lower() == "inside":
        refuse_inside(wood, first, second)
    pith = _pith(distance, side, offset, ring_angle, ring_radius, sizes, unit)
    compute: Compute
    if diameter:
        compute = partial(round_section, wood, sizes[0], pith)
    elif boards == 1:
        compute = partial(board_section, wood, *sizes, pith)
    else:
        turned = pith.turned() if rings is Rings.alternating else pith
        # As many as are refused, where there are more.
        count = min(boards, MOST_BOARDS + 1)
        piths = [turned if i % 2 else pith for i in range(count)]
        compute = partial(panel_section, wood, [sizes[0]] * count, sizes[1], piths)
    piece = compute(first, second)
    year = None
    if room and span:
        other = compute(first, span.other.moisture_pct) if span.other else None
        year = SectionYear(room, span, other)
    answer = section_answer(piece, rings.value, units, year)

    def draw() -> Figure:
        from woodref.charts.outline import end_before_and_after

        return end_before_and_after(piece, units, room.label if room else "")

    emit_with_plot(answer, units, style, plot, draw, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "section",
        epilog=example(
            'woodref section "red oak" --width 10in --thickness 1in --pith-distance 2in '
            "--from 12 --to 6",
            'woodref section "white ash" --width 2in --thickness 2in --ring-angle 45 '
            "--from 12 --to 6",
            "woodref section cherry --width 4in --thickness 7/8in --pith-distance 3in --boards 6 "
            "--rings alternating --from 8 --to 5",
        ),
    )(section_command)
