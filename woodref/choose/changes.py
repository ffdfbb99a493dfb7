"""What changes by each criterion of a use with another wood in place of the first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import Any

from woodref.choose.columns import CHANGE_WIDTH_MM, Marked
from woodref.choose.distance import Axis
from woodref.choose.profile import Criterion
from woodref.formulas.spread import Difference, chance_greater, difference
from woodref.record import record

#: Shares of pieces in machining differ only beyond this, as no spread is printed [percent
#: points] (a judgment of ours).
SHARE_STEP = 10.0


class Verdict(StrEnum):
    """How the other wood serves by a criterion beside the first."""

    BETTER = "better"
    WORSE = "worse"
    SAME = "same"
    UNKNOWN = "unknown"


@record
class Change:
    """A criterion with the first wood and with the other.

    ``verdict`` of the other; ``clear`` true where single boards show it, by
    woodref.formulas.spread.DIFFERENCE_RULE; ``of_first`` and ``of_other`` how sure either figure
    is; ``estimated`` true where one of them is printed in no table at 12 %.
    """

    criterion: Criterion
    before: float | None
    after: float | None
    verdict: Verdict
    clear: bool
    of_first: Marked
    of_other: Marked
    estimated: bool = False

    @property
    def unchecked(self) -> bool:
        """True where one of the two figures rests on a recalled one."""
        return self.of_first.unchecked or self.of_other.unchecked


def changes_between(
    axes: Sequence[Axis], first: Mapping[str, Any], other: Mapping[str, Any]
) -> tuple[Change, ...]:
    """What changes by each axis from one wood to another.

    Parameters: axes; first and other the rows of the woods, with value and spread of the n-th
    axis as ``v0``, ``s0``, and ``estimated`` the columns no table prints at 12 %; of the first
    ``marked`` how sure each column is, of the other the columns of the table of candidates.
    """
    return tuple(_change(axis.criterion, n, first, other) for n, axis in enumerate(axes))


def seasonal_change_mm(figures: Mapping[str, Any], width_mm: float) -> float | None:
    """What a flat-sawn width changes by in a year [mm], None where it is not known.

    Parameters: figures of the wood, by the names of the columns; width_mm [mm].
    """
    change = figures["seasonal_change_mm_per_300mm"]
    return None if change is None else change * width_mm / CHANGE_WIDTH_MM


def _change(c: Criterion, n: int, first: Mapping[str, Any], other: Mapping[str, Any]) -> Change:
    before, after = first[f"v{n}"], other[f"v{n}"]
    sure = first["marked"][c.column.name], c.column.marked(other)
    if before is None or after is None:
        return Change(c, before, after, Verdict.UNKNOWN, False, *sure)
    estimated = c.column.name in {*(other["estimated"] or ()), *(first["estimated"] or ())}
    better = _better(c, before, after)
    shown = _shown(c, before, first[f"s{n}"] or 0.0, after, other[f"s{n}"] or 0.0)
    if better is None or shown is Difference.WITHIN_SPREAD:
        return Change(c, before, after, Verdict.SAME, False, *sure, estimated)
    verdict = Verdict.BETTER if better else Verdict.WORSE
    return Change(c, before, after, verdict, shown is Difference.CLEAR, *sure, estimated)


def _shown(c: Criterion, before: float, sd_before: float, after: float, sd: float) -> Difference:
    """What single boards show of the difference."""
    if not c.column.is_share:
        return difference(chance_greater(after, sd, before, sd_before))
    return Difference.CLEAR if abs(after - before) > SHARE_STEP else Difference.WITHIN_SPREAD


def _better(c: Criterion, before: float, after: float) -> bool | None:
    """True where the second value serves better, None where both serve alike."""
    if c.target is not None:
        before, after = abs(before - c.target), abs(after - c.target)
    if before == after:
        return None
    return (after > before) == (c.direction == "higher")
