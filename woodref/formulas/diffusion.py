"""Water moving through the thickness of a board: diffusion with a resistance at each face.

Quantities driven by moisture content: a flux is ``D`` times its slope through the thickness,
and what passes a face is the difference to the air's equilibrium over a resistance [s/m].
Heartwood, rings, sapwood and knots make single boards differ by a factor of about two; water
in and out of the end grain, much faster over the last hand's breadth, is left out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.formulas.density import specific_gravity_at_general
from woodref.formulas.engine import Q, exp, larger

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

#: Molar gas constant [J/(mol K)], and gas constant of water vapor [J/(kg K)].
GAS_CONSTANT, VAPOR_GAS_CONSTANT = 8.314462618, 461.5
#: Density [kg/m3] and specific heat [J/(kg K)] of air at room temperature.
AIR_DENSITY, AIR_HEAT = 1.2, 1006.0
_KELVIN = 273.15
#: Volume of cell wall and of bound water in it, per unit of specific gravity.
_WALL_VOLUME, _WATER_VOLUME = 0.667, 0.01


def porosity(basic_specific_gravity: Q, moisture_pct: Q) -> Q:
    """Compute the share of the volume of wood that is neither cell wall nor water.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1].
    moisture_pct : Q
        Moisture content M [%], 0 to 30.

    Returns
    -------
    Q
        Porosity [1], not below 0, which the densest woods would reach.

    Notes
    -----
    ``v = 1 - G (0.667 + 0.01 M)`` [1]_, G the specific gravity at M [2]_.

    References
    ----------
    .. [1] Siau, Transport Processes in Wood (1984) (unchecked).
    .. [2] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-13.
    """
    gravity = specific_gravity_at_general(basic_specific_gravity, moisture_pct)
    return larger(1.0 - gravity * (_WALL_VOLUME + _WATER_VOLUME * moisture_pct), 0.0)


def transverse_diffusivity(moisture_pct: Q, temperature_c: Q, basic_specific_gravity: Q) -> Q:
    """Compute the diffusion coefficient of water across the grain.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content M [%], about 5 to 25.
    temperature_c : Q
        Temperature [degC], of rooms.
    basic_specific_gravity : Q
        Basic specific gravity [1].

    Returns
    -------
    Q
        Diffusion coefficient driven by moisture content [m2/s]: about 5.6e-11 at 6 % and 2.2e-10
        at 20 % for a wood of 0.38 at 26.7 degC.

    Notes
    -----
    That of bound water in the cell wall, ``7e-6 exp(-(38500 - 290 M) / (R T))`` m2/s, over
    ``(1 - a)(1 - a^2)``, a the square root of the porosity [1]_. One value for both directions
    across the grain, at the moisture content M itself: a solution with a single coefficient takes
    it at the mean of the moisture contents before and after. Single boards lie within a factor of
    about two.

    References
    ----------
    .. [1] Siau, Transport Processes in Wood (1984) (unchecked).
    """
    wall = 7e-6 * exp(
        -(38500.0 - 290.0 * moisture_pct) / (GAS_CONSTANT * (temperature_c + _KELVIN))
    )
    pores = porosity(basic_specific_gravity, moisture_pct)
    return wall / ((1.0 - pores**0.5) * (1.0 - pores))


def air_film_resistance(convection_w_m2k: Q, temperature_c: Q) -> Q:
    """Compute the resistance of the air at a face to water vapor.

    Parameters
    ----------
    convection_w_m2k : Q
        Coefficient of heat transfer h, by convection alone [W/(m2 K)], in still to gently moving
        indoor air.
    temperature_c : Q
        Temperature of the air [degC].

    Returns
    -------
    Q
        Vapor resistance [Pa s m2/kg].

    Notes
    -----
    ``Z = rho cp Rv T / h``: heat and vapor pass the same film, the relation of Lewis, any text on
    heat and mass transfer.
    """
    return (
        AIR_DENSITY * AIR_HEAT * VAPOR_GAS_CONSTANT * (temperature_c + _KELVIN) / convection_w_m2k
    )


def moisture_resistance(vapor_resistance: Q, dry_density_kg_m3: Q, vapor_pressure_per_pct: Q) -> Q:
    """Turn a resistance to vapor into one driven by the moisture content of a wood.

    Parameters
    ----------
    vapor_resistance : Q
        Resistance to vapor [Pa s m2/kg].
    dry_density_kg_m3 : Q
        Ovendry mass over volume in use [kg/m3].
    vapor_pressure_per_pct : Q
        Change of the vapor pressure over the wood with its moisture content [Pa per % moisture
        content].

    Returns
    -------
    Q
        Resistance [s/m].

    Notes
    -----
    Equal flux, ``rho dM / (100 R) = dp / Z``: the same film holds back more of the change of a
    dense wood, which has more water to give.
    """
    return vapor_resistance * dry_density_kg_m3 / (100.0 * vapor_pressure_per_pct)


def slab_uptake(fourier: ArrayLike, biot: ArrayLike, terms: int = 12) -> Array:
    """Compute the share of its change a slab has made, after a step of the air on both faces.

    Parameters
    ----------
    fourier : array_like
        D t / a^2 [1], of shape (times,), from about 0.01; a half the thickness.
    biot : array_like
        a / (D R) [1], of shape (cases,), above 0.
    terms : int, optional
        Terms of the series.

    Returns
    -------
    numpy.ndarray
        Share of the change of the mean [1], of shape (cases, times).

    Notes
    -----
    ``1 - sum 2 Bi^2 exp(-b^2 Fo) / (b^2 (b^2 + Bi^2 + Bi))`` over the roots of b tan b = Bi [1]_.

    References
    ----------
    .. [1] Crank, The Mathematics of Diffusion (1975), Eq. 4.53 (number unchecked).
    """
    import numpy as np

    bi = np.atleast_1d(biot)[:, None]
    low = np.pi * np.arange(terms) + 0.0 * bi
    high = low + np.pi / 2.0
    sign = (-1.0) ** np.arange(terms)
    for _ in range(46):
        middle = (low + high) / 2.0
        below = sign * (middle * np.sin(middle) - bi * np.cos(middle)) < 0.0
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    b2 = ((low + high) / 2.0) ** 2
    weight = 2.0 * bi**2 / (b2 * (b2 + bi**2 + bi))
    decay = np.exp(-b2[:, None, :] * np.atleast_1d(fourier)[None, :, None])
    return np.asarray(1.0 - (weight[:, None, :] * decay).sum(axis=2))
