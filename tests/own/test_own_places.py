"""Air of the shop's own: a place is kept whole, twelve months or two seasons, or not at all."""

import pytest

from woodref.climate.seasons import two_seasons
from woodref.own.intake import take_in
from woodref.reference.library import Reference
from woodref.reference.places import UnknownPlaceError, find_place, weather_of

HEAD = "place,month,temperature,humidity_pct\n"


def months(place, numbers=range(1, 13), humidity="60"):
    return "".join(f"{place},{n},10C,{humidity}\n" for n in numbers)


def add(reference, table, text):
    return take_in(reference, table(HEAD + text), "places", "logger")


def reasons(found):
    return {(b.line, b.column): b.reason for b in found.bad}


def test_a_missing_month_is_named(reference, table):
    found = add(reference, table, months("Here") + months("There", [1, 2, *range(4, 12)]))
    assert (found.rows, found.kept) == (22, 12)
    assert {b.reason for b in found.bad} == {
        "the place lacks March, December; give all twelve months"
    }


@pytest.mark.parametrize(
    ("row", "column", "words"),
    [
        ("Here,12,10C,160", "humidity_pct", "must be 0 to 100 %"),
        ("Here,12,10C,-1", "humidity_pct", "must be 0 to 100 %"),
        ("Here,12,10C,damp", "humidity_pct", "is not a number"),
        ("Here,12,warm,60", "temperature", "is not a temperature"),
        ("Here,12,900C,60", "temperature", "-60 to 60 C"),
        ("Here,13,10C,60", "month", "is not a month"),
        ("Here,11,10C,60", "month", "more than once"),
        ("Here,winter,10C,60", "month", "mixes months with winter and summer"),
    ],
)
def test_a_place_with_one_bad_row_is_rejected_whole(reference, table, row, column, words):
    """In whatever spelling of its name the other months stand."""
    found = add(reference, table, months("HERE", range(1, 12)) + row + "\n")
    assert (found.rows, found.kept) == (12, 0)
    assert words in reasons(found)[13, column]


def test_two_seasons_become_twelve_months(reference, table):
    """The same months as those of `season --winter 66F,30% --summer 76F,60%`."""
    found = add(reference, table, "Mill Loft,winter,66F,30\nmill loft,Summer,76F,60\n")
    assert (found.rows, found.kept) == (2, 2)
    place = find_place(Reference(), "MILL LOFT")
    expected = two_seasons((18.88888889, 30.0), (24.44444444, 60.0))
    for got, wanted in zip(weather_of(Reference(), place), expected, strict=True):
        assert got.month == wanted.month
        assert got.temperature_c == pytest.approx(wanted.temperature_c)
        assert got.humidity_pct == pytest.approx(wanted.humidity_pct)
    assert "cosine" in place.note


@pytest.mark.parametrize("halves", [("south", "South"), ("south", ""), ("", "SOUTH")])
def test_the_winter_of_a_southern_place_is_in_july(reference, table, halves):
    """The same months as those of `season ... --southern`, which either row may say."""
    head = HEAD.strip() + ",hemisphere\n"
    text = f"Wharf Loft,winter,46F,75,{halves[0]}\nWharf Loft,summer,68F,60,{halves[1]}\n"
    taken = take_in(reference, table(head + text), "places", "logger")
    assert (taken.rows, taken.kept) == (2, 2)
    place = find_place(Reference(), "wharf loft")
    got = weather_of(Reference(), place)
    wanted = two_seasons((70.0 / 9.0, 75.0), (20.0, 60.0), southern=True)
    for month, other in zip(got, wanted, strict=True):
        assert month.temperature_c == pytest.approx(other.temperature_c)
        assert month.humidity_pct == pytest.approx(other.humidity_pct)
    assert min(got, key=lambda m: m.temperature_c).month == 7


@pytest.mark.parametrize(
    ("halves", "words"), [(("south", "north"), "one hemisphere"), (("down", ""), "north or south")]
)
def test_a_place_lies_in_one_hemisphere(reference, table, halves, words):
    head = HEAD.strip() + ",hemisphere\n"
    text = f"Loft,winter,46F,75,{halves[0]}\nLoft,summer,68F,60,{halves[1]}\n"
    taken = take_in(reference, table(head + text), "places", "logger")
    assert taken.kept == 0
    assert words in reasons(taken)[2, "hemisphere"]


def test_one_season_is_not_enough(reference, table):
    found = add(reference, table, "Mill Loft,winter,66F,30\n")
    assert "winter and summer both" in reasons(found)[2, "month"]


def test_of_many_records_the_one_added_last_holds(reference, table):
    """The eleventh goes after the ninth and the tenth, though its name sorts before theirs."""
    for humidity in range(40, 51):
        add(reference, table, months("Here", humidity=str(humidity)))
    place = find_place(Reference(), "here")
    assert {m.humidity_pct for m in weather_of(Reference(), place)} == {50.0}


def test_a_misspelt_own_place_is_offered(reference, table):
    add(reference, table, months("Quiet Valley"))
    with pytest.raises(UnknownPlaceError, match="nearest: Quiet Valley"):
        find_place(Reference(), "Quiet Vally")
    with pytest.raises(UnknownPlaceError) as caught:
        find_place(Reference(own=False), "Quiet Valley")
    assert "Quiet Valley" not in caught.value.suggestions
