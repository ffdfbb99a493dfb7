"""What results look like at the prompt and in a notebook."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import woodref
from woodref.display import Grid, html_table, likely, number

STAVES = [woodref.Stave(100.0)] * 3
BENCH = Path(__file__).resolve().parents[1] / "datasets" / "demo" / "hall-bench.toml"
RAILS = [woodref.CutPart("rail", 1200.0, 60.0, 20.0, "European beech", 6)]


@cache
def house():
    """A room to live in."""
    return woodref.season("Duluth", "heated house")


@cache
def bench():
    """The estimate of an invented bench."""
    return woodref.estimate(BENCH)


RESULTS = {
    "wood": lambda: woodref.wood("sugar maple"),
    "group": lambda: woodref.wood("red oak group"),
    "value": lambda: woodref.wood("sugar maple").value("side_hardness"),
    "find": lambda: woodref.find("rosewood"),
    "printed": lambda: woodref.printed("sugar maple")[0],
    "compare": lambda: woodref.compare("sugar maple", "teak"),
    "rank": lambda: woodref.rank("tabletop", limit=3),
    "substitute": lambda: woodref.substitute("white ash", "tabletop", limit=3),
    "use": lambda: woodref.uses()["tabletop"],
    "movement": lambda: woodref.movement("sugar maple", 300, 6, 10),
    "stability": lambda: woodref.stability("sugar maple"),
    "panel": lambda: woodref.panel("sugar maple", STAVES, 7, 11),
    "density": lambda: woodref.density("sugar maple"),
    "weight": lambda: woodref.weight("sugar maple", 2400, 150, 25, quantity=3),
    "section": lambda: woodref.section("sugar maple", 200, 25, 12, 6, 50.0),
    "deflection": lambda: woodref.deflection("sugar maple", woodref.Span(900.0, 250.0, 19.0)),
    "fastener": lambda: woodref.fastener("cherry", screw="#8", into_mm=25.0),
    "fixing": lambda: woodref.fixing("cherry", "button", 7, 6, 10, width_mm=700, gap=6),
    "room": house,
    "season": lambda: house().season,
    "place": lambda: house().place,
    "lag": lambda: woodref.lag("cherry", 20.0, 6.0, 12.0, [7.0, 30.0]),
    "lag_year": lambda: woodref.lag_year("cherry", 20.0, finishes=["linseed oil sealer"]),
    "acclimate": lambda: woodref.acclimate("cherry", 25.0),
    "delivery": lambda: woodref.delivery("cherry", 20.0, 7.0, house()),
    "load": lambda: woodref.load(
        [woodref.WoodPart("shelf", woodref.wood("teak"), woodref.Shape("box", 900, 250, 19), 3)],
        [woodref.Item("screws", 0.01, 20)],
    ),
    "crate": lambda: woodref.crate((900, 250, 800), 20.0, woodref.Packing(25.0)),
    "buy": lambda: woodref.buy(RAILS, ["27 x 160 x 2500 European beech"], effort="quick"),
    "estimate": bench,
    "weigh": lambda: woodref.own_weigh("white oak", 1219, 152, 25.4, 3.6, 8),
}


@pytest.mark.parametrize("name", RESULTS)
def test_a_result_prints_as_one_line(name):
    result = RESULTS[name]()
    text = repr(result)
    assert text.startswith(f"<{type(result).__name__}: ")
    assert text.endswith(">")
    assert "\n" not in text
    assert len(text) <= 140


def test_the_line_tells_the_figure_and_its_range():
    # Sugar maple: Wood Handbook FPL-GTR-190 (2010), Table 5-3b, 1,450 lbf.
    line = repr(woodref.wood("sugar maple").value("side_hardness"))
    assert line.startswith("<Value: side_hardness 12pct 6450 N, likely ")
    m = woodref.movement("sugar maple", 300, 6, 10)
    assert number(m.after_mm) in repr(m)
    assert number(m.likely_mm.low) in repr(m)


@pytest.mark.parametrize(
    "name",
    [
        *("wood", "group", "find", "compare", "rank", "substitute", "panel", "room", "season"),
        *("acclimate", "delivery", "load", "estimate"),
    ],
)
def test_a_notebook_shows_a_table(name):
    html = RESULTS[name]()._repr_html_()
    rows = re.findall(r"<tr>.*?</tr>", html)
    assert len(rows) > 2
    assert len({row.count("<t") for row in rows}) == 1
    assert "None" not in html


def test_a_result_without_a_table_is_shown_as_text():
    assert RESULTS["movement"]()._repr_html_() is None


def test_what_a_person_wrote_is_escaped():
    html = html_table("<b>", Grid(("a & b",), [("<script>",), (None,), (0.123456,)]))
    assert "<b>" not in html
    assert "<script>" not in html
    assert "a &amp; b" in html
    assert "<td></td>" in html
    assert "<td>0.1235</td>" in html
    named = replace(RESULTS["place"](), name="<img>", region_code="")
    assert "<img>" not in replace(RESULTS["room"](), place=named)._repr_html_()


def test_numbers_have_four_digits():
    assert [number(x) for x in (12345.6, 0.000123456, 6400.0, None)] == [
        "12350", "0.0001235", "6400", "",
    ]  # fmt: skip
    assert likely(0.5, None, None, "") == "0.5"
    assert likely(0.5, 0.4, 0.6, "") == "0.5, likely 0.4 to 0.6"
