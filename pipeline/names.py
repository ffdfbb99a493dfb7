"""The names table: every name a person may type, and the woods it can mean."""

from __future__ import annotations

import re

import pandas as pd

from pipeline.identify import GROUP, WoodRegistry, is_ambiguous, slug
from pipeline.read import read_table
from woodref.reference.names import fold

_REMARK = re.compile(r"\(([^)]*)\)")
#: Remarks in parentheses that belong to the name, not to a warning about it.
_GERMAN = re.compile(r"^(?P<name>[A-Z][a-z]+) \((?P<english>[a-z -]+)\)$")
#: Tables that print whole names; the others print 'White' under the heading 'Oak'.
_WHOLE_NAMES = frozenset(
    f"{name}.csv"
    for name in (
        "strength_imported_si",
        "strength_imported_us",
        "shrinkage_imported",
        "foreign_woods_other_reports",
        "european_woods",
        "asia_pacific_woods",
        "fia_reference_species",
        "dimensional_change_coefficients",
    )
)
_SPECIES_NAME = re.compile(r"^[A-Z][a-z]+ (?:spp\.|sp\.|[a-z-]+)")


class _Names:
    """Collects names, dropping a second entry of the same name, kind and wood."""

    def __init__(self, registry: WoodRegistry) -> None:
        self.registry = registry
        self.rows: list[dict[str, object]] = []
        self.seen: set[tuple[str, str, str]] = set()

    def add(
        self,
        name: str,
        species: list[str],
        kind: str,
        row: dict[str, object],
        note: str = "",
        position: int = 0,
    ) -> None:
        """One name for one or more woods."""
        key = fold(name)
        for offset, species_id in enumerate(species):
            if not key or (key, kind, species_id) in self.seen:
                continue
            self.seen.add((key, kind, species_id))
            self.rows.append(
                {
                    "name": name.strip(),
                    "name_key": key,
                    "species_id": species_id,
                    "name_kind": kind,
                    "note": note,
                    "position": position + offset,
                    "basis": row["basis"],
                    "source_table": row["source_table"],
                    "source_line": row["source_line"],
                }
            )


def _candidates(registry: WoodRegistry, botanical: str, kind: str) -> list[str]:
    """The woods of an ambiguous trade name; a botanical name in no table becomes a wood."""
    found: list[str] = []
    for part in [p.strip() for p in botanical.split(";")]:
        woods = registry.woods_for(part, kind=kind)
        if not woods:
            species_id = slug(part)
            plain = _REMARK.sub("", part).strip()
            registry.woods[species_id] = {
                "species_id": species_id,
                "common_name": plain,
                "botanical_name": plain,
                "family": "",
                "kind": kind if kind in ("hardwood", "softwood") else "",
                "trade_group": "",
                "origin": "",
                "qualifier": "",
                "note": "known only as a meaning of a trade name",
            }
            woods = [species_id]
        found += woods
    return list(dict.fromkeys(found))


def _printed_names(names: _Names, table: pd.DataFrame) -> None:
    """Names of species_names.csv: commercial, botanical, synonym and trade names."""
    registry = names.registry
    for r in table[~is_ambiguous(table)].to_dict("records"):
        whole = registry.join("species_names.csv", r["common_name"], r["botanical"])
        species_id = whole[0] if whole else slug(registry.present(r["botanical"]))
        if species_id.startswith(GROUP):
            members = registry.groups[species_id.removeprefix(GROUP)]
            names.add(r["common_name"], members, "group", r, r["note"])
            continue
        names.add(r["common_name"], [species_id], "commercial", r)
        for botanical in [r["botanical"], *r["botanical"].split(";")]:
            names.add(_REMARK.sub("", botanical), [species_id], "botanical", r)
        for old in [p for p in r["botanical_as_printed"].split(";") if p.strip()]:
            remark = "; ".join(_REMARK.findall(old))
            names.add(_REMARK.sub("", old), [species_id], "synonym", r, remark)
        for trade in [p for p in r["other_trade_names"].split(";") if p.strip()]:
            remarks = "; ".join(_REMARK.findall(trade))
            note = f"trade name, {remarks}" if remarks else ""
            names.add(_REMARK.sub("", trade), [species_id], "trade", r, note)
    for r in table[is_ambiguous(table)].to_dict("records"):
        note = r["note"].removeprefix("ambiguous trade name: ")
        species = _candidates(registry, r["botanical"], r["kind"])
        for species_id in species:
            wood = registry.woods[species_id]
            if wood["common_name"] == wood["botanical_name"]:  # known from such rows only
                names.add(wood["botanical_name"], [species_id], "botanical", r)
        names.add(r["common_name"], species, "trade", r, note)


def _other_names(names: _Names, our_names: pd.DataFrame, identities: pd.DataFrame) -> None:
    """Names of our own lists: defaults, groups, synonyms, woods in no names table."""
    registry = names.registry
    for r in our_names[our_names["name_kind"].ne("group")].to_dict("records"):
        targets = [t.strip() for t in r["targets"].split(";")]
        names.add(r["name"], targets, r["name_kind"], r, r["note"])
    defaults = {(fold(r["name"]), r["name_kind"]) for r in our_names.to_dict("records")}
    for r in identities.to_dict("records"):
        names.add(r["common_name"], [r["species_id"]], "commercial", r)
        for botanical in [r["botanical"], *r["botanical"].split(";")]:
            if (fold(botanical), "botanical") not in defaults:
                names.add(botanical, [r["species_id"]], "botanical", r)
    synonyms = read_table("synonyms")
    for r in synonyms[synonyms["kind"].str.startswith(("botanical", "spelling"))].to_dict(
        "records"
    ):
        woods = registry.woods_for(r["present_name"])
        names.add(r["name_in_a_table"], woods, "synonym", r, f"now {r['present_name']}")


def _trade_names(names: _Names, cells: pd.DataFrame) -> None:
    """Names under which the property tables print a wood, where they add something new."""
    columns = [
        "trade_name",
        "species_id",
        "sample",
        "basis",
        "source_table",
        "source_line",
        "botanical",
    ]
    whole = cells[cells["source_table"].isin(_WHOLE_NAMES)]
    for r in (
        whole[columns]
        .drop_duplicates()
        .sort_values(["source_table", "source_line"])
        .to_dict("records")
    ):
        printed = str(r["trade_name"])
        german = _GERMAN.match(printed)
        plain = german["name"] if german else printed
        skip = ("(", "/", " or ", ":", "spp.", "group")
        if (r["sample"] and not german) or any(s in plain for s in skip):
            continue
        names.add(plain, [r["species_id"]], "trade", r)
        if _SPECIES_NAME.match(r["botanical"]):
            names.add(_REMARK.sub("", r["botanical"]), [r["species_id"]], "synonym", r)


def names_table(registry: WoodRegistry, cells: pd.DataFrame) -> pd.DataFrame:
    """All names; ambiguous where one name of one kind covers several woods.

    Parameters: registry (woods known only from ambiguous names are added to it); cells the
    measurements with trade_name, botanical and species_id.
    """
    names = _Names(registry)
    our_names = read_table("our_names")
    # Our defaults come first: they decide what a plain name means.
    defaults = our_names[our_names["name_kind"].isin(["commercial", "botanical"])]
    for r in defaults.to_dict("records"):
        names.add(r["name"], [r["targets"]], r["name_kind"], r, r["note"])
    for r in our_names[our_names["name_kind"].eq("group")].to_dict("records"):
        names.add(r["name"], registry.groups[r["name"]], "group", r, r["note"])
    _printed_names(names, read_table("species_names"))
    _other_names(names, our_names, read_table("wood_identities"))
    _trade_names(names, cells)
    frame = pd.DataFrame(names.rows)
    fixed = {(fold(r["name"]), r["name_kind"]): r["targets"] for r in defaults.to_dict("records")}
    keep = [
        fixed.get((r.name_key, r.name_kind), r.species_id) == r.species_id
        for r in frame.itertuples()
    ]
    frame = frame[keep].reset_index(drop=True)
    several = frame.groupby(["name_key", "name_kind"])["species_id"].transform("nunique") > 1
    frame["ambiguous"] = several & ~frame["name_kind"].eq("group")
    return frame.sort_values(["name_key", "name_kind", "position", "species_id"])
