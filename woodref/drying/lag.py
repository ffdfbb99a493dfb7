"""How thickness and finish slow a board's answer to the air: the mean and the middle lag behind.

A range goes over what is not known: the air at the faces, and how far the board's diffusion
coefficient is from the relation's (woodref.drying.finish_fit). An estimate, not a promise:
heartwood and rings make boards differ, and the end grain, which is faster, is left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot
from typing import TYPE_CHECKING

from woodref.board.movement import checked_moisture, movement
from woodref.display import Shown, number
from woodref.drying.ambient import ROOM_C, YEAR_DAYS, AmbientAir, steady_air, yearly_air
from woodref.drying.finish import Finish
from woodref.drying.finish_fit import DAY_S
from woodref.drying.follow import DryingBoard, follow, spread
from woodref.errors import InputError
from woodref.formulas.slab import Diffusion
from woodref.note import Note
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.bases import EDITORIAL, UNCHECKED

if TYPE_CHECKING:
    from woodref.reference.woods import Wood

#: A year is taken to repeat once no moisture content differs by more from the last one [%].
_REPEATS_PCT, _MOST_YEARS = 0.02, 12
#: Points of a year at which a board is looked at, and of a month, whose middle is one of them.
_POINTS, _A_MONTH = 72, 6

CAUTION = Note(
    "lag-estimate",
    "an estimate, not a promise: one dimension through the thickness, end grain left out; "
    "heartwood and rings make boards differ",
)
RANGE_RULE = Note(
    "lag-range",
    "range: the likely value, and its ends over the air at the faces (0.7 to 5 W/(m2 K), ISO 6946, "
    "unchecked) and boards that pass moisture half or twice as fast as the relation says (our "
    "assumption)",
    EDITORIAL,
)
RELATION = Note(
    "diffusion-relation",
    "* unchecked, from memory and not seen in print: diffusion across the grain by the relation of "
    "Siau (1984), Transport Processes in Wood; taken at the moisture content of each layer",
    UNCHECKED,
)


@record
class LagMonth:
    """The middle of a month: the air's moisture content, and that of the board [%]."""

    month: int
    emc_pct: float
    mean_pct: Range
    middle_pct: Range


@record
class LagYear:
    """A board through a year that repeats.

    ``swing_pct`` of the air [%]; ``mean_share``, ``middle_share`` of it that reach the mean
    and the middle of the board [1]; ``driest_pct``, ``wettest_pct`` of its mean [%].
    """

    finish: Finish
    months: tuple[LagMonth, ...]
    swing_pct: float
    mean_share: Range
    middle_share: Range
    driest_pct: Range
    wettest_pct: Range


@record(repr=False)
class LagStep(Shown):
    """A board after the air changed once and for all.

    Shares of the change that the mean and the middle have made [1], one for each of ``days``.
    """

    finish: Finish
    days: tuple[float, ...]
    mean_share: tuple[Range, ...]
    middle_share: tuple[Range, ...]

    def _line(self) -> str:
        made = ", ".join(
            f"{number(share.expected)} after {number(days)} d"
            for days, share in zip(self.days, self.mean_share, strict=True)
        )
        return f"{self.finish.name or 'bare'}, share of the change made: {made}"


def lag_step(
    board: DryingBoard,
    finishes: Sequence[Finish],
    from_pct: float,
    to_pct: float,
    days: Sequence[float],
    temperature_c: float = ROOM_C,
) -> tuple[LagStep, ...]:
    """How much of its movement a board has made, some days after the air changed for good.

    Parameters: board; finishes; from_pct moisture content of the board, to_pct that of the air
    [%], 0 to 30; days, rising, above 0; temperature_c of the air [degC].
    Returns: LagStep for each finish.
    Raises: InputError for impossible or equal moisture contents, or days.
    """
    for name, pct in (("the first", from_pct), ("the second", to_pct)):
        checked_moisture(name, pct)
    if abs(to_pct - from_pct) < 0.05:
        raise InputError(f"both moisture contents are {to_pct:g} %: there is nothing to follow")
    if not days or any(not 0.0 < d <= 36_500.0 for d in days):
        raise InputError("days are above 0 and at most 36500 (100 years)")
    air = steady_air(to_pct, temperature_c, from_pct)
    times = [d * DAY_S for d in days]

    def shares(of_cases: Iterable[Sequence[float]]) -> tuple[Range, ...]:
        made = (
            [min(max((m - from_pct) / (to_pct - from_pct), 0.0), 1.0) for m in at_time]
            for at_time in zip(*of_cases, strict=True)
        )
        return tuple(spread(row) for row in made)

    steps = []
    for finish in finishes:
        cases = follow(board, finish, air, from_pct, times)
        mean, middle = shares(c.mean_pct for c in cases), shares(c.middle_pct for c in cases)
        steps.append(LagStep(finish, tuple(days), mean, middle))
    return tuple(steps)


def _repeated_year(
    board: DryingBoard, finish: Finish, air: AmbientAir, start_pct: float
) -> tuple[Diffusion, ...]:
    """The year of a board that has come to repeat, in each of CASES."""
    times = [n / _POINTS * YEAR_DAYS * DAY_S for n in range(_POINTS + 1)]
    start: float | list[tuple[float, ...]] = start_pct
    for _ in range(_MOST_YEARS):
        cases = follow(board, finish, air, start, times)
        start = [c.moisture_pct[-1] for c in cases]
        off = max(
            abs(a - b)
            for c in cases
            for a, b in zip(c.moisture_pct[0], c.moisture_pct[-1], strict=True)
        )
        if off < _REPEATS_PCT:
            break
    return cases


def lag_year(
    board: DryingBoard,
    finishes: Sequence[Finish],
    emc_pct: Sequence[float],
    temperature_c: Sequence[float] = (ROOM_C,) * 12,
) -> tuple[LagYear, ...]:
    """A board through a year that repeats, month by month.

    Parameters: board; finishes; emc_pct of the air from January to December [%]; temperature_c
    of the same months [degC].
    Returns: LagYear for each finish.
    Raises: InputError for an impossible moisture content.
    """
    for n, pct in enumerate(emc_pct, 1):
        checked_moisture(f"month {n}: the", pct)
    air = yearly_air(emc_pct, temperature_c)
    swing = max(emc_pct) - min(emc_pct)

    def share(of_cases: Sequence[Sequence[float]]) -> Range:
        return spread([(max(c) - min(c)) / max(swing, 1e-9) for c in of_cases])

    years = []
    for finish in finishes:
        cases = _repeated_year(board, finish, air, sum(emc_pct) / 12.0)
        mean, middle = [c.mean_pct for c in cases], [c.middle_pct for c in cases]
        months = tuple(
            LagMonth(
                n + 1, emc_pct[n], spread([c[at] for c in mean]), spread([c[at] for c in middle])
            )
            for n, at in enumerate(range(_A_MONTH // 2, _POINTS, _A_MONTH))
        )
        driest, wettest = spread([min(c) for c in mean]), spread([max(c) for c in mean])
        years.append(LagYear(finish, months, swing, share(mean), share(middle), driest, wettest))
    return tuple(years)


def width_change(
    wood: Wood,
    size_mm: float,
    from_pct: float,
    mean_pct: Range,
    ring_angle_deg: float = 0.0,
    boards: int = 1,
) -> Range:
    """Change of a width from one moisture content to a mean that is not sharply known [mm].

    The range joins what boards of the wood differ by and what is not known of the lag, as the
    root of the sum of squares: the two are independent.

    Parameters: wood; size_mm at from_pct [mm]; from_pct [%]; mean_pct [%]; ring_angle_deg 0
    flat, 90 quarter sawn; boards glued to the width.
    Raises: as woodref.board.movement.movement.
    """
    likely, *ends = (movement(wood, size_mm, from_pct, m, ring_angle_deg, boards) for m in mean_pct)
    center = likely.change_mm
    low, high = sorted(e.change_mm for e in ends)
    return Range(
        center,
        center - hypot(center - likely.likely_change_mm.low, center - low),
        center + hypot(likely.likely_change_mm.high - center, high - center),
    )
