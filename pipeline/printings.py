"""Cells at odds with another printing: the unit counterpart, another table or series."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from pipeline.cells import RISING, Cell, Finding, grouped
from woodref.reference.bases import READ, UNCHECKED
from woodref.reference.unit_systems import agree

#: A slip of one digit is told from rounding by at least this share.
_SLIP_SHARE = 0.02
#: A specific gravity of the handbook may differ from that of the species sheets by this share.
_GRAVITY_SHARE = 0.05
#: Factors between a 2-cm test series and the handbook's row that follows it.
_SERIES_FACTORS = {
    "modulus_of_rupture": 0.95,
    "modulus_of_elasticity": 1.07,
    "compression_parallel": 0.96,
}
_SERIES_FIT, _SERIES_OFF, _SERIES_RAW = 0.015, 0.04, 0.005
#: Farther off than this, the sheet's own figure is as likely the slip.
_SERIES_FAR = 0.40


def _digits_apart(a: str, b: str) -> int:
    """Number of places in which two figures of one length differ; 99 for other lengths."""
    return sum(x != y for x, y in zip(a, b, strict=True)) if len(a) == len(b) else 99


def _counterparts(cells: list[Cell], agreeing: bool) -> Iterator[tuple[Cell, Cell]]:
    """Cells and their unit counterparts, both ways: within printed rounding, or the others."""
    by_id = {c.measurement_id: c for c in cells}
    for c in cells:
        other = by_id.get(c.unit_counterpart_id)
        if other and agree(c.value, c.rounding, other.value, other.rounding) == agreeing:
            yield c, other


def agreeing_counterparts(cells: list[Cell]) -> Iterator[tuple[Cell, Cell]]:
    """Pairs that print one figure in two unit systems, both ways."""
    return _counterparts(cells, agreeing=True)


def _slipped(c: Cell, other: Cell) -> bool:
    """True where a figure is one digit away from what its unit counterpart converts to."""
    converted, printed = (str(round(v / c.rounding)) for v in (other.value, c.value))
    back = str(round(c.value / other.rounding))
    counterpart = str(round(other.value / other.rounding))
    return (
        abs(c.value / other.value - 1.0) > _SLIP_SHARE
        and _digits_apart(converted, printed) == 1
        and _digits_apart(back, counterpart) != 1
    )


def _copied(cells: list[Cell]) -> set[str]:
    """Cells of which both moisture states repeat another wood of the table and trade group.

    Told by measurement_id, for woods whose own unit counterparts say otherwise in both states.
    """
    rows = grouped(
        [c for c in cells if c.property_id in RISING],
        lambda c: (c.source_table, c.property_id, c.species_id, c.trade_name),
    )
    pairs: dict[tuple[object, ...], list[list[Cell]]] = defaultdict(list)
    for (table, property_id, *_), found in rows.items():
        by_state = {c.condition: c for c in found}
        if {"green", "12pct"} <= set(by_state):
            both = [by_state["green"], by_state["12pct"]]
            genus = both[0].species_id.partition("-")[0]
            pairs[table, property_id, genus, *(c.printed_value for c in both)].append(both)
    differing = {c.measurement_id for c, _ in _counterparts(cells, agreeing=False)}
    return {
        c.measurement_id
        for woods in pairs.values()
        if len(woods) > 1
        for both in woods
        if all(c.measurement_id in differing for c in both)
        for c in both
    }


def counterpart_differs(cells: list[Cell]) -> Iterator[Finding]:
    """A cell whose unit counterpart says otherwise by more than the rounding of both.

    Blamed is a pair of figures copied from another wood of the genus; else the one that is a
    single digit away; else a recalled figure beside one that was read; else the metric one,
    as the tests were made in inch-pound units and the metric tables converted from them.
    """
    copied = _copied(cells)
    for c, other in _counterparts(cells, agreeing=False):
        told = (
            f"{c.printed_value} {c.printed_unit}",
            f"{other.printed_value} {other.printed_unit}",
        )
        if other.measurement_id in copied:
            continue
        if c.measurement_id in copied:
            yield (
                c.measurement_id,
                f"{told[0]} repeats another wood of the genus in both moisture states, while its "
                f"unit counterpart says {told[1]}",
            )
        elif _slipped(c, other):
            yield (
                c.measurement_id,
                f"{told[0]} is one digit away from its unit counterpart {told[1]}",
            )
        elif _slipped(other, c):
            continue
        elif c.basis == UNCHECKED and other.basis in READ:
            yield (
                c.measurement_id,
                f"recalled {told[0]} differs from its unit counterpart {told[1]}, which was read",
            )
        elif c.source_table.endswith("_si.csv") and other.basis != UNCHECKED:
            yield (
                c.measurement_id,
                f"{told[0]} differs from {told[1]}, the inch-pound figure it was converted from",
            )


def same_as_another_wood(cells: list[Cell]) -> Iterator[Finding]:
    """Three shrinkages equal to another wood's of the table, while another source differs."""
    rows = [c for c in cells if c.property_id.startswith("shrinkage_")]
    triples: dict[tuple[str, ...], list[list[Cell]]] = defaultdict(list)
    for (table, _), found in grouped(rows, lambda c: (c.source_table, c.source_line)).items():
        if len(found) == 3:
            values = sorted(found, key=lambda c: c.property_id)
            triples[(table, *(f"{c.value:g}" for c in values))].append(found)
    for (table, *_), woods in triples.items():
        if len({w[0].species_id for w in woods}) < 2:
            continue
        for mine in woods:
            own = {c.property_id: c.value for c in mine}
            others = [
                c
                for c in rows
                if c.species_id == mine[0].species_id
                and c.source_table != table
                and c.property_id in own
            ]
            if others and all(abs(o.value - own[o.property_id]) > o.rounding for o in others):
                same = ", ".join(
                    w[0].species_id for w in woods if w[0].species_id != mine[0].species_id
                )
                for c in mine:
                    yield (
                        c.measurement_id,
                        (f"equal to the three shrinkages of {same}, while another source differs"),
                    )


def other_moisture_elsewhere(cells: list[Cell]) -> Iterator[Finding]:
    """A '12 %' row whose figures another publication prints at 15 %."""
    rows = [c for c in cells if c.property_id in RISING]
    at_15 = grouped([c for c in rows if c.condition == "15pct"], lambda c: (c.species_id,))
    at_12 = [c for c in rows if c.condition == "12pct"]
    for (species_id, table), found in grouped(
        at_12, lambda c: (c.species_id, c.source_table)
    ).items():
        same = [
            c.measurement_id
            for c in found
            for o in at_15.get((species_id,), [])
            if o.source_table != table
            and o.property_id == c.property_id
            and abs(c.value - o.value) <= (c.rounding + o.rounding) / 2 + 1e-9
        ]
        if len(same) >= 3:
            for i in dict.fromkeys(same):
                yield i, "another publication prints the same figures at 15 % moisture content"


def gravity_off_the_sheets(cells: list[Cell]) -> Iterator[Finding]:
    """A basic specific gravity of the handbook far from all that Agriculture Handbook 607 says."""
    sheets = grouped(
        [
            c
            for c in cells
            if c.source_table == "foreign_woods_other_reports.csv"
            and c.property_id == "basic_specific_gravity"
        ],
        lambda c: (c.species_id,),
    )
    for c in cells:
        if (
            c.property_id != "basic_specific_gravity"
            or not c.source_table.startswith("strength_imported_")
            or c.repeats
        ):
            continue
        read = sheets.get((c.species_id,), [])
        ends = [
            (
                o.value_low if o.value_low == o.value_low else o.value,
                o.value_high if o.value_high == o.value_high else o.value,
            )
            for o in read
        ]
        if read and all(
            c.value < low * (1 - _GRAVITY_SHARE) or c.value > high * (1 + _GRAVITY_SHARE)
            for low, high in ends
        ):
            yield (
                c.measurement_id,
                (
                    f"{c.printed_value} is more than 5 % away from {read[0].printed_value}, "
                    "printed by Agriculture Handbook 607"
                ),
            )


def off_the_test_series(cells: list[Cell]) -> Iterator[Finding]:
    """A handbook cell that does not follow the 2-cm series its row is taken from.

    The handbook's rows follow such a series by factors of 0.95 (rupture), 1.07
    (elasticity) and 0.96 (compression); a row that equals the raw figures was not
    converted, and one cell off while its neighbors fit is a slip.
    """
    series = grouped(
        [
            c
            for c in cells
            if c.property_id in _SERIES_FACTORS and c.test_standard.startswith("2-cm")
        ],
        lambda c: (c.species_id, c.condition),
    )
    rows = grouped(
        [
            c
            for c in cells
            if c.property_id in _SERIES_FACTORS and c.source_table == "strength_imported_us.csv"
        ],
        lambda c: (c.species_id, c.condition),
    )
    for key, row in rows.items():
        sheets = grouped(series.get(key, []), lambda c: (c.test_standard,)).values()
        judged = [_against_series(row, {c.property_id: c.value for c in sheet}) for sheet in sheets]
        for c in row:
            reasons = [found[c.measurement_id] for found in judged if c.measurement_id in found]
            # A cell is flagged only where no series explains it.
            if reasons and all(reasons):
                yield c.measurement_id, min(reasons, key=lambda r: "raw 2-cm" not in r)


def _against_series(row: list[Cell], raw: dict[str, float]) -> dict[str, str]:
    """Why each cell of a row does not follow a 2-cm series, '' where it does.

    Empty for a row that has nothing to do with the series.
    """
    ratio = {c: c.value / raw[c.property_id] for c in row if c.property_id in raw}
    off = {c: r / _SERIES_FACTORS[c.property_id] - 1.0 for c, r in ratio.items()}
    unconverted = [c for c, r in ratio.items() if abs(r - 1.0) < _SERIES_RAW]
    if len(unconverted) >= 2 and len(unconverted) == len(ratio):
        return {
            c.measurement_id: f"{c.printed_value} equals the raw 2-cm figure of Agriculture "
            "Handbook 607, not converted as its neighbors in the table are"
            for c in unconverted
        }
    following = sum(abs(o) < _SERIES_FIT for o in off.values())
    if not following >= min(2, len(off) - 1) > 0:
        return {}
    return {
        c.measurement_id: (
            f"{c.printed_value} is {o:+.0%} off the 2-cm series of Agriculture Handbook 607 that "
            "the rest of its row follows"
            if _SERIES_OFF < abs(o) < _SERIES_FAR
            else ""
        )
        for c, o in off.items()
    }
