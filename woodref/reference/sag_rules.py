"""What print says of sag: usual loads of shelves, the limit of the trade, creep over years."""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import Enum
from typing import TYPE_CHECKING, Any

from woodref.record import record
from woodref.units import LBF_TO_N, M2_PER_FT2, MM_PER_FOOT

if TYPE_CHECKING:
    from woodref.reference.library import Reference


class Carried(Enum):
    """What a board carries whose load is not given as a number."""

    SHELF = "shelf"
    BOOKS = "books"
    BOOK_ROW = "row of books"
    NOTHING = "nothing"


#: The item of the table of facts that prints a usual load.
_ITEMS = {
    Carried.SHELF: "all other shelving",
    Carried.BOOKS: "school, hospital, library or book shelving",
    Carried.BOOK_ROW: "books on standard shelving, weighed by the Office of the State Architect of "
    "California",
}
_MOST = "limit on any one shelf"
_TRADE = "industry standard for maximum deflection under load"
_DRY = "initially dry timber: initial deflection as share of the long-time limit"
_MORE = "additional deflection after several years at usual design loads"
_LB_FT2, _LB_FT = "lb/ft2", "lb per running foot"
_SHARE = re.compile(r"L/([0-9]+)")


@record
class UsualLoad:
    """A usual load of a shelf: N for each m2 of it, or for each m of its length."""

    carried: Carried
    load_n_m2: float | None
    load_n_m: float | None
    basis: str
    source: str

    def per_length(self, width_mm: float) -> float:
        """The load spread over a board of that width [N/m]."""
        if self.load_n_m2 is not None:
            return self.load_n_m2 * width_mm * 1e-3
        return self.load_n_m or 0.0


@record
class CreepRule:
    """A printed rule of creep: sag after years over the first sag of a load that stays."""

    factor: float
    basis: str
    source: str


@record
class SagRules:
    """What print says of sag.

    ``loads`` by what is carried; ``most_n`` the most on any one shelf [N]; ``trade_divisor`` n
    of the limit L/n of the trade, ``trade_source`` where it stands; ``creep`` the rules, the
    lower first.
    """

    loads: Mapping[Carried, UsualLoad]
    most_n: float
    trade_divisor: float
    trade_basis: str
    trade_source: str
    creep: tuple[CreepRule, ...]


def sag_rules(reference: Reference) -> SagRules:
    """The printed rules of sag in the reference tables."""
    wanted = [*_ITEMS.values(), _MOST, _TRADE, _DRY, _MORE]
    rows = reference.store.rows(
        "select f.item, f.value, f.printed_value, f.unit, f.basis, f.page, s.short, "
        "f.printed_table from {facts} f join {sources} s using (source_id) "
        "where f.subject = 'deflection' and list_contains(?, f.item)",
        [wanted],
    )
    by_item = {row["item"]: row for row in rows}
    trade = by_item[_TRADE]
    printed = _SHARE.fullmatch(trade["printed_value"])
    assert printed
    return SagRules(
        {carried: _load(carried, by_item[item]) for carried, item in _ITEMS.items()},
        by_item[_MOST]["value"] * LBF_TO_N,
        float(printed[1]),
        trade["basis"],
        _cited(trade),
        # Both are printed as about so much: one decimal holds them.
        (
            _creep(1.0 / by_item[_DRY]["value"], by_item[_DRY]),
            _creep(1.0 + by_item[_MORE]["value"], by_item[_MORE]),
        ),
    )


def _load(carried: Carried, row: Mapping[str, Any]) -> UsualLoad:
    load_n = row["value"] * LBF_TO_N
    by_area = load_n / M2_PER_FT2 if row["unit"] == _LB_FT2 else None
    by_length = load_n / (MM_PER_FOOT * 1e-3) if row["unit"] == _LB_FT else None
    return UsualLoad(carried, by_area, by_length, row["basis"], _cited(row))


def _creep(factor: float, row: Mapping[str, Any]) -> CreepRule:
    return CreepRule(round(factor, 1), row["basis"], _cited(row))


def _cited(row: Mapping[str, Any]) -> str:
    """Publication, section and page."""
    page = f"p. {row['page']}" if row["page"] else ""
    return ", ".join(part for part in (row["short"], row["printed_table"], page) if part)
