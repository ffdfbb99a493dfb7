"""Answers about a cross-section: the cup first, then every face, then what it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple, TypeAlias

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.method_words import movement_method
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, computed_notes, sentence, sentences
from woodref.answers.room_words import end_text, room_lines
from woodref.answers.words import (
    identity,
    likely_columns,
    likely_text,
    percent_text,
    range_facts,
    room_facts,
    room_notes,
    sold_as,
    way_text,
    wood_facts,
)
from woodref.board.cross_section import CrossSection, Face, FaceSide, Round
from woodref.board.outline import FACES, Pith
from woodref.board.panel_section import PanelSection, PanelShape
from woodref.climate.part_seasons import YearSpan
from woodref.climate.rooms import Room
from woodref.climate.seasons import DesignEnd
from woodref.quantity import Range
from woodref.units import KINDS

Piece: TypeAlias = "CrossSection | Round | PanelSection"

#: Less than this is called flat, square or round: half a thousandth of an inch [mm].
_FLAT_MM = 0.0127
#: From this cup on a board rocks on a flat table: 1/64 in (common practice, no source) [mm].
_ROCKS_MM = 0.4
#: A piece not wider than this many times its thickness is answered as a squared leg.
_LEG = 1.5
#: A face is cut into so many pieces in the outline given to programs.
_PIECES = 32
_NOTES = (
    "Rings are taken as circles around the pith, the moisture as the same throughout, and the "
    "piece as free to move: the pith, knots, slanting grain and a dry surface over a wet core add "
    "to it.",
    "Method: a point at distance r and angle a from the pith goes to r (1 - sr) and "
    "a (1 - st) / (1 - sr), which shrinks it by sr across and st along the rings everywhere.",
    "Radial and tangential shrinkage of a board are taken to correlate by 0.5, as two boards do "
    "(our assumption).",
)
_CAUTION = (
    "A cupped board rocks, and can bind the saw and be thrown back: flatten one face before "
    "ripping, with guards in place (common practice, no source)."
)
#: What a face is called by where it looks; '' where both are alike.
_SIDES = {FaceSide.BARK: "bark side", FaceSide.PITH: "pith side", FaceSide.NEITHER: ""}
#: What is said of the top of a panel.
PANEL_SHAPES = {
    PanelShape.HOLLOW: "hollow above",
    PanelShape.ROUNDED: "rounded above",
    PanelShape.WAVY: "wavy",
}


class SectionYear(NamedTuple):
    """The year a piece is looked at in; ``other`` the piece at the other end of it."""

    room: Room
    span: YearSpan
    other: Piece | None


def section_answer(piece: Piece, rings: str, units: str, year: SectionYear | None = None) -> Answer:
    """What becomes of a board, a round or a panel.

    Parameters: piece; rings of a panel, 'alike' or 'alternating'; units 'us' or 'si'; year, None
    where moisture contents were given.
    """
    if isinstance(piece, Round):
        answer = _round_answer(piece, units)
    elif isinstance(piece, PanelSection):
        answer = _panel_answer(piece, rings, units)
    else:
        answer = _board_answer(piece, units)
    room = year.room if year else None
    first = piece.boards[0] if isinstance(piece, PanelSection) else piece
    answer.headline += [
        *(_year_lines(year, units) if year else []),
    ]
    answer.facts += room_facts(room)
    answer.sections.append(based_on(first.shares.basis.values))
    answer.notes += room_notes(room, units)
    return answer


def _year_lines(year: SectionYear, units: str) -> list[str]:
    season, span = year.room.season, year.span

    def told(end: DesignEnd) -> str:
        name = "driest" if end == season.design_driest else "wettest"
        return f"the {name} to design for, {end_text(end)}"

    if span.first:
        words = f"As made at {told(span.first)}, then at {told(span.last)}"
    else:
        words = f"Farthest from that in the year is {told(span.last)}"
    lines = [f"{words}: {year.room.label}."]
    if span.other and year.other:
        lines.append(
            f"To {told(span.other)}, {change_words(year.other, units, _marks(year.other))}."
        )
    return [*lines, *room_lines(season)]


def _marks(piece: Piece) -> str:
    """How the shrinkage of a piece is known, as a mark."""
    first = piece.boards[0] if isinstance(piece, PanelSection) else piece
    return marks(*first.shares.basis.values)


def change_words(piece: Piece, units: str, mark: str = "") -> str:
    """'from 12 % to 6 % it cups 0.064 in, ...': what becomes of a piece, in the words it needs.

    Parameters: piece; units 'us' or 'si'; mark of how its figures are known.
    """
    if isinstance(piece, Round):
        words = _oval_words(piece, units, mark)
    elif isinstance(piece, PanelSection):
        words = _flat_words(piece, units, mark)
    else:
        words = (_leg_words if _is_leg(piece) else _cup_words)(piece, units, mark)
    first = piece.boards[0] if isinstance(piece, PanelSection) else piece
    start, end = percent_text(first.from_moisture_pct), percent_text(first.to_moisture_pct)
    return f"from {start} to {end} {words}"


def _likely(figure: Range, units: str, mark: str) -> str:
    return likely_text(figure, "change", units, mark)


def _placed(pith: Pith, half_width_mm: float, half_thickness_mm: float, units: str) -> str:
    """Where the pith lies, in words: how far from the face, or how the rings run.

    Parameters: pith; half_width_mm, half_thickness_mm of the piece [mm]; units.
    """
    rings = f"rings at {pith.ring_angle_deg:.0f} degrees to the face"
    if pith.far:
        return f"straight {rings}"
    size, x, y = KINDS["size"].text, pith.point.real, pith.point.imag
    if abs(x) < 1e-6:
        where = "below" if y < 0.0 else "above"
        return f"the pith {size(abs(y) - half_thickness_mm, units)} {where}"
    if abs(y) < 1e-6:
        where = "left" if x < 0.0 else "right"
        return f"the pith {size(abs(x) - half_width_mm, units)} to the {where}"
    return f"{rings} in the middle, {size(pith.distance_mm, units)} from the pith"


def _outline(points: Iterable[complex], units: str) -> list[list[float]]:
    number = KINDS["change"].number
    return [[number(z.real, units), number(z.imag, units)] for z in points]


def _facts(s: CrossSection | Round) -> list[tuple[Column, Any]]:
    return [
        *wood_facts(s.wood),
        (Column("from_moisture", "", "percent"), s.from_moisture_pct),
        (Column("to_moisture", "", "percent"), s.to_moisture_pct),
        (Column("radial_shrinkage", "", "percent"), 100.0 * s.shares.radial),
        (Column("tangential_shrinkage", "", "percent"), 100.0 * s.shares.tangential),
        (Column("ring_angle_deg", ""), round(s.pith.ring_angle_deg, 2)),
        (Column("pith_from_middle", "", "size"), None if s.pith.far else s.pith.distance_mm),
    ]


def _notes(s: CrossSection | Round, units: str, rocks: bool = False) -> list[str]:
    return [
        *identity(s.wood),
        *sentences(s.shares.notes, units),
        *([Heed(_CAUTION)] if rocks else []),
        *_NOTES,
        *computed_notes(movement_method(s.shares.basis), s.shares.basis.values),
    ]


def _bent(cup_mm: float) -> str:
    if abs(cup_mm) < _FLAT_MM:
        return "straight"
    return "hollow" if cup_mm > 0.0 else "rounded"


def _crosses_zero(figure: Range) -> list[str]:
    if abs(figure.expected) < _FLAT_MM or figure.low * figure.high >= 0.0:
        return []
    return ["The likely range passes zero: a single board may bend the other way."]


def _above_or_below(face: Face) -> str:
    return "above" if face.name == "top" else "below"


def _is_leg(s: CrossSection) -> bool:
    return 1.0 / _LEG <= s.width_mm / s.thickness_mm <= _LEG


def _board_answer(s: CrossSection, units: str) -> Answer:
    """What becomes of a board, or of a squared leg."""
    size, leg = KINDS["size"].text, _is_leg(s)
    placed = _placed(s.pith, s.width_mm / 2.0, s.thickness_mm / 2.0, units)
    headline = [
        f"{sentence(s.wood.common_name)}, {size(s.width_mm, units)} x "
        f"{size(s.thickness_mm, units)}, {placed}: {change_words(s, units, _marks(s))}."
    ]
    if not leg:
        headline.append(
            f"Then it is {size(s.faces['top'].after_mm, units)} wide above, "
            f"{size(s.faces['bottom'].after_mm, units)} below, and {size(s.middle_mm, units)} "
            f"thick in the middle; its corners {_corner_words(s.out_of_square_deg)}."
        )
    rocks = not leg and s.cupped.cup_mm.expected >= _ROCKS_MM
    told = s.diagonal_difference_mm if leg else s.cupped.cup_mm
    outline = [z for n in FACES for z in s.outline[n][:: len(s.outline[n]) // _PIECES][:_PIECES]]
    return Answer(
        headline=headline,
        names=sold_as(s.wood),
        facts=[
            *_facts(s),
            (Column("width", "", "size"), s.width_mm),
            (Column("thickness", "", "size"), s.thickness_mm),
            (Column("middle_thickness", "", "size"), s.middle_mm),
            (Column("out_of_square_deg", ""), round(s.out_of_square_deg, 3)),
            (Column("corners_deg", ""), [round(c, 3) for c in s.corners_deg]),
            *range_facts("diagonal_difference", "change", s.diagonal_difference_mm),
            (Column("outline", "", "change"), _outline(outline, units)),
        ],
        sections=[_faces_section(s, aside=not leg)],
        notes=[*_crosses_zero(told), *_notes(s, units, rocks)],
    )


def _faces_section(s: CrossSection, aside: bool) -> Section:
    """Every face; ``aside`` where the headline tells them. Of a leg none cups."""
    columns = [
        Column("face", "face"),
        Column("side", "side"),
        Column("before", "now", "size"),
        Column("after", "then", "size"),
        Column("change", "change", "change"),
        Column("face_length", "", "size"),
        Column("bend", "shape"),
        *(c._replace(aside=True) for c in likely_columns("cup", "cup", "change")),
    ]
    rows = []
    for f in (s.faces[n] for n in ("top", "bottom", "left", "right")):
        sizes = f.before_mm, f.after_mm, f.after_mm - f.before_mm, f.along_mm
        rows.append((f.name, _SIDES[f.side], *sizes, _bent(f.cup_mm.expected), *f.cup_mm))
    return Section.of("faces", "", columns, rows, aside=aside)


def _cup_words(s: CrossSection, units: str, mark: str) -> str:
    face = s.cupped
    if abs(face.cup_mm.expected) < _FLAT_MM:
        less = "half a thousandth of an inch" if units == "us" else "0.02 mm"
        return f"it stays flat, a cup of less than {less}"
    where = f"on the {_SIDES[face.side]}" if face.side else _above_or_below(face)
    return f"it cups {_likely(face.cup_mm, units, mark)}, hollow {where}"


def _corner_words(out_of_square_deg: float) -> str:
    off = f"{abs(out_of_square_deg):.1f}"
    return "stay square" if off == "0.0" else f"are at most {off} degrees off square"


def _leg_words(s: CrossSection, units: str, mark: str) -> str:
    gap = s.diagonal_difference_mm
    if abs(gap.expected) < _FLAT_MM:
        wide, thick = (s.faces[n].after_mm - s.faces[n].before_mm for n in ("bottom", "right"))
        return (
            f"its width {way_text(wide, units)} and its thickness {way_text(thick, units)}; its "
            "corners stay square"
        )
    if gap.low * gap.high > 0.0:
        gap = gap.unsigned
    return (
        f"it becomes a diamond, its diagonals {_likely(gap, units, mark)} apart and its corners "
        f"{abs(s.out_of_square_deg):.1f} degrees off square"
    )


def _round_answer(r: Round, units: str) -> Answer:
    """What becomes of a dowel or turned leg."""
    placed = _placed(r.pith, r.diameter_mm / 2.0, r.diameter_mm / 2.0, units)
    columns = [
        Column("widest_diameter", "widest", "size"),
        Column("narrowest_diameter", "narrowest", "size"),
        *likely_columns("oval", "difference", "change"),
    ]
    row = (r.widest_mm, r.narrowest_mm, *r.oval_mm)
    return Answer(
        headline=[
            f"{sentence(r.wood.common_name)}, a round of "
            f"{KINDS['size'].text(r.diameter_mm, units)}, {placed}: "
            f"{change_words(r, units, _marks(r))}."
        ],
        names=sold_as(r.wood),
        facts=[
            *_facts(r),
            (Column("diameter", "", "size"), r.diameter_mm),
            (Column("outline", "", "change"), _outline(r.outline[::4][:-1], units)),
        ],
        sections=[Section.of("diameters", "", columns, [row])],
        notes=[*_crosses_zero(r.oval_mm), *_notes(r, units)],
    )


def _oval_words(r: Round, units: str, mark: str) -> str:
    if r.oval_mm.expected < _FLAT_MM:
        return "it stays round"
    across = "across the rings" if r.shares.tangential > 0.0 else "along the rings"
    return f"it becomes oval, {_likely(r.oval_mm, units, mark)} thicker {across}"


def _panel_answer(p: PanelSection, rings: str, units: str) -> Answer:
    """What becomes of a panel of boards, their rings 'alike' or 'alternating'."""
    size, first = KINDS["size"].text, p.boards[0]
    flat = p.out_of_flat_mm.expected < _FLAT_MM
    placed = _placed(first.pith, first.width_mm / 2.0, first.thickness_mm / 2.0, units)
    outline = [z for n in FACES for z in p.outline[n][:: 512 // 8]]
    return Answer(
        headline=[
            f"{sentence(p.wood.common_name)}, a panel of {len(p.boards)} boards of "
            f"{size(first.width_mm, units)} x {size(first.thickness_mm, units)}, rings {rings}, "
            f"{placed}{' the first' if rings == 'alternating' else ''}: "
            f"{change_words(p, units, _marks(p))}.",
            f"{size(p.width_mm, units)} wide now, it is {size(p.top_mm, units)} then, straight "
            "across the top from edge to edge.",
        ],
        names=sold_as(p.wood),
        facts=[
            *_facts(first),
            (Column("rings", ""), rings),
            (Column("width", "", "size"), p.width_mm),
            (Column("thickness", "", "size"), first.thickness_mm),
            (Column("top_after", "", "size"), p.top_mm),
            (Column("bottom_after", "", "size"), p.bottom_mm),
            (Column("bend", ""), "flat" if flat else PANEL_SHAPES[p.shape]),
            (Column("highest", "", "change"), p.highest_mm),
            (Column("lowest", "", "change"), p.lowest_mm),
            *range_facts("out_of_flat", "change", p.out_of_flat_mm),
            (Column("outline", "", "change"), _outline(outline, units)),
        ],
        sections=[_boards_section(p)],
        notes=[
            "Boards are put edge to edge as they come, each bent by itself; the stress in the "
            "joints is left out.",
            *_notes(first, units),
        ],
    )


def _boards_section(p: PanelSection) -> Section:
    columns = [
        Column("stave", "board", "count"),
        Column("hollow", "hollow"),
        Column("top_after", "top then", "size"),
        Column("bottom_after", "bottom then", "size"),
        *likely_columns("cup", "cup by itself", "change"),
    ]
    rows = []
    for i, b in enumerate(p.boards, start=1):
        cup = b.cupped.cup_mm
        hollow = "flat" if cup.expected < _FLAT_MM else _above_or_below(b.cupped)
        rows.append((i, hollow, b.faces["top"].after_mm, b.faces["bottom"].after_mm, *cup))
    return Section.of("panel_staves", "", columns, rows, aside=True)


def _flat_words(p: PanelSection, units: str, mark: str) -> str:
    if p.out_of_flat_mm.expected < _FLAT_MM:
        return "it stays flat"
    return f"it goes {_likely(p.out_of_flat_mm, units, mark)} out of flat, {PANEL_SHAPES[p.shape]}"
