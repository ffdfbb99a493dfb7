"""How the density, the weight, the movement and the sag of a board were computed."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians
from typing import TYPE_CHECKING

from woodref.board.deflection import Deflection, Span
from woodref.board.weight import BoardWeight, DensityEstimate, wood_shrinkage
from woodref.explain.step import HANDBOOK, Step, n
from woodref.formulas.bending import UNIFORM
from woodref.formulas.density import GENERAL_SHRINKAGE_RATIO
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.formulas.spread import BOARD_CORRELATION, Z90
from woodref.formulas.strength import INTERSECTION_MOISTURE_PCT

if TYPE_CHECKING:
    from woodref.board.movement import Movement, MovementBasis, Stave

_BEAM = "elementary beam theory; never a structural value"


def density_step(found: DensityEstimate) -> Step:
    """Density of a wood with its water."""
    shrinkage = wood_shrinkage(found.wood)
    basic, moisture = found.basic_specific_gravity, found.moisture_pct
    shrunk = f"(1 - {n(min(moisture, FIBER_SATURATION_PCT))} / {n(FIBER_SATURATION_PCT)})"
    if shrinkage.total_pct is None:
        total = f"{n(GENERAL_SHRINKAGE_RATIO)} * {n(basic)}"
        formula = "1000 Gb / (1 - 0.265 Gb (1 - M/30)) (1 + M/100)"
        source = f"{HANDBOOK}, Eq. 4-13 and 4-14"
    else:
        total = f"{n(shrinkage.total_pct)} / 100"
        formula = "1000 Gb / (1 - Sv/100 (1 - M/30)) (1 + M/100)"
        source = f"{HANDBOOK}, Eq. 4-9, 4-11 and 4-14"
    return Step(
        found.wood.common_name,
        "density at the build",
        formula,
        f"1000 * {n(basic)} / (1 - {total} * {shrunk}) * (1 + {n(moisture)} / 100)",
        found.density_kg_m3,
        "kg/m3",
        source,
    )


def weight_steps(w: BoardWeight) -> list[Step]:
    """Density, weight of one piece, and of all together with the high end of their range."""
    name, cv = w.density.wood.common_name, w.density.sd_kg_m3 / w.density.density_kg_m3
    count, r = w.quantity, n(BOARD_CORRELATION)
    rule = "our rule: central 90 %, boards of one wood correlate by 0.5"
    return [
        density_step(w.density)._replace(what="density"),
        Step(
            name,
            "weight of one",
            "volume times density",
            f"{n(w.volume_m3)} * {n(w.density.density_kg_m3)}",
            w.mass_kg,
            "kg",
            f"{HANDBOOK}, Eq. 4-14",
        ),
        Step(
            name,
            f"high end of the likely weight of {count}",
            "n m (1 + z CV sqrt((1 + r (n - 1)) / n))",
            f"{count} * {n(w.mass_kg)} * (1 + {n(Z90)} * {n(cv)} * "
            f"sqrt((1 + {r} * ({count} - 1)) / {count}))",
            w.total_high_kg,
            "kg",
            rule,
        ),
    ]


def _angle_mix(basis: MovementBasis, angle_deg: float) -> str:
    c2 = cos(radians(angle_deg)) ** 2
    return f"({n(basis.tangential.value)} * {n(c2)} + {n(basis.radial.value)} * {n(1.0 - c2)})"


def _ratio(basis: MovementBasis, angle_deg: float, start: float, end: float) -> str:
    """The size then over the size now, as arithmetic."""
    total = _angle_mix(basis, angle_deg)
    if not basis.by_shrinkage:
        return f"(1 + {total} * ({n(end)} - {n(start)}) / 100)"
    fsp = n(FIBER_SATURATION_PCT)

    def left(moisture: float) -> str:
        return f"(1 - {total} / 100 * (1 - {n(moisture)} / {fsp}))"

    return f"{left(end)} / {left(start)}"


def movement_step(name: str, what: str, move: Movement, panel: tuple[Stave, ...] = ()) -> Step:
    """The width after a change of moisture content; a panel is the sum of its staves."""
    basis, span = move.basis, (move.from_moisture_pct, move.to_moisture_pct)
    staves = [(s.width_mm, s.ring_angle_deg) for s in panel] or [
        (move.size_mm, move.ring_angle_deg)
    ]
    return Step(
        name,
        what,
        "D1 (1 - S/100 (1 - M2/30)) / (1 - S/100 (1 - M1/30)), S = St cos2 + Sr sin2"
        if basis.by_shrinkage
        else "D1 (1 + c (M2 - M1)/100), c = ct cos2 + cr sin2",
        " + ".join(f"{n(width)} * {_ratio(basis, angle, *span)}" for width, angle in staves),
        move.after_mm,
        "mm",
        f"{HANDBOOK}, Eq. 4-9"
        if basis.by_shrinkage
        else "change per 1 % moisture content as printed",
    )


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
