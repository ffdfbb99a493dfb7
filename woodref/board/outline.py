"""Outlines of a cross-section: where the pith lies, the faces of a piece, and how bent they are.

Points are complex numbers [mm], x to the right and y up as seen on the end of the piece, the
middle of the end at zero.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from math import cos, inf, isfinite, pi, radians, sin

from woodref.errors import InputError, UnitsError
from woodref.formulas.cross_section import length_ratio, moved, moved_far
from woodref.record import record
from woodref.units import impossible_size

Points = tuple[complex, ...]
#: Where the pith can lie, and the direction to it.
SIDES: dict[str, complex] = {"below": -1j, "above": 1j, "left": -1.0 + 0j, "right": 1.0 + 0j}
#: Faces of a board, counterclockwise from below, each from corner to corner.
FACES = ("bottom", "right", "top", "left")
#: Pieces a face is cut into for measuring. The sagitta found is short by less than a
#: millionth part of itself, far below what is printed.
STEPS = 512
_LONGEST_MM = 100_000.0
#: From this distance of the pith on, 10 km, rings are straight and rounding would tell [mm].
_FAR_MM = 1e7


@record
class Pith:
    """Where the pith lies as seen from the middle of the end.

    ``toward`` is the direction to it, of length 1; ``distance_mm`` how far, ``inf`` where the
    rings are as good as straight.
    """

    toward: complex
    distance_mm: float = inf

    @property
    def far(self) -> bool:
        """True where the rings are straight."""
        return not isfinite(self.distance_mm)

    @property
    def point(self) -> complex:
        """The pith [mm]; only where it is not far."""
        return self.toward * self.distance_mm

    @property
    def ring_angle_deg(self) -> float:
        """Angle of the rings in the middle of the end to the wide face [degree], 0 flat."""
        from math import atan2, degrees

        return degrees(atan2(abs(self.toward.real), abs(self.toward.imag)))

    def turned(self) -> Pith:
        """The same with the piece turned over about its length."""
        return Pith(-self.toward, self.distance_mm)


def pith_beside(
    side: str, distance_mm: float, offset_mm: float, width_mm: float, thickness_mm: float
) -> Pith:
    """The pith at a distance from a face of a board.

    Parameters: side one of SIDES; distance_mm from that face, square to it [mm], ``inf`` for
    straight rings; offset_mm from the middle line of the board, to the right or up [mm];
    width_mm, thickness_mm of the board [mm].
    Raises: InputError for another side.
    """
    key = side.strip().lower()
    if key not in SIDES:
        raise InputError(f"no side '{side}'; the pith lies {', '.join(SIDES)} or inside the board")
    toward = SIDES[key]
    if distance_mm >= _FAR_MM:
        return Pith(toward)
    half = (thickness_mm if toward.imag else width_mm) / 2.0
    point = toward * (half + distance_mm) + (offset_mm if toward.imag else 1j * offset_mm)
    return Pith(point / abs(point), abs(point))


def pith_by_rings(ring_angle_deg: float, radius_mm: float = inf) -> Pith:
    """The pith from the rings read in the middle of the end.

    Parameters: ring_angle_deg between rings and wide face, 0 flat (the pith straight below)
    to 90 quarter (straight to the left) [degree]; radius_mm of the ring there [mm].
    """
    angle = radians(ring_angle_deg)
    return Pith(complex(-sin(angle), -cos(angle)), radius_mm if radius_mm < _FAR_MM else inf)


def checked_size(name: str, size_mm: float) -> float:
    """The size; UnitsError outside 0 to 100 m."""
    if not 0.0 < size_mm < _LONGEST_MM:
        raise UnitsError(impossible_size(f"a {name}", size_mm))
    return size_mm


def line(start: complex, end: complex, steps: int = STEPS) -> Points:
    """Points along a straight line, both ends among them."""
    return tuple(start + (end - start) * (i / steps) for i in range(steps + 1))


def rectangle(width_mm: float, thickness_mm: float) -> dict[str, Points]:
    """The faces of a board by the names of FACES."""
    w, t = width_mm / 2.0, thickness_mm / 2.0
    corners = [complex(-w, -t), complex(w, -t), complex(w, t), complex(-w, t)]
    return {name: line(corners[i], corners[(i + 1) % 4]) for i, name in enumerate(FACES)}


def circle(diameter_mm: float) -> Points:
    """The outline of a round, counterclockwise from the right, closed."""
    return tuple(
        diameter_mm / 2.0 * complex(cos(a), sin(a))
        for a in (2.0 * pi * i / STEPS for i in range(STEPS + 1))
    )


def mapping(pith: Pith, radial: float, tangential: float) -> Callable[[complex], complex]:
    """The map of a piece: a point [mm] to where it goes, both seen from the middle of the end.

    Parameters: pith; radial, tangential relative shrinkage [1].
    """
    facing = -pith.toward
    if pith.far:
        return partial(moved_far, radial=radial, tangential=tangential, facing=facing)
    center = pith.point
    return lambda z: moved(z - center, radial, tangential, facing) + center


def length_along(face: Points, pith: Pith, radial: float, tangential: float) -> float:
    """Length along a straight face after, by Simpson's rule over its points [mm]."""
    step = face[1] - face[0]
    away = [-pith.toward if pith.far else z - pith.point for z in face]
    ratios = [length_ratio(z, step, radial, tangential) for z in away]
    inner = sum(ratios[1:-1:2]) * 4.0 + sum(ratios[2:-1:2]) * 2.0
    return float(abs(step) / 3.0 * (ratios[0] + inner + ratios[-1]))


def departures(points: Sequence[complex]) -> list[float]:
    """Distances of points to the left of the straight line from the first to the last."""
    chord = points[-1] - points[0]
    return [((p - points[0]) * chord.conjugate()).imag / abs(chord) for p in points]


def sagitta(points: Sequence[complex]) -> float:
    """The largest of the departures, with its sign.

    Along a face of a counterclockwise outline: above zero the face is hollow, below it is
    rounded.
    """
    return max(departures(points), key=abs)


def leveled(faces: dict[str, Points]) -> dict[str, Points]:
    """The faces moved as one so that the middles of the left and right edge lie level."""
    left = (faces["left"][0] + faces["left"][-1]) / 2.0
    right = (faces["right"][0] + faces["right"][-1]) / 2.0
    return placed(faces, (left + right) / 2.0, 0j, (right - left).conjugate() / abs(right - left))


def placed(
    faces: dict[str, Points], anchor: complex, target: complex, turn: complex
) -> dict[str, Points]:
    """The faces turned by ``turn`` (of length 1), the point ``anchor`` brought to ``target``."""
    return {n: tuple((z - anchor) * turn + target for z in face) for n, face in faces.items()}
