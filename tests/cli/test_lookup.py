"""find, show and compare at the command line; their whole answers are in test_golden.py."""

import csv
import io
import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")


def data(woodref, *arguments):
    result = woodref(*arguments, "--format", "json")
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


def first_lines(woodref, *arguments, n=2):
    result = woodref(*arguments)
    assert (result.code, result.err) == (0, "")
    return " ".join(result.out.splitlines()[:n])


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["show", "suger maple"], "no wood is called 'suger maple'; nearest: sugar maple"),
        (["show", "cedar"], "'cedar' is sold as several woods; choose one: "),
        (["show", ""], "no wood is called ''"),
        (["find", "xqzvwk"], "no wood is called 'xqzvwk'"),
        (["compare", "teak"], "compare takes two woods or more"),
        (["compare", "teak", "cedar"], "'cedar' is sold as several woods"),
        (["compare", "teak", "wite oak"], "nearest: white oak"),
        (
            ["compare", "teak", "white oak", "--property", "hadrness"],
            "--property 'hadrness' is no figure of the tables; nearest: hardness",
        ),
        (["compare", "teak", "white oak", "--property", ""], "is no figure of the tables"),
        (
            ["compare", "teak", "white oak", "--property", "brinell"],
            "no table holds brinell_hardness of these woods",
        ),
    ],
)
def test_bad_input_is_one_line_and_exit_2(woodref, arguments, message):
    result = woodref(*arguments)
    assert result.code == 2
    assert result.out == ""
    assert result.err.count("\n") == 1
    assert message in result.err


def test_question_which_woods_can_the_name_be(woodref):
    lead = first_lines(woodref, "find", "mahogany")
    for wood in ("American mahogany", "African mahogany", "dark red meranti", "tells them apart"):
        assert wood in lead


def test_question_how_hard_is_hickory_beside_hard_maple(woodref):
    for units in ("us", "si"):
        lead = first_lines(
            woodref, "compare", "hickory group", "hard maple group", "--units", units
        )
        assert lead.startswith("Side hardness at 12 %: hickory ")
        assert (" lbf" in lead, " N" in lead) == (units == "us", units == "si")
        assert "Single boards likely: hickory " in lead
        assert "half again as hard as hard maple" in lead


def test_question_oak_against_beech_in_metric(woodref):
    lead = first_lines(woodref, "compare", "European oak", "European beech", "--units", "si", n=6)
    assert "Weight of 25 x 150 x 2400 mm at 8 %: European oak " in lead
    assert "Movement of 300 mm flat sawn: European oak " in lead
    assert " kg" in lead
    assert " mm" in lead


def test_question_says_who(woodref):
    found = data(woodref, "show", "white oak", "--sources")
    used = {(r["property_id"], r["condition"]): r for r in found["used_printed_values"]}
    hardness = used["side_hardness", "12pct"]
    assert hardness["publication"].startswith("Wood Handbook")
    assert hardness["table"] == "5-3b"
    assert hardness["page"]
    assert hardness["basis"] in ("checked", "checked_twice")
    others = [r for r in found["other_printed_values"] if r["property_id"] == "side_hardness"]
    assert {r["printed"] for r in others} == {"6000 N", "4700 N"}
    assert all(r["agrees"] == "agrees" and r["why_not_used"] for r in others)


def test_a_value_that_disagrees_says_by_how_much(woodref):
    found = data(woodref, "show", "European beech", "--sources")
    told = {r["agrees"] for r in found["other_printed_values"]}
    assert any(t.endswith(" %") and t[0] in "+-" for t in told)
    assert "do not" in " ".join(found["answer"])


def test_the_page_of_white_oak_leads_with_what_a_maker_asks(woodref):
    lead = first_lines(woodref, "show", "white oak", n=12)
    for words in (
        "weighs",
        "moves",
        "flat sawn",
        "quarter sawn",
        "1,360 lbf",
        "Dust",
        "restriction",
    ):
        assert words in lead
    first = woodref("show", "white oak").out.splitlines()[0]
    assert first.startswith("White oak (")
    assert '"white oak group"' in first


def test_json_has_the_value_that_is_printed_in_the_units(woodref):
    # Wood Handbook FPL-GTR-190 (2010), Tables 5-3a and 5-3b: 6,000 N and 1,360 lbf.
    for units, hardness in (("us", 1360.0), ("si", 6000.0)):
        found = data(woodref, "show", "white oak", "--units", units)
        row = next(
            r
            for r in found["figures"]
            if (r["property_id"], r["condition"]) == ("side_hardness", "12pct")
        )
        assert row["value"] == hardness
        assert row["printed"] == ("1360 lbf" if units == "us" else "6000 N")
        assert row["value_low"] < row["value"] < row["value_high"]
    assert {"board_mass_kg", "movement_flat_mm", "movement_quarter_low_mm"} <= set(found)


def test_recalled_and_quoted_figures_are_marked_and_explained(woodref):
    jarrah = woodref("show", "jarrah").out
    assert "7.7*" in jarrah
    assert "* unchecked, from memory and not seen in print." in jarrah
    assert (
        "~ estimated, read only in a document that quotes" in woodref("show", "European beech").out
    )
    found = data(woodref, "show", "jarrah")
    assert "unchecked" in {r["basis"] for r in found["figures"]}


def test_cautions_are_shown_from_print_alone_and_ask_to_check_the_listing(woodref):
    found = data(woodref, "show", "cocobolo")
    kinds = {c["caution"] for c in found["cautions"]}
    assert kinds == {"dust", "trade control"}
    assert all(c["basis"] != "unchecked" for c in found["cautions"] if c["caution"] == "dust")
    out = woodref("show", "cocobolo").out
    assert "CITES Appendix II since 2017-01-02" in out
    assert "check the current listing" in out


def test_a_wood_without_a_number_says_so(woodref):
    sql = "select species_id from species where data_coverage = 'no data' order by 1 limit 1"
    (row,) = data(woodref, "sql", sql)["rows"]
    for command in ("find", "show"):
        lead = first_lines(woodref, command, row["species_id"], n=1)
        assert "is known, but no table holds a number" in lead


def test_a_group_is_shown_with_its_members(woodref):
    found = data(woodref, "show", "soft maple group")
    assert len(found["members"]) > 3
    assert {r["species_id"] for r in found["ratings"]} > {"acer-rubrum"}
    assert "red maple" in woodref("show", "soft maple group").out


def test_find_a_part_and_a_misspelt_name(woodref):
    part = data(woodref, "find", "bur")
    assert "bur oak" in {r["wood"] for r in part["containing"]}
    near = data(woodref, "find", "wite oak")
    assert near["near"][0]["by_name"] in ("", "white oak")
    assert near["near"][0]["wood"] == "white oak"
    assert near["exact"] == []


def test_compare_three_woods_and_what_is_missing(woodref):
    result = woodref("compare", "white oak", "teak", "European ash", "--units", "si")
    assert result.code == 0
    assert "to teak" in result.out
    assert "5,605~" in result.out
    assert "~ estimated, read only in a document" in result.out
    assert "the two are never compared" in result.out
    assert "at least 0.9, slight at 0.7" in result.out


def test_compare_asked_for_one_property(woodref):
    found = data(woodref, "compare", "teak", "white oak", "--property", "stiffness")
    assert {r["figure_id"] for r in found["comparison"]} == {"modulus_of_elasticity"}
    first, second = found["comparison"]
    assert first["first_over_this"] is None
    assert second["first_over_this"] == pytest.approx(first["value"] / second["value"], abs=0.01)
    assert second["difference"] in ("clear", "slight", "within natural spread")


@pytest.mark.parametrize(
    ("arguments", "column"),
    [
        (["find", "oak"], "side_hardness_lbf"),
        (["show", "teak"], "property_id"),
        (["compare", "teak", "white oak"], "chance_first_exceeds"),
    ],
)
def test_csv_and_markdown(woodref, arguments, column):
    rows = list(csv.DictReader(io.StringIO(woodref(*arguments, "--format", "csv").out)))
    assert column in rows[0]
    assert len(rows) > 3
    markdown = woodref(*arguments, "--format", "markdown").out
    assert markdown.startswith("**")
    assert "| --- |" in markdown or "| ---" in markdown


@pytest.mark.parametrize("command", ["find", "show"])
def test_a_panel_is_no_wood_and_the_way_to_give_it_is_told(woodref, command):
    result = woodref(command, "plywood")
    assert result.code == 2
    assert "'plywood' is a panel, not a wood: a piece names it under [[sheets]]" in result.err


def test_a_missing_file_is_never_taken_for_one_of_another_name(woodref, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "pyproject.toml").write_text("")
    (tmp_path / "bench.toml").write_text("")
    assert "did you mean" not in woodref("estimate", "nofile.toml").err
    assert "did you mean 'bench.toml'?" in woodref("estimate", "bensh.toml").err
