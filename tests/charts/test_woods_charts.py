"""Pictures of woods side by side: readable for two and for eight, with gaps and long names."""

from dataclasses import replace
from functools import cache

import pytest
from seen import assert_readable, words

from woodref.charts.dumbbell import MOST, dumbbells
from woodref.charts.figure import svg_text
from woodref.charts.scatter import hardness_density
from woodref.choose.background import hardness_and_density
from woodref.choose.compare import COMPARED, compare
from woodref.choose.overview import USUAL_BOARDS
from woodref.errors import NoDataError
from woodref.reference.library import Reference

SETS = {
    "two": ["hickory", "hard maple"],
    "five": ["cherry", "walnut", "white oak", "hard maple", "white ash"],
    "alike": ["red oak", "white oak", "white ash", "yellow birch", "American beech", "sweet birch"],
    "eight": [
        *("cherry", "walnut", "white oak", "red oak", "hard maple", "white ash"),
        *("American beech", "yellow birch"),
    ],
    "far apart": ["balsa", "lignumvitae", "teak", "basswood", "Pinus strobus"],
    "no Janka": ["European maple", "teak", "Ohio buckeye"],
}
LONG = "quarter-sawn mountain whitewood of the far north valley"


@pytest.fixture(scope="module")
def library():
    return Reference()


@pytest.fixture(scope="module")
def crowd(library):
    return hardness_and_density(library)


@cache
def wood(library, name):
    return library.wood(name)


def compared(library, names, units="us", properties=None):
    woods = [wood(library, n) if isinstance(n, str) else n for n in names]
    return compare(woods, USUAL_BOARDS[units], properties)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("names", SETS.values(), ids=SETS)
def test_hardness_against_weight_is_readable(library, crowd, names, units):
    found = compared(library, names, units)
    figure = hardness_density(found, crowd, units)
    told = assert_readable(figure)
    assert figure.get_size_inches()[0] * figure.dpi == 800
    density, force = ("lb/ft3", "lbf") if units == "us" else ("kg/m3", "N")
    (axes,) = figure.axes
    assert axes.get_xlabel() == f"density at 12 % ({density})"
    assert axes.get_ylabel() == f"side hardness, Janka, at 12 % ({force})"
    hard = found.row("side_hardness").cells
    for wood, cell in zip(found.woods, hard, strict=True):
        assert (wood.common_name in {t.rstrip("~") for t in told}) == (cell is not None)


@pytest.mark.parametrize("names", SETS.values(), ids=SETS)
def test_points_lie_where_the_figures_say(library, names):
    found = compared(library, names)
    (axes,) = hardness_density(found).axes
    points = {
        (round(float(x), 3), round(float(y), 3))
        for line in axes.lines
        if len(line.get_xdata()) == 1
        for x, y in [line.get_xydata()[0]]
    }
    told = zip(found.row("density").cells, found.row("side_hardness").cells, strict=True)
    # 1 kg/m3 is 0.0624279606 lb/ft3, 1 N is 0.2248089431 lbf (NIST SP 811, appendix B).
    assert points == {
        (round(d.value * 0.0624279606, 3), round(h.value * 0.2248089431, 3))
        for d, h in told
        if d and h
    }


def test_a_wood_that_lacks_a_figure_is_named_below_the_chart(library):
    figure = hardness_density(compared(library, ["hickory", "European maple"]))
    below = " ".join(figure.get_supxlabel().split())
    assert below == "Not in the chart: European maple (side hardness in no table)."


def test_woods_without_hardness_are_no_picture(library):
    with pytest.raises(NoDataError, match=r"European maple \(side hardness in no table\)"):
        hardness_density(compared(library, ["European maple", "Fraser fir"]))


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("names", SETS.values(), ids=SETS)
def test_woods_side_by_side_are_readable(library, names, units):
    found = compared(library, names, units)
    figure = dumbbells(found, None, units)
    told = assert_readable(figure)
    assert figure.get_size_inches()[0] * figure.dpi == 800
    gaps = sum(
        c is None
        for key in ("side_hardness", "board_mass", "movement_flat", "modulus_of_elasticity")
        for row in [found.row(key)]
        if row
        for c in row.cells
    )
    assert told.count("in no table") == gaps


def test_figures_asked_for_are_drawn_and_no_more_than_fit(library):
    found = compared(library, SETS["two"], properties=["side_hardness"])
    assert [a.get_title(loc="left") for a in dumbbells(found, ["side_hardness"]).axes] == [
        "side hardness at 12 %"
    ]
    many = compared(library, SETS["five"], properties=COMPARED)
    figure = dumbbells(many, COMPARED)
    assert len(figure.axes) == MOST
    assert_readable(figure)


def test_the_line_says_whether_boards_show_the_difference(library):
    found = compared(library, ["hickory", "hard maple", "basswood"])
    axes = dumbbells(found).axes[0]
    joined = [x.get_linestyle() for x in axes.lines if x.get_color() == "#222222"]
    verdicts = [c.verdict for c in found.row("side_hardness").contrasts]
    assert verdicts == ["slight", "clear"]
    assert [s for s in joined if s != "None"][::2] == ["--", "-"]


@pytest.mark.parametrize(("units", "printed"), [("us", "1,450 lbf"), ("si", "6,400 N")])
def test_a_printed_figure_is_drawn_and_written_as_print_gives_it(library, units, printed):
    # Sugar maple, Wood Handbook FPL-GTR-190 (2010), Tables 5-3a and 5-3b.
    found = compared(library, ["white oak", "hard maple"])
    assert printed in words(dumbbells(found, None, units))


@pytest.mark.parametrize("draw", [hardness_density, dumbbells])
def test_long_names_and_doubled_woods_stay_readable(library, draw):
    wood = library.wood("hickory")
    woods = [replace(wood, common_name=f"{LONG} {i}") for i in "abcd"]
    assert_readable(draw(compared(library, woods)))


@pytest.mark.parametrize("draw", [hardness_density, dumbbells])
def test_the_same_woods_are_the_same_picture(library, draw):
    one, two = (svg_text(draw(compared(library, SETS["five"]))) for _ in range(2))
    assert one == two
    assert svg_text(draw(compared(library, SETS["two"]))) != one


def test_the_title_is_what_is_found(library):
    three = compared(library, ["hard maple", "hickory", "basswood"])
    title = " ".join(dumbbells(three).get_suptitle().split())
    assert title == (
        "On average true hickory is the hardest, the heaviest and the stiffest; American basswood "
        "moves least"
    )
    one = " ".join(dumbbells(three, ["side_hardness"]).get_suptitle().split())
    assert one == "On average true hickory is the hardest"
    both = " ".join(hardness_density(three).get_suptitle().split())
    assert both == "On average true hickory is the hardest and the heaviest of 3 woods"


def test_movement_is_told_in_fractions_and_in_whole_steps(library):
    names = ["hard maple", "basswood"]
    us = words(dumbbells(compared(library, names), ["movement_flat"], "us"))
    assert {"3/16 in", "5/32 in"} <= set(us)
    assert not any(w.startswith("0.") for w in us)
    si = words(dumbbells(compared(library, names, "si"), ["movement_flat"], "si"))
    assert any(w.endswith(" mm") for w in si)
