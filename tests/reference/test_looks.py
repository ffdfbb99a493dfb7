"""How a wood looks, is used and is stocked; woods by their look; plain names by region."""

import pytest

from woodref.errors import AmbiguousNameError, InputError, RegionalNameError
from woodref.reference.library import Reference
from woodref.reference.look_search import find_by_look, wanted_look
from woodref.reference.looks import look_of, looks_of
from woodref.reference.plain_names import by_region

NA, EUROPE, ANZ = "North America", "Europe", "Australia and New Zealand"


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def cherry(reference):
    return looks_of(reference, ["prunus-serotina"])[0]


def test_a_look_says_how_each_cell_is_known(cherry):
    # Wood Handbook FPL-GTR-190 (2010), ch. 2, p. 2-5: reddish-brown heartwood, nearly white
    # sapwood, fine and uniform texture, straight grain, high luster.
    for cell, value in {
        "heartwood_hue": "reddish brown",
        "sapwood": "white",
        "texture": "fine",
        "grain": "straight",
        "luster": "high",
    }.items():
        assert cherry.cells[cell] == (value, "checked")
    assert cherry.cells["heartwood_lightness"].basis == "editorial"
    assert cherry.cells["blunting"].basis == "unchecked"
    assert cherry.value("dries") is None
    assert "p. 2-5" in cherry.source
    assert cherry.unchecked
    assert cherry.stock == {NA: "commonly stocked", EUROPE: "commonly stocked"}
    assert cherry.uses[0] == ("furniture", "checked")


def test_a_group_tells_the_words_of_its_members(reference):
    group = reference.wood("soft maple group")
    look = look_of(reference, group.species_id, group.species_ids)
    members = looks_of(reference, group.species_ids)
    assert len(members) > 2
    words = set(str(look.value("texture")).split(" or "))
    assert words == {m.value("texture") for m in members}
    assert look.stock[NA] == "commonly stocked"
    shared = {u.use for u in look.uses}
    for use in shared:
        assert 2 * sum(use in {u.use for u in m.uses} for m in members) >= len(members)
    assert look_of(reference, "x", ["no-such-wood"]) is None


def test_woods_by_look_hold_what_was_asked(reference):
    wanted = wanted_look(["Reddish  Brown"], pores=["diffuse"], stocked=True, region=EUROPE)
    found = find_by_look(reference, wanted)
    assert len(found.woods) > 2
    for match in found.woods:
        assert match.look.seen["hue"].value == "reddish brown"
        assert match.look.value("pores") == "diffuse"
        assert match.look.stock[EUROPE] == "commonly stocked"


def test_woods_by_look_are_all_there_are(reference):
    """Against a plain reading of the tables."""
    everything = looks_of(
        reference, [r["species_id"] for r in reference.store.rows("select species_id from {looks}")]
    )
    wanted = wanted_look(
        texture=["fine", "medium"], uses=["flooring", "turnery"], lightness=(3, 4), region=NA
    )
    expected = {
        look.species_id
        for look in everything
        if look.value("texture") in ("fine", "medium")
        and {"flooring", "turnery"} <= {u.use for u in look.uses}
        and 3 <= look.seen["lightness"].value <= 4
    }
    found = find_by_look(reference, wanted).woods
    assert {m.wood.species_id for m in found} == expected
    assert len(expected) > 10
    order = ["commonly stocked", "specialty", "seldom", "not in trade"]
    ranks = [order.index(m.look.stock[NA]) for m in found]
    assert ranks == sorted(ranks)


def test_as_sold_goes_before_the_heartwood(reference):
    cream = find_by_look(reference, wanted_look(hue=["cream"], among=["acer-saccharum"]))
    assert [m.wood.common_name for m in cream.woods] == ["sugar maple"]
    brown = find_by_look(reference, wanted_look(hue=["reddish brown"], among=["acer-saccharum"]))
    assert brown.woods == ()


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"hue": ["redish brown"]}, "no hue is called 'redish brown'; nearest: reddish brown"),
        ({"texture": ["xyz"]}, "no texture is called 'xyz'; use fine, medium, coarse, uneven"),
        ({"uses": ["floorings"]}, "nearest: flooring"),
        ({"lightness": (4, 3)}, "lightness runs from 1"),
        ({"lightness": (0, 3)}, "lightness runs from 1"),
        ({"region": "Asia"}, "no region is called 'Asia'"),
    ],
)
def test_a_slip_gets_the_nearest_word(asked, message):
    with pytest.raises(InputError, match=message):
        wanted_look(**asked)


@pytest.mark.parametrize(
    ("name", "region", "species_id"),
    [
        ("walnut", NA, "juglans-nigra"),
        ("walnut", EUROPE, "juglans-regia"),
        ("Walnuts", EUROPE, "juglans-regia"),
        ("oak", EUROPE, "quercus-robur-petraea"),
        ("red oak", NA, "quercus-rubra"),
        ("red oak", EUROPE, "quercus-rubra"),
        ("red oak", "", "quercus-rubra"),
        ("red oak group", NA, "red-oak-group"),
        ("hard maple", NA, "acer-saccharum"),
        ("hard maple group", NA, "hard-maple"),
        ("hickory", NA, "true-hickory"),
        ("hickory group", NA, "hickory"),
        ("redwood", NA, "sequoia-sempervirens-young-growth"),
        ("redwood", EUROPE, "pinus-sylvestris"),
        ("teak", "", "tectona-grandis"),
    ],
)
def test_a_plain_name_means_what_the_yards_of_a_region_mean(name, region, species_id):
    assert Reference(own=False, region=region).wood(name).species_id == species_id


def test_a_plain_name_says_what_was_meant_and_how_to_ask_for_the_group(reference):
    note = reference.wood("red oak").note
    assert "'red oak' is northern red oak in North America (common practice)" in note
    assert "European walnut in Europe" in reference.wood("walnut").note
    assert reference.wood("red oak").trade_name.group == "red oak group"
    assert reference.wood("hickory").trade_name.group == "hickory group"
    assert reference.wood("hickory group").trade_name is None
    assert reference.wood("teak").note == ""
    assert reference.wood("teak").trade_name is None


@pytest.mark.parametrize("name", ["white oak", "red oak", "hickory", "hard maple", "white ash"])
def test_the_group_a_name_offers_has_as_many_woods_as_it_says(reference, name):
    offered = reference.wood(name).trade_name
    assert len(reference.wood(offered.group).members) == offered.woods


@pytest.mark.parametrize("region", ["", ANZ])
def test_a_name_that_differs_by_region_is_refused(region):
    with pytest.raises(RegionalNameError) as caught:
        Reference(own=False, region=region).wood("walnut")
    assert caught.value.meanings == {NA: "black walnut", EUROPE: "European walnut"}
    assert list(caught.value.meanings) == [NA, EUROPE]


@pytest.mark.parametrize("region", [NA, ""])
def test_one_region_does_not_settle_what_is_ambiguous_elsewhere(region):
    """Chestnut is sweet chestnut in Europe; of North America the table says nothing."""
    with pytest.raises(AmbiguousNameError):
        Reference(own=False, region=region).wood("chestnut")


def test_where_none_is_meant_the_candidates_are_named(reference):
    with pytest.raises(AmbiguousNameError) as caught:
        reference.wood("oak")
    assert caught.value.candidates == ("northern red oak", "white oak")
    with pytest.raises(AmbiguousNameError) as caught:
        Reference(own=False, region=EUROPE).wood("mahogany")
    assert "sapele" in caught.value.candidates


def test_regions_stand_in_one_order():
    rows = [{"region": EUROPE, "means": "x"}, {"region": NA, "means": None}]
    assert list(by_region(rows).items()) == [(NA, ""), (EUROPE, "x")]


def test_every_plain_name_leads_somewhere():
    rows = Reference(own=False).store.rows("select * from {plain_names}")
    for row in rows:
        there = Reference(own=False, region=row["region"])
        if not row["means"]:
            with pytest.raises(AmbiguousNameError) as caught:
                there.wood(row["name"])
            for candidate in caught.value.candidates:
                assert there.wood(candidate).species_id
            continue
        wood = there.wood(row["name"])
        if row["species_id"]:
            assert wood.species_id == row["species_id"]
        else:
            assert wood.is_group
            assert wood.common_name == row["group_name"]
