"""place, season, and the year of a room in movement and estimate."""

import json
import re

import pytest

from woodref.answers.year import chart_section
from woodref.cli.options import Style
from woodref.cli.places import _chart
from woodref.climate.rooms import room_of
from woodref.reference.library import Reference

pytestmark = pytest.mark.usefixtures("whole_pages")

SHELF = """
name = "Shelf (invented)"
units = "us"
[build]
moisture_pct = 7.0
[use]
place = "Savannah"
setting = "air-conditioned-house"
[[parts]]
name = "shelf"
species = "sugar maple"
length = "36"
width = "9-1/2"
thickness = "3/4"
"""


def test_a_place(woodref):
    out = woodref("place", "Portland, Maine").out
    lines = out.splitlines()
    assert lines[0] == (
        "Portland, Maine: outdoors under cover wood comes to 11.8 % in April and 13.9 % in "
        "September."
    )
    assert lines[1] == "It lies at 43.64 N, 70.30 W; station PORTLAND,ME, 45 ft above the sea."
    assert sum("below 30 F" in line for line in lines) == 4  # three months, and the note on them


def test_a_place_of_the_world_carries_its_attribution(woodref):
    for question in (["place", "Vienna"], ["season", "Vienna"], ["place", "--at", "48.2,16.4"]):
        assert "Data basis: Deutscher Wetterdienst, values processed." in woodref(*question).out


def test_a_flagged_place_says_so(woodref):
    for command in ("place", "season"):
        assert "flagged" in woodref(command, "Denver").out
        assert json.loads(woodref(command, "Denver", "--format", "json").out)["flag"]


def test_nearest(woodref):
    out = woodref("place", "--at", "46.8,-92.1").out
    assert out.startswith("Nearest to 46.8,-92.1: Duluth, Minnesota, 5 miles away.")
    assert out.index("Duluth") < out.index("Saint Cloud")


def test_a_season(woodref):
    out = woodref("season", "Duluth", "--setting", "heated-house").out
    assert out.splitlines()[0] == (
        "Duluth, Minnesota, heated house: design for wood from 4.2 % (January) to 12.1 % (August)."
    )
    assert "Expected in an ordinary year: 6 % in January to 12 % in July" in out
    assert "common practice, no source" in out
    assert sum(line.endswith("  outdoors") for line in out.splitlines()) == 5


def test_question_11_portland_maine_in_a_heated_house(woodref):
    lead = woodref("season", "Portland, Maine", "--setting", "heated-house").out.splitlines()[0]
    assert lead.startswith("Portland, Maine, heated house: design for wood from 4.9 % (January)")


def test_changed_defaults(woodref):
    def january(*options):
        answer = woodref("season", "Duluth", *options, "--format", "json", "--units", "si")
        return json.loads(answer.out)["months"][0]

    assert january()["held_by"] is None
    moist = january("--room", "humidifier_pct=45", "--room", "band_pct=5")
    assert [moist[f"humidity{end}_pct"] for end in ("", "_low", "_high")] == [45.0, 40.0, 50.0]
    assert moist["held_by"] == "humidifier"
    assert january("--room", "vapor_gain_g_m3=0")["humidity_pct"] < 10.0
    assert january("--room", "heated_to=16C")["temperature_c"] == 16.0


def test_twelve_rows_with_every_number(woodref):
    answer = json.loads(woodref("season", "Savannah", "--format", "json", "--units", "si").out)
    assert [m["month"] for m in answer["months"]][::11] == ["Jan", "Dec"]
    assert len(answer["months"]) == 12
    for m in answer["months"]:
        assert 0 < m["emc_pct"] < 30
        assert 0 < m["outdoor_emc_pct"] < 30


def test_own_figures(woodref, tmp_path):
    two = woodref("season", "--winter", "66F,30%", "--summer", "76F,60%").out
    assert two.startswith("Your two seasons: design for wood from 6.2 % (January)")
    south = woodref("season", "--winter", "66F,30%", "--summer", "76F,60%", "--southern").out
    assert south.startswith("Your two seasons: design for wood from 6.2 % (July)")
    assert woodref("season", "Duluth", "--southern").code == 2
    file = tmp_path / "mine.csv"
    rows = "\n".join(f"{n},{60 + n}F,{30 + n}" for n in range(1, 13))
    file.write_text(f"month,temperature,humidity_pct\n{rows}\n")
    mine = woodref("season", "--months", file).out
    assert mine.startswith("Your figures of mine.csv: design for wood from 5.")
    outdoors = woodref("season", "--months", file, "--setting", "unheated-shop").out
    assert "above the outdoor mean" in outdoors


def test_the_year_in_movement(woodref):
    """Question 10: a 38 in red oak top in Savannah, with air conditioning and in a porch room."""
    top = ["movement", "red oak group", "--width", "38in", "--place", "Savannah", "--setting"]
    lines = woodref(*top, "air-conditioned-house").out.splitlines()
    assert lines[0].startswith(
        "Red oak group, flat sawn: allow 5/8 in (11/32 to 7/8) of movement over the year in"
    )
    assert lines[1].startswith("38 in wide at the driest, 7.5 % (January), and 38-5/8 in")
    porch = woodref(*top, "unheated-shop", "--from", "7").out.splitlines()
    assert porch[1].startswith("38 in wide at 7 % is 38-")


def test_a_default_place_gives_way_to_moisture_contents(woodref, monkeypatch):
    monkeypatch.setenv("WOODREF_PLACE", "Tucson")
    board = ["movement", "cherry", "--width", "10in"]
    assert "at 7 % is" in woodref(*board, "--from", "7", "--to", "9").out
    assert "Tucson, Arizona, air-conditioned house" in woodref(*board).out
    assert "Tucson, Arizona, unheated shop" in woodref(*board, "--setting", "unheated-shop").out
    assert woodref("season").out.startswith("Tucson, Arizona")


def test_a_default_place_from_the_configuration(woodref, monkeypatch, tmp_path):
    config = tmp_path / "mine.toml"
    config.write_text('place = "Duluth"\n')
    monkeypatch.setenv("WOODREF_CONFIG", str(config))
    assert woodref("place").out.startswith("Duluth, Minnesota")
    assert woodref("season", "Tucson").out.startswith("Tucson, Arizona")


def test_a_piece_in_a_town(woodref, tmp_path):
    file = tmp_path / "shelf.toml"
    file.write_text(SHELF)
    out = woodref("estimate", file).out
    assert re.search(r"wettest +12\.0 %", out)
    assert "Assumed: Savannah, Georgia, air-conditioned house: designed for 7.5 %" in out
    other = woodref("estimate", file, "--place", "Duluth", "--setting", "heated-house").out
    assert re.search(r"wettest +12\.1 %", other)
    assert "Savannah" not in other


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["place"], "name a place"),
        (["place", "Dulth"], "nearest: Duluth, Minnesota"),
        (["place", "Portland"], "'Portland, Maine' or 'Portland, Oregon'"),
        (["place", "--at", "Duluth"], "--at takes latitude and longitude"),
        (["place", "--at", "99,0"], "not on the globe"),
        (["season"], "name a place"),
        (["season", "Duluth", "--setting", "heated"], "nearest: heated-house"),
        (["season", "Duluth", "--room", "dehumidifier_pct=104"], "0 to 100 %, not 104"),
        (["season", "Duluth", "--winter", "66F,30%", "--summer", "76F,60%"], "not both"),
        (["season", "Duluth", "--room", "heat=68F"], "a room has no heat"),
        (["season", "--winter", "66F,30%"], "give both"),
        (["season", "--winter", "66F,130%", "--summer", "76F,60%"], "0 to 100 %, not 130"),
        (["season", "--winter", "66F", "--summer", "76F,60%"], "--winter takes temperature"),
        (["season", "--months", "none.csv"], "no such file of months"),
        (["season", "Duluth", "--room", "heated_to=warm"], "is not a temperature"),
        (["movement", "cherry", "--width", "8in"], "--from is missing"),
        (["movement", "cherry", "--width", "8in", "--from", "7"], "--to is missing"),
        (["movement", "cherry", "--width", "8in", "--setting", "heated-house"], "needs a town"),
        (
            ["movement", "cherry", "--width", "8in", "--to", "7", "--place", "Duluth"],
            "--to does not go with a place",
        ),
        (
            ["movement", "cherry", "--width", "8in", "--target", "--place", "Duluth"],
            "--target does not go with a place",
        ),
    ],
)
def test_mistakes_are_one_line_and_exit_2(woodref, arguments, said):
    result = woodref(*arguments)
    assert (result.code, result.out) == (2, "")
    assert said in result.err
    assert result.err.count("\n") == 1


class Terminal:
    def __init__(self, encoding, tty=True):
        self.encoding, self.tty = encoding, tty

    def isatty(self):
        return self.tty


def test_the_chart_is_for_people_at_a_terminal(monkeypatch):
    for stream, style, expected in (
        (Terminal("utf-8"), Style.table, "█"),
        (Terminal("latin-1"), Style.table, "#"),
        (Terminal("utf-8", tty=False), Style.table, ""),
        (Terminal("utf-8"), Style.json, ""),
    ):
        monkeypatch.setattr("sys.stdout", stream)
        assert _chart(style) == expected


def test_the_chart_is_drawn_to_the_wettest_month():
    section = chart_section(room_of(Reference(), "Duluth").season, "#")
    bars = {r["month"]: len(r["bar"]) for r in section.rows}
    assert max(bars.values()) == bars["Jul"] == 30
    assert bars["Jan"] == round(30 * 6.03 / 11.95)
