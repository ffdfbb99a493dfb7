"""Boards, squared legs, dowels and panels cut anywhere in the log."""

from cmath import phase
from itertools import pairwise
from math import atan, cos, degrees, hypot, inf, radians, sin

import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BARE, SUGAR_MAPLE, WHITE_OAK, wood

from woodref.board.cross_section import board_section, refuse_inside, round_section
from woodref.board.movement import movement
from woodref.board.outline import FACES, Pith, length_along, line, pith_beside, pith_by_rings
from woodref.board.panel_section import PanelShape, panel_section
from woodref.errors import InputError, NoDataError
from woodref.formulas.spread import Z90

#: A wood that shrinks alike both ways.
EVEN = wood("even wood", {"shrinkage_radial": 6.0, "shrinkage_tangential": 6.0})


def board(side="below", distance=50.0, offset=0.0, size=(250.0, 25.0), moistures=(12.0, 6.0)):
    return board_section(WHITE_OAK, *size, pith_beside(side, distance, offset, *size), *moistures)


def cups(section):
    return {name: face.cup_mm.expected for name, face in section.faces.items()}


def test_a_flat_sawn_board_by_hand():
    """The bark side of a board with the pith straight below: corners and middle worked out."""
    s = board()
    dg = {k: 1.0 - v / 100.0 * 0.6 for k, v in (("r", 5.6), ("t", 10.5))}  # at 12 %
    dry = {k: 1.0 - v / 100.0 * 0.8 for k, v in (("r", 5.6), ("t", 10.5))}  # at 6 %
    out, along = dry["r"] / dg["r"], dry["t"] / dg["t"]
    height, half = 75.0, 125.0  # of the bark side over the pith, and half its width
    r, a = hypot(height, half), atan(half / height)
    corner = (r * out * sin(a * along / out), r * out * cos(a * along / out))
    assert s.faces["top"].after_mm == pytest.approx(2.0 * corner[0], rel=1e-12)
    # Hollow: the corners stand above the middle, which the map leaves on the ray of the pith.
    assert s.faces["top"].cup_mm.expected == pytest.approx(corner[1] - height * out, rel=1e-9)
    assert s.faces["top"].cup_mm.expected > 1.0
    assert s.middle_mm == pytest.approx(25.0 * out, rel=1e-12)


def test_drying_hollows_the_bark_side_and_wetting_the_pith_side():
    dry, wet = board(moistures=(12.0, 6.0)), board(moistures=(6.0, 12.0))
    assert (dry.cupped.name, dry.cupped.side) == ("top", "bark")
    assert (wet.cupped.name, wet.cupped.side) == ("bottom", "pith")
    assert dry.faces["bottom"].cup_mm.expected < 0.0 < dry.faces["top"].cup_mm.expected
    assert wet.faces["top"].cup_mm.expected < 0.0 < wet.faces["bottom"].cup_mm.expected


def test_the_nearer_the_pith_the_more_it_cups():
    found = [board(distance=d).cupped.cup_mm.expected for d in (20.0, 50.0, 200.0, 1000.0)]
    assert found == sorted(found, reverse=True)
    assert board(distance=inf).cupped.cup_mm.expected == pytest.approx(0.0, abs=1e-9)


def test_cup_grows_as_the_square_of_the_width():
    """Of a board far from the pith the faces are arcs of one radius: sagitta w^2 / (8 R)."""
    wide, narrow = (
        board(distance=3000.0, size=(w, 25.0)).cupped.cup_mm.expected for w in (200.0, 100.0)
    )
    assert wide == pytest.approx(4.0 * narrow, rel=0.01)


@given(st.floats(5.0, 400.0), st.floats(-200.0, 200.0))
@FEW
def test_mirrored_boards_have_mirrored_results(distance, offset):
    one, other = board(offset=offset, distance=distance), board(offset=-offset, distance=distance)
    swapped = {"left": "right", "right": "left", "top": "top", "bottom": "bottom"}
    for name, twin in swapped.items():
        a, b = one.faces[name], other.faces[twin]
        assert a.after_mm == pytest.approx(b.after_mm, rel=1e-12)
        assert a.cup_mm.expected == pytest.approx(b.cup_mm.expected, abs=1e-9)
        assert a.cup_mm.low == pytest.approx(b.cup_mm.low, abs=1e-9)
        mirrored = [-z.conjugate() for z in reversed(other.outline[twin])]
        assert list(one.outline[name]) == pytest.approx(mirrored, abs=1e-9)
    assert one.diagonals_mm == pytest.approx(other.diagonals_mm[::-1], rel=1e-12)


def test_the_pith_above_is_the_board_turned_over():
    below, above = board("below", offset=30.0), board("above", offset=-30.0)
    swapped = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
    for name, twin in swapped.items():
        assert below.faces[name].after_mm == pytest.approx(above.faces[twin].after_mm)
        assert below.faces[name].side == above.faces[twin].side
        assert cups(below)[name] == pytest.approx(cups(above)[twin], abs=1e-9)


def test_the_pith_at_the_left_is_the_pith_below_on_edge():
    lying = board("left", 40.0, offset=7.0, size=(200.0, 30.0))
    standing = board("below", 40.0, offset=-7.0, size=(30.0, 200.0))
    turned = {"left": "bottom", "bottom": "right", "right": "top", "top": "left"}
    for name, twin in turned.items():
        assert cups(lying)[name] == pytest.approx(cups(standing)[twin], abs=1e-9)
        assert lying.faces[name].after_mm == pytest.approx(standing.faces[twin].after_mm)


@given(st.floats(0.0, 90.0), st.floats(3.0, 12.0))
@FEW
def test_far_from_the_pith_the_face_moves_as_the_ring_angle_says(angle, to):
    formula = movement(WHITE_OAK, 250.0, 9.0, to, angle).after_mm
    thick = movement(WHITE_OAK, 25.0, 9.0, to, 90.0 - angle).after_mm
    for pith in (pith_by_rings(angle), pith_by_rings(angle, 1e6)):
        s = board_section(WHITE_OAK, 250.0, 25.0, pith, 9.0, to)
        for name, expected in (("top", formula), ("bottom", formula), ("left", thick)):
            assert s.faces[name].after_mm == pytest.approx(expected, rel=1e-4)
            assert s.faces[name].along_mm == pytest.approx(expected, rel=1e-4)


@given(st.sampled_from(["below", "above", "left", "right"]), st.floats(1.0, 300.0))
@FEW
def test_equal_shrinkages_give_no_cup(side, distance):
    pith = pith_beside(side, distance, 13.0, 250.0, 25.0)
    s = board_section(EVEN, 250.0, 25.0, pith, 12.0, 6.0)
    assert list(cups(s).values()) == pytest.approx([0.0] * 4, abs=1e-9)
    assert s.out_of_square_deg == pytest.approx(0.0, abs=1e-9)
    assert s.faces["top"].after_mm == pytest.approx(movement(EVEN, 250.0, 12.0, 6.0).after_mm)


def test_length_along_a_face_is_that_of_its_outline():
    s = board(offset=40.0)
    for name in FACES:
        points = s.outline[name]
        steps = sum(abs(b - a) for a, b in pairwise(points))
        assert s.faces[name].along_mm == pytest.approx(steps, rel=1e-6)
        assert s.faces[name].along_mm >= s.faces[name].after_mm


def test_the_outline_lies_level_and_closed():
    s = board(offset=60.0)
    for name, after in zip(FACES, [*FACES[1:], FACES[0]], strict=True):
        assert s.outline[name][-1] == pytest.approx(s.outline[after][0])
    middles = [(s.outline[n][0] + s.outline[n][-1]) / 2.0 for n in ("left", "right")]
    assert [m.imag for m in middles] == pytest.approx([0.0, 0.0], abs=1e-9)
    assert sum(s.corners_deg) == pytest.approx(360.0)


def test_a_squared_leg_with_diagonal_rings_turns_to_a_diamond():
    s = board_section(WHITE_OAK, 50.0, 50.0, pith_by_rings(45.0), 12.0, 6.0)
    # Straight rings: the diagonal across the rings shrinks radially, the other tangentially.
    across = movement(WHITE_OAK, 50.0 * 2.0**0.5, 12.0, 6.0, 90.0).after_mm
    along = movement(WHITE_OAK, 50.0 * 2.0**0.5, 12.0, 6.0, 0.0).after_mm
    assert s.diagonals_mm == pytest.approx((across, along), rel=1e-12)
    assert s.diagonal_difference_mm.expected == pytest.approx(across - along)
    assert abs(s.out_of_square_deg) == pytest.approx(0.6, abs=0.1)
    sides = [f.after_mm for f in s.faces.values()]
    assert sides == pytest.approx([sides[0]] * 4)


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_a_squared_leg_with_rings_along_a_face_stays_square_cornered(angle):
    s = board_section(WHITE_OAK, 50.0, 50.0, pith_by_rings(angle), 12.0, 6.0)
    assert s.out_of_square_deg == pytest.approx(0.0, abs=1e-9)
    assert s.faces["top"].after_mm != pytest.approx(s.faces["right"].after_mm, rel=1e-3)


def test_a_round_goes_oval():
    r = round_section(WHITE_OAK, 40.0, pith_by_rings(30.0), 12.0, 6.0)
    assert r.widest_mm == pytest.approx(movement(WHITE_OAK, 40.0, 12.0, 6.0, 90.0).after_mm, 1e-5)
    assert r.narrowest_mm == pytest.approx(movement(WHITE_OAK, 40.0, 12.0, 6.0, 0.0).after_mm, 1e-4)
    assert r.oval_mm.low < r.oval_mm.expected < r.oval_mm.high
    near = round_section(WHITE_OAK, 40.0, pith_by_rings(0.0, 60.0), 12.0, 6.0)
    assert near.oval_mm.expected == pytest.approx(r.oval_mm.expected, rel=0.1)


def test_likely_range_of_the_cup_follows_the_rule():
    """First order by hand for a narrow board far from the pith: cup = w^2 (s_t - s_r) / (8 R)."""
    s = board(distance=5000.0, size=(100.0, 20.0))
    t, r = s.shares.tangential, s.shares.radial
    sd_t, sd_r = s.shares.tangential_sd, s.shares.radial_sd
    # 15 % of the shrinkage over 30 points of moisture content with 4 either way.
    a2, f2 = 0.15**2, (4.0 / 30.0) ** 2
    assert sd_t / t == pytest.approx((a2 + f2 + 3.0 * a2 * f2 + 8.0 * f2**2) ** 0.5, rel=1e-9)
    relative = (sd_t**2 + sd_r**2 - 2.0 * 0.5 * sd_t * sd_r) ** 0.5 / (t - r)
    cup = s.cupped.cup_mm
    assert (cup.high - cup.low) / 2.0 == pytest.approx(Z90 * relative * cup.expected, rel=0.02)


@pytest.mark.parametrize(
    "pith",
    [Pith(-1j, 0.0), Pith(-1j, 10.0), Pith(-1j, 12.5), Pith(1.0 + 0j, 124.0), Pith(-1.0, 125.0)],
    ids=["middle", "inside", "on the face", "near the edge", "on the edge"],
)
def test_a_board_that_holds_the_pith_is_refused(pith):
    with pytest.raises(InputError, match=r"splits: from 12 to 6 % .* gap of 3\.9 degrees"):
        board_section(WHITE_OAK, 250.0, 25.0, pith, 12.0, 6.0)


def test_a_pith_half_a_millimeter_outside_is_not_held():
    beside = Pith(1.0 + 0j, 125.5)
    assert board_section(WHITE_OAK, 250.0, 25.0, beside, 12.0, 6.0).faces["right"].after_mm > 0.0
    thin = board_section(WHITE_OAK, 250.0, 0.5, Pith(-1j, 30.0), 12.0, 6.0)
    assert 0.45 < thin.middle_mm < 0.5


def test_a_face_is_as_long_from_either_end():
    pith = Pith(-1j, 20.0)
    face = line(-30.0 + 5.0j, 90.0 + 5.0j)
    there, back = (length_along(f, pith, 0.03, 0.06) for f in (face, face[::-1]))
    assert there == pytest.approx(back, rel=1e-13)
    finer = length_along(line(face[0], face[-1], 4096), pith, 0.03, 0.06)
    assert there == pytest.approx(finer, rel=1e-11)


def test_the_gap_is_the_one_of_the_map():
    # 360 (1 - (1 - s_t) / (1 - s_r)) with D = 1 - S (1 - M/30): 0.916 / 0.937 and 0.9552 / 0.9664.
    gap = 360.0 * (1.0 - (0.916 / 0.937) / (0.9552 / 0.9664))
    with pytest.raises(InputError, match=f"gap of {gap:.1f} degrees"):
        refuse_inside(WHITE_OAK, 12.0, 6.0)
    with pytest.raises(InputError, match=r"degrees too long to close"):
        refuse_inside(WHITE_OAK, 6.0, 12.0)
    with pytest.raises(InputError, match=r"gap of 0\.3 degrees"):
        refuse_inside(WHITE_OAK, 12.0, 11.5)
    still = "stays as it is while it stays at 8 %, and splits once it dries; cut clear of the pith$"
    with pytest.raises(InputError, match=still):
        refuse_inside(WHITE_OAK, 8.0, 8.0)
    with pytest.raises(InputError, match="splits"):
        round_section(WHITE_OAK, 50.0, Pith(-1j, 20.0), 12.0, 6.0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"size": (0.0, 25.0)}, "width must be above 0"),
        ({"size": (250.0, 0.0)}, "thickness must be above 0"),
        ({"size": (250.0, float("nan"))}, "thickness must be above 0"),
        ({"moistures": (40.0, 6.0)}, "above fiber saturation"),
        ({"side": "under"}, "no side 'under'"),
    ],
)
def test_impossible_boards(change, message):
    with pytest.raises(InputError, match=message):
        board(**change)


def test_a_wood_without_figures():
    with pytest.raises(NoDataError):
        board_section(BARE, 250.0, 25.0, pith_by_rings(0.0), 12.0, 6.0)


def test_a_wood_with_a_change_per_percent_alone():
    figures = {"change_per_pct_radial": 0.2, "change_per_pct_tangential": 0.4}
    s = board_section(wood("other", figures), 100.0, 20.0, pith_by_rings(0.0), 12.0, 2.0)
    assert s.faces["top"].after_mm == pytest.approx(100.0 * (1.0 - 0.004 * 10.0))
    assert s.middle_mm == pytest.approx(20.0 * (1.0 - 0.002 * 10.0))
    assert "goes beyond" in s.shares.notes[0].text


def panel(count, alternating, distance=75.0, offset=0.0):
    pith = pith_beside("below", distance, offset, 100.0, 25.0)
    piths = [pith.turned() if alternating and i % 2 else pith for i in range(count)]
    return panel_section(SUGAR_MAPLE, [100.0] * count, 25.0, piths, 12.0, 6.0)


def test_a_panel_of_one_is_the_board():
    one = panel(1, False)
    (b,) = one.boards
    assert one.top_mm == pytest.approx(b.faces["top"].after_mm)
    assert one.out_of_flat_mm.expected == pytest.approx(b.faces["top"].cup_mm.expected)
    assert one.out_of_flat_mm.low == pytest.approx(b.faces["top"].cup_mm.low, rel=0.01)


def test_like_sided_boards_make_one_arc():
    """Boards that each turn by one angle from edge to edge lie on a circle of that angle."""
    p = panel(6, False)
    b = p.boards[0]
    turn = 90.0 - b.corners_deg[0]  # each edge leans by this, so the board turns by twice that
    assert p.shape is PanelShape.HOLLOW
    assert p.lowest_mm == pytest.approx(-p.out_of_flat_mm.expected)
    ends = [p.outline[n][-1] - p.outline[n][0] for n in ("right", "left")]
    between = abs(degrees(phase(-ends[0] / ends[1])))
    assert between == pytest.approx(6 * 2.0 * turn, rel=1e-6)
    # An arc of that angle and width has the sagitta width x angle / 8; each board adds its own.
    arc = p.top_mm * radians(between) / 8.0
    assert arc < p.out_of_flat_mm.expected < arc + b.cupped.cup_mm.expected


def test_alternating_boards_make_a_wave_and_stay_flatter():
    p, alike = panel(6, True), panel(6, False)
    assert p.shape is PanelShape.WAVY
    assert p.out_of_flat_mm.expected < alike.out_of_flat_mm.expected
    assert p.top_mm == pytest.approx(p.bottom_mm, rel=1e-9)
    widths = sum(b.faces["top"].after_mm for b in p.boards)
    assert p.top_mm == pytest.approx(widths, rel=1e-4)


def test_joints_are_closed():
    count = 3
    p = panel(count, True, offset=20.0)
    steps = len(p.outline["bottom"]) // count
    for i in range(1, count):
        below = p.outline["bottom"][i * steps - 1], p.outline["bottom"][i * steps]
        assert abs(below[0] - below[1]) < 0.02


def test_straight_rings_leave_a_panel_flat():
    p = panel_section(SUGAR_MAPLE, [80.0, 100.0], 25.0, [pith_by_rings(0.0)] * 2, 12.0, 6.0)
    assert p.out_of_flat_mm.expected == pytest.approx(0.0, abs=1e-9)
    assert p.top_mm == pytest.approx(movement(SUGAR_MAPLE, 180.0, 12.0, 6.0).after_mm)


def test_a_panel_of_several_boards_is_surer_than_one():
    """Boards share half of their spread, so the relative range narrows with their number."""
    one, six = panel(1, False).out_of_flat_mm, panel(6, False).out_of_flat_mm

    def relative(figure):
        return (figure.high - figure.low) / figure.expected

    assert 0.5 * relative(one) < relative(six) < relative(one)


def test_impossible_panels():
    with pytest.raises(InputError, match="1 to 50 boards"):
        panel_section(SUGAR_MAPLE, [], 25.0, [], 12.0, 6.0)
    with pytest.raises(InputError, match="1 to 50 boards"):
        panel_section(SUGAR_MAPLE, [100.0], 25.0, [], 12.0, 6.0)
