"""Moisture followed through a board, over what is not known of it and of the air at its faces."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log
from typing import TYPE_CHECKING

from woodref.board.weight import DensityEstimate, density_of
from woodref.drying.ambient import AmbientAir, vapor_per_pct
from woodref.drying.finish import Finish
from woodref.drying.finish_fit import CASES, dry_density, resistances
from woodref.errors import UnitsError
from woodref.formulas.diffusion import (
    air_film_resistance,
    moisture_resistance,
    transverse_diffusivity,
)
from woodref.formulas.slab import Diffusion, diffuse
from woodref.quantity import Range
from woodref.record import record
from woodref.units import either_unit, size_told

if TYPE_CHECKING:
    from woodref.reference.woods import Wood

#: Thicknesses for which one dimension will do [mm].
THICKNESS_MM = (0.75, 152.5)
#: Temperatures between which, and beyond, the diffusion coefficient is drawn [degC].
_KEPT_C, _KELVIN = (0.0, 40.0), 273.15


@record
class DryingBoard:
    """A board as far as moisture goes: its thickness [mm] and basic specific gravity."""

    thickness_mm: float
    density: DensityEstimate

    @property
    def gravity(self) -> float:
        """Basic specific gravity [1]."""
        return self.density.basic_specific_gravity


def board_of(wood: Wood, thickness_mm: float) -> DryingBoard:
    """A board of a wood.

    Raises: InputError for an impossible thickness; NoDataError where no density is known.
    """
    low, high = THICKNESS_MM
    if not low <= thickness_mm <= high:
        raise UnitsError(
            lambda units: (
                f"a thickness of {either_unit(units, '1/32 to 6 in', '0.8 to 152 mm')} is "
                f"followed, not {size_told(thickness_mm, units)}"
            )
        )
    return DryingBoard(thickness_mm, density_of(wood, 12.0))


def _faces(board: DryingBoard, finish: Finish, air: AmbientAir) -> list[tuple[float, float]]:
    """Resistance of both faces in each of CASES [s/m]."""
    mean = (air.low_pct + air.high_pct) / 2.0
    unit = moisture_resistance(1.0, dry_density(board.gravity, mean), vapor_per_pct(air))
    coats = (0.0,) * len(CASES)
    if finish.resistance is not None:
        coats = (finish.resistance,) * len(CASES)
    elif finish.name:
        coats = resistances(finish.rows, finish.name, finish.coats)
    faces = []
    for case, coat in zip(CASES, coats, strict=True):
        film = air_film_resistance(case.convection_w_m2k, air.mean_c)
        other = 0.0 if finish.one_face else coat
        faces.append((unit * (film + coat), unit * (film + other)))
    return faces


class _Coefficients:
    """The diffusion coefficient of a board, by moisture content and temperature.

    Its logarithm is straight in one over the absolute temperature and nearly so in moisture
    content: kept at whole percents, it is the relation's to some 1e-4.
    """

    def __init__(self, gravity: float) -> None:
        self._rows = [self._kept(gravity, celsius) for celsius in _KEPT_C]
        self._celsius: float | None = None
        self._row: list[float] = []

    @staticmethod
    def _kept(gravity: float, celsius: float) -> list[float]:
        return [log(transverse_diffusivity(float(m), celsius, gravity)) for m in range(32)]

    def of(self, moisture: Sequence[float], celsius: float) -> list[float]:
        """The coefficient of cells [m2/s]: moisture [%], celsius [degC]."""
        if celsius != self._celsius:
            cold, warm, now = (1.0 / (c + _KELVIN) for c in (*_KEPT_C, celsius))
            share = (now - cold) / (warm - cold)
            self._row = [a + share * (b - a) for a, b in zip(*self._rows, strict=True)]
            self._celsius = celsius
        row, found = self._row, []
        for m in moisture:
            within = min(max(m, 0.0), 30.0)
            at = int(within)
            found.append(exp(row[at] + (within - at) * (row[at + 1] - row[at])))
        return found


def follow(
    board: DryingBoard,
    finish: Finish,
    air: AmbientAir,
    start_pct: float | Sequence[Sequence[float]],
    times_s: Sequence[float],
    faces_of: AmbientAir | None = None,
) -> tuple[Diffusion, ...]:
    """Moisture through a board under a finish, in each of CASES, the likely one first.

    Parameters: board; finish; air; start_pct a number, or the moisture contents through the
    thickness in each case [%]; times_s [s]; faces_of the air the faces' resistances are taken
    for, where it is not ``air``.
    """
    coefficients = _Coefficients(board.gravity)
    followed = []
    for n, (case, faces) in enumerate(
        zip(CASES, _faces(board, finish, faces_of or air), strict=True)
    ):
        factor = case.diffusion_factor

        def diffusivity(cells: Sequence[float], t: float, factor: float = factor) -> list[float]:
            return [factor * d for d in coefficients.of(cells, air.temperature_c(t))]

        start = start_pct if isinstance(start_pct, int | float) else start_pct[n]
        thickness = board.thickness_mm / 1000.0
        followed.append(diffuse(start, thickness, faces, times_s, diffusivity, air.emc_pct))
    return tuple(followed)


def spread(values: Sequence[float]) -> Range:
    """The likely value of the cases, which stands first, and the ends over all."""
    return Range(values[0], min(values), max(values))
