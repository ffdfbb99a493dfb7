"""Water moving through the thickness of a board as the air around it changes.

Fick's law in finite volumes, followed in time by steps of an implicit scheme that are as long as
their error allows. In plain numbers, as an answer about one board would wait longer for the import
of a library of numerics than for this.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

#: Cells through the thickness: an odd number, so that one lies in the middle.
CELLS = 41
#: Error a step may have before it is extrapolated [% moisture content].
TOLERANCE_PCT = 0.02
#: A step is at most a day or this share of the whole time, whichever is longer.
_LONGEST_S, _LONGEST_SHARE = 86_400.0, 0.02
#: A step changes at most so much from one to the next.
_SHRINK, _GROW, _SAFE = 0.2, 3.0, 0.9

Coefficient = Callable[[Sequence[float], float], Sequence[float]]


class Diffusion(NamedTuple):
    """Moisture contents through the thickness, in time.

    ``times_s`` [s]; ``moisture_pct`` of each time, through the thickness from the left face [%];
    ``inflow_pct`` of each time what has passed the left and the right face inward since the start,
    as moisture content of the whole thickness [%].
    """

    times_s: tuple[float, ...]
    moisture_pct: tuple[tuple[float, ...], ...]
    inflow_pct: tuple[tuple[float, float], ...]

    @property
    def mean_pct(self) -> tuple[float, ...]:
        """Mean through the thickness at each time [%]."""
        return tuple(sum(cells) / len(cells) for cells in self.moisture_pct)

    @property
    def middle_pct(self) -> tuple[float, ...]:
        """In the middle of the thickness at each time [%]."""
        return tuple(cells[len(cells) // 2] for cells in self.moisture_pct)


class _Slab(NamedTuple):
    """What does not change in time: a cell's thickness [m], the resistance of each face [s/m].

    ``right`` is None where only the left half up to the middle cell is followed, as the other half
    is its mirror.
    """

    cell_m: float
    left: float
    right: float | None

    def rates(self, coefficients: Sequence[float]) -> tuple[list[float], float, float]:
        """Compute what neighbors exchange, and the ends with the air [1/s]."""
        area = 0.5 / self.cell_m**2
        between = [area * (a + b) for a, b in pairwise(coefficients)]
        half = 0.5 * self.cell_m
        left = 1.0 / (self.cell_m * (self.left + half / coefficients[0]))
        if self.right is None:
            return between, left, 0.0
        return between, left, 1.0 / (self.cell_m * (self.right + half / coefficients[-1]))


class _Step(NamedTuple):
    """The cells after a step, and what passed the left and the right face, in cells' contents."""

    cells: list[float]
    left: float
    right: float


def _implicit(
    cells: Sequence[float],
    rates: tuple[list[float], float, float],
    mirrored: bool,
    air: float,
    length_s: float,
) -> _Step:
    """One step of the implicit method of Euler: a tridiagonal system, eliminated and solved."""
    between, left, right = rates
    take_left, take_right = length_s * left, length_s * right
    shares, after = [], []
    share, value, coming = 0.0, 0.0, 0.0
    own, given = 1.0 + take_left, take_left * air
    for rate, moisture in zip(between, cells, strict=False):
        going = length_s * rate
        pivot = own + going + coming * (1.0 - share)
        share, value = going / pivot, (moisture + given + coming * value) / pivot
        shares.append(share)
        after.append(value)
        coming, own, given = going, 1.0, 0.0
    if mirrored:  # the middle cell takes as much from the other side
        coming *= 2.0
    pivot = 1.0 + take_right + coming * (1.0 - share)
    value = (cells[-1] + take_right * air + coming * value) / pivot
    after.append(value)
    for i in range(len(shares) - 1, -1, -1):
        value = after[i] + shares[i] * value
        after[i] = value
    return _Step(after, take_left * (air - after[0]), take_right * (air - after[-1]))


def _doubled(whole: float, halves: float) -> float:
    """Extrapolate a step of first order and two of half its length to the second order."""
    return 2.0 * halves - whole


def _mirror(start: list[float], faces: tuple[float, float]) -> bool:
    return faces[0] == faces[1] and start == start[::-1]


def diffuse(
    start_pct: float | Sequence[float],
    thickness_m: float,
    resistance_s_m: tuple[float, float],
    times_s: Sequence[float],
    diffusivity: Coefficient,
    air_pct: Callable[[float], float],
    cells: int = CELLS,
    tolerance_pct: float = TOLERANCE_PCT,
) -> Diffusion:
    """Compute moisture content through the thickness of a board as the air around it changes.

    Parameters
    ----------
    start_pct : float or sequence of float
        Moisture content at the start [%], one for all or one for each cell.
    thickness_m : float
        Thickness [m].
    resistance_s_m : tuple of float
        Of the left and the right face [s/m].
    times_s : sequence of float
        When the answer is wanted [s], rising, the first at or after 0.
    diffusivity : callable
        Of the moisture contents of cells and time, for each of the cells [m2/s].
    air_pct : callable
        The moisture content wood comes to in the air at a time [%].
    cells : int, optional
        Cells through the thickness, an odd number.
    tolerance_pct : float, optional
        Error of a step before its extrapolation [% moisture content]; that of the answer is much
        smaller.

    Returns
    -------
    Diffusion
        Moisture contents in time and through the thickness.

    Notes
    -----
    Fick's law below fiber saturation, at one temperature through the thickness [1]_. Finite volumes
    of equal thickness, so that what leaves one enters the next. In time by Euler's method, implicit
    with the coefficient of the beginning of the step, each step taken whole and in two halves and
    extrapolated, which gives the error too [2]_. Faces alike and an even start make the second half
    of the board the mirror of the first, which alone is followed.

    References
    ----------
    .. [1] Crank, The Mathematics of Diffusion (1975), chapter 8 (number unchecked).
    .. [2] Hairer and Wanner, Solving Ordinary Differential Equations II (1996), section IV.9
       (number unchecked).
    """
    given = [float(start_pct)] * cells if isinstance(start_pct, int | float) else list(start_pct)
    mirrored = _mirror(given, resistance_s_m)
    now = given[: cells // 2 + 1] if mirrored else given
    left, right = resistance_s_m
    slab = _Slab(thickness_m / cells, left, None if mirrored else right)
    longest = max(_LONGEST_S, _LONGEST_SHARE * times_s[-1])
    time, length = 0.0, 1e-6 * longest
    into_left, into_right = 0.0, 0.0
    rows, inflows = [], []
    for wanted in times_s:
        while time < wanted:
            # What is left is not cut into a long step and a tiny one.
            step = min(length, longest)
            rest = wanted - time
            step = rest if step >= rest else min(step, 0.5 * rest if step > 0.5 * rest else step)
            rates = slab.rates(diffusivity(now, time))
            whole = _implicit(now, rates, mirrored, air_pct(time + step), step)
            half = 0.5 * step
            first = _implicit(now, rates, mirrored, air_pct(time + half), half)
            again = slab.rates(diffusivity(first.cells, time + half))
            second = _implicit(first.cells, again, mirrored, air_pct(time + step), half)
            off = max(abs(a - b) for a, b in zip(whole.cells, second.cells, strict=True))
            change = _SAFE * (tolerance_pct / off) ** 0.5 if off > 0.0 else _GROW
            length = step * min(max(change, _SHRINK), _GROW)
            if off > tolerance_pct:
                continue
            now = [_doubled(a, b) for a, b in zip(whole.cells, second.cells, strict=True)]
            into_left += _doubled(whole.left, first.left + second.left)
            into_right += _doubled(whole.right, first.right + second.right)
            time = wanted if step == rest else time + step
        rows.append((*now, *now[-2::-1]) if mirrored else tuple(now))
        inflows.append((into_left / cells, (into_left if mirrored else into_right) / cells))
    return Diffusion(tuple(map(float, times_s)), tuple(rows), tuple(inflows))
