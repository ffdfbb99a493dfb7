"""QUALITY.md: what the dataset holds, what disagrees, what is implausible, what was left out."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from pipeline.accuracy import accuracy_quality
from pipeline.climate_quality import climate_quality
from pipeline.cross_validation import cross_validation
from pipeline.densities_quality import densities_quality
from pipeline.looks_quality import looks_quality
from pipeline.markdown import table as markdown_table
from pipeline.near_names import near_names
from woodref.reference.bases import BASES, DATA_COVERAGE, FULL, UNCHECKED
from woodref.reference.fields import DATASET_VERSION
from woodref.reference.properties import PROPERTIES

#: Coverage the dataset has to reach.
WOODS_WITH_A_VALUE = 270
WOODS_IN_FULL = 155
#: Largest disagreements shown of each property.
_LARGEST = 5
#: Properties that say nothing of how a wood behaves in a piece of furniture.
_ASIDE = ("green_moisture_content", "intersection_moisture_content")

Lines = list[str]


def woods_with_a_value(measurements: pd.DataFrame) -> int:
    """How many woods have a mechanical, density or shrinkage value."""
    real = measurements[~measurements["property_id"].str.startswith(_ASIDE)]
    return int(real["species_id"].nunique())


def woods_in_full(species: pd.DataFrame) -> int:
    """How many woods have what makes coverage full."""
    return int((species["data_coverage"] == FULL).sum())


def _coverage(frames: Mapping[str, pd.DataFrame]) -> Lines:
    species, measurements = frames["species"], frames["measurements"]
    known = measurements[measurements["preferred"].fillna(False)]
    coverage = species["data_coverage"].value_counts()
    return [
        "## Coverage",
        "",
        *markdown_table(
            ("target", "at least", "reached"),
            [
                (
                    "woods with a mechanical, density or shrinkage value",
                    WOODS_WITH_A_VALUE,
                    woods_with_a_value(measurements),
                ),
                (f"woods with {DATA_COVERAGE[FULL]}", WOODS_IN_FULL, woods_in_full(species)),
            ],
        ),
        *markdown_table(
            ("data coverage", "what is known", "woods"),
            [(c, meaning, int(coverage.get(c, 0))) for c, meaning in DATA_COVERAGE.items()],
        ),
        *markdown_table(
            ("property", "woods with a preferred value", "printed values"),
            [
                (
                    p.label,
                    int(known.loc[known["property_id"] == p.property_id, "species_id"].nunique()),
                    int((measurements["property_id"] == p.property_id).sum()),
                )
                for p in PROPERTIES.values()
            ],
        ),
    ]


def _counts(frames: Mapping[str, pd.DataFrame]) -> Lines:
    measurements = frames["measurements"]
    short = dict(zip(frames["sources"]["source_id"], frames["sources"]["short"], strict=True))
    lines = ["## Counts", "", "Rows of each table.", ""]
    lines += markdown_table(
        ("table", "rows"), [(f"`{name}`", len(frame)) for name, frame in frames.items()]
    )
    by_source = measurements.groupby(["source_id", "basis"], sort=True).size().unstack(fill_value=0)
    bases = [b for b in BASES if b in by_source]
    lines += ["Rows of the other tables by basis.", ""]
    others = {
        name: frame["basis"].value_counts()
        for name, frame in frames.items()
        if "basis" in frame and name != "measurements"
    }
    known = [b for b in BASES if any(b in counts for counts in others.values())]
    lines += markdown_table(
        ("table", *known),
        [(f"`{n}`", *(int(counts.get(b, 0)) for b in known)) for n, counts in others.items()],
    )
    lines += ["Measurements by publication and basis.", ""]
    lines += markdown_table(
        ("publication", *bases, "all"),
        [
            (short[str(s)], *(int(row[b]) for b in bases), int(row.sum()))
            for s, row in by_source.iterrows()
        ],
    )
    by_property = (
        measurements.groupby(["property_id", "basis"], sort=True).size().unstack(fill_value=0)
    )
    lines += ["Measurements by property and basis.", ""]
    lines += markdown_table(
        ("property", *bases, "all"),
        [
            (p.label, *(int(row[b]) for b in bases), int(row.sum()))
            for p in PROPERTIES.values()
            if p.property_id in by_property.index
            for row in [by_property.loc[p.property_id]]
        ],
    )
    preferred = measurements[measurements["preferred"].fillna(False)]
    used = preferred["basis"].value_counts()
    lines += ["Preferred values by basis.", ""]
    lines += markdown_table(
        ("basis", "meaning", "preferred values"),
        [(b, BASES[b], int(used[b])) for b in BASES if b in used],
    )
    return lines


def _disagreements(disagreements: pd.DataFrame) -> Lines:
    lines = [
        "## Disagreements",
        "",
        "Pairs of printed values of one wood, property and condition that differ by more than "
        "their printed rounding; the table `disagreements` holds them all.",
        "",
    ]
    size = disagreements["difference_pct"].astype("Float64").abs()
    grouped = disagreements.assign(size=size).groupby(["property_id", "between"], sort=True)
    lines += markdown_table(
        ("property", "between", "pairs", "median difference %", "largest difference %"),
        [
            (
                PROPERTIES[str(p)].label,
                between,
                len(group),
                f"{group['size'].median():.1f}",
                f"{group['size'].max():.1f}",
            )
            for (p, between), group in grouped
        ],
    )
    lines += [f"The {_LARGEST} largest of each property.", ""]
    largest = (
        disagreements.assign(size=size)
        .sort_values(
            ["property_id", "size", "species_id", "other_id"], ascending=[True, False, True, True]
        )
        .groupby("property_id", sort=True)
        .head(_LARGEST)
    )
    lines += markdown_table(
        ("property", "wood", "condition", "used", "from", "other", "from", "difference %"),
        [
            (
                PROPERTIES[r["property_id"]].label,
                r["species_id"],
                r["condition"],
                f"{r['preferred_value']:.6g}",
                r["preferred_from"],
                f"{r['other_value']:.6g}",
                r["other_from"],
                f"{r['difference_pct']:+.1f}",
            )
            for r in largest.to_dict("records")
        ],
    )
    return lines


def _implausible(measurements: pd.DataFrame) -> Lines:
    flagged = measurements[measurements["plausibility_flag"].notna()]
    lines = [
        "## Implausible cells",
        "",
        f"{len(flagged)} printed values outside physical sense. Kept as printed, never preferred "
        "where another value exists.",
        "",
    ]
    return lines + markdown_table(
        ("wood", "property", "condition", "printed", "file and line", "used", "why"),
        [
            (
                r["species_id"],
                r["property_id"],
                r["condition"],
                f"{r['printed_value']} {r['printed_unit']}",
                f"{r['source_table']} {r['source_line']}",
                "yes" if r["preferred"] else "no",
                r["plausibility_flag"],
            )
            for r in flagged.to_dict("records")
        ],
    )


def _rejected(rejected: pd.DataFrame) -> Lines:
    lines = [
        "## Rejected cells",
        "",
        f"{len(rejected)} printed cells stand in no other table; the table `rejected` holds "
        "each with its line and column.",
        "",
    ]
    counts = rejected.groupby(["reason", "source_table"], sort=True).size()
    return lines + markdown_table(
        ("reason", "file", "cells"),
        [(reason, file, int(count)) for (reason, file), count in counts.items()],
    )


def _of_stocked_woods(frames: Mapping[str, pd.DataFrame]) -> Lines:
    """How the leading figures of woods that yards stock are known."""
    stock = frames["stock"]
    stocked = stock.loc[
        stock["class"].eq("commonly stocked") & stock["region"].isin(("North America", "Europe")),
        "species_id",
    ].unique()
    m = frames["measurements"]
    leading = m[m["preferred"].fillna(False) & m["species_id"].isin(stocked)]
    used = leading["basis"].value_counts()
    share = 100.0 * used.get(UNCHECKED, 0) / len(leading)
    return [
        "## Figures of woods that yards stock",
        "",
        f"Of {len(leading)} preferred figures of the {len(stocked)} woods commonly stocked in "
        f"North America or Europe, {share:.1f} % are unchecked.",
        "",
        *markdown_table(("basis", "figures"), [(b, int(used[b])) for b in BASES if b in used]),
    ]


def _fiber_saturation(points: pd.DataFrame) -> Lines:
    """What shrinkage and coefficient of one wood imply, where that is not 30 %."""
    other = points[points["fiber_saturation_pct"].ne(30.0)]
    return [
        "## Fiber saturation",
        "",
        f"{len(points)} woods have shrinkage and dimensional change coefficients in print; of "
        f"{len(points) - len(other)} the two imply 30 %. The others:",
        "",
        *markdown_table(
            ("wood", "tangential %", "radial %", "of the wood %", "used"),
            [
                (
                    r["species_id"],
                    f"{r['implied_tangential_pct']:.1f}",
                    f"{r['implied_radial_pct']:.1f}",
                    f"{r['fiber_saturation_pct']:g}",
                    "yes" if r["used"] else "set aside",
                )
                for r in other.to_dict("records")
            ],
        ),
    ]


def _names_apart(species: pd.DataFrame) -> Lines:
    """Pairs of woods that may be one in two spellings."""
    return [
        "## Names that may be one",
        "",
        "Woods whose botanical names are a letter or an ending apart. Spellings that are certain "
        "stand in synonyms.csv and are one wood already; of these we are not certain.",
        "",
        *markdown_table(("wood", "and", "why"), near_names(species["botanical_name"])),
    ]


def quality_text(frames: Mapping[str, pd.DataFrame]) -> str:
    """The quality page of built tables, as Markdown.

    Parameters: frames by table name; species, measurements, sources, disagreements and
    rejected are reported on. Returns: the same text for the same tables.
    """
    lines = [
        "# Quality of the reference dataset",
        "",
        f"Generated by `python -m pipeline build`. Dataset version {DATASET_VERSION}.",
        "",
        *_coverage(frames),
        *_counts(frames),
    ]
    if "disagreements" in frames:
        lines += _disagreements(frames["disagreements"])
    if "density" in frames:
        lines += cross_validation(frames)
        lines += densities_quality(frames)
        lines += accuracy_quality(frames)
    if "climate" in frames:
        lines += climate_quality(frames)
    if "looks" in frames:
        lines += looks_quality(frames)
    if "stock" in frames:
        lines += _of_stocked_woods(frames)
    if "fiber_saturation" in frames:
        lines += _fiber_saturation(frames["fiber_saturation"])
    lines += _names_apart(frames["species"])
    lines += _implausible(frames["measurements"])
    if "rejected" in frames:
        lines += _rejected(frames["rejected"])
    return "\n".join(lines).rstrip("\n") + "\n"
