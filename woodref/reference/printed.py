"""Every printed figure of a wood: the one used, the others, and whether they agree."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.display import Shown
from woodref.record import record
from woodref.reference.library import Reference, Values, marks
from woodref.reference.ready import COUNTERPART_COLUMNS, VALUE_COLUMNS
from woodref.reference.unit_systems import agree, values_of
from woodref.reference.woods import Value


@record(repr=False)
class Printed(Shown):
    """One printed figure.

    ``rounding`` [SI unit of the property]: half of it is the printed rounding. ``preferred``
    is true for the figure used, ``preference`` says why it is or why another is;
    ``plausibility_flag`` says why it is outside physical sense, empty where it is not.
    ``unit_counterpart_id`` is the same cell in the other system of units.
    """

    species_id: str
    measurement_id: str
    unit_counterpart_id: str
    value: Value
    rounding: float
    preferred: bool
    preference: str
    plausibility_flag: str
    unit: str
    publication: str
    table: str
    page: str

    @property
    def key(self) -> tuple[str, str]:
        """Property and moisture condition."""
        return self.value.property_id, self.value.condition

    def agrees_with(self, other: Printed) -> bool:
        """True where two figures differ by no more than their printed rounding."""
        return agree(self.value.value, self.rounding, other.value.value, other.rounding)

    def difference_pct(self, other: Printed) -> float:
        """How far the figure is above the other, as a share of the other [%]."""
        return 100.0 * (self.value.value / other.value.value - 1.0)

    def _line(self) -> str:
        used = "used" if self.preferred else "implausible" if self.plausibility_flag else "not used"
        v = self.value
        return f"{self.species_id} {v.property_id} {v.condition}: {v.printed}, {v.source}, {used}"


def printed_figures(
    reference: Reference, species_ids: Iterable[str], property_id: str = ""
) -> tuple[Printed, ...]:
    """The printed figures of woods, by wood, property and condition, the one used first.

    Parameters: species_ids; property_id of the figures wanted, all of them by default.
    """
    ids = list(dict.fromkeys(species_ids))
    if not ids:
        return ()
    columns = [*VALUE_COLUMNS, *COUNTERPART_COLUMNS, "preferred", "preference"]
    rows = reference.store.rows(
        f"select {', '.join(f'm.{c}' for c in columns)}, s.short "
        "from {measurements} m join {sources} s using (source_id) "
        f"where m.species_id in ({marks(ids)}) and m.value is not null "
        "and (? = '' or m.property_id = ?) order by m.species_id, "
        "m.property_id, m.condition, not m.preferred, m.source_table, m.source_line",
        [*ids, property_id, property_id],
    )
    values = values_of(rows)
    return tuple(
        Printed(
            row["species_id"],
            row["measurement_id"],
            row["unit_counterpart_id"] or "",
            values[row["measurement_id"]],
            row["rounding"] or 0.0,
            row["preferred"],
            row["preference"],
            row["plausibility_flag"] or "",
            row["printed_unit"],
            row["short"],
            row["printed_table"] or "",
            row["page"] or "",
        )
        for row in rows
    )


def preferred_values(figures: Iterable[Printed]) -> Values:
    """The values used, as Reference.values reads them."""
    values: Values = {}
    for p in figures:
        if p.preferred:
            values.setdefault(p.species_id, {})[p.key] = p.value
    return values
