"""Spread: the likely range of a board, and of a sum of boards.

Rule of this project (our assumption, stated wherever it is used): the likely range is
the central 90 % of a normal distribution with the published coefficient of variation and,
in quadrature, what is uncertain in the mean itself, cut at physical limits; in a sum,
boards of one wood share part of their spread (correlation 0.5 unless given), different
woods are independent.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum
from math import erf, inf, sqrt

from woodref.formulas.declaration import formula
from woodref.formulas.engine import Q, larger, smaller

#: Standard normal deviate of the central 90 %.
Z90 = 1.6448536269514722
#: Correlation between boards of one wood: our assumption.
BOARD_CORRELATION = 0.5

RULE = (
    "9 boards in 10 fall in a likely range: normal, from the published coefficient of variation "
    "and from how far the printed means of one wood differ; boards of one wood correlate by 0.5 "
    "(our assumption), different woods are independent"
)


def likely_range(expected: Q, sd: Q, low: Q = 0.0, high: Q = inf) -> tuple[Q, Q]:
    """Compute the central 90 % around an expected value, cut at physical limits.

    Parameters
    ----------
    expected, sd : Q
        Expected value and standard deviation [any one unit].
    low, high : Q, optional
        The physical limits in that unit.

    Returns
    -------
    tuple of Q
        Low end and high end in that unit.

    Notes
    -----
    The rule of this project, stated above.
    """
    half = Z90 * sd
    return (
        smaller(high, larger(low, expected - half)),
        smaller(high, larger(low, expected + half)),
    )


def sd_of_range(low: Q, high: Q) -> Q:
    """Compute the standard deviation of what lies anywhere between two ends.

    Parameters
    ----------
    low, high : Q
        The ends [any one unit].

    Returns
    -------
    Q
        Standard deviation in that unit.

    Notes
    -----
    That of the uniform distribution, ``(high - low) / sqrt(12)``, any textbook of statistics.
    """
    return (high - low) / 12.0**0.5


def sd_of_sum(sds: Sequence[float], correlation: float = BOARD_CORRELATION) -> float:
    """Compute the standard deviation of a sum of equally correlated parts.

    Parameters
    ----------
    sds : sequence of float
        Standard deviations of the parts [any one unit].
    correlation : float, optional
        r between any two [1], 0 to 1.

    Returns
    -------
    float
        Standard deviation of the sum, in that unit.

    Notes
    -----
    ``var = sum(sd_i^2) + r ((sum sd_i)^2 - sum(sd_i^2))``, any textbook of statistics.
    """
    squares = sum(s * s for s in sds)
    return sqrt(squares + correlation * (sum(sds) ** 2 - squares))


def sd_of_woods(
    boards: Mapping[str, Iterable[float]], correlation: float = BOARD_CORRELATION
) -> float:
    """Compute the standard deviation of a sum over several woods, independent of each other.

    Parameters
    ----------
    boards : mapping of str to iterable of float
        The standard deviations of the boards of each wood [any one unit].
    correlation : float, optional
        r between any two boards of one wood [1], 0 to 1.

    Returns
    -------
    float
        Standard deviation of the sum, in that unit.
    """
    return sqrt(sum(sd_of_sum(list(sds), correlation) ** 2 for sds in boards.values()))


@formula(
    "m (1 + z CV)", ("m", "CV", "z"), "our rule: central 90 %, boards of one wood correlate by 0.5"
)
def high_end(expected: float, cv: float, deviate: float = Z90) -> float:
    """Compute the high end of the likely range of what cannot meet a physical limit.

    Parameters
    ----------
    expected : float
        Expected value [any unit].
    cv : float
        Coefficient of variation [1].
    deviate : float, optional
        Standard normal deviate z [1].

    Returns
    -------
    float
        High end in the unit of ``expected``.

    Notes
    -----
    The rule of this project, stated above.
    """
    return expected * (1.0 + deviate * cv)


@formula("CV sqrt((1 + r (n - 1)) / n)", ("CV", "n", "r"), "any textbook of statistics")
def cv_of_boards(cv: Q, boards: Q, correlation: Q = BOARD_CORRELATION) -> Q:
    """Compute the coefficient of variation of the sum of equal boards.

    Parameters
    ----------
    cv : Q
        Coefficient of variation of one board [1].
    boards : Q
        How many there are, n.
    correlation : Q, optional
        r between any two [1], 0 to 1.

    Returns
    -------
    Q
        Coefficient of variation of their sum [1].

    Notes
    -----
    sd_of_sum over the sum: the variance of a sum, any textbook of statistics.
    """
    return cv * ((1.0 + correlation * (boards - 1)) / boards) ** 0.5


def chance_greater(mean_a: float, sd_a: float, mean_b: float, sd_b: float) -> float:
    """Compute the chance that a single board of A exceeds a single board of B.

    Parameters
    ----------
    mean_a, sd_a : float
        Expected value and standard deviation of A [any one unit].
    mean_b, sd_b : float
        The same of B.

    Returns
    -------
    float
        Chance, 0 to 1.

    Notes
    -----
    The difference of two normal variables, independent of each other, any textbook of statistics.
    """
    sd = sqrt(sd_a * sd_a + sd_b * sd_b)
    if sd == 0.0:
        return 0.5 if mean_a == mean_b else float(mean_a > mean_b)
    return 0.5 * (1.0 + erf((mean_a - mean_b) / (sd * sqrt(2.0))))


#: Chance from which a difference between two woods is called clear, and slight.
CLEAR, SLIGHT = 0.9, 0.7
DIFFERENCE_RULE = (
    "a difference is clear when the chance that a single board of one exceeds a single board "
    "of the other is at least 0.9, slight at 0.7, else within natural spread"
)


class Difference(StrEnum):
    """What single boards show of a difference between two woods, by DIFFERENCE_RULE."""

    CLEAR = "clear"
    SLIGHT = "slight"
    WITHIN_SPREAD = "within natural spread"


def difference(chance: float) -> Difference:
    """Tell what a chance, as chance_greater gives it, shows of a difference.

    Parameters
    ----------
    chance : float
        That one board exceeds the other, 0 to 1.

    Returns
    -------
    Difference
        By DIFFERENCE_RULE.
    """
    sure = max(chance, 1.0 - chance)
    if sure >= CLEAR:
        return Difference.CLEAR
    return Difference.SLIGHT if sure >= SLIGHT else Difference.WITHIN_SPREAD
