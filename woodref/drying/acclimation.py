"""Stock that comes to rest in a room, and a piece built in one place that lives in another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from woodref.board.movement import Movement, checked_moisture, movement
from woodref.drying.ambient import MONTH_DAYS, ROOM_C, air_of, steady_air, yearly_air
from woodref.drying.finish_fit import DAY_S
from woodref.drying.lag import (
    BARE,
    DryingBoard,
    Finish,
    LagYear,
    board_of,
    cases_of,
    follow,
    lag_year,
    spread,
    width_change,
)
from woodref.errors import InputError
from woodref.quantity import Range

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from woodref.climate.seasons import Season
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood

    Array = NDArray[np.float64]

#: Stock has come to rest once it is this near the room [%].
NEAR_PCT = 1.0
#: Days of the course that is shown.
COURSE_DAYS = (7, 14, 30, 60, 90, 180, 365)
_RULE = "acclimatize stock in shop before milling"


class TradeRule(NamedTuple):
    """What the trade says: so many days, with its basis and note."""

    low_days: float
    high_days: float
    basis: str
    note: str


class RestDay(NamedTuple):
    """Moisture content of the stock [%] after so many days."""

    days: float
    mean_pct: Range
    middle_pct: Range


@dataclass(frozen=True)
class Rest:
    """Stock resting in a room: days until its mean and its middle are near the room.

    In a Spread of days ``low`` is the fewest, ``high`` the most.
    """

    board: DryingBoard
    from_pct: float
    to_pct: float
    mean_days: Range
    middle_days: Range
    course: tuple[RestDay, ...]


def trade_rule(reference: Reference) -> TradeRule | None:
    """The trade's rule of thumb for letting stock rest, None where the table lacks it."""
    rows = reference.store.rows(
        "select value_low, value_high, basis, note from {practice} where rule = ?", [_RULE]
    )
    if not rows:
        return None
    r = rows[0]
    return TradeRule(r["value_low"], r["value_high"], r["basis"], r["note"] or "")


def _days_until(near: Array, days: Array) -> Range:
    """Days until a distance, falling in time, is no more than NEAR_PCT, over the cases."""
    import numpy as np

    found = np.array([np.interp(-NEAR_PCT, -case, days) for case in near.T])
    return spread(found)


def acclimate(
    wood: Wood,
    thickness_mm: float,
    from_pct: float,
    to_pct: float,
    temperature_c: float = ROOM_C,
) -> Rest:
    """How long stock takes to come near the moisture content of a room, both faces open.

    Parameters: wood; thickness_mm [mm]; from_pct moisture content of the stock, to_pct that
    the room brings it to [%], 0 to 30; temperature_c of the room [degC].
    Returns: Rest; 0 days where the stock is within NEAR_PCT already.
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
        found = follow(board, [BARE], air, from_pct, days * DAY_S)
        mean, middle = (np.abs(m - to_pct) for m in (found.mean_pct, found.middle_pct))
        if max(mean[-1].max(), middle[-1].max()) < NEAR_PCT:
            break
        days = np.concatenate([days, np.geomspace(days[-1], 2.0 * days[-1], 61)[1:]])
    shown = np.array((0, *COURSE_DAYS))
    course = follow(board, [BARE], air, from_pct, shown * DAY_S)
    return Rest(
        board,
        from_pct,
        to_pct,
        _days_until(mean, days),
        _days_until(middle, days),
        tuple(
            RestDay(float(d), spread(m), spread(c))
            for d, m, c in zip(shown[1:], course.mean_pct[1:], course.middle_pct[1:], strict=True)
        ),
    )


@dataclass(frozen=True)
class DeliveryMonth:
    """The end of a month after delivery.

    ``month`` 1 to 12; moisture contents of the air, and of the mean and the middle of the
    board [%]; ``change_mm`` of the width since the build [mm], its ends over boards and lag.
    """

    month: int
    emc_pct: float
    mean_pct: Range
    middle_pct: Range
    change_mm: Range


@dataclass(frozen=True)
class Delivery:
    """A piece built at one moisture content that lives in a room.

    ``months`` the twelve after delivery; ``year`` the year that repeats after them;
    ``narrowest_mm`` and ``widest_mm`` what that year makes of the width since the build, and
    ``swing_mm`` between the two [mm]; ``movement`` through that swing, for its figures.
    """

    board: DryingBoard
    finish: Finish
    size_mm: float
    boards: int
    built_pct: float
    months: tuple[DeliveryMonth, ...]
    year: LagYear
    narrowest_mm: Range
    widest_mm: Range
    swing_mm: Range
    movement: Movement


def delivery(
    wood: Wood,
    size_mm: float,
    thickness_mm: float,
    built_pct: float,
    use: Season,
    month: int,
    finish: Finish = BARE,
    ring_angle_deg: float = 0.0,
    boards: int = 1,
) -> Delivery:
    """What a piece does after delivery: month by month, and through the years after.

    Parameters: wood; size_mm width at the build [mm]; thickness_mm [mm]; built_pct moisture
    content at the build, through the whole thickness [%], 0 to 30; use, the year of the room it
    lives in; month 1 to 12 at whose beginning it arrives; finish; ring_angle_deg 0 flat, 90
    quarter sawn; boards glued to the width.
    Returns: Delivery.
    Raises: InputError for an impossible size, month or moisture content; NoDataError.
    Valid: as woodref.drying.lag; the width follows the mean of the thickness.
    Source: movement by FPL-GTR-282 (2021), Eq. 4-9; lag by woodref.formulas.diffusion.
    """
    import numpy as np

    if month not in range(1, 13):
        raise InputError(f"a month is 1 to 12, not {month}")
    checked_moisture("the build", built_pct)
    board = board_of(wood, thickness_mm)
    emc, temperature = air_of(use)
    air = yearly_air(emc, temperature, month)
    held = air._replace(low_pct=min(air.low_pct, built_pct), high_pct=max(air.high_pct, built_pct))
    ends = np.arange(0.0, 13.0) * MONTH_DAYS * DAY_S
    found = follow(board, [finish], air, built_pct, ends, faces_of=held)
    year = lag_year(board, [finish], emc, temperature)[0]

    def change(mean: Range) -> Range:
        return width_change(wood, size_mm, built_pct, mean, ring_angle_deg, boards)

    dry, wet = year.driest_pct, year.wettest_pct
    narrowest = size_mm + change(dry).expected
    # A board that lags more is both less dry and less wet: the ends belong together.
    reached = Range(
        wet.expected,
        dry.expected + (wet.low - dry.high),
        dry.expected + (wet.high - dry.low),
    )
    rows = []
    for n, (mean, middle) in enumerate(zip(found.mean_pct, found.middle_pct, strict=True)):
        if n:
            m = spread(mean[cases_of(0)])
            rows.append(
                DeliveryMonth(
                    (month + n - 2) % 12 + 1,
                    air.emc_pct(float(ends[n])),
                    m,
                    spread(middle[cases_of(0)]),
                    change(m),
                )
            )
    return Delivery(
        board,
        finish,
        size_mm,
        boards,
        built_pct,
        tuple(rows),
        year,
        change(dry),
        change(wet),
        width_change(wood, narrowest, dry.expected, reached, ring_angle_deg, boards),
        movement(wood, narrowest, dry.expected, wet.expected, ring_angle_deg, boards),
    )


def extremes(months: Sequence[DeliveryMonth]) -> tuple[DeliveryMonth, DeliveryMonth]:
    """The month the piece is narrowest, and the one it is widest."""
    return (
        min(months, key=lambda m: m.change_mm.expected),
        max(months, key=lambda m: m.change_mm.expected),
    )
