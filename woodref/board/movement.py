"""How much a part of a wood changes in size between two moisture contents."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, NamedTuple

from woodref.display import Grid, Shown, number, ranged
from woodref.errors import InputError, NoDataError
from woodref.formulas.cross_section import relative_shrinkage
from woodref.formulas.shrinkage import (
    FIBER_SATURATION_PCT,
    shrinkage_at_ring_angle,
    size_at,
    size_by_change_per_pct,
)
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.note import Note
from woodref.quantity import Range
from woodref.reference.woods import Value, Wood
from woodref.units import both_units

if TYPE_CHECKING:
    from woodref.reference.library import Reference
    from woodref.reference.ranks import MovementRank

#: Ring angle of the three cuts [degree].
CUTS: dict[str, float] = {"flat": 0.0, "rift": 45.0, "quarter": 90.0}
#: Moisture contents between which a change per 1 % is used (common practice, no source).
CHANGE_PER_PCT_RANGE = (5.0, 20.0)


@dataclass(frozen=True)
class MovementBasis:
    """The two figures a wood's movement is computed from, and how."""

    method: str
    radial: Value
    tangential: Value

    @property
    def values(self) -> tuple[Value, Value]:
        """Both figures, the tangential first."""
        return self.tangential, self.radial

    @property
    def by_shrinkage(self) -> bool:
        """True where green-to-ovendry shrinkage is used, false for a change per 1 %."""
        return self.radial.property_id == "shrinkage_radial"


@dataclass(frozen=True)
class Shares:
    """Relative shrinkage of a wood between two moisture contents, share of the first size [1].

    Below zero on wetting. ``radial_sd``, ``tangential_sd`` between single boards; ``notes``
    say where the figures go beyond what they hold for.
    """

    radial: float
    tangential: float
    radial_sd: float
    tangential_sd: float
    basis: MovementBasis
    notes: tuple[Note, ...]


@dataclass(frozen=True, repr=False)
class SizeChange(Shown):
    """A size before and after a change of moisture content [mm].

    ``likely_mm`` the size after, with the central 90 % for the board or panel in hand.
    """

    size_mm: float
    likely_mm: Range

    @property
    def after_mm(self) -> float:
        """The size after, expected [mm]."""
        return self.likely_mm.expected

    @property
    def change_mm(self) -> float:
        """Size after less size before, expected [mm]."""
        return self.after_mm - self.size_mm

    @property
    def likely_change_mm(self) -> Range:
        """Size after less size before, with its likely range [mm]."""
        return Range(*(after - self.size_mm for after in self.likely_mm))


@dataclass(frozen=True, repr=False)
class Movement(SizeChange):
    """The change of a size of one board, or of equal boards side by side.

    ``basis`` the figures it is computed from; ``notes`` say where they go beyond what they hold
    for.
    """

    wood: Wood
    from_moisture_pct: float
    to_moisture_pct: float
    ring_angle_deg: float
    basis: MovementBasis
    notes: tuple[Note, ...]

    def _line(self) -> str:
        after = ranged(self.likely_mm, "mm")
        return (
            f"{self.wood.common_name} {number(self.size_mm)} mm at "
            f"{number(self.from_moisture_pct)} %, at {number(self.to_moisture_pct)} % {after}"
        )


def ring_angle(cut: str | float) -> float:
    """Ring angle of a cut: 'flat' 0, 'rift' 45, 'quarter' 90, or a number of degrees.

    Raises: InputError for another word or an angle outside 0 to 90 degrees.
    """
    if isinstance(cut, str) and cut.strip().lower() in CUTS:
        return CUTS[cut.strip().lower()]
    try:
        angle = float(cut)
    except ValueError:
        raise InputError(
            f"cut '{cut}' is not known; use flat, rift, quarter or a ring angle from 0 to 90"
        ) from None
    if not 0.0 <= angle <= 90.0:
        raise InputError(f"a ring angle lies between 0 (flat) and 90 (quarter), not {angle:g}")
    return angle


def movement_basis(wood: Wood) -> MovementBasis:
    """The figures movement is computed from: shrinkage, else change per 1 % moisture content.

    Raises: NoDataError where the wood has neither pair.
    """
    for kind, method in (
        ("shrinkage", "shrinkage green to ovendry, straight line below fiber saturation"),
        ("change_per_pct", "change per 1 % moisture content as printed"),
    ):
        radial = wood.value(f"{kind}_radial")
        tangential = wood.value(f"{kind}_tangential")
        if radial and tangential:
            if kind == "change_per_pct" and radial.source_id != tangential.source_id:
                continue  # one publication's definition is never mixed with another's
            return MovementBasis(method, radial, tangential)
    radial, tangential = wood.estimate("shrinkage_radial"), wood.estimate("shrinkage_tangential")
    if radial and tangential:
        return MovementBasis(
            "shrinkage estimated from density, no figure of this wood", radial, tangential
        )
    raise NoDataError(
        f"no table holds radial and tangential shrinkage of {wood.common_name}, so its movement "
        "cannot be computed; 'woodref find' shows the woods that have them"
    )


def checked_moisture(name: str, moisture_pct: float) -> float:
    """The moisture content; InputError outside 0 to fiber saturation."""
    if not 0.0 <= moisture_pct <= FIBER_SATURATION_PCT:
        raise InputError(
            f"{name} moisture content {moisture_pct:g} % is outside 0 to "
            f"{FIBER_SATURATION_PCT:g} %: above fiber saturation wood does not move"
        )
    return moisture_pct


def _range_notes(basis: MovementBasis, start: float, end: float) -> tuple[Note, ...]:
    """A note where a change per 1 % is used beyond what it holds for."""
    low, high = CHANGE_PER_PCT_RANGE
    if basis.by_shrinkage or (low <= start <= high and low <= end <= high):
        return ()
    text = (
        f"a change per 1 % holds from about {low:g} to {high:g} % moisture content "
        "(common practice, no source); this goes beyond"
    )
    return (Note("beyond-change-per-pct", text, "common practice"),)


def shares_of(wood: Wood, from_moisture_pct: float, to_moisture_pct: float) -> Shares:
    """Radial and tangential shrinkage between two moisture contents, with their spread.

    Parameters: wood; from_moisture_pct, to_moisture_pct [%], 0 to 30.
    Raises: InputError for an impossible moisture content; NoDataError.
    Source: as movement.
    """
    start = checked_moisture("the first", from_moisture_pct)
    end = checked_moisture("the second", to_moisture_pct)
    basis = movement_basis(wood)

    def share(figure: float) -> float:
        if basis.by_shrinkage:
            return float(relative_shrinkage(figure, start, end))
        return float(1.0 - size_by_change_per_pct(1.0, start, end, figure))

    def sd(figure: Value) -> float:
        spread = figure.sd or 0.0
        return abs(share(figure.value + spread) - share(figure.value - spread)) / 2.0

    return Shares(
        share(basis.radial.value),
        share(basis.tangential.value),
        sd(basis.radial),
        sd(basis.tangential),
        basis,
        _range_notes(basis, start, end),
    )


def movement(
    wood: Wood,
    size_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    ring_angle_deg: float = 0.0,
    boards: int = 1,
) -> Movement:
    """Size of a piece after its moisture content changed, with the likely range.

    Parameters: wood; size_mm width across the face at ``from_moisture_pct`` [mm];
    from_moisture_pct, to_moisture_pct [%], 0 to 30 (a green piece is 30);
    ring_angle_deg 0 flat, 45 rift, 90 quarter sawn (the thickness of the same board takes
    the complement); boards number of equal boards glued side by side (a panel is its staves,
    which share part of their spread).
    Returns: Movement.
    Raises: InputError for an impossible size, angle or moisture content; NoDataError.
    Source: FPL-GTR-282 (2021), Eq. 4-9, exact geometry; spread: woodref.formulas.spread.
    """
    if not 0.0 < size_mm < 100_000.0:
        raise InputError(f"a size must be above 0 and below 100 m, not {size_mm:g} mm")
    start = checked_moisture("the first", from_moisture_pct)
    end = checked_moisture("the second", to_moisture_pct)
    angle = ring_angle(ring_angle_deg)
    basis = movement_basis(wood)
    mixed = shrinkage_at_ring_angle(basis.tangential.value, basis.radial.value, angle)
    mixed_sd = shrinkage_at_ring_angle(basis.tangential.sd or 0.0, basis.radial.sd or 0.0, angle)
    # One board of n carries 1/n of the width, and so of the spread.
    mixed_sd *= sd_of_sum([1.0 / boards] * boards)
    compute = size_at if basis.by_shrinkage else size_by_change_per_pct
    after_of = partial(compute, size_mm, start, end)
    s_low, s_high = likely_range(mixed, mixed_sd)
    likely = Range(after_of(mixed), *sorted((after_of(s_low), after_of(s_high))))
    notes = _range_notes(basis, start, end)
    return Movement(size_mm, likely, wood, start, end, angle, basis, notes)


def size_for(
    wood: Wood,
    wanted_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    ring_angle_deg: float = 0.0,
) -> Movement:
    """The inverse: how wide now, for a width wanted at the second moisture content.

    Returns: Movement whose ``size_mm`` is the width to cut now and ``after_mm`` the wanted one.
    Raises: as movement.
    """
    back = movement(wood, wanted_mm, to_moisture_pct, from_moisture_pct, ring_angle_deg)
    return movement(wood, back.after_mm, from_moisture_pct, to_moisture_pct, ring_angle_deg)


class Stave(NamedTuple):
    """A board of a panel: its width [mm] and its own ring angle [degree], 0 flat."""

    width_mm: float
    ring_angle_deg: float = 0.0


@dataclass(frozen=True, repr=False)
class PanelMovement(SizeChange):
    """The change of the width of a panel, as the sum of its staves.

    ``thicknesses`` of the staves, empty where no thickness was given.
    """

    staves: tuple[Movement, ...]
    thicknesses: tuple[Movement, ...] = ()

    @property
    def step_mm(self) -> float:
        """The largest difference in thickness between neighboring staves after [mm]."""
        after = [m.after_mm for m in self.thicknesses]
        return max((abs(a - b) for a, b in pairwise(after)), default=0.0)

    def _line(self) -> str:
        after = ranged(self.likely_mm, "mm")
        return f"{len(self.staves)} staves, {number(self.size_mm)} mm, after {after}"

    def _grid(self) -> Grid:
        return Grid(
            ("ring angle [degree]", "before [mm]", "after [mm]", "low [mm]", "high [mm]"),
            ((m.ring_angle_deg, m.size_mm, *m.likely_mm) for m in self.staves),
        )


def equal_staves(
    width_mm: float, narrowest_mm: float, widest_mm: float, ring_angle_deg: float = 0.0
) -> tuple[Stave, ...]:
    """The fewest equal staves of a panel that a shop glues.

    Parameters: width_mm of the panel [mm]; narrowest_mm, widest_mm stave [mm];
    ring_angle_deg of all of them.
    Raises: InputError where no number of equal staves lies between the two.
    """
    if not 0.0 < narrowest_mm <= widest_mm:
        raise InputError("the narrowest stave must be above 0 and not wider than the widest")
    count = max(1, ceil(width_mm / widest_mm - 1e-9))
    if width_mm / count < narrowest_mm - 1e-6:
        raise InputError(
            f"no number of equal staves of {both_units(narrowest_mm)} to "
            f"{both_units(widest_mm)} makes {both_units(width_mm)}: {count} come to "
            f"{both_units(width_mm / count)} each"
        )
    return (Stave(width_mm / count, ring_angle_deg),) * count


def panel_movement(
    wood: Wood,
    staves: Sequence[Stave],
    from_moisture_pct: float,
    to_moisture_pct: float,
    thicknesses_mm: Sequence[float] = (),
) -> PanelMovement:
    """Width of a panel after its moisture content changed: a panel is its staves.

    Parameters: wood; staves with their widths at ``from_moisture_pct``; from_moisture_pct,
    to_moisture_pct [%], 0 to 30; thicknesses_mm of the staves [mm], whose rings meet them at the
    complement of the angle, or none.
    Raises: InputError for a panel without staves; as movement.
    Source: as movement; staves of one wood correlate by 0.5 (our assumption).
    """
    if not staves:
        raise InputError("a panel needs a stave")
    span = (from_moisture_pct, to_moisture_pct)
    known = {s: movement(wood, s[0], *span, s[1]) for s in set(staves)}
    moved = tuple(known[s] for s in staves)
    thick = tuple(
        movement(wood, t, *span, 90.0 - s.ring_angle_deg)
        for s, t in zip(staves, thicknesses_mm, strict=bool(thicknesses_mm))
    )
    before = sum(m.size_mm for m in moved)
    after = sum(m.after_mm for m in moved)
    # Each end is so many standard deviations away; they join as those do.
    low = after - sd_of_sum([m.after_mm - m.likely_mm.low for m in moved])
    high = after + sd_of_sum([m.likely_mm.high - m.after_mm for m in moved])
    return PanelMovement(before, Range(after, low, high), moved, thick)


def panel_year(
    wood: Wood,
    staves: Sequence[Stave],
    build_pct: float,
    driest_pct: float,
    wettest_pct: float,
    thickness_mm: float | None = None,
) -> tuple[PanelMovement, PanelMovement, PanelMovement]:
    """A panel from the build to its driest, to its wettest, and from driest to wettest.

    Parameters: wood; staves as built; build_pct, driest_pct, wettest_pct moisture content [%];
    thickness_mm of the panel as built [mm].
    Raises: as panel_movement.
    """
    built = () if thickness_mm is None else (thickness_mm,) * len(staves)
    dry = panel_movement(wood, staves, build_pct, driest_pct, built)
    at_driest = [Stave(m.after_mm, m.ring_angle_deg) for m in dry.staves]
    thin = [m.after_mm for m in dry.thicknesses]
    return (
        dry,
        panel_movement(wood, staves, build_pct, wettest_pct, built),
        panel_movement(wood, at_driest, driest_pct, wettest_pct, thin),
    )


@dataclass(frozen=True, repr=False)
class Stability(Shown):
    """How stable a wood is between two moisture contents.

    ``flat``, ``quarter`` the change of a width, flat and quarter sawn; ``ratio`` tangential
    over radial shrinkage; ``rank`` among the woods with printed shrinkages, None where the
    wood has only a change per 1 %.
    """

    flat: Movement
    quarter: Movement
    ratio: float
    rank: MovementRank | None

    def _line(self) -> str:
        flat, quarter = self.flat, self.quarter
        return (
            f"{flat.wood.common_name} {number(flat.size_mm)} mm from "
            f"{number(flat.from_moisture_pct)} to {number(flat.to_moisture_pct)} %: "
            f"{number(flat.change_mm)} mm flat, {number(quarter.change_mm)} mm quarter sawn"
        )


def stability_of(
    reference: Reference, wood: Wood, driest_pct: float, wettest_pct: float, width_mm: float
) -> Stability:
    """The change of a width between two moisture contents, and how other woods compare.

    Parameters: reference library, for the rank; wood; driest_pct, wettest_pct [%], 0 to 30;
    width_mm at ``driest_pct`` [mm], 300 or a foot.
    Raises: as movement.
    """
    from woodref.reference.ranks import movement_rank

    flat, quarter = (
        movement(wood, width_mm, driest_pct, wettest_pct, CUTS[cut]) for cut in ("flat", "quarter")
    )
    tangential, radial = flat.basis.tangential.value, flat.basis.radial.value
    rank = movement_rank(reference.store, tangential, radial) if flat.basis.by_shrinkage else None
    return Stability(flat, quarter, tangential / radial, rank)
