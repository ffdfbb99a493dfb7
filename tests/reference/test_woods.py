"""Values pooled over the members of a group."""

import re
from math import sqrt
from statistics import fmean, variance

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.reference.library import Reference
from woodref.reference.woods import Value, Wood, group_of, pooled


def value(number, sd=None, basis="checked", source="a table"):
    return Value("side_hardness", "12pct", number, "N", sd, basis, source, f"{number} N")


FIGURES = st.lists(
    st.tuples(st.floats(500.0, 15000.0), st.floats(10.0, 3000.0)), min_size=2, max_size=12
)


@given(FIGURES)
def test_mean_and_root_of_within_and_between(figures):
    found = pooled([value(x, sd) for x, sd in figures])
    within = fmean(sd * sd for _, sd in figures)
    between = variance([x for x, _ in figures])
    assert found.value == pytest.approx(fmean(x for x, _ in figures))
    assert found.sd == pytest.approx(sqrt(within + between))
    assert found.between_sd == pytest.approx(sqrt(between), abs=1e-6)
    assert (found.printed_low, found.printed_high) == (min(figures)[0], max(x for x, _ in figures))
    assert found.members == len(figures)


def test_by_hand():
    # within: (10^2 + 20^2)/2 = 250; between: (50^2 + 50^2)/1 = 5000; root of 5250.
    found = pooled([value(100.0, 10.0), value(200.0, 20.0)])
    assert found.value == 150.0
    assert found.sd == pytest.approx(72.4569, abs=1e-4)


def test_one_member_stays_itself_and_none_is_an_error():
    one = value(100.0, 10.0)
    assert pooled([one]) is one
    with pytest.raises(ValueError, match="no values"):
        pooled([])


def test_a_mean_is_as_weak_as_its_weakest_member_and_names_every_source():
    found = pooled(
        [value(1.0, 0.1), value(2.0, 0.1, "unchecked", "b"), value(3.0, 0.1, "checked_twice")]
    )
    assert found.unchecked
    assert found.source == "a table; b"


def test_likely_range_of_single_boards():
    low, high = value(100.0, 10.0).likely
    assert (low, high) == pytest.approx((100 - 16.4485, 100 + 16.4485), abs=1e-3)
    assert value(100.0).likely is None
    assert value(100.0, 90.0).likely[0] == 0.0


def member(name, kind, **values):
    held = {(p, "12pct"): v for p, v in values.items()}
    return Wood(name, name, f"Arbor {name}", "Fagaceae", kind, "", "", "partial", values=held)


def test_a_group_holds_what_any_member_has():
    a = member("a", "hardwood", side_hardness=value(100.0, 10.0))
    b = member("b", "hardwood")
    group = group_of("g", "both", (a, b))
    assert group.is_group
    assert group.species_ids == ("a", "b")
    assert group.kind == "hardwood"
    assert group.value("side_hardness").value == 100.0
    assert group.note == "a trade group of 2 woods: a, b"


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ("hardness", "no property is called 'hardness'; did you mean 'side_hardness'?"),
        ("Janka", "did you mean 'side_hardness'"),
        ("side_hardnes", "did you mean 'side_hardness'"),
        ("looks", "woodref.PROPERTIES lists them"),
    ],
)
def test_an_unknown_property_is_refused_with_the_nearest(asked, message):
    wood = Reference().wood("sugar maple")
    with pytest.raises(InputError, match=re.escape(message)):
        wood.value(asked)
    with pytest.raises(InputError, match=re.escape(message)):
        wood.estimate(asked)


def test_an_unknown_condition_is_refused():
    with pytest.raises(InputError, match="no condition is called 'dry'; use green, 12pct"):
        Reference().wood("sugar maple").value("side_hardness", "dry")
