"""Volumes of the shapes parts have, and of what is cut away from them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from math import isfinite, pi
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.units import (
    CM3_PER_IN3,
    M3_PER_FT3,
    either_unit,
    impossible_size,
    sizes_told,
)
from woodref.written import parse_length, parse_thickness

#: The sizes a shape needs, and those it may have beside them.
NEEDS = {
    "box": ("length", "width", "thickness"),
    "disc": ("width", "thickness"),
    "cylinder": ("length", "width"),
    "tapered leg": ("length", "width", "thickness", "end_width"),
    "ring": ("width", "inner", "thickness"),
    "volume": ("volume",),
}
MAY_TAKE = {
    kind: ("end_thickness", "removed") if kind == "tapered leg" else ("removed",) for kind in NEEDS
}
SHAPES = tuple(NEEDS)
#: The largest finished sizes a part may have [mm].
LENGTH_LIMIT_MM, WIDTH_LIMIT_MM, THICKNESS_LIMIT_MM = 20_000.0, 5_000.0, 500.0
_VOLUME_MM3 = {
    "mm3": 1.0,
    "cm3": 1e3,
    "l": 1e6,
    "m3": 1e9,
    "in3": CM3_PER_IN3 * 1e3,
    "ft3": M3_PER_FT3 * 1e9,
}
_VOLUME = r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*([A-Za-z]+[3³]?)\s*"


class Shape(NamedTuple):
    """A shape, by the sizes it needs [mm]; ``volume_mm3`` for the shape 'volume' alone.

    - box: length x width x thickness;
    - disc: width is the diameter, thickness its height;
    - cylinder: length and, as width, the diameter (a dowel, a turned leg);
    - tapered leg: length; width x thickness at one end, ``end_width_mm`` x
      ``end_thickness_mm`` at the other, with straight sides; a square leg without an end
      thickness stays square;
    - ring: width is the outer diameter, ``inner_mm`` the inner one, thickness its height.

    ``removed_mm3`` is cut away: a mortise, a cut-out, a rounded edge.
    """

    kind: str = "box"
    length_mm: float = 0.0
    width_mm: float = 0.0
    thickness_mm: float = 0.0
    end_width_mm: float | None = None
    end_thickness_mm: float | None = None
    inner_mm: float | None = None
    volume_mm3: float | None = None
    removed_mm3: float = 0.0


def volume_of(shape: Shape) -> float:
    """Volume of a shape [mm3], what is removed taken off; exact.

    A leg that tapers from a x b to c x d is ``h (2 a b + 2 c d + a d + b c) / 6`` (the
    prismoidal formula, exact for straight sides).

    Raises: InputError for an unknown shape, a size that is missing or impossible, and where
    more is removed than is there.
    Source: solid geometry, any textbook.
    """
    if shape.kind not in SHAPES:
        raise InputError(f"'{shape.kind}' is no shape; use one of {', '.join(SHAPES)}")
    whole = _whole(shape)
    if not 0.0 <= shape.removed_mm3 < whole:
        raise UnitsError(
            lambda u: (
                f"{_volume_told(shape.removed_mm3, u)} cannot be removed from a {shape.kind} "
                f"of {_volume_told(whole, u)}"
            )
        )
    return whole - shape.removed_mm3


def _size(shape: Shape, name: str, value: float | None) -> float:
    if value is None or not (isfinite(value) and 0.0 < value < 100_000.0):
        raise UnitsError(impossible_size(f"{shape.kind}: {name}", value))
    return value


def _volume_told(volume_mm3: float, units: str) -> str:
    """A volume for a message, as woodref.units.size_told."""
    inches = f"{volume_mm3 / _VOLUME_MM3['in3']:.4g} in3"
    metric = f"{volume_mm3 / 1e3:.4g} cm3"
    return inches if units == "us" else metric if units == "si" else f"{inches} ({metric})"


def _whole(shape: Shape) -> float:
    if shape.kind == "volume":
        volume = shape.volume_mm3
        if volume is None or not (isfinite(volume) and volume > 0.0):
            raise InputError("a shape given by its volume needs a volume above 0")
        return volume
    width = _size(shape, "width", shape.width_mm)
    if shape.kind == "cylinder":
        return pi / 4.0 * width * width * _size(shape, "length", shape.length_mm)
    thickness = _size(shape, "thickness", shape.thickness_mm)
    if shape.kind == "disc":
        return pi / 4.0 * width * width * thickness
    if shape.kind == "ring":
        inner = _size(shape, "inner diameter", shape.inner_mm)
        if inner >= width:
            raise UnitsError(
                sizes_told(
                    "the inner diameter of a ring, {}, is not less than the outer, {}", inner, width
                )
            )
        return pi / 4.0 * (width * width - inner * inner) * thickness
    length = _size(shape, "length", shape.length_mm)
    if shape.kind == "box":
        return length * width * thickness
    end_width, end_thickness = end_of(shape)
    return (
        length
        * (
            2.0 * width * thickness
            + 2.0 * end_width * end_thickness
            + width * end_thickness
            + thickness * end_width
        )
        / 6.0
    )


def end_of(shape: Shape) -> tuple[float, float]:
    """Width and thickness of a tapered leg at its other end [mm]; a square leg stays square.

    Raises: InputError for a size that is missing or impossible.
    """
    width = _size(shape, "width at its end", shape.end_width_mm)
    given = shape.end_thickness_mm
    if given is None and shape.width_mm == shape.thickness_mm:
        given = width
    return width, _size(shape, "thickness at its end", given)


def parse_shape(
    kind: str, sizes: Mapping[str, str], unit: str, named: Callable[[str], str] = str
) -> Shape:
    """A shape from its sizes as a shop writes them.

    Parameters: kind, one of SHAPES, also with hyphens; sizes by the names of NEEDS and MAY_TAKE;
    unit of a bare length; named, what a size is called in a message.
    Raises: InputError for another kind, and for a size that is missing, does not belong to the
    shape or cannot be read.
    """
    kind = " ".join(kind.lower().replace("-", " ").split())
    if kind not in SHAPES:
        from woodref.files import did_you_mean

        raise InputError(f"'{kind}' is no shape{did_you_mean(kind, SHAPES)}")
    for name in NEEDS[kind]:
        if name not in sizes:
            needed = ", ".join(named(n) for n in NEEDS[kind])
            raise InputError(f"{named(name)} is missing; a {kind} needs {needed}")
    parsed: dict[str, float] = {}
    for name, text in sizes.items():
        if name not in (*NEEDS[kind], *MAY_TAKE[kind]):
            raise InputError(f"{named(name)} does not go with a {kind}; leave it out")
        if name in ("volume", "removed"):
            parsed[f"{name}_mm3"] = parse_volume(text)
        elif name == "thickness":
            parsed["thickness_mm"] = parse_thickness(text, unit)
        else:
            parsed[f"{name}_mm"] = parse_length(text, unit)
    return Shape(kind, **parsed)


def parse_volume(text: str) -> float:
    """A volume in mm3 from '12 in3', '0.4 L', '250 cm3'.

    Raises: InputError for anything else.
    """
    match = re.fullmatch(_VOLUME, text)
    unit = match[2].lower().replace("³", "3") if match else ""
    if not match or unit not in _VOLUME_MM3:
        raise UnitsError(
            lambda u: (
                f"'{text}' is not a volume; write for example "
                + either_unit(u, "12 in3", "250 cm3")
            )
        )
    return float(match[1]) * _VOLUME_MM3[unit]
