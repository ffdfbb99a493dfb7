"""A place by name, with state or country, misspelt, or by coordinates."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.reference.library import Reference
from woodref.reference.place_names import fold_place, fold_region
from woodref.reference.places import (
    ATTRIBUTION,
    AmbiguousPlaceError,
    UnknownPlaceError,
    coordinates,
    find_place,
    kilometers,
    nearest_places,
    weather_of,
)


@pytest.fixture(scope="module")
def reference():
    return Reference()


@pytest.mark.parametrize(
    ("text", "place_id"),
    [
        ("Duluth", "duluth-minnesota"),
        ("duluth, mn", "duluth-minnesota"),
        ("Portland, Maine", "portland-maine"),
        ("PORTLAND ME", "portland-maine"),
        ("Portland Oregon", "portland-oregon"),
        ("Portland, Oregon, USA", "portland-oregon"),
        ("St Louis", "saint-louis-missouri"),
        ("Saint Paul", "minneapolis-saint-paul-minnesota"),
        ("New York", "new-york-central-park-new-york"),
        ("Washington, DC", "washington-national-district-of-columbia"),
        ("Columbus, Ohio", "columbus-ohio"),
        ("Athens, GA", "athens-georgia"),
        ("Athens, Greece", "athens-greece"),
        ("Sao Paulo", "sao-paulo-brazil"),
        ("São Paulo", "sao-paulo-brazil"),
        ("Copenhagen", "kobenhavn-denmark"),
        ("København", "kobenhavn-denmark"),
        ("London, England", "london-united-kingdom"),
        ("La Paz, Mexico", "la-paz-mexico"),
        ("Victoria, British Columbia", "victoria-canada"),
        ("San Juan, Puerto Rico", "san-juan-puerto-rico"),
    ],
)
def test_names(reference, text, place_id):
    assert find_place(reference, text).place_id == place_id


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("Portland", ("'Portland, Maine'", "'Portland, Oregon'")),
        ("Columbus", ("'Columbus, Georgia'", "'Columbus, Ohio'")),
        ("Hyderabad", ("'Hyderabad, India'", "'Hyderabad, Pakistan'")),
    ],
)
def test_several_towns_of_one_name(reference, text, candidates):
    with pytest.raises(AmbiguousPlaceError) as caught:
        find_place(reference, text)
    assert set(caught.value.candidates) == set(candidates)
    for candidate in candidates:
        assert candidate in str(caught.value)
        assert find_place(reference, candidate.strip("'")).label == candidate.strip("'")


def test_a_label_finds_its_own_place(reference):
    places = nearest_places(reference, 0.0, 0.0, limit=1000)
    assert len(places) == 797
    for place in places[::23]:
        found = find_place(reference, place.label)
        assert kilometers(found.latitude, found.longitude, place) < 25.0


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("Dulth", "Duluth, Minnesota"),
        ("Savanah", "Savannah, Georgia"),
        ("Albuqerque", "Albuquerque, New Mexico"),
        ("Portlnad, Maine", "Portland, Maine"),
        ("Portland, Texas", "Portland"),
    ],
)
def test_misspelt_names_get_the_nearest(reference, text, nearest):
    with pytest.raises(UnknownPlaceError) as caught:
        find_place(reference, text)
    assert nearest in "; ".join(caught.value.suggestions)
    assert "\n" not in str(caught.value)


def test_nothing_near_says_so(reference):
    with pytest.raises(UnknownPlaceError, match="check the spelling") as caught:
        find_place(reference, "qqqqqqqq")
    assert caught.value.suggestions == ()


def test_by_coordinates(reference):
    place = find_place(reference, "46.8,-92.1")
    assert place.place_id == "duluth-minnesota"
    assert place.distance_km == pytest.approx(7.5, abs=0.1)
    near = nearest_places(reference, 43.7, -70.3, limit=3)
    assert near[0].place_id == "portland-maine"
    assert [p.distance_km for p in near] == sorted(p.distance_km for p in near)


@pytest.mark.parametrize("text", ["95,3", "10,-181", "-91, 0"])
def test_coordinates_off_the_globe(text):
    with pytest.raises(InputError, match="globe"):
        coordinates(text)


@pytest.mark.parametrize("text", ["", "  ", ","])
def test_an_empty_place(reference, text):
    with pytest.raises(InputError, match="empty"):
        find_place(reference, text)


@given(st.floats(-90, 90), st.floats(-180, 180))
def test_coordinates_are_read_as_written(latitude, longitude):
    text = f"{latitude:.4f},{longitude:.4f}"
    assert coordinates(text) == (float(f"{latitude:.4f}"), float(f"{longitude:.4f}"))


@given(st.text(max_size=40))
def test_any_text_folds_to_plain_words(text):
    key = fold_place(text)
    assert fold_place(key) == key
    assert all(c.isascii() and (c.isalnum() or c == " ") for c in key)


def test_countries_as_people_write_them():
    assert fold_region("USA") == fold_region("United States") == "united states"
    assert fold_region("UK") == "united kingdom"


def test_distance_of_one_degree_along_the_equator(reference):
    """A degree of a great circle is 111.19 km on a sphere of 6371 km."""
    place = find_place(reference, "Quito")
    there = kilometers(place.latitude, place.longitude + 1.0, place)
    assert there == pytest.approx(111.19, abs=0.05)


def test_attribution_goes_with_the_world_and_not_with_the_states(reference):
    assert find_place(reference, "Vienna").attribution == ATTRIBUTION
    assert find_place(reference, "Duluth").attribution == ""


def test_twelve_months(reference):
    months = weather_of(reference, find_place(reference, "Duluth"))
    assert [m.month for m in months] == list(range(1, 13))
    assert months[0].temperature_c == pytest.approx(-12.11, abs=0.01)
    assert months[0].humidity_pct == 74.0


def test_a_town_that_shares_its_name_with_one_out_of_the_tables_is_asked_about(reference):
    with pytest.raises(AmbiguousPlaceError) as caught:
        find_place(reference, "santa fe")
    assert caught.value.candidates == ("'Santa Fe, Argentina'",)
    assert caught.value.unrecorded == ("Santa Fe, New Mexico",)
    for text in ("Santa Fe, Argentina", "Santa Fe Argentina"):
        assert find_place(reference, text).country == "Argentina"
    with pytest.raises(AmbiguousPlaceError, match=r"Illinois' or .*, Massachusetts has no record"):
        find_place(reference, "Springfield")
    assert find_place(reference, "Portland ME").region == "Maine"


def test_every_name_out_of_the_tables_is_out_of_them(reference):
    rows = reference.store.rows("select namesakes from {places} where namesakes is not null")
    names = [name.strip() for r in rows for name in r["namesakes"].split(";")]
    assert len(names) > 30
    for name in names:
        with pytest.raises(UnknownPlaceError):
            find_place(reference, name)
