"""A drawing of a cutting plan for the shop wall: every board, and where each blank is cut."""

from __future__ import annotations

from collections.abc import Sequence
from string import ascii_uppercase
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.buying_words import heading, plan_title
from woodref.charts.figure import (
    HATCHES,
    INK,
    PIXELS_PER_INCH,
    QUIET,
    SMALL_PT,
    TEXT_PT,
    style,
    wrapped,
)
from woodref.charts.sheet import WOOD, letters_px, room_of, sheet
from woodref.cutting.model import Blank, BlankPosition, CutBoard, CutPlan, blank_positions
from woodref.errors import InputError
from woodref.lumber.cutting_instructions import alike, blank_words, rest_of, used_pct
from woodref.lumber.rough import size_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.lumber.buying import BuyingPlan

#: Fill of offcuts, which are hatched as well.
_OFFCUT = "#e8e8e8"
_WIDTH_PX = 1000
_ROOM_PX = 976.0
#: Tallest drawing; a picture cannot be much taller [px].
_MOST_PX = 30_000.0
#: Room above a board for its heading, and for that of a lot, and below one for its key [px].
_HEADING_PX, _LOT_PX, _BELOW_PX = 22.0, 36.0, 8.0
#: A letter is about this much of its size wide, and a line of them this high.
_LETTER, _LINE = 0.58, 1.3
#: The smallest letters on a blank [pt].
_LEAST_PT = 7.0


class _Row(NamedTuple):
    """One kind of cut board: its plan, the board, its heading, that of its lot, and its key."""

    plan: CutPlan
    board: CutBoard
    heading: str
    lot: str
    places: list[_Place]
    key: str
    units: str


class _Place(NamedTuple):
    """A blank on its board, and the words on it with the size of their letters [pt]."""

    blank: Blank
    at: BlankPosition
    words: str
    points: float


def bare(size_mm: float, units: str) -> str:
    """A rough size without its unit: '29', '4-3/8', '111.1'."""
    return size_words(size_mm, units).removesuffix(" in").removesuffix(" mm")


def size_of(blank: Blank, units: str) -> str:
    """'29 x 4-3/8 in'."""
    return f"{bare(blank.length_mm, units)} x {size_words(blank.width_mm, units)}"


def reach_of(blank: Blank, at: BlankPosition, units: str) -> str:
    """'57 to 86': where a blank begins and where it is cut off, from the end of its board."""
    return f"{bare(at.along_mm, units)} to {bare(at.along_mm + blank.length_mm, units)}"


def _fitting(blank: Blank, at: BlankPosition, wide: float, high: float, units: str) -> _Place:
    """The words of a blank that fit it: its size and its place at least, its name where it can.

    No words where not even those fit: it has a letter of the key then.
    """
    name, size, reach = blank_words(blank), size_of(blank, units), reach_of(blank, at, units)
    for words in (
        f"{name}\n{size}\n{reach}",
        f"{name}, {size}\n{reach}",
        f"{name}\n{size}, {reach}",
        f"{name}, {size}, {reach}",
        f"{size}\n{reach}",
        f"{size}, {reach}",
    ):
        lines = words.split("\n")
        longest = max(map(len, lines))
        per_pt = PIXELS_PER_INCH / 72.0
        points = min(
            SMALL_PT,
            (wide - 6.0) / (longest * _LETTER * per_pt),
            (high - 2.0) / (len(lines) * _LINE * per_pt),
        )
        if points >= (SMALL_PT if len(lines) > 2 else _LEAST_PT):
            return _Place(blank, at, words, points)
    return _Place(blank, at, "", 0.0)


def _placed(plan: CutPlan, board: CutBoard, scale: float, units: str) -> tuple[list[_Place], str]:
    """The blanks of a board with their words, and the key of those that have a letter alone."""
    places: list[_Place] = []
    key: dict[str, str] = {}
    for at in blank_positions(plan, board):
        blank = plan.blanks[at.blank]
        wide, high = blank.length_mm * scale, blank.width_mm * scale
        place = _fitting(blank, at, wide, high, units)
        if not place.words:
            told = f"{blank_words(blank)} {size_of(blank, units)}, {reach_of(blank, at, units)}"
            letter = key.setdefault(told, _letter(len(key)))
            points = min(SMALL_PT, 0.66 * min(high, wide / len(letter)))
            place = place._replace(words=letter, points=points)
        places.append(place)
    return places, "; ".join(f"{letter}: {told}" for told, letter in key.items())


def _letter(n: int) -> str:
    """'A' to 'Z', then 'AA'."""
    first, rest = divmod(n, len(ascii_uppercase))
    return (ascii_uppercase[first - 1] if first else "") + ascii_uppercase[rest]


def first_cuts(plan: CutPlan, board: CutBoard, units: str) -> str:
    """'crosscut at 29, 58-1/8 in, then rip': where the first cuts go, from the end or the edge."""
    stock = plan.stock[board.stock]
    whole = stock.width_mm if board.rip_first else stock.length_mm
    ends = [s.start_mm + s.size_mm for s in board.strips]
    cuts = [bare(end, units) for end in ends if whole - end > 0.05]
    unit = "in" if units == "us" else "mm"
    first, then = ("rip", "crosscut") if board.rip_first else ("crosscut", "rip")
    if any(len(piece) > 1 for s in board.strips for piece in s.pieces):
        then = f"{then}, then {first} again"
    return f"{first} at {', '.join(cuts)} {unit}, then {then}" if cuts else then


def _rows(plans: Sequence[tuple[str, CutPlan]], scale: float, units: str) -> list[_Row]:
    rows = []
    for lot, plan in plans:
        number = 1
        for board, count in alike(plan):
            which = f" {number}" if count == 1 else f"s {number} to {number + count - 1}"
            text = (
                f"Board{which}: {plan.stock[board.stock].name}; {first_cuts(plan, board, units)}; "
                f"{used_pct(plan, board):.0f} % used"
            )
            head = wrapped(text, _ROOM_PX, SMALL_PT)
            places, key = _placed(plan, board, scale, units)
            key = wrapped(key, _ROOM_PX, SMALL_PT) if key else ""
            rows.append(_Row(plan, board, head, "" if number > 1 else lot, places, key, units))
            number += count
    return rows


def _lines_px(text: str) -> float:
    return (text.count("\n") + 1) * letters_px(SMALL_PT) * _LINE if text else 0.0


def _high_px(row: _Row, scale: float) -> float:
    """Height of a board with its headings and its key [px]."""
    own = row.plan.stock[row.board.stock].width_mm * scale
    head = _HEADING_PX + _lines_px(row.heading) - _lines_px(" ")
    return own + head + (_LOT_PX if row.lot else 0.0) + _lines_px(row.key) + _BELOW_PX


def buying_layout(plan: BuyingPlan, name: str, units: str = "us") -> Figure:
    """A drawing of every board of a buying plan, in hand and to buy.

    Parameters: plan; name of what is built; units of the sizes written in it.
    Returns: as layout; its title says how many boards it takes and what is still short.
    Raises: as layout.
    """
    lots = [(heading(lot), lot.plan) for lot in plan.lots]
    return layout(lots, plan_title(plan), units, f"{name}. ")


def layout(
    plans: Sequence[tuple[str, CutPlan]], title: str, units: str = "us", name: str = ""
) -> Figure:
    """A drawing of every board of some plans, boards that are cut alike once.

    Parameters: plans as (heading, plan); title; units of the sizes written in it; name of what
    is built, with the end of its sentence, '' for none.
    Returns: a figure 1000 px wide, boards to one scale, the grain from left to right.
    Raises: InputError for more boards than fit a drawing.
    """
    longest = max((s.length_mm for _, p in plans for s in p.stock), default=1000.0)
    scale = (_ROOM_PX - 2.0) / longest
    rows = _rows(plans, scale, units)
    high = sum(_high_px(r, scale) for r in rows)
    if high > _MOST_PX:
        raise InputError(f"{len(rows)} layouts of boards do not fit one drawing; draw fewer parts")
    with style():
        figure, axes = sheet(
            title,
            f"{name}Rough blanks: length x width, and where each begins and is cut off, from the "
            "left end of the board once its end is trimmed. What is hatched is cut off.",
            max(high, 1.0),
            "Look every board over before the first cut: a plan sees no knots, checks or sapwood.",
            _WIDTH_PX,
        )
        top = room_of(axes)[1]
        for row in rows:
            _draw(axes, row, top, scale)
            top -= _high_px(row, scale)
    return figure


def _draw(axes: Axes, row: _Row, top: float, scale: float) -> None:
    """A board with its headings from a height downward."""
    from matplotlib.patches import Rectangle

    stock = row.plan.stock[row.board.stock]
    if row.lot:
        top -= _LOT_PX
        axes.text(0.0, top + 2.0, row.lot, weight="bold", va="bottom", size=TEXT_PT)
    top -= _HEADING_PX + _lines_px(row.heading) - _lines_px(" ")
    axes.text(0.0, top + 4.0, row.heading, size=SMALL_PT, color=QUIET, va="bottom")
    low = top - stock.width_mm * scale
    axes.add_patch(
        Rectangle(
            (1.0, low),
            stock.length_mm * scale,
            stock.width_mm * scale,
            facecolor=_OFFCUT,
            edgecolor=QUIET,
            hatch=HATCHES[1],
            linewidth=0.8,
        )
    )
    for blank, at, words, points in row.places:
        wide, high = blank.length_mm * scale, blank.width_mm * scale
        x, y = 1.0 + at.along_mm * scale, top - at.across_mm * scale - high
        axes.add_patch(Rectangle((x, y), wide, high, facecolor=WOOD, edgecolor=INK, linewidth=0.8))
        axes.text(
            x + wide / 2.0, y + high / 2.0, words, size=points, ha="center", va="center",
            linespacing=1.12,
        )  # fmt: skip
    _rest(axes, row, low, scale)
    if row.key:
        axes.text(0.0, low - 4.0, row.key, size=SMALL_PT, color=INK, va="top", linespacing=1.2)


def _rest(axes: Axes, row: _Row, low: float, scale: float) -> None:
    """The size of what the first cuts leave of a board in one piece, where it fits there."""
    rest, stock = rest_of(row.plan, row.board), row.plan.stock[row.board.stock]
    if rest is None:
        return
    length, width = rest
    words = f"left: {bare(length, row.units)} x {size_words(width, row.units)}"
    wide_px, high_px = length * scale, width * scale
    per_letter = letters_px(SMALL_PT) * _LETTER
    if len(words) * per_letter > wide_px or letters_px(SMALL_PT) * _LINE > high_px:
        return
    # The rest lies at the right end, or below the strips, which are ripped from the top down.
    x = 1.0 + (stock.length_mm - length / 2.0) * scale
    axes.text(
        x, low + high_px / 2.0, words, size=SMALL_PT, ha="center", va="center", color=QUIET,
        bbox={"boxstyle": "square,pad=0.15", "facecolor": "white", "edgecolor": "none"},
    )  # fmt: skip
