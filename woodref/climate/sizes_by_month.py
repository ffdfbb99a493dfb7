"""The size of a part in every month of a room, with its likely range."""

from __future__ import annotations

from collections.abc import Callable

from woodref.board.movement import SizeChange
from woodref.climate.seasons import Season
from woodref.quantity import Range
from woodref.record import record


@record
class MonthSize:
    """A month, 1 to 12: moisture content [%], and the size with its likely range [mm]."""

    month: int
    moisture_pct: float
    size_mm: Range


def sizes_through_year(
    season: Season, move: Callable[[float], SizeChange]
) -> tuple[MonthSize, ...]:
    """The size of a board or panel in each month, once it has come to rest in its mean air.

    Parameters: season of the room; move, the movement of the part from where its size is known
    to a moisture content [%].
    Returns: twelve, in the order of the months of the season.
    Raises: as move.
    Valid: thin bare wood; thick or finished wood lags behind and swings less.
    """
    return tuple(MonthSize(m.month, m.emc_pct, move(m.emc_pct).likely_mm) for m in season.months)
