"""How the finish, the spans, the fixings and the crate of an estimate were computed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.explain.board import span_steps
from woodref.explain.step import Step, n

if TYPE_CHECKING:
    from woodref.joinery.clearance import Fixing
    from woodref.piece.estimate import Estimate
    from woodref.piece.finish_and_hardware import FinishLine
    from woodref.shipping.crate import Crate, Packing


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
    """Travel of a fixing, and the room each given size leaves a board at the high end."""
    name, travel = f.spec.name, f.travel
    for what, way in (("toward where it is fixed", travel.toward), ("away from it", travel.away)):
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
            "room less the travel of a board at the high end",
            f"{n(check.room_mm)} - {n(check.need.high)}",
            check.spare_mm,
            "mm",
            "geometry",
        )


def crate_steps(c: Crate, length_mm: float, packing: Packing) -> Iterable[Step]:
    """Outside length, volume, density and what the volume counts as.

    Parameters: c; length_mm of the piece [mm]; packing.
    """
    p = packing
    yield Step(
        p.kind,
        "outside length",
        "length + 2 (padding + wall + batten)",
        f"{n(length_mm)} + 2 * ({n(p.padding_mm)} + {n(p.wall_mm)} + {n(p.batten_mm[1])})",
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


def use_steps(estimate: Estimate) -> tuple[Step, ...]:
    """Steps of finish, spans, fixings and crate."""
    steps: list[Step] = []
    if estimate.finish:
        steps += finish_steps(estimate.finish)
    for r in estimate.spans:
        if r.sag:
            steps += span_steps(r.spec.name, r.sag)
    for f in estimate.fixings:
        if f.fixing:
            steps += fixing_steps(f.fixing)
    if estimate.crate and estimate.piece.shipping:
        shipping = estimate.piece.shipping
        steps += crate_steps(estimate.crate, shipping.size_mm[0], shipping.packing)
    return tuple(steps)
