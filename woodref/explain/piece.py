"""How an estimate was computed: its parts, its lumber, then what it does in use."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.board.weight import DensityEstimate
from woodref.explain.board import density_step, high_end_step, movement_step
from woodref.explain.in_use import use_steps
from woodref.explain.step import Step, Worked, n, step, times, total, worked
from woodref.formulas.density import mass_of
from woodref.formulas.lumber import board_feet
from woodref.units import MM_PER_INCH

if TYPE_CHECKING:
    from woodref.lumber.purchase import Purchase
    from woodref.piece.cost import LumberLine
    from woodref.piece.estimate import Estimate
    from woodref.piece.part_estimate import PartEstimate


def mass_steps(p: PartEstimate, density: DensityEstimate) -> list[Step]:
    """Weight of all pieces of a part, the high end of its range, and at the wettest."""
    if p.mass_kg is None:
        return []
    build, wettest = p.mass_kg["build"], p.mass_kg["wettest"]
    name, boards = p.part.name, p.part.quantity * p.part.staves
    weight = worked(mass_of, p.part.volume_m3, density.density_kg_m3)
    high = "high end of the likely range"
    return [
        step(name, "weight at the build", weight, "kg", build.expected),
        high_end_step(name, high, build.expected, density, boards, build.high),
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


def _part_steps(estimate: Estimate) -> Iterable[Step]:
    for p in estimate.parts:
        density = estimate.masses.densities.get(p.part.species)
        if density:
            yield from mass_steps(p, density)
        # From driest to wettest the staves have other widths: the first two say enough.
        for what, move in zip(("driest", "wettest"), p.movements, strict=False):
            yield movement_step(p.part.name, f"width at the {what}", move, p.part.panel)


def _board_feet(thickness_mm: float, width_mm: float, length_mm: float) -> Worked:
    inch = MM_PER_INCH
    return worked(board_feet, thickness_mm / inch, width_mm / inch, length_mm / (12.0 * inch))


def _lumber_steps(estimate: Estimate, line: LumberLine) -> list[Step]:
    name = f"{line.wood} {line.nominal.label}"
    parts = [p.part for p in estimate.parts if p.stock and p.wood and _bought(p, line)]
    finished = total(
        times(p.quantity * p.layers, _board_feet(line.nominal.size_mm, p.width_mm, p.length_mm))
        for p in parts
    )
    net, buy = line.net_board_feet, line.buy_board_feet
    steps = [
        step(name, "board feet of the finished parts", finished, "board feet", net),
    ]
    if estimate.plan:
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
                estimate.currency,
                "the price list",
            )
        )
    return steps


def _bought_steps(p: Purchase) -> list[Step]:
    """Board feet of the boards a plan buys, and their cost where one price serves."""
    name = f"{p.wood} {p.nominal.label}, to buy"
    if not p.boards:
        return []
    bought = total(
        times(count, _board_feet(p.nominal.size_mm, width, length), "boards")
        for width, length, count in p.boards
    )
    feet = p.board_feet.expected
    steps = [
        step(name, "board feet", bought, "board feet", feet)._replace(source="the plan of boards"),
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


def steps_of(estimate: Estimate) -> tuple[Step, ...]:
    """Every step of an estimate, woods first, then parts, lumber, finish, spans, fixings, crate.

    Returns: steps whose ``numbers``, worked out, give ``result`` within the rounding shown.
    """
    return (
        *(density_step(d) for d in estimate.masses.densities.values()),
        *_part_steps(estimate),
        *(step for line in estimate.lumber for step in _lumber_steps(estimate, line)),
        *(
            step
            for p in (estimate.plan.purchases if estimate.plan else ())
            for step in _bought_steps(p)
        ),
        *use_steps(estimate),
    )
