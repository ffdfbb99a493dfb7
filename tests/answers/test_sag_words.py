"""What is said of sag: loads, verdicts, thicknesses, and the lines of a piece."""

import re
from dataclasses import replace
from types import SimpleNamespace

import pytest

from woodref.answers.deflection import deflection_answer
from woodref.answers.piece_extras import span_lines
from woodref.answers.render import render
from woodref.answers.sag_words import load_words, needed_words, verdict_words
from woodref.board.beam_material import of_panel
from woodref.board.deflection import deflection
from woodref.board.sag_limits import parse_limit
from woodref.board.span import Span, carrying
from woodref.reference.library import Reference
from woodref.reference.sag_rules import Carried, sag_rules

RULES = sag_rules(Reference(own=False))
BARE = Span(900.0, 250.0, 19.0)
MATERIAL = of_panel("birch plywood", modulus_mpa=9000.0, density_kg_m3=650.0)


def sag(thickness=19.0, load=Carried.BOOKS, limit="", **more):
    span = carrying(replace(BARE, thickness_mm=thickness, **more), load, RULES)
    own = parse_limit(limit) if limit else None
    return deflection(MATERIAL, span, RULES, own_limit=own)


@pytest.mark.parametrize(
    ("load", "us", "si"),
    [
        (Carried.SHELF, "40 lb/ft2, the usual load of a shelf", "195 kg/m2"),
        (Carried.BOOKS, "50 lb/ft2, the usual load of books", "244 kg/m2"),
        (Carried.BOOK_ROW, "a row of books, 25 lb per foot", "37.2 kg per meter"),
        (Carried.NOTHING, "its own weight alone", "its own weight alone"),
    ],
)
def test_loads_are_told_as_a_shop_counts_them(load, us, si):
    span = sag(load=load).span
    assert load_words(span, "us") == us
    assert si in load_words(span, "si")


def test_a_load_nobody_named_is_told_as_such():
    assert load_words(sag(load=None).span, "us").endswith("a shelf (no load was named)")
    both = sag(load=Carried.BOOKS, point_n=222.4).span
    assert load_words(both, "us").endswith("books and 50 lb on one spot")


@pytest.mark.parametrize(
    ("thickness", "limit", "words"),
    [
        (40.0, "", "meets the trade limit L/144 ({}) and L/360 ({}) for a straight look"),
        (22.0, "", "meets the trade limit L/144 ({}), not L/360 ({}) for a straight look"),
        (14.0, "", "meets neither the trade limit L/144 ({}) nor L/360 ({}) for a straight look"),
        (
            22.0,
            "L/500",
            "does not meet your limit L/500 ({}) or L/360 ({}) for a straight look; "
            "meets the trade limit L/144 ({})",
        ),
    ],
)
def test_the_verdict_names_what_is_met(thickness, limit, words):
    told = verdict_words(sag(thickness, limit=limit), "us")
    assert re.sub(r"\([^)]*\)", "({})", told) == words


def test_a_figure_of_ones_own_has_no_limber_board():
    assert re.fullmatch(
        r"Thickness needed: .* in for L/144 and .* for L/360\.", needed_words(sag(), "us")
    )
    heavy = sag(load=None, uniform_n_m=1e9)
    assert "more than 500 mm for L/144" in needed_words(heavy, "si")


def test_a_metric_answer_holds_no_inches():
    for d in (sag(), sag(load=None), sag(short=True), sag(load=Carried.NOTHING)):
        for style in ("table", "json", "markdown"):
            text = render(deflection_answer(d, "si"), "si", style)
            assert not re.search(r"\d in\b|_in\"|lb|ft2|\d F\b", text)


def test_the_lines_of_a_piece_begin_with_what_is_not_good():
    def result(name, found, missing=False):
        return SimpleNamespace(spec=SimpleNamespace(name=name), sag=found, load_missing=missing)

    spans = (
        result("rail", sag(40.0)),
        result("shelf", sag(22.0)),
        result("tray", sag(14.0)),
        result("cleat", None, missing=True),
        result("ledge", sag(load=Carried.NOTHING)),
    )
    lines = span_lines(SimpleNamespace(spans=spans), "us")
    starts = ("Sag of the cleat is not judged", "Sags too much: tray", "The shelf sags")
    assert [any(line.startswith(s) for line in lines) for s in starts] == [True] * 3
    assert lines[-1] == "Sag of the rest: ok (1 span, within L/360)."
    assert len(lines) == 4
    assert span_lines(SimpleNamespace(spans=()), "us") == []
    assert span_lines(SimpleNamespace(spans=spans[:1]), "us") == ["Sag: ok (1 span, within L/360)."]
