"""A piece in another wood: the parts that change, and what was sized for the first wood."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from woodref.board.deflection import SagVerdict
from woodref.choose.replacement import replacements
from woodref.errors import InputError
from woodref.joinery.fit import Verdict
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import Piece, parse_piece
from woodref.piece.replaced import (
    Outcome,
    Sized,
    Unjudged,
    parts_of_wood,
    replaced,
    with_woods,
)
from woodref.reference.library import Reference

# An invented shelf: the front panel is of cherry in grooves that just do, the sides of ash.
SHELF = """
name = "Wall shelf (invented)"
units = "si"

[build]
moisture_pct = 8

[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 10 }

[[parts]]
name = "board"
species = "black cherry"
length = "900 mm"
width = "250 mm"
thickness = "18 mm"

[[parts]]
name = "panel"
species = "black cherry"
length = "500 mm"
width = "300 mm"
thickness = "12 mm"

[[parts]]
name = "side"
species = "white ash"
quantity = 2
length = "300 mm"
width = "250 mm"
thickness = "18 mm"

[[span]]
name = "shelf"
part = "board"
uniform = "8 kg/m"

[[fixing]]
name = "panel in its groove"
part = "panel"
kind = "floating-panel"
gap = "1.2 mm"
"""


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


@pytest.fixture(scope="module")
def piece() -> Piece:
    return parse_piece(SHELF, "shelf.toml")


def test_the_parts_of_a_wood(reference: Reference, piece: Piece) -> None:
    cherry = reference.wood("cherry")
    assert parts_of_wood(piece, reference.wood, cherry) == ["board", "panel"]
    assert parts_of_wood(piece, reference.wood, cherry, "panel") == ["panel"]
    changed = with_woods(piece, {"panel": "teak"})
    assert [p.species for p in changed.parts] == ["black cherry", "teak", "white ash"]
    assert [p.width_mm for p in changed.parts] == [p.width_mm for p in piece.parts]


def test_weight_movement_and_fixings_are_recomputed(reference: Reference, piece: Piece) -> None:
    before = estimate_piece(reference, piece)
    found = replaced(reference, before, dict.fromkeys(["board", "panel"], "American beech"))
    # The same as the piece written down in beech from the start.
    written = parse_piece(SHELF.replace("black cherry", "American beech"), "shelf.toml")
    whole = estimate_piece(reference, written)
    assert found.mass_kg[1] == pytest.approx(whole.mass_kg["build"].expected)
    assert found.mass_kg[1] > found.mass_kg[0]
    panel = next(x for x in found.sized if x.what == "fixing")
    assert panel.before is Verdict.HOLDS
    assert panel.broken  # beech moves far more than cherry
    assert panel.spare_after_mm < panel.spare_before_mm
    span = next(x for x in found.sized if x.what == "span")
    assert (span.before, span.after) == (SagVerdict.STRAIGHT, SagVerdict.STRAIGHT)
    assert span.spare_after_mm > span.spare_before_mm  # and is stiffer


def test_parts_that_stay_are_not_told(reference: Reference, piece: Piece) -> None:
    found = replaced(reference, estimate_piece(reference, piece), {"side": "teak"})
    assert found.sized == ()
    assert found.cost == (None, None)  # no price list


def test_the_same_wood_changes_nothing(reference: Reference, piece: Piece) -> None:
    found = replaced(reference, estimate_piece(reference, piece), {"panel": "cherry"})
    assert found.mass_kg[0] == found.mass_kg[1]
    assert not any(x.broken for x in found.sized)


@pytest.mark.parametrize(
    ("before", "after", "broken", "holds"),
    [
        (Verdict.HOLDS, Verdict.HOLDS_FOR_AVERAGE, True, False),
        (Verdict.HOLDS_FOR_AVERAGE, Verdict.DOES_NOT_HOLD, True, False),
        (Verdict.DOES_NOT_HOLD, Verdict.DOES_NOT_HOLD, False, False),
        (Verdict.DOES_NOT_HOLD, Verdict.HOLDS, False, True),
        (Verdict.SHORT_ENOUGH, Verdict.TOO_LONG, True, False),
        (SagVerdict.STRAIGHT, SagVerdict.SAGS, True, False),
        (Verdict.HOLDS, Unjudged.UNKNOWN, False, False),
        (Unjudged.NOTHING_GIVEN, Unjudged.NOTHING_GIVEN, False, True),
    ],
)
def test_worse_than_before(before: Outcome, after: Outcome, broken: bool, holds: bool) -> None:
    sized = Sized("fixing", "x", "top", before, after, None, None)
    assert (sized.broken, sized.holds) == (broken, holds)


@pytest.mark.parametrize(
    ("wood", "part", "message"),
    [
        ("teak", "", "shelf.toml: no part is of teak; it has black cherry, white ash"),
        ("cherry", "panle", "no part is called 'panle'; did you mean 'panel'"),
        ("cherry", "side", "the part 'side' is of white ash, not of black cherry"),
    ],
)
def test_a_part_that_is_not_of_the_wood(
    reference: Reference, piece: Piece, wood: str, part: str, message: str
) -> None:
    with pytest.raises(InputError, match=message):
        parts_of_wood(piece, reference.wood, reference.wood(wood), part)


def test_a_wood_whose_common_name_means_several_can_stand_in_a_piece(
    reference: Reference, piece: Piece
) -> None:
    roble = "tabebuia-spp-roble"
    assert reference.woods([roble])[roble].common_name == "roble"
    with pytest.raises(InputError, match="'roble' is sold as several woods"):
        reference.wood("roble")
    before = estimate_piece(reference, piece)
    found = replaced(reference, before, {"panel": roble})
    assert found.mass_kg[1] > found.mass_kg[0]
    near = SimpleNamespace(
        woods=(SimpleNamespace(species_id=roble),),
        own_group=(SimpleNamespace(species_id="juglans-nigra"),),
    )
    assert set(replacements(reference, piece, ["panel"], near)) == {roble, "juglans-nigra"}
