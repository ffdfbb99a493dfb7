"""A price list as a CSV file: what a species costs in a nominal thickness.

Columns, in any order: ``species``; ``thickness`` (4/4, 27 mm, or any); ``price``; ``per``
(board foot, m3, linear foot or board); optional ``low`` and ``high`` prices, ``currency``,
``note``, ``grade``, ``date`` of the price, and the ``width`` and ``length`` of boards sold by
the foot or by the piece. Lines that begin with # are remarks. A row is read whole or
reported, never dropped.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from math import isfinite
from pathlib import Path

from woodref.errors import InputError
from woodref.files import csv_header, csv_rows, did_you_mean, one_line, read_text
from woodref.lumber.nominal import SAME_MM, Nominal, parse_nominal
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.units import parse_length

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
#: Longest reason of a bad row in a message [characters]; a name in it may be endless.
_LONGEST = 300

#: From a name in the list to the identifiers of the woods it stands for.
Resolve = Callable[[str], frozenset[str]]


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class BadRow:
    """Why a row cannot be used: line, column, value as written, reason."""

    line: int
    column: str
    value: str
    reason: str

    def __str__(self) -> str:
        """'line 4, price '7,40': a decimal comma ...'."""
        value = f" '{one_line(self.value)}'" if self.value else ""
        return f"line {self.line}, {self.column}{value}: {one_line(self.reason, _LONGEST)}"


@dataclass(frozen=True)
class PriceList:
    """The prices of a file, in its order; ``file`` is the name used in messages."""

    file: str
    rows: tuple[Price, ...]
    currency: str = ""

    def find(self, species_ids: frozenset[str], nominal: Nominal, grade: str = "") -> Price | None:
        """The price of a wood in a nominal thickness by amount, None where the list has none.

        A row for the very wood goes before one for a group that holds it, the smallest group
        first; a row for the very thickness before one for any. With a grade, rows of another
        are left out, and rows without one come last; without, they come first.
        """
        fitting = [r for r in self._fitting(species_ids, nominal, grade) if r.per in BY_AMOUNT]
        return fitting[0] if fitting else None

    def for_board(
        self,
        species_ids: frozenset[str],
        nominal: Nominal,
        width_mm: float,
        length_mm: float,
        grade: str = "",
    ) -> Price | None:
        """The price of a board: of that very size, else by the foot of its width, else by amount.

        Otherwise as find.
        """
        fitting = self._fitting(species_ids, nominal, grade)
        wide = [r for r in fitting if r.width_mm and abs(r.width_mm - width_mm) < SAME_MM]
        whole = [
            r
            for r in wide
            if r.per == "board" and r.length_mm and abs(r.length_mm - length_mm) < SAME_MM
        ]
        by_foot = [r for r in wide if r.per == "linear foot"]
        found = [*whole, *by_foot, *(r for r in fitting if r.per in BY_AMOUNT)]
        return found[0] if found else None

    def _fitting(self, species_ids: frozenset[str], nominal: Nominal, grade: str) -> list[Price]:
        """Rows for a wood and a thickness, the closest first."""
        fitting = [
            row
            for row in self.rows
            if species_ids <= row.species_ids
            and (row.nominal is None or abs(row.nominal.size_mm - nominal.size_mm) < SAME_MM)
            and (not grade or row.grade.lower() in ("", grade.lower()))
        ]
        return sorted(
            fitting,
            key=lambda r: (
                len(r.species_ids),
                bool(r.grade) != bool(grade),
                r.nominal is None,
                r.line,
            ),
        )

    def thicknesses(self, species_ids: frozenset[str]) -> tuple[str, ...]:
        """Nominal thicknesses in which the list has a wood."""
        labels = [
            r.nominal.label if r.nominal else ANY_THICKNESS
            for r in self.rows
            if species_ids <= r.species_ids
        ]
        return tuple(dict.fromkeys(labels))


def read_prices(path: Path, resolve: Resolve) -> PriceList:
    """The price list in a CSV file.

    Raises: InputError, one line naming file, line, column, value and reason, where anything
    in the list cannot be used.
    """
    return parse_prices(read_text(path, "price list"), str(path), resolve)


def parse_prices(text: str, file: str, resolve: Resolve) -> PriceList:
    """The price list in CSV text; ``file`` is the name used in messages.

    Raises: as read_prices.
    """
    rows, bad = check_prices(text, file, resolve)
    if bad:
        more = [str(b.line) for b in bad[1:]]
        also = f" (and {len(more)} more, line {', '.join(more[:5])})" if more else ""
        raise InputError(f"{file}: {bad[0]}{also}")
    if not rows:
        raise InputError(f"{file}: the price list has a heading but no prices")
    return PriceList(file, tuple(rows), rows[0].currency)


def check_prices(text: str, file: str, resolve: Resolve) -> tuple[list[Price], list[BadRow]]:
    """Every row of a price list, as a price or as a bad row.

    Raises: InputError where the heading or the form of the file is wrong.
    """
    rows = csv_rows(text, file)
    first = next(rows, None)
    if first is None:
        raise InputError(f"{file}: holds remarks only; the first line is {','.join(REQUIRED)}")
    header = csv_header(first[1], f"{file}: line {first[0]}", REQUIRED, OPTIONAL)
    return check_rows(header, rows, resolve)


def check_rows(
    header: Sequence[str], rows: Iterable[tuple[int, Sequence[str]]], resolve: Resolve
) -> tuple[list[Price], list[BadRow]]:
    """Every row under a heading, with its line, as a price or as a bad row."""
    good: list[Price] = []
    bad: list[BadRow] = []
    listed = PricesByWood()
    ids_of = cache(resolve)
    for line, cells in rows:
        row = price_of(header, cells, line, ids_of)
        if isinstance(row, Price):
            row = _fits(row, listed, good[0] if good else row)
        if isinstance(row, Price):
            listed.add(row)
            good.append(row)
        else:
            bad.append(row)
    return good, bad


class PricesByWood:
    """Prices by the woods they are for, to find one of the same wood and thickness."""

    def __init__(self) -> None:
        self._rows: dict[frozenset[str], list[Price]] = {}

    def add(self, row: Price) -> None:
        """Take a price in."""
        self._rows.setdefault(row.species_ids, []).append(row)

    def same(self, row: Price) -> Price | None:
        """The price of the same wood and thickness that was taken in first, None without one."""
        for other in self._rows.get(row.species_ids, ()):
            if row.sold_as != other.sold_as:
                continue
            if row.nominal is None or other.nominal is None:
                if row.nominal is other.nominal:
                    return other
            elif abs(row.nominal.size_mm - other.nominal.size_mm) < SAME_MM:
                return other
        return None


class _BadCellError(Exception):
    """A cell that cannot be used; holds column, value and reason."""


def price_of(
    header: Sequence[str], cells: Sequence[str], line: int, ids_of: Resolve
) -> Price | BadRow:
    """One row under a heading as a price, or why it is none."""
    if len(cells) != len(header):
        hint = "; a decimal comma? write 7.40" if len(cells) > len(header) else ""
        return BadRow(
            line, "row", "", f"has {len(cells)} values, the heading {len(header)} columns{hint}"
        )
    cell = {name: " ".join(value.split()) for name, value in zip(header, cells, strict=True)}
    try:
        price = _amount(cell, "price")
        low = _amount(cell, "low") if cell.get("low") else price
        high = _amount(cell, "high") if cell.get("high") else price
        for name, wrong in (("low", low > price), ("high", high < price)):
            if wrong:
                raise _BadCellError(name, cell[name], f"is on the wrong side of {price:g}")
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
    except _BadCellError as error:
        return BadRow(line, *error.args)


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
        raise _BadCellError(column, text, reason) from None
    if not isfinite(value) or not 0.0 <= value < 1e9:
        raise _BadCellError(column, text, "is not a price from 0 to 1000000000")
    return value


def _species(name: str, ids_of: Resolve) -> frozenset[str]:
    if not name:
        raise _BadCellError("species", name, "is missing")
    try:
        return ids_of(name)
    except InputError as error:
        raise _BadCellError("species", "", str(error)) from None


def _thickness(text: str) -> Nominal | None:
    if text.lower() == ANY_THICKNESS:
        return None
    if not text:
        raise _BadCellError("thickness", text, "is missing; write 4/4, 27 mm or any")
    try:
        return parse_nominal(text)
    except InputError:
        raise _BadCellError(
            "thickness", text, "is not a nominal thickness; write 4/4, 27 mm or any"
        ) from None


def _per(text: str) -> str:
    if text.lower() not in PER:
        known = tuple(dict.fromkeys(PER.values()))
        raise _BadCellError("per", text, f"is not known{did_you_mean(text, known)}")
    return PER[text.lower()]


def _date(text: str) -> str:
    if text:
        try:
            date.fromisoformat(text)
        except ValueError:
            raise _BadCellError("date", text, "is not a date; write 2025-03-31") from None
    return text


def _board_size(
    cell: dict[str, str], column: str, per: str, needed_by: Sequence[str]
) -> float | None:
    """The size of the boards a price is for; needed for some ways to sell, else left empty."""
    text = cell.get(column, "")
    if not text:
        if per in needed_by:
            raise _BadCellError(column, text, f"is missing; a price per {per} needs it: 6 in")
        return None
    if per not in needed_by:
        raise _BadCellError(column, text, f"has no place beside a price per {per}")
    if text[-1].isdigit():
        raise _BadCellError(column, text, "has no unit; write 6 in, 8 ft or 150 mm")
    try:
        size = parse_length(text)
    except InputError as error:
        raise _BadCellError(column, text, str(error)) from None
    if not 0.0 < size <= 20_000.0:
        raise _BadCellError(column, text, "is no size of a board")
    return size


def _fits(row: Price, listed: PricesByWood, first: Price) -> Price | BadRow:
    """The row, or a bad row where it contradicts one before it."""
    if row.currency != first.currency:
        return BadRow(
            row.line,
            "currency",
            row.currency,
            f"line {first.line} has '{first.currency}'; one list has one currency",
        )
    same = listed.same(row)
    if same:
        return BadRow(
            row.line,
            "species",
            row.species,
            f"line {same.line} prices the same wood and thickness; keep one",
        )
    return row


def in_currency(prices: PriceList, currency: str) -> PriceList:
    """The list, for a piece in a currency.

    Raises: InputError where both name a currency and they differ.
    """
    if prices.currency and currency and prices.currency != currency:
        raise InputError(
            f"{prices.file}: prices are in {prices.currency}, the piece is in {currency}; "
            "name a list in the currency of the piece"
        )
    return replace(prices, currency=prices.currency or currency)


def resolver(reference: Reference) -> Resolve:
    """From a name in a price list to the identifiers of the woods it stands for.

    The function returned raises as Reference.wood.
    """

    @cache
    def ids_of(name: str) -> frozenset[str]:
        rows = reference.name_rows(name)
        ids = frozenset(row["species_id"] for row in rows)
        if len(ids) == 1 or (rows and rows[0]["name_kind"] == "group"):
            return ids  # without reading the values of the wood
        return frozenset(reference.wood(name).species_ids)

    return ids_of
