"""How much a part of a wood changes in size between two moisture contents."""

from __future__ import annotations

from typing import NamedTuple

from woodref.board.movement_basis import MovementBasis, movement_basis
from woodref.display import Shown, number, ranged
from woodref.errors import InputError, UnitsError
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.note import Note
from woodref.quantity import Range, check_glued
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.woods import Wood
from woodref.units import impossible_size

#: Ring angle of the three cuts [degree].
CUTS: dict[str, float] = {"flat": 0.0, "rift": 45.0, "quarter": 90.0}
#: Moisture contents between which a change per 1 % is used (common practice, no source).
CHANGE_PER_PCT_RANGE = (5.0, 20.0)


class Shares(NamedTuple):
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


@record(repr=False)
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


@record(repr=False)
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


def face_angles(cut: str, face: str) -> dict[str, float]:
    """The cuts to answer for, with the ring angle that holds for a face [degree].

    The thickness of a board meets the rings at the complement of the angle of its width.

    Parameters: cut as ring_angle, or '' for all of CUTS; face 'width' or 'thickness'.
    Raises: as ring_angle.
    """
    cuts = {cut.strip().lower(): ring_angle(cut)} if cut else CUTS
    return {name: a if face == "width" else 90.0 - a for name, a in cuts.items()}


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
    return (Note("beyond-change-per-pct", text, COMMON_PRACTICE),)


def shares_of(wood: Wood, from_moisture_pct: float, to_moisture_pct: float) -> Shares:
    """Radial and tangential shrinkage between two moisture contents, with their spread.

    Parameters: wood; from_moisture_pct, to_moisture_pct [%], 0 to 30.
    Raises: InputError for an impossible moisture content; NoDataError.
    Source: as movement.
    """
    start = checked_moisture("the first", from_moisture_pct)
    end = checked_moisture("the second", to_moisture_pct)
    basis = movement_basis(wood)
    flat, quarter = CUTS["flat"], CUTS["quarter"]
    tangential, radial = (1.0 - basis.size_after(1.0, start, end, a) for a in (flat, quarter))
    return Shares(
        radial,
        tangential,
        abs(radial) * basis.cv(quarter),
        abs(tangential) * basis.cv(flat),
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
    Raises: InputError for an impossible size, angle, moisture content or number of boards;
    NoDataError.
    Source: FPL-GTR-282 (2021), Eq. 4-9, exact geometry, with the wood's own fiber saturation
    point; from 6 to 14 % Table 13-5 of FPL-GTR-190 (2010) where that differs by more than a
    tenth; spread: woodref.formulas.spread.
    """
    if not 0.0 < size_mm < 100_000.0:
        raise UnitsError(impossible_size("a size", size_mm))
    start = checked_moisture("the first", from_moisture_pct)
    end = checked_moisture("the second", to_moisture_pct)
    angle = ring_angle(ring_angle_deg)
    basis = movement_basis(wood)
    after = basis.size_after(size_mm, start, end, angle)
    check_glued(boards)
    # One board of n carries 1/n of the width, and so of the spread.
    cv = basis.cv(angle)
    if boards > 1:
        cv *= sd_of_sum([1.0 / boards] * boards)
    low, high = likely_range(1.0, cv)
    ends = sorted(size_mm + (after - size_mm) * factor for factor in (low, high))
    likely = Range(after, *ends)
    notes = _range_notes(basis, start, end)
    return Movement(size_mm, likely, wood, start, end, angle, basis, notes)


def seasonal_movement(
    wood: Wood,
    size_mm: float,
    start_pct: float | None,
    driest_pct: float,
    wettest_pct: float,
    ring_angle_deg: float = 0.0,
) -> Movement:
    """The movement of a size from the driest moisture content of a year to the wettest.

    Parameters: wood; size_mm at ``start_pct``, or at the driest where that is None [mm];
    start_pct, driest_pct, wettest_pct [%], 0 to 30; ring_angle_deg as movement.
    Raises: as movement.
    """
    if start_pct is not None:
        size_mm = movement(wood, size_mm, start_pct, driest_pct, ring_angle_deg).after_mm
    return movement(wood, size_mm, driest_pct, wettest_pct, ring_angle_deg)


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
