"""Janka and Brinell hardness are never taken for each other, by whatever way one asks."""

from __future__ import annotations

import pytest

import woodref
from woodref.reference.library import Reference
from woodref.reference.printed import printed_figures


@pytest.fixture(scope="module")
def brinell_woods():
    rows = woodref.sql(
        "select distinct species_id from measurements where property_id = 'brinell_hardness'"
    )
    return list(rows["species_id"])


def test_no_printed_side_hardness_comes_from_a_brinell_test(brinell_woods):
    figures = printed_figures(Reference(own=False), brinell_woods, "side_hardness")
    assert figures
    assert {f.value.property_id for f in figures} == {"side_hardness"}
    assert not any(f.measurement_id.startswith("brinell_flooring") for f in figures)


def test_a_wood_with_brinell_hardness_alone_has_no_side_hardness(brinell_woods):
    woods = woodref.sql("select species_id, side_hardness_n from species").set_index("species_id")
    janka = set(
        woodref.sql(
            "select distinct species_id from measurements where property_id = 'side_hardness'"
        )["species_id"]
    )
    alone = [w for w in brinell_woods if w not in janka]
    assert alone
    assert woods.loc[alone, "side_hardness_n"].isna().all()


def test_both_hardnesses_of_a_wood_keep_their_units():
    wood = Reference(own=False).wood("black cherry")
    janka, brinell = wood.value("side_hardness"), wood.value("brinell_hardness", "unstated")
    assert janka is not None
    assert brinell is not None
    # Wood Handbook Table 5-3b: 950 lbf; a list of flooring woods: 3.6, by its size kgf/mm2
    assert (janka.property_id, janka.printed) == ("side_hardness", "950 lbf")
    assert janka.value == pytest.approx(950 * 4.448222, rel=1e-6)
    assert brinell.value == pytest.approx(35.3, abs=0.05)


def test_a_mean_printed_with_its_range_is_no_midpoint():
    wood = Reference(own=False).wood("black cherry")
    brinell = wood.value("brinell_hardness", "unstated")
    assert brinell is not None
    assert brinell.printed_low is not None
    assert not brinell.is_midpoint
    # one list prints 34-41 for European oak and no mean
    oak = Reference(own=False).wood("European oak").value("brinell_hardness", "unstated")
    assert oak is not None
    assert oak.is_midpoint
