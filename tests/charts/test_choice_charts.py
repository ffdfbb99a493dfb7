"""Pictures of a choice: points that add up, ties, zones of look, stock told by shape."""

from dataclasses import replace

import pytest
from matplotlib.patches import Rectangle
from seen import assert_readable

import woodref
from woodref.charts import best_beside, look_against_work, rank_bars, svg_text
from woodref.charts.look_work import woods_drawn
from woodref.choose.look_distance import band_of
from woodref.formulas.spread import Difference


@pytest.fixture(scope="module")
def tops():
    return woodref.rank("tabletop")


@pytest.fixture(scope="module")
def benches():
    return woodref.rank("outdoor bench", all_woods=True)


@pytest.fixture(scope="module")
def walnuts():
    return woodref.substitute("black walnut", "tabletop")


@pytest.fixture(scope="module")
def oaks():
    return woodref.substitute("white oak", "tabletop", all_woods=True)


def parts(figure):
    """The parts of the bars, line by line: (left, width, face color, hatch)."""
    lines = {}
    for patch in figure.axes[0].patches:
        if isinstance(patch, Rectangle):
            line = round(patch.get_y() + patch.get_height() / 2.0)
            bar = lines.setdefault(line, [])
            bar.append((patch.get_x(), patch.get_width(), patch.get_facecolor(), patch.get_hatch()))
    return [lines[n] for n in sorted(lines)]


def test_the_points_of_the_criteria_lie_end_to_end_and_add_up_to_the_score(tops):
    figure = rank_bars(tops)
    told = assert_readable(figure)
    bars = parts(figure)
    assert len(bars) == 12 < len(tops.woods)
    for bar, wood in zip(bars, tops.woods, strict=False):
        assert [width for _, width, *_ in bar] == [c.points for c in wood.contributions]
        assert bar[-1][0] + bar[-1][1] == pytest.approx(wood.score)
        assert all(
            left == pytest.approx(sum(b[1] for b in bar[:n])) for n, (left, *_) in enumerate(bar)
        )
        assert f"{wood.score:.0f}" in told
    # No criterion is told from another by color alone.
    assert len({hatch for *_, hatch in bars[0]}) == len(tops.scales)
    heads = [t.get_text() for t in figure.axes[0].get_legend().get_texts()]
    assert {f"moves (of {100 * tops.scales[0].share:.0f})", "hardness (of 25)"} <= set(heads)


def test_the_title_is_the_finding_and_the_bracket_holds_the_ties(tops):
    figure = rank_bars(tops)
    title = " ".join(figure.get_suptitle().split())
    first, tie, other = tops.woods[0], *tops.ties[:2]
    more = len(tops.ties) - 2
    assert more > 1
    assert title.lower() == (
        f"{first.name} comes first; {tie.name}, {other.name} and {more} more tie with it"
    )
    ticks = [line.get_ydata()[0] for line in figure.axes[0].lines[1:]]
    assert ticks == [n for n, w in enumerate(tops.woods[:12]) if n == 0 or w.is_tie]


def test_where_nothing_ties_the_title_says_how_far_the_first_is_ahead(tops):
    def standing(verdict):
        woods = [
            replace(w, against_best=w.against_best and replace(w.against_best, verdict=verdict))
            for w in tops.woods
        ]
        return rank_bars(replace(tops, woods=tuple(woods)))

    clear = standing(Difference.CLEAR)
    assert clear.get_suptitle() == "Sapele comes first, clearly ahead of the rest"
    assert not clear.axes[0].lines
    slight = standing(Difference.SLIGHT).get_suptitle()
    assert slight == "Sapele comes first, slightly ahead of the rest"
    one = replace(tops, woods=tops.woods[:1])
    assert rank_bars(one).get_suptitle() == "Sapele comes first"
    alone = rank_bars(replace(one, lines=1)).get_suptitle()
    assert alone == "Sapele is the only wood that passes"


def test_how_a_wood_is_stocked_stands_as_a_shape_behind_its_name(benches, tops):
    figure = rank_bars(benches)
    assert_readable(figure)
    names = [t.get_text() for t in figure.axes[0].get_yticklabels()]
    letters = {"commonly stocked": "●", "specialty": "▲"}
    assert names == [f"{w.name} {letters.get(w.stock, '✕')}" for w in benches.woods[:12]]
    assert len({n[-1] for n in names}) == 3
    assert "● commonly stocked, ▲ from dealers, ✕ seldom" in figure.get_supxlabel()
    # Where all are stocked alike a word says so, and no shape stands.
    assert rank_bars(tops).get_supxlabel().startswith("All of them commonly stocked.")


def test_a_bar_carries_the_marks_of_its_figures(benches):
    figure = rank_bars(benches)
    told = " ".join(assert_readable(figure)).partition("unchecked")[0]
    assert "~" in told
    assert "*" in told
    assert "?" in told
    below = " ".join(figure.get_supxlabel().split())
    assert "? not known, counts as middling" in below
    assert "~ estimated" in below


@pytest.mark.parametrize("found", ["walnuts", "oaks"])
def test_woods_stand_in_the_zone_of_their_look_at_their_distance_in_work(found, request):
    choice = request.getfixturevalue(found)
    figure = look_against_work(choice, "hardwood")
    told = assert_readable(figure)
    (axes,) = figure.axes
    drawn = woods_drawn(choice)
    assert {"close", "similar", "related", "not alike"} <= set(told)
    *points, first = [
        tuple(line.get_xydata()[0]) for line in axes.lines if len(line.get_xdata()) == 1
    ]
    assert first == (0.0, 0.0)
    assert axes.get_xlim()[0] == axes.get_ylim()[0] == 0.0
    assert [y for _, y in points] == [s.in_work for s in drawn]
    for (x, _), s in zip(points, drawn, strict=True):
        assert band_of(x) == s.look.band
    shapes = {
        s.stock: line.get_marker()
        for s, line in zip(drawn, [x for x in axes.lines if len(x.get_xdata()) == 1], strict=False)
    }
    wanted = {"commonly stocked": "o", "specialty": "^"}
    assert shapes == {stock: wanted.get(stock, "X") for stock in shapes}
    assert len(set(shapes.values())) > 1


def test_no_number_stands_at_the_look(walnuts):
    (axes,) = look_against_work(walnuts).axes
    assert list(axes.get_xticks()) == []
    assert axes.get_xlabel() == "look: the farther right, the less alike"


def test_the_title_names_what_is_nearest_in_look_and_in_work(walnuts):
    figure = look_against_work(walnuts)
    look, work = walnuts.nearest_in_look, walnuts.nearest_in_work
    assert " ".join(figure.get_suptitle().split()) == (
        f"Nearest black walnut in look: {look.name} ({look.look.band}); in work: {work.name}"
    )
    names = {t.rstrip("*~") for t in assert_readable(figure)}
    assert {f"1 {walnuts.woods[0].name}", work.name, "black walnut"} <= names


def test_a_wood_of_unknown_look_has_a_place_of_its_own(walnuts):
    last = walnuts.woods[-1]
    unknown = replace(last, look=replace(last.look, distance=None, band=None))
    figure = look_against_work(replace(walnuts, woods=(*walnuts.woods[:-1], unknown)))
    told = assert_readable(figure)
    assert "look not known" in told
    (axes,) = figure.axes
    farthest = max(x.get_xdata()[0] for x in axes.lines if len(x.get_xdata()) == 1)
    place = next(t for t in axes.texts if t.get_text() == "look not known")
    assert farthest == place.get_position()[0]


@pytest.mark.parametrize(
    ("units", "labels"),
    [
        ("us", {"lb", "in", "lbf", "movement of 12 in flat sawn"}),
        ("si", {"kg", "mm", "N", "movement of 370 mm flat sawn"}),
    ],
)
def test_the_three_best_stand_beside_the_first_in_the_units_asked(walnuts, units, labels):
    woods = {s.species_id: woodref.wood(s.species_id) for s in walnuts.woods}
    figure = best_beside(walnuts, woods, 370.0 if units == "si" else None, units)
    told = assert_readable(figure)
    assert labels <= set(told)
    names = [t.get_text() for t in figure.axes[0].get_yticklabels()]
    assert names == ["black walnut", *(s.name for s in walnuts.woods[:3])]
    assert figure.get_suptitle().startswith("Peruvian walnut in place of black walnut: ")
    below = " ".join(figure.get_supxlabel().split())
    assert below.startswith("Movement from 6.0 to 10.0 % moisture content.")


def test_movement_is_that_of_the_year_of_the_choice():
    # Twice the change of moisture is nearly twice the movement: Wood Handbook FPL-GTR-190
    # (2010), Eq. 13-2, p. 13-16.
    def ends(wettest):
        choice = woodref.substitute("white oak", "tabletop", driest_pct=6.0, wettest_pct=wettest)
        woods = {s.species_id: woodref.wood(s.species_id) for s in choice.woods}
        strip = best_beside(choice, woods, units="si").axes[1]
        return next(x.get_xdata()[0] for x in strip.lines if x.get_marker() == "o")

    assert ends(10.0) == pytest.approx(2.0 * ends(8.0), rel=0.03)


@pytest.mark.parametrize("draw", [rank_bars, look_against_work])
def test_the_same_choice_is_the_same_picture(draw, tops, walnuts):
    choice = tops if draw is rank_bars else walnuts
    assert svg_text(draw(choice)) == svg_text(draw(choice))
