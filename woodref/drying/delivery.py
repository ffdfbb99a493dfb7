"""A piece built in one place that lives in another: its moisture and its width after delivery."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.board.movement import Movement, checked_moisture, movement
from woodref.display import Grid, Shown, number, ranged
from woodref.drying.ambient import MONTH_DAYS, air_of, yearly_air
from woodref.drying.finish import BARE, Finish
from woodref.drying.finish_fit import DAY_S
from woodref.drying.follow import DryingBoard, board_of, follow, spread
from woodref.drying.lag import LagYear, lag_year, width_change
from woodref.errors import InputError
from woodref.quantity import Range
from woodref.record import record

if TYPE_CHECKING:
    from woodref.climate.seasons import Season
    from woodref.reference.woods import Wood


@record
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


@record(repr=False)
class Delivery(Shown):
    """A piece built at one moisture content that lives in a room.

    ``months`` the twelve after delivery; ``year`` the year that repeats after them;
    ``narrowest_mm`` and ``widest_mm`` what that year makes of the width since the build [mm];
    ``movement`` between the two, ends over boards alone: what is not known of the lag stands in
    the shares of ``year``.
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
    movement: Movement

    @property
    def swing_mm(self) -> Range:
        """Change of the width through that year, its ends over boards [mm]."""
        return self.movement.likely_change_mm

    def _line(self) -> str:
        swing = ranged(self.swing_mm, "mm")
        built = f"{number(self.size_mm)} mm built at {number(self.built_pct)} %"
        return f"{built}, swings {swing} a year"

    def _grid(self) -> Grid:
        return Grid(
            ("month", "air [%]", "mean [%]", "middle [%]", "change [mm]"),
            (
                (
                    m.month,
                    m.emc_pct,
                    m.mean_pct.expected,
                    m.middle_pct.expected,
                    m.change_mm.expected,
                )
                for m in self.months
            ),
        )


def month_after(build_month: int) -> int:
    """The month a piece arrives in where nothing is said: that after the build, else January.

    Parameters: build_month 1 to 12, 0 where it is not known.
    """
    return build_month % 12 + 1


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
    if month not in range(1, 13):
        raise InputError(f"a month is 1 to 12, not {month}")
    checked_moisture("the build", built_pct)
    board = board_of(wood, thickness_mm)
    emc, temperature = air_of(use)
    air = yearly_air(emc, temperature, month)
    held = air._replace(low_pct=min(air.low_pct, built_pct), high_pct=max(air.high_pct, built_pct))
    ends = [n * MONTH_DAYS * DAY_S for n in range(13)]
    cases = follow(board, finish, air, built_pct, ends, faces_of=held)
    means, middles = [c.mean_pct for c in cases], [c.middle_pct for c in cases]
    year = lag_year(board, [finish], emc, temperature)[0]

    def change(mean: Range) -> Range:
        return width_change(wood, size_mm, built_pct, mean, ring_angle_deg, boards)

    dry, wet = year.driest_pct, year.wettest_pct
    narrowest = size_mm + change(dry).expected
    months = []
    for n in range(1, 13):
        mean = spread([c[n] for c in means])
        months.append(
            DeliveryMonth(
                (month + n - 2) % 12 + 1,
                air.emc_pct(ends[n]),
                mean,
                spread([c[n] for c in middles]),
                change(mean),
            )
        )
    return Delivery(
        board,
        finish,
        size_mm,
        boards,
        built_pct,
        tuple(months),
        year,
        change(dry),
        change(wet),
        movement(wood, narrowest, dry.expected, wet.expected, ring_angle_deg, boards),
    )


def extremes(months: Sequence[DeliveryMonth]) -> tuple[DeliveryMonth, DeliveryMonth]:
    """The month the piece is narrowest, and the one it is widest."""
    return (
        min(months, key=lambda m: m.change_mm.expected),
        max(months, key=lambda m: m.change_mm.expected),
    )
