"""Step 2, normalize: every printed number in SI, with its wood, condition and sample."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pandas as pd

from pipeline.identify import GROUP, WoodRegistry
from pipeline.read import SOURCES, read_table
from pipeline.samples import sample_of
from pipeline.tables import (
    MEASUREMENT_TABLES,
    RATING_COLUMNS,
    ROW_UNITS,
    MeasurementTable,
    PrintedColumn,
)

#: A number, with a sign for 'about' where print has one.
_NUMBER = re.compile(r"^~?(\d+(?:\.\d+)?)$")
#: 'low-high' or 'low-mean-high'.
_RANGE = re.compile(r"^(\d+(?:\.\d+)?)\s*-\s*(?:(\d+(?:\.\d+)?)\s*-\s*)?(\d+(?:\.\d+)?)$")
#: 'mean (low-high)'.
_MEAN = re.compile(r"^(\d+(?:\.\d+)?) \((\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)\)$")
_DECIMALS = re.compile(r"\d+\.?(\d*)")
_CONDITIONS = {
    "green": "green",
    "12pct": "12pct",
    "12": "12pct",
    "15pct": "15pct",
    "airdry_15pct": "15pct",
    "15": "15pct",
    "air-dry": "air_dry",
    "0": "ovendry",
    "": "unstated",
}
#: Beginning of a density definition -> (property, condition, factor), first match wins.
_DENSITIES = (
    ("basic density (single figure in the row", "density_unstated", "unstated", 1.0),
    ("basic", "basic_specific_gravity", "green", 0.001),
    ("nominal", "basic_specific_gravity", "green", 0.001),
    ("at 12 % MC", "density_12pct", "12pct", 1.0),
    ("air-dry, at 12 % MC", "density_12pct", "12pct", 1.0),
    ("at 15 % MC", "density_at_test_moisture", "other", 1.0),
    ("at the test moisture content", "density_at_test_moisture", "other", 1.0),
    ("air-dry", "density_air_dry", "air_dry", 1.0),
    ("dry density (air-dry wood)", "density_air_dry", "air_dry", 1.0),
    ("density, air-dry specimens", "density_air_dry", "air_dry", 1.0),
    ("oven-dry", "density_ovendry", "ovendry", 1.0),
    ("dry density", "density_ovendry", "ovendry", 1.0),
)
#: Pairs of columns that hold the low and the high end of one printed range.
_RANGE_PAIRS = (
    ("specific_gravity_low", "specific_gravity_high"),
    ("sheet_hardness_green_low", "sheet_hardness_green_high"),
    ("sheet_hardness_dry_low", "sheet_hardness_dry_high"),
)
#: Columns of a mean and of the low and high end of its printed range.
_MEANS = (("brinell", "brinell_low", "brinell_high"),)


def parse_printed(text: str) -> tuple[float, float | None, float | None] | None:
    """(value, low, high) of a printed number or range; None where it is neither.

    The value of a range is the mean printed with it, '3.6 (1.7-6.2)' or '2.7-3.9-5.2', else its
    midpoint. A sign for 'about' ('~5.4') stays in the printed value alone.
    """
    number = _NUMBER.match(text)
    if number:
        return float(number[1]), None, None
    mean = _MEAN.match(text)
    if mean:
        value, low, high = (float(g) for g in mean.groups())
        return (value, low, high) if low <= value <= high else None
    ends = _RANGE.match(text)
    if not ends:
        return None
    low, high = float(ends[1]), float(ends[3])
    value = float(ends[2]) if ends[2] else (low + high) / 2.0
    return (value, low, high) if low <= value <= high else None


def _decimals_step(text: str) -> float:
    """Step of the last printed decimal: '2.45' gives 0.01, '860' gives 1."""
    decimals = max((len(d) for d in _DECIMALS.findall(text)), default=0)
    return float(10.0**-decimals)


def _joined_means(
    frame: pd.DataFrame, columns: dict[str, PrintedColumn]
) -> dict[tuple[str, int], str]:
    """Join a mean and the ends of its range to one cell, a range without a mean to a range.

    Changes frame and columns; returns the names of the columns that were printed, by the
    column they are joined in and the line.
    """
    names: dict[tuple[str, int], str] = {}
    for mean, low, high in _MEANS:
        if mean not in columns:
            continue
        for row in frame[[mean, low, high, "source_line"]].to_dict("records"):
            printed = [c for c in (mean, low, high) if row[c]]
            names[mean, row["source_line"]] = "; ".join(printed)
        ends = np.where(frame[low].ne("") & frame[high].ne(""), frame[low] + "-" + frame[high], "")
        inside = np.where(frame[mean].ne(""), frame[mean] + " (" + ends + ")", ends)
        frame[mean] = np.where(ends == "", frame[mean], inside)
        columns.pop(low)
        columns.pop(high)
    return names


#: Property, condition and factor of a density whose definition is none of _DENSITIES.
_UNSTATED = ("density_unstated", "unstated", 1.0)


def _long(table: MeasurementTable, frame: pd.DataFrame) -> pd.DataFrame:
    """One row per non-empty cell, the ends of a range in two columns joined to one."""
    frame = frame.copy()
    columns = dict(table.cells)
    means = _joined_means(frame, columns)
    renamed: dict[str, str] = {}
    for low, high in _RANGE_PAIRS:
        if low not in columns:
            continue
        both = frame[low].ne("") & frame[high].ne("")
        same = both & frame[low].eq(frame[high])
        joined = np.where(same, frame[low], frame[low] + "-" + frame[high])
        frame[low] = np.where(both, joined, frame[low] + frame[high])
        columns.pop(high)
        renamed[low] = f"{low}; {high}"
    carried = [c for c in frame.columns if c not in table.cells]
    long = frame.melt(carried, list(columns), "source_column", "printed_value")
    long = long[long["printed_value"].ne("")].copy()
    cells = long["source_column"].map(columns)
    long["property_id"] = cells.map(lambda c: c.property_id)
    own_unit = long["unit_printed"] if "unit_printed" in long else pd.Series("", long.index)
    long["printed_unit"] = [c.unit or u for c, u in zip(cells, own_unit, strict=True)]
    long["factor"] = [c.factor or ROW_UNITS[u] for c, u in zip(cells, own_unit, strict=True)]
    long["step"] = [
        c.rounding or _decimals_step(v) for c, v in zip(cells, long["printed_value"], strict=True)
    ]
    long["cell_condition"] = cells.map(lambda c: c.condition)
    long["source_column"] = [
        means.get((c, line), renamed.get(c, c))
        for c, line in zip(long["source_column"], long["source_line"], strict=True)
    ]
    return long


def _row_condition(long: pd.DataFrame) -> pd.Series:
    """The moisture condition the row states, '' columns included."""
    column = next((c for c in ("condition", "condition_mc_pct") if c in long), None)
    if column is None:
        return pd.Series("unstated", index=long.index)
    return long[column].map(lambda text: _CONDITIONS.get(text, "other"))


def _resolve_properties(long: pd.DataFrame) -> pd.DataFrame:
    """Decide property and condition where the row, not the column, says them."""
    long["condition"] = long["cell_condition"].where(
        long["cell_condition"].ne(""), _row_condition(long)
    )
    long["moisture_content_pct"] = pd.to_numeric(
        long.get("condition_mc_pct", pd.Series("", index=long.index)), errors="coerce"
    )
    gravity = long["property_id"].eq("") & long["printed_unit"].eq("1")
    spread = long["source_column"].str.startswith(("specific_gravity_low", "specific_gravity;"))
    basis = long.get("specific_gravity_basis", pd.Series("", index=long.index))
    unknown = gravity & basis.str.contains("not stated")
    basic = (
        gravity
        & ~unknown
        & (long["condition"].eq("green") | basis.str.contains("green volume") | spread)
    )
    long.loc[basic, ["property_id", "condition"]] = ["basic_specific_gravity", "green"]
    at_12 = gravity & ~unknown & ~basic & long["condition"].eq("12pct")
    long.loc[at_12, "property_id"] = "specific_gravity_12pct"
    of_density = long["source_column"].eq("density_kg_m3")
    if of_density.any():
        chosen = [
            next((d[1:] for d in _DENSITIES if text.startswith(d[0])), _UNSTATED)
            for text in long.loc[of_density, "density_definition"]
        ]
        columns = ("property_id", "condition", "factor")
        for column, values in zip(columns, zip(*chosen, strict=True), strict=True):
            long.loc[of_density, column] = list(values)
    basic_rows = long["property_id"].eq("basic_specific_gravity")
    long.loc[
        basic_rows | long["condition"].isin(["range", "green", "unstated"]), "moisture_content_pct"
    ] = np.nan
    long.loc[long["condition"].eq("12pct"), "moisture_content_pct"] = 12.0
    long.loc[long["condition"].eq("15pct"), "moisture_content_pct"] = 15.0
    return long


def _reason(row: dict[str, object]) -> str:  # noqa: PLR0911 one return per reason
    """Why a cell cannot be a measurement; '' where it can."""
    if "bamboo" in str(row["note"]).lower() and "NOT WOOD" in str(row["note"]):
        return "bamboo is not wood"
    if row["printed_name"] == "(any other species)":
        return "default for woods not in the table: a constant of the formulas, not a measurement"
    target = str(row["target"])
    if not target:
        several = "spp." in str(row["botanical"])
        return "a genus, no single wood" if several else "the printed name belongs to no known wood"
    if target.startswith(GROUP):
        group = target.removeprefix(GROUP)
        return f"printed for a trade group ({group}), whose members have rows of their own"
    if row["property_id"] == "":
        return "specific gravity whose basis the source does not state"
    if not isinstance(row["parsed"], tuple):
        return "neither a number nor a range"
    return ""


def _with_cells(cells: pd.DataFrame, own: pd.DataFrame) -> pd.DataFrame:
    """Basis and sample of each cell of a table: its row's, but where cell_bases.csv says otherwise.

    Parameters: cells of the table; own, the rows of cell_bases.csv, an empty cell for what is
    as in the row.

    Raises: ValueError for a row of cell_bases.csv that names no cell of the table.
    """
    own = own[own["in_table"].isin(cells["source_table"])]
    keys = list(zip(cells["printed_name"], cells["source_column"], strict=True))
    idle = sorted(set(zip(own["printed_name"], own["column"], strict=True)) - set(keys))
    if idle:
        raise ValueError(f"cell_bases.csv: no cell goes by {idle[0]}")
    out = cells.copy()
    for name in ("basis", "sample"):
        told = {(r["printed_name"], r["column"]): r[name] for r in own.to_dict("records")}
        out[name] = [told.get(k) or v for k, v in zip(keys, cells[name], strict=True)]
    return out


def _sets(sheets: pd.DataFrame) -> pd.Series:
    """', set 2' for the second series a species sheet prints of one source, '' for the first.

    Each is a sample of its own: a green and a dry figure go together within a set alone.
    """
    series = ["botanical", "trade_name", "condition", "test_standard", "sheet_source_no"]
    number = sheets.groupby(series).cumcount() + 1
    return number.map(lambda n: f", set {n}" if n > 1 else "")


def normalize(
    table: MeasurementTable,
    registry: WoodRegistry,
    sources: pd.Series,
    folder: Path = SOURCES,
    cell_bases: pd.DataFrame | None = None,
) -> tuple[pd.DataFrame, pd.DataFrame]:
    """(measurements, rejected) of one source table of a folder."""
    frame = read_table(table.name, folder)
    known = {
        *table.identity,
        *table.provenance,
        *table.cells,
        "source_table",
        "source_line",
        *RATING_COLUMNS.get(table.name, ()),
    }
    unknown = [c for c in frame.columns if c not in known]
    if unknown:
        raise ValueError(f"{table.name}.csv: undeclared columns {unknown}")
    frame["printed_name"] = frame[table.name_column]
    frame["source_id"] = sources.reindex(frame.index).to_numpy()
    joined = [
        registry.join(f"{table.name}.csv", n, b) or (registry.one(b, n), "")
        for n, b in zip(frame["printed_name"], frame["botanical"], strict=True)
    ]
    # Text throughout: pandas turns None among strings into NaN, which passes for a name.
    frame["target"] = [species_id or "" for species_id, _ in joined]
    frame["sample"] = [
        sample or sample_of(row, registry)
        for (_, sample), row in zip(joined, frame.to_dict("records"), strict=True)
    ]
    if "sheet_source_no" in frame:
        frame["set"] = _sets(frame)
    long = _resolve_properties(_long(table, frame))
    long["parsed"] = long["printed_value"].map(parse_printed)
    long["reason"] = [_reason(r) for r in long.to_dict("records")]
    rejected = long.loc[
        long["reason"].ne(""),
        ["source_table", "source_line", "source_column", "printed_value", "reason"],
    ]
    good = long[long["reason"].eq("")].copy()
    for position, name in enumerate(("value", "value_low", "value_high")):
        numbers = pd.to_numeric(good["parsed"].map(lambda p, i=position: p[i]))
        good[name] = numbers * good["factor"]
    good["rounding"] = good["step"] * good["factor"]
    good["species_id"] = good["target"]
    good["trade_name"] = good["printed_name"]
    good["printed_table"] = good["table"]
    if table.name == "fia_reference_species":
        at_12 = good["property_id"].eq("specific_gravity_12pct")
        good["basis"] = good["basis"].where(~at_12, good["basis_12pct"])
    if "sheet_source_no" in good:
        good["test_standard"] = [
            f"{t} specimens, source {n} of the sheet{set_}" if t else ""
            for t, n, set_ in zip(
                good["test_standard"], good["sheet_source_no"], good["set"], strict=True
            )
        ]
    if cell_bases is not None:
        good = _with_cells(good, cell_bases)
    if "density_sd_or_cv" in good:
        density = good["source_column"].eq("density_kg_m3")
        good["printed_spread"] = good["density_sd_or_cv"].where(density, "")
    good["repeats"] = table.repeats
    good["grown_in"] = table.grown_in
    good["counterpart_table"] = table.counterpart
    good["measurement_id"] = [
        f"{t}:{line}:{c.partition(';')[0]}"
        for t, line, c in zip(
            good["source_table"], good["source_line"], good["source_column"], strict=True
        )
    ]
    return good, rejected


def measurements(
    registry: WoodRegistry, source_ids: dict[str, pd.Series]
) -> tuple[pd.DataFrame, pd.DataFrame]:
    """All printed numbers in SI, and the cells that could not become one.

    Parameters: registry of woods; source_ids per table, the publication of each row.
    Returns: (measurements not yet reconciled, rejected).
    """
    bases = read_table("cell_bases")
    parts = [
        normalize(t, registry, source_ids[t.name], cell_bases=bases)
        for t in MEASUREMENT_TABLES.values()
    ]
    columns = [
        "measurement_id",
        "species_id",
        "property_id",
        "condition",
        "moisture_content_pct",
        "value",
        "value_low",
        "value_high",
        "printed_value",
        "printed_unit",
        "rounding",
        "sample",
        "grown_in",
        "test_standard",
        "trade_name",
        "botanical",
        "printed_spread",
        "source_id",
        "edition",
        "printed_table",
        "page",
        "basis",
        "note",
        "source_table",
        "source_line",
        "source_column",
        "repeats",
        "counterpart_table",
    ]
    good = pd.concat([g.reindex(columns=columns) for g, _ in parts], ignore_index=True)
    text = good.columns.difference(
        [
            "value",
            "value_low",
            "value_high",
            "rounding",
            "moisture_content_pct",
            "source_line",
            "repeats",
        ]
    )
    good[text] = good[text].fillna("")
    return good, pd.concat([r for _, r in parts], ignore_index=True)
