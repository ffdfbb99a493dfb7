"""Fixings that let wood move: travel, sizes to make, verdicts."""

from dataclasses import replace

import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BARE, BLACK_WALNUT, SUGAR_MAPLE, WHITE_OAK, wood

from woodref.board.movement import movement
from woodref.errors import NoDataError
from woodref.joinery.clearance import first_needs, fixing_of
from woodref.joinery.fit import Check, CheckKey, NeedKey, Verdict
from woodref.joinery.fixing_rules import GLUED_LIMIT_MM
from woodref.joinery.fixing_types import (
    FIXINGS,
    USUAL_ENGAGEMENT_MM,
    FixingError,
    Sizes,
    fixed_line,
    fixing_spec,
    known_kind,
)
from woodref.joinery.hardware import screw_shank
from woodref.joinery.mend import resized
from woodref.joinery.travel import MoistureRange, travel_of
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.trade import practices
from woodref.units import KINDS

YEAR = MoistureRange(8.0, 6.0, 11.0)
INCH = 25.4
DISTANCES = st.floats(20.0, 1500.0)
MOISTURES = st.tuples(st.floats(2.0, 25.0), st.floats(2.0, 25.0), st.floats(2.0, 25.0))


def whole_range(three):
    build, *ends = three
    return MoistureRange(build, min(ends), max(ends))


def check(fixing, key):
    return next(c for c in fixing.checks if c.key is key)


def note(fixing, code):
    return next((n.text for n in fixing.notes if n.code == code), "")


def test_a_wood_without_shrinkage_cannot_be_answered():
    with pytest.raises(NoDataError):
        fixing_of(fixing_spec("glued", distance_mm=50.0), BARE, YEAR)


def test_a_round_hole_and_what_goes_with_it():
    spec = fixing_spec("round-hole", distance_mm=200.0, sizes=Sizes(screw=4.0), units="si")
    f = fixing_of(spec, WHITE_OAK, YEAR)
    most = f.travel.most.high
    hole = f.need(NeedKey.HOLE)
    assert hole.size_mm == pytest.approx(4.0 + 2.0 * most)
    drilled = hole.made_mm("si")
    washer = f.need(NeedKey.WASHER)
    assert washer.size_mm == pytest.approx(drilled + 2.0 * most)
    recess = f.need(NeedKey.RECESS)
    assert recess.size_mm == pytest.approx(washer.made_mm("si") + 2.0 * most)
    assert f.verdict is None
    assert f.worst is None
    inches = fixing_of(replace(spec, units="us"), WHITE_OAK, YEAR)
    inch_washer = inches.need(NeedKey.WASHER).made_mm("us")
    assert inches.need(NeedKey.RECESS).size_mm == pytest.approx(inch_washer + 2.0 * most)


@given(DISTANCES, MOISTURES, st.sampled_from(["us", "si"]))
@SOME
def test_what_is_made_as_told_holds(distance, three, units):
    moisture = whole_range(three)
    plans = {
        "round-hole": (
            ("screw", 4.0),
            {"hole": NeedKey.HOLE, "washer": NeedKey.WASHER, "recess": NeedKey.RECESS},
        ),
        "slotted-hole": (("screw", 4.0), {"slot": NeedKey.SLOT_CENTERED}),
        "breadboard": (("peg", 9.0), {"slot": NeedKey.SLOT_CENTERED}),
        "floating-panel": (
            ("engage", 3.0),
            {"gap": NeedKey.GAP, "groove": NeedKey.GROOVE},
        ),
        "button": (
            ("engage", 3.0),
            {
                "gap": NeedKey.GAP,
                "tongue": NeedKey.TONGUE,
                "groove": NeedKey.GROOVE,
            },
        ),
        "drawer-bottom": (
            ("screw", 4.0),
            {"slot": NeedKey.SLOT_CENTERED, "gap": NeedKey.GAP},
        ),
        "drawer-front": (("spare", 1.0), {"gap": NeedKey.GAP}),
    }
    assert set(plans) | {"glued"} == set(FIXINGS)
    for kind, (first, wanted) in plans.items():
        sizes = Sizes(**dict([first]))
        for size, key in wanted.items():
            spec = fixing_spec(kind, distance_mm=distance, sizes=sizes, units=units)
            made = fixing_of(spec, SUGAR_MAPLE, moisture).need(key).made_mm(units)
            if made is None:
                break  # no bit is that large, and the answer says so
            sizes = replace(sizes, **{size: max(made, 0.0011)})
        else:
            spec = fixing_spec(kind, distance_mm=distance, sizes=sizes, units=units)
            f = fixing_of(spec, SUGAR_MAPLE, moisture)
            assert len(f.checks) >= len(wanted)
            assert f.verdict is Verdict.HOLDS
            assert [c.short_mm for c in f.checks] == [0.0] * len(f.checks)


def test_a_washer_must_still_cover_its_hole():
    sizes = Sizes(screw=4.0, hole=11.0, washer=15.0, recess=24.0)
    spec = fixing_spec("round-hole", distance_mm=200.0, sizes=sizes)
    f = fixing_of(spec, WHITE_OAK, YEAR)
    assert f.travel.most.expected > 2.0
    assert check(f, CheckKey.SHANK_IN_HOLE).ok
    assert check(f, CheckKey.WASHER_IN_RECESS).ok
    cover = check(f, CheckKey.WASHER_OVER_HOLE)
    assert cover.room_mm == 2.0
    assert not cover.ok
    assert f.worst == cover
    assert f.verdict is Verdict.DOES_NOT_HOLD


def test_between_an_average_board_and_one_at_the_high_end():
    c = Check(CheckKey.GAP, "", 2.0, Range(1.8, 1.5, 2.1))
    assert (c.ok, c.ok_expected) == (False, True)
    assert c.short_mm == pytest.approx(0.1)
    assert Check(CheckKey.GAP, "", 2.1, Range(1.8, 1.5, 2.1)).ok
    t = travel_of(WHITE_OAK, 200.0, YEAR)
    gap = (t.away.expected + t.away.high) / 2.0
    spec = fixing_spec("drawer-front", width_mm=200.0, sizes=Sizes(gap=gap))
    assert fixing_of(spec, WHITE_OAK, YEAR).verdict is Verdict.HOLDS_FOR_AVERAGE


def test_a_slot_serves_from_off_its_middle():
    moisture = MoistureRange(10.0, 5.0, 11.0)
    t = travel_of(WHITE_OAK, 300.0, moisture)
    shortest = 4.0 + t.both.high
    spec = fixing_spec("slotted-hole", distance_mm=300.0, sizes=Sizes(screw=4.0, slot=shortest))
    f = fixing_of(spec, WHITE_OAK, moisture)
    assert [c.key for c in f.checks] == [CheckKey.SLOT_OFFSET]
    assert f.verdict is Verdict.HOLDS
    assert f.need(NeedKey.SLOT_OFFSET).size_mm == pytest.approx(shortest)
    assert "away from where the part is fixed" in note(
        f, "slot-offset"
    )  # it shrinks more than it swells
    moving = fixing_spec("drawer-bottom", distance_mm=300.0, sizes=Sizes(screw=4.0))
    off = note(fixing_of(moving, WHITE_OAK, moisture), "slot-offset")
    assert "toward where the part is fixed" in off  # the slot comes along, the screw stays
    even = replace(spec, sizes=Sizes(screw=4.0))
    assert not note(fixing_of(even, WHITE_OAK, MoistureRange(8.0, 6.0, 10.0)), "slot-offset")
    long = replace(spec, sizes=Sizes(screw=4.0, slot=4.0 + 2.0 * t.most.high))
    assert fixing_of(long, WHITE_OAK, moisture).checks[0].key is CheckKey.SLOT_CENTERED


def test_nothing_is_set_off_a_slot_by_a_hair():
    """Where the travel is nearly the same both ways, no remark tells to, and no check counts it."""
    moisture = MoistureRange(8.0, 6.0, 10.1)
    t = travel_of(WHITE_OAK, 300.0, moisture)
    assert 0.0 < abs(t.toward.high - t.away.high) / 2.0 < 0.4
    slot = 4.0 + (t.both.high + 2.0 * t.most.high) / 2.0
    spec = fixing_spec("slotted-hole", distance_mm=300.0, sizes=Sizes(screw=4.0, slot=slot))
    (only,) = fixing_of(spec, WHITE_OAK, moisture).checks
    assert (only.key, only.verdict) == (CheckKey.SLOT_CENTERED, Verdict.HOLDS_FOR_AVERAGE)


def test_off_the_middle_is_told_where_it_serves_better():
    moisture = MoistureRange(10.0, 5.0, 11.0)
    t = travel_of(WHITE_OAK, 300.0, moisture)
    spec = fixing_spec("slotted-hole", distance_mm=300.0)
    for play, key, verdict in (
        (t.both.expected, CheckKey.SLOT_OFFSET, Verdict.HOLDS_FOR_AVERAGE),
        (2.0 * t.most.expected, CheckKey.SLOT_OFFSET, Verdict.HOLDS),
        (2.0 * t.most.high, CheckKey.SLOT_CENTERED, Verdict.HOLDS),
        (t.both.expected * 0.9, CheckKey.SLOT_CENTERED, Verdict.DOES_NOT_HOLD),
    ):
        sizes = Sizes(screw=4.0, slot=4.001 + play)
        (only,) = fixing_of(replace(spec, sizes=sizes), WHITE_OAK, moisture).checks
        assert (only.key, only.verdict) == (key, verdict)


def test_the_weakest_size_decides():
    t = travel_of(WHITE_OAK, 200.0, YEAR)
    gap = (t.away.expected + t.away.high) / 2.0
    for groove, verdict in (
        (100.0, Verdict.HOLDS_FOR_AVERAGE),
        (gap + 1.0, Verdict.DOES_NOT_HOLD),
    ):
        sizes = Sizes(gap=gap, groove=groove)
        spec = fixing_spec("floating-panel", width_mm=400.0, sizes=sizes)
        assert fixing_of(spec, WHITE_OAK, YEAR).verdict == verdict


def test_a_panel_holds_until_its_tongue_leaves_the_groove():
    spec = fixing_spec("floating-panel", width_mm=400.0, sizes=Sizes(gap=4.0, groove=10.0))
    f = fixing_of(spec, WHITE_OAK, YEAR)
    assert spec.distance_mm == 200.0
    left = check(f, CheckKey.TONGUE_LEFT)
    assert left.room_mm == pytest.approx(10.0 - 4.0 - USUAL_ENGAGEMENT_MM)
    assert left.need == f.travel.toward
    shallow = replace(spec, sizes=Sizes(gap=4.0, groove=7.0))
    assert not check(fixing_of(shallow, WHITE_OAK, YEAR), CheckKey.TONGUE_LEFT).ok
    own = replace(spec, sizes=Sizes(gap=4.0, groove=7.0, engage=0.0))
    assert check(fixing_of(own, WHITE_OAK, YEAR), CheckKey.TONGUE_LEFT).ok


def test_a_button_moves_out_and_in():
    sizes = Sizes(gap=3.0, tongue=12.0, groove=13.0)
    f = fixing_of(fixing_spec("button", width_mm=400.0, sizes=sizes), WHITE_OAK, YEAR)
    assert check(f, CheckKey.GAP).room_mm == 3.0
    assert check(f, CheckKey.GAP).need == f.travel.away
    assert check(f, CheckKey.TONGUE_LEFT).room_mm == 12.0 - 3.0 - USUAL_ENGAGEMENT_MM
    assert check(f, CheckKey.TONGUE_BEFORE_BOTTOM).room_mm == 4.0


def test_the_top_stands_proud_of_its_breadboard_end():
    spec = fixing_spec("breadboard", width_mm=1000.0, at_mm=50.0, sizes=Sizes(peg=10.0), units="si")
    f = fixing_of(spec, SUGAR_MAPLE, YEAR)
    assert (spec.distance_mm, spec.edge_mm) == (450.0, 500.0)
    edge = travel_of(SUGAR_MAPLE, 500.0, YEAR)
    words = note(f, "edge-proud")
    up = KINDS["size_up"].text
    assert f"{up(edge.away.high, 'si')} proud" in words
    assert f"{up(edge.toward.high, 'si')} short" in words


@pytest.mark.parametrize(("units", "limit"), [("us", 76.2), ("si", 75.0)])
def test_long_joints_across_the_grain_are_flagged_with_their_strain(units, limit):
    assert GLUED_LIMIT_MM[units] == pytest.approx(limit)
    for length, verdict in ((limit, Verdict.SHORT_ENOUGH), (limit + 0.1, Verdict.TOO_LONG)):
        f = fixing_of(fixing_spec("glued", distance_mm=length, units=units), WHITE_OAK, YEAR)
        assert f.verdict == verdict
        wet = movement(WHITE_OAK, length, 8.0, 11.0)
        assert f.strain_pct == pytest.approx(100.0 * wet.change_mm / length)


def test_rules_of_the_trade_are_those_of_the_table():
    """Common practice, no source."""
    reference = Reference()
    kept = practices(reference, "panels")["panel tongue engagement left in groove at driest"]
    assert kept.low_mm == pytest.approx(USUAL_ENGAGEMENT_MM)
    for kind in FIXINGS.values():
        for topic, rule in kind.rules:
            assert practices(reference, topic)[rule].basis == "common_practice"


@given(st.floats(1.0, 2000.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_distance_lies_within_the_part(width, line, place):
    if abs(line - place) < 1e-3:
        return
    spec = fixing_spec(
        "slotted-hole",
        width_mm=width,
        fixed=f"{line * width:.6f} mm",
        at_mm=place * width,
    )
    assert 0.0 < spec.distance_mm <= width + 1e-5
    assert spec.edge_mm >= spec.distance_mm - 1e-5


def test_what_is_assumed_is_said():
    spec = fixing_spec("slotted-hole", width_mm=400.0)
    assert spec.distance_mm == 200.0
    assert len(spec.assumed) == 2
    assert fixing_spec("slotted-hole", width_mm=400.0, fixed="edge", at_mm=300.0).assumed == ()
    assert fixing_spec("drawer-bottom", width_mm=400.0).distance_mm == 400.0
    assert fixing_spec("drawer-bottom", width_mm=400.0, fixed="center").distance_mm == 200.0
    assert fixing_spec("floating-panel", width_mm=400.0, staves=5).boards == 2
    assert fixing_spec("floating-panel", width_mm=400.0, staves=1).boards == 1


def test_a_fixed_line():
    assert fixed_line("center", "in") is None
    assert fixed_line("edge", "in") == 0.0
    assert fixed_line("2", "in") == 50.8


@pytest.mark.parametrize(
    ("kind", "asked", "key", "words"),
    [
        ("slotted-hole", {"width_mm": 100.0, "fixed": "120 mm"}, "fixed", "outside the part"),
        ("slotted-hole", {"width_mm": 100.0, "at_mm": 120.0}, "at", "outside the part"),
        ("slotted-hole", {"width_mm": 100.0, "distance_mm": 120.0}, "distance", "outside"),
        ("slotted-hole", {"width_mm": 100.0, "fixed": "rim"}, "fixed", "write center, edge"),
        ("slotted-hole", {"width_mm": 100.0, "at_mm": 50.0}, "at", "needs no room"),
        ("slotted-hole", {}, "width", "give the width"),
        ("slotted-hole", {"distance_mm": 9.0, "fixed": "edge"}, "distance", "either"),
        ("slotted-hole", {"distance_mm": 0.0}, "distance", "not above 0"),
        ("slotted-hole", {"width_mm": 1e9}, "width", "not above 0"),
        ("slotted-hole", {"width_mm": 100.0, "staves": 0}, "staves", "1 to 100000 boards"),
        ("slotted-hole", {"sizes": Sizes(washer=9.0)}, "washer", "it takes screw, slot"),
        ("floating-panel", {"width_mm": 100.0, "at_mm": 9.0}, "at", "edge of the part"),
        ("glued", {"sizes": Sizes(gap=1.0)}, "gap", "it takes none"),
        ("round-hole", {"sizes": Sizes(screw=5.0, hole=4.0)}, "hole", "does not go through"),
        ("round-hole", {"sizes": Sizes(hole=9.0, washer=8.0)}, "washer", "falls through"),
        ("round-hole", {"sizes": Sizes(washer=9.0, recess=8.0)}, "recess", "into its recess"),
        ("round-hole", {"sizes": Sizes(screw=5.0, washer=4.0)}, "washer", "over its screw"),
        ("slotted-hole", {"sizes": Sizes(screw=5.0, slot=4.0)}, "slot", "through its slot"),
        ("breadboard", {"sizes": Sizes(peg=9.0, slot=8.0)}, "slot", "through its slot"),
        ("floating-panel", {"sizes": Sizes(gap=9.0, groove=8.0)}, "groove", "does not reach"),
        ("button", {"sizes": Sizes(gap=9.0, tongue=8.0)}, "tongue", "does not reach"),
        ("drawer-front", {"sizes": Sizes(gap=900.0)}, "gap", "outside"),
        ("drawer-front", {"sizes": Sizes(gap=-1.0)}, "gap", "outside"),
    ],
)
def test_mistakes_name_the_size(kind, asked, key, words):
    with pytest.raises(FixingError, match=words) as caught:
        fixing_spec(kind, **asked)
    assert caught.value.key == key
    assert "\n" not in str(caught.value)


def test_a_kind_is_known_by_its_words():
    assert known_kind("Floating panel") == "floating-panel"
    with pytest.raises(FixingError, match="did you mean 'breadboard'") as caught:
        known_kind("bread board")
    assert caught.value.key == "kind"


def test_a_gap_gives_what_is_not_to_be_left_of_it():
    maple = wood("maple", {"shrinkage_radial": 5, "shrinkage_tangential": 9})
    spec = fixing_spec("drawer-front", distance_mm=100.0, sizes=Sizes(gap=2.0, spare=0.5))
    made = fixing_of(spec, maple, YEAR)
    (only,) = made.checks
    assert (only.room_mm, only.need) == (1.5, made.travel.away)


@SOME
@given(
    kind=st.sampled_from([k for k in FIXINGS if k != "glued"]),
    distance=st.floats(50.0, 600.0),
    three=MOISTURES,
    given_mm=st.floats(0.5, 30.0),
)
def test_a_fixing_holds_where_its_room_is_more_than_a_board_at_the_high_end_takes(
    kind, distance, three, given_mm
):
    """The room either way and the verdict say the same."""
    sizes = {
        "round-hole": Sizes(screw=4.0, hole=4.0 + given_mm, washer=40.0, recess=40.0 + given_mm),
        "slotted-hole": Sizes(screw=4.0, slot=4.0 + given_mm),
        "button": Sizes(gap=given_mm / 2, tongue=given_mm + 3.0, groove=given_mm + 4.0),
        "breadboard": Sizes(peg=8.0, slot=8.0 + given_mm),
        "floating-panel": Sizes(gap=given_mm / 3, groove=given_mm + 3.0),
        "drawer-bottom": Sizes(screw=4.0, slot=4.0 + given_mm, gap=given_mm),
        "drawer-front": Sizes(gap=given_mm),
    }[kind]
    spec = fixing_spec(kind, distance_mm=distance, sizes=sizes)
    checked = fixing_of(spec, SUGAR_MAPLE, whole_range(three))
    toward, away = checked.room_mm
    enough = [
        room is None or room >= way.high - 1e-6
        for room, way in ((toward, checked.travel.toward), (away, checked.travel.away))
    ]
    assert all(enough) == (checked.verdict is Verdict.HOLDS)


def test_a_gap_alone_bounds_one_side_and_nothing_given_none():
    panel = fixing_spec("floating-panel", width_mm=400.0, sizes=Sizes(gap=4.0))
    assert fixing_of(panel, SUGAR_MAPLE, YEAR).room_mm == (None, 4.0)
    bare = fixing_spec("floating-panel", width_mm=400.0)
    assert fixing_of(bare, SUGAR_MAPLE, YEAR).room_mm == (None, None)


def test_the_size_to_make_first_by_when_it_is_fitted():
    spec = fixing_spec("floating-panel", width_mm=400.0, sizes=Sizes(gap=4.0))
    dry, wet = first_needs(fixing_of(spec, SUGAR_MAPLE, YEAR), (6.0, 11.0))
    assert (dry.key, wet.key) == (NeedKey.GAP, NeedKey.GAP)
    assert dry.size_mm == travel_of(SUGAR_MAPLE, 200.0, YEAR._replace(build_pct=6.0)).away.high
    assert wet.size_mm == 0.0
    glued = fixing_of(fixing_spec("glued", distance_mm=50.0), SUGAR_MAPLE, YEAR)
    assert first_needs(glued, (6.0, 11.0)) == ()


@pytest.mark.parametrize(
    ("kind", "given_sizes", "asked", "made_in"),
    [
        ("floating-panel", Sizes(), "", "us"),
        ("floating-panel", Sizes(gap=0.5, groove=2.0), "", "us"),
        ("floating-panel", Sizes(), "si", "si"),
        ("floating-panel", Sizes(gap=0.5, groove=2.0), "si", "si"),
        ("drawer-bottom", Sizes(), "", "us"),
        ("drawer-bottom", Sizes(screw=4.0, slot=4.5, gap=0.5), "si", "si"),
    ],
)
def test_sizes_for_another_wood_are_those_of_the_set_asked_for(kind, given_sizes, asked, made_in):
    """Both sizes of each kind, in the steps of the asked set, else of the fixing's own."""
    spec = fixing_spec(kind, width_mm=400.0, sizes=given_sizes, units="us")
    moisture = MoistureRange(9.0, 5.0, 11.0)  # off the middle: the slot has two sizes to make
    before, after = (fixing_of(spec, w, moisture) for w in (BLACK_WALNUT, SUGAR_MAPLE))
    sizes = resized(before, after, asked)
    assert len(sizes) == 2
    for size in sizes:
        for made_mm in (size.make_mm, *(() if size.given else (size.was_mm,))):
            steps = made_mm / (INCH / 64.0 if made_in == "us" else 0.1)
            assert steps == pytest.approx(round(steps), abs=1e-6)
        assert size.grows


def test_a_size_that_the_first_wood_had_no_bit_for_was_none():
    spec = fixing_spec("round-hole", distance_mm=1800.0, sizes=Sizes(screw=4.0))
    steadier = wood("steadier wood", {"shrinkage_radial": 2.0, "shrinkage_tangential": 4.0})
    before, after = (fixing_of(spec, w, YEAR) for w in (WHITE_OAK, steadier))
    assert note(before, "hole-above-bits")
    hole, washer, _ = resized(before, after)
    assert (hole.was_mm, washer.was_mm) == (None, None)
    assert None not in (hole.make_mm, washer.make_mm)


def test_how_a_note_is_known():
    spec = fixing_spec("round-hole", distance_mm=100.0, sizes=Sizes(screw=screw_shank(8)))
    basis = {n.code: n.basis for n in fixing_of(spec, WHITE_OAK, YEAR).notes}
    assert (basis["screw-shank"], basis["bit-sizes"]) == ("", "common_practice")
    assert basis["screw-centered"] == ""
    metric = fixing_of(replace(spec, units="si"), WHITE_OAK, YEAR)
    assert "shank of 4.17 mm:" in note(metric, "screw-shank")  # 0.164 in
