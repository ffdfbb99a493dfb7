"""Specific gravity and density of wood at any moisture content.

Specific gravity is ovendry mass over volume at the moisture content named, relative to
water; basic specific gravity takes the green volume. Density is mass with its water over
volume, both at the moisture content named. Above fiber saturation the volume stays green.

Where a wood's own volumetric shrinkage is not known, ``S0 = 26.5 Gb`` stands in for it
(Stamm 1964); the functions that rest on it end in ``_general``.

Source: Wood Handbook FPL-GTR-282 (2021), Eq. 4-9 to 4-16, pp. 4-10 to 4-13.
"""

from __future__ import annotations

from woodref.formulas.declaration import HANDBOOK, formula
from woodref.formulas.engine import Q, smaller
from woodref.formulas.moisture import CELL_WALL_SPECIFIC_GRAVITY
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT, shrinkage_to

#: Density of water [kg/m3].
WATER_DENSITY_KG_M3 = 1000.0
#: Volumetric shrinkage over basic specific gravity, both as fractions (Eq. 4-12).
GENERAL_SHRINKAGE_RATIO = 0.265


def volumetric_shrinkage(radial_pct: Q, tangential_pct: Q) -> Q:
    """Compute volumetric shrinkage from the radial and the tangential one.

    Parameters
    ----------
    radial_pct, tangential_pct : Q
        Shrinkage green to ovendry [% of green size].

    Returns
    -------
    Q
        Volumetric shrinkage [% of green volume].

    Notes
    -----
    Geometry of a box, ``1 - (1 - R)(1 - T)``; shrinkage along the grain, 0.1 to 0.2 %, is left out.
    """
    return 100.0 * (1.0 - (1.0 - radial_pct / 100.0) * (1.0 - tangential_pct / 100.0))


def volumetric_shrinkage_general(basic_specific_gravity: Q) -> Q:
    """Compute the volumetric shrinkage of wood whose own is not known.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].

    Returns
    -------
    Q
        Volumetric shrinkage green to ovendry [% of green volume].

    Notes
    -----
    A relation for wood in general [1]_ (Stamm 1964).

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-12, p. 4-12.
    """
    return 100.0 * GENERAL_SHRINKAGE_RATIO * basic_specific_gravity


def volumetric_shrinkage_from_ovendry_density(ovendry_density_kg_m3: Q) -> Q:
    """Compute the volumetric shrinkage of wood in general from its ovendry density.

    Parameters
    ----------
    ovendry_density_kg_m3 : Q
        Ovendry density [kg/m3].

    Returns
    -------
    Q
        Volumetric shrinkage green to ovendry [% of green volume].

    Notes
    -----
    Eq. 4-12 written for that density [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-16, p. 4-13.
    """
    k = GENERAL_SHRINKAGE_RATIO
    return 100.0 * k * ovendry_density_kg_m3 / (WATER_DENSITY_KG_M3 + k * ovendry_density_kg_m3)


@formula(
    "Gb / (1 - Sv/100 (1 - M/MCfs))",
    ("Gb", "M", "Sv", "MCfs"),
    HANDBOOK,
    "4-9",
    "4-11",
    M=lambda _basic, moisture, _total, fsp: smaller(moisture, fsp),
)
def specific_gravity_at(
    basic_specific_gravity: Q,
    moisture_pct: Q,
    volumetric_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute the specific gravity at a moisture content, by the wood's own shrinkage.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].
    moisture_pct : Q
        Moisture content [%].
    volumetric_pct : Q
        Volumetric shrinkage green to ovendry [% of green volume].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Specific gravity [1]; the basic one at and above fiber saturation.

    Notes
    -----
    Both equations in one [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-11, pp.
       4-10 and 4-12.
    """
    shrunk_pct = shrinkage_to(volumetric_pct, moisture_pct, fiber_saturation_pct)
    return basic_specific_gravity / (1.0 - shrunk_pct / 100.0)


@formula(
    "Gb / (1 - 0.265 Gb (1 - M/MCfs))",
    ("Gb", "M", "MCfs"),
    HANDBOOK,
    "4-13",
    M=lambda _basic, moisture, fsp: smaller(moisture, fsp),
)
def specific_gravity_at_general(
    basic_specific_gravity: Q, moisture_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute the specific gravity at a moisture content, the wood's shrinkage not known.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].
    moisture_pct : Q
        Moisture content [%].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Specific gravity [1]; the basic one at and above fiber saturation.

    Notes
    -----
    ``Gx = Gb / (1 - 0.265 Gb (1 - x / MCfs))`` [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-13, p. 4-12.
    """
    total_pct = volumetric_shrinkage_general(basic_specific_gravity)
    return specific_gravity_at(
        basic_specific_gravity, moisture_pct, total_pct, fiber_saturation_pct
    )


def volumetric_shrinkage_implied(
    basic_specific_gravity: Q,
    specific_gravity: Q,
    moisture_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute the volumetric shrinkage that two specific gravities of a wood imply.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].
    specific_gravity : Q
        Specific gravity at ``moisture_pct`` [1].
    moisture_pct : Q
        Moisture content of the second [%], below fiber saturation.
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Volumetric shrinkage green to ovendry [% of green volume].

    Notes
    -----
    specific_gravity_at turned round: the equations solved for the shrinkage [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-11.
    """
    dried = 1.0 - moisture_pct / fiber_saturation_pct
    return 100.0 * (1.0 - basic_specific_gravity / specific_gravity) / dried


def specific_gravity_from_another(specific_gravity: Q, shrunk_pct: Q, other_shrunk_pct: Q) -> Q:
    """Compute the specific gravity at one state of shrinkage from that at another.

    Parameters
    ----------
    specific_gravity : Q
        Specific gravity at the first state [1].
    shrunk_pct, other_shrunk_pct : Q
        Volumetric shrinkage from green to the first and to the other state [% of green volume].

    Returns
    -------
    Q
        Specific gravity at the other state [1].

    Notes
    -----
    The mass stays, the volume shrinks [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-10, p. 4-11.
    """
    return specific_gravity * (100.0 - shrunk_pct) / (100.0 - other_shrunk_pct)


def basic_specific_gravity_from(
    specific_gravity: Q,
    moisture_pct: Q,
    volumetric_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute basic specific gravity from that at a moisture content.

    Parameters
    ----------
    specific_gravity : Q
        Specific gravity at that moisture content [1].
    moisture_pct : Q
        Moisture content [%].
    volumetric_pct : Q
        Volumetric shrinkage green to ovendry [% of green volume].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Basic specific gravity [1].

    Notes
    -----
    specific_gravity_at turned round: the equations solved for Gb [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-11.
    """
    shrunk_pct = shrinkage_to(volumetric_pct, moisture_pct, fiber_saturation_pct)
    return specific_gravity * (1.0 - shrunk_pct / 100.0)


def basic_specific_gravity_from_general(
    specific_gravity: Q, moisture_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute basic specific gravity from that at a moisture content, shrinkage not known.

    Parameters
    ----------
    specific_gravity : Q
        Specific gravity at that moisture content [1].
    moisture_pct : Q
        Moisture content [%].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Basic specific gravity [1].

    Notes
    -----
    The equation [1]_ is linear in 1/Gb: ``Gb = Gx / (1 + 0.265 Gx (1 - x / MCfs))``.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-13, p. 4-12, solved
       for Gb.
    """
    dried = shrinkage_to(1.0, moisture_pct, fiber_saturation_pct)  # 1 - x/MCfs, not below 0
    return specific_gravity / (1.0 + GENERAL_SHRINKAGE_RATIO * specific_gravity * dried)


@formula("1000 Gx (1 + M/100)", ("Gx", "M"), HANDBOOK, "4-14")
def density_at(specific_gravity: Q, moisture_pct: Q) -> Q:
    """Compute density with its water from the specific gravity at the same moisture content.

    Parameters
    ----------
    specific_gravity : Q
        Specific gravity at ``moisture_pct`` [1].
    moisture_pct : Q
        Moisture content [%].

    Returns
    -------
    Q
        Density [kg/m3].

    Notes
    -----
    The water over the ovendry mass, times the density of water [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-14, p. 4-12.
    """
    return WATER_DENSITY_KG_M3 * specific_gravity * (1.0 + moisture_pct / 100.0)


@formula("volume times density", ("volume", "density"), HANDBOOK, "4-14")
def mass_of(volume_m3: Q, density_kg_m3: Q) -> Q:
    """Compute the mass of a volume of wood with its water.

    Parameters
    ----------
    volume_m3 : Q
        Volume [m3].
    density_kg_m3 : Q
        Density at the moisture content of the volume [kg/m3].

    Returns
    -------
    Q
        Mass [kg].

    Notes
    -----
    The definition, with the density of the equation [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-14, p. 4-12.
    """
    return volume_m3 * density_kg_m3


def specific_gravity_from_density(density_kg_m3: Q, moisture_pct: Q) -> Q:
    """Compute the specific gravity at a moisture content from the density there.

    Parameters
    ----------
    density_kg_m3 : Q
        Density with its water at ``moisture_pct`` [kg/m3].
    moisture_pct : Q
        Moisture content [%].

    Returns
    -------
    Q
        Specific gravity at that moisture content [1].

    Notes
    -----
    density_at turned round: the equation solved for Gx [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-14, p. 4-12.
    """
    return density_kg_m3 / (WATER_DENSITY_KG_M3 * (1.0 + moisture_pct / 100.0))


def density_from_ovendry(
    ovendry_density_kg_m3: Q,
    moisture_pct: Q,
    volumetric_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute density with its water from the ovendry density.

    Parameters
    ----------
    ovendry_density_kg_m3 : Q
        Ovendry density [kg/m3].
    moisture_pct : Q
        Moisture content [%].
    volumetric_pct : Q
        Volumetric shrinkage green to ovendry [% of green volume].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Density [kg/m3].

    Notes
    -----
    The ovendry mass with its water, in the swollen volume [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-15, p. 4-13.
    """
    shrunk_pct = shrinkage_to(volumetric_pct, moisture_pct, fiber_saturation_pct)
    swollen = (100.0 - volumetric_pct) / (100.0 - shrunk_pct)
    return ovendry_density_kg_m3 * (1.0 + moisture_pct / 100.0) * swollen


def greatest_density(moisture_pct: Q) -> Q:
    """Compute the density no wood exceeds: cell wall and water without a void.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].

    Returns
    -------
    Q
        Density [kg/m3].

    Notes
    -----
    The first equation solved for Gb, in the second [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-3, p. 4-3, and Eq.
       4-14, p. 4-12.
    """
    water = moisture_pct / 100.0
    return WATER_DENSITY_KG_M3 * (1.0 + water) / (1.0 / CELL_WALL_SPECIFIC_GRAVITY + water)
