"""Validation of the built dataset: coverage, the written order, known bad cells."""

import pandas as pd
import pytest

from pipeline.quality import woods_in_full, woods_with_a_value
from pipeline.reconcile import corroborate
from pipeline.schemas import validate
from woodref.reference.bases import BASES

KEY = ["species_id", "property_id", "condition"]
RANK = {basis: i for i, basis in enumerate(BASES)}


@pytest.fixture(scope="module")
def m(frames):
    return frames["measurements"]


def cell(m, measurement_id):
    return m.set_index("measurement_id").loc[measurement_id]


def test_published_dataset_fits_its_schemas(frames):
    validate(frames)


def test_coverage(frames):
    assert woods_with_a_value(frames["measurements"]) >= 270
    assert woods_in_full(frames["species"]) >= 155


@pytest.mark.parametrize(
    "species_id",
    [
        "quercus-robur-petraea",
        "fagus-sylvatica",
        "fraxinus-excelsior",
        "juglans-regia",
        "prunus-avium",
        "picea-abies",
        "pinus-sylvestris",
        "larix-decidua",
    ],
)
def test_european_woods_move(frames, species_id):
    wood = frames["species"].set_index("species_id").loc[species_id]
    assert 2.0 < wood["shrinkage_radial_pct"] < wood["shrinkage_tangential_pct"] < 13.0


def test_one_preferred_value_at_most(m):
    assert m[m["preferred"]].groupby(KEY).size().max() == 1


def test_every_sane_stated_group_has_a_preferred_value(m):
    sound = m[m["plausibility_flag"].isna() & m["property_id"].ne("density_unstated")]
    chosen = sound.groupby(KEY)["preferred"].sum()
    # A compiled gravity gives way to a density of the wood itself, of another property.
    gives_way = m.loc[m["preference"].str.startswith("a density of the wood itself"), "species_id"]
    for (species_id, property_id, _), count in chosen[chosen.ne(1)].items():
        assert count == 0
        assert property_id == "basic_specific_gravity"
        assert species_id in set(gives_way)


def test_doubtful_and_unstated_are_never_preferred(m):
    assert not m.loc[m["plausibility_flag"].notna(), "preferred"].any()
    assert not m.loc[m["property_id"].eq("density_unstated"), "preferred"].any()


def test_a_broad_sample_is_never_passed_over_for_a_narrow_one(m):
    narrow = m[m["preferred"] & m["sample"].notna()]
    broad = m[
        m["sample"].isna() & m["plausibility_flag"].isna() & m["property_id"].ne("density_unstated")
    ]
    assert narrow.merge(broad, on=KEY).empty


def test_a_better_basis_wins_among_equals(m):
    """Among broad, sane cells of the handbook's own tables no better known one is passed over."""
    handbook = m[
        m["plausibility_flag"].isna()
        & m["source_table"].str.startswith(("strength_us", "shrinkage_domestic"))
        & m["sample"].isna()
    ]
    best = handbook.assign(rank=handbook["basis"].map(RANK)).groupby(KEY)["rank"].min()
    chosen = handbook[handbook["preferred"]].set_index(KEY)
    rank = chosen["basis"].map(RANK)
    worse = rank[rank > best.reindex(rank.index)]
    # checked instead of checked_twice only where the counterpart prints more digits
    for key in worse.index:
        row = chosen.loc[key]
        assert row["basis"] == "checked"
        counterpart = cell(m, row["unit_counterpart_id"])
        assert counterpart["rounding"] > row["rounding"]


def test_corroboration_names_its_witness(m):
    raised = m[m["basis"].eq("corroborated")]
    assert len(raised)
    assert raised["basis_reason"].str.startswith("repeated by ").all()
    others = m.loc[m["basis"].ne("corroborated"), "basis_reason"].dropna()
    assert others.str.startswith("the mean is lowered").all()  # of the compiled densities


def test_a_witness_repeats_within_printed_rounding(m):
    recalled = {
        "basis": "unchecked",
        "value": 4500.0,
        "rounding": 100.0,
        "source_table": "t_si.csv",
    }
    witness = {"basis": "checked", "rounding": 44.5, "source_table": "t_us.csv"}
    for value, basis in ((4492.7, "corroborated"), (4300.0, "unchecked")):
        cells = pd.DataFrame(
            [
                {**m.iloc[0].to_dict(), **recalled, "measurement_id": "a"},
                {**m.iloc[0].to_dict(), **witness, "measurement_id": "b", "value": value},
            ]
        ).assign(value_low=float("nan"), test_standard="", unit_counterpart_id=["b", "a"])
        assert list(corroborate(cells)["basis"]) == [basis, "checked"]


@pytest.mark.parametrize(
    ("measurement_id", "words"),
    [
        ("strength_us_softwoods_si.csv", "Western white 12pct specific_gravity_12pct"),
        ("strength_imported_us.csv", "Albarco 12pct modulus_of_rupture"),
        ("strength_imported_si.csv", "Albarco 12pct modulus_of_rupture"),
        ("strength_imported_us.csv", "Ilomba 12pct modulus_of_elasticity"),
        ("strength_imported_us.csv", "Pau marfim green modulus_of_elasticity"),
        ("strength_us_hardwoods_si.csv", "Butternut 12pct compression_parallel"),
        ("foreign_woods_other_reports.csv", "Azobe green basic_specific_gravity"),
        ("shrinkage_imported.csv", "Sande range shrinkage_tangential"),
        ("strength_imported_us.csv", "Kempas 12pct modulus_of_rupture"),
    ],
)
def test_known_bad_cells_are_in_doubt(m, measurement_id, words):
    """Bad cells named in the notes of the tables: printed so, and out of sense."""
    name, condition, property_id = words.rsplit(" ", 2)
    rows = m[
        m["source_table"].eq(measurement_id)
        & m["trade_name"].eq(name)
        & m["condition"].eq(condition)
        & m["property_id"].eq(property_id)
    ]
    rows = rows[rows["edition"].str.contains("2010|1984")]
    assert len(rows)
    assert rows["plausibility_flag"].notna().all()


def test_red_spruce_does_not_take_the_hardness_of_black_spruce(m):
    """Table 5-3b prints 340 and 530 lbf for both; the metric table has 1 600 and 2 200 N."""
    red = m[m["species_id"].eq("picea-rubens") & m["property_id"].eq("side_hardness")]
    inch_pound = red[red["printed_unit"].eq("lbf")]
    assert set(inch_pound["printed_value"]) == {"340", "530"}
    assert inch_pound["plausibility_flag"].str.contains("repeats another wood").all()
    assert set(red.loc[red["preferred"], "printed_value"]) == {"1600", "2200"}


def test_a_printed_range_keeps_its_ends(m):
    ash = m[
        m["species_id"].eq("fraxinus-excelsior")
        & m["property_id"].eq("shrinkage_radial")
        & m["printed_value"].eq("4.6-5.0")
    ].iloc[0]
    assert (ash["value_low"], ash["value"], ash["value_high"]) == (4.6, pytest.approx(4.8), 5.0)
    ends = m[m["value_low"].notna()]
    assert ((ends["value_low"] <= ends["value"]) & (ends["value"] <= ends["value_high"])).all()


def test_a_repeating_table_gives_way(m):
    """Sitka spruce: 0.37 of the strength table, not the 0.33 of the table that repeats it."""
    sitka = m[
        m["species_id"].eq("picea-sitchensis") & m["property_id"].eq("basic_specific_gravity")
    ]
    assert sitka.loc[sitka["preferred"], "printed_value"].tolist() == ["0.37"]
    assert "0.33" in sitka["printed_value"].tolist()


def test_baldcypress_shrinkage_comes_from_the_finishing_table(m):
    rows = m[m["species_id"].eq("taxodium-distichum") & m["preferred"]]
    rows = rows[rows["property_id"].isin(["shrinkage_radial", "shrinkage_tangential"])]
    assert set(rows["source_table"]) == {"finishing.csv"}


def test_disagreements_exceed_printed_rounding(frames, m):
    by_id = m.set_index("measurement_id")
    for r in frames["disagreements"].itertuples():
        a, b = by_id.loc[r.preferred_id], by_id.loc[r.other_id]
        assert a["preferred"]
        assert abs(a["value"] - b["value"]) > (a["rounding"] + b["rounding"]) / 2
        assert r.difference_pct == pytest.approx(100 * (b["value"] / a["value"] - 1))


def test_ratings_never_mix_scales(frames):
    ratings = frames["ratings"]
    decay = ratings[ratings["source_table"].eq("decay_resistance.csv")]
    assert decay.groupby("scale")["edition"].nunique().eq(1).all()


def test_dust_from_memory_is_never_shown(frames):
    dust = frames["cautions"][frames["cautions"]["kind"].eq("dust")]
    assert not dust.loc[dust["basis"].eq("unchecked"), "shown"].any()
    assert dust.loc[dust["shown"], "document"].notna().all()


def test_trade_controls_say_what_to_check(frames):
    trade = frames["cautions"][frames["cautions"]["kind"].eq("trade control")]
    shown = trade[trade["shown"]]
    assert len(shown) > 10
    assert shown["text"].str.contains("check the current listing").all()


def test_split_species_have_a_stated_default(frames):
    names = frames["names"]
    for name, species_id in [
        ("douglas fir", "pseudotsuga-menziesii-coast"),
        ("shorea spp", "shorea-spp-dark-red-meranti"),
    ]:
        rows = names[
            names["name_key"].eq(name) & names["name_kind"].isin(["commercial", "botanical"])
        ]
        assert rows["species_id"].tolist() == [species_id]
        assert rows["note"].notna().all()


def test_wide_table_follows_the_measurements(frames, m):
    species = frames["species"].set_index("species_id")
    oak = m[m["species_id"].eq("quercus-alba") & m["preferred"]]
    hardness = oak[oak["property_id"].eq("side_hardness") & oak["condition"].eq("12pct")]
    assert species.at["quercus-alba", "side_hardness_n"] == hardness["value"].item()
    assert pd.isna(species.at["acacia-koa", "side_hardness_n"])
