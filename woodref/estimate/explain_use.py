"""How the finish, the spans, the fixings and the crate of an estimate were computed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.board.deflection import Deflection, Span
from woodref.estimate.explain import Step, n
from woodref.formulas.bending import UNIFORM
from woodref.formulas.strength import INTERSECTION_MOISTURE_PCT

if TYPE_CHECKING:
    from woodref.joinery.clearance import Fixing
    from woodref.piece.estimate import Estimate
    from woodref.piece.finish_and_hardware import FinishLine
    from woodref.piece.shipping_table import ShippingPlan
    from woodref.shipping.crate import Crate

_BEAM = "elementary beam theory; never a structural value"


def _modulus_step(name: str, d: Deflection) -> Step | None:
    """The modulus of elasticity moved to the moisture content in use."""
    values = {v.condition: v for v in d.values if v.property_id == "modulus_of_elasticity"}
    if "green" not in values or len(values) < 2:
        return None
    crossing = [v.value for v in d.values if v.property_id == "intersection_moisture_content"]
    at = crossing[0] if crossing else INTERSECTION_MOISTURE_PCT
    dry = next(v.value for c, v in values.items() if c != "green")
    green = values["green"].value
    moisture = min(d.moisture_pct, at)
    mix = f"({n(dry)} / {n(green)}) ** ((12 - {n(moisture)}) / ({n(at)} - 12))"
    more = 1.1 if any("1.10 times" in note for note in d.notes) else 1.0
    return Step(
        name,
        "modulus of elasticity in use",
        "E12 (E12/Eg)^((12 - M)/(Mp - 12))",
        f"{n(more)} * {n(dry)} * {mix}",
        d.modulus_mpa,
        "MPa",
        "FPL-GTR-282 (2021), Eq. 5-3",
    )


def _point(span: Span, stiffness: str) -> tuple[str, str]:
    """Formula and numbers of a point load; nothing without one."""
    if not span.point_n:
        return "", ""
    load, length, at = n(span.point_n), n(span.span_mm), span.point_at_mm
    if span.support == "cantilever":
        a = n(span.span_mm if at is None else at)
        return (
            " + P a2 (3 L - a) / (6 E I)",
            f" + {load} * {a} ** 2 * (3 * {length} - {a}) / (6 * {stiffness})",
        )
    middle = span.span_mm / 2.0 if at is None else at
    near = min(middle, span.span_mm - middle)
    b, a = n(near), n(span.span_mm - near)
    if span.support == "simple":
        return (
            " + P b (L2 - b2)^1.5 / (9 sqrt(3) L E I)",
            f" + {load} * {b} * ({length} ** 2 - {b} ** 2) ** 1.5 "
            f"/ (9 * sqrt(3) * {length} * {stiffness})",
        )
    return (
        " + 2 P a3 b2 / (3 E I (3 a + b)2)",
        f" + 2 * {load} * {a} ** 3 * {b} ** 2 / (3 * {stiffness} * (3 * {a} + {b}) ** 2)",
    )


def span_steps(name: str, d: Deflection) -> Iterable[Step]:
    """The sag of a span now and after years."""
    modulus = _modulus_step(name, d)
    if modulus:
        yield modulus
    span = d.span
    stiffness = f"{n(d.modulus_mpa)} * {n(span.width_mm)} * {n(span.thickness_mm)} ** 3 / 12"
    load = d.own_weight_n + span.uniform_n_m * span.span_mm / 1000.0
    formula, numbers = _point(span, stiffness)
    yield Step(
        name,
        "sag now",
        f"k W L3 / (E I){formula}, I = b h3 / 12, own weight in W",
        f"{n(UNIFORM[span.support])} * {n(load)} * {n(span.span_mm)} ** 3 / ({stiffness}){numbers}",
        d.now_mm,
        "mm",
        _BEAM,
    )
    yield Step(
        name,
        "sag after years",
        "first sag times the creep factor",
        f"{n(d.now_mm)} * {n(d.creep_factor)}",
        d.later_mm,
        "mm",
        "FPL-GTR-190 (2010), 5-39 (inferred)",
    )


def finish_steps(line: FinishLine) -> Iterable[Step]:
    """Liters of a finish."""
    if line.liters:
        per_liter = line.area_m2 * line.finish.coats / line.liters
        yield Step(
            line.finish.name,
            "finish",
            "area times coats over coverage",
            f"{n(line.area_m2)} * {line.finish.coats} / {n(per_liter)}",
            line.liters,
            "L",
            "coverage from the can",
        )


def fixing_steps(f: Fixing) -> Iterable[Step]:
    """Travel of a fixing for a lively board, and each size to make."""
    name, travel = f.spec.name, f.travel
    for what, way in (("toward the held line", travel.toward), ("away from it", travel.away)):
        if way.expected > 0.0:
            yield Step(
                name,
                f"travel {what}",
                "distance times the change of a size between the two moisture contents",
                f"{n(travel.distance_mm)} * {n(way.expected / travel.distance_mm)}",
                way.expected,
                "mm",
                "FPL-GTR-282 (2021), Eq. 4-9",
            )
    for check in f.checks:
        yield Step(
            name,
            f"room to spare: {check.what}",
            "room less the travel of a lively board",
            f"{n(check.room_mm)} - {n(check.need.high)}",
            check.spare_mm,
            "mm",
            "geometry",
        )


def crate_steps(c: Crate, plan: ShippingPlan) -> Iterable[Step]:
    """Outside length, volume, density and what the volume counts as."""
    p = plan.packing
    yield Step(
        p.kind,
        "outside length",
        "length + 2 (padding + wall + batten)",
        f"{n(plan.size_mm[0])} + 2 * ({n(p.padding_mm)} + {n(p.wall_mm)} + {n(p.batten_mm[1])})",
        c.size_mm[0],
        "mm",
        "geometry",
    )
    a, b, h = (n(x) for x in c.size_mm)
    yield Step(
        p.kind,
        "density",
        "gross weight over outside volume",
        f"{n(c.gross_kg.expected)} / ({a} * {b} * {h} * 1e-9)",
        c.density_kg_m3,
        "kg/m3",
        "the density scale asks for it",
    )
    for d in c.dimensional:
        yield Step(
            p.kind,
            f"counts as, {d.divisor.value:g} {d.divisor.unit}",
            "outside volume over the divisor",
            f"{n(c.volume_m3)} * {n(d.divisor.kg_per_m3)}",
            d.dimensional_kg,
            "kg",
            "common practice, no source",
        )


def use_steps(found: Estimate) -> tuple[Step, ...]:
    """Steps of finish, spans, fixings and crate."""
    steps: list[Step] = []
    if found.finish:
        steps += finish_steps(found.finish)
    for r in found.spans:
        if r.sag:
            steps += span_steps(r.spec.name, r.sag)
    for f in found.fixings:
        if f.fixing:
            steps += fixing_steps(f.fixing)
    if found.crate and found.piece.shipping:
        steps += crate_steps(found.crate, found.piece.shipping)
    return tuple(steps)
