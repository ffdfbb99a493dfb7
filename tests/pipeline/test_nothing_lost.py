"""Every printed cell of every source table arrives in the dataset, or in rejected with a reason."""

import csv

import pandas
import pytest

from pipeline.identify import is_ambiguous
from pipeline.read import SOURCES, read_table
from pipeline.tables import MEASUREMENT_TABLES, RATING_COLUMNS
from woodref.reference.names import fold

#: Columns that say where a row stands in print and how it is known, in any table.
PROVENANCE = {
    "edition",
    "table",
    "page",
    "basis",
    "basis_12pct",
    "source",
    "publication",
    "source_table",
    "source_line",
}
#: Columns that say which wood a row is about.
IDENTITY = {"botanical", "name", "kind", "origin", "trade_name"}
#: Lists of our own: nothing in them is printed.
OURS = {
    *("wood_identities", "wood_joins", "our_names", "woods_named", "cell_bases"),
    "place_namesakes",
}
NAMES = {"species_names", "synonyms"}
#: Tables of which one row becomes rows of several tables: tests/pipeline/test_looks.py.
LOOKS = {"looks"}
OTHERS = sorted(
    {p.stem for p in SOURCES.glob("*.csv")} - OURS - NAMES - LOOKS - set(MEASUREMENT_TABLES)
)


@pytest.fixture(scope="module")
def rejected(frames):
    return {
        (r.source_table, r.source_line, r.source_column): r.reason
        for r in frames["rejected"].itertuples()
    }


def cells_of(name, columns):
    """(line, column, text) of every non-empty cell."""
    frame = read_table(name)
    return [
        (line, column, text)
        for column in columns
        for line, text in zip(frame["source_line"], frame[column], strict=True)
        if text
    ]


def test_every_source_file_is_covered():
    with_plan = {*MEASUREMENT_TABLES, *OTHERS, *NAMES, *OURS, *LOOKS}
    assert {p.stem for p in SOURCES.glob("*.csv")} == with_plan


@pytest.mark.parametrize("name", sorted(MEASUREMENT_TABLES))
def test_printed_numbers(name, frames, rejected):
    file = f"{name}.csv"
    table = MEASUREMENT_TABLES[name]
    m = frames["measurements"]
    arrived = {
        (line, column)
        for line, columns in m.loc[
            m["source_table"] == file, ["source_line", "source_column"]
        ].itertuples(index=False)
        for column in columns.split("; ")
    }
    r = frames["ratings"]
    arrived |= set(
        r.loc[r["source_table"] == file, ["source_line", "source_column"]].itertuples(
            index=False, name=None
        )
    )
    columns = [*table.cells, *RATING_COLUMNS.get(name, ())]
    cells = cells_of(name, columns)
    set_aside = {
        (line, part) for t, line, column in rejected if t == file for part in column.split("; ")
    }
    lost = [c for c in cells if c[:2] not in arrived and c[:2] not in set_aside]
    assert not lost
    assert len(cells) == sum(c[:2] in arrived for c in cells) + sum(
        c[:2] in set_aside and c[:2] not in arrived for c in cells
    )


@pytest.mark.parametrize("name", sorted(MEASUREMENT_TABLES))
def test_every_column_has_a_role(name):
    table = MEASUREMENT_TABLES[name]
    with (SOURCES / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        header = next(csv.reader(file))
    roles = [*table.identity, *table.provenance, *table.cells, *RATING_COLUMNS.get(name, ())]
    assert sorted(header) == sorted(roles)


def test_printed_spreads(frames):
    """The standard deviations beside the densities of the open papers arrive with them."""
    m = frames["measurements"]
    for name in ("european_woods", "asia_pacific_woods"):
        with_spread = {(line, text) for line, _, text in cells_of(name, ["density_sd_or_cv"])}
        here = m[(m["source_table"] == f"{name}.csv") & m["printed_spread"].notna()]
        arrived = set(zip(here["source_line"], here["printed_spread"], strict=True))
        bamboo = {(r.source_line) for r in frames["rejected"].itertuples() if "bamboo" in r.reason}
        assert {c for c in with_spread - arrived if c[0] not in bamboo} == set()


def same(text, value):
    """True where a published value holds the printed text."""
    if isinstance(value, str):
        return text == value or text in value
    try:
        return float(text.replace(",", "")) == float(value)
    except (TypeError, ValueError):
        return False


@pytest.mark.parametrize("name", OTHERS)
def test_other_tables(name, frames, rejected):
    """Each cell is found in a published row of the same line, or among the rejected."""
    file = f"{name}.csv"
    published = {}
    for frame in frames.values():
        if "source_line" not in frame or "reason" in frame:
            continue
        for row in frame[frame["source_table"] == file].to_dict("records"):
            published.setdefault(row["source_line"], []).extend(
                v
                for k, v in row.items()
                if k not in ("source_line", "source_table") and not pandas.isna(v)
            )
    set_aside = {line for t, line, _ in rejected if t == file}
    columns = [c for c in read_table(name).columns if c not in PROVENANCE | {"note"}]
    cells = cells_of(name, columns)
    assert cells
    lost = [
        c
        for c in cells
        if (file, c[0], c[1]) not in rejected
        and not any(same(c[2], v) for v in published.get(c[0], []))
        # The names of a row are what its species_id stands for, or go with its rejected cells.
        and not (c[1] in IDENTITY and (c[0] in published or c[0] in set_aside))
    ]
    assert not lost


def test_names(frames, rejected):
    """Every name of species_names.csv is in names; its attributes in species or rejected."""
    keys = set(frames["names"]["name_key"])
    species = frames["species"].set_index("species_id")
    table = read_table("species_names")
    by_line = {}
    for r in frames["names"].itertuples():
        if r.source_table == "species_names.csv":
            by_line.setdefault(r.source_line, []).append(r.species_id)
    lost = []
    for r in table.to_dict("records"):
        pieces = [
            r["common_name"],
            *r["other_trade_names"].split(";"),
            *r["botanical_as_printed"].split(";"),
        ]
        lost += [(r["source_line"], p) for p in pieces if p.strip() and fold(p) not in keys]
    for r in table[~is_ambiguous(table)].to_dict("records"):
        for column, field in (
            ("family", "family"),
            ("kind", "kind"),
            ("group", "trade_group"),
            ("origin_region", "origin"),
        ):
            if not r[column] or ("species_names.csv", r["source_line"], column) in rejected:
                continue
            woods = by_line.get(r["source_line"], [])
            if not any(species.at[w, field] == r[column] for w in woods) and woods:
                lost.append((r["source_line"], column, r[column]))
    assert not lost


def test_rejected_cells_say_why_and_stand_where_they_say(frames):
    printed = {
        name: read_table(name.removesuffix(".csv")).set_index("source_line").to_dict("index")
        for name in set(frames["rejected"]["source_table"])
    }
    for r in frames["rejected"].itertuples():
        assert len(r.reason) > 10
        row = printed[r.source_table][r.source_line]
        for column in r.source_column.split("; "):
            assert row[column]
