"""Printed classes: the right wood, the right scale, nothing lost."""

from __future__ import annotations

import pytest
from sources_kit import lost_cells

from pipeline.identify import build_registry
from pipeline.read import read_origins, read_table
from pipeline.schemas import pandera_schema, shaped
from pipeline.sources.ratings import footnote_flag, ratings
from woodref.reference.fields import TABLES

CLASS_COLUMNS = {
    "decay_resistance": ["class"],
    "gluing": ["class"],
    "finishing": [
        "paintability_latex",
        "earlywood_latewood_transition",
        "latewood_over_one_third_of_ring",
        "heartwood_color",
        "pore_class",
    ],
    "machining": [c for c in read_table("machining").columns if c.endswith("_pct")],
}


@pytest.fixture(scope="module")
def built():
    return ratings(build_registry(), read_origins())


def _classes(frame, wood, scale):
    mine = frame[(frame["species_id"] == wood) & frame["scale"].str.startswith(scale)]
    return {(r["edition"], r["class"]) for r in mine.to_dict("records")}


def test_the_frame_fits_its_schema(built):
    pandera_schema(TABLES["ratings"]).validate(shaped(built[0], TABLES["ratings"]))


@pytest.mark.parametrize("file", list(CLASS_COLUMNS))
def test_every_class_arrives(built, file):
    assert lost_cells(read_table(file), CLASS_COLUMNS[file], *built) == set()


def test_footnotes_and_conditions_stay_with_their_class(built):
    frame, rejected = built
    for file in ("decay_resistance", "gluing"):
        for row in read_table(file).to_dict("records"):
            if not row["footnote"]:
                continue
            mine = frame[
                (frame["source_table"] == f"{file}.csv")
                & (frame["source_line"] == row["source_line"])
            ]
            refused = rejected[
                (rejected["source_table"] == f"{file}.csv")
                & (rejected["source_line"] == row["source_line"])
                & (rejected["source_column"] == "footnote")
            ]
            assert (len(mine) and set(mine["footnote"]) == {row["footnote"]}) or len(refused) == 1


def test_a_scale_is_of_one_edition(built):
    assert built[0].groupby("scale")["edition"].nunique().max() == 1
    assert built[0].groupby("scale")["source_table"].nunique().max() == 1


def test_decay_scales_keep_their_own_classes(built):
    decay = built[0][built[0]["source_table"] == "decay_resistance.csv"]
    classes = decay.groupby("scale")["class"].nunique()
    assert sorted(classes) == [3, 3, 4]


# FPL-0153 (1967) and Table 14-1 of FPL-GTR-190 (2010), the latter from memory
def test_decay_of_known_woods(built):
    frame = built[0]
    assert _classes(frame, "robinia-pseudoacacia", "decay") == {
        ("FPL-0153 (1967)", "Resistant or very resistant"),
        ("NAVFAC MO-312 (Wood Protection)", "Resistant or Very Resistant"),
        ("FPL-GTR-190 (2010)", "Very resistant"),
    }
    assert ("FPL-0153 (1967)", "Slightly or nonresistant") in _classes(
        frame, "acer-saccharum", "decay"
    )
    # white oaks are resistant, red oaks are not
    assert ("FPL-GTR-190 (2010)", "Resistant") in _classes(frame, "quercus-alba", "decay")
    assert ("FPL-0153 (1967)", "Slightly or nonresistant") in _classes(
        frame, "quercus-rubra", "decay"
    )


def test_a_domestic_genus_does_not_rate_european_woods(built):
    for wood in ("fraxinus-excelsior", "pinus-sylvestris", "acer-pseudoplatanus"):
        assert _classes(built[0], wood, "decay") == set()


def test_other_pines_are_those_without_a_row_of_their_own(built):
    assert _classes(built[0], "pinus-palustris", "decay") == {
        ("FPL-0153 (1967)", "Moderately resistant"),
        ("NAVFAC MO-312 (Wood Protection)", "Moderately Resistant"),
        ("FPL-GTR-190 (2010)", "Moderately resistant"),
    }


def test_woods_of_one_genus_keep_their_own_rows(built):
    frame = built[0]
    assert _classes(frame, "shorea-spp-balau", "ease of bonding") == {
        ("FPL-GTR-190 (2010)", "Bond with difficulty")
    }
    assert _classes(frame, "shorea-spp-light-red-meranti", "ease of bonding") == {
        ("FPL-GTR-190 (2010)", "Bond well")
    }
    assert _classes(frame, "tabebuia-spp-roble", "ease of bonding") == {
        ("FPL-GTR-190 (2010)", "Bond easily")
    }
    assert _classes(frame, "tabebuia-spp-lapacho", "ease of bonding") == {
        ("FPL-GTR-190 (2010)", "Bond with difficulty")
    }


def test_the_slipped_footnote_is_not_shown_and_its_class_is(built):
    frame, rejected = built
    young = frame[
        (frame["printed_name"] == "Baldcypress (young growth)")
        & (frame["edition"] == "FPL-0153 (1967)")
    ]
    assert list(young["class"]) == ["Moderately resistant"]
    assert list(young["footnote"]) == [""]
    assert list(young["condition"]) == ["young growth"]
    slips = rejected[rejected["reason"].str.contains("slip of the footnote mark")]
    assert list(zip(slips["source_line"], slips["source_column"], strict=True)) == [
        (72, "footnote")
    ]


def test_footnote_flag_is_a_rule():
    slip = {"footnote": "exceptionally high decay resistance", "class": "Moderately resistant"}
    assert footnote_flag(slip)
    assert not footnote_flag({**slip, "class": "Resistant or Very Resistant"})
    assert not footnote_flag({**slip, "footnote": "more resistant than its class"})


def test_machining_is_a_share_of_pieces(built):
    # Table 3-8 of FPL-GTR-113 (1999), from memory: red alder planes perfect in 61 %
    row = built[0][
        (built[0]["species_id"] == "alnus-rubra")
        & (built[0]["source_column"] == "planing_perfect_pct")
    ].iloc[0]
    assert (row["share_pct"], row["basis"], row["for_group"]) == (61.0, "unchecked", False)
    others = built[0][built[0]["source_table"] != "machining.csv"]
    assert others["share_pct"].isna().all()


def test_measured_columns_of_finishing_are_left_alone(built):
    columns = set(built[0].loc[built[0]["source_table"] == "finishing.csv", "source_column"])
    assert columns == set(CLASS_COLUMNS["finishing"])
