"""What thickness and finishes leave of a board's movement: after days, and through a year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from woodref.board.movement import Movement, movement
from woodref.display import Shown, number
from woodref.drying.finish import Finish
from woodref.drying.follow import DryingBoard
from woodref.drying.lag import LagStep, LagYear, lag_step, lag_year, width_change
from woodref.quantity import Range
from woodref.record import record

if TYPE_CHECKING:
    from woodref.reference.woods import Wood

#: Days of the course that is followed beside the day that is asked for.
COURSE_DAYS = (7, 14, 30, 61, 91, 182)


@record(repr=False)
class BoardLag(Shown):
    """A board under each of its finishes, between a dry and a wet season.

    ``from_pct`` moisture content at rest in the dry season, ``to_pct`` that of the air of the
    wet one [%]; ``days`` of the wet season asked for; ``steps`` and ``years`` of each finish.
    ``movement`` of the whole width, once at rest in the wet season, and ``width_changes`` that
    each finish has let it make by then [mm]; None and empty where no width was given.
    """

    wood: Wood
    board: DryingBoard
    from_pct: float
    to_pct: float
    days: float
    steps: tuple[LagStep, ...]
    years: tuple[LagYear, ...]
    movement: Movement | None = None
    width_changes: tuple[Range, ...] = ()

    @property
    def width_mm(self) -> float | None:
        """Width at rest in the dry season, None where it was not given [mm]."""
        return self.movement.size_mm if self.movement else None

    @property
    def finishes(self) -> tuple[Finish, ...]:
        """The finishes, in the order they were given."""
        return tuple(step.finish for step in self.steps)

    @property
    def made(self) -> tuple[Range, ...]:
        """The share of its movement a board has made after the days asked for, by finish [1]."""
        return tuple(s.mean_share[s.days.index(self.days)] for s in self.steps)

    @property
    def made_in_middle(self) -> tuple[Range, ...]:
        """The same of the middle of the board [1]."""
        return tuple(s.middle_share[s.days.index(self.days)] for s in self.steps)

    def _line(self) -> str:
        made = ", ".join(
            f"{finish.name or 'bare'} {number(share.expected)}"
            for finish, share in zip(self.finishes, self.made, strict=True)
        )
        return f"{self.wood.common_name}, share made after {number(self.days)} d: {made}"


def board_lag(
    wood: Wood,
    board: DryingBoard,
    finishes: Sequence[Finish],
    ends_pct: tuple[float, float],
    emc_pct: Sequence[float],
    temperature_c: Sequence[float],
    days: float,
    width_mm: float | None = None,
    ring_angle_deg: float = 0.0,
) -> BoardLag:
    """How far a board gets in its movement, some days into the wet season and through a year.

    Parameters: wood; board of it; finishes; ends_pct moisture contents of the dry season, at
    rest, and of the wet one [%], 0 to 30; emc_pct of the air from January to December [%] and
    temperature_c [degC], whose mean holds for the wet season; days of the wet season, above 0;
    width_mm at rest in the dry season [mm], to have its change; ring_angle_deg 0 flat, 90
    quarter sawn.
    Returns: BoardLag.
    Raises: InputError for impossible or equal moisture contents, days or sizes; NoDataError.
    Source: woodref.drying.lag; the width as woodref.board.movement.movement.
    """
    course = sorted({*map(float, COURSE_DAYS), days})
    mean_c = sum(temperature_c) / 12.0
    dry, wet = ends_pct
    steps = lag_step(board, finishes, dry, wet, course, mean_c)
    years = lag_year(board, finishes, emc_pct, temperature_c)
    lag = BoardLag(wood, board, dry, wet, days, steps, years)
    if width_mm is None:
        return lag
    reached = (Range(*(dry + share * (wet - dry) for share in made)) for made in lag.made)
    return replace(
        lag,
        movement=movement(wood, width_mm, dry, wet, ring_angle_deg),
        width_changes=tuple(
            width_change(wood, width_mm, dry, mean_pct, ring_angle_deg) for mean_pct in reached
        ),
    )
