"""Hazards and trade controls: what is shown, what is kept, what it says."""

from __future__ import annotations

import pytest
from sources_kit import lost_cells

from pipeline.identify import build_registry
from pipeline.read import read_origins, read_table
from pipeline.schemas import pandera_schema, shaped
from pipeline.sources.cautions import cautions
from pipeline.sources.publications import shortened, slug
from pipeline.sources.wording import CHECK, dust_text, effect_phrase
from woodref.reference.fields import TABLES

TRADE = ["appendix", "annotation", "effective", "products_covered", "finished_furniture_covered"]


@pytest.fixture(scope="module")
def built():
    return cautions(build_registry(), read_origins())


@pytest.fixture(scope="module")
def dust(built):
    return built.cautions[built.cautions["kind"] == "dust"]


@pytest.fixture(scope="module")
def trade(built):
    return built.cautions[built.cautions["kind"] == "trade control"]


def _shown(frame, wood):
    return frame[(frame["species_id"] == wood) & frame["shown"]]


def test_the_frames_fit_their_schemas(built):
    pandera_schema(TABLES["cautions"]).validate(shaped(built.cautions, TABLES["cautions"]))
    pandera_schema(TABLES["sources"]).validate(shaped(built.sources, TABLES["sources"]))


def test_every_cell_arrives(built):
    for file, columns in (("hazards", ["effect", "severity"]), ("trade_regulation", TRADE)):
        raw = read_table(file)
        assert lost_cells(raw, columns, built.cautions, built.rejected) == set()


def test_every_publication_is_known(built):
    known = set(built.sources["source_id"]) | set(read_origins()["publications"])
    assert set(built.cautions["source_id"]) <= known
    # what origins.toml lists already is not listed again
    assert not set(built.sources["source_id"]) & set(read_origins()["publications"])


def test_a_recalled_effect_is_kept_and_never_shown(dust):
    unchecked = dust[dust["basis"] == "unchecked"]
    assert len(unchecked) > 40
    assert not unchecked["shown"].any()
    assert unchecked["text"].str.contains("recalled").all()


def test_a_shown_effect_names_its_document(dust):
    shown = dust[dust["shown"]]
    assert set(shown["basis"]) <= {"checked", "checked_twice", "second_hand"}
    assert all(r["document"] in r["text"] for r in shown.to_dict("records"))


def test_effects_of_leaves_or_bark_are_not_effects_of_dust(dust):
    leaves = dust[dust["effect"].str.contains("from leaves or bark, not wood")]
    assert set(leaves["species_id"]) == {"abies-balsamea", "robinia-pseudoacacia"}
    assert not leaves["shown"].any()
    assert leaves["text"].str.contains("not from the wood or its dust").all()


def test_all_woods_share_the_general_rows(dust):
    general = dust[dust["species_id"] == "*"]
    assert general["shown"].all()
    names = set(general["printed_name"])
    assert {"all wood dust", "hardwood dust", "softwood dust"} <= names
    # IARC Monographs Volume 62 (1995): wood dust is in Group 1
    assert general["severity"].str.contains("Group 1").any()


def test_an_effect_of_a_genus_reaches_its_woods(dust):
    assert len(_shown(dust, "quercus-alba"))
    assert len(_shown(dust, "pseudotsuga-menziesii-interior-west"))
    assert _shown(dust, "thuja-plicata")["text"].str.contains("allergic asthma").any()


def test_a_name_that_may_be_several_woods_is_not_guessed(built):
    unsure = built.rejected[built.rejected["reason"].str.contains("not certain")]
    assert {"sensitizer; pneumonitis or alveolitis; sites: skin, respiratory tract"} <= set(
        unsure["printed_value"]
    )


def test_trade_controls_say_what_a_maker_needs(trade):
    for row in trade.to_dict("records"):
        text = row["text"]
        assert text.endswith(CHECK)
        assert row["effect"] in text
        assert "finished furniture: " in text
        assert (row["effective"] in text) if row["effective"] else ("date not recorded" in text)
        unchecked = row["basis"] == "unchecked"
        known = "recalled, not seen in print" if unchecked else row["basis"].replace("_", " ")
        assert f"({known})" in text


# CITES Appendices: Brazilian rosewood stands in Appendix I, the rest of its genus in II
def test_a_genus_listing_leaves_out_what_is_listed_otherwise(trade):
    assert list(_shown(trade, "dalbergia-nigra")["effect"]) == ["CITES Appendix I"]
    assert list(_shown(trade, "dalbergia-latifolia")["effect"]) == ["CITES Appendix II"]
    assert list(_shown(trade, "dalbergia-cochinchinensis")["severity"]) == ["#4"]
    # a recalled row of its own gives way to the genus that lists it alike, and is kept
    assert list(_shown(trade, "dalbergia-retusa")["basis"]) == ["checked"]
    assert len(trade[trade["species_id"] == "dalbergia-retusa"]) == 2


def test_a_listing_of_populations_is_shown_for_woods_from_there(trade):
    assert len(_shown(trade, "pterocarpus-soyauxii")) == 1
    for elsewhere in ("pterocarpus-macrocarpus", "diospyros-virginiana"):
        kept = trade[trade["species_id"] == elsewhere]
        assert len(kept) == 1
        assert not kept["shown"].any()
        assert kept["text"].str.contains("outside the listed populations").all()


def test_a_listed_species_of_a_wood_sold_by_genus_is_said_to_be_one_of_them(trade):
    bubinga = _shown(trade, "guibourtia-spp")
    assert len(bubinga) == 3
    assert bubinga["text"].str.contains("One of the species sold as bubinga").all()
    assert trade[trade["species_id"] == "guibourtia-ehie"].empty


def test_the_import_declaration_is_for_all_woods(trade):
    every = trade[trade["species_id"] == "*"]
    assert list(every["effect"]) == ["Lacey Act"]


@pytest.mark.parametrize(
    ("effect", "phrase"),
    [
        ("sensitizer", "can cause allergy"),
        ("irritant (skin)", "irritates (skin)"),
        ("carcinogen", "can cause cancer"),
        ("direct toxin", "is poisonous"),
        ("nose bleeds", "nose bleeds reported"),
    ],
)
def test_effect_phrase(effect, phrase):
    assert effect_phrase(effect) == phrase


def test_dust_text_is_one_sentence():
    row = {
        "name": "iroko",
        "effect": "irritant; asthma; sites: eyes, skin",
        "severity": "no potency printed; incidence common",
        "source": "Some Sheet (1990)",
        "basis": "checked",
    }
    assert dust_text(row) == (
        "Iroko: irritates, asthma reported (eyes, skin); incidence common; according to "
        "Some Sheet (1990)."
    )


def test_citations_become_identifiers():
    assert slug("IARC Monographs, Volume 100C (2012)") == "iarc-monographs-volume-100c-2012"
    long = "A title of very many words, which goes on and on, and on beyond all measure, 1999"
    assert len(slug(long)) <= 64
    assert not slug(long).endswith("-")
    assert shortened(long) == "A title of very many words, which goes on and on (1999)"
    assert shortened("Wood (with very much said of it, in parentheses, and at length) " * 2) == (
        "Wood (with very much said of it, in parentheses, and at length) Wood ..."
    )
    assert shortened(f"Hard, soft and {'middling ' * 9}woods") == (
        "Hard, soft and middling middling middling middling middling middling ..."
    )
    assert shortened("A short one, 1999") == "A short one, 1999"
