"""How the movement of a joint was computed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from woodref.explain.step import Step, cited, n, worked
from woodref.formulas.miter import miter_gap
from woodref.joinery.joint_types import JointKind

if TYPE_CHECKING:
    from woodref.joinery.joints import Joint

_HANDBOOK = "FPL-GTR-282 (2021), Eq. 4-9"
#: What of the change of the part the parts stand apart by, and why; a miter has its own formula.
_SHARES: dict[JointKind, tuple[float, str]] = {
    JointKind.TENON: (1.0, "the whole rail"),
    JointKind.DOWEL: (1.0, "from the fixed dowel to the outer one"),
    JointKind.VENEER: (0.5, "half of it over each face"),
    JointKind.BREADBOARD: (-1.0, "the end does not follow the panel"),
}


def joint_steps(joint: Joint) -> Iterator[Step]:
    """What the parts stand apart by at the driest and at the wettest."""
    spec, travel = joint.spec, joint.travel
    cores = (joint.core.to_driest, joint.core.to_wettest) if joint.core else (None, None)
    changes = (travel.to_driest, travel.to_wettest)
    for state, change, core in zip(joint.states[1:], changes, cores, strict=True):
        share = change.expected / travel.distance_mm
        what = f"offset {state.moment}"
        if spec.kind is JointKind.MITER:
            gap = worked(miter_gap, spec.width_mm, -share)
            yield Step(spec.kind, what, gap.text, gap.numbers, gap.value, "mm", cited(gap))
            continue
        factor, why = _SHARES[spec.kind]
        text = f"{n(factor)} * {n(travel.distance_mm)} * {n(share)}"
        told = f"size times the change of a size, {why}"
        if core:
            text += f" - {n(factor)} * {n(core.expected)}"
            told += ", less that of the core"
        yield Step(spec.kind, what, told, text, state.offset.expected, "mm", _HANDBOOK)
