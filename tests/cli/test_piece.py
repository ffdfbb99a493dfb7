"""estimate and template at the command line, on invented pieces.

Figures: test_golden.py. Cautions and sources, whose wording belongs to the dataset, are checked
for being there.
"""

import json
import re
from pathlib import Path

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "datasets" / "demo"
BENCH = DEMO / "hall-bench.toml"

PIECE = """
name = "box"
units = "si"
{more}
[build]
moisture_pct = 8
[use]
driest = {{ moisture_pct = 6 }}
wettest = {{ moisture_pct = 11 }}
[[parts]]
name = "side"
species = "{species}"
length = 600
width = 200
thickness = 18
"""
PRICES = "species,thickness,price,per\n{species},{thickness},10,board foot\n"


@pytest.fixture
def box(tmp_path):
    """Write a small piece, and a price list beside it, and return the path of the piece."""

    def write(species="white oak", more="", listed=None, thickness="4/4"):
        (tmp_path / "box.toml").write_text(PIECE.format(species=species, more=more))
        if listed:
            text = PRICES.format(species=listed, thickness=thickness)
            (tmp_path / "list.csv").write_text(text)
        return tmp_path / "box.toml"

    return write


def test_the_answer_stands_in_the_first_two_lines(woodref):
    first, second, third = woodref("estimate", BENCH).out.splitlines()[:3]
    assert re.search(r"[\d.]+ lb \([\d.]+ to [\d.]+\)", first)
    assert re.search(r"[\d.]+ USD \([\d.]+ to [\d.]+\)", first)
    assert second.startswith("Moves most: seat, 14-1/2 in wide, bare: 1/4 in (5/32 to 5/16)")
    assert third.startswith("Sag: ok")


def test_cautions_assumptions_and_sources_follow(woodref):
    out = " ".join(woodref("estimate", BENCH).out.split())
    for words in (
        "Caution, dust: The dust of any wood can",
        "Caution, tools:",
        "Caution, sheet goods:",
        "Nothing here is a structural design value",
        "local codes",
        "boards of one wood correlate by 0.5 (our assumption)",
        "a part of quantity n is n boards, a panel is its staves",
        "under 4/4 counted as 4/4 (grading rules, unchecked",
        "Wood Handbook FPL-GTR-282 (2021), Table 4-3",
    ):
        assert words in out


def test_explain_says_what_is_assumed_and_how_each_figure_came_about(woodref):
    out = " ".join(woodref("estimate", BENCH, "--explain").out.split())
    for words in (
        "Assumed: Fiber saturation at 30 %",
        "pp. 4-5 and 4-7 (checked)",
        "exact geometry",
        "lumber 25 % (20 to 35 %)",
        "Computed: white ash, density at the build: 1000 Gb / (1 - Sv/100 (1 - M/MCfs)) (1 + M/100)"
        " = ",
        "[FPL-GTR-282 (2021), Eq. 4-9]",
    ):
        assert words in out
        assert words not in " ".join(woodref("estimate", BENCH).out.split())
    data = json.loads(woodref("estimate", BENCH, "--explain", "--format", "json").out)
    assert {"of", "what", "formula", "numbers", "result", "unit", "source"} == set(
        data["explain"][0]
    )


def test_save_writes_the_whole_answer_whole_or_not_at_all(woodref, tmp_path):
    path = tmp_path / "out.json"
    shown = woodref("estimate", BENCH, "--save", path)
    assert shown == woodref("estimate", BENCH)
    whole = woodref("estimate", BENCH, "--format", "json").out
    assert path.read_text(encoding="utf-8") == whole
    path.write_text("old")
    assert woodref("estimate", BENCH, "--save", path).code == 2
    assert path.read_text(encoding="utf-8") == "old"
    woodref("estimate", BENCH, "--save", path, "--force")
    assert path.read_text(encoding="utf-8") == whole
    result = woodref("estimate", BENCH, "--save", tmp_path / "no" / "out.json")
    assert (result.code, result.out) == (2, "")
    assert "the folder" in result.err
    assert "does not exist; make it first" in result.err
    result = woodref("estimate", BENCH, "--save", tmp_path)
    assert (result.code, result.out) == (2, "")
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


def test_a_heavy_piece_is_no_lift_for_one(woodref, box):
    light = box()
    assert "Caution, lifting" not in woodref("estimate", light).out
    heavy = light.with_name("heavy.toml")
    heavy.write_text(light.read_text().replace('name = "side"', 'name = "side"\nquantity = 40'))
    out = " ".join(woodref("estimate", heavy).out.split())
    assert "Caution, lifting: The piece weighs more than 23 kg, the most" in out


def test_without_prices_the_estimate_goes_on_and_says_so(woodref, box):
    result = woodref("estimate", box())
    assert result.code == 0
    assert "; cost not known: nothing has a price." in result.out.splitlines()[0]
    assert "Not priced: no price list." in result.out


def test_a_wood_whose_name_several_share_goes_by_its_species_id(woodref, box):
    assert "'roble' is sold as several woods; choose one: " in woodref("estimate", box("roble")).err
    priced = 'prices = "list.csv"'
    found = woodref("estimate", box("tabebuia-spp-roble", priced, listed="tabebuia-spp-roble"))
    assert (found.code, found.err) == (0, "")
    assert "; materials " in found.out.splitlines()[0]


def test_a_wood_that_the_list_lacks_is_said(woodref, box):
    more = 'prices = "list.csv"\n[buying]\nyard_thicknesses = ["4/4"]'
    piece = box(more=more, listed="white oak", thickness="8/4")
    result = woodref("estimate", piece)
    assert result.code == 0
    assert "list.csv has no price for white oak 4/4, only 8/4." in " ".join(result.out.split())


def test_which_price_list_counts(woodref, box, tmp_path, monkeypatch):
    named = box(more='prices = "list.csv"', listed="white oak")
    dear = tmp_path / "dear.csv"
    dear.write_text(PRICES.format(species='"Oak, white"', thickness="4/4").replace("10", "20"))

    def cost(*arguments):
        result = woodref("estimate", *arguments, "--format", "json")
        return json.loads(result.out)["cost"]

    own = cost(named)
    assert cost(named, "--prices", dear) == pytest.approx(2 * own, abs=0.02)
    monkeypatch.setenv("WOODREF_PRICES", str(dear))
    assert cost(named) == own
    unnamed = tmp_path / "unnamed.toml"
    unnamed.write_text(named.read_text().replace('prices = "list.csv"', ""))
    assert cost(unnamed) == pytest.approx(2 * own, abs=0.02)


def test_units_follow_the_piece_unless_asked_for(woodref, box, monkeypatch):
    assert " kg " in woodref("estimate", box()).out.splitlines()[0]
    assert " lb " in woodref("estimate", box(), "--units", "us").out.splitlines()[0]
    monkeypatch.setenv("WOODREF_UNITS", "us")
    assert " lb " in woodref("estimate", box()).out.splitlines()[0]


def test_json_keys_do_not_depend_on_the_piece(woodref, box):
    def keys(value):
        if isinstance(value, dict):
            return {k: keys(v) for k, v in value.items()}
        return [keys(value[0])] if isinstance(value, list) and value else None

    bench = keys(json.loads(woodref("estimate", BENCH, "--units", "si", "--format", "json").out))
    small = keys(json.loads(woodref("estimate", box(), "--format", "json").out))
    assert list(small) == list(bench)
    for key in ("total_mass", "parts", "movement", "lumber", "based_on", "cautions"):
        assert small[key] == bench[key]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ({"species": "wite oak"}, r'box\.toml: parts\[1\] "side": species: .*white oak'),
        ({"species": "cedar"}, r'parts\[1\] "side": species: \'cedar\' is sold as several'),
        ({"more": "weight = 3"}, r"box\.toml: weight: unknown key"),
        ({"more": 'prices = "none.csv"'}, r"none\.csv: there is no such price list"),
        (
            {"more": 'prices = "list.csv"', "listed": "whit oak"},
            r"list\.csv: line 2, species: .*white oak",
        ),
        (
            {"more": 'prices = "list.csv"', "listed": "white oak", "thickness": "thick"},
            r"list\.csv: line 2, thickness 'thick': is not a nominal thickness; write 4/4",
        ),
    ],
)
def test_a_mistake_is_one_line_and_exit_2(woodref, box, arguments, says):
    result = woodref("estimate", box(**arguments))
    assert (result.code, result.out) == (2, "")
    assert len(result.err.splitlines()) == 1
    assert re.search(says, result.err)


def test_a_folder_or_nothing_is_one_line_and_exit_2(woodref, tmp_path):
    for path, says in ((tmp_path, "is a folder"), (tmp_path / "no.toml", "there is no such")):
        result = woodref("estimate", path)
        assert (result.code, result.out) == (2, "")
        assert says in result.err
        assert len(result.err.splitlines()) == 1


def test_the_templates_estimate_as_they_are(woodref, tmp_path):
    piece, prices = tmp_path / "piece.toml", tmp_path / "prices.csv"
    assert woodref("template", "piece", "-o", piece).code == 0
    assert woodref("template", "prices", "-o", prices).code == 0
    result = woodref("estimate", piece, "--prices", prices)
    assert (result.code, result.err) == (0, "")
    assert "without" not in result.out.splitlines()[0]
    assert piece.read_text() == woodref("template", "piece").out
    assert "invented" in piece.read_text()
    assert "invented" in prices.read_text()


def test_a_template_does_not_replace_a_file_unless_forced(woodref, tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text("mine")
    result = woodref("template", "piece", "-o", path)
    assert result.code == 2
    assert "exists already; add --force" in result.err
    assert path.read_text() == "mine"
    assert woodref("template", "piece", "-o", path, "--force").code == 0
    assert path.read_text().startswith("# A piece of furniture")
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


def test_a_template_needs_a_folder_to_stand_in(woodref, tmp_path):
    result = woodref("template", "prices", "-o", tmp_path / "no" / "x.csv")
    assert result.code == 2
    assert "does not exist; make it first" in result.err
    assert not (tmp_path / "no").exists()


def test_an_unknown_template_names_the_known_ones(woodref):
    result = woodref("template", "pice")
    assert result.code == 2
    assert "use piece, table, cabinet" in result.err
    assert "nearest: piece" in result.err


def test_a_template_takes_the_parts_of_a_cut_list(woodref, tmp_path):
    parts, piece = tmp_path / "parts.csv", tmp_path / "mine.toml"
    parts.write_text("part,qty,L,W,T\nshelf,2,30,9,3/4\nodd,1,x,9,1\n")
    result = woodref("template", "bookcase", "--from", parts, "--wood", "ash", "-o", piece)
    assert result.code == 0
    assert "1 of 2 rows" in result.err
    assert woodref("estimate", piece, "--place", "Duluth").code == 0
    unknown = woodref("template", "bookcase", "--from", parts, "--wood", "aash", "-o", piece)
    assert (unknown.code, unknown.out) == (2, "")
    alone = woodref("template", "prices", "--wood", "ash")
    assert alone.code == 2
    assert "--wood goes with table, cabinet" in alone.err
