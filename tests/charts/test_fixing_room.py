"""The room a fixing leaves: the title says the finding, no size below zero is printed."""

import re

import pytest
from seen import assert_readable, words

import woodref
from woodref.charts.figure import svg_text
from woodref.charts.fixing_room import fixing_year, sides_of

IN = 25.4


@pytest.fixture(scope="module")
def room():
    return woodref.season("Columbus, Ohio", "heated house")


def fixing_in(room, kind="floating-panel", wood="black cherry", units="us", **asked):
    ends = room.season.design_pct
    return woodref.fixing(wood, kind, 7.6, ends.low, ends.high, units=units, **asked)


def panel(room, units="us", **sizes):
    return fixing_in(room, units=units, width_mm=14 * IN, **sizes)


def title(figure):
    return " ".join(figure.get_suptitle().split())


def test_the_title_says_what_becomes_of_the_gap(room):
    figure = fixing_year(panel(room, gap=3 / 16 * IN), room, "us")
    seen = assert_readable(figure)
    assert title(figure) == "Your 3/16 in gap closes to 3/32 in by August; it holds"
    assert {"0", "1/32", "3/16", "the panel binds"} <= set(seen)


def test_a_gap_that_is_used_up_is_said_to_bind_and_no_size_is_below_zero(room):
    figure = fixing_year(panel(room, "si", gap=1.0), room, "si")
    seen = assert_readable(figure)
    assert title(figure) == "Your 1 mm gap is used up by May; the panel binds"
    assert "none left" in seen
    assert any(w.endswith("mm too little") for w in seen)
    assert not any(re.search(r"(^|\s)-\d|\d in\b", w) for w in seen)


#: A case of every kind with a travel: what binds there, sizes that hold, sizes that do not.
KINDS = {
    "round-hole": ("screw", {"distance_mm": 228.6}, {"screw": 4.2, "hole": 12.0}, {"hole": 5.0}),
    "slotted-hole": ("screw", {"distance_mm": 228.6}, {"screw": 4.2, "slot": 20.0}, {"slot": 5.0}),
    "breadboard": ("peg", {"width_mm": 900.0}, {"peg": 9.5, "slot": 40.0}, {"slot": 11.0}),
    "button": ("button", {"width_mm": 900.0}, {"gap": 12.0}, {"gap": 1.0}),
    "drawer-bottom": ("bottom", {"width_mm": 450.0}, {"gap": 12.0}, {"gap": 1.0}),
    "drawer-front": ("front", {"width_mm": 200.0}, {"gap": 6.0}, {"gap": 0.5}),
    "floating-panel": ("panel", {"width_mm": 356.0}, {"gap": 5.0, "groove": 12.0}, {"gap": 0.5}),
}


@pytest.mark.parametrize(("kind", "case"), KINDS.items(), ids=KINDS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_kind_of_fixing_says_if_it_holds_and_what_binds(room, kind, case, units):
    what, where, good, bad = case
    for sizes, ending in ((good, "; it holds"), ({**good, **bad}, "used up by")):
        fixing = fixing_in(room, kind, units=units, **where, **sizes)
        figure = fixing_year(fixing, room, units)
        seen = assert_readable(figure)
        assert ending in title(figure)
        assert any(what in w and ("binds" in w or "sticks" in w) for w in seen)
        assert any("at the wettest: " in w for w in seen)


def test_the_sizes_to_make_are_drawn_where_none_is_given(room):
    fixing = fixing_in(room, "slotted-hole", distance_mm=228.6, screw=4.2)
    (swell, shrink) = sides_of(fixing, room)
    made = fixing.needs[0].made_mm("us")
    assert swell.start_mm == shrink.start_mm == pytest.approx((made - 4.2) / 2.0)
    assert swell.worst_mm >= 0.0
    assert title(fixing_year(fixing, room, "us")).endswith("it holds")


def test_the_room_left_is_that_at_the_build_less_the_travel(room):
    fixing = panel(room, gap=5.0, groove=12.0)
    sides = {s.to: s for s in sides_of(fixing, room)}
    swell, shrink = sides["swell"], sides["shrink"]
    assert swell.start_mm == 5.0
    assert swell.worst_mm == pytest.approx(5.0 - fixing.travel.away.high)
    # What is lost to one side is won to the other.
    for a, b in zip(swell.months, shrink.months, strict=True):
        assert a.expected + b.expected == pytest.approx(swell.start_mm + shrink.start_mm)
        assert a.low <= a.expected <= a.high


def test_the_groove_that_is_too_shallow_is_what_binds(room):
    fixing = fixing_in(
        room, "button", width_mm=900.0, gap=6.0, tongue=19.0, groove=13.0, wood="white oak"
    )
    told = title(fixing_year(fixing, room, "us"))
    assert told == "No room before the groove's bottom: the tongue binds"


@pytest.mark.parametrize(("wide", "verdict"), [(60.0, "short enough"), (120.0, "too long")])
def test_a_glued_joint_says_if_it_is_glued_and_what_the_wood_wants(room, wide, verdict):
    figure = fixing_year(fixing_in(room, "glued", distance_mm=wide, units="si"), room, "si")
    seen = assert_readable(figure)
    assert verdict in title(figure)
    assert {"wants to swell", "wants to shrink"} <= {w.strip() for w in seen}


def test_a_held_room_says_why_the_line_is_flat():
    held = woodref.season("Savannah", "humidity-controlled room")
    fixing = fixing_in(held, "button", width_mm=300.0, gap=3.0)
    note = next(w for w in words(fixing_year(fixing, held, "us")) if "flat where" in w)
    assert "the dehumidifier holds the air" in " ".join(note.split())


def test_estimated_figures_keep_their_mark(room):
    figure = fixing_year(fixing_in(room, wood="Honduran rosewood", width_mm=300.0), room, "us")
    assert "in~" in title(figure)
    assert any("~ estimated" in w for w in words(figure))


def test_the_same_question_draws_the_same_bytes(room):
    one, two = (svg_text(fixing_year(panel(room, gap=4.0), room, "us")) for _ in range(2))
    assert one == two
