"""What becomes of the cross-section of a board, a leg or a dowel when its moisture changes.

The map is that of woodref.formulas.cross_section; the spread follows the rule of
woodref.formulas.spread with one addition: radial and tangential shrinkage of a board correlate
like those of two boards, by 0.5 (our assumption).
"""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from math import atan2, degrees, inf, radians
from typing import NoReturn

from woodref.board.movement import Shares, shares_of
from woodref.board.outline import (
    FACES,
    Pith,
    Points,
    checked_size,
    circle,
    length_along,
    leveled,
    mapping,
    rectangle,
    sagitta,
)
from woodref.display import Shown, number, ranged
from woodref.errors import InputError
from woodref.formulas.cross_section import gap_deg
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.woods import Wood

Measures = dict[str, float]


class FaceSide(StrEnum):
    """Which way a face looks: to the bark, to the pith, or neither more than its opposite."""

    BARK = "bark"
    PITH = "pith"
    NEITHER = ""


@record
class Face:
    """A face of a board before and after [mm].

    ``side`` tells it from the opposite face; ``after_mm`` straight from corner to corner,
    ``along_mm`` along the face; ``cup_mm`` the largest sagitta, above zero where the face is
    hollow, below where it is rounded.
    """

    name: str
    side: FaceSide
    before_mm: float
    after_mm: float
    along_mm: float
    cup_mm: Range

    @property
    def wide(self) -> bool:
        """True for the faces above and below."""
        return self.name in ("top", "bottom")


@record(repr=False)
class CrossSection(Shown):
    """A board or squared leg before and after.

    ``faces`` by the names of FACES; ``thickness_mm`` before, ``middle_mm`` after, through the
    middle; ``corners_deg`` between the straight lines from corner to corner, counterclockwise
    from the lower left; ``diagonals_mm`` from the lower left and from the lower right corner,
    ``diagonal_difference_mm`` the first less the second; ``outline`` the faces after, the
    middles of the edges level [mm].
    """

    wood: Wood
    width_mm: float
    thickness_mm: float
    from_moisture_pct: float
    to_moisture_pct: float
    pith: Pith
    shares: Shares
    faces: Mapping[str, Face]
    middle_mm: float
    corners_deg: tuple[float, ...]
    diagonals_mm: tuple[float, float]
    diagonal_difference_mm: Range
    outline: Mapping[str, Points]

    @property
    def out_of_square_deg(self) -> float:
        """The largest deviation of a corner from 90 degrees, with its sign."""
        return max((c - 90.0 for c in self.corners_deg), key=abs)

    @property
    def cupped(self) -> Face:
        """The wide face that tells the cup: the hollow one, the deeper where both are hollow."""
        return max((self.faces[n] for n in ("top", "bottom")), key=lambda f: f.cup_mm.expected)

    def _line(self) -> str:
        return (
            f"{self.wood.common_name} {number(self.width_mm)} x {number(self.thickness_mm)} mm, "
            f"cup {ranged(self.cupped.cup_mm, 'mm')}"
        )


@record
class Round:
    """A dowel or turned leg before and after: its widest and narrowest diameter [mm]."""

    wood: Wood
    diameter_mm: float
    from_moisture_pct: float
    to_moisture_pct: float
    pith: Pith
    shares: Shares
    widest_mm: float
    narrowest_mm: float
    oval_mm: Range
    outline: Points


def _with_pith(shares: Shares, start: float, end: float) -> InputError:
    """Why a piece that holds the pith is refused."""
    gap = gap_deg(shares.radial, shares.tangential)
    if gap == 0.0:
        return InputError(
            f"a piece that holds the pith stays as it is while it stays at {end:g} %, and splits "
            "once it dries; cut clear of the pith"
        )
    if gap > 0.0:
        what = "splits", f"its rings come up short and leave a gap of {gap:.1f} degrees"
    else:
        what = "has no shape without stress", f"its rings grow {-gap:.1f} degrees too long to close"
    return InputError(
        f"a piece that holds the pith {what[0]}: from {start:g} to {end:g} % {what[1]} around "
        "it; cut clear of the pith"
    )


def likely_measures(
    measure: Callable[[Sequence[tuple[float, float]]], Measures],
    shares: Sequence[Shares],
) -> dict[str, Range]:
    """Figures of pieces with their likely range, from the spread of each one's shrinkages.

    Each shrinkage is moved by its standard deviation either way, and the effects join as
    equally correlated (first order).

    Parameters: measure, from the radial and tangential shrinkage of each piece to the figures;
    shares of each piece.
    """
    mean = [(s.radial, s.tangential) for s in shares]
    effects: dict[str, list[float]] = {}
    for i, s in enumerate(shares):
        for radial_sd, tangential_sd in ((s.radial_sd, 0.0), (0.0, s.tangential_sd)):
            ends = []
            for sign in (1.0, -1.0):
                moved = list(mean)
                moved[i] = (s.radial + sign * radial_sd, s.tangential + sign * tangential_sd)
                ends.append(measure(moved))
            for key in ends[0]:
                effects.setdefault(key, []).append((ends[0][key] - ends[1][key]) / 2.0)
    return {
        key: Range(value, *likely_range(value, sd_of_sum(effects[key]), low=-inf))
        for key, value in measure(mean).items()
    }


def refuse_inside(wood: Wood, from_moisture_pct: float, to_moisture_pct: float) -> NoReturn:
    """Say why a piece with the pith inside has no answer, and by how much it opens.

    Raises: InputError always; as shares_of.
    """
    shares = shares_of(wood, from_moisture_pct, to_moisture_pct)
    raise _with_pith(shares, from_moisture_pct, to_moisture_pct)


def changed_faces(
    width_mm: float, thickness_mm: float, pith: Pith, radial: float, tangential: float
) -> dict[str, Points]:
    """The faces of a board after, the middles of its edges level [mm].

    Parameters: width_mm, thickness_mm before [mm]; pith; radial, tangential shrinkage [1].
    """
    move = mapping(pith, radial, tangential)
    faces = rectangle(width_mm, thickness_mm)
    return leveled({name: tuple(move(z) for z in face) for name, face in faces.items()})


def _corners(outline: Mapping[str, Points]) -> list[complex]:
    return [outline[name][0] for name in FACES]


def _diagonals(outline: Mapping[str, Points]) -> tuple[float, float]:
    a, b, c, d = _corners(outline)
    return abs(c - a), abs(d - b)


def _corner_angles(outline: Mapping[str, Points]) -> tuple[float, ...]:
    """Angles at the corners [degree]; they sum to 360."""
    corners = _corners(outline)
    angles = []
    for i, corner in enumerate(corners):
        ahead, back = corners[(i + 1) % 4] - corner, corners[i - 1] - corner
        turn = back / ahead
        angles.append(degrees(atan2(turn.imag, turn.real)))
    return tuple(angles)


def _side(name: str, pith: Pith) -> FaceSide:
    outward = {"bottom": -1j, "right": 1.0, "top": 1j, "left": -1.0}[name]
    toward = (pith.toward * complex(outward).conjugate()).real
    if abs(toward) < 1e-9:
        return FaceSide.NEITHER
    return FaceSide.PITH if toward > 0.0 else FaceSide.BARK


def board_section(
    wood: Wood,
    width_mm: float,
    thickness_mm: float,
    pith: Pith,
    from_moisture_pct: float,
    to_moisture_pct: float,
) -> CrossSection:
    """The cross-section of a board or squared leg after its moisture content changed.

    Parameters: wood; width_mm, thickness_mm at ``from_moisture_pct`` [mm]; pith, of
    woodref.board.outline; from_moisture_pct, to_moisture_pct [%], 0 to 30.
    Returns: Section.
    Raises: InputError for an impossible size or moisture content, and for a board that holds
    the pith; NoDataError.
    Valid: rings circles around the pith, moisture the same throughout, the board free to move.
    Source: woodref.formulas.cross_section; spread: likely_measures.
    """
    checked_size("width", width_mm)
    checked_size("thickness", thickness_mm)
    shares = shares_of(wood, from_moisture_pct, to_moisture_pct)
    held = (
        not pith.far
        and abs(pith.point.real) <= width_mm / 2.0 + 1e-9
        and abs(pith.point.imag) <= thickness_mm / 2.0 + 1e-9
    )
    if held:
        raise _with_pith(shares, from_moisture_pct, to_moisture_pct)

    def measures(pairs: Sequence[tuple[float, float]]) -> Measures:
        outline = changed_faces(width_mm, thickness_mm, pith, *pairs[0])
        first, second = _diagonals(outline)
        return {**{n: sagitta(outline[n]) for n in FACES}, "diagonals": first - second}

    likely = likely_measures(measures, [shares])
    before = rectangle(width_mm, thickness_mm)
    outline = changed_faces(width_mm, thickness_mm, pith, shares.radial, shares.tangential)
    middle = len(outline["top"]) // 2
    faces = {
        n: Face(
            n,
            _side(n, pith),
            abs(before[n][-1] - before[n][0]),
            abs(outline[n][-1] - outline[n][0]),
            length_along(before[n], pith, shares.radial, shares.tangential),
            likely[n],
        )
        for n in FACES
    }
    return CrossSection(
        wood,
        width_mm,
        thickness_mm,
        from_moisture_pct,
        to_moisture_pct,
        pith,
        shares,
        faces,
        abs(outline["top"][middle] - outline["bottom"][middle]),
        _corner_angles(outline),
        _diagonals(outline),
        likely["diagonals"],
        outline,
    )


def _calipers(outline: Points) -> tuple[float, float]:
    """Widest and narrowest distance between two parallel lines that hold the outline."""
    widths = []
    for i in range(180):
        turn = rect(1.0, radians(i))
        across = [(z * turn).real for z in outline]
        widths.append(max(across) - min(across))
    return max(widths), min(widths)


def round_section(
    wood: Wood, diameter_mm: float, pith: Pith, from_moisture_pct: float, to_moisture_pct: float
) -> Round:
    """A dowel or turned leg after its moisture content changed: it goes oval.

    Parameters: wood; diameter_mm at ``from_moisture_pct`` [mm]; pith; moistures [%], 0 to 30.
    Raises, valid, source: as board_section.
    """
    checked_size("diameter", diameter_mm)
    shares = shares_of(wood, from_moisture_pct, to_moisture_pct)
    held = not pith.far and pith.distance_mm <= diameter_mm / 2.0 + 1e-9
    if held:
        raise _with_pith(shares, from_moisture_pct, to_moisture_pct)
    before = circle(diameter_mm)

    def measures(pairs: Sequence[tuple[float, float]]) -> Measures:
        move = mapping(pith, *pairs[0])
        widest, narrowest = _calipers(tuple(move(z) for z in before[::4]))
        return {"oval": widest - narrowest}

    move = mapping(pith, shares.radial, shares.tangential)
    middle = move(0j)
    outline = tuple(move(z) - middle for z in before)
    likely = likely_measures(measures, [shares])
    return Round(
        wood,
        diameter_mm,
        from_moisture_pct,
        to_moisture_pct,
        pith,
        shares,
        *_calipers(outline),
        likely["oval"],
        outline,
    )
