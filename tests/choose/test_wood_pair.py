"""Two woods side by side: look, what print says of them, decay and trade; on one screen."""

from __future__ import annotations

import pytest

from tests.kit.pieces import library
from woodref.answers.render import SCREEN_HEIGHT, as_screen
from woodref.answers.wood_beside import wood_beside_answer
from woodref.choose.look_distance import appearance_of, look_distance
from woodref.choose.look_pair import look_pair
from woodref.choose.wood_beside import wood_beside
from woodref.choose.wood_pair import wood_pair
from woodref.errors import InputError
from woodref.reference.looks import looks_of

WIDTH_MM = 300.0


def pair(first: str, other: str):
    return wood_pair(library(), library().wood(first), library().wood(other))


def test_print_is_quoted_whichever_wood_it_names_first() -> None:
    # Wood Handbook FPL-GTR-190 (2010), p. 2-5: butternut resembles black walnut when stained.
    there, back = pair("butternut", "black walnut"), pair("black walnut", "butternut")
    assert [(r.like, r.page) for r in there.look.printed] == [("black walnut", "2-5")]
    assert there.look.printed == back.look.printed
    assert there.look.distance == pytest.approx(back.look.distance)


def test_the_decay_class_is_the_printed_one() -> None:
    # FPL-GTR-190 (2010), Table 14-1, p. 14-5: white oaks resistant, ashes slightly or nonresistant.
    found = pair("white oak", "white ash")
    assert found.first.decay is not None
    assert found.other.decay is not None
    assert found.first.decay.words == ("resistant",)
    assert found.other.decay.words == ("slightly or nonresistant",)
    assert found.decay_changes


def test_a_control_of_trade_is_of_the_wood_and_not_of_all_plants() -> None:
    # The tree species list of the US Fish and Wildlife Service: Guaiacum, Appendix II.
    found = pair("white oak", "lignumvitae")
    assert found.first.controls == ()
    assert found.other.controls == ("CITES Appendix II",)
    assert found.newly_controlled
    assert not pair("lignumvitae", "white oak").newly_controlled


def test_a_group_stands_as_near_as_its_members_on_average() -> None:
    group, ash = library().wood("white oak group"), library().wood("white ash")
    (one,) = looks_of(library(), ash.species_ids)
    each = [
        look_distance(appearance_of(look), appearance_of(one))
        for look in looks_of(library(), group.species_ids)
    ]
    assert len(each) > 1
    assert look_pair(library(), group, ash).distance == pytest.approx(sum(each) / len(each))


def test_a_wood_without_a_look_has_no_band() -> None:
    found = look_pair(library(), library().wood("white oak"), library().wood("Quercus ficta"))
    assert (found.distance, found.band, found.differs) == (None, None, ())


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(
    ("first", "other"),
    [
        ("black cherry", "teak"),
        ("white oak group", "eastern white pine"),
        ("butternut", "black walnut"),
        ("Indian rosewood", "Brazilian rosewood"),
        ("white oak", "Quercus ficta"),
    ],
)
def test_one_screen_holds_any_pair(first: str, other: str, units: str) -> None:
    woods = (library().wood(name) for name in (first, other))
    beside = wood_beside(library(), *woods, WIDTH_MM, units=units)
    answer = wood_beside_answer(beside, units, True, "North America")
    assert answer.screen is not None
    lines = as_screen(answer.screen, units).splitlines()
    assert len(lines) <= SCREEN_HEIGHT
    assert all(len(line) <= 80 for line in lines)
    unit = "in" if units == "us" else "mm"
    other_unit = "mm" if units == "us" else "in"
    assert any(f" {unit} moves" in line for line in lines)
    assert not any(f" {other_unit} moves" in line for line in lines)


def test_movement_is_told_for_the_width_asked() -> None:
    woods = [library().wood(name) for name in ("white oak", "white ash")]
    narrow, wide = (wood_beside(library(), *woods, mm) for mm in (100.0, 300.0))
    for a, b in zip(narrow.swings, wide.swings, strict=True):
        assert a is not None
        assert b is not None
        assert b.change_mm == pytest.approx(3.0 * a.change_mm)


def test_a_wood_in_place_of_itself_is_refused() -> None:
    oak = library().wood("white oak")
    with pytest.raises(InputError, match="in place of itself changes nothing"):
        wood_beside(library(), oak, oak, WIDTH_MM)
