"""The small picture of a width through the usual year: one scale, and what the lines say."""

import pytest

import woodref
from woodref import charts
from woodref.units import MM_PER_INCH


def drawn(name, width_mm=304.8, units="us", mark=""):
    season = woodref.own_season(
        winter=(20.0, woodref.humidity_for(6.0, 20.0)),
        summer=(25.0, woodref.humidity_for(10.0, 25.0)),
    )
    cuts = []
    for cut in ("flat", "quarter"):
        months = woodref.through_year(
            season, lambda pct, cut=cut: woodref.movement(name, width_mm, 6.0, pct, cut)
        )
        change = woodref.movement(name, width_mm, 6.0, 10.0, cut).likely_change_mm
        cuts.append(charts.CutThroughYear(f"{cut} sawn", months, change))
    return charts.usual_year("A title", "a room", cuts, units, mark)


def test_the_lines_rise_from_nothing_to_the_change_of_the_year():
    axes = drawn("black cherry").axes[0]
    flat, quarter = (line.get_ydata() for line in axes.lines)
    change = woodref.movement("black cherry", 304.8, 6.0, 10.0).change_mm
    assert min(flat) == 0.0
    assert max(flat) == pytest.approx(change, rel=0.01)
    assert max(quarter) < max(flat)


def test_woods_stand_on_one_scale_but_where_one_moves_beyond_it():
    steady, lively = (drawn(n).axes[0].get_ylim() for n in ("teak", "black cherry"))
    assert steady == lively == (0.0, 0.375 * MM_PER_INCH)
    assert drawn("black cherry", 1200.0).axes[0].get_ylim()[1] > 0.375 * MM_PER_INCH


def test_the_words_say_each_change_and_what_a_mark_means():
    figure = drawn("black cherry", units="si", mark="*")
    told = [text.get_text() for text in figure.axes[0].get_legend().get_texts()]
    assert told == ["flat sawn 3.1 mm* (1.9 to 4.2)", "quarter sawn 1.5 mm* (1 to 2.1)"]
    assert "unchecked" in figure.get_supxlabel()


def test_one_picture_serves_both_systems_of_units():
    """The same heights, numbered in inches at the left and in millimeters at the right."""
    figure = drawn("black cherry", units="both")
    left, right = figure.axes
    assert left.get_ylim() == right.get_ylim() == (0.0, 0.375 * MM_PER_INCH)
    told = [[t.get_text() for t in axes.get_yticklabels()] for axes in (left, right)]
    assert told == [["0", "1/16", "1/8", "3/16", "1/4", "5/16", "3/8"], ["0", "2", "4", "6", "8"]]
    assert left.get_ylabel() == "wider than in winter (in)"
    assert right.get_ylabel() == "the same (mm)"
    labels = [text.get_text() for text in left.get_legend().get_texts()]
    assert labels == [
        "flat sawn 1/8 in (1/16 to 5/32)\n3.1 mm (1.9 to 4.2)",
        "quarter sawn 1/16 in (1/32 to 3/32)\n1.5 mm (1 to 2.1)",
    ]
    svg = charts.svg_text(figure)
    assert "up: wider than in winter (in). up: the same (mm)" in svg
    # What the lines are stands above the band, on whatever scale.
    for name, width_mm in (("black cherry", 304.8), ("keruing", 304.8), ("beech", 1200.0)):
        figure = drawn(name, width_mm, "both")
        axes = figure.axes[0]
        figure.draw_without_rendering()
        legend = axes.get_legend().get_window_extent().transformed(axes.transData.inverted())
        assert legend.y0 > max(axes.collections[0].get_paths()[0].vertices[:, 1])
