"""Rankings, substitutes and comparisons as frames, as a line and in a notebook."""

import math

import pytest

import woodref
from woodref.choose.profile import parse_profile
from woodref.choose.rank import rank
from woodref.formulas.spread import Difference
from woodref.reference.library import Reference
from woodref.reference.properties import PROPERTIES

RESULTS = {
    "rank": lambda: woodref.rank("tabletop"),
    "substitute": lambda: woodref.substitute("black cherry", "tabletop"),
    "own group": lambda: woodref.substitute("white oak", "tabletop"),
    "compare": lambda: woodref.compare("hickory group", "hard maple group", "wenge"),
}


@pytest.fixture(scope="module")
def results():
    return {name: make() for name, make in RESULTS.items()}


@pytest.mark.parametrize("name", RESULTS)
def test_one_line(results, name):
    for result in (results[name], results[name].woods[0]):
        line = repr(result)
        assert line.startswith(f"<{type(result).__name__}: ")
        assert "\n" not in line
        assert len(line) <= 140


@pytest.mark.parametrize("name", ["rank", "substitute", "own group"])
def test_a_notebook_shows_a_row_a_wood(results, name):
    html, frame = results[name]._repr_html_(), results[name].to_frame()
    assert html.count("<tr>") == 1 + len(frame)
    assert all(f"<td>{wood}</td>" in html for wood in frame["sold_as"])


def test_a_notebook_shows_a_row_a_figure_with_its_unit(results):
    comparison = results["compare"]
    html = comparison._repr_html_()
    assert html.count("<tr>") == 1 + len(comparison.rows)
    assert "<td>side hardness</td><td>12pct</td><td>N</td><td>8558</td><td>5849</td>" in html


def test_names_of_a_profile_cannot_mark_up_a_notebook():
    text = (
        'title = "<b>"\npurpose = "x"\n[[criterion]]\ncolumn = "side_hardness_n"\n'
        'direction = "higher"\nweight = 1\nwhy = "x"'
    )
    ranking = rank(Reference(own=False), parse_profile(text, "p", "p"))
    assert "<b>" not in ranking._repr_html_()
    assert "&lt;b&gt;" in ranking._repr_html_()


def test_a_ranking_as_a_frame(results):
    ranking = results["rank"]
    frame = ranking.to_frame()
    assert list(frame["rank"]) == [w.position for w in ranking.woods]
    assert list(frame["score"]) == [w.score for w in ranking.woods]
    assert list(frame["species_id"]) == [w.species_id for w in ranking.woods]
    points = frame[[c for c in frame.columns if c.endswith("_points")]].sum(axis=1)
    assert list(points) == pytest.approx(list(frame["score"]))
    assert frame["difference"].isna().tolist() == [True] + [False] * (len(frame) - 1)
    assert set(frame["difference"].iloc[1:]) <= set(Difference)
    hardness = {w.species_id: w.figures["side_hardness_n"] for w in ranking.woods}
    assert dict(zip(frame["species_id"], frame["side_hardness_n"], strict=True)) == hardness


def test_substitutes_as_a_frame(results):
    found = results["own group"]
    frame = found.to_frame()
    every = (*found.woods, *found.own_group)
    assert found.own_group
    assert list(frame["wood"]) == [s.common_name for s in every]
    assert list(frame["own_group"]) == [False] * len(found.woods) + [True] * len(found.own_group)
    for s, (_, row) in zip(every, frame.iterrows(), strict=True):
        assert row["distance"] == s.distance
        for change in s.changes:
            name = change.criterion.column.name
            assert row[f"{name}_verdict"] == change.verdict
            missing = change.after is None
            assert math.isnan(row[name]) if missing else row[name] == change.after
        assert row["look"] == s.look.band
        assert row["in_look"] == s.look.distance


def test_a_comparison_as_a_frame(results):
    comparison = results["compare"]
    frame = comparison.to_frame().set_index("wood")
    hardness = comparison.row("side_hardness")
    for wood, cell in zip(comparison.woods, hardness.cells, strict=True):
        row = frame.loc[wood.common_name]
        if cell is None:
            assert math.isnan(row["side_hardness_n"])
            continue
        assert row["side_hardness_n"] == cell.value
        assert row["side_hardness_low_n"] == cell.likely.low
        assert row["side_hardness_high_n"] == cell.likely.high
    assert frame.loc["hard maple", "side_hardness_difference"] == hardness.contrasts[0].verdict
    assert {"board_mass_kg", "movement_flat_mm", "density_kg_m3"} <= set(frame.columns)


def test_a_frame_names_figures_as_the_species_table_does(results):
    for row in results["compare"].rows:
        if row.property_id and row.condition == PROPERTIES[row.property_id].columns[0][0]:
            assert row.key + row.unit_suffix == PROPERTIES[row.property_id].columns[0][1]


def test_a_frame_of_one_wood_has_every_column():
    ranking = woodref.rank("shelf", where="common_name = 'teak'")
    frame = ranking.to_frame()
    assert len(frame) == 1
    assert list(frame.columns) == list(woodref.rank("shelf").to_frame().columns)
