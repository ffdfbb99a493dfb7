"""Stock that acclimatizes in a room before it is milled."""

from __future__ import annotations

from collections.abc import Sequence
from math import log
from typing import TYPE_CHECKING, NamedTuple

from woodref.board.movement import checked_moisture
from woodref.display import Grid, Shown, number, ranged
from woodref.drying.ambient import ROOM_C, steady_air
from woodref.drying.finish import BARE
from woodref.drying.finish_fit import DAY_S
from woodref.drying.follow import DryingBoard, board_of, follow, spread
from woodref.quantity import Range, exactly
from woodref.record import record

if TYPE_CHECKING:
    from woodref.climate.seasons import Season
    from woodref.reference.woods import Wood

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


def _geometric(first: float, last: float, count: int) -> list[float]:
    """Numbers from one to another, each the same multiple of that before it."""
    return [first * (last / first) ** (n / (count - 1)) for n in range(count)]


def _days_until(distances: Sequence[Sequence[float]], days: Sequence[float]) -> Range:
    """Days until a distance, falling in time, is no more than NEAR_PCT, over the cases.

    All cases start from one distance. Between two days it falls as an exponential does.
    """
    if distances[0][0] <= NEAR_PCT:
        return exactly(0.0)
    found = []
    for distance in distances:
        after = next(n for n, off in enumerate(distance) if off <= NEAR_PCT)
        before, off = distance[after - 1], max(distance[after], 1e-9)
        share = log(before / NEAR_PCT) / log(before / off)
        found.append(days[after - 1] + share * (days[after] - days[after - 1]))
    return spread(found)


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
    board = board_of(wood, thickness_mm)
    checked_moisture("the first", from_pct)
    checked_moisture("the room's", to_pct)
    air = steady_air(to_pct, temperature_c, from_pct)
    # Twice as far each time, until the slowest case has come near.
    days = [0.0, *_geometric(0.05, 60.0, 60)]
    while True:
        cases = follow(board, BARE, air, from_pct, [d * DAY_S for d in days])
        mean, middle = (
            [[abs(m - to_pct) for m in course] for course in courses]
            for courses in ([c.mean_pct for c in cases], [c.middle_pct for c in cases])
        )
        if max(course[-1] for course in (*mean, *middle)) < NEAR_PCT:
            break
        days += _geometric(days[-1], 2.0 * days[-1], 9)[1:]
    shown = follow(board, BARE, air, from_pct, [d * DAY_S for d in COURSE_DAYS])
    means, middles = [c.mean_pct for c in shown], [c.middle_pct for c in shown]
    return Acclimation(
        board,
        from_pct,
        to_pct,
        _days_until(mean, days),
        _days_until(middle, days),
        tuple(
            AcclimationDay(float(d), spread([m[n] for m in means]), spread([m[n] for m in middles]))
            for n, d in enumerate(COURSE_DAYS)
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
