"""One scheme of trust: ~ for what is estimated, * for what is recalled, none for what was read."""

import pytest

from woodref.answers.compare import compare_answer
from woodref.answers.find import find_answer
from woodref.answers.property_text import FOOTNOTES, footnotes, marks
from woodref.answers.show_page import page_of, show_answer
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
    weight, flat, quarter, hardness = answer.headline[:4]
    assert " lb~ at 8 %" in weight
    assert all(")~, likely " in line for line in (flat, quarter))
    assert " lbf~ at 12 %" in hardness
    assert FOOTNOTES["~"] in answer.notes
    printed = show_answer(page_of(LIBRARY, "black cherry", "us"), "us").headline[:4]
    assert "~" not in " ".join(printed)


def test_compare_marks_what_it_says_first():
    woods = [LIBRARY.wood(name) for name in (COFFEETREE, "black cherry")]
    answer = compare_answer(compare(woods, USUAL_BOARDS["us"]), "us")
    told = " ".join(answer.headline)
    for figure in ("1,190 lbf~ (", "13.3 lb~, black cherry 11.5 lb.", "in~, black cherry 0.1"):
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
