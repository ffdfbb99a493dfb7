"""Tables that stay tables of their own: moisture, finishes, variability, sizes, rules.

Every column of every file is named below: where it goes, and as what. A column that is
not named is an error, so nothing is dropped without a word.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pandas as pd

from pipeline.read import SOURCES, read_table
from pipeline.sources.cells import number, rejected_frame, rejection, source_id_of
from pipeline.sources.members import WoodLookup, woods_of
from woodref.reference.fields import TABLES

#: Columns that say where a row stands in print, the same in every file.
PRINT = {
    "edition": "edition",
    "table": "printed_table",
    "page": "page",
    "basis": "basis",
    "note": "note",
}
#: A column whose text is the title the row's publication already carries.
_TITLE = "(title of the publication)"


@dataclass(frozen=True)
class Plan:
    """How one file becomes one table: the file, and where each of its columns goes."""

    file: str
    columns: Mapping[str, str]
    publication: str = "edition"


PLANS: dict[str, Plan] = {
    "equilibrium_moisture_content": Plan(
        "equilibrium_moisture_content",
        {
            **{
                c: c for c in ("temperature_c", "temperature_f", "relative_humidity_pct", "emc_pct")
            },
            **PRINT,
        },
    ),
    "finishes": Plan(
        "moisture_excluding_effectiveness",
        {
            "finish": "finish",
            "coats": "coats",
            "days": "days",
            "mee_pct": "moisture_excluded_pct",
            **PRINT,
        },
    ),
    "variability": Plan(
        "property_variability",
        {
            "property": "property",
            "species": "species",
            "botanical": "botanical_name",
            "condition": "condition",
            "mean": "mean",
            "standard_deviation": "standard_deviation",
            "unit": "printed_unit",
            "coefficient_of_variation_pct": "coefficient_of_variation_pct",
            "cv_is": "cv_is",
            **PRINT,
        },
    ),
    "lumber_sizes": Plan(
        "lumber_sizes",
        {
            **{
                c: c
                for c in (
                    "system",
                    "nominal",
                    "rough_in",
                    "dressed_in",
                    "dressed_green_in",
                    "min_width_in",
                    "min_length_ft",
                    "clear_face_yield_pct",
                    "min_cutting",
                    "cuttings_formula",
                )
            },
            **PRINT,
            "source": "edition",
        },
        "source",
    ),
    "shipping_facts": Plan(
        "shipping_facts",
        {
            **{c: c for c in ("topic", "item", "value", "unit", "range_min", "range_max")},
            **PRINT,
            "source": "edition",
        },
        "source",
    ),
    "practice": Plan(
        "practice",
        {
            **{c: c for c in ("topic", "rule", "value_low", "value_high", "unit")},
            "basis": "basis",
            "note": "note",
        },
        "",
    ),
    "installation_moisture_content": Plan(
        "installation_moisture_content",
        {
            **{
                c: c
                for c in (
                    "use",
                    "items",
                    "region",
                    "average_mc_pct",
                    "individual_min_mc_pct",
                    "individual_max_mc_pct",
                )
            },
            **PRINT,
        },
    ),
    "worked_examples": Plan(
        "worked_examples",
        {
            **{c: c for c in ("id", "inputs", "expected", "unit")},
            **PRINT,
            "publication": _TITLE,
        },
    ),
}

#: The words of a printed property that tell which of ours it is, the first match counting.
_PROPERTY_WORDS: tuple[tuple[str, str], ...] = (
    ("modulus of rupture", "modulus_of_rupture"),
    ("modulus of elasticity", "modulus_of_elasticity"),
    ("work to maximum load", "work_to_maximum_load"),
    ("impact bending", "impact_bending"),
    ("compression parallel", "compression_parallel"),
    ("compression perpendicular", "compression_perpendicular"),
    ("shear", "shear_parallel"),
    ("tension perpendicular", "tension_perpendicular"),
    ("side hardness", "side_hardness"),
    ("ovendry density", "density_ovendry"),
    ("specific gravity", "basic_specific_gravity"),
)
#: Words of a printed property that was tested on boards, not on small clear specimens.
_NOT_CLEAR_WOOD = ("sawn timber", "sections")


def property_of(printed: str) -> str | None:
    """Our property for a printed one; None for toughness and others we do not hold.

    'Specific gravity' of green clear wood is basic specific gravity. A row for several
    properties at once ('Shrinkage, transverse and volumetric') stands for none of them, nor
    does one for sawn timber or whole sections: with their knots they are not clear wood.
    """
    text = printed.lower()
    if any(words in text for words in _NOT_CLEAR_WOOD):
        return None
    return next((ours for words, ours in _PROPERTY_WORDS if words in text), None)


def carried_over(
    name: str, plan: Plan, raw: pd.DataFrame, origins: Mapping[str, Any]
) -> tuple[pd.DataFrame, list[dict[str, Any]]]:
    """One file as one table, and the cells that found no place in it."""
    unknown = set(raw.columns) - set(plan.columns) - {"source_table", "source_line"}
    if unknown:
        raise KeyError(f"{plan.file}.csv: columns without a place: {', '.join(sorted(unknown))}")
    types = {f.name: f.type for f in TABLES[name].fields}
    rows: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for cells in raw.to_dict("records"):
        row: dict[str, Any] = {k: cells[k] for k in ("source_table", "source_line")}
        words = []
        for column, target in plan.columns.items():
            text = cells.get(column, "")
            if not text or target == _TITLE:
                continue
            if types[target] == "string":
                row[target] = text
                continue
            value = number(text)
            if value is not None:
                row[target] = int(value) if types[target] == "integer" else value
            elif "text" in types:
                words.append(text)
            else:
                rejected.append(rejection(cells, column, "not a number"))
        if words:
            row["text"] = "; ".join(words)
        if plan.publication:
            row["source_id"] = source_id_of(cells, origins, plan.publication)
        rows.append(row)
    return pd.DataFrame(rows), rejected


def _with_woods(variability: pd.DataFrame, registry: WoodLookup | None) -> pd.DataFrame:
    """Variability with the property and, for a row about one wood, the wood."""

    def wood(botanical: Any, name: str) -> str | None:
        if registry is None or not isinstance(botanical, str):
            return None
        woods = woods_of(registry, botanical, name)
        return woods[0] if len(woods) == 1 else None

    pairs = zip(variability["botanical_name"], variability["species"], strict=True)
    return variability.assign(
        property_id=[property_of(p) for p in variability["property"]],
        species_id=[wood(b, n) for b, n in pairs],
    )


def auxiliary_tables(
    origins: Mapping[str, Any], registry: WoodLookup | None = None, folder: Path = SOURCES
) -> tuple[dict[str, pd.DataFrame], pd.DataFrame]:
    """The tables that are carried over as they stand.

    Parameters: origins as read from origins.toml; registry to name the woods of the
    variability table (without one they stay unnamed); folder of the source files.
    Returns: table name to frame, in the columns of woodref.reference.fields, and the
    rejected cells.
    Raises: UnknownPublicationError; KeyError for a column that has no place.
    """
    frames: dict[str, pd.DataFrame] = {}
    rejected: list[dict[str, Any]] = []
    for name, plan in PLANS.items():
        frame, left = carried_over(name, plan, read_table(plan.file, folder), origins)
        frames[name] = _with_woods(frame, registry) if name == "variability" else frame
        rejected += left
    return frames, rejected_frame(rejected)
