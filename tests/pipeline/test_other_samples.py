"""Samples that stand beside a wood's own: Canadian strengths, Brinell hardness of flooring."""

from __future__ import annotations

import pytest

from pipeline.measurements import parse_printed
from pipeline.read import read_table
from pipeline.scatter import fit

CANADIAN = ("strength_canadian_si.csv", "strength_canadian_us.csv")


@pytest.fixture(scope="module")
def m(frames):
    return frames["measurements"]


@pytest.fixture(scope="module")
def canadian(m):
    return m[m["source_table"].isin(CANADIAN)]


def test_every_canadian_row_arrives_as_a_sample_of_canada(canadian):
    assert set(canadian["grown_in"]) == {"Canada"}
    assert set(canadian["printed_table"]) == {"5-4a", "5-4b"}
    rows = sum(len(read_table(t.removesuffix(".csv"))) for t in CANADIAN)
    assert canadian.groupby(["source_table", "source_line"]).ngroups == rows == 108


def test_only_canadian_rows_say_where_they_grew(m):
    assert set(m.loc[m["grown_in"].notna(), "source_table"]) == set(CANADIAN)


def test_canadian_samples_give_way_to_those_of_the_united_states(m, canadian):
    """A Canadian figure is used only where no other sample prints one that is sound."""
    keys = ["species_id", "property_id", "condition"]
    others = m[m["grown_in"].isna() & m["plausibility_flag"].isna()]
    with_another = set(others[keys].itertuples(index=False, name=None))
    used = set(canadian.loc[canadian["preferred"], keys].itertuples(index=False, name=None))
    assert not used & with_another
    reasons = canadian.loc[canadian["plausibility_flag"].isna(), "preference"].value_counts()
    assert reasons["samples of the United States before those of another country"] > 500


def test_a_figure_of_the_united_states_stays_where_canada_prints_another(m):
    """Quaking aspen, green elasticity: 0.86 million psi in Table 5-3b, 9 000 MPa in 5-4a."""
    rows = m[
        (m["species_id"] == "populus-tremuloides")
        & (m["property_id"] == "modulus_of_elasticity")
        & (m["condition"] == "green")
    ]
    used = rows[rows["preferred"]].iloc[0]
    assert (used["printed_value"], used["printed_table"]) == ("0.86", "5-3b")
    assert 9000.0 in set(rows.loc[~rows["preferred"], "value"])


def test_two_countries_are_told_apart_from_two_publications(frames):
    differing = frames["disagreements"]
    sides = differing[["preferred_id", "other_id"]]
    canadian = sides.apply(lambda ids: ids.str.startswith("strength_canadian")).sum(axis=1) == 1
    assert set(differing.loc[canadian, "between"]) == {"sample"}
    assert "sample" not in set(differing.loc[~canadian, "between"])


def test_canadian_cells_have_their_counterparts(canadian):
    numbers = canadian[canadian["property_id"] != "basic_specific_gravity"]
    assert numbers["unit_counterpart_id"].notna().all()
    by_id = canadian.set_index("measurement_id")["species_id"]
    paired = numbers["unit_counterpart_id"].map(by_id)
    assert (paired == numbers["species_id"]).all()


def test_a_line_needs_twenty_woods():
    assert fit([(0.5, 100.0)] * 19) is None


@pytest.mark.parametrize(
    ("text", "parsed"),
    [
        ("3.6 (1.7-6.2)", (3.6, 1.7, 6.2)),
        ("23-42", (32.5, 23.0, 42.0)),
        ("26", (26.0, None, None)),
        ("3.6 (3.7-6.2)", None),
        ("about 3", None),
    ],
)
def test_a_mean_with_its_range(text, parsed):
    assert parse_printed(text) == parsed


@pytest.fixture(scope="module")
def flooring(m):
    return m[m["source_table"] == "brinell_flooring.csv"]


def test_flooring_hardness_is_brinell_and_nothing_else(m, flooring):
    assert set(flooring["property_id"]) == {"brinell_hardness"}
    assert "brinell_flooring.csv" not in set(
        m.loc[m["property_id"] == "side_hardness", "source_table"]
    )


def test_a_printed_mean_keeps_its_ends(flooring):
    """American cherry of one list: 3.6 (1.7 to 6.2), unit by its size kgf/mm2, 9.80665 N each."""
    cherry = flooring[
        (flooring["species_id"] == "prunus-serotina") & flooring["value_low"].notna()
    ].iloc[0]
    assert cherry["printed_value"] == "3.6 (1.7-6.2)"
    assert cherry["value"] == pytest.approx(35.30, abs=0.01)
    assert cherry["value_low"] == pytest.approx(16.67, abs=0.01)
    assert cherry["value_high"] == pytest.approx(60.80, abs=0.01)


def test_a_unit_told_by_size_gives_way_to_a_printed_one(flooring):
    oak = flooring[
        (flooring["species_id"] == "quercus-robur-petraea") & (flooring["condition"] == "unstated")
    ]
    by_size = oak[oak["printed_unit"].str.startswith("not printed")]
    assert len(by_size) == 1
    assert not by_size["preferred"].any()
    assert set(by_size["preference"]) == {"a printed unit"}


@pytest.fixture(scope="module")
def own_tests(m):
    """Brinell hardness of the maker who prints it at two moisture contents."""
    own = m["source_id"].eq("holzeigenschaften-flooring-maker-test-page")
    return m[own & m["property_id"].eq("brinell_hardness")]


def test_a_list_of_hardness_at_two_moisture_contents_stands_once(own_tests):
    """21 woods, each at 10 and at 7 %, harder the drier; Douglas-fir from the United States."""
    by_wood = own_tests.pivot(index="species_id", columns="moisture_content_pct", values="value")
    assert by_wood.shape == (21, 2)
    assert by_wood.notna().all(axis=None)
    assert (by_wood[7.0] > by_wood[10.0]).all()
    assert by_wood.loc["pseudotsuga-menziesii-coast"].to_dict() == {7.0: 22.0, 10.0: 20.0}


def test_two_moisture_contents_of_one_list_do_not_disagree(frames, own_tests):
    beech = own_tests[own_tests["species_id"] == "fagus-sylvatica"]
    dry = beech[beech["moisture_content_pct"] == 7.0].iloc[0]
    assert dry["preference"] == "printed at another moisture content"
    assert dry["measurement_id"] not in set(frames["disagreements"]["other_id"])


def test_one_range_printed_for_three_woods_is_no_sample_of_one(m):
    """Tasmanian oak: 675 to 770 kg/m3 of mountain ash, alpine ash and messmate together."""
    shared = m[m["printed_value"].eq("675-770") & m["property_id"].eq("density_12pct")]
    assert set(shared["sample"]) == {"the three species of Tasmanian oak together"}
    assert len(shared) == 3
    # The changes per 1 % of those rows are each of one species.
    lines = m["source_line"].isin(shared["source_line"]) & m["source_table"].isin(
        shared["source_table"]
    )
    changes = m.loc[lines & m["property_id"].str.startswith("change_per")]
    assert len(changes) == 6
    assert changes["sample"].isna().all()


def test_a_genus_is_rejected_with_its_reason(frames):
    rejected = frames["rejected"]
    mine = rejected[rejected["source_table"] == "brinell_flooring.csv"]
    # Hickory, birch, pine and elm of no named kind.
    assert len(mine) == 4
    assert set(mine["reason"]) == {
        "a genus, no single wood",
        "printed for a trade group (hickory), whose members have rows of their own",
        "printed for a trade group (birch), whose members have rows of their own",
    }
