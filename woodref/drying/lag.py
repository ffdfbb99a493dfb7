"""How thickness and finish slow a board's answer to the air: the mean and the middle lag behind.

A range goes over what is not known: the air at the faces, and how far the board's diffusion
coefficient is from the relation's (woodref.drying.finish_fit). An estimate, not a promise:
heartwood and rings make boards differ, and the end grain, which is faster, is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from math import hypot
from typing import TYPE_CHECKING

from woodref.board.movement import checked_moisture, movement
from woodref.board.weight import DensityEstimate, density_of
from woodref.display import Shown, number
from woodref.drying.ambient import (
    ROOM_C,
    YEAR_DAYS,
    AmbientAir,
    steady_air,
    vapor_per_pct,
    yearly_air,
)
from woodref.drying.finish_fit import CASES, DAY_S, dry_density, resistances
from woodref.errors import InputError
from woodref.formulas.diffusion import (
    Diffusion,
    air_film_resistance,
    diffuse,
    moisture_resistance,
    transverse_diffusivity,
)
from woodref.note import Note
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.bases import EDITORIAL, OWN, UNCHECKED, weakest
from woodref.reference.finish_kin import kin_of, own_resistance
from woodref.reference.finishes import (
    FinishRow,
    checked_coats,
    coats_of,
    finish_of,
    usual_coats,
)
from woodref.units import MM_PER_INCH

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from woodref.reference.woods import Wood

    Array = NDArray[np.float64]

#: Thicknesses for which one dimension will do [mm].
THICKNESS_MM = (0.75, 152.5)
#: A year is taken to repeat once no moisture content differs by more from the last one [%].
_REPEATS_PCT, _MOST_YEARS = 0.02, 12

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
class DryingBoard:
    """A board as far as moisture goes: its thickness [mm] and basic specific gravity."""

    thickness_mm: float
    density: DensityEstimate

    @property
    def gravity(self) -> float:
        """Basic specific gravity [1]."""
        return self.density.basic_specific_gravity


@record
class Finish:
    """A finish on a board; ``name`` is '' for bare wood.

    ``one_face`` where the other face stays bare; ``basis`` the weakest of its printed rows;
    ``noted`` where they carry notes; ``rows`` the whole table, from which its resistance is
    fitted. ``sold_as`` is what the shop calls it where ``name`` is only its nearest kin in the
    test, for the reason ``why``. ``resistance`` is its own, where it was given [Pa s m2/kg].
    """

    name: str = ""
    coats: int = 0
    one_face: bool = False
    basis: str = ""
    sources: tuple[str, ...] = ()
    noted: bool = False
    rows: tuple[FinishRow, ...] = field(default=(), repr=False)
    sold_as: str = ""
    why: str = ""
    resistance: float | None = None

    @property
    def label(self) -> str:
        """'bare', 'Linseed oil, 2 coats', or 'hardwax oil (as Linseed oil, 2 coats)'."""
        if not self.name:
            return "bare"
        if self.resistance is not None:
            return f"your finish, {self.name}{', one face' if self.one_face else ''}"
        if self.sold_as:
            return f"{self.sold_as} (as {replace(self, sold_as='').label})"
        coats = f"{self.coats} coat{'s' if self.coats > 1 else ''}"
        return f"{self.name}, {coats}{', one face' if self.one_face else ''}"


BARE = Finish()


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


def board_of(wood: Wood, thickness_mm: float) -> DryingBoard:
    """A board of a wood.

    Raises: InputError for an impossible thickness; NoDataError where no density is known.
    """
    low, high = THICKNESS_MM
    if not low <= thickness_mm <= high:
        raise InputError(
            f"a thickness of 1/32 to 6 in (0.8 to 152 mm) is followed, not "
            f"{thickness_mm / MM_PER_INCH:g} in ({thickness_mm:g} mm)"
        )
    return DryingBoard(thickness_mm, density_of(wood, 12.0))


def finish_on(
    rows: tuple[FinishRow, ...], name: str, coats: int | None = None, one_face: bool = False
) -> Finish:
    """A finish by name, with a number of coats that was tested.

    Parameters: rows of the table; name as printed or as shops call it, whose nearest tested kin
    is taken, or a resistance of one's own, 'sd 0.8 m' or '2.5 perms'; coats, by default those
    nearest to two that were tested; one_face, true where the other face stays bare.
    Raises: InputError with the nearest finish, or the nearest number of coats.
    """
    resistance = own_resistance(name)
    if resistance is not None:
        known = " ".join(name.split())
        return Finish(known, coats or 1, one_face, OWN, rows=rows, resistance=resistance)
    kin = kin_of(name)
    if kin:
        tested = coats_of(rows, kin.tested)
        wanted = 2.0 if coats is None else coats / kin.coats_each
        nearest = min(tested, key=lambda n: (abs(n - wanted), n))
        nearest_kin = finish_on(rows, kin.tested, nearest, one_face)
        return replace(nearest_kin, sold_as=" ".join(name.split()), why=kin.why)
    finish = finish_of(rows, name)
    if not finish:
        return BARE
    coats = usual_coats(rows, finish) if coats is None else checked_coats(rows, finish, coats)
    own = [r for r in rows if (r.finish, r.coats) == (finish, coats)]
    sources = tuple(dict.fromkeys(r.source for r in own))
    basis, noted = weakest(r.basis for r in own), any(r.note for r in own)
    return Finish(finish, coats, one_face, basis, sources, noted, rows)


def _faces(board: DryingBoard, finishes: Sequence[Finish], air: AmbientAir) -> Array:
    """Resistance of both faces [s/m]: one row for each finish and each of CASES."""
    import numpy as np

    mean = (air.low_pct + air.high_pct) / 2.0
    unit = moisture_resistance(1.0, dry_density(board.gravity, mean), vapor_per_pct(air))
    rows = []
    for finish in finishes:
        coats = (0.0,) * len(CASES)
        if finish.resistance is not None:
            coats = (finish.resistance,) * len(CASES)
        elif finish.name:
            coats = resistances(finish.rows, finish.name, finish.coats)
        for case, coat in zip(CASES, coats, strict=True):
            film = float(air_film_resistance(case.convection_w_m2k, air.mean_c))
            rows.append([film + coat, film + (0.0 if finish.one_face else coat)])
    return float(unit) * np.array(rows)


def follow(
    board: DryingBoard,
    finishes: Sequence[Finish],
    air: AmbientAir,
    start_pct: float | Array,
    times_s: Array,
    faces_of: AmbientAir | None = None,
) -> Diffusion:
    """Moisture through a board under each finish, in each of CASES.

    Parameters: board; finishes; air; start_pct a number, or the moisture contents of each case
    and layer [%]; times_s [s]; faces_of the air the faces' resistances are taken for, where it
    is not ``air``.
    Returns: Diffusion; cases of a finish stand together, the likely one first.
    """
    import numpy as np

    factors = np.tile([c.diffusion_factor for c in CASES], len(finishes))[:, None]

    def diffusivity(moisture: Array, t: float) -> Array:
        within = np.minimum(np.maximum(moisture, 0.0), 30.0)
        return np.asarray(
            factors * transverse_diffusivity(within, air.temperature_c(t), board.gravity)
        )

    return diffuse(
        start_pct,
        board.thickness_mm / 1000.0,
        _faces(board, finishes, faces_of or air),
        times_s,
        diffusivity,
        air.emc_pct,
    )


def spread(values: Array) -> Range:
    """The likely value of the cases, which stands first, and the ends over all."""
    return Range(float(values[0]), float(values.min()), float(values.max()))


def cases_of(index: int) -> slice:
    """The cases of a finish by its place in the list."""
    return slice(index * len(CASES), (index + 1) * len(CASES))


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
    import numpy as np

    for name, pct in (("the first", from_pct), ("the second", to_pct)):
        checked_moisture(name, pct)
    if abs(to_pct - from_pct) < 0.05:
        raise InputError(f"both moisture contents are {to_pct:g} %: there is nothing to follow")
    if not days or any(not 0.0 < d <= 36_500.0 for d in days):
        raise InputError("days are above 0 and at most 36500 (100 years)")
    air = steady_air(to_pct, temperature_c, from_pct)
    moisture = follow(board, finishes, air, from_pct, np.array(days) * DAY_S)
    mean, middle = (
        np.clip((m - from_pct) / (to_pct - from_pct), 0.0, 1.0)
        for m in (moisture.mean_pct, moisture.middle_pct)
    )
    return tuple(
        LagStep(
            finish,
            tuple(days),
            tuple(spread(row[cases_of(i)]) for row in mean),
            tuple(spread(row[cases_of(i)]) for row in middle),
        )
        for i, finish in enumerate(finishes)
    )


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
    import numpy as np

    for n, pct in enumerate(emc_pct, 1):
        checked_moisture(f"month {n}: the", pct)
    air = yearly_air(emc_pct, temperature_c)
    # Two steps a month and more: the middles of months, and the points between them.
    times = np.arange(0.0, 73.0) / 72.0 * YEAR_DAYS * DAY_S
    start: float | Array = sum(emc_pct) / 12.0
    for _ in range(_MOST_YEARS):
        moisture = follow(board, finishes, air, start, times)
        start, before = moisture.moisture_pct[-1], start
        if np.abs(start - before).max() < _REPEATS_PCT:
            break
    swing = max(emc_pct) - min(emc_pct)
    mean, middle = moisture.mean_pct, moisture.middle_pct
    shares = [np.ptp(m, axis=0) / max(swing, 1e-9) for m in (mean, middle)]
    return tuple(
        LagYear(
            finish,
            tuple(
                LagMonth(
                    n + 1,
                    emc_pct[n],
                    spread(mean[6 * n + 3, cases_of(i)]),
                    spread(middle[6 * n + 3, cases_of(i)]),
                )
                for n in range(12)
            ),
            swing,
            spread(shares[0][cases_of(i)]),
            spread(shares[1][cases_of(i)]),
            spread(mean[:, cases_of(i)].min(axis=0)),
            spread(mean[:, cases_of(i)].max(axis=0)),
        )
        for i, finish in enumerate(finishes)
    )


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
