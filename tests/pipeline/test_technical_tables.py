"""Technical tables against a few printed cells, their woods and towns, and what must be refused."""

from __future__ import annotations

import shutil

import pandas as pd
import pytest

from pipeline.identify import build_registry
from pipeline.read import SOURCES, read_origins
from pipeline.schemas import shaped, validate
from pipeline.sources.climate import climate
from pipeline.sources.technical_rows import (
    printed_ends,
    printed_number,
    printed_range,
    specific_gravity_function,
)
from pipeline.sources.technical_tables import FACT_FILES, technical_tables
from woodref.reference.fields import TABLES

ORIGINS = read_origins()


@pytest.fixture(scope="module")
def registry():
    return build_registry()


@pytest.fixture(scope="module")
def places():
    return climate(ORIGINS).places


@pytest.fixture(scope="module")
def built(registry, places):
    return technical_tables(ORIGINS, registry, places)


def row(frame, **where):
    for column, value in where.items():
        frame = frame[frame[column] == value]
    assert len(frame) == 1
    return frame.iloc[0]


def test_the_frames_fit_their_schemas(built):
    validate({name: shaped(frame, TABLES[name]) for name, frame in built[0].items()})


def test_nothing_is_rejected(built):
    assert built[1].empty


@pytest.mark.parametrize(
    ("text", "value"),
    [("1/6", 1 / 6), ("2-1/2", 2.5), ("0.667", 0.667), ("1.6e-7", 1.6e-7), ("15 / 19", None)],
)
def test_printed_numbers(text, value):
    assert printed_number(text) == (pytest.approx(value) if value is not None else None)


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("6-8", (6, 8)),
        ("1e3 to 1e4", (1000, 10000)),
        ("at least 10", (10, None)),
        ("up to 90", (None, 90)),
        ("0.2 or less", (None, 0.2)),
        ("8-6", (None, None)),
        ("L/144", (None, None)),
    ],
)
def test_printed_ends(text, ends):
    assert printed_ends(text) == ends


def test_a_range_that_runs_down_is_none():
    assert printed_range("8-6") is None


def test_printed_cells(built):
    frames = built[0]
    # Wood Handbook, Table 8-1, p. 8-2: a 10d common nail; Table 8-9, p. 8-12: an 8-gauge screw
    nail = row(frames["fasteners"], kind="bright common wire nail", size="10d")
    assert (nail["length_mm"], nail["diameter_mm"], nail["gauge"]) == (76.2, 3.76, "9")
    assert row(frames["fasteners"], kind="wood screw shank", size="8")["diameter_in"] == 0.164
    # Wood Handbook, Table 8-12, p. 8-14: 33 % more at a penetration of four diameters
    lag = frames["lag_screw_factors"]
    shank = row(lag, adjustment="unthreaded shank in the main member", argument_value=4.0)
    assert shank["factor"] == pytest.approx(1.33)
    # Table 8-11: 0.65 for a shank of 1/2 in.
    assert row(lag, printed_argument_in="1/2")["factor"] == 0.65
    # Wood Handbook FPL-GTR-190 (2010), Table 12-1, p. 12-2: particleboard, range of products
    panel = row(frames["panels"], material="particleboard", property="modulus_of_elasticity")
    assert (panel["value_low"], panel["value_high"]) == (2760.0, 4140.0)
    assert (panel["printed_value"], panel["printed_value_us"]) == ("2.76-4.14", "0.40-0.60")
    # Wood Handbook FPL-GTR-190 (2010), Table 13-1, p. 13-4
    phoenix = row(frames["outdoor_moisture"], city="Phoenix", month=6)
    assert phoenix["emc_pct"] == 4.6
    # Architectural Woodwork Standards (2009), 4.4.14.10.13.1: 46 in. under 50 lb/ft2
    shelves = frames["shelf_lengths"]
    oak = shelves[shelves["material"].str.contains("oak lumber")]
    shelf = row(oak, printed_thickness_in="3/4", load_lb_ft2=50.0)
    assert shelf["longest_mm"] == pytest.approx(46 * 25.4)
    assert shelf["thickness_mm"] == pytest.approx(19.05)


def test_facts_keep_the_words_beside_the_number(built):
    facts = built[0]["facts"]
    assert set(facts["subject"]) == set(FACT_FILES.values())
    pilot = row(facts, topic="screw lead hole", item="hardwoods")
    assert (pilot["value"], pilot["unit"]) == (90.0, "% of root diameter")
    target = facts[facts["item"].str.startswith("hardwood and softwood lumber for furniture")].iloc[
        0
    ]
    assert (target["value_low"], target["value_high"], target["printed_value"]) == (6, 8, "6-8")


def test_a_group_printed_as_one_wood_stands_for_its_members(built):
    ratios = built[0]["elastic_ratios"]
    oak = ratios[ratios["printed_name"] == "Oak, red"]
    assert "quercus-rubra" in set(oak["species_id"])
    assert oak["for_group"].all()
    assert oak["et_el"].eq(0.082).all()
    cherry = row(ratios, species_id="prunus-serotina")
    assert not cherry["for_group"]
    # Wood Handbook FPL-GTR-190 (2010), Table 5-1, p. 5-2
    assert (cherry["er_el"], cherry["glr_el"]) == (0.197, 0.147)


def test_every_city_is_a_place_but_one_without_a_station(built):
    outdoor = built[0]["outdoor_moisture"]
    without = outdoor[outdoor["place_id"].isna()]
    assert set(zip(without["region_code"], without["city"], strict=True)) == {("SC", "Charleston")}
    assert set(outdoor.loc[outdoor["city"] == "Seattle-Tacoma", "place_id"]) == {
        "seattle-washington"
    }


def test_a_function_without_its_exponent_gives_nothing_to_compute_from(built):
    functions = built[0]["specific_gravity_functions"]
    lost = functions[functions["exponent"].isna()]
    assert set(lost["edition"]) == {"FPL-GTR-190 (2010)"}
    assert lost["coefficient"].isna().all()
    assert lost["printed_coefficient"].ne("").all()
    assert functions.loc[functions["exponent"].notna(), "coefficient"].notna().all()


def test_a_function_in_an_unknown_unit_is_refused():
    printed = {
        "property": "Modulus of rupture",
        "condition": "green",
        "kind": "softwood",
        "unit": "bar",
        "coefficient": "1",
        "exponent": "1",
    }
    with pytest.raises(KeyError, match="bar"):
        specific_gravity_function(printed, "modulus_of_rupture", ORIGINS)


def changed(folder, name, change):
    """The sources in another folder, one table changed."""
    shutil.copytree(SOURCES, folder, dirs_exist_ok=True)
    raw = pd.read_csv(SOURCES / f"{name}.csv", dtype=str, keep_default_na=False)
    change(raw).to_csv(folder / f"{name}.csv", index=False)
    return folder


def test_a_wood_nobody_knows_is_rejected_with_its_cells(tmp_path, registry, places):
    def unknown(raw):
        raw.loc[0, ["name", "botanical"]] = ["Nowood", "Nullus nullus"]
        return raw

    frames, rejected = technical_tables(
        ORIGINS, registry, places, changed(tmp_path, "elastic_ratios", unknown)
    )
    assert set(rejected["source_column"]) == {"et_el", "er_el", "glr_el", "glt_el"}
    assert set(rejected["source_line"]) == {2}
    assert "Nowood" not in set(frames["elastic_ratios"]["printed_name"])


@pytest.mark.parametrize(
    ("column", "text", "message"),
    [
        ("printed_name", "ebony wood", "no row of panel_properties.csv says 'ebony wood'"),
        ("targets", "nullus-nullus", "'nullus-nullus' is neither a wood nor a trade group"),
        ("targets", "group:nothing", "'group:nothing' is neither"),
    ],
)
def test_a_named_wood_must_be_named_and_known(tmp_path, registry, places, column, text, message):
    def wrong(raw):
        raw.loc[0, column] = text
        return raw

    with pytest.raises(ValueError, match=message):
        technical_tables(ORIGINS, registry, places, changed(tmp_path, "woods_named", wrong))


def test_a_short_word_is_not_found_inside_a_longer_one(built):
    """'ash' is no part of 'wash', 'oak' none of 'oaks'."""
    named = built[0]["woods_named"]
    for (file, words), rows in named.groupby(["source_table", "printed_name"]):
        text = (SOURCES / file).read_text(encoding="utf-8").splitlines()
        for line in set(rows["source_line"]):
            assert words in text[line - 1]
    steam = named[(named["source_table"] == "steam_bending_facts.csv")]
    assert steam.groupby("source_line")["printed_name"].nunique().max() == 11
