"""Water moving through the thickness of a board: diffusion with a resistance at each face.

Quantities driven by moisture content: a flux is ``D`` times its slope through the thickness,
and what passes a face is the difference to the air's equilibrium over a resistance [s/m].
Heartwood, rings, sapwood and knots make single boards differ by a factor of about two; water
in and out of the end grain, much faster over the last hand's breadth, is left out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

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
#: Cells through the thickness: an odd number, so that one lies in the middle.
CELLS = 41
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

    bi = np.atleast_1d(np.asarray(biot, dtype=float))[:, None]
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


@dataclass(frozen=True)
class Diffusion:
    """Moisture contents through the thickness, in time.

    ``times_s`` [s], of shape (times,); ``moisture_pct`` [%], of shape (times, cases, cells);
    ``inflow_pct`` what has passed the two faces inward since the start, as moisture content
    of the whole thickness [%], of shape (times, cases, 2).
    """

    times_s: Array
    moisture_pct: Array
    inflow_pct: Array

    @property
    def mean_pct(self) -> Array:
        """Mean through the thickness [%], of shape (times, cases)."""
        return self.moisture_pct.mean(axis=2)  # type: ignore[no-any-return]

    @property
    def middle_pct(self) -> Array:
        """In the middle of the thickness [%], of shape (times, cases)."""
        return self.moisture_pct[:, :, self.moisture_pct.shape[2] // 2]


def diffuse(
    start_pct: ArrayLike,
    thickness_m: float,
    resistance_s_m: ArrayLike,
    times_s: ArrayLike,
    diffusivity: Callable[[Array, float], ArrayLike],
    air_pct: Callable[[float], float],
    cells: int = CELLS,
    rtol: float = 1e-5,
) -> Diffusion:
    """Compute moisture content through the thickness of boards as the air around them changes.

    Parameters
    ----------
    start_pct : array_like
        Moisture content at the start [%], a number or of shape (cases, cells).
    thickness_m : float
        Thickness [m].
    resistance_s_m : array_like
        Of the two faces [s/m], of shape (cases, 2).
    times_s : array_like
        When the answer is wanted [s], rising, the first at or after 0.
    diffusivity : callable
        Of moisture contents of shape (cases, cells) and time [m2/s], of that shape or one it
        broadcasts from.
    air_pct : callable
        The moisture content wood comes to in the air at a time [%].
    cells : int, optional
        Cells through the thickness, an odd number.
    rtol : float, optional
        Relative tolerance of the time step [1].

    Returns
    -------
    Diffusion
        Moisture contents in time and through the thickness.

    Raises
    ------
    ValueError
        Where the integration fails.

    Notes
    -----
    Fick's law below fiber saturation, at one temperature through the thickness. Finite volumes of
    equal thickness, so that what leaves one enters the next; in time by the variable-order method
    of SciPy's LSODA. Cases run side by side.
    """
    import numpy as np
    from scipy.integrate import solve_ivp

    faces = np.asarray(resistance_s_m, dtype=float)
    cases, width = len(faces), thickness_m / cells
    # One row per case: what passed the left face, the cells, what passed the right one. Rows
    # stand one behind the other, so that the Jacobian stays tridiagonal.
    state = np.zeros((cases, cells + 2))
    state[:, 1:-1] = start_pct

    inward = np.empty((cases, cells + 1))
    ends = slice(None, None, cells - 1)

    def slope(t: float, flat: Array) -> Array:
        moisture = flat.reshape(cases, cells + 2)[:, 1:-1]
        d = np.asarray(diffusivity(moisture, t))
        if d.shape != moisture.shape:
            d = np.broadcast_to(d, moisture.shape)
        between = 0.5 * (d[:, 1:] + d[:, :-1]) * (moisture[:, 1:] - moisture[:, :-1]) / width
        half = width / (2.0 * d[:, ends])
        into = (air_pct(t) - moisture[:, ends]) / (faces + half)
        change = np.empty((cases, cells + 2))
        change[:, :: cells + 1] = into / thickness_m
        # From left to right.
        inward[:, 0], inward[:, 1:-1], inward[:, -1] = into[:, 0], -between, -into[:, 1]
        change[:, 1:-1] = -(inward[:, 1:] - inward[:, :-1]) / width
        return change.ravel()

    times = np.asarray(times_s, dtype=float)
    solution: Any = solve_ivp(
        slope,
        (0.0, float(times[-1])),
        state.ravel(),
        method="LSODA",
        t_eval=times,
        rtol=rtol,
        atol=rtol,
        lband=1,
        uband=1,
        max_step=max(float(times[-1]) / 50.0, 86_400.0),
    )
    if not solution.success:
        raise ValueError(f"the diffusion could not be followed: {solution.message}")
    rows = solution.y.T.reshape(len(times), cases, cells + 2)
    return Diffusion(times, rows[:, :, 1:-1], rows[:, :, [0, -1]])
