"""One scheme of trust: ~ for what is estimated, * for what is recalled, none for what was read."""

import pytest

import woodref
from woodref.answers.choice_questions import Asked as AskedOfRank
from woodref.answers.choice_questions import Question
from woodref.answers.compare import compare_answer
from woodref.answers.delivery import width_marks
from woodref.answers.find import find_answer
from woodref.answers.property_text import FOOTNOTES, footnotes, marks
from woodref.answers.rank import rank_answer
from woodref.answers.rank_screen import letters_of
from woodref.answers.show_page import page_of, show_answer
from woodref.answers.substitute import substitute_answer
from woodref.choose.compare import compare
from woodref.choose.overview import USUAL_BOARDS, air_dry_density, overview
from woodref.reference.bases import ESTIMATED, OWN, SECOND_HAND, UNCHECKED
from woodref.reference.library import Reference
from woodref.reference.search import find
from woodref.reference.woods import Value

LIBRARY = Reference(own=False)
COFFEETREE = "Gymnocladus dioicus"


def value(basis, low=None, high=None):
    return Value(
        *("side_hardness", "12pct", 4000.0, "N"),
        sd=800.0,
        basis=basis,
        source="a table",
        printed="4000",
        printed_low=low,
        printed_high=high,
    )


@pytest.mark.parametrize(
    ("values", "mark"),
    [
        ([value("checked")], ""),
        ([value(ESTIMATED)], "~"),
        ([value(SECOND_HAND)], "~"),
        ([value(UNCHECKED)], "*"),
        ([value("checked", 3000.0, 5000.0)], "~"),
        ([value(ESTIMATED), value(UNCHECKED), value(ESTIMATED)], "*~"),
    ],
)
def test_a_figure_of_several_bears_each_mark_once(values, mark):
    assert marks(*values) == mark
    assert footnotes([mark]) == [text for m, text in FOOTNOTES.items() if m in mark]


def test_show_marks_weight_movement_and_hardness_that_are_estimated():
    answer = show_answer(page_of(LIBRARY, COFFEETREE, "us"), "us")
    weight, movement, hardness = answer.headline[:3]
    assert " lb~ (" in weight
    assert movement.count(" in~ (") == 2
    assert " lbf~ (" in hardness
    assert FOOTNOTES["~"] in answer.notes
    printed = show_answer(page_of(LIBRARY, "black cherry", "us"), "us").headline[:3]
    assert "~" not in " ".join(printed)


def test_show_tells_the_mark_of_a_fiber_saturation_point_that_is_the_general_one():
    page = page_of(LIBRARY, "white oak", "us")
    assert page.wood.fiber_saturation.basis == ESTIMATED
    assert FOOTNOTES["~"] in show_answer(page, "us").notes


def test_compare_marks_what_it_says_first():
    woods = [LIBRARY.wood(name) for name in (COFFEETREE, "black cherry")]
    answer = compare_answer(compare(woods, USUAL_BOARDS["us"]), "us")
    told = " ".join(answer.headline)
    for figure in ("1,190 lbf~,", "13.3 lb~, black cherry 11.5 lb.", "in~, black cherry 0.1"):
        assert figure in told
    assert FOOTNOTES["~"] in answer.notes


def test_no_wood_without_data_shows_a_density_without_its_mark():
    rows = LIBRARY.store.rows("select species_id from {species} where data_coverage = 'no data'")
    woods = LIBRARY.woods(r["species_id"] for r in rows)
    known = {i: d for i, w in woods.items() if (d := air_dry_density(w))}
    assert len(known) > 10
    assert {i for i, d in known.items() if "~" not in marks(*d.values)} == set()
    (row,) = find_answer(find(LIBRARY, "Fraser fir"), "us").sections[0].rows
    assert (row["data"], row["density_text"][-1]) == ("known, no data", "~")


def test_own_figures_of_a_wood_without_data_are_told_as_such(tmp_path, monkeypatch):
    from woodref.own.intake import take_in

    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "own"))
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    path = tmp_path / "boards.csv"
    path.write_text("species,property,value,unit\nkoa,density_12pct,40,lb/ft3\n")
    take_in(Reference(), path, "measurements", "bench")
    (row,) = find_answer(find(Reference(), "koa"), "us").sections[0].rows
    assert row["data"] == "your own figures"
    sections = show_answer(page_of(Reference(), "koa", "us"), "us").sections
    cells = [str(cell) for s in sections for row in s.rows for cell in row.values()]
    assert f"40.0 [{OWN}]" in cells


def test_a_wood_too_dense_to_hold_the_usual_moisture_breaks_no_list():
    dense = LIBRARY.wood("Zygia selloi")
    assert air_dry_density(dense) is None
    assert overview(dense, USUAL_BOARDS["us"]).density is None
    (row,) = find_answer(find(LIBRARY, "Zygia selloi"), "us").sections[0].rows
    assert row["density_text"] == "-"


@pytest.fixture(scope="module")
def ranked():
    from woodref.choose.filters import asked
    from woodref.choose.profile import load_profile
    from woodref.choose.rank import rank
    from woodref.choose.seasonal_range import SeasonalRange

    return rank(LIBRARY, load_profile("tabletop"), SeasonalRange(), asked(), limit=40)


def test_rank_marks_each_figure(ranked):
    """As a look-up of the wood does, by what the figure rests on."""
    woods = LIBRARY.woods(w.species_id for w in ranked.woods)
    answer = rank_answer(ranked, AskedOfRank(None, None, "", woods), "us", True, False)
    rows = answer.sections[0].rows
    letters = [c.column for c in ranked.woods[0].contributions]
    hardness, density = (
        f"figure_{letters_of(ranked.scales)[letters.index(name)]}"
        for name in ("side_hardness_n", "density_kg_m3")
    )
    assert any("~" in row[hardness] for row in rows)
    for row in rows:
        looked_up = overview(woods[row["species_id"]], USUAL_BOARDS["us"])
        # Where print is of another moisture content, a look-up says which.
        if looked_up.hardness.condition == "12pct":
            assert ("~" in row[hardness]) == (marks(looked_up.hardness) == "~")
        assert ("~" in row[density]) == ("~" in marks(*looked_up.density.values))
    assert FOOTNOTES["~"] in answer.notes


def test_substitute_marks_either_side():
    from woodref.choose.profile import load_profile
    from woodref.choose.substitute import substitutes

    found = substitutes(LIBRARY, LIBRARY.wood("black cherry"), load_profile("tabletop"), limit=12)
    woods = LIBRARY.woods(s.species_id for s in (*found.woods, *found.own_group))
    question = Question(300.0, None, None, "4/4", woods)
    listed, *_ = substitute_answer(found, question, "us", True).sections
    for row in listed.rows:
        density = air_dry_density(woods[row["species_id"]])
        assert ("~" in row["weight"]) == ("~" in marks(*density.values))
    turned = substitutes(LIBRARY, LIBRARY.wood("California black oak"), load_profile("tabletop"))
    woods = LIBRARY.woods(s.species_id for s in (*turned.woods, *turned.own_group))
    answer = substitute_answer(turned, Question(300.0, None, None, "4/4", woods), "us", True)
    changes = next(s for s in answer.sections if s.key == "changes")
    before = {row["label"]: row["before"] for row in changes.rows}
    assert before["side hardness"].endswith("~")
    screen = answer.screen.sections[0]
    assert [row["weight"] for row in screen.rows] == [
        row["weight"] for row in answer.sections[0].rows[: len(screen.rows)]
    ]


def test_a_width_after_delivery_is_marked_for_the_lag_and_for_an_estimated_wood():
    room = woodref.season("Boston, Massachusetts", "heated house")
    told = {
        name: width_marks(woodref.delivery(LIBRARY.wood(name), 19.0, 7.0, room))
        for name in ("white oak", "Norway maple")
    }
    assert told == {"white oak": "*", "Norway maple": "*~"}
