"""What a finish resists, fitted to the printed test of moisture-excluding effectiveness.

The test: ponderosa pine sapwood brought from air of 30 to 90 % relative humidity at 80 degF
(26.7 degC); of the moisture unfinished wood took up in 1, 7 and 14 days, the share a finish
kept out (USDA Forest Products Laboratory, FPL-RP-462, 1985). The thickness of the panel stands
in no copy that was read, and the table does not fix it: a thin panel whose air takes up much of
the resistance fits as well as a thicker one in a gale. So the coefficient of heat transfer of
the air is taken from a standard, the panel follows, and what the table leaves open is carried
into the range of every answer. The standard's coefficients come to a surface coefficient of
1.6e-7 to 1.1e-6 m/s for the wood of the test; those measured on wood are of the order of 1e-7 to
1e-6 (recalled from Siau, 1984, and of Avramidis and Siau, 1987).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from woodref.formulas.air import saturation_vapor_pressure
from woodref.formulas.density import density_at, specific_gravity_at_general
from woodref.formulas.diffusion import (
    air_film_resistance,
    moisture_resistance,
    slab_uptake,
    transverse_diffusivity,
)
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.record import record
from woodref.reference.bases import READ
from woodref.reference.finishes import FinishRow

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

#: Coefficients of heat transfer by convection alone at a face indoors: upward, level and
#: downward heat flow [W/(m2 K)] (ISO 6946, surface resistances, unchecked). Level is the
#: likely one, the others the ends of the range.
CONVECTION_W_M2K = (2.5, 0.7, 5.0)
#: The diffusion coefficient of a board over that of the relation (our assumption: boards lie
#: within a factor of two of it).
DIFFUSION_FACTOR = (1.0, 0.5, 2.0)
#: Wood and air of the test (FPL-RP-462): basic specific gravity of ponderosa pine (Wood Handbook
#: Table 5-3), temperature [degC], relative humidity before and after [%], days.
TEST_GRAVITY, TEST_C, TEST_HUMIDITY, TEST_DAYS = (
    0.38,
    80.0 / 1.8 - 32.0 / 1.8,
    (30.0, 90.0),
    (1, 7, 14),
)
#: Bases of the rows that fix the panel: what was read in print.
DAY_S = 86_400.0


class Unknowns(NamedTuple):
    """What the range of an answer goes over: the air at a face, and the board."""

    convection_w_m2k: float = CONVECTION_W_M2K[0]
    diffusion_factor: float = DIFFUSION_FACTOR[0]


#: Every combination, the likely one first.
CASES = tuple(Unknowns(h, f) for h in CONVECTION_W_M2K for f in DIFFUSION_FACTOR)


@record
class FinishFit:
    """The panel of the test and the resistance of each finish, under given unknowns.

    ``half_thickness_m`` of the panel [m]; ``biot`` of the unfinished panel [1]; ``rms_pct`` of
    the rows read in print [%]; ``vapor_resistance`` by finish and number of coats
    [Pa s m2/kg]; ``computed_pct`` what the fit gives for each of the days.
    """

    unknowns: Unknowns
    half_thickness_m: float
    biot: float
    rms_pct: float
    vapor_resistance: Mapping[tuple[str, int], float]
    computed_pct: Mapping[tuple[str, int], tuple[float, ...]]


@record
class _Test:
    """The wood of the test: diffusion coefficient [m2/s], film [s/m], and vapor per resistance."""

    diffusivity: float
    film_s_m: float
    vapor_per_s_m: float

    def biot(self, half_m: float) -> float:
        return half_m / (self.diffusivity * self.film_s_m)


def _test_of(unknowns: Unknowns) -> _Test:
    dry, wet = (float(equilibrium_moisture_content(TEST_C, h)) for h in TEST_HUMIDITY)
    mean = (dry + wet) / 2.0
    share = (TEST_HUMIDITY[1] - TEST_HUMIDITY[0]) / 100.0
    per_pct = saturation_vapor_pressure(TEST_C) * share / (wet - dry)
    unit = moisture_resistance(1.0, dry_density(TEST_GRAVITY, mean), per_pct)
    film = unit * air_film_resistance(unknowns.convection_w_m2k, TEST_C)
    d = unknowns.diffusion_factor * transverse_diffusivity(mean, TEST_C, TEST_GRAVITY)
    return _Test(float(d), float(film), 1.0 / float(unit))


def dry_density(basic_specific_gravity: float, moisture_pct: float) -> float:
    """Ovendry mass over the volume at a moisture content [kg/m3].

    Source: FPL-GTR-282 (2021), Eq. 4-13 and 4-14.
    """
    gravity = specific_gravity_at_general(basic_specific_gravity, moisture_pct)
    return float(density_at(gravity, 0.0))


def _grid() -> Array:
    """Resistances tried, as multiples of half the panel over its diffusion coefficient."""
    import numpy as np

    return np.concatenate([[0.0], np.logspace(-3.0, 3.5, 400)])


def _kept_out(test: _Test, half_m: float) -> Array:
    """Share of the moisture kept out [%], one row for each resistance of _grid."""
    import numpy as np

    fourier = test.diffusivity * DAY_S * np.array(TEST_DAYS) / half_m**2
    biot = 1.0 / (1.0 / test.biot(half_m) + _grid())
    uptake = slab_uptake(fourier, biot)
    return np.asarray(100.0 * (1.0 - uptake / uptake[0]))


def _printed(rows: Sequence[FinishRow]) -> tuple[list[tuple[str, int]], Array, list[bool]]:
    """Finish and coats, the printed shares with NaN where none is, and whether all were read."""
    import numpy as np

    keys = list(dict.fromkeys((r.finish, r.coats) for r in rows))
    table = np.full((len(keys), len(TEST_DAYS)), np.nan)
    read = [True] * len(keys)
    for r in rows:
        i = keys.index((r.finish, r.coats))
        table[i, TEST_DAYS.index(r.days)] = r.excluded_pct
        read[i] = read[i] and r.basis in READ
    return (
        keys,
        table,
        [a and not b for a, b in zip(read, np.isnan(table).any(axis=1), strict=True)],
    )


def _misfit(printed: Array, curve: Array) -> Array:
    """Sum of squares of each printed row against each resistance; a missing day counts nothing."""
    import numpy as np

    return np.asarray(np.nansum((printed[:, None, :] - curve[None]) ** 2, axis=2))


@lru_cache(maxsize=32)
def fit_finishes(rows: tuple[FinishRow, ...], unknowns: Unknowns = CASES[0]) -> FinishFit:
    """The thickness of the test panel and the resistance of each finish, by least squares.

    The panel is fitted to the rows read in print with all three days; a finish then takes the
    resistance that serves its own days best. Constant coefficient, that of the mean of the
    moisture contents before and after (about 13 %).

    Parameters: rows of the table; unknowns, the air at the faces and the board.
    Returns: FinishFit.
    Source: table of FPL-GTR-190 (2010), 16-3, test of FPL-RP-462 (1985); the relation of the
    diffusion coefficient is recalled, see woodref.formulas.diffusion.
    """
    import numpy as np
    from scipy.optimize import minimize_scalar

    keys, printed, read = _printed(rows)
    test = _test_of(unknowns)

    def squares(log_half_m: float) -> float:
        curve = _kept_out(test, float(np.exp(log_half_m)))
        return float(_misfit(printed[read], curve).min(axis=1).sum())

    best = minimize_scalar(squares, bounds=(np.log(5e-4), np.log(2e-2)), method="bounded")
    half = float(np.exp(best.x))
    curve = _kept_out(test, half)
    chosen = _misfit(printed, curve).argmin(axis=1)
    per_unit = half / test.diffusivity * test.vapor_per_s_m
    return FinishFit(
        unknowns,
        half,
        test.biot(half),
        float(np.sqrt(best.fun / printed[read].size)),
        {k: float(_grid()[i] * per_unit) for k, i in zip(keys, chosen, strict=True)},
        {k: tuple(float(x) for x in curve[i]) for k, i in zip(keys, chosen, strict=True)},
    )


def resistances(rows: tuple[FinishRow, ...], finish: str, coats: int) -> tuple[float, ...]:
    """The resistance of a finish to vapor in each of CASES [Pa s m2/kg].

    Those of the dataset where its rows hold them, else fitted.

    Parameters: rows of the table, those of the finish among them; coats that were tested.
    """
    own = next(r for r in rows if (r.finish, r.coats) == (finish, coats))
    if len(own.resistances) == len(CASES):
        return own.resistances
    return tuple(fit_finishes(rows, case).vapor_resistance[finish, coats] for case in CASES)


def predicted_from_day_1(
    rows: tuple[FinishRow, ...], unknowns: Unknowns = CASES[0]
) -> dict[tuple[str, int], tuple[float, float]]:
    """Days 7 and 14 from day 1 alone [%], of the rows read in print: how far the fit reaches.

    The panel is that of fit_finishes.
    """
    import numpy as np

    keys, printed, read = _printed(rows)
    curve = _kept_out(_test_of(unknowns), fit_finishes(rows, unknowns).half_thickness_m)
    later_days = {}
    for key, row, known in zip(keys, printed, read, strict=True):
        if known:
            later = (np.interp(row[0], curve[:, 0], curve[:, day]) for day in (1, 2))
            later_days[key] = (float(next(later)), float(next(later)))
    return later_days
