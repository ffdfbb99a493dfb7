"""How the holding and the pilot hole of a fastener were computed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.explain.step import Step, n, step, times, worked
from woodref.formulas.fastening import (
    lag_lateral,
    long_time_load,
    nail_lateral,
    screw_lateral,
    screw_pilot_hole,
)
from woodref.joinery.fastener import FastenerKind
from woodref.joinery.holding import WITHDRAWAL

if TYPE_CHECKING:
    from woodref.joinery.holding import Holding


def holding_steps(h: Holding) -> Iterable[Step]:
    """The pilot hole, the load that pulls it out, its sixth, and the load across."""
    name, f = h.wood.common_name, h.fastener
    if f.kind is FastenerKind.SCREW:
        pilot = worked(screw_pilot_hole, f.diameter_mm, h.pilot.middle)
        yield step(name, "pilot hole", pilot, "mm", h.pilot_mm.expected)
    else:
        yield Step(
            name,
            "pilot hole",
            "share of the shank",
            f"{n(f.diameter_mm)} * {n(h.pilot.shares.expected)}",
            h.pilot_mm.expected,
            "mm",
            h.pilot.source,
        )
    if h.withdrawal and h.into_mm:
        average = h.withdrawal.average_n.expected
        pulled = worked(WITHDRAWAL[f.kind], h.gravity.likely.expected, f.diameter_mm, h.into_mm)
        if h.withdrawal.end_grain:
            pulled = times(h.withdrawal.end_grain.shares.expected, pulled, "e")
        yield step(name, "load that pulls it out", pulled, "N", average)
        yield step(name, "for a load that stays", worked(long_time_load, average), "N")
    if h.sideways and f.kind is FastenerKind.LAG:
        side = h.sideways
        load = worked(lag_lateral, side.coefficient, f.diameter_mm, side.factor)
        yield step(name, "load across it, along the grain", load, "N", side.load_n)
        if side.across_factor is not None:
            load = worked(lag_lateral, side.coefficient, f.diameter_mm, side.across_factor)
            yield step(name, "load across it, across the grain", load, "N", side.across_n)
    elif h.sideways:
        across = screw_lateral if f.kind is FastenerKind.SCREW else nail_lateral
        load = worked(across, h.sideways.coefficient, f.diameter_mm)
        yield step(name, "load across it", load, "N", h.sideways.load_n)
