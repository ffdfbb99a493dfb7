"""Density and movement of one wood by a few coefficients that depend on the wood alone.

For tables of millions of boards: what depends on the wood is computed once for each wood, and a
board costs a few multiplications. The figures are those of the formulas folded here, to the last
few digits.
"""

from __future__ import annotations

from woodref.formulas.density import WATER_DENSITY_KG_M3
from woodref.formulas.engine import Q, cos_degrees, larger, smaller
from woodref.formulas.shrinkage import (
    COEFFICIENT_FROM_PCT,
    COEFFICIENT_TO_PCT,
    FIBER_SATURATION_PCT,
    share_of_green_size_on_curve,
)

#: How many coefficients size_coefficients gives.
SIZE_COEFFICIENTS = 4


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
        The ovendry volume of 1 kg of ovendry wood [m3/kg], and what 1 % of moisture content adds
        to it up to fiber saturation [m3/kg per %].

    Notes
    -----
    Eq. 4-9 and 4-11 solved for the volume [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-11, pp.
       4-10 and 4-12.
    """
    green = 1.0 / (WATER_DENSITY_KG_M3 * basic_specific_gravity)
    per_pct = green * volumetric_pct / (100.0 * fiber_saturation_pct)
    return green - per_pct * fiber_saturation_pct, per_pct


def density_by_coefficients(
    moisture_pct: Q, ovendry_m3_per_kg: Q, per_pct_m3_per_kg: Q, fiber_saturation_pct: Q
) -> Q:
    """Compute density with its water, as density_at of specific_gravity_at.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    ovendry_m3_per_kg, per_pct_m3_per_kg : Q
        As density_coefficients gives them [m3/kg, m3/kg per %].
    fiber_saturation_pct : Q
        Fiber saturation point [%].

    Returns
    -------
    Q
        Density [kg/m3].

    Notes
    -----
    The mass of 1 kg of ovendry wood with its water over its volume [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, 4-11 and 4-14,
       pp. 4-10 and 4-12.
    """
    bound = smaller(moisture_pct, fiber_saturation_pct)
    return (1.0 + moisture_pct / 100.0) / (ovendry_m3_per_kg + per_pct_m3_per_kg * bound)


def size_coefficients(
    total_pct: Q, fiber_saturation_pct: Q, coefficient_per_pct: Q
) -> tuple[Q, Q, Q, Q]:
    """Compute the four coefficients of share_by_coefficients, in one direction of the wood.

    Parameters
    ----------
    total_pct, fiber_saturation_pct, coefficient_per_pct : Q
        As share_of_green_size_on_curve; fiber saturation above 14 %.

    Returns
    -------
    tuple of Q
        The ovendry size over the green size [1], and what 1 % of moisture content adds to it
        below 6 %, from 6 to 14 %, and from there to fiber saturation [1 per %].

    Notes
    -----
    share_of_green_size_on_curve is a straight line between these moisture contents.
    """
    ends = (0.0, COEFFICIENT_FROM_PCT, COEFFICIENT_TO_PCT, fiber_saturation_pct)
    shares = [
        share_of_green_size_on_curve(end, total_pct, fiber_saturation_pct, coefficient_per_pct)
        for end in ends
    ]
    below, within, above = (
        (shares[n + 1] - shares[n]) / (ends[n + 1] - ends[n]) for n in range(len(ends) - 1)
    )
    return shares[0], below, within, above


def share_by_coefficients(
    moisture_pct: Q, ovendry: Q, below: Q, within: Q, above: Q, fiber_saturation_pct: Q
) -> Q:
    """Compute the size over the green size, as share_of_green_size_on_curve.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    ovendry, below, within, above : Q
        As size_coefficients gives them [1, 1 per %].
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
    dry = smaller(moisture_pct, COEFFICIENT_FROM_PCT)
    middle = smaller(larger(moisture_pct, COEFFICIENT_FROM_PCT), COEFFICIENT_TO_PCT)
    wet = larger(smaller(moisture_pct, fiber_saturation_pct), COEFFICIENT_TO_PCT)
    return (
        ovendry
        + below * dry
        + within * (middle - COEFFICIENT_FROM_PCT)
        + above * (wet - COEFFICIENT_TO_PCT)
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
