"""Stock that acclimatizes in a room before it is milled."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from woodref.board.movement import checked_moisture
from woodref.display import Grid, Shown, number, ranged
from woodref.drying.ambient import ROOM_C, steady_air
from woodref.drying.finish_fit import DAY_S
from woodref.drying.lag import BARE, DryingBoard, board_of, follow, spread
from woodref.quantity import Range
from woodref.record import record

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from woodref.climate.seasons import Season
    from woodref.reference.woods import Wood

    Array = NDArray[np.float64]

#: Stock is acclimatized once it is this near the room [%].
NEAR_PCT = 1.0
#: Days of the course that is shown.
COURSE_DAYS = (7, 14, 30, 60, 90, 180, 365)


class AcclimationDay(NamedTuple):
    """Moisture content of the stock [%] after so many days."""

    days: float
    mean_pct: Range
    middle_pct: Range


@record(repr=False)
class Acclimation(Shown):
    """Stock in a room: days until its mean and its middle are near the room's moisture content.

    In a Range of days ``low`` is the fewest, ``high`` the most.
    """

    board: DryingBoard
    from_pct: float
    to_pct: float
    mean_days: Range
    middle_days: Range
    course: tuple[AcclimationDay, ...]

    def _line(self) -> str:
        days = ranged(self.mean_days, "d")
        return f"from {number(self.from_pct)} to {number(self.to_pct)} %: {days}"

    def _grid(self) -> Grid:
        return Grid(
            ("days", "mean [%]", "middle [%]"),
            ((d.days, d.mean_pct.expected, d.middle_pct.expected) for d in self.course),
        )


def _days_until(near: Array, days: Array) -> Range:
    """Days until a distance, falling in time, is no more than NEAR_PCT, over the cases."""
    import numpy as np

    return spread(np.array([np.interp(-NEAR_PCT, -case, days) for case in near.T]))


def acclimate(
    wood: Wood,
    thickness_mm: float,
    from_pct: float,
    to_pct: float,
    temperature_c: float = ROOM_C,
) -> Acclimation:
    """How long stock takes to come near the moisture content of a room, both faces open.

    Parameters: wood; thickness_mm [mm]; from_pct moisture content of the stock, to_pct that
    the room brings it to [%], 0 to 30; temperature_c of the room [degC].
    Returns: Acclimation; 0 days where the stock is within NEAR_PCT already.
    Raises: InputError for an impossible thickness or moisture content; NoDataError.
    Valid: below fiber saturation, and for a room that keeps its air; see woodref.drying.lag.
    """
    import numpy as np

    board = board_of(wood, thickness_mm)
    checked_moisture("the first", from_pct)
    checked_moisture("the room's", to_pct)
    air = steady_air(to_pct, temperature_c, from_pct)
    # Twice as far each time, until the slowest case has come near.
    days = np.concatenate([[0.0], np.geomspace(0.05, 60.0, 240)])
    while True:
        moisture = follow(board, [BARE], air, from_pct, days * DAY_S)
        mean, middle = (np.abs(m - to_pct) for m in (moisture.mean_pct, moisture.middle_pct))
        if max(mean[-1].max(), middle[-1].max()) < NEAR_PCT:
            break
        days = np.concatenate([days, np.geomspace(days[-1], 2.0 * days[-1], 61)[1:]])
    shown = np.array((0, *COURSE_DAYS))
    course = follow(board, [BARE], air, from_pct, shown * DAY_S)
    return Acclimation(
        board,
        from_pct,
        to_pct,
        _days_until(mean, days),
        _days_until(middle, days),
        tuple(
            AcclimationDay(float(d), spread(m), spread(c))
            for d, m, c in zip(shown[1:], course.mean_pct[1:], course.middle_pct[1:], strict=True)
        ),
    )


def acclimate_in(
    wood: Wood, thickness_mm: float, from_pct: float, season: Season, month: int = 0
) -> Acclimation:
    """How long stock takes to come near the moisture content of a room in a town.

    Parameters: wood; thickness_mm [mm]; from_pct moisture content of the stock [%], 0 to 30;
    season of the room; month 1 to 12, 0 for the mean of its year.
    Returns and errors: as acclimate.
    """
    months = season.months[month - 1 : month] if month else season.months
    to_pct = months[0].emc_pct if month else season.mean_emc_pct
    warm = sum(m.temperature_c for m in months) / len(months)
    return acclimate(wood, thickness_mm, from_pct, to_pct, warm)
