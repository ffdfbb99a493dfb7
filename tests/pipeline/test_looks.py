"""How a wood looks, is used, stocked and called: every cell, and how each is known."""

import pandas as pd
import pytest

from pipeline.read import read_origins, read_table
from pipeline.sources.looks import (
    STOCK_COLUMNS,
    called,
    cell_basis,
    citations,
    listed,
    looks,
    publication_of,
)
from woodref.reference.bases import CHECKED, EDITORIAL, SECOND_HAND, UNCHECKED
from woodref.reference.declared.looks import STOCK
from woodref.reference.look_words import JUDGED, LOOK_CELLS, basis_column
from woodref.reference.names import fold


class Woods:
    """A registry that knows a few woods."""

    def __init__(self, *species_ids):
        self.woods = {i: {} for i in species_ids}


@pytest.fixture(scope="module")
def source():
    return read_table("looks")


@pytest.fixture(scope="module")
def by_wood(frames):
    return frames["looks"].set_index("species_id")


def test_every_row_joins_a_wood(source, frames):
    assert len(source) == 510
    assert set(source["species_id"]) <= set(frames["species"]["species_id"])
    assert set(frames["looks"]["species_id"]) == set(source["species_id"])


def test_every_column_of_the_source_has_a_role(source):
    about_reading = {
        f"{part}_{what}" for part in ("look", "uses") for what in ("basis", "source")
    } | {"look_fields_read", "uses_read", "stock_basis"}
    identity = {"species_id", "common_name", "botanical_name", "note"}
    place = {"source_table", "source_line"}
    roles = {*LOOK_CELLS, *STOCK_COLUMNS, "principal_uses", *about_reading, *identity, *place}
    assert set(source.columns) == roles


def test_every_cell_is_carried_as_printed(source, by_wood):
    """Cell by cell, with how it is known worked out here again from the columns of the source."""
    for row in source.to_dict("records"):
        carried = by_wood.loc[row["species_id"]]
        assert carried["listed_name"] == row["common_name"]
        assert (carried["note"] if pd.notna(carried["note"]) else "") == row["note"]
        read = row["look_fields_read"].split("; ")
        for cell in LOOK_CELLS:
            value, basis = carried[cell], carried[basis_column(cell)]
            if not row[cell]:
                assert pd.isna(value), (row["species_id"], cell)
                assert pd.isna(basis), (row["species_id"], cell)
                continue
            assert (float(row[cell]) if cell.endswith("lightness") else row[cell]) == value
            expected = {True: "second_hand", False: "checked"}[row["look_basis"] == "second_hand"]
            if cell not in read:
                expected = "editorial" if cell in JUDGED else "unchecked"
            assert basis == expected, (row["species_id"], cell)


def test_every_use_is_carried_in_order(source, frames):
    uses = frames["uses_of_woods"]
    for row in source.to_dict("records"):
        mine = uses[uses["species_id"] == row["species_id"]].sort_values("position")
        assert "; ".join(mine["use"]) == row["principal_uses"]
        read = mine.loc[mine["basis"] != "unchecked", ["use", "basis"]]
        assert set(read["use"]) == set(listed(row["uses_read"]))
        assert set(read["basis"]) <= {row["uses_basis"]}
        assert mine.loc[mine["basis"] == "unchecked", "source_ids"].isna().all()


def test_every_stock_cell_is_carried(source, frames):
    stock = frames["stock"].set_index(["species_id", "region"])["class"]
    cells = 0
    for row in source.to_dict("records"):
        for column, region in STOCK_COLUMNS.items():
            if row[column]:
                assert stock[row["species_id"], region] == row[column]
                cells += 1
    assert cells == len(stock)
    assert set(frames["stock"]["basis"]) == {"common_practice"}


def test_sources_of_what_was_read_are_publications(source, frames):
    known = set(frames["sources"]["source_id"])
    for name in ("looks", "uses_of_woods"):
        for ids in frames[name]["source_ids"].dropna():
            assert set(ids.split("; ")) <= known
    looked = frames["looks"].set_index("species_id")
    for row in source.to_dict("records"):
        carried = looked.loc[row["species_id"], "source"]
        assert pd.notna(carried) == bool(row["look_fields_read"]), row["species_id"]
    read = frames["uses_of_woods"].query("basis != 'unchecked'")
    assert read["source_ids"].notna().all()


def test_counts_of_the_list(frames, source):
    """Counts that the description of the list gives, worked out again from what was carried."""
    looked, uses, stock = frames["looks"], frames["uses_of_woods"], frames["stock"]
    read = {
        cell: int(looked[basis_column(cell)].isin([CHECKED, SECOND_HAND]).sum())
        for cell in LOOK_CELLS
    }
    assert {k: n for k, n in read.items() if n} == {
        "heartwood_hue": 227,
        "sapwood": 180,
        "grain": 157,
        "texture": 123,
        "workability": 97,
        "heart_sap_contrast": 96,
        "pore_size": 93,
        "dries": 64,
        "pores": 63,
        "availability_note": 60,
        "figure": 44,
        "oily_or_resinous": 42,
        "odor": 30,
        "color_with_age": 29,
        "blunting": 20,
        "luster": 18,
    }
    assert sum(read.values()) == 1343
    assert looked["heartwood_hue_basis"].value_counts().to_dict() == {
        CHECKED: 222,
        SECOND_HAND: 5,
        UNCHECKED: 283,
    }
    assert (len(uses), int((uses["basis"] != UNCHECKED).sum())) == (2439, 997)
    all_read = uses.groupby("species_id")["basis"].agg(lambda b: (b != UNCHECKED).all())
    some_read = uses.groupby("species_id")["basis"].agg(lambda b: (b != UNCHECKED).any())
    assert (int(all_read.sum()), int(some_read.sum())) == (64, 216)
    assert int(source["look_fields_read"].ne("").sum()) == 252
    assert stock[stock["class"] == "commonly stocked"]["region"].value_counts().to_dict() == {
        "North America": 66,
        "Europe": 39,
        "Australia and New Zealand": 20,
    }
    assert int(looked["sold_as_hue"].notna().sum()) == 64
    common = set(
        stock.query("`class` == 'commonly stocked' and region in ('North America', 'Europe')")[
            "species_id"
        ]
    )
    hues = looked[looked["species_id"].isin(common)]["heartwood_hue_basis"].value_counts()
    assert hues.to_dict() == {CHECKED: 70, SECOND_HAND: 1, UNCHECKED: 22}


@pytest.mark.parametrize(
    ("cell", "named", "row", "expected"),
    [
        ("texture", ["texture"], CHECKED, CHECKED),
        ("texture", ["texture"], SECOND_HAND, SECOND_HAND),
        ("texture", ["texture"], UNCHECKED, CHECKED),  # the row's basis is that of its hue
        ("texture", ["grain"], CHECKED, UNCHECKED),
        ("heartwood_lightness", [], CHECKED, EDITORIAL),
        ("sold_as_hue", [], UNCHECKED, EDITORIAL),
    ],
)
def test_cell_basis(cell, named, row, expected):
    assert cell_basis(cell, named, row) == expected


def test_citations():
    assert citations("memory") == []
    assert citations(
        "memory; for the cells in look_fields_read: Wood Handbook FPL-GTR-190 (2010), ch. 2, "
        "pp. 2-6 to 2-7; Wood Handbook FPL-GTR-113 (1999), list of hardwoods by size of pores"
    ) == [
        "Wood Handbook FPL-GTR-190 (2010), ch. 2, pp. 2-6 to 2-7",
        "Wood Handbook FPL-GTR-113 (1999), list of hardwoods by size of pores",
    ]
    origins = {"citations": {"A book": "book", "A book, second": "second"}}
    assert publication_of("A book, second edition, p. 3", origins) == "second"
    with pytest.raises(KeyError, match="Another"):
        publication_of("Another book", origins)


def write(folder, name, header, *rows):
    lines = [header, *rows]
    (folder / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def test_a_row_of_no_wood_is_rejected_cell_by_cell(tmp_path, source):
    one = source[source["species_id"].isin(["acer-rubrum", "abies-alba"])]
    columns = [c for c in one.columns if c not in ("source_table", "source_line")]
    words = {UNCHECKED: "memory", CHECKED: "seen", "common_practice": "common practice"}
    one[columns].replace(words).to_csv(tmp_path / "looks.csv", index=False)
    made = looks(Woods("acer-rubrum"), read_origins(), tmp_path)
    assert made.tables["looks"]["species_id"].tolist() == ["acer-rubrum"]
    fir = one[one["species_id"] == "abies-alba"].iloc[0]
    filled = [c for c in (*LOOK_CELLS, *STOCK_COLUMNS, "principal_uses") if fir[c]]
    assert made.rejected["source_column"].tolist() == filled
    assert set(made.rejected["reason"]) == {"no wood of the dataset is abies-alba"}
    assert set(made.tables["stock"]["species_id"]) == {"acer-rubrum"}


def test_a_cell_said_to_be_read_but_empty_is_an_error(tmp_path, source):
    one = source[source["species_id"] == "abies-alba"].drop(columns=["source_table", "source_line"])
    one = one.assign(
        look_fields_read="workability",
        look_basis="memory",
        uses_basis="memory",
        stock_basis="common practice",
    )
    one.to_csv(tmp_path / "looks.csv", index=False)
    with pytest.raises(ValueError, match=r"line 2: read, but empty: \['workability'\]"):
        looks(Woods("abies-alba"), read_origins(), tmp_path)


def test_names_that_mean_no_wood_are_rejected(tmp_path, frames):
    write(
        tmp_path,
        "resemblances",
        "wood,like,page,what_print_compares,edition,basis",
        'ashtree,teak,2-1,color,"FPL-GTR-190 (2010), ch. 2",seen',
    )
    write(
        tmp_path,
        "plain_names",
        "name,region,means,candidates,note,basis",
        "ash,Europe,ashtree,,,common practice",
        "oak,Europe,,white oak; northern red oak,,common practice",
        "hickory,North America,true hickory,,,common practice",
    )
    made = called(frames["names"], frames["looks"], read_origins(), tmp_path)
    assert made.tables["resemblances"].empty
    plain = made.tables["plain_names"]
    assert plain["name"].tolist() == ["oak", "hickory"]
    assert plain["group_name"].fillna("").tolist() == ["", "true hickory"]
    assert plain["species_id"].isna().all()
    reasons = made.rejected["reason"].unique().tolist()
    assert reasons == ["no one wood of the dataset goes by ashtree"]
    assert len(made.rejected) == 6


def test_plain_names_mean_one_thing_each(frames):
    plain = frames["plain_names"]
    assert not (plain["species_id"].notna() & plain["group_name"].notna()).any()
    asked = plain[plain["means"].isna()]
    assert asked["species_id"].isna().all()
    assert plain.loc[plain["means"].notna(), "candidates"].isna().all()
    keys = set(frames["names"]["name_key"]) | set(plain["name_key"])
    for text in plain["candidates"].dropna():
        assert {fold(c) for c in text.split("; ")} <= keys
    meant = plain.set_index(["name_key", "region"])["species_id"]
    assert meant["walnut", "North America"] == "juglans-nigra"
    assert meant["walnut", "Europe"] == "juglans-regia"


def test_printed_resemblances(frames):
    alike = frames["resemblances"]
    assert len(alike) == 24
    assert set(alike["basis"]) == {CHECKED}
    assert set(alike["source_id"]) == {"wood-handbook-2010"}
    roble = alike[alike["wood"] == "roble"].iloc[0]
    assert (roble["species_id"], roble["like_species_id"]) == ("tabebuia-spp-roble", "quercus-alba")


def test_trade_names_of_the_list_lead_to_their_woods(frames):
    """A wood the tables know by its botanical name alone answers to the name it is listed by."""
    names = frames["names"]
    mine = names[names["source_table"] == "looks.csv"]
    assert len(mine) > 50
    assert set(mine["basis"]) == {EDITORIAL}
    assert mine["name_key"].is_unique
    counts = names.groupby("name_key")["species_id"].nunique()
    assert (counts[mine["name_key"]] == 1).all()


def test_a_wood_goes_by_the_name_it_is_listed_by(frames):
    """Common name and listed name are one, but where the listed one means another wood too, or
    has a remark that tells it from one."""
    names, woods = frames["names"], frames["species"].set_index("species_id")
    meant = names.groupby("name_key")["species_id"].agg(set)
    unlike = []
    for r in frames["looks"].itertuples():
        common = woods.loc[r.species_id, "common_name"]
        if fold(common) == fold(r.listed_name):
            continue
        unlike.append(common)
        assert "(" in r.listed_name or meant[fold(r.listed_name)] != {r.species_id}
    assert len(unlike) < 20
    assert woods.loc["cercidiphyllum-japonicum", "common_name"] == "katsura"


def test_stock_classes_are_those_declared(frames):
    enum = next(f.enum for f in STOCK.fields if f.name == "class")
    assert set(frames["stock"]["class"]) == set(enum)
