"""Which wood a printed name means: botanical names, synonyms, splits by region, groups.

A wood is identified by its present botanical name. Where the trade splits one species
by region, or one botanical name covers several trade woods, datasets/sources/
wood_identities.csv names the woods and wood_joins.csv says which rows mean which.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

import pandas as pd

from pipeline.read import SOURCES, read_table

GROUP = "group:"
_PARENTHESIS = re.compile(r"\s*\([^)]*\)")
_NOT_SLUG = re.compile(r"[^a-z0-9]+")
#: First words of names that keep their capital.
_PROPER = ("Douglas-fir", "Osage-orange", "Santa", "Spanish-cedar", "Parana-pine", "Santos")
#: Names of whole sections of a genus, as the table of ambiguous names writes them.
_SECTIONS = {
    "Quercus subg. Quercus sect. Lobatae": "red oak",
    "Quercus subg. Quercus sect. Quercus": "white oak group",
    "Carya spp. (true hickory and pecan hickory groups)": "hickory",
}


def slug(botanical: str) -> str:
    """'Milicia excelsa; Milicia regia' as 'milicia-excelsa-regia'."""
    words: list[str] = []
    genus = ""
    for part in _PARENTHESIS.sub("", botanical).split(";"):
        pieces = part.split()
        if pieces and pieces[0] == genus:
            pieces = pieces[1:]
        elif pieces:
            genus = pieces[0]
        words += pieces
    return _NOT_SLUG.sub("-", " ".join(words).lower()).strip("-")


def display_name(printed: str) -> str:
    """'Oak, white' as 'white oak', 'Baldcypress' as 'baldcypress'; proper names keep capitals."""
    head, comma, tail = printed.partition(",")
    name = f"{tail.strip()} {head.strip().lower()}" if comma and "," not in tail else printed
    name = name.strip()
    return name if comma or name.startswith(_PROPER) else name[:1].lower() + name[1:]


@dataclass
class WoodRegistry:
    """The woods of the dataset and the rules that find them.

    ``woods`` has one row per wood (species_id, common_name, botanical_name, family, kind,
    trade_group, origin, qualifier, note); ``groups`` maps a group name to its members.
    """

    woods: dict[str, dict[str, str]]
    synonyms: dict[str, str]
    joins: dict[tuple[str, str, str], tuple[str, str]]
    groups: dict[str, list[str]] = field(default_factory=dict)
    group_notes: dict[str, str] = field(default_factory=dict)

    def present(self, botanical: str) -> str:
        """The present botanical name of an old one; several parted by '; ' are kept."""
        parts = [p.strip() for p in botanical.split(";")]
        return "; ".join(self.synonyms.get(p, p) for p in parts)

    def join(self, table: str, name: str, botanical: str) -> tuple[str, str] | None:
        """The (species_id, sample) our own joins give a row, None where they are silent."""
        for key in (
            (table, name, botanical),
            ("*", name, botanical),
            ("*", "*", botanical),
            ("*", "*", self.present(botanical)),
        ):
            if key in self.joins:
                return self.joins[key]
        return None

    def one(self, botanical: str, name: str = "", table: str = "*") -> str | None:
        """The single wood a row means; 'group:NAME' for a trade group; None where unknown."""
        joined = self.join(table, name, botanical)
        if joined:
            return joined[0]
        found = slug(self.present(botanical))
        return found if found in self.woods else None

    def genus(self, genus: str) -> list[str]:
        """All woods that carry a species of the genus."""
        return [
            species_id
            for species_id, wood in self.woods.items()
            if any(p.strip().split()[:1] == [genus] for p in wood["botanical_name"].split(";"))
        ]

    def woods_for(self, botanical: str, name: str = "", kind: str = "") -> list[str]:
        """Every wood a name of one or more species, a genus or a group stands for.

        Parameters: botanical names parted by ';', 'Genus spp.' for a whole genus; name as
        printed; kind hardwood or softwood narrows a genus.
        """
        if botanical in _SECTIONS:
            return self.groups[_SECTIONS[botanical]]
        found: list[str] = []
        whole = self.one(botanical, name)
        if whole:
            found = self.groups.get(whole.removeprefix(GROUP), []) if GROUP in whole else [whole]
        if not found:
            for part in [p.strip() for p in botanical.split(";") if p.strip()]:
                one = self.one(part)
                words = _PARENTHESIS.sub("", part).split()
                if one and not one.startswith(GROUP) and words[1:2] not in (["spp."], ["sp."]):
                    found.append(one)
                elif words[1:2] in (["spp."], ["sp."]) or len(words) == 1:
                    found += self.genus(words[0])
        kinds = {kind} if kind in ("hardwood", "softwood") else {"hardwood", "softwood", ""}
        return list(dict.fromkeys(s for s in found if self.woods[s]["kind"] in kinds))


def is_ambiguous(names: pd.DataFrame) -> pd.Series:
    """True for the rows of species_names that only say a trade name covers several woods."""
    return names["note"].str.startswith("ambiguous trade name")


def _woods(registry: WoodRegistry, names: pd.DataFrame, identities: pd.DataFrame) -> None:
    """Fill the registry with the woods of species_names and of our identities."""
    given = {
        r["species_id"]: {
            "species_id": r["species_id"],
            "common_name": r["common_name"],
            "botanical_name": r["botanical"],
            "family": r["family"],
            "kind": r["kind"],
            "trade_group": r["group"],
            "origin": r["origin"],
            "qualifier": r["qualifier"],
            "note": r["note"],
        }
        for r in identities.to_dict("records")
    }
    printed: dict[str, dict[str, str]] = {}
    rows = names[~is_ambiguous(names)].to_dict("records")
    # A name that heads a strength table is the wood's common name where two are printed.
    rows.sort(key=lambda r: not ("5-3" in r["table"] or "5-5" in r["table"]))
    for r in rows:
        species_id = (
            registry.join("species_names.csv", r["common_name"], r["botanical"])
            or (slug(registry.present(r["botanical"])), "")
        )[0]
        if species_id.startswith(GROUP):
            continue
        printed.setdefault(
            species_id,
            {
                "species_id": species_id,
                "common_name": display_name(r["common_name"]),
                "botanical_name": registry.present(r["botanical"]),
                "family": r["family"],
                "kind": r["kind"],
                "trade_group": r["group"],
                "origin": r["origin_region"],
                "qualifier": "",
                "note": "",
            },
        )
    for species_id in sorted({*given, *printed}):
        wood = dict(printed.get(species_id, given.get(species_id, {})))
        wood.update({k: v for k, v in given.get(species_id, {}).items() if v})
        registry.woods[species_id] = wood


def _parts(registry: WoodRegistry) -> None:
    """A wood of several species answers to each of them that is no wood of its own."""
    for species_id, wood in list(registry.woods.items()):
        parts = [p.strip() for p in wood["botanical_name"].split(";")]
        if len(parts) < 2:
            continue
        for part in parts:
            if " spp." not in part and slug(part) not in registry.woods:
                registry.joins.setdefault(("*", "*", part), (species_id, ""))


def _groups(registry: WoodRegistry, our_names: pd.DataFrame) -> None:
    """Fill the trade groups: '=GROUP' stands for the woods whose trade_group it is."""
    for r in our_names[our_names["name_kind"] == "group"].to_dict("records"):
        members: list[str] = []
        for target in [t.strip() for t in r["targets"].split(";")]:
            if target.startswith("="):
                members += [s for s, w in registry.woods.items() if w["trade_group"] == target[1:]]
            else:
                members.append(target)
        unknown = [m for m in members if m not in registry.woods]
        if unknown or not members:
            raise ValueError(f"our_names.csv: group {r['name']}: unknown woods {unknown}")
        registry.groups[r["name"]] = list(dict.fromkeys(members))
        registry.group_notes[r["name"]] = r["note"]


def build_registry(folder: Path = SOURCES) -> WoodRegistry:
    """The registry of the source tables in a folder."""
    names = read_table("species_names", folder)
    synonyms = read_table("synonyms", folder)
    joins = read_table("wood_joins", folder)
    same = synonyms["kind"].str.startswith(("botanical synonym", "spelling"))
    registry = WoodRegistry(
        woods={},
        synonyms=dict(
            zip(
                synonyms.loc[same, "name_in_a_table"],
                synonyms.loc[same, "present_name"],
                strict=True,
            )
        ),
        joins={
            (r["in_table"], r["printed_name"], r["printed_botanical"]): (
                r["species_id"],
                r["sample"],
            )
            for r in joins.to_dict("records")
        },
    )
    _woods(registry, names, read_table("wood_identities", folder))
    _parts(registry)
    _groups(registry, read_table("our_names", folder))
    return registry
