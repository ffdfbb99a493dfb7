"""A price list as a CSV file: what a species costs in a nominal thickness.

Columns, in any order: ``species``; ``thickness`` (4/4, 27 mm, or any); ``price``; ``per``
(board foot, m3, linear foot or board); optional ``low`` and ``high`` prices, ``currency``,
``note``, ``grade``, ``date`` of the price, and the ``width`` and ``length`` of boards sold by
the foot or by the piece. Lines that begin with # are remarks. A row is read whole or
reported, never dropped.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

from woodref.errors import InputError, UnknownNameError
from woodref.files import read_text
from woodref.lumber.nominal import SAME_MM, Nominal
from woodref.lumber.price_rows import (
    ANY_THICKNESS,
    BY_AMOUNT,
    OPTIONAL,
    REQUIRED,
    Price,
    Resolve,
    price_of,
)
from woodref.record import record
from woodref.reference.library import Reference
from woodref.reference.many_names import ManyNames
from woodref.reference.names import fold
from woodref.rows import CellError, RejectedRow, open_rows, sort_rows

#: Unknown names that are told the names near to them.
SUGGESTED = 3
#: Rows of a price list; more are a wrong file.
MOST_LINES = 20_000


@record
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
        rows = [*whole, *by_foot, *(r for r in fitting if r.per in BY_AMOUNT)]
        return rows[0] if rows else None

    def ranked(self, species_ids: frozenset[str], grade: str = "") -> list[Price]:
        """Rows for a wood in any thickness, the closest first, as find takes them."""
        fitting = [
            row
            for row in self.rows
            if species_ids <= row.species_ids
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

    def _fitting(self, species_ids: frozenset[str], nominal: Nominal, grade: str) -> list[Price]:
        """Rows for a wood and a thickness, the closest first."""
        return [
            row
            for row in self.ranked(species_ids, grade)
            if row.nominal is None or abs(row.nominal.size_mm - nominal.size_mm) < SAME_MM
        ]

    def nominals(self, species_ids: frozenset[str]) -> tuple[Nominal, ...]:
        """Nominal thicknesses the list names for a wood; without rows for any thickness."""
        rows = [r.nominal for r in self.rows if r.nominal and species_ids <= r.species_ids]
        return tuple(dict.fromkeys(rows))

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
    return parse_prices(read_text(path, "price list", most_lines=MOST_LINES), str(path), resolve)


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


def check_prices(text: str, file: str, resolve: Resolve) -> tuple[list[Price], list[RejectedRow]]:
    """Every row of a price list, as a price or rejected.

    Raises: InputError where the heading or the form of the file is wrong.
    """
    header, rows = open_rows(text, file, REQUIRED, OPTIONAL)
    return check_rows(header, rows, resolve)


def check_rows(
    header: Sequence[str], rows: Iterable[tuple[int, Sequence[str]]], resolve: Resolve
) -> tuple[list[Price], list[RejectedRow]]:
    """Every row under a heading, with its line, as a price or rejected."""
    listed = PricesByWood()
    ids_of = cache(resolve)

    def use(line: int, cells: Sequence[str]) -> Price:
        row = price_of(header, cells, line, ids_of)
        _check_fit(row, listed)
        listed.add(row)
        return row

    return sort_rows(rows, use)


class PricesByWood:
    """Prices by the woods they are for, to find one of the same wood and thickness."""

    def __init__(self) -> None:
        self._rows: dict[frozenset[str], list[Price]] = {}
        #: The price that was taken in first, None before that.
        self.first: Price | None = None

    def add(self, row: Price) -> None:
        """Take a price in."""
        self.first = self.first or row
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


def _check_fit(row: Price, listed: PricesByWood) -> None:
    """Refuse a row that contradicts one before it.

    Raises: CellError.
    """
    first = listed.first or row
    if row.currency != first.currency:
        reason = f"line {first.line} has '{first.currency}'; one list has one currency"
        raise CellError("currency", row.currency, reason)
    same = listed.same(row)
    if same:
        reason = f"line {same.line} prices the same wood and thickness; keep one"
        raise CellError("species", row.species, reason)


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

    The name of a trade group prices all of it, also where it means one of them as a wood: yards
    mix them. The function returned raises as Reference.wood; of many unknown names the first
    alone are looked at for names that are near.
    """
    many = cache(lambda: ManyNames(reference))
    unknown: list[str] = []

    @cache
    def ids_of(name: str) -> frozenset[str]:
        if len(unknown) >= SUGGESTED and not many().meaning(name):
            raise UnknownNameError(name)
        if not reference.rows_found(fold(name)):
            try:
                return frozenset(reference.wood(name).species_ids)
            except UnknownNameError:
                unknown.append(name)
                raise
        group, rows = reference.name_rows(name), reference.meant_rows(name)
        ids = frozenset(row["species_id"] for row in rows)
        if group and group[0]["name_kind"] == "group":
            members = frozenset(row["species_id"] for row in group)
            return members if ids <= members else ids
        if len(ids) == 1 and None not in ids:
            return ids  # without reading the values of the wood
        return frozenset(reference.wood(name).species_ids)

    return ids_of
