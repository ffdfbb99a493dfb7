"""The woods a row about a species, a genus or a trade group stands for."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Protocol

from woodref.reference.names import fold


class WoodLookup(Protocol):
    """What these readers ask of the registry of woods."""

    @property
    def woods(self) -> Mapping[str, Mapping[str, str]]:
        """The woods by identifier: common_name, botanical_name, kind, trade_group, origin."""
        ...

    @property
    def groups(self) -> Mapping[str, Sequence[str]]:
        """Trade groups: name to members."""
        ...

    def woods_for(self, botanical: str, name: str = "", kind: str = "") -> list[str]:
        """The woods of an exact botanical name, a synonym or a genus."""
        ...


#: Words by which a recorded region of origin is known to lie in, or touch, a larger one.
_REGION_WORDS: dict[str, str] = {
    "North America": r"North America|United States|California|Oregon|Washington|Rocky Mountains"
    r"|Appalachian|Lake States|Florida|Georgia|Alaska|Atlantic and Gulf",
    "Africa": r"Africa|Gabon|Cameroon|Liberia",
    "Madagascar": r"Madagascar",
    "tropical America": r"tropical America|South America|Central America|Mexico|Brazil|Guian"
    r"|Guyana|Amazon|Bolivia|Belize|Cuba|West Indies|Caribbean|Andes|Suriname",
}
_GENUS_LETTER = re.compile(r"^([A-Z])\. ")
_INSIDE = re.compile(r"\(([^)]*)\)")
_GROWTH = re.compile(r"\b(old|young|second)[- ]growth\b", re.IGNORECASE)


def grows_in(region: str, recorded: str) -> bool:
    """True where a recorded region of origin lies in, or touches, a larger region.

    Parameters: region, one of 'North America', 'Africa', 'Madagascar', 'tropical
    America'; recorded, the origin of a wood. Raises: KeyError for another region.
    """
    return re.search(_REGION_WORDS[region], recorded) is not None


def growth_of(name: str) -> str:
    """'old growth' for 'Redwood, old-growth'; '' where the name says nothing of it."""
    match = _GROWTH.search(name)
    return f"{match[1].lower()} growth" if match else ""


def botanical_parts(botanical: str) -> list[str]:
    """The names in a cell: 'Taxus chinensis; T. cuspidata' gives two, the genus written out."""
    parts: list[str] = []
    for part in (p.strip() for p in botanical.split(";")):
        letter = _GENUS_LETTER.match(part)
        if letter and parts and parts[0].startswith(letter[1]):
            parts.append(f"{parts[0].split()[0]} {part[3:]}")
        elif part:
            parts.append(part)
    return parts


def _is_genus(botanical: str) -> bool:
    return botanical.split()[1:2] in (["spp."], ["sp."])


def _of_species(registry: WoodLookup, species: str, varieties: bool) -> list[str]:
    """Woods that carry this species, which may be sold as several woods, or a variety of it."""

    def carries(part: str) -> bool:
        return part == species or (varieties and part.startswith(f"{species} var."))

    return [
        wood
        for wood, row in registry.woods.items()
        if any(carries(part) for part in botanical_parts(row["botanical_name"]))
    ]


def _of_growth(woods: list[str], growth: str) -> list[str]:
    """Of the woods of a species, those of old or of young growth where it is split so."""
    age = "old-growth" if growth.startswith("old") else "young-growth"
    return [w for w in woods if w.endswith(age)] or woods


def _by_name(registry: WoodLookup, name: str, among: list[str]) -> list[str]:
    """The woods among some that a printed name singles out; [] where it does not.

    In a genus sold as several woods 'Meranti (lauan), Light red' is the wood of that
    common name and 'Lapacho' those of the lapacho group; elsewhere 'Aspens' is the trade
    group of aspens.
    """
    key = fold(name)
    split = [w for w in among if "spp" in w.split("-")]
    named = [w for w in split if fold(registry.woods[w]["common_name"]) == key]
    if not named:
        named = [w for w in split if registry.woods[w]["trade_group"] == f"{key} group"]
    if not named:
        named = [w for w in registry.groups.get(key, ()) if w in among]
    return named


def _of_part(registry: WoodLookup, part: str, name: str, kind: str, varieties: bool) -> list[str]:
    """The woods of one botanical name of a row."""
    inside = _INSIDE.search(part)
    if inside:
        for group in (inside[1], inside[1].removesuffix(" group")):
            if group in registry.groups:
                return list(registry.groups[group])
    plain = _INSIDE.sub("", part).strip()
    if _is_genus(plain):
        woods = registry.woods_for(plain, "", kind)
        return _by_name(registry, name, woods) or woods
    woods = [*registry.woods_for(plain, "", kind), *_of_species(registry, plain, varieties)]
    if growth_of(name):
        woods = _of_growth(woods, growth_of(name))
    if not woods and inside:
        woods = registry.woods_for(inside[1], "", kind)
    # a species that is traded with its genus: Khaya anthotheca as Khaya spp.
    whole = f"{plain.split()[0].lower()}-spp"
    return woods or ([whole] if whole in registry.woods else [])


def woods_of(
    registry: WoodLookup, botanical: str, name: str = "", kind: str = "", varieties: bool = False
) -> list[str]:
    """All woods a row is about, each once, in a stable order.

    Parameters: botanical, one or more names parted by ';', each a species, 'Genus spp.'
    or 'Genus spp. (group)'; name as printed, which may single out woods of a genus; kind
    hardwood or softwood; varieties, whether a species speaks for its varieties.
    Returns: [] where no wood fits.
    """
    whole = registry.woods_for(botanical, "", kind) if ";" in botanical else []
    if len(whole) == 1:
        return whole
    found = [
        wood
        for part in botanical_parts(botanical)
        for wood in _of_part(registry, part, name, kind, varieties)
    ]
    return list(dict.fromkeys(found))


def domestic_first(registry: WoodLookup, woods: list[str]) -> list[str]:
    """Of several woods, those that grow in North America, where there are any.

    The handbook's tables speak of the woods of the United States; a genus printed there
    does not speak of its European or Asian woods.
    """
    domestic = [w for w in woods if grows_in("North America", registry.woods[w]["origin"])]
    return domestic or woods


def sold_as(registry: WoodLookup, name: str) -> list[str]:
    """North American softwoods whose common name holds a word: 'Cedars' gives the cedars."""
    key = fold(name)
    return [
        wood
        for wood, row in registry.woods.items()
        if key in row["common_name"].lower()
        and row["kind"] == "softwood"
        and grows_in("North America", row["origin"])
    ]


def is_group(botanical: str, woods: list[str]) -> bool:
    """True where a row was printed for several woods: a genus, a group, a list of species.

    A wood that is itself traded under 'Shorea spp.' is not rated as part of a group by
    a row of that name.
    """
    return len(woods) > 1 or ("spp." in botanical and any("spp" not in w.split("-") for w in woods))
