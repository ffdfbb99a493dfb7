"""How a wood looks, as far as printed classes tell: heartwood color, rings, pores.

The classes are coarse: one color word covers many shades, and none of figure, rays, luster or
how a wood ages. Colors are set on a plane of lightness and hue, rings and pores on steps; both
are a judgment of ours (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import hypot

from woodref.reference.bases import UNCHECKED
from woodref.reference.library import Reference, marks

#: Color words as (lightness in steps from dark brown, hue: below 0 reddish, above yellowish).
COLORS: Mapping[str, tuple[float, float]] = {
    "White": (5.0, 0.0),
    "Cream": (4.5, 0.5),
    "Yellow": (4.0, 1.0),
    "Pale brown": (4.0, 0.0),
    "Pale red": (3.0, -1.0),
    "Light brown": (3.0, 0.0),
    "Brown": (2.0, 0.0),
    "Dark brown": (1.0, 0.0),
}
#: How strongly rings show: 2 in bands, 0 hardly. Softwoods by their latewood.
RINGS: Mapping[str, float] = {
    "ring porous": 2.0,
    "abrupt latewood": 2.0,
    "semi-ring porous": 1.0,
    "gradual to abrupt latewood": 1.0,
    "diffuse porous": 0.0,
    "gradual latewood": 0.0,
}
#: Pores by size; softwood has none and is not taken for a hardwood of small pores.
PORES: Mapping[str, float] = {"large": 2.0, "small": 1.0, "none": -1.0}
#: Printed classes as they are called here.
_RINGS = {
    "R": "ring porous",
    "SR": "semi-ring porous",
    "D": "diffuse porous",
    "A": "abrupt latewood",
    "G": "gradual latewood",
    "G/A": "gradual to abrupt latewood",
}
_PORES = {"large pores": "large", "small pores": "small"}
#: Steps up to which two colors, or rings, or pores, are near each other.
_NEAR = 1.0


class Similarity(StrEnum):
    """How alike two woods are in one feature of their look."""

    SAME = "same"
    NEAR = "near"
    DIFFERENT = "different"
    UNKNOWN = "unknown"


#: What a similarity counts; what is not known counts as middling.
DISSIMILARITY: Mapping[Similarity, float] = {
    Similarity.SAME: 0.0,
    Similarity.NEAR: 0.5,
    Similarity.UNKNOWN: 0.5,
    Similarity.DIFFERENT: 1.0,
}
#: The features and what each counts: color is seen first (a judgment of ours).
FEATURES: Mapping[str, float] = {"heartwood": 0.4, "rings": 0.2, "pores": 0.2, "kind": 0.2}


@dataclass(frozen=True)
class Look:
    """The classes of a wood, '' where none is printed; keys of COLORS, RINGS and PORES.

    ``kind`` hardwood or softwood; ``unchecked`` the features that are recalled.
    """

    heartwood: str = ""
    rings: str = ""
    pores: str = ""
    kind: str = ""
    unchecked: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Likeness:
    """One feature of two woods, its class in either, '' where none is printed."""

    feature: str
    before: str
    after: str
    verdict: Similarity
    unchecked: bool


def looks_of(reference: Reference, species_ids: Iterable[str] | None = None) -> dict[str, Look]:
    """The look of woods by species_id, of all woods where none are named.

    Softwoods have no pores, which is their anatomy and needs no rating.
    """
    ids = None if species_ids is None else list(dict.fromkeys(species_ids))
    chosen = "" if ids is None else f"where species_id in ({marks(ids) or 'null'})"

    def one(scale: str, name: str) -> str:
        here = f"filter (starts_with(scale, '{scale}'))"
        return (
            f"case when count(distinct class) {here} = 1 then any_value(class) {here} end as "
            f"{name}, coalesce(bool_or(basis = '{UNCHECKED}') {here}, false) as {name}_unchecked"
        )

    rows = reference.store.rows(
        f"with rated as (select species_id, {one('heartwood color', 'heartwood')}, "
        f"{one('pore arrangement', 'arrangement')}, {one('earlywood to latewood', 'latewood')}, "
        f"{one('size of pores', 'size')} from {{ratings}} group by species_id) "
        f"select * from {{species}} left join rated using (species_id) {chosen}",
        ids or [],
    )
    looks = {}
    for r in rows:
        softwood = r["kind"] == "softwood"
        rings = "latewood" if softwood else "arrangement"
        pores = "none" if softwood else _PORES.get(r["size"] or "", "")
        unchecked = {
            name
            for name, used in (("heartwood", "heartwood"), ("rings", rings), ("pores", "size"))
            if r[f"{used}_unchecked"] and not (softwood and name == "pores")
        }
        looks[r["species_id"]] = Look(
            r["heartwood"] or "",
            _RINGS.get(r[rings] or "", ""),
            pores,
            r["kind"] or "",
            frozenset(unchecked),
        )
    return looks


def merged(looks: Iterable[Look]) -> Look:
    """The look of several woods sold as one: each feature on which those that are known agree."""
    every = list(looks)

    def agreed(feature: str) -> str:
        known = {getattr(x, feature) for x in every} - {""}
        return known.pop() if len(known) == 1 else ""

    return Look(
        heartwood=agreed("heartwood"),
        rings=agreed("rings"),
        pores=agreed("pores"),
        kind=agreed("kind"),
        unchecked=frozenset(f for x in every for f in x.unchecked),
    )


def _similarity(a: str, b: str, distance: Callable[[str, str], float]) -> Similarity:
    if not a or not b:
        return Similarity.UNKNOWN
    steps = distance(a, b)
    if steps == 0.0:
        return Similarity.SAME
    return Similarity.NEAR if steps <= _NEAR else Similarity.DIFFERENT


def _color_steps(a: str, b: str) -> float:
    (light_a, hue_a), (light_b, hue_b) = COLORS[a], COLORS[b]
    return hypot(light_a - light_b, hue_a - hue_b)


def likeness(before: Look, after: Look) -> tuple[Likeness, ...]:
    """Two woods feature by feature, in the order of FEATURES."""
    distances: dict[str, Callable[[str, str], float]] = {
        "heartwood": _color_steps,
        "rings": lambda a, b: abs(RINGS[a] - RINGS[b]),
        "pores": lambda a, b: abs(PORES[a] - PORES[b]),
        "kind": lambda a, b: 0.0 if a == b else 2.0 * _NEAR,
    }
    features = []
    for feature in FEATURES:
        a, b = getattr(before, feature), getattr(after, feature)
        verdict = _similarity(a, b, distances[feature])
        unchecked = feature in before.unchecked | after.unchecked
        known = verdict is not Similarity.UNKNOWN
        features.append(Likeness(feature, a, b, verdict, known and unchecked))
    return tuple(features)


def look_distance(compared: Iterable[Likeness]) -> float:
    """0 for woods alike in every feature to 1 for unlike in all; unknown counts as middling."""
    return sum(FEATURES[x.feature] * DISSIMILARITY[x.verdict] for x in compared)
