"""Lumber sizes, the lifting limit and cautions of the packaged dataset."""

import pytest

from woodref.reference.bases import in_words
from woodref.reference.cautions import ALL_WOODS, cautions_for
from woodref.reference.library import Reference
from woodref.reference.trade import dressed_thicknesses, lifting_limit


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_dressed_thicknesses(reference):
    # NHLA Rules for the Measurement and Inspection of Hardwood and Cypress, standard
    # thicknesses: rough, and surfaced two sides.
    inches = {
        s.nominal: (s.rough_mm / 25.4, s.dressed_mm / 25.4) for s in dressed_thicknesses(reference)
    }
    for nominal, rough, dressed in (
        ("4/4", 1.0, 13 / 16),
        ("5/4", 1.25, 1 + 1 / 16),
        ("6/4", 1.5, 1 + 5 / 16),
        ("8/4", 2.0, 1.75),
        ("12/4", 3.0, 2.75),
    ):
        assert inches[nominal] == pytest.approx((rough, dressed))
    rough = [s.rough_mm for s in dressed_thicknesses(reference)]
    assert rough == sorted(rough)


def test_lifting_limit(reference):
    # NIOSH Publication 94-110, Revised Lifting Equation: load constant 23 kg.
    assert lifting_limit(reference).mass_kg == 23.0


def test_cautions_of_a_wood_come_after_those_of_all_woods(reference):
    found = cautions_for(reference, ["fraxinus-americana"])
    general = [c for c in found if c.species_id == ALL_WOODS]
    assert found[: len(general)] == tuple(general)
    assert {c.species_id for c in found[len(general) :]} == {"fraxinus-americana"}
    assert any(c.kind == "dust" for c in general)
    assert cautions_for(reference, []) == tuple(general)


def test_a_dust_effect_from_memory_is_never_shown(reference):
    ids = [r["species_id"] for r in reference.store.rows("select species_id from {species}")]
    shown = cautions_for(reference, ids)
    assert len({c.species_id for c in shown}) > 20
    assert not [c for c in shown if c.kind == "dust" and c.basis == "unchecked"]
    assert all(c.document for c in shown)


def test_a_trade_control_says_its_date_basis_and_to_check(reference):
    ids = [r["species_id"] for r in reference.store.rows("select species_id from {species}")]
    controls = [c for c in cautions_for(reference, ids) if c.kind == "trade control"]
    assert controls
    for c in controls:
        assert "check the current listing" in c.text
        said = {"unchecked": "recalled, not seen in print"}.get(c.basis, in_words(c.basis))
        assert said in c.text
