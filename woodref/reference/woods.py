"""A wood and its preferred values, each with spread, range, basis and source."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from math import fsum, hypot, isclose, sqrt
from typing import Any, NamedTuple, TypeVar

from woodref.display import Grid, Shown, likely
from woodref.errors import InputError
from woodref.formulas.spread import likely_range, sd_of_range
from woodref.record import record, replace
from woodref.reference.bases import FULL, UNCHECKED, in_words, weakest
from woodref.reference.fiber_saturation import GENERAL_FIBER_SATURATION, FiberSaturation
from woodref.reference.properties import CONDITIONS, PROPERTIES, known_property

_Computed = TypeVar("_Computed")
#: Results kept of one wood.
_KEPT = 200


class SpreadParts(NamedTuple):
    """What the standard deviation of a value is made of, each in its unit.

    ``boards`` between single boards of a wood; ``mean`` how far the printed mean may be off
    that of the wood; ``printed_range`` the width of a printed range; ``estimate`` the relation
    an estimate is made by and the figure it starts from; ``woods`` between the woods of a group.
    """

    boards: float = 0.0
    mean: float = 0.0
    printed_range: float = 0.0
    estimate: float = 0.0
    woods: float = 0.0

    @property
    def sd(self) -> float:
        """All of them together."""
        return hypot(*self)

    @property
    def of_mean(self) -> float:
        """Of the value itself, single boards aside."""
        return hypot(*self[1:])

    def scaled(self, factor: float) -> SpreadParts:
        """The parts of a multiple."""
        return SpreadParts(*(factor * part for part in self))


#: Of a value whose spread is not known.
NO_SPREAD = SpreadParts()


@record(repr=False)
class Value(Shown):
    """One number with its unit, spread and origin.

    ``value`` is in the SI unit of the property. ``printed_low`` and ``printed_high`` are the
    ends of a printed range; the value is its midpoint, or the mean printed with it. ``sd`` is the
    standard deviation of a single board about the value, that of the value itself included;
    ``spread_parts`` is what it is made of. ``in_other_units`` is the same figure as print gives
    it in another system of units, 'us' or 'si', where it was printed in both.
    """

    property_id: str
    condition: str
    value: float
    unit: str
    sd: float | None
    basis: str
    source: str
    printed: str
    moisture_content_pct: float | None = None
    printed_low: float | None = None
    printed_high: float | None = None
    sample: str = ""
    note: str = ""
    basis_reason: str = ""
    source_id: str = ""
    between_sd: float = 0.0
    members: int = 1
    spread_parts: SpreadParts = NO_SPREAD
    in_other_units: Mapping[str, Value] = field(default_factory=dict, compare=False, repr=False)

    def in_units(self, units: str) -> Value:
        """The figure as print gives it in a system of units, itself where it does not.

        Parameters: units 'us' or 'si'.
        """
        return self.in_other_units.get(units, self)

    @property
    def unchecked(self) -> bool:
        """True where the number is recalled and was not seen in print."""
        return self.basis == UNCHECKED

    @property
    def is_midpoint(self) -> bool:
        """True where the value is the middle of a range that was printed without a mean."""
        if self.printed_low is None or self.printed_high is None or self.members > 1:
            return False
        return isclose(2.0 * self.value, self.printed_low + self.printed_high)

    @property
    def known_parts(self) -> SpreadParts:
        """``spread_parts``; of a value that tells none, all of its spread is between boards."""
        if self.spread_parts == NO_SPREAD and self.sd:
            return SpreadParts(self.sd)
        return self.spread_parts

    @property
    def cv_pct(self) -> float | None:
        """Coefficient of variation between single boards [%]."""
        return None if self.sd is None else 100.0 * self.sd / self.value

    @property
    def likely(self) -> tuple[float, float] | None:
        """The central 90 % of single boards, None where no spread is known."""
        return None if self.sd is None else likely_range(self.value, self.sd)

    def _line(self) -> str:
        low, high = self.likely or (None, None)
        figure = likely(self.value, low, high, self.unit)
        return f"{self.property_id} {self.condition} {figure}, {in_words(self.basis)}"


@record
class TradeName:
    """A name that means one wood here, and under which the trade sells several.

    ``name`` as asked for, ``woods`` how many species are sold under it.
    """

    name: str
    woods: int

    @property
    def group(self) -> str:
        """The name that asks for all of them."""
        return f"{self.name} group"


@record(repr=False)
class Wood(Shown):
    """A wood as traded, or a trade group with its members.

    ``note`` says why the name asked for led here, where that is not plain; ``trade_name`` is the
    name it was asked by, where the trade sells several woods under it.
    """

    species_id: str
    common_name: str
    botanical_name: str
    family: str
    kind: str
    trade_group: str
    origin: str
    data_coverage: str
    qualifier: str = ""
    note: str = ""
    trade_name: TradeName | None = None
    shrinkage_relation: str = "other"
    fiber_saturation: FiberSaturation = GENERAL_FIBER_SATURATION
    members: tuple[Wood, ...] = ()
    values: dict[tuple[str, str], Value] = field(default_factory=dict, compare=False)
    estimates: dict[tuple[str, str], Value] = field(default_factory=dict, compare=False)

    def once(self, what: object, compute: Callable[[], _Computed]) -> _Computed:
        """What is computed of this wood, computed when it is first asked for.

        Kept with this wood alone: one with other figures, as replace makes it, has its own.

        Parameters: what is computed, with what it is computed for; compute, which gives a record.
        Raises: what compute raises; nothing is kept then.
        """
        kept: dict[object, Any] = self.__dict__.setdefault("_kept", {})
        if what not in kept:
            if len(kept) >= _KEPT:
                kept.clear()
            kept[what] = compute()
        known: _Computed = kept[what]
        return known

    @property
    def is_group(self) -> bool:
        """True where the wood stands for several species."""
        return bool(self.members)

    @property
    def species_ids(self) -> tuple[str, ...]:
        """Its own identifier, or those of its members."""
        return tuple(m.species_id for m in self.members) or (self.species_id,)

    def value(self, property_id: str, condition: str | None = None) -> Value | None:
        """The preferred value of a property, None where no table holds one.

        Parameters: property_id from ``woodref.PROPERTIES``; condition, by default the
        property's usual one (12 % for strength, green to ovendry for shrinkage).
        Raises: InputError for a property or a condition that does not exist, with the nearest.
        """
        usual = known_property(property_id).columns[0][0]
        if condition and condition not in CONDITIONS:
            raise InputError(f"no condition is called '{condition}'; use {', '.join(CONDITIONS)}")
        return self.values.get((property_id, condition or usual))

    def estimate(self, property_id: str) -> Value | None:
        """An estimate of a property that no table holds for this wood, None where there is none.

        Basic specific gravity from another density, shrinkage from density, density from the
        genus; hardness, stiffness and strength at 12 % from what is printed at another moisture
        content, or from density. Never mixed with printed values.

        Raises: InputError for a property that does not exist, with the nearest.
        """
        return self.estimates.get((property_id, known_property(property_id).columns[0][0]))

    def known(self, property_id: str) -> Value | None:
        """The preferred value of a property at its usual condition, else its estimate.

        Raises: InputError for a property that does not exist, with the nearest.
        """
        return self.value(property_id) or self.estimate(property_id)

    def _line(self) -> str:
        if self.is_group:
            return f"{self.common_name}, a trade group of {len(self.members)} woods"
        return f"{self.common_name} ({self.botanical_name}), {len(self.values)} figures"

    def _grid(self) -> Grid:
        columns = ("property", "condition", "value", "unit", "low", "high", "basis", "source")
        return Grid(
            columns,
            (
                (
                    PROPERTIES[v.property_id].label,
                    v.condition,
                    v.value,
                    v.unit,
                    *(v.likely or ("", "")),
                    v.basis,
                    v.source,
                )
                for v in (*self.values.values(), *self.estimates.values())
            ),
        )


def citation(row: Mapping[str, Any]) -> str:
    """'Wood Handbook FPL-GTR-190 (2010), Table 4-3, p. 4-6' from a joined row."""
    parts = [str(row["short"])]
    if row["printed_table"]:
        name = str(row["printed_table"])
        parts.append(f"Table {name}" if name[:1].isdigit() else name)
    if row["page"]:
        parts.append(f"p. {row['page']}")
    return ", ".join(parts)


def value_from_row(row: Mapping[str, Any]) -> Value:
    """A Value from a row of measurements joined with its source."""
    p = PROPERTIES[row["property_id"]]
    low, high = row["value_low"], row["value_high"]
    parts = SpreadParts(
        boards=(p.cv_pct or 0.0) / 100.0 * row["value"],
        mean=row["uncertainty"] or 0.0,
        printed_range=0.0 if low is None or high is None else float(sd_of_range(low, high)),
    )
    return Value(
        property_id=p.property_id,
        condition=row["condition"],
        value=row["value"],
        unit=p.si_unit,
        sd=None if p.cv_pct is None else parts.sd,
        spread_parts=NO_SPREAD if p.cv_pct is None else parts,
        basis=row["basis"],
        source=citation(row),
        printed=f"{row['printed_value']} {row['printed_unit']}".strip(),
        moisture_content_pct=row["moisture_content_pct"],
        printed_low=low,
        printed_high=high,
        sample=row["sample"] or "",
        note=row["note"] or "",
        basis_reason=row["basis_reason"] or "",
        source_id=row["source_id"],
    )


def _mean(numbers: list[float]) -> float:
    return fsum(numbers) / len(numbers)


def _sample_variance(numbers: list[float]) -> float:
    mean = _mean(numbers)
    return fsum((x - mean) ** 2 for x in numbers) / (len(numbers) - 1)


def pooled(values: list[Value]) -> Value:
    """The value of a group: unweighted mean, spread from within and between its members.

    ``sd^2 = mean(within^2) + between^2`` with the sample variance of the members' values
    as between^2.

    Parameters: values of one property and condition, one per member.
    Raises: ValueError for an empty list.
    """
    if not values:
        raise ValueError("no values to pool")
    if len(values) == 1:
        return values[0]
    between = _sample_variance([v.value for v in values])
    within = [v.known_parts for v in values if v.sd is not None]
    parts = NO_SPREAD
    if within:
        squares = (_mean([x * x for x in same]) for same in zip(*within, strict=True))
        parts = SpreadParts(*map(sqrt, squares))
        parts = parts._replace(woods=hypot(parts.woods, sqrt(between)))
    sources = list(dict.fromkeys(v.source for v in values))
    return replace(
        values[0],
        value=_mean([v.value for v in values]),
        sd=parts.sd if within else None,
        spread_parts=parts,
        basis=weakest(v.basis for v in values),
        source="; ".join(sources),
        printed=f"mean of {len(values)} woods",
        printed_low=min(v.value for v in values),
        printed_high=max(v.value for v in values),
        sample="",
        note=f"unweighted mean of {len(values)} woods",
        basis_reason="",
        between_sd=sqrt(between),
        members=len(values),
        in_other_units={
            units: pooled([v.in_units(units) for v in values])
            for units in dict.fromkeys(u for v in values for u in v.in_other_units)
        },
    )


def _pooled_estimates(
    members: tuple[Wood, ...], values: dict[tuple[str, str], Value]
) -> dict[tuple[str, str], Value]:
    """Estimates of a group where none of its members has the value printed."""
    keys = dict.fromkeys(key for m in members for key in m.estimates if key not in values)
    return {key: pooled([m.estimates[key] for m in members if key in m.estimates]) for key in keys}


def _pooled_fiber_saturation(members: tuple[Wood, ...]) -> FiberSaturation:
    """The mean of the members, with the spread of a tree and that between them."""
    points = [m.fiber_saturation for m in members]
    pcts = [p.pct for p in points]
    between = _sample_variance(pcts) if len(pcts) > 1 else 0.0
    within = _mean([p.sd_pct**2 for p in points])
    return FiberSaturation(_mean(pcts), weakest(p.basis for p in points), sqrt(within + between))


def group_of(group_id: str, name: str, members: tuple[Wood, ...]) -> Wood:
    """The Wood that stands for a trade group, its values pooled over the members."""
    keys = list(dict.fromkeys(key for m in members for key in m.values))
    values = {key: pooled([m.values[key] for m in members if key in m.values]) for key in keys}

    def shared(attribute: str) -> str:
        texts = list(dict.fromkeys(getattr(m, attribute) for m in members))
        return texts[0] if len(texts) == 1 else "; ".join(f for f in texts if f)

    coverages = [m.data_coverage for m in members]
    return Wood(
        species_id=group_id,
        common_name=name,
        botanical_name="; ".join(dict.fromkeys(m.botanical_name for m in members)),
        family=shared("family"),
        kind=shared("kind"),
        trade_group=name,
        origin=shared("origin"),
        data_coverage=FULL if FULL in coverages else coverages[0],
        note=f"a trade group of {len(members)} woods: " + ", ".join(m.common_name for m in members),
        fiber_saturation=_pooled_fiber_saturation(members),
        members=members,
        values=values,
        estimates=_pooled_estimates(members, values),
    )
