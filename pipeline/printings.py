"""Cells at odds with another printing: the unit counterpart, another table or series."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from pipeline.cells import RISING, Cell, Finding, grouped
from woodref.reference.bases import READ, UNCHECKED

#: A slip of one digit is told from rounding by at least this share.
_SLIP_SHARE = 0.02
#: A recalled specific gravity may differ from the one read elsewhere by this share.
_GRAVITY_SHARE = 0.05
#: Factors between a 2-cm test series and the handbook's row that follows it.
_SERIES_FACTORS = {
    "modulus_of_rupture": 0.95,
    "modulus_of_elasticity": 1.07,
    "compression_parallel": 0.96,
}
_SERIES_FIT, _SERIES_OFF, _SERIES_RAW = 0.015, 0.04, 0.005


def _digits_apart(a: str, b: str) -> int:
    """Number of places in which two figures of one length differ; 99 for other lengths."""
    return sum(x != y for x, y in zip(a, b, strict=True)) if len(a) == len(b) else 99


def _counterparts(cells: list[Cell]) -> Iterator[tuple[Cell, Cell]]:
    """Cells and their unit counterparts that differ by more than printed rounding, both ways."""
    by_id = {c.measurement_id: c for c in cells}
    for c in cells:
        other = by_id.get(c.unit_counterpart_id)
        if other and abs(c.value - other.value) > (c.rounding + other.rounding) / 2 * (1 + 1e-9):
            yield c, other


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


def counterpart_differs(cells: list[Cell]) -> Iterator[Finding]:
    """A slip of one digit, or a recalled figure, against a unit counterpart that says otherwise."""
    for c, other in _counterparts(cells):
        if _slipped(c, other):
            yield (
                c.measurement_id,
                (
                    f"{c.printed_value} {c.printed_unit} is one digit away from its unit "
                    f"counterpart {other.printed_value} {other.printed_unit}"
                ),
            )
        elif c.basis == UNCHECKED and other.basis in READ and not _slipped(other, c):
            yield (
                c.measurement_id,
                (
                    f"recalled {c.printed_value} {c.printed_unit} differs from its unit "
                    f"counterpart {other.printed_value} {other.printed_unit}, which was read"
                ),
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


def gravity_read_elsewhere(cells: list[Cell]) -> Iterator[Finding]:
    """A recalled basic specific gravity far from the one Agriculture Handbook 607 prints."""
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
        if c.property_id != "basic_specific_gravity" or c.basis != UNCHECKED or c.repeats:
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
                    f"recalled {c.printed_value} is more than 5 % away from "
                    f"{read[0].printed_value}, read in Agriculture Handbook 607"
                ),
            )


def off_the_test_series(cells: list[Cell]) -> Iterator[Finding]:
    """A recalled handbook cell that does not follow the 2-cm series its row is taken from.

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
            if c.property_id in _SERIES_FACTORS
            and c.source_table == "strength_imported_us.csv"
            and c.basis == UNCHECKED
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
                yield c.measurement_id, reasons[0]


def _against_series(row: list[Cell], raw: dict[str, float]) -> dict[str, str]:
    """Why each cell of a row does not follow a 2-cm series, '' where it does."""
    ratio = {c: c.value / raw[c.property_id] for c in row if c.property_id in raw}
    off = {c: r / _SERIES_FACTORS[c.property_id] - 1.0 for c, r in ratio.items()}
    unconverted = [c for c, r in ratio.items() if abs(r - 1.0) < _SERIES_RAW]
    if len(unconverted) >= 2 and len(unconverted) == len(ratio):
        return {
            c.measurement_id: f"{c.printed_value} equals the raw 2-cm figure of Agriculture "
            "Handbook 607, not converted as its neighbors in the table are"
            for c in unconverted
        }
    follows = any(abs(o) < _SERIES_FIT for o in off.values())
    return {
        c.measurement_id: (
            f"{c.printed_value} is {o:+.0%} off the 2-cm series of Agriculture Handbook 607 that "
            "the rest of its row follows"
            if follows and abs(o) > _SERIES_OFF
            else ""
        )
        for c, o in off.items()
    }
