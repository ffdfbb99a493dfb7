"""Technical tables of the shop: fasteners, panels, elastic constants, facts by subject.

Rows that name one wood, or a trade group, carry its species_id. What the words of a row
without a column for woods name stands in woods_named, from a list of our own.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pandas as pd

from pipeline.identify import GROUP, WoodRegistry
from pipeline.read import SOURCES, read_table
from pipeline.sources.auxiliary_tables import PRINT, Plan, carried_over, property_of
from pipeline.sources.cells import rejected_frame, rejection
from pipeline.sources.technical_rows import (
    Row,
    beam_constant,
    fact,
    fastener_loads,
    lag_screw_factor,
    of_wood,
    panel,
    shelf_length,
    slope,
    specific_gravity_function,
)
from woodref.reference.place_names import fold_place

#: Tables whose columns are carried over as they stand.
PLANS: dict[str, Plan] = {
    "fasteners": Plan(
        "fastener_sizes",
        {
            **{c: c for c in ("kind", "size", "gauge", "length_mm", "diameter_mm", "diameter_in")},
            "length_in": "printed_length_in",
            **PRINT,
        },
    ),
    "screw_length_limits": Plan(
        "screw_size_limits",
        {
            "screw_length_mm": "screw_length_mm",
            "screw_length_in": "printed_screw_length_in",
            "gauge_min": "gauge_min",
            "gauge_max": "gauge_max",
            **PRINT,
        },
    ),
    "outdoor_moisture": Plan(
        "outdoor_emc_monthly",
        {**{c: c for c in ("region_code", "city", "month", "emc_pct")}, **PRINT},
    ),
    "storage_heating": Plan(
        "storage_heating",
        {
            **{c: c for c in ("outside_relative_humidity_pct", "wood_moisture_pct", "warmer_by_c")},
            **PRINT,
        },
    ),
    "finish_coverage_life": Plan(
        "finish_coverage_life",
        {
            **{
                c: c
                for c in (
                    "finish",
                    "surface",
                    "item",
                    "suitability",
                    "value_low",
                    "value_high",
                    "unit",
                )
            },
            **PRINT,
        },
    ),
}
#: File of facts -> their subject.
FACT_FILES = {
    "fastener_facts": "fasteners",
    "deflection_facts": "deflection",
    "drying_storage_facts": "drying and storage",
    "gluing_facts": "gluing",
    "steam_bending_facts": "steam bending",
    "wood_character_facts": "wood character",
}
#: Tables of numbers of single woods, by the file of the same name.
_OF_WOODS = ("elastic_ratios", "poissons_ratios", "kiln_schedules")
_NAMED = "woods_named"


def _records(name: str, folder: Path) -> list[Row]:
    return [{str(k): v for k, v in r.items()} for r in read_table(name, folder).to_dict("records")]


def _members(registry: WoodRegistry, target: str) -> list[str]:
    """The woods of a target of ours: a species_id, or 'group:NAME'.

    Raises: ValueError for a wood or a group that does not exist.
    """
    if target.startswith(GROUP):
        woods = registry.groups.get(target.removeprefix(GROUP), [])
    else:
        woods = [target] if target in registry.woods else []
    if not woods:
        raise ValueError(f"'{target}' is neither a wood nor a trade group")
    return woods


def _of_woods(
    name: str, registry: WoodRegistry, origins: Mapping[str, Any], folder: Path
) -> tuple[pd.DataFrame, list[Row]]:
    """One row per wood a printed row stands for, and the rows whose wood is not known."""
    rows: list[Row] = []
    rejected: list[Row] = []
    for r in _records(name, folder):
        target = registry.one(r["botanical"], r["name"], f"{name}.csv")
        if target is None:
            cells = [c for c in r if c.endswith(("_el", "_c", "_pct")) or c.startswith("mu_")]
            rejected += [
                rejection(r, c, "the printed name belongs to no known wood") for c in cells if r[c]
            ]
            continue
        woods = _members(registry, target)
        rows += [of_wood(r, w, target.startswith(GROUP), origins) for w in woods]
    frame = pd.DataFrame(rows)
    return (frame.drop(columns="for_group") if name == "kiln_schedules" else frame), rejected


def _woods_named(registry: WoodRegistry, folder: Path) -> pd.DataFrame:
    """The woods that rows of other technical tables name in their words.

    Raises: ValueError for words that stand in no row of their file.
    """
    texts: dict[str, list[tuple[int, str]]] = {}
    rows = []
    for named in _records(_NAMED, folder):
        file = named["in_table"]
        if file not in texts:
            frame = read_table(file.removesuffix(".csv"), folder)
            cells = frame.drop(columns=["source_table", "source_line", *PRINT])
            joined = cells.agg("; ".join, axis=1)
            texts[file] = list(zip(frame["source_line"], joined, strict=True))
        words = re.compile(rf"\b{re.escape(named['printed_name'])}\b")
        lines = [line for line, text in texts[file] if words.search(text)]
        if not lines:
            raise ValueError(f"{_NAMED}.csv: no row of {file} says '{named['printed_name']}'")
        targets = [t.strip() for t in named["targets"].split(";")]
        woods = list(dict.fromkeys(w for t in targets for w in _members(registry, t)))
        rows += [
            {
                "source_table": file,
                "source_line": line,
                "printed_name": named["printed_name"],
                "species_id": wood,
                "for_group": len(woods) > 1,
            }
            for line in lines
            for wood in woods
        ]
    return pd.DataFrame(rows)


def _placed(outdoor: pd.DataFrame, places: pd.DataFrame) -> pd.DataFrame:
    """The printed cities with the towns of ``places``.

    By state and whole name, else by the first of two names joined by a hyphen ('Seattle-Tacoma').
    """
    known = {
        (code, key): place_id
        for code, keys, place_id in zip(
            places["region_code"], places["name_keys"], places["place_id"], strict=True
        )
        if code
        for key in keys.strip("|").split("|")
    }

    def place(code: str, city: str) -> str | None:
        names = (city, city.partition("-")[0])
        return next(
            (known[code, fold_place(n)] for n in names if (code, fold_place(n)) in known), None
        )

    pairs = zip(outdoor["region_code"], outdoor["city"], strict=True)
    return outdoor.assign(place_id=[place(code, city) for code, city in pairs])


def technical_tables(
    origins: Mapping[str, Any],
    registry: WoodRegistry,
    places: pd.DataFrame,
    folder: Path = SOURCES,
) -> tuple[dict[str, pd.DataFrame], pd.DataFrame]:
    """The technical tables by name, and the rejected cells.

    Parameters: origins as read from origins.toml; registry to name the woods; places, the
    table of that name; folder of the source files.
    Raises: UnknownPublicationError; KeyError for a column or unit without a place;
    ValueError for words of woods_named.csv that stand nowhere.
    """
    frames: dict[str, pd.DataFrame] = {}
    rejected: list[Row] = []
    for name, plan in PLANS.items():
        frames[name], left = carried_over(name, plan, read_table(plan.file, folder), origins)
        rejected += left
    frames["outdoor_moisture"] = _placed(frames["outdoor_moisture"], places)
    for name in _OF_WOODS:
        frames[name], left = _of_woods(name, registry, origins, folder)
        rejected += left
    shaped_anew = {
        "beam_constants": beam_constant,
        "shelf_lengths": shelf_length,
        "slope_of_grain": slope,
        "lag_screw_factors": lag_screw_factor,
    }
    for name, shape in shaped_anew.items():
        frames[name] = pd.DataFrame([shape(r, origins) for r in _records(name, folder)])
    frames["fastener_loads"] = pd.DataFrame(
        fastener_loads(
            _records("fastener_equations", folder),
            _records("fastener_lateral_coefficients", folder),
            origins,
        )
    )
    frames["panels"] = pd.DataFrame(
        [row for r in _records("panel_properties", folder) for row in panel(r, origins)]
    )
    frames["specific_gravity_functions"] = pd.DataFrame(
        [
            specific_gravity_function(r, property_of(r["property"]) or "", origins)
            for r in _records("specific_gravity_functions", folder)
        ]
    )
    frames["facts"] = pd.DataFrame(
        [
            fact(r, subject, origins)
            for file, subject in FACT_FILES.items()
            for r in _records(file, folder)
        ]
    )
    frames[_NAMED] = _woods_named(registry, folder)
    return frames, rejected_frame(rejected)
