"""A row of a price list: what a wood costs in a nominal thickness."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from math import isfinite

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.quantity import Range
from woodref.record import record
from woodref.rows import DECIMAL_COMMA, CellError, by_column
from woodref.written import parse_length

REQUIRED = ("species", "thickness", "price", "per")
OPTIONAL = ("low", "high", "currency", "note", "grade", "date", "width", "length")
COLUMNS = (*REQUIRED, *OPTIONAL)
#: What a price can be per, by the words a list may use.
PER = {
    "board foot": "board foot",
    "bd ft": "board foot",
    "m3": "m3",
    "m³": "m3",
    "cubic meter": "m3",
    "linear foot": "linear foot",
    "lin ft": "linear foot",
    "board": "board",
}
#: Prices for an amount of wood, whatever the board; the others are for boards of one size.
BY_AMOUNT = ("board foot", "m3")
ANY_THICKNESS = "any"

#: From a name in the list to the identifiers of the woods it stands for.
Resolve = Callable[[str], frozenset[str]]


@record
class Price:
    """One row: the price of a wood; ``nominal`` None where it holds for any thickness.

    ``width_mm`` of boards sold by the foot, and ``length_mm`` too of those sold by the piece;
    ``date`` as YYYY-MM-DD.
    """

    line: int
    species: str
    species_ids: frozenset[str]
    nominal: Nominal | None
    price: Range
    per: str
    currency: str = ""
    grade: str = ""
    date: str = ""
    width_mm: float | None = None
    length_mm: float | None = None

    @property
    def sold_as(self) -> tuple[str, str, float, float]:
        """What tells it from other prices of the same wood and thickness."""
        how = "amount" if self.per in BY_AMOUNT else self.per
        sizes = (round(x or 0.0, 1) for x in (self.width_mm, self.length_mm))
        return (how, self.grade.lower(), *sizes)  # type: ignore[return-value]


def price_of(header: Sequence[str], cells: Sequence[str], line: int, ids_of: Resolve) -> Price:
    """One row under a heading as a price.

    Raises: CellError for a cell that cannot be used; InputError for a row of another length.
    """
    cell = by_column(header, cells, DECIMAL_COMMA)
    price = _amount(cell, "price")
    low = _amount(cell, "low") if cell.get("low") else price
    high = _amount(cell, "high") if cell.get("high") else price
    for name, wrong in (("low", low > price), ("high", high < price)):
        if wrong:
            raise CellError(name, cell[name], f"is on the wrong side of {price:g}")
    per = _per(cell["per"])
    return Price(
        line=line,
        species=cell["species"],
        species_ids=_species(cell["species"], ids_of),
        nominal=_thickness(cell["thickness"]),
        price=Range(price, low, high),
        per=per,
        currency=cell.get("currency", ""),
        grade=cell.get("grade", ""),
        date=_date(cell.get("date", "")),
        width_mm=_board_size(cell, "width", per, ("linear foot", "board")),
        length_mm=_board_size(cell, "length", per, ("board",)),
    )


def _amount(cell: dict[str, str], column: str) -> float:
    text = cell[column]
    try:
        value = float(text)
    except ValueError:
        comma = text.count(",") == 1 and text.replace(",", "").isdigit()
        reason = (
            f"a decimal comma; write {text.replace(',', '.')}"
            if comma
            else "is missing"
            if not text
            else "is not a number; write a plain one such as 7.40"
        )
        raise CellError(column, text, reason) from None
    if not isfinite(value) or not 0.0 <= value < 1e9:
        raise CellError(column, text, "is not a price from 0 to 1000000000")
    return value


def _species(name: str, ids_of: Resolve) -> frozenset[str]:
    if not name:
        raise CellError("species", name, "is missing")
    try:
        return ids_of(name)
    except InputError as error:
        raise CellError("species", "", str(error)) from None


def _thickness(text: str) -> Nominal | None:
    if text.lower() == ANY_THICKNESS:
        return None
    if not text:
        raise CellError("thickness", text, "is missing; write 4/4, 27 mm or any")
    try:
        return parse_nominal(text)
    except InputError:
        raise CellError(
            "thickness", text, "is not a nominal thickness; write 4/4, 27 mm or any"
        ) from None


def _per(text: str) -> str:
    if text.lower() not in PER:
        known = tuple(dict.fromkeys(PER.values()))
        raise CellError("per", text, f"is not known{did_you_mean(text, known)}")
    return PER[text.lower()]


def _date(text: str) -> str:
    if text:
        try:
            date.fromisoformat(text)
        except ValueError:
            raise CellError("date", text, "is not a date; write 2025-03-31") from None
    return text


def _board_size(
    cell: dict[str, str], column: str, per: str, needed_by: Sequence[str]
) -> float | None:
    """The size of the boards a price is for; needed for some ways to sell, else left empty."""
    text = cell.get(column, "")
    if not text:
        if per in needed_by:
            raise CellError(column, text, f"is missing; a price per {per} needs it: 6 in")
        return None
    if per not in needed_by:
        raise CellError(column, text, f"has no place beside a price per {per}")
    if text[-1].isdigit():
        raise CellError(column, text, "has no unit; write 6 in, 8 ft or 150 mm")
    try:
        size = parse_length(text)
    except InputError as error:
        raise CellError(column, text, str(error)) from None
    if not 0.0 < size <= 20_000.0:
        raise CellError(column, text, "is no size of a board")
    return size
