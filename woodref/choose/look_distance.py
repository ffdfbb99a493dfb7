"""How far two woods are apart in look: hue, lightness, texture, pores, figure, luster.

The distance, its places of hues and its weights are our own and schematic; no source. It is
checked against the resemblances that print states (tests/published/test_resemblances.py). A
wood is placed as it reaches the maker. Compare hardwoods with hardwoods and softwoods with
softwoods.
"""

from __future__ import annotations

from math import dist, sqrt
from typing import TYPE_CHECKING

from woodref.record import record

if TYPE_CHECKING:
    from woodref.reference.looks import Look

#: Where each hue stands on the axes from green to red and from blue to yellow.
HUE_PLACES: dict[str, tuple[float, float]] = {
    "white": (0.0, 5.0),
    "cream": (1.0, 11.0),
    "yellow": (3.0, 24.0),
    "orange": (15.0, 25.0),
    "pink": (9.0, 11.0),
    "red": (24.0, 18.0),
    "reddish brown": (13.0, 16.0),
    "light brown": (5.0, 15.0),
    "brown": (7.0, 14.0),
    "golden brown": (7.0, 20.0),
    "grayish brown": (4.0, 10.0),
    "dark brown": (5.0, 9.0),
    "olive": (-4.0, 15.0),
    "gray": (1.0, 6.0),
    "purple": (13.0, -2.0),
    "black": (1.0, 1.0),
}
#: Lightness 1 stands at 90, and each whole step down by 13.
_PALEST, _STEP = 90.0, 13.0
#: What a distance of colors is divided by, so that about 20 counts as one.
_COLOR_SCALE = 20.0
#: Weights of the squared distances.
WEIGHTS: dict[str, float] = {
    "color": 1.0,
    "texture": 0.35,
    "pores": 0.45,
    "pore_size": 0.2,
    "figure": 0.35,
    "luster": 0.1,
}
_TEXTURES = {"fine": 0.0, "medium": 0.5, "coarse": 1.0}
_UNEVEN = {"fine": 1.0, "medium": 0.6, "coarse": 0.5, "uneven": 0.0}
_PORES = {
    frozenset({"ring", "diffuse"}): 1.0,
    frozenset({"ring", "semi-ring"}): 0.5,
    frozenset({"semi-ring", "diffuse"}): 0.4,
}
_SIZES = {"fine": 0.0, "medium": 0.5, "large": 1.0}
_LUSTERS = {"low": 0.0, "medium": 0.5, "high": 1.0}
_FIGURES = {
    frozenset({"none", "growth rings plain"}): 0.5,
    frozenset({"none", "ribbon"}): 0.5,
    frozenset({"none", "mottled"}): 0.5,
    frozenset({"none", "curly common"}): 0.4,
    frozenset({"none", "flecked rays"}): 0.6,
    frozenset({"growth rings plain", "flecked rays"}): 0.4,
    frozenset({"growth rings plain", "marbled"}): 0.6,
    frozenset({"growth rings plain", "ribbon"}): 0.6,
    frozenset({"ribbon", "mottled"}): 0.4,
    frozenset({"ribbon", "curly common"}): 0.5,
    frozenset({"mottled", "curly common"}): 0.3,
}
_OTHER_FIGURES = 0.8
#: Pores of hardwood against none: no pair of print has it; as far as ring from diffuse.
_OTHER_PORES = 1.0
#: The most a distance of each band is, and what the band says.
BANDS: tuple[tuple[float, str], ...] = ((0.35, "close"), (0.60, "similar"), (0.85, "related"))
NOT_ALIKE = "not alike"
#: The bands that may be called look-alikes.
LOOK_ALIKE = ("close", "similar")


@record
class Appearance:
    """What the distance is made of; '' for a pore size where there are no pores."""

    hue: str
    lightness: float
    texture: str
    pores: str
    pore_size: str
    figure: str
    luster: str


def appearance_of(look: Look) -> Appearance:
    """The appearance of a wood as it reaches the maker, from its row of looks."""

    def text(cell: str) -> str:
        return str(look.value(cell) or "")

    return Appearance(
        str(look.seen["hue"].value),
        float(look.seen["lightness"].value),
        text("texture"),
        text("pores"),
        text("pore_size"),
        text("figure"),
        text("luster"),
    )


def _color(a: Appearance, b: Appearance) -> float:
    def place(x: Appearance) -> tuple[float, float, float]:
        return (_PALEST - _STEP * (x.lightness - 1.0), *HUE_PLACES[x.hue])

    return dist(place(a), place(b)) / _COLOR_SCALE


def _texture(a: str, b: str) -> float:
    if "uneven" in (a, b):
        return _UNEVEN[b if a == "uneven" else a]
    return abs(_TEXTURES[a] - _TEXTURES[b])


def _pair(table: dict[frozenset[str], float], a: str, b: str, other: float) -> float:
    return 0.0 if a == b else table.get(frozenset({a, b}), other)


def _steps(places: dict[str, float], a: str, b: str) -> float:
    """The distance of two words that stand in a row; 0 where one of them says nothing."""
    return abs(places[a] - places[b]) if a and b else 0.0


def look_distances(a: Appearance, b: Appearance) -> dict[str, float]:
    """How far two woods are apart in each part of the look, before the weights."""
    return {
        "color": _color(a, b),
        "texture": _texture(a.texture, b.texture),
        "pores": _pair(_PORES, a.pores, b.pores, _OTHER_PORES),
        "pore_size": _steps(_SIZES, a.pore_size, b.pore_size),
        "figure": _pair(_FIGURES, a.figure, b.figure, _OTHER_FIGURES),
        "luster": _steps(_LUSTERS, a.luster, b.luster),
    }


def look_distance(a: Appearance, b: Appearance) -> float:
    """How far two woods are apart in look, 0 for equal ones: the root of the weighted squares."""
    apart = look_distances(a, b)
    return sqrt(sum(weight * apart[part] ** 2 for part, weight in WEIGHTS.items()))


def band_of(distance: float) -> str:
    """'close', 'similar', 'related' or 'not alike': the last two are no look-alikes."""
    return next((band for most, band in BANDS if distance <= most), NOT_ALIKE)
