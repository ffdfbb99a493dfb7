"""Joints whose parts move against each other: offsets, room to leave, what is refused."""

import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BLACK_WALNUT, SUGAR_MAPLE, WHITE_OAK

from woodref.board.movement import movement
from woodref.errors import InputError
from woodref.joinery.clearance import fixing_of
from woodref.joinery.fit import NeedKey
from woodref.joinery.fixing_types import fixing_spec
from woodref.joinery.joint_types import JOINTS, JointKind, Way, joint_spec, known_joint
from woodref.joinery.joints import NOT_COVERED, joint_of, joint_through_year
from woodref.joinery.travel import MoistureRange
from woodref.reference.bases import COMMON_PRACTICE

YEAR = MoistureRange(8.0, 6.0, 11.0)
KINDS = tuple(JointKind)


def joint(kind, width_mm, wood=WHITE_OAK, moisture=YEAR, **said):
    return joint_of(joint_spec(kind, width_mm, **said), wood, moisture)


def shrunk(wood, width_mm, to_pct, **how):
    """What a width loses from 8 % on, below zero where it swells."""
    return width_mm - movement(wood, width_mm, 8.0, to_pct, **how).after_mm


def test_a_miter_opens_inside_dry_and_outside_damp():
    fitted, dry, wet = joint(JointKind.MITER, 75.0).states
    assert (fitted.way, dry.way, wet.way) == (Way.STILL, Way.OPEN_INSIDE, Way.OPEN_OUTSIDE)
    assert joint(JointKind.MITER, 75.0).needs == ()
    # The diagonal of a square as wide as what one member lost.
    lost = shrunk(WHITE_OAK, 75.0, 6.0)
    assert dry.offset.expected == pytest.approx((lost**2 + lost**2) ** 0.5)
    assert fitted.cut_angle.expected == pytest.approx(45.0)
    assert dry.cut_angle.expected < 45.0 < wet.cut_angle.expected
    for state in (dry, wet):
        assert state.opening.expected == pytest.approx(90.0 - 2.0 * state.cut_angle.expected)
        for figure in (state.offset, state.cut_angle, state.opening):
            assert figure.low < figure.expected < figure.high
        # The gap is of two boards, which share part of their spread; a cut is of one.
        assert state.opening.high - state.opening.low < 2.0 * (
            state.cut_angle.high - state.cut_angle.low
        )


def test_a_wide_tenon_is_glued_in_part_and_has_room_for_the_rest():
    wide = joint(JointKind.TENON, 150.0, units="si")
    assert wide.spec.glued_mm == 75.0  # common practice, no source
    assert wide.states[1].offset.expected == pytest.approx(-shrunk(WHITE_OAK, 150.0, 6.0))
    # From the middle of what is glued to the far edge.
    wet = movement(WHITE_OAK, 112.5, 8.0, 11.0)
    swells = wet.likely_mm.high - 112.5
    assert wide.need(NeedKey.GAP).size_mm == pytest.approx(swells)
    assert wide.need(NeedKey.SLOT_CENTERED).size_mm == pytest.approx(2.0 * swells)
    middle = joint(JointKind.TENON, 150.0, units="si", fixed="center")
    assert middle.need(NeedKey.GAP).size_mm == pytest.approx(swells * 75.0 / 112.5)
    narrow = joint(JointKind.TENON, 60.0, units="si")
    assert (narrow.spec.glued_mm, narrow.needs) == (60.0, ())
    assert narrow.states[2].way is Way.WIDER


def test_where_it_is_fixed_is_said_where_it_is_taken_for_granted():
    def assumed(kind, width_mm=150.0, **said):
        return {n.code for n in joint(kind, width_mm, **said).notes} & {"assumed-fixed-line"}

    for kind in (JointKind.TENON, JointKind.DOWEL, JointKind.BREADBOARD):
        assert assumed(kind)
        assert not assumed(kind, fixed="center")
    assert not assumed(JointKind.MITER)
    assert not assumed(JointKind.TENON, 50.0)  # all of it is glued


def test_a_tenon_is_glued_within_its_width_wherever_it_is_fixed():
    far = joint(JointKind.TENON, 150.0, units="si", fixed="140 mm")
    assert far.spec.distance_mm == 112.5  # 75 mm are glued, from the far edge on
    hardly_wider = joint(JointKind.TENON, 75.5, units="si")
    assert {n.key for n in hardly_wider.needs} == {NeedKey.GAP, NeedKey.SLOT_CENTERED}


def test_a_bare_place_where_it_is_fixed_is_in_the_units_of_the_joint():
    assert joint_spec(JointKind.DOWEL, 300.0, fixed="30", units="si").distance_mm == 270.0
    assert joint_spec(JointKind.DOWEL, 300.0, fixed="2", units="us").distance_mm == 249.2


def test_only_an_edge_strip_has_a_core():
    assert joint(JointKind.TENON, 100.0).core is None
    assert joint(JointKind.VENEER, 20.0).core is None
    assert joint(JointKind.VENEER, 20.0, core=BLACK_WALNUT).core is not None


def test_members_may_be_as_wide_as_any_joint():
    wide = joint_spec(JointKind.MITER, 5000.0, other_width_mm=5000.0)
    assert wide.other.width_mm == 5000.0
    thin = joint_spec(JointKind.MITER, 0.5, other_width_mm=0.6)
    assert (thin.width_mm, thin.other.width_mm) == (0.5, 0.6)


def test_outer_dowels_travel_from_the_fixed_one():
    middle, edge = (joint(JointKind.DOWEL, 300.0, fixed=f) for f in ("center", "edge"))
    assert middle.states[1].offset.expected == pytest.approx(-shrunk(WHITE_OAK, 150.0, 6.0))
    assert edge.states[1].offset.expected == pytest.approx(2.0 * middle.states[1].offset.expected)
    assert [s.way for s in middle.states] == [Way.STILL, Way.NEARER, Way.FARTHER]
    needed = middle.need(NeedKey.SLOT_CENTERED).size_mm
    assert needed == pytest.approx(2.0 * middle.states[2].offset.high)


def test_an_edge_strip_stands_over_both_faces_by_half_its_change():
    steady = joint(JointKind.VENEER, 20.0)
    assert steady.states[1].offset.expected == pytest.approx(-shrunk(WHITE_OAK, 20.0, 6.0) / 2.0)
    assert [s.way for s in steady.states] == [Way.STILL, Way.BELOW, Way.PROUD]
    on_walnut = joint(JointKind.VENEER, 20.0, core=BLACK_WALNUT, core_ring_angle_deg=90.0)
    core = shrunk(BLACK_WALNUT, 20.0, 6.0, ring_angle_deg=90.0)
    offset = on_walnut.states[1].offset
    assert offset.expected == pytest.approx((core - shrunk(WHITE_OAK, 20.0, 6.0)) / 2.0)
    alone = steady.states[1].offset
    assert offset.high - offset.low > alone.high - alone.low
    same = joint(JointKind.VENEER, 20.0, core=WHITE_OAK).states[1]
    assert same.way is Way.STILL
    assert same.offset.low < 0.0 < same.offset.high
    assert "core-steady" in {n.code for n in steady.notes}
    assert "core-steady" not in {n.code for n in on_walnut.notes}


def test_a_breadboard_end_stands_out_by_what_its_pegs_must_let_through():
    panel = joint(JointKind.BREADBOARD, 1000.0, SUGAR_MAPLE, staves=8)
    pegs = fixing_of(fixing_spec("breadboard", width_mm=1000.0, staves=8), SUGAR_MAPLE, YEAR)
    _, dry, wet = panel.states
    assert [*dry.offset] == pytest.approx([*pegs.travel.toward])
    assert [*wet.offset.unsigned] == pytest.approx([*pegs.travel.away])
    assert (dry.way, wet.way) == (Way.END_OUT, Way.PANEL_OUT)


@given(st.sampled_from(KINDS), st.floats(15.0, 900.0), st.floats(3.0, 25.0), st.floats(0.1, 3.0))
@SOME
def test_nothing_moves_unless_the_moisture_does_and_twice_as_wide_moves_twice(kind, w, mc, more):
    still = joint(kind, w, moisture=MoistureRange(mc, mc, mc))
    assert all(s.offset.expected == 0.0 and s.way is Way.STILL for s in still.states)
    if kind is JointKind.MITER:
        assert all(s.opening.expected == pytest.approx(0.0, abs=1e-12) for s in still.states)
    year = MoistureRange(mc, mc - more, mc + more)
    one, two = (joint(kind, width, moisture=year) for width in (w, 2.0 * w))
    for a, b in zip(one.states, two.states, strict=True):
        assert b.offset.expected == pytest.approx(2.0 * a.offset.expected, abs=1e-9)
        assert a.offset.low <= a.offset.expected <= a.offset.high
    _, dry, wet = one.states
    assert dry.offset.expected * wet.offset.expected < 0.0


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_says_what_the_trade_does_and_what_is_left_out(kind):
    notes = joint(kind, 100.0).notes
    assert [n for n in notes if n.basis == COMMON_PRACTICE]
    assert all("common practice" in n.text for n in notes if n.basis == COMMON_PRACTICE)
    assert notes.count(NOT_COVERED) == 1
    assert set(JOINTS) == set(KINDS)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (lambda: known_joint("mitre"), "did you mean 'miter'"),
        (lambda: joint_spec(JointKind.MITER, 0.0), "not above 0"),
        (lambda: joint_spec(JointKind.MITER, 50.0, fixed="edge"), "--fixed does not go"),
        (lambda: joint_spec(JointKind.DOWEL, 50.0, core=WHITE_OAK), "--core does not go"),
        (lambda: joint_spec(JointKind.DOWEL, 50.0, fixed="90mm"), "lies outside"),
        (lambda: joint_spec(JointKind.DOWEL, 50.0, staves=0), "1 to 100000 boards"),
    ],
)
def test_what_cannot_be_is_one_line(said, words):
    with pytest.raises(InputError, match=words):
        said()


def test_like_members_given_twice_are_the_corner_of_one():
    one = joint(JointKind.MITER, 75.0)
    two = joint(JointKind.MITER, 75.0, other_width_mm=75.0, other_ring_angle_deg=0.0,
                corner_deg=90.0)  # fmt: skip
    assert one.states == two.states
    assert one.states[1].cut_angle == one.states[1].other_cut_angle


def test_unlike_members_open_by_the_angles_that_their_cuts_lose():
    made = joint(JointKind.MITER, 50.0, other=BLACK_WALNUT, other_width_mm=75.0)
    fitted, dry, wet = made.states
    assert fitted.cut_angle.expected == pytest.approx(33.690, abs=1e-3)
    assert fitted.other_cut_angle.expected == pytest.approx(56.310, abs=1e-3)
    assert fitted.opening.expected == pytest.approx(0.0, abs=1e-9)
    for state, way in ((dry, Way.OPEN_INSIDE), (wet, Way.OPEN_OUTSIDE)):
        assert state.way is way
        turned = 90.0 - state.cut_angle.expected - state.other_cut_angle.expected
        assert state.opening.expected == pytest.approx(turned)
        assert state.offset.low < state.offset.expected < state.offset.high
    # Walnut moves less than oak: the corner is more at rest than one of oak alone.
    oak = joint(JointKind.MITER, 50.0, other_width_mm=75.0).states[1]
    assert abs(dry.opening.expected) < abs(oak.opening.expected)


@SOME
@given(
    st.floats(20.0, 150.0),
    st.floats(0.75, 1.3),
    st.floats(40.0, 140.0),
    st.floats(4.0, 7.9),
    st.booleans(),
)
def test_any_corner_opens_inside_as_it_dries(width, ratio, corner, dry_pct, mixed):
    made = joint(
        JointKind.MITER,
        width,
        moisture=MoistureRange(8.0, dry_pct, 12.0),
        other=BLACK_WALNUT if mixed else None,
        other_width_mm=width * ratio,
        corner_deg=corner,
    )
    _, dry, wet = made.states
    assert dry.offset.expected >= 0.0 >= wet.offset.expected
    assert dry.opening.low <= dry.opening.expected <= dry.opening.high


@pytest.mark.parametrize(
    ("kind", "said", "words"),
    [
        (JointKind.TENON, {"corner_deg": 90.0}, "go with miter"),
        (JointKind.MITER, {"corner_deg": 5.0}, "20 to 170 degrees"),
        (JointKind.MITER, {"corner_deg": 150.0, "other_width_mm": 20.0}, "meet in no miter"),
        (JointKind.MITER, {"other_width_mm": 0.0}, "not above 0"),
    ],
)
def test_members_that_meet_in_no_miter_are_refused(kind, said, words):
    with pytest.raises(InputError, match=words):
        joint_spec(kind, 75.0, **said)


def test_the_months_of_a_year_are_the_joint_at_their_moisture():
    made = joint(JointKind.BREADBOARD, 600.0)
    same, dry, wet = joint_through_year(made, [8.0, 6.0, 11.0])
    assert same.way is Way.STILL
    assert dry.offset == made.states[1].offset
    assert wet.offset == made.states[2].offset
