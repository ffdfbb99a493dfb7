"""One wood, one property, one system of units: the same figure in every command."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from woodref.answers.answer import Answer
from woodref.answers.choice_questions import Asked, Question
from woodref.answers.compare import compare_answer
from woodref.answers.deflection import deflection_answer
from woodref.answers.find import find_answer
from woodref.answers.rank import rank_answer
from woodref.answers.show_page import page_of, show_answer
from woodref.answers.substitute import substitute_answer
from woodref.answers.weight import density_answer, weight_answer
from woodref.board.beam_material import of_wood
from woodref.board.deflection import deflection
from woodref.board.shapes import Shape
from woodref.board.span import Span
from woodref.board.weight import density_of, weight_of
from woodref.choose.compare import compare
from woodref.choose.overview import USUAL_BOARDS
from woodref.choose.profile import Profile, load_profile, parse_profile
from woodref.choose.rank import rank
from woodref.choose.substitute import substitutes
from woodref.reference.library import Reference
from woodref.reference.properties import wide_columns
from woodref.reference.sag_rules import sag_rules
from woodref.reference.search import find
from woodref.units import KINDS

#: Of the United States, of Canada, imported; hard and soft; a trade group.
WOODS = ("black walnut", "white oak", "Douglas-fir", "yellow-cedar", "teak", "red oak group")
HARDNESS = "side_hardness"
#: Printed in both systems of units.
BOTH = (
    *(HARDNESS, "modulus_of_elasticity", "modulus_of_rupture", "work_to_maximum_load"),
    "compression_parallel",
)
#: The names of their columns to choose by.
COLUMNS = {c: p for p, condition, c in wide_columns() if condition == "12pct" and p in BOTH}


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


def _rows(answer: Answer, key: str) -> Iterator[dict[str, object]]:
    section = next(s for s in answer.sections if s.key == key)
    return iter(section.rows)


def _shown(reference: Reference, name: str, units: str) -> dict[str, float]:
    """The figures at 12 % that show prints of a wood, by property."""
    answer = show_answer(page_of(reference, name, units), units, for_people=False)
    return {
        r["property_id"]: r["value"]
        for r in _rows(answer, "figures")
        if r["condition"] == "12pct" and r["basis"] != "estimated"
    }


def _profile() -> Profile:
    """A use that looks at every property printed in both systems."""
    criteria = "".join(
        f'[[criterion]]\ncolumn = "{column}"\ndirection = "higher"\nweight = 1\nwhy = "x"\n'
        "optional = true\n"
        for column in COLUMNS
    )
    return parse_profile(f'title = "Any"\npurpose = "Any."\n{criteria}', "any", "any")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", WOODS)
def test_compare_and_find_tell_what_show_does(reference: Reference, name: str, units: str) -> None:
    shown = _shown(reference, name, units)
    wood = reference.wood(name)
    told = compare([wood, reference.wood("sugar maple")], USUAL_BOARDS[units])
    answer = compare_answer(told, units, for_people=False)
    compared = {
        r["figure_id"]: r["value"]
        for r in _rows(answer, "comparison")
        if r["species_id"] == wood.species_id and r["condition"] == "12pct"
    }
    for property_id in compared.keys() & shown.keys():
        assert compared[property_id] == shown[property_id], property_id
    assert HARDNESS in compared.keys() & shown.keys()
    if not wood.is_group:
        exact = _rows(find_answer(find(reference, name), units, for_people=False), "exact")
        force = KINDS["force"]
        found = [force.number(r[HARDNESS], units) for r in exact]
        assert found == [pytest.approx(shown[HARDNESS], abs=0.5)]


@pytest.mark.parametrize("units", ["us", "si"])
def test_rank_tells_what_show_does(reference: Reference, units: str) -> None:
    ranking = rank(reference, _profile(), where="kind = 'hardwood'", limit=1000)
    woods = reference.woods(w.species_id for w in ranking.woods)
    answer = rank_answer(ranking, Asked(None, None, "", woods), units, False, False)
    told = {
        (r["wood"], COLUMNS[r["criterion"]]): r["value"] for r in _rows(answer, "contributions")
    }
    for name in ("black walnut", "white oak", "teak"):
        for property_id, figure in _shown(reference, name, units).items():
            if property_id in BOTH:
                assert told[name, property_id] == figure, property_id


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", ["black walnut", "teak", "red oak group"])
def test_substitute_tells_what_show_does(reference: Reference, name: str, units: str) -> None:
    wood = reference.wood(name)
    near = substitutes(reference, wood, _profile(), limit=5)
    woods = reference.woods(s.species_id for s in (*near.woods, *near.own_group))
    question = Question(300.0, None, None, "", woods)
    rows = [*_rows(substitute_answer(near, question, units, False), "changes")]
    before, other = _shown(reference, name, units), near.woods[0].common_name
    after = _shown(reference, other, units)
    for row in rows:
        property_id = COLUMNS[row["criterion"]]
        if property_id in before:
            assert row["value_before"] == before[property_id]
        if row["wood"] == other and property_id in after:
            assert row["value"] == after[property_id]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", ["black walnut", "white oak", "teak"])
def test_deflection_tells_the_printed_modulus_where_it_is_used_as_printed(
    reference: Reference, name: str, units: str
) -> None:
    wood = reference.wood(name)
    shelf = Span(900.0, 300.0, 20.0, uniform_n_m=200.0)
    sag = deflection(of_wood(wood, 12.0), shelf, sag_rules(reference))
    facts = {c.key: v for c, v in deflection_answer(sag, units).facts}
    shown = _shown(reference, name, units)["modulus_of_elasticity"]
    assert KINDS["modulus"].convert(facts["modulus_of_elasticity"], units) == pytest.approx(shown)


@pytest.mark.parametrize("name", ["karri", "blue gum", "alpine ash"])
def test_one_wood_has_one_density_and_a_conflict_of_print_is_told(
    reference: Reference, name: str
) -> None:
    wood = reference.wood(name)
    density = density_of(wood, 12.0)
    page = show_answer(page_of(reference, name, "si"), "si")
    facts = {c.key: v for c, v in page.facts}
    assert facts["density_at_12pct"] == density.density_kg_m3
    ranking = rank(reference, load_profile("tabletop"), where=f"common_name = '{name}'")
    asked = Asked(None, None, "", reference.woods(wood.species_ids))
    ranked = rank_answer(ranking, asked, "si", True, False)
    assert ranking.woods[0].figures["density_kg_m3"] == pytest.approx(density.density_kg_m3)
    board = USUAL_BOARDS["si"]
    beside = compare([wood, reference.wood("teak")], board)
    assert beside.row("density").cells[0].value == density.density_kg_m3
    compared = compare_answer(beside, "si")
    of_board = weight_of(wood, 1000.0, 200.0, 25.0, 12.0)
    assert of_board.mass_kg.expected == pytest.approx(density.density_kg_m3 * 0.005)
    weighed = weight_answer(of_board, Shape("box", 1000.0, 200.0, 25.0), "si")
    for answer in (page, density_answer(density, "si"), weighed):
        assert any("printed densities of this wood disagree" in note for note in answer.notes)
    for answer in (ranked, compared):
        assert any(f"Printed densities disagree of {name}" in note for note in answer.notes)


def test_black_walnut_as_printed_in_either_system(reference: Reference) -> None:
    # Wood Handbook FPL-GTR-190 (2010), Tables 5-3a and 5-3b: side hardness at 12 % 4,500 N and
    # 1,010 lbf; modulus of elasticity 11,600 MPa and 1.68 million psi.
    printed = {"si": (4500.0, 11600.0), "us": (1010.0, 1.68)}
    for units, figures in printed.items():
        shown = _shown(reference, "black walnut", units)
        assert (shown[HARDNESS], shown["modulus_of_elasticity"]) == figures
