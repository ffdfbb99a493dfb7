"""Density and movement of one wood by a few coefficients that depend on the wood alone.

For tables of millions of boards: what depends on the wood is computed once for each wood, and a
board costs a few multiplications. The figures are those of the formulas folded here, to the last
few digits.
"""

from __future__ import annotations

from woodref.formulas.density import WATER_DENSITY_KG_M3
from woodref.formulas.engine import Q, absolute, cos_degrees
from woodref.formulas.shrinkage import (
    COEFFICIENT_FROM_PCT,
    COEFFICIENT_TO_PCT,
    FIBER_SATURATION_PCT,
    share_of_green_size_on_curve,
)

#: What the coefficients are called that lines_as_bends gives.
SIZE_COEFFICIENTS = ("level", "slope", "bend_at_6", "bend_at_14", "bend_at_saturation")


def density_coefficients(
    basic_specific_gravity: Q,
    volumetric_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> tuple[Q, Q]:
    """Compute the two coefficients of density_by_coefficients.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].
    volumetric_pct : Q
        Volumetric shrinkage green to ovendry [% of green volume].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    tuple of Q
        The volume of 1 kg of ovendry wood, halfway between ovendry and green [m3/kg], and half
        of what 1 % of moisture content adds to it up to fiber saturation [m3/kg per %].

    Notes
    -----
    Eq. 4-9 and 4-11 solved for the volume [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-11, pp.
       4-10 and 4-12.
    """
    green = 1.0 / (WATER_DENSITY_KG_M3 * basic_specific_gravity)
    half_per_pct = green * volumetric_pct / (200.0 * fiber_saturation_pct)
    return green - half_per_pct * fiber_saturation_pct, half_per_pct


def density_by_coefficients(
    moisture_pct: Q, middle_m3_per_kg: Q, per_pct_m3_per_kg: Q, fiber_saturation_pct: Q
) -> Q:
    """Compute density with its water, as density_at of specific_gravity_at.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    middle_m3_per_kg, per_pct_m3_per_kg : Q
        As density_coefficients gives them [m3/kg, m3/kg per %].
    fiber_saturation_pct : Q
        Fiber saturation point [%].

    Returns
    -------
    Q
        Density [kg/m3].

    Notes
    -----
    The mass of 1 kg of ovendry wood with its water over its volume [1]_. The lesser of two numbers
    is half of their sum less their difference, which an engine computes faster than a choice.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, 4-11 and 4-14,
       pp. 4-10 and 4-12.
    """
    swollen = moisture_pct - absolute(moisture_pct - fiber_saturation_pct)
    return (1.0 + moisture_pct * 0.01) / (middle_m3_per_kg + per_pct_m3_per_kg * swollen)


def size_lines(total_pct: Q, fiber_saturation_pct: Q, coefficient_per_pct: Q) -> tuple[Q, ...]:
    """Compute the straight lines that share_of_green_size_on_curve is made of.

    Parameters
    ----------
    total_pct, fiber_saturation_pct, coefficient_per_pct : Q
        As share_of_green_size_on_curve; fiber saturation above 14 %.

    Returns
    -------
    tuple of Q
        ``ovendry``, ``below``, ``within`` and ``above`` as lines_as_bends takes them [1, 1 per %].

    Notes
    -----
    share_of_green_size_on_curve is a straight line between 0, 6 and 14 % and fiber saturation, and
    level beyond.
    """
    ends = (0.0, COEFFICIENT_FROM_PCT, COEFFICIENT_TO_PCT, fiber_saturation_pct)
    shares = [
        share_of_green_size_on_curve(end, total_pct, fiber_saturation_pct, coefficient_per_pct)
        for end in ends
    ]
    slopes = ((shares[n + 1] - shares[n]) / (ends[n + 1] - ends[n]) for n in range(len(ends) - 1))
    return shares[0], *slopes


def lines_as_bends(
    ovendry: Q, below: Q, within: Q, above: Q, fiber_saturation_pct: Q
) -> tuple[Q, ...]:
    """Compute the coefficients of share_by_coefficients from the lines they stand for.

    Parameters
    ----------
    ovendry : Q
        The share at 0 % [1].
    below, within, above : Q
        What 1 % adds to it up to 6 %, from there to 14 %, and to fiber saturation [1 per %].
    fiber_saturation_pct : Q
        Fiber saturation point [%].

    Returns
    -------
    tuple of Q
        ``level`` [1], and ``slope``, ``bend_at_6``, ``bend_at_14`` and ``bend_at_saturation``
        [1 per %].

    Notes
    -----
    A line that bends is a line and a multiple of the distance from each bend, half of the change
    of slope there; any textbook of algebra.
    """
    at_6, at_14 = (within - below) / 2.0, (above - within) / 2.0
    at_saturation = above / -2.0
    level = (
        ovendry
        - COEFFICIENT_FROM_PCT * at_6
        - COEFFICIENT_TO_PCT * at_14
        - fiber_saturation_pct * at_saturation
    )
    return level, below / 2.0, at_6, at_14, at_saturation


def share_by_coefficients(
    moisture_pct: Q,
    level: Q,
    slope: Q,
    bend_at_6: Q,
    bend_at_14: Q,
    bend_at_saturation: Q,
    fiber_saturation_pct: Q,
) -> Q:
    """Compute the size over the green size, as share_of_green_size_on_curve.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    level, slope, bend_at_6, bend_at_14, bend_at_saturation : Q
        As lines_as_bends gives them [1, 1 per %].
    fiber_saturation_pct : Q
        Fiber saturation point [%], above 14.

    Returns
    -------
    Q
        Size over green size [1].

    Notes
    -----
    Eq. 4-9, and a printed coefficient from 6 to 14 % where that governs [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10;
       FPL-GTR-190 (2010), Table 13-5, p. 13-16.
    """
    return (
        level
        + slope * moisture_pct
        + bend_at_6 * absolute(moisture_pct - COEFFICIENT_FROM_PCT)
        + bend_at_14 * absolute(moisture_pct - COEFFICIENT_TO_PCT)
        + bend_at_saturation * absolute(moisture_pct - fiber_saturation_pct)
    )


def tangential_share(ring_angle_deg: Q) -> Q:
    """Compute how much of a change across a face is that along the rings.

    Parameters
    ----------
    ring_angle_deg : Q
        As shrinkage_at_ring_angle [degree].

    Returns
    -------
    Q
        1 of a flat-sawn face, 0 of a quarter-sawn one [1].

    Notes
    -----
    ``cos^2(a)``: rotation of the small strain tensor, general mechanics of materials.
    """
    return cos_degrees(ring_angle_deg) ** 2


def across_by_share(tangential: Q, radial: Q, share: Q) -> Q:
    """Compute what holds across a face, as shrinkage_at_ring_angle.

    Parameters
    ----------
    tangential, radial : Q
        What holds along and across the rings [any one unit].
    share : Q
        As tangential_share gives it [1].

    Returns
    -------
    Q
        What holds across the face, in that unit.

    Notes
    -----
    Rotation of the small strain tensor, general mechanics of materials.
    """
    return radial + (tangential - radial) * share
