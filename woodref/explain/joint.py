"""How the movement of a joint was computed."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, sin
from typing import TYPE_CHECKING

from woodref.explain.step import Step, cited, n, worked
from woodref.formulas.miter import cut_length, miter_gap, miter_opening, miter_slope
from woodref.joinery.joint_types import JointKind
from woodref.joinery.miter import SQUARE_DEG

if TYPE_CHECKING:
    from woodref.joinery.joints import Joint
    from woodref.joinery.travel import Travel

_HANDBOOK = "FPL-GTR-282 (2021), Eq. 4-9"
#: What of the change of the part the parts stand apart by, and why; a miter has its own formula.
_SHARES: dict[JointKind, tuple[float, str]] = {
    JointKind.TENON: (1.0, "the whole rail"),
    JointKind.DOWEL: (1.0, "from the fixed dowel to the outer one"),
    JointKind.VENEER: (0.5, "half of it over each face"),
    JointKind.BREADBOARD: (-1.0, "the end does not follow the panel"),
}


def _miter_steps(joint: Joint, second: Travel) -> Iterator[Step]:
    """The gap of a miter: of a square corner of like members by its one formula."""
    spec, other = joint.spec, joint.spec.other
    assert other is not None
    like = other[:3] == (spec.width_mm, None, spec.ring_angle_deg)
    ends = (
        (joint.travel.to_driest, second.to_driest),
        (joint.travel.to_wettest, second.to_wettest),
    )
    for state, changes in zip(joint.states[1:], ends, strict=True):
        what = f"offset {state.moment}"
        lost = [
            -change.expected / mm
            for change, mm in zip(changes, (spec.width_mm, other.width_mm), strict=True)
        ]
        if like and other.corner_deg == SQUARE_DEG:
            gap = worked(miter_gap, spec.width_mm, lost[0])
            yield Step(spec.kind, what, gap.text, gap.numbers, gap.value, "mm", cited(gap))
            continue
        slopes = (
            miter_slope(spec.width_mm, other.width_mm, other.corner_deg),
            miter_slope(other.width_mm, spec.width_mm, other.corner_deg),
        )
        widths = (spec.width_mm, other.width_mm)
        cuts = [cut_length(w, s, t) for w, s, t in zip(widths, lost, slopes, strict=True)]
        opening = miter_opening(lost[0], slopes[0], lost[1], slopes[1])
        half = sin(radians(opening / 2.0))
        yield Step(
            spec.kind,
            what,
            "the two cuts, times the sine of half the angle between them",
            f"({n(cuts[0])} + {n(cuts[1])}) * {n(half)}",
            state.offset.expected,
            "mm",
            "plane geometry",
        )


def joint_steps(joint: Joint) -> Iterator[Step]:
    """What the parts stand apart by at the driest and at the wettest."""
    spec, travel = joint.spec, joint.travel
    cores = (joint.core.to_driest, joint.core.to_wettest) if joint.core else (None, None)
    changes = (travel.to_driest, travel.to_wettest)
    if joint.second:
        yield from _miter_steps(joint, joint.second)
        return
    for state, change, core in zip(joint.states[1:], changes, cores, strict=True):
        share = change.expected / travel.distance_mm
        what = f"offset {state.moment}"
        factor, why = _SHARES[spec.kind]
        text = f"{n(factor)} * {n(travel.distance_mm)} * {n(share)}"
        told = f"size times the change of a size, {why}"
        if core:
            text += f" - {n(factor)} * {n(core.expected)}"
            told += ", less that of the core"
        yield Step(spec.kind, what, told, text, state.offset.expected, "mm", _HANDBOOK)
