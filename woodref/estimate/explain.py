"""How an estimate was computed: each formula, with its numbers, its result and its source.

The numbers are SI (mm, kg, N, MPa), rounded for reading; written as arithmetic, they can be
worked out again by hand, or by a test.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians
from typing import TYPE_CHECKING, NamedTuple

from woodref.board.weight import BoardWeight, DensityEstimate, wood_shrinkage
from woodref.formulas.density import GENERAL_SHRINKAGE_RATIO
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.formulas.spread import BOARD_CORRELATION, Z90
from woodref.units import MM_PER_INCH

if TYPE_CHECKING:
    from woodref.board.movement import Movement, MovementBasis, Stave
    from woodref.lumber.purchase import Purchase
    from woodref.piece.cost import LumberLine
    from woodref.piece.estimate import Estimate
    from woodref.piece.part_estimate import PartEstimate

_HANDBOOK = "FPL-GTR-282 (2021)"


class Step(NamedTuple):
    """One step: what of which thing, the formula, its numbers, the result with its unit."""

    of: str
    what: str
    formula: str
    numbers: str
    result: float
    unit: str
    source: str


def n(value: float) -> str:
    """A number as it is written into a step: six digits, a negative one in brackets."""
    text = f"{value:.6g}"
    return f"({text})" if text.startswith("-") else text


def density_step(found: DensityEstimate) -> Step:
    """Density of a wood with its water."""
    shrinkage = wood_shrinkage(found.wood)
    basic, moisture = found.basic_specific_gravity, found.moisture_pct
    shrunk = f"(1 - {n(min(moisture, FIBER_SATURATION_PCT))} / {n(FIBER_SATURATION_PCT)})"
    if shrinkage.total_pct is None:
        total = f"{n(GENERAL_SHRINKAGE_RATIO)} * {n(basic)}"
        formula = "1000 Gb / (1 - 0.265 Gb (1 - M/30)) (1 + M/100)"
        source = f"{_HANDBOOK}, Eq. 4-13 and 4-14"
    else:
        total = f"{n(shrinkage.total_pct)} / 100"
        formula = "1000 Gb / (1 - Sv/100 (1 - M/30)) (1 + M/100)"
        source = f"{_HANDBOOK}, Eq. 4-9, 4-11 and 4-14"
    return Step(
        found.wood.common_name,
        "density at the build",
        formula,
        f"1000 * {n(basic)} / (1 - {total} * {shrunk}) * (1 + {n(moisture)} / 100)",
        found.density_kg_m3,
        "kg/m3",
        source,
    )


def mass_steps(p: PartEstimate, density: DensityEstimate) -> list[Step]:
    """Weight of all pieces of a part, the high end of its range, and at the wettest."""
    if p.mass_kg is None:
        return []
    build, wettest = p.mass_kg["build"], p.mass_kg["wettest"]
    boards = p.part.quantity * p.part.staves
    cv = density.sd_kg_m3 / density.density_kg_m3
    r = BOARD_CORRELATION
    share = f"sqrt((1 + {n(r)} * ({boards} - 1)) / {boards})"
    name = p.part.name
    return [
        Step(
            name,
            "weight at the build",
            "volume times density",
            f"{n(p.part.volume_m3)} * {n(density.density_kg_m3)}",
            build.expected,
            "kg",
            f"{_HANDBOOK}, Eq. 4-14",
        ),
        Step(
            name,
            "high end of the likely range",
            "m (1 + z CV sqrt((1 + r (n - 1)) / n))",
            f"{n(build.expected)} * (1 + {n(Z90)} * {n(cv)} * {share})",
            build.high,
            "kg",
            "our rule: central 90 %, boards of one wood correlate by 0.5",
        ),
        Step(
            name,
            "weight at the wettest",
            "m (100 + M2) / (100 + M1)",
            f"{n(build.expected)} * {n(wettest.expected / build.expected)}",
            wettest.expected,
            "kg",
            "the ovendry mass stays",
        ),
    ]


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
            f"{_HANDBOOK}, Eq. 4-14",
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
        f"{_HANDBOOK}, Eq. 4-9"
        if basis.by_shrinkage
        else "change per 1 % moisture content as printed",
    )


def _part_steps(found: Estimate) -> Iterable[Step]:
    for p in found.parts:
        density = found.masses.densities.get(p.part.species)
        if density:
            yield from mass_steps(p, density)
        # From driest to wettest the staves have other widths: the first two say enough.
        for what, move in zip(("driest", "wettest"), p.movements, strict=False):
            yield movement_step(p.part.name, f"width at the {what}", move, p.part.panel)


def _lumber_steps(found: Estimate, line: LumberLine) -> list[Step]:
    name = f"{line.wood} {line.nominal.label}"
    parts = [p.part for p in found.parts if p.stock and p.wood and _bought(p, line)]
    thick = max(1.0, line.nominal.size_mm / MM_PER_INCH)
    numbers = " + ".join(
        f"{p.quantity} * {n(thick)} * {n(p.width_mm / MM_PER_INCH)} * "
        f"{n(p.length_mm / (12.0 * MM_PER_INCH))} / 12"
        for p in parts
    )
    net, buy = line.net_board_feet, line.buy_board_feet
    steps = [
        Step(
            name,
            "board feet of the finished parts",
            "thickness (at least 1 in) x width [in] x length [ft] / 12",
            numbers,
            net,
            "board feet",
            "the grading rules (from memory)",
        ),
    ]
    if found.plan:
        return steps  # what is bought is a plan of boards, not an allowance
    steps.append(
        Step(
            name,
            "board feet to buy",
            "net times the allowance for offcuts",
            f"{n(net)} * {n(buy.expected / net)}",
            buy.expected,
            "board feet",
            "[waste], the grade, or common practice, no source",
        )
    )
    if line.price and line.cost:
        volume = line.price.per == "m3"
        amount = line.buy_volume_m3.expected if volume else buy.expected
        steps.append(
            Step(
                name,
                "cost",
                f"amount times price per {line.price.per}",
                f"{n(amount)} * {n(line.price.price.expected)}",
                line.cost.expected,
                found.currency,
                "the price list",
            )
        )
    return steps


def _bought_steps(p: Purchase) -> list[Step]:
    """Board feet of the boards a plan buys, and their cost where one price serves."""
    name = f"{p.wood} {p.nominal.label}, to buy"
    if not p.boards:
        return []
    thick = max(1.0, p.nominal.size_mm / MM_PER_INCH)
    numbers = " + ".join(
        f"{count} * {n(thick)} * {n(width / MM_PER_INCH)} * {n(length / (12.0 * MM_PER_INCH))} / 12"
        for width, length, count in p.boards
    )
    feet = p.board_feet.expected
    formula = "boards x thickness (at least 1 in) x width [in] x length [ft] / 12"
    steps = [
        Step(name, "board feet", formula, numbers, feet, "board feet", "the plan of boards"),
    ]
    if p.cost and len(p.prices) == 1 and p.prices[0].per == "board foot":
        price = p.prices[0].price.expected
        steps.append(
            Step(
                name,
                "cost",
                "board feet times the price of one",
                f"{n(feet)} * {n(price)}",
                p.cost.expected,
                p.prices[0].currency,
                "the price list",
            )
        )
    return steps


def _bought(p: PartEstimate, line: LumberLine) -> bool:
    return (
        p.wood is not None
        and p.stock is not None
        and frozenset(p.wood.species_ids) == line.species_ids
        and abs(p.stock.nominal.size_mm - line.nominal.size_mm) < 0.05
    )


def steps_of(found: Estimate) -> tuple[Step, ...]:
    """Every step of an estimate, woods first, then parts, lumber, finish, spans, fixings, crate.

    Returns: steps whose ``numbers``, worked out, give ``result`` within the rounding shown.
    """
    from woodref.estimate.explain_use import use_steps

    return (
        *(density_step(d) for d in found.masses.densities.values()),
        *_part_steps(found),
        *(step for line in found.lumber for step in _lumber_steps(found, line)),
        *(step for p in (found.plan.purchases if found.plan else ()) for step in _bought_steps(p)),
        *use_steps(found),
    )
