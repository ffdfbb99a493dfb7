"""The columns of the answers of a catalog: their names, units, and what they are in SQL."""

from __future__ import annotations

from typing import NamedTuple

from woodref.catalog.inputs import Parts, quoted, text_of
from woodref.catalog.request import Request, Want
from woodref.catalog.sized import double
from woodref.reference.shipping import ShippingFacts
from woodref.units import (
    KINDS,
    M3_PER_FT3,
)


class Result(NamedTuple):
    """A column of the answers: its name, what it is in SQL, and the answer it belongs to."""

    name: str
    sql: str
    want: Want


def results(request: Request, want: tuple[Want, ...], facts: ShippingFacts | None) -> list[Result]:
    """The columns of the answers, in the units asked for."""
    made: list[Result] = []
    of_kind = _Units(request.units)
    if Want.WEIGHT in want:
        made += _weights(of_kind, request.ranges)
    if Want.VOLUME in want:
        name, factor = ("volume_m3", 1.0) if request.units == "si" else ("volume_ft3", M3_PER_FT3)
        volume = f"__volume * __quantity / {double(factor)}"
        made.append(Result(name, volume, Want.VOLUME))
    if Want.BOARD_FEET in want or Want.COST in want:
        made.append(Result("rough_stock", "__stock", Want.BOARD_FEET))
    if Want.BOARD_FEET in want:
        made.append(Result("board_feet", "__board_feet", Want.BOARD_FEET))
    if Want.MOVEMENT in want:
        made += _movements(of_kind, request.ranges)
    if Want.COST in want:
        ends = ("", "_low", "_high") if request.ranges else ("",)
        made += [Result(f"cost{e}", f"__cost{e}", Want.COST) for e in ends]
    if Want.SHIPPING in want and facts:
        made += _shipping(of_kind, facts)
    return made


class _Units:
    """Names and numbers of the answers in a system of units."""

    def __init__(self, units: str) -> None:
        self.units = units

    def __call__(self, name: str, kind: str, sql: str) -> tuple[str, str]:
        """The name with its unit, and the number in it."""
        made = KINDS[kind]
        suffix = made.suffix(self.units)
        value = f"({sql}) / {double(made.factor)}" if self.units == "us" else f"({sql})"
        return (f"{name}_{suffix}" if suffix else name), value


def _weights(of_kind: _Units, ranges: bool) -> list[Result]:
    names = [("mass", ""), ("total_mass", "total_")]
    made = []
    for name, prefix in names:
        for end in ("", "_low", "_high") if ranges else ("",):
            made.append(
                Result(*of_kind(f"{name}{end}", "mass", f"__{prefix}mass{end}"), Want.WEIGHT)
            )
    return [*made, Result("mass_basis", "__density_basis", Want.WEIGHT)]


def _movements(of_kind: _Units, ranges: bool) -> list[Result]:
    ends = ("", "_low", "_high") if ranges else ("",)
    return [
        Result("from_moisture_pct", "__start", Want.MOVEMENT),
        Result("to_moisture_pct", "__end", Want.MOVEMENT),
        *(
            Result(*of_kind(f"width_change{e}", "change", f"__change{e}"), Want.MOVEMENT)
            for e in ends
        ),
        Result("movement_basis", "__movement_basis", Want.MOVEMENT),
    ]


def _shipping(of_kind: _Units, facts: ShippingFacts) -> list[Result]:
    """A carton for one board: gross weight, outer volume, freight class, what is charged."""
    steps = " ".join(
        f"when __gross_density < {double(c.high_lb_ft3)} then {text_of(c.name)}"
        for c in sorted(facts.classes, key=lambda c: c.low_lb_ft3)
        if c.high_lb_ft3 is not None
    )
    last = max(facts.classes, key=lambda c: c.low_lb_ft3).name
    divisor = facts.divisors[0]
    limit = facts.ceiling
    over = (
        f"__gross > {double(limit.mass_kg)} or __longest > {double(limit.length_mm)} "
        f"or __girth > {double(limit.length_and_girth_mm)}"
    )
    dimensional = f"__outer * {double(divisor.kg_per_m3)}"
    return [
        Result(*of_kind("gross_mass", "mass", "__gross"), Want.SHIPPING),
        Result(
            "freight_class",
            f"case when __gross is null then null {steps} else {text_of(last)} end",
            Want.SHIPPING,
        ),
        Result(*of_kind("dimensional_mass", "mass", dimensional), Want.SHIPPING),
        Result(
            *of_kind("chargeable_mass", "mass", f"greatest(__gross, {dimensional})"),
            Want.SHIPPING,
        ),
        Result("over_parcel_limit", over, Want.SHIPPING),
    ]


#: The figure whose absence leaves an answer out.
ABSENT = {
    Want.WEIGHT: "__mass",
    Want.BOARD_FEET: "__board_feet",
    Want.MOVEMENT: "__change",
    Want.COST: "__cost",
    Want.SHIPPING: "__gross",
}


def answers_sql(computed: str, parts: Parts, made: list[Result], want: tuple[Want, ...]) -> str:
    """The catalog's own columns, the answers, and ``unanswered``: those a row has no figure for."""
    own = ", ".join(quoted(c) for c in parts.columns)
    told = ", ".join(f"{r.sql} as {quoted(r.name)}" for r in made)
    missing = ", ".join(
        f"case when {ABSENT[w]} is null then '{w}' end" for w in want if w in ABSENT
    )
    unanswered = f"concat_ws(',', {missing})" if missing else "''"
    return f"select {own}, {told}, {unanswered} as unanswered from ({computed})"
