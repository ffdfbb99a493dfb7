"""How the density, the weight, the movement and the sag of a board were computed."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.board.deflection import Deflection
from woodref.board.movement import Movement
from woodref.board.movement_basis import MovementBasis
from woodref.board.panel import Stave
from woodref.board.span import Span
from woodref.board.weight import BoardWeight, DensityEstimate, wood_shrinkage
from woodref.explain.step import Step, Worked, added, n, step, times, total, worked
from woodref.formulas.bending import (
    UNIFORM,
    deflection_point_cantilever,
    deflection_point_fixed,
    deflection_point_simple,
    deflection_uniform,
    second_moment,
    second_moment_round,
)
from woodref.formulas.density import (
    density_at,
    mass_of,
    specific_gravity_at,
    specific_gravity_at_general,
)
from woodref.formulas.shrinkage import shrinkage_at_ring_angle, size_at, size_by_change_per_pct
from woodref.formulas.spread import BOARD_CORRELATION, Z90, cv_of_boards, high_end
from woodref.formulas.strength import INTERSECTION_MOISTURE_PCT, SHEAR_FREE_RATIO, property_at


def density_step(d: DensityEstimate) -> Step:
    """Density of a wood with its water."""
    total_pct = wood_shrinkage(d.wood).total_pct
    basic, moisture = d.basic_specific_gravity, d.moisture_pct
    point = d.wood.fiber_saturation.pct
    gravity = (
        worked(specific_gravity_at_general, basic, moisture, point)
        if total_pct is None
        else worked(specific_gravity_at, basic, moisture, total_pct, point)
    )
    density = worked(density_at, gravity, moisture)
    return step(d.wood.common_name, "density at the build", density, "kg/m3")


def weight_steps(w: BoardWeight) -> list[Step]:
    """Density, weight of one piece, and of all together with the high end of their range."""
    name, count, density = w.density.wood.common_name, w.quantity, w.density
    return [
        density_step(density)._replace(what="density"),
        step(
            name,
            "weight of one",
            worked(mass_of, w.volume_m3, density.density_kg_m3),
            "kg",
            w.mass_kg.expected,
        ),
        high_end_step(
            name,
            f"high end of the likely weight of {count}",
            Worked("n m", f"{count} * {n(w.mass_kg.expected)}", w.total_kg.expected, ""),
            density,
            count,
            w.total_kg.high,
        ),
    ]


def high_end_step(
    of: str,
    what: str,
    expected: float | Worked,
    density: DensityEstimate,
    boards: int,
    result: float,
) -> Step:
    """The high end of the likely weight of boards of one wood."""
    cv = worked(cv_of_boards, density.sd_kg_m3 / density.density_kg_m3, boards, BOARD_CORRELATION)
    return step(of, what, worked(high_end, expected, cv, Z90), "kg", result)


def _after(basis: MovementBasis, stave: Stave, start: float, end: float) -> Worked:
    """The size of a stave after a change of moisture content."""
    figures = (basis.tangential.value, basis.radial.value, stave.ring_angle_deg)
    if basis.by_coefficient:
        before, after = (basis.share_of_green(m, stave.ring_angle_deg) for m in (start, end))
        return Worked(
            "D1 g(M2) / g(M1)",
            f"{n(stave.width_mm)} * {after:.8f} / {before:.8f}",
            stave.width_mm * after / before,
            "Table 13-5 of FPL-GTR-190 (2010) from 6 to 14 %, shrinkage beyond",
        )
    if basis.by_shrinkage:
        shrinkage = worked(shrinkage_at_ring_angle, *figures)._replace(apart=True)
        point = basis.fiber_saturation.pct
        return worked(size_at, stave.width_mm, start, end, shrinkage, point)
    names = {"St": "ct", "Sr": "cr"}
    change = worked(shrinkage_at_ring_angle, *figures, called=names)._replace(apart=True)
    return worked(size_by_change_per_pct, stave.width_mm, start, end, change)


def shrinkage_alone_step(name: str, what: str, move: Movement) -> Step | None:
    """The same width by shrinkage alone, where a printed coefficient goes before it."""
    basis = move.basis
    if not basis.by_coefficient:
        return None
    alone = basis._replace(radial_coefficient=None, tangential_coefficient=None)
    span = (move.from_moisture_pct, move.to_moisture_pct)
    stave = Stave(move.size_mm, move.ring_angle_deg)
    by_shrinkage = _after(alone, stave, *span)
    return step(name, f"{what}, by shrinkage alone", by_shrinkage, "mm")


def movement_step(name: str, what: str, move: Movement, panel: tuple[Stave, ...] = ()) -> Step:
    """The width after a change of moisture content; a panel is the sum of its staves."""
    span = (move.from_moisture_pct, move.to_moisture_pct)
    staves = panel or (Stave(move.size_mm, move.ring_angle_deg),)
    after = total(_after(move.basis, stave, *span) for stave in staves)
    return step(name, what, after, "mm", move.after_mm)


def _modulus_step(name: str, d: Deflection) -> Step | None:
    """The modulus of elasticity moved to the moisture content in use."""
    used = d.material
    values = {v.condition: v for v in used.values if v.property_id == "modulus_of_elasticity"}
    if used.moisture_pct is None or "green" not in values or len(values) < 2:
        return None
    crossing = [v.value for v in used.values if v.property_id == "intersection_moisture_content"]
    at = crossing[0] if crossing else INTERSECTION_MOISTURE_PCT
    dry = next(v.value for c, v in values.items() if c != "green")
    moved = worked(property_at, dry, values["green"].value, used.moisture_pct, at)
    more = SHEAR_FREE_RATIO if used.shear_free else 1.0
    modulus = used.modulus_mpa.expected
    return step(name, "modulus of elasticity in use", times(more, moved), "MPa", modulus)


def _point(span: Span, stiffness: tuple[float, Worked]) -> Worked:
    """The sag under the point load of a span."""
    load, length, at = span.point_n, span.span_mm, span.point_at_mm
    if span.support == "cantilever":
        distance = length if at is None else at
        return worked(deflection_point_cantilever, load, length, distance, *stiffness)
    middle = length / 2.0 if at is None else at
    nearer = min(middle, length - middle)
    point = deflection_point_simple if span.support == "simple" else deflection_point_fixed
    return worked(point, load, length, nearer, *stiffness)


def _sag(d: Deflection) -> Worked:
    """The sag of a span under all its loads."""
    span = d.span
    inertia = (
        worked(second_moment_round, span.thickness_mm)
        if span.is_round
        else worked(second_moment, span.width_mm, span.thickness_mm)
    )._replace(apart=True)
    stiffness = (d.material.modulus_mpa.expected, inertia)
    load = d.own_weight_n + span.uniform_n_m * span.span_mm / 1000.0
    even = worked(deflection_uniform, load, span.span_mm, *stiffness, UNIFORM[span.support])
    return added(even, _point(span, stiffness)) if span.point_n else even


def span_steps(name: str, d: Deflection) -> Iterable[Step]:
    """The sag of a span now and after years."""
    modulus = _modulus_step(name, d)
    if modulus:
        yield modulus
    now = step(name, "sag now", _sag(d), "mm", d.now_mm.expected)
    yield now._replace(formula=f"{now.formula}, own weight in W")
    sources = {rule.factor: rule.source for rule in d.rules.creep}
    for factor, sag in zip(d.creep_factors, d.later_mm, strict=True):
        yield Step(
            name,
            f"sag after years, {factor:g} times",
            "first sag times the creep factor",
            f"{n(d.now_mm.expected)} * {n(factor)}",
            sag.expected,
            "mm",
            sources.get(factor, "as given"),
        )
