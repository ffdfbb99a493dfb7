"""Between which sizes a part may move before one of its fixings runs out of room."""

from __future__ import annotations

from typing import NamedTuple

from woodref.joinery.clearance import Fixing


class Allowed(NamedTuple):
    """The smallest and the largest size a fixing allows [mm], None where it sets no such end."""

    low_mm: float | None
    high_mm: float | None


def allowed_sizes(fixing: Fixing, size_mm: float) -> Allowed:
    """The sizes of a part between which a fixing has room, by the sizes given for it.

    The part changes evenly over its width, so that its fixing, at a distance from the fixed
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
