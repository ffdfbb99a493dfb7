"""Between which sizes a part may move before one of its fixings runs out of room."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from woodref.estimate.fastening import Fixing
from woodref.estimate.in_use import FixingResult


class Allowed(NamedTuple):
    """The smallest and the largest size a fixing allows [mm], None where it sets no such end."""

    low_mm: float | None
    high_mm: float | None


def allowed_sizes(fixing: Fixing, size_mm: float) -> Allowed:
    """The sizes of a part between which a fixing has room, by the sizes given for it.

    The part changes evenly over its width, so that its fixing, at a distance from the held
    line, travels that share of the change. A shank set off the middle of its slot has what is
    to spare on both sides.

    Parameters: fixing; size_mm of the whole part at the build [mm].
    Returns: Allowed, without ends for a glued joint and where no size was given.
    """
    if fixing.spec.kind == "glued":
        return Allowed(None, None)
    toward, away = fixing.room_mm
    share = size_mm / fixing.travel.distance_mm
    return Allowed(
        None if toward is None else size_mm - toward * share,
        None if away is None else size_mm + away * share,
    )


def tightest(fixings: Iterable[FixingResult], part: str) -> Fixing | None:
    """The fixing of a part that is nearest to running out of room, by the sizes given for it.

    Glued joints, and fixings without given sizes, are passed over; None where no other is left.
    """
    known = [r.fixing for r in fixings if r.fixing and r.spec.part == part]
    checked = [f for f in known if f.worst and f.spec.kind != "glued"]
    return min(
        checked,
        key=lambda f: f.worst.spare_mm / f.travel.distance_mm if f.worst else 0.0,
        default=None,
    )
