"""Nails, screws and lag screws from the reference tables: sizes, coefficients, single facts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from woodref.quantity import Range
from woodref.record import record

if TYPE_CHECKING:
    from woodref.reference.library import Reference

COMMON_NAIL = "bright common wire nail"
BOX_NAIL = "smooth box nail"
RING_NAIL = "helically and annularly threaded nail"


@record
class FastenerSize:
    """A nail by its pennyweight, or a screw by its gauge; the length None for a screw [mm]."""

    size: str
    diameter_mm: float
    length_mm: float | None
    basis: str
    source: str


@record
class LateralClass:
    """The lateral coefficients of a class of specific gravity [N/mm1.5 for nails, N/mm2]."""

    low: float
    high: float
    nail: float
    screw: float
    lag: float
    basis: str
    source: str


@record
class Fact:
    """A printed fact: one value, or the ends of a range, in a unit as printed."""

    low: float
    high: float
    unit: str
    basis: str
    source: str

    @property
    def middle(self) -> float:
        """The value, or the middle of the range."""
        return (self.low + self.high) / 2.0

    @property
    def shares(self) -> Range:
        """A percentage or a ratio as shares of 1."""
        whole = 100.0 if self.unit.startswith("%") else 1.0
        return Range(self.middle / whole, self.low / whole, self.high / whole)


@record
class LagHole:
    """The pilot hole of a lag screw in some woods, as a share of its shank."""

    woods: frozenset[str]
    share: Fact


@record
class ScrewLength:
    """The gauges of a length of screw [mm] that the withdrawal equation covers."""

    length_mm: float
    gauge_min: int
    gauge_max: int


@record
class FastenerTables:
    """What the tables hold of fasteners.

    ``sizes`` by kind and size; ``lateral`` by kind of wood, the lightest class first;
    ``lag_holes`` in the order of print, the lightest woods first; ``lag_thickness`` the factor on
    the lateral load of a lag screw by the thickness of the side member in shanks, ``lag_across``
    that of a load across the grain by the shank [mm], each from the least; ``facts`` by topic and
    item.
    """

    sizes: Mapping[str, Mapping[str, FastenerSize]]
    lateral: Mapping[str, tuple[LateralClass, ...]]
    screw_lengths: tuple[ScrewLength, ...]
    lag_holes: tuple[LagHole, ...]
    lag_thickness: tuple[tuple[float, float], ...]
    lag_across: tuple[tuple[float, float], ...]
    facts: Mapping[tuple[str, str], Fact]


def fastener_tables(reference: Reference) -> FastenerTables:
    """Everything the tables hold of nails, screws and lag screws."""
    return FastenerTables(
        _sizes(reference),
        _lateral(reference),
        tuple(
            ScrewLength(r["screw_length_mm"], r["gauge_min"], r["gauge_max"])
            for r in reference.store.rows("from {screw_length_limits} order by screw_length_mm")
        ),
        _lag_holes(reference),
        _lag_factors(reference, "lateral load parallel to the grain"),
        _lag_factors(reference, "lateral load perpendicular to the grain"),
        _facts(reference),
    )


def _sizes(reference: Reference) -> dict[str, dict[str, FastenerSize]]:
    rows = reference.store.rows(
        "select f.*, s.short from {fasteners} f join {sources} s using (source_id) "
        "order by f.source_line"
    )
    sizes: dict[str, dict[str, FastenerSize]] = {}
    for r in rows:
        size = FastenerSize(r["size"], r["diameter_mm"], r["length_mm"], r["basis"], _cited(r))
        sizes.setdefault(r["kind"], {})[r["size"]] = size
    return sizes


def _lateral(reference: Reference) -> dict[str, tuple[LateralClass, ...]]:
    rows = reference.store.rows(
        "select n.wood, n.specific_gravity_min, n.specific_gravity_max, n.k_metric as nail, "
        "w.k_metric as screw, l.k_metric as lag, n.basis, n.page, n.printed_table, s.short "
        "from {fastener_loads} n join {fastener_loads} w using (source_table, source_line) "
        "join {fastener_loads} l using (source_table, source_line) "
        "join {sources} s on s.source_id = n.source_id "
        "where n.fastener = 'nail' and w.fastener = 'wood screw' and l.fastener = 'lag screw' "
        "and n.load = 'lateral' "
        "order by n.wood, n.specific_gravity_min"
    )
    classes: dict[str, tuple[LateralClass, ...]] = {}
    for r in rows:
        ends = r["specific_gravity_min"], r["specific_gravity_max"]
        of = LateralClass(*ends, r["nail"], r["screw"], r["lag"], r["basis"], _cited(r))
        classes[r["wood"]] = (*classes.get(r["wood"], ()), of)
    return classes


def _facts(reference: Reference) -> dict[tuple[str, str], Fact]:
    rows = reference.store.rows(
        "select f.*, s.short from {facts} f join {sources} s using (source_id) "
        "where f.subject = 'fasteners' and (f.value is not null or f.value_high is not null)"
    )
    return {(r["topic"], r["item"]): _fact(r) for r in rows}


def _lag_holes(reference: Reference) -> tuple[LagHole, ...]:
    taken = ["value", "value_low", "value_high", "unit", "basis", "page", "printed_table"]
    first = ", ".join(f"any_value(f.{column}) as {column}" for column in taken)
    rows = reference.store.rows(
        f"select {first}, any_value(s.short) as short, list(w.species_id) as woods "
        "from {facts} f join {sources} s using (source_id) left join {woods_named} w "
        "on w.source_table = f.source_table and w.source_line = f.source_line "
        "where f.topic = 'lag screw lead hole' group by f.source_line order by f.source_line"
    )
    return tuple(LagHole(frozenset(r["woods"]), _fact(r)) for r in rows)


def _lag_factors(reference: Reference, adjustment: str) -> tuple[tuple[float, float], ...]:
    rows = reference.store.rows(
        "select argument_value, factor from {lag_screw_factors} where adjustment = ? "
        "order by argument_value",
        [adjustment],
    )
    return tuple((r["argument_value"], r["factor"]) for r in rows)


def _fact(row: Mapping[str, Any]) -> Fact:
    value, low, high = row["value"], row["value_low"], row["value_high"]
    ends = (value, value) if value is not None else (high if low is None else low, high)
    return Fact(*ends, row["unit"], row["basis"], _cited(row))


def _cited(row: Mapping[str, Any]) -> str:
    table = f"Table {row['printed_table']}" if row["printed_table"] else ""
    page = f"p. {row['page']}" if row["page"] else ""
    return ", ".join(part for part in (row["short"], table, page) if part)
