"""Every printed figure of a wood: the one used, the others, and whether they agree."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import fsum

from woodref.display import Shown
from woodref.reference.bases import OWN
from woodref.reference.library import VALUE_COLUMNS, Reference, Values, marks
from woodref.reference.woods import Value, Wood, value_from_row

#: Units of the US customary tables, as printed.
_US_PRINTED = frozenset({"lbf", "lbf/in2", "10^3 lbf/in2", "10^6 lbf/in2", "in", "in-lbf/in3"})


@dataclass(frozen=True, repr=False)
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

    @property
    def in_us_units(self) -> bool:
        """True where the figure was printed in a US customary unit."""
        return self.unit in _US_PRINTED

    def agrees_with(self, other: Printed) -> bool:
        """True where two figures differ by no more than their printed rounding."""
        gap = abs(self.value.value - other.value.value)
        return gap <= (self.rounding + other.rounding) / 2.0 * (1.0 + 1e-9)

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
    columns = [*VALUE_COLUMNS, "measurement_id", "unit_counterpart_id", "rounding", "preferred"]
    columns += ["preference", "plausibility_flag"]
    rows = reference.store.rows(
        f"select {', '.join(f'm.{c}' for c in columns)}, s.short "
        "from {measurements} m join {sources} s using (source_id) "
        f"where m.species_id in ({marks(ids)}) and m.value is not null "
        "and (? = '' or m.property_id = ?) order by m.species_id, "
        "m.property_id, m.condition, not m.preferred, m.source_table, m.source_line",
        [*ids, property_id, property_id],
    )
    return tuple(
        Printed(
            row["species_id"],
            row["measurement_id"],
            row["unit_counterpart_id"] or "",
            value_from_row(row),
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


def in_printed_units(
    wood: Wood, figures: Sequence[Printed], units: str
) -> dict[tuple[str, str], float]:
    """The values of a wood [SI] as print gives them in a system of units.

    A table printed in both systems rounds each for itself: 6,000 N and 1,360 lbf are one
    cell. Where the figure used was printed in the other system, and the counterpart in this one
    agrees within printed rounding and is plausible, the counterpart is shown. For a group the
    mean of what its members show.

    Parameters: wood; figures of the wood or of the members; units 'us' or 'si'.
    Returns: (property_id, condition) to value.
    """
    by_id = {p.measurement_id: p for p in figures}
    shown: dict[tuple[str, str], list[float]] = {}
    for p in figures:
        if p.preferred and p.species_id in wood.species_ids:
            shown.setdefault(p.key, []).append(
                _in_units(p, by_id.get(p.unit_counterpart_id), units == "us")
            )
    means = {key: fsum(values) / len(values) for key, values in shown.items()}
    # The shop's own figures stand in no printed table; they are shown as they are.
    own = {k for w in (wood.members or (wood,)) for k, v in w.values.items() if v.basis == OWN}
    return means | {key: wood.values[key].value for key in own}


def _in_units(used: Printed, counterpart: Printed | None, us: bool) -> float:
    if (
        counterpart is not None
        and used.in_us_units != us
        and counterpart.in_us_units == us
        and not counterpart.plausibility_flag
        and used.agrees_with(counterpart)
    ):
        return counterpart.value.value
    return used.value.value
