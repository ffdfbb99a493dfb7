"""A piece beside itself with other woods: what must change, and that nothing else does."""

from __future__ import annotations

import re
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.kit.pieces import DEMO, library, rooms
from woodref.answers.piece_beside import piece_beside_answer
from woodref.answers.render import SCREEN_HEIGHT, as_screen
from woodref.choose.piece_beside import PieceBeside, piece_beside
from woodref.errors import InputError
from woodref.joinery.clearance import fixing_of
from woodref.joinery.fixing_types import Sizes, fixing_spec
from woodref.joinery.mend import mended, resized
from woodref.joinery.travel import MoistureRange
from woodref.piece.estimate import Estimate, estimate_piece
from woodref.piece.piece import Piece, parse_piece, read_piece
from woodref.piece.replaced import replaced, without_boards
from woodref.piece.swaps import swaps_of
from woodref.reference.woods import Wood

WOODS = (
    *("white oak", "European oak", "European beech", "white ash", "hickory", "teak"),
    *(
        "eastern white pine",
        "sugar maple",
        "basswood",
        "black cherry",
        "Douglas-fir",
        "lignumvitae",
    ),
)

# An invented bench that stands outdoors, in si units: slats on a frame, screwed from below.
BENCH = """
name = "Garden bench (invented)"
units = "si"

[build]
moisture_pct = 12

[use]
place = "Portland, Maine"
setting = "outdoors"

[[parts]]
name = "seat board"
species = "white oak"
length = "1200 mm"
width = "280 mm"
thickness = "30 mm"

[[parts]]
name = "rail"
species = "black cherry"
length = "1100 mm"
width = "90 mm"
thickness = "25 mm"

[[span]]
name = "rail"
part = "rail"
on_edge = true
uniform = "15 kg/m"

[[fixing]]
name = "screws under the seat"
part = "seat board"
kind = "slotted-hole"
distance = "100 mm"
screw = "5 mm"
slot = "10 mm"
"""


@pytest.fixture(scope="module")
def bench() -> Piece:
    return parse_piece(BENCH, "bench.toml", rooms())


@cache
def demo(name: str) -> Piece:
    return read_piece(DEMO / f"{name}.toml", rooms())


def beside(piece: Piece, *pairs: tuple[str, str]) -> PieceBeside:
    return piece_beside(library(), piece, swaps_of(library(), piece, pairs))


@cache
def wood(name: str) -> Wood:
    return library().wood(name)


@cache
def estimated(name: str) -> Estimate:
    return estimate_piece(library(), without_boards(demo(name)))


def figures(estimate: Estimate) -> list[object]:
    """Every number of an estimate that a wood decides."""
    return [
        estimate.mass_kg,
        estimate.cost,
        [(p.mass_kg, [m.likely_change_mm for m in p.movements]) for p in estimate.parts],
        [f.fixing and (f.fixing.travel.most, f.fixing.verdict) for f in estimate.fixings],
        [s.sag and (s.sag.now_mm, s.sag.verdict) for s in estimate.spans],
    ]


@pytest.mark.parametrize(
    ("name", "first", "other"),
    [
        ("trestle-table", "white ash", "European beech"),
        ("hall-bench", "black cherry", "lignumvitae"),
        ("sideboard", "white oak", "European beech"),
        ("wall-shelf", "black cherry", "Spanish-cedar"),
        ("drawer-chest", "white ash", "hickory"),
    ],
)
def test_one_screen_holds_every_piece(name: str, first: str, other: str) -> None:
    piece = demo(name)
    answer = piece_beside_answer(beside(piece, (first, other)), piece.units, True)
    assert answer.screen is not None
    lines = as_screen(answer.screen, piece.units).splitlines()
    assert len(lines) <= SCREEN_HEIGHT
    assert all(len(line) <= 80 for line in lines)
    assert f"in place of {first}" in " ".join(line.strip() for line in lines[:2])
    if piece.units == "si":
        assert not re.search(r"\d (in|lb|lbf)\b", "\n".join(lines))


@pytest.mark.parametrize("name", ["trestle-table", "sideboard"])
def test_a_wood_in_place_of_itself_changes_nothing(name: str) -> None:
    before = estimated(name)
    same = {p.name: library().wood(p.species).species_id for p in before.piece.parts if p.species}
    assert figures(replaced(library(), before, same).after) == figures(before)


@settings(max_examples=2, deadline=None)
@given(other=st.sampled_from(WOODS))
def test_replacing_back_gives_the_first_numbers(other: str) -> None:
    before = estimated("trestle-table")
    parts = [p.name for p in before.piece.parts]
    there = replaced(library(), before, dict.fromkeys(parts, other))
    back = replaced(library(), there.after, dict.fromkeys(parts, "white ash"))
    assert figures(back.after) == figures(before)


#: Every kind of fixing with all the sizes it takes, so tight that a livelier wood asks for more.
TIGHT = {
    "round-hole": {"screw": 4.2, "hole": 6.0, "washer": 9.0, "recess": 11.0},
    "slotted-hole": {"screw": 4.2, "slot": 7.0},
    "button": {"gap": 1.5, "tongue": 6.0, "groove": 7.0},
    "breadboard": {"peg": 8.0, "slot": 11.0},
    "floating-panel": {"gap": 1.5, "groove": 6.0},
    "drawer-bottom": {"screw": 4.2, "slot": 8.0, "gap": 2.0},
    "drawer-front": {"gap": 2.0},
}


@settings(max_examples=60, deadline=None)
@given(
    kind=st.sampled_from(sorted(TIGHT)),
    other=st.sampled_from(WOODS),
    width=st.floats(80.0, 300.0),
    units=st.sampled_from(["us", "si"]),
)
def test_the_sizes_named_hold_and_the_rest_stay(
    kind: str, other: str, width: float, units: str
) -> None:
    spec = fixing_spec(kind, width_mm=width, sizes=Sizes(**TIGHT[kind]), units=units)
    moisture = MoistureRange(8.0, 6.0, 11.0)
    first, then = (fixing_of(spec, wood(name), moisture) for name in ("white oak", other))
    fit = mended(then)
    if fit is None:  # a hole above the largest bit
        assert kind == "round-hole"
        return
    assert fit.holds
    sizes = resized(first, then)
    assert sizes is not None
    assert any(s.grows for s in sizes) is not then.holds
    assert all(s.make_mm == s.was_mm for s in sizes if not s.grows)


def test_a_glued_joint_is_mended_by_no_size() -> None:
    spec = fixing_spec("glued", distance_mm=400.0)
    assert mended(fixing_of(spec, wood("white oak"), MoistureRange(8.0, 6.0, 11.0))) is None


def test_a_slot_that_is_too_short_is_named_with_its_size() -> None:
    changed = beside(demo("trestle-table"), ("ash", "European beech"))
    slot, glued = changed.fixings
    assert slot.held
    assert not slot.holds
    (size,) = slot.sizes or ()
    assert (size.was_mm, size.make_mm, size.grows) == (16.0, 18.0, True)
    assert glued.sizes is None
    assert not glued.held


def test_two_woods_at_once_may_change_places(bench: Piece) -> None:
    changed = beside(bench, ("white oak", "black cherry"), ("cherry", "white oak"))
    species = [p.species for p in changed.replacement.after.piece.parts]
    assert [library().wood(s).common_name for s in species] == ["black cherry", "white oak"]


def test_outdoors_the_decay_class_is_something_to_see_to(bench: Piece) -> None:
    changed = beside(bench, ("oak", "white ash"))
    assert changed.outdoors
    answer = piece_beside_answer(changed, "si", True)
    told = " ".join(answer.headline)
    assert "Decay outdoors: white ash slightly or nonresistant, was resistant" in told


def test_hardwood_to_softwood_changes_the_pilot_hole(bench: Piece) -> None:
    (pilot,) = beside(bench, ("white oak", "eastern white pine")).pilots
    # FPL-GTR-282 (2021), p. 8-10: 70 % of the root in softwoods, 90 % in hardwoods.
    assert pilot.after_mm / pilot.before_mm == pytest.approx(70 / 90)
    assert beside(bench, ("white oak", "white ash")).pilots == ()


@pytest.mark.parametrize(
    ("pairs", "message"),
    [
        ([("teak", "ash")], "bench.toml: no part is of teak; it has white oak, black cherry"),
        ([("whit oka", "ash")], "no part is of 'whit oka'.*did you mean 'white oak'"),
        ([("oak", "hickry")], "no wood is called 'hickry'; nearest: hickory"),
        ([("oak", "white oak")], "'oak' and 'white oak' are the same wood"),
        ([("oak", "ash"), ("white oak", "teak")], "two woods are named for the part 'seat board'"),
    ],
)
def test_what_cannot_be_replaced_is_refused(
    bench: Piece, pairs: list[tuple[str, str]], message: str
) -> None:
    with pytest.raises(InputError, match=message):
        swaps_of(library(), bench, pairs)


def test_a_word_that_means_two_woods_of_the_piece_is_refused() -> None:
    text = BENCH.replace('"black cherry"', '"northern red oak"')
    piece = parse_piece(text, "bench.toml", rooms())
    with pytest.raises(InputError, match="'oak' may be its northern red oak or white oak"):
        swaps_of(library(), piece, [("oak", "teak")])
