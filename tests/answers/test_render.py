import csv
import io
import json
from datetime import date
from decimal import Decimal
from html import escape
from math import inf, nan

import duckdb
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.render import FORMATS, render
from woodref.printable import printable
from woodref.spreadsheet import as_cell, as_cell_sql

MEMORY = duckdb.connect(":memory:", config={"threads": 1})

COLUMNS = [
    Column("wood", "wood"),
    Column("width", "width", "size"),
    Column("count", "pieces", "count"),
    Column("seen", "seen"),
]


@pytest.fixture
def answer():
    return Answer(
        headline=["A top, 38 in wide."],
        facts=[(Column("mass", "", "mass"), 10.0), (Column("note", ""), None)],
        sections=[
            Section(
                "parts",
                "Parts",
                COLUMNS,
                [
                    {"wood": 'oak, "white" | red', "width": 965.2, "count": 3, "seen": True},
                    {"wood": "ash\n*new*", "width": None, "count": 1200, "seen": False},
                ],
            ),
            Section("nothing", "Nothing", [Column("x", "x")], []),
        ],
        notes=["A note with | and <tag>."],
    )


def test_table(answer):
    assert render(answer, "us", "table").splitlines() == [
        "A top, 38 in wide.",
        "",
        "Parts",
        "  wood                width  pieces  seen",
        '  oak, "white" | red  38 in       3  yes',
        "  ash *new*                   1,200  no",
        "",
        "A note with | and <tag>.",
    ]


def test_table_in_si(answer):
    assert "965.2 mm" in render(answer, "si", "table")


def test_json_keys_carry_the_unit_and_values_are_numbers(answer):
    data = json.loads(render(answer, "us", "json"))
    assert list(data) == ["answer", "units", "mass_lb", "note", "parts", "nothing", "notes"]
    assert data["mass_lb"] == 22.05
    assert data["parts"][0] == {
        "wood": 'oak, "white" | red',
        "width_in": 38.0,
        "count": 3,
        "seen": True,
    }
    assert data["parts"][1]["width_in"] is None
    assert data["nothing"] == []
    assert list(json.loads(render(answer, "si", "json"))["parts"][0])[1] == "width_mm"


def test_json_has_no_number_that_json_cannot_hold():
    columns = [Column(k, k, "ratio") for k in "ab"] + [Column("c", "c"), Column("d", "d")]
    rows = [{"a": nan, "b": inf, "c": nan, "d": date(2020, 1, 2)}]
    text = render(Answer(sections=[Section("s", "", columns, rows)]), "si", "json")
    assert json.loads(text)["s"] == [{"a": None, "b": None, "c": None, "d": "2020-01-02"}]
    assert "nan" not in render(Answer(sections=[Section("s", "", columns, rows)]), "si", "table")


def test_csv_is_the_first_section_and_quotes(answer):
    rows = list(csv.reader(io.StringIO(render(answer, "us", "csv"))))
    assert rows == [
        ["wood", "width_in", "count", "seen"],
        ['oak, "white" | red', "38.0", "3", "True"],
        ["ash\n*new*", "", "1200", "False"],
    ]


def test_csv_of_the_section_named_main(answer):
    answer.main = "nothing"
    assert render(answer, "us", "csv") == "x"


def test_csv_of_facts_where_there_is_no_section():
    facts = [(Column("emc", "", "percent"), 7.654), (Column("wood", ""), "oak")]
    assert render(Answer(facts=facts), "us", "csv") == "emc_pct,wood\n7.65,oak"


def test_markdown_escapes_what_would_mark_up(answer):
    assert render(answer, "us", "markdown").splitlines() == [
        "**A top, 38 in wide.**",
        "",
        "### Parts",
        "",
        "| wood | width | pieces | seen |",
        "| --- | ---: | ---: | --- |",
        '| oak, "white" \\| red | 38 in | 3 | yes |',
        "| ash \\*new\\* |  | 1,200 | no |",
        "",
        "- A note with \\| and \\<tag>.",
    ]


def test_a_column_without_a_head_is_for_programs_alone():
    columns = [Column("name", "name"), Column("license", "")]
    rows = [{"name": "oak", "license": "free"}]
    answer = Answer(sections=[Section("s", "", columns, rows)])
    assert render(answer, "us", "table") == "  name\n  oak"
    assert render(answer, "us", "markdown") == "| name |\n| --- |\n| oak |"
    assert render(answer, "us", "csv") == "name,license\noak,free"
    assert json.loads(render(answer, "us", "json"))["s"] == rows


def test_text_is_folded_to_the_page_and_numbers_are_not():
    columns = [Column("size", "size", "size"), Column("source", "source")]
    rows = [{"size": 25.4, "source": "A handbook of words " * 10}, {"size": 50.8, "source": "B"}]
    answer = Answer(sections=[Section("s", "", columns, rows)])
    for width in (40, 80, 120):
        lines = render(answer, "us", "table", width).splitlines()
        assert max(map(len, lines)) <= width
        assert lines[1].startswith("  1 in  A handbook of words A")
        assert lines[2].startswith("        ")
        assert lines[-1] == "  2 in  B"
    assert "A handbook of words " * 9 in render(answer, "us", "csv")
    # Too many columns to fit: every one as narrow as it may be.
    wide = [Column(f"c{i}", f"column number {i}") for i in range(20)]
    row = {f"c{i}": "some words of text that go on" for i in range(20)}
    text = render(Answer(sections=[Section("s", "", wide, [row])]), "us", "table", 80)
    assert max(map(len, text.splitlines())) == 20 * 18


@given(
    st.lists(
        st.tuples(
            st.text(max_size=20),
            st.one_of(st.none(), st.floats(-1e9, 1e9), st.just(nan), st.integers(-9, 9)),
        ),
        max_size=5,
    ),
    st.sampled_from(["us", "si"]),
)
def test_any_rows_render_in_every_format(rows, units):
    columns = [Column("name", "name"), Column("size", "size", "size")]
    section = Section("rows", "", columns, [{"name": n, "size": s} for n, s in rows])
    found = {style: render(Answer(sections=[section]), units, style) for style in FORMATS}
    assert [r["name"] for r in json.loads(found["json"])["rows"]] == [n for n, _ in rows]
    printed = found["markdown"].splitlines()
    assert len(printed) == (len(rows) + 2 if rows else 0)


#: What a person may have put into a name: formulas, links, markup.
HOSTILE = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "\t=1",
    "\r=1",
    '=HYPERLINK("http://example.invalid","x")',
    "\N{FULLWIDTH EQUALS SIGN}1",
    "-",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_spreadsheet_computes_no_text(text):
    columns = [Column("wood", "wood"), Column("width", "width", "size")]
    rows = [{"wood": text, "width": -1.0}]
    written = render(Answer(sections=[Section("s", "", columns, rows)]), "si", "csv")
    # The number stays one.
    assert list(csv.reader(io.StringIO(written, newline=""))) == [
        ["wood", "width_mm"],
        [f"'{printable(text)}", "-1.0"],
    ]
    assert json.loads(render(Answer(sections=[Section("s", "", columns, rows)]), "si", "json"))[
        "s"
    ] == [{"wood": text, "width_mm": -1}]


@pytest.mark.parametrize("text", ["-0.5", "+1", "1-2", "-1.234,5", "-1e-3", "oak = red", "", " =x"])
def test_other_text_in_csv_is_as_it_was(text):
    assert as_cell(text) == text


@given(st.text(alphabet="=+-@\t\r1,.eE\uff1d\uff0da' ", max_size=6))
def test_python_and_sql_tell_a_formula_alike(text):
    made = MEMORY.execute(f"select {as_cell_sql('x')} from (select ? as x)", [text]).fetchall()
    assert made == [(as_cell(text),)]


def test_json_holds_what_sql_gives():
    row = {
        "decimal": Decimal("1.50"),
        "whole": Decimal("12345678901234567890"),
        "list": [1.5, nan, None, [inf, Decimal("0.1")]],
        "map": {1: nan, "when": date(2020, 1, 2)},
        "tuple": (1, -inf),
    }
    columns = [Column(k, k) for k in row]
    answer = Answer(sections=[Section("s", "", columns, [row])])
    assert json.loads(render(answer, "si", "json"))["s"] == [
        {
            "decimal": 1.5,
            "whole": 12345678901234567890,
            "list": [1.5, None, None, [None, 0.1]],
            "map": {"1": None, "when": "2020-01-02"},
            "tuple": [1, None],
        }
    ]
    cells = list(csv.reader(io.StringIO(render(answer, "si", "csv"))))[1]
    assert cells[:2] == ["1.5", "12345678901234567890"]
    assert json.loads(cells[2]) == [1.5, None, None, [None, 0.1]]


def test_markdown_has_no_markup_of_others():
    text = "[x](http://example.invalid) ![y](z) <b>a|b</b> _so_ __so__ ~~no~~ &lt; a_b `c` \\"
    columns = [Column("wood", "wood")]
    answer = Answer(
        headline=[text],
        sections=[Section("s", text, columns, [{"wood": text}])],
        notes=[
            text,
            "# no heading",
            "> none",
            "- none",
            "+ none",
            "1. none",
            "---",
            "-5 %",
            "3.5 in",
        ],
    )
    written = render(answer, "si", "markdown")
    html = MarkdownIt("commonmark").enable(["table", "strikethrough"]).render(written)
    for tag in ("<a", "<img", "<b>", "<em", "<code", "<s>", "<h1", "<blockquote", "<ol", "<hr"):
        assert tag not in html, tag
    assert html.count("<ul") == 1
    assert html.count("<td>") == 1
    assert html.count(escape(text, quote=False)) == 4
    assert "- -5 %\n- 3.5 in" in written
