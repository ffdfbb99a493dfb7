"""The boards of a buying plan, drawn with the names of their blanks on them, and told in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.buying_words import heading
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import bare_size
from woodref.cutting.model import blank_positions
from woodref.lumber.cutting_instructions import alike, blank_words, cut_words, used_pct
from woodref.report.blank_labels import LETTER, LETTERS, LINE, label
from woodref.report.markup import Markup, element, joined
from woodref.report.tables import region

if TYPE_CHECKING:
    from woodref.cutting.model import CutBoard, CutPlan
    from woodref.lumber.buying import BuyingPlan
    from woodref.lumber.lots import LotPlan

#: Width of a drawing in its own units; a board is drawn no taller than this to make room for words,
#: and its blanks no more than so many times as wide as they are.
_WIDE, _TALL, _MOST_TIMES = 1000.0, 120.0, 2.5
#: Height at which a blank takes two lines.
_TWO_LINES = 2.0 * LINE + 4.0
LOOK = "Look every board over before the first cut: a plan sees no knots, checks or sapwood."


class _Drawn(NamedTuple):
    """A blank as it is drawn, with what is to be said of it."""

    x: float
    y: float
    wide: float
    high: float
    name: str
    width: str
    start: str
    end: str

    @property
    def told(self) -> str:
        """All that is to be said of it, in a line."""
        return f"{self.name}, {self.width}, {self.start} to {self.end}"


class _Scale(NamedTuple):
    """How boards of a lot are drawn: units to the millimeter, along and across."""

    along: float
    across: float

    @property
    def times(self) -> float:
        """How many times as wide a board is drawn as it is long."""
        return self.across / self.along


def _sold_mm(lot: LotPlan, board: CutBoard) -> float:
    """Length of a board as sold, its end trim counted [mm]."""
    return max(lot.sizes[board.stock][1], lot.plan.stock[board.stock].length_mm)


def _scale(lot: LotPlan) -> _Scale:
    plan = lot.plan
    along = _WIDE / max(_sold_mm(lot, b) for b in plan.boards)
    narrowest = min(plan.blanks[i].width_mm for b in plan.boards for i in b.blanks) * along
    widest = max(plan.stock[b.stock].width_mm for b in plan.boards) * along
    times = min(_MOST_TIMES, _TWO_LINES / narrowest, _TALL / widest)
    return _Scale(along, along * max(1.0, times))


def _blanks(lot: LotPlan, board: CutBoard, scale: _Scale, units: str) -> list[_Drawn]:
    """The blanks of a board, their places told from its end."""
    plan = lot.plan
    trim = (_sold_mm(lot, board) - plan.stock[board.stock].length_mm) / 2.0
    drawn = []
    for place in blank_positions(plan, board):
        blank = plan.blanks[place.blank]
        start = place.along_mm + trim
        ends = [bare_size(mm, units) for mm in (start, start + blank.length_mm)]
        drawn.append(
            _Drawn(
                start * scale.along,
                place.across_mm * scale.across,
                blank.length_mm * scale.along,
                blank.width_mm * scale.across,
                " ".join(blank_words(blank).split()),
                f"{bare_size(blank.width_mm, units)} wide",
                *ends,
            )
        )
    return drawn


def _rect(class_: str, x: float, y: float, wide: float, high: float) -> Markup:
    return element(
        "rect",
        class_=class_,
        x=f"{x:.1f}",
        y=f"{y:.1f}",
        width=f"{wide:.1f}",
        height=f"{high:.1f}",
    )


def _written(blank: _Drawn, lines: Sequence[str], upright: bool) -> Markup:
    """Lines in the middle of a blank."""
    x, y = blank.x + blank.wide / 2.0, blank.y + blank.high / 2.0
    first = -(len(lines) - 1) * LINE / 2.0 + 0.34 * LETTERS
    spans = [
        element("tspan", line, x="0", y=f"{first + LINE * k:.1f}") for k, line in enumerate(lines)
    ]
    turn = " rotate(-90)" if upright else ""
    return element("text", joined(spans, ""), transform=f"translate({x:.1f} {y:.1f}){turn}")


def _below(blanks: Sequence[_Drawn], floor: float) -> tuple[list[Markup], float]:
    """Blanks too small to be written on, told below with a line to each; and how far that goes.

    Those at the left stand lowest and are written to the right, so that no line runs through
    another's words; those at the right end are written to the left.
    """

    def turned(b: _Drawn) -> bool:
        return b.x + b.wide / 2.0 + len(b.told) * LETTER > _WIDE

    order = sorted(blanks, key=lambda b: (turned(b), b.x if turned(b) else -b.x))
    parts = []
    for row, b in enumerate(order, 1):
        x, y = b.x + b.wide / 2.0, floor + LINE * row
        at = x - 4.0 if turned(b) else x + 4.0
        parts += [
            element("path", class_="lead", d=f"M{x:.1f} {b.y + b.high / 2.0:.1f}V{y:.1f}"),
            element(
                "text",
                b.told,
                class_="out left" if turned(b) else "out",
                x=f"{at:.1f}",
                y=f"{y:.1f}",
            ),
        ]
    return parts, floor + LINE * len(order) + (6.0 if order else 0.0)


def _drawing(lot: LotPlan, board: CutBoard, scale: _Scale, units: str) -> Markup:
    """One board, the name, the width and the place of each blank on it."""
    stock = lot.plan.stock[board.stock]
    length, width = _sold_mm(lot, board) * scale.along, stock.width_mm * scale.across
    blanks = _blanks(lot, board, scale, units)
    labels = [label(b.name, b.width, b.start, b.end, b.wide, b.high) for b in blanks]
    outside, low = _below([b for b, told in zip(blanks, labels, strict=True) if not told], width)
    shapes = [
        _rect("board", 0.0, 0.0, length, width),
        *(_rect("blank", b.x, b.y, b.wide, b.high) for b in blanks),
        *(
            _written(b, told.lines, told.upright)
            for b, told in zip(blanks, labels, strict=True)
            if told
        ),
        *outside,
    ]
    return element(
        "svg",
        joined(shapes, ""),
        viewBox=f"-1 -1 {_WIDE + 2.0:g} {low + 2.0:.1f}",
        class_="cuts",
        role="img",
        aria_label=f"{used_pct(lot.plan, board):.0f} % used: {cut_words(lot.plan, board, units)}",
    )


def _board(lot: LotPlan, board: CutBoard, number: int, scale: _Scale, units: str) -> Markup:
    plan = lot.plan
    title = f"Board {number}"
    told = element(
        "figcaption",
        element("span", class_="tick", aria_hidden="true"),
        " ",
        element("b", title),
        f": {plan.stock[board.stock].name}, {used_pct(plan, board):.0f} % used",
    )
    return element(
        "figure",
        told,
        region(_drawing(lot, board, scale, units), f"{title}, drawn"),
        class_="board",
    )


def _in_words(plan: CutPlan, first: int, units: str) -> Markup:
    """The cuts of the boards of a lot, those that are cut alike told once."""
    items = []
    for board, many in alike(plan):
        what = plan.stock[board.stock].name
        times = f"{many} boards {what}, cut alike" if many > 1 else what
        items.append(element("li", element("b", times), f": {cut_words(plan, board, units)}."))
    last = first + len(plan.boards) - 1
    which = f"Board {first}" if last == first else f"Boards {first} to {last}"
    return element(
        "details",
        element("summary", f"{which} in words, rough sizes"),
        element("ul", joined(items)),
        open="open",
    )


def _lot(lot: LotPlan, numbers: Iterator[int], units: str) -> Markup:
    scale = _scale(lot)
    ordered = [(next(numbers), board) for board in lot.plan.boards]
    wider = f"widths drawn {scale.times:.1f} times as large" if scale.times > 1.05 else ""
    return joined(
        [
            element(
                "h3",
                joined([sentence(heading(lot)), element("small", wider) if wider else ""], " "),
            ),
            *(_board(lot, board, n, scale, units) for n, board in ordered),
            _in_words(lot.plan, ordered[0][0], units),
        ]
    )


def plan_blocks(plan: BuyingPlan, units: str) -> Markup:
    """The boards of a plan lot by lot, numbered through.

    Parameters: plan; units 'us' or 'si'.
    """
    numbers = count(1)
    lots = [_lot(lot, numbers, units) for lot in plan.lots if lot.plan.boards]
    if not lots:
        return Markup()
    unit = "inches" if units == "us" else "mm"
    places = f"Places in {unit} from the left end of the board, its end trim counted. {LOOK}"
    return joined([element("p", places, class_="note lead-in"), *lots])
