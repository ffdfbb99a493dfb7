"""How much a part of a wood changes in size between two moisture contents."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from woodref.errors import InputError, NoDataError
from woodref.formulas.shrinkage import (
    FIBER_SATURATION_PCT,
    shrinkage_at_ring_angle,
    size_at,
    size_by_change_per_pct,
)
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.reference.woods import Value, Wood

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
    def by_shrinkage(self) -> bool:
        """True where green-to-ovendry shrinkage is used, false for a change per 1 %."""
        return self.radial.property_id == "shrinkage_radial"


@dataclass(frozen=True)
class Movement:
    """A size before and after, with the likely range of the size after.

    Sizes [mm]; ``change_mm`` after less before; ``low_mm``, ``high_mm`` the central 90 %
    of the size after for the board in hand.
    """

    wood: Wood
    size_mm: float
    from_moisture_pct: float
    to_moisture_pct: float
    ring_angle_deg: float
    after_mm: float
    low_mm: float
    high_mm: float
    basis: MovementBasis
    notes: tuple[str, ...]

    @property
    def change_mm(self) -> float:
        """Size after less size before [mm]."""
        return self.after_mm - self.size_mm

    @property
    def change_low_mm(self) -> float:
        """Smaller end of the likely change [mm]."""
        return self.low_mm - self.size_mm

    @property
    def change_high_mm(self) -> float:
        """Larger end of the likely change [mm]."""
        return self.high_mm - self.size_mm


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


def _checked(name: str, moisture_pct: float) -> float:
    if not 0.0 <= moisture_pct <= FIBER_SATURATION_PCT:
        raise InputError(
            f"{name} moisture content {moisture_pct:g} % is outside 0 to "
            f"{FIBER_SATURATION_PCT:g} %: above fiber saturation wood does not move"
        )
    return moisture_pct


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
    start = _checked("the first", from_moisture_pct)
    end = _checked("the second", to_moisture_pct)
    angle = ring_angle(ring_angle_deg)
    basis = movement_basis(wood)
    mixed = shrinkage_at_ring_angle(basis.tangential.value, basis.radial.value, angle)
    mixed_sd = shrinkage_at_ring_angle(basis.tangential.sd or 0.0, basis.radial.sd or 0.0, angle)
    # One board of n carries 1/n of the width, and so of the spread.
    mixed_sd *= sd_of_sum([1.0 / boards] * boards)
    notes = []
    compute = size_at if basis.by_shrinkage else size_by_change_per_pct
    if not basis.by_shrinkage:
        low, high = CHANGE_PER_PCT_RANGE
        if not (low <= start <= high and low <= end <= high):
            notes.append(
                f"a change per 1 % holds from about {low:g} to {high:g} % moisture content "
                "(common practice, no source); this goes beyond"
            )
    after_of = partial(compute, size_mm, start, end)
    s_low, s_high = likely_range(mixed, mixed_sd)
    ends = sorted((after_of(s_low), after_of(s_high)))
    return Movement(
        wood, size_mm, start, end, angle, after_of(mixed), ends[0], ends[1], basis, tuple(notes)
    )


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
