import json

import pytest
from shelf import Shelf

pytestmark = pytest.mark.usefixtures("whole_pages")


@pytest.fixture
def shelf(monkeypatch):
    """Answer from the woods of this folder in place of the dataset."""
    for module in ("weight", "movement"):
        monkeypatch.setattr(f"woodref.cli.{module}.reference", Shelf)


MOVEMENT = """\
Sugar maple, flat sawn: 965 mm wide at 7 % is 978.8 mm at 11 %; it swells 13.8 mm.

  cut      width now  width then    change  likely from        to  basis
  flat        965 mm    978.8 mm  13.78 mm      9.03 mm  18.54 mm  checked
  rift        965 mm      975 mm  10.02 mm      6.56 mm  13.48 mm  checked
  quarter     965 mm    971.4 mm   6.41 mm      4.20 mm   8.62 mm  checked

Based on
  figure                                  printed  basis    source
  tangential shrinkage, green to ovendry  9.9 %    checked  Wood Handbook FPL-GTR-282 (2021), Table 4-3, p. 4-8
  radial shrinkage, green to ovendry      4.8 %    checked  Wood Handbook FPL-GTR-282 (2021), Table 4-3, p. 4-8

Computed from shrinkage green to ovendry, straight line below fiber saturation at 30 %, the general
  figure; that point varies by 4 from tree to tree (from memory).
9 boards in 10 fall in a likely range: normal, from the published coefficient of variation and from
  how far the printed means of one wood differ; boards of one wood correlate by 0.5 (our
  assumption), different woods are independent.
Coefficient of variation 15 %: FPL-GTR-190 (2010), pp. 4-5 and 4-7 (checked), for test pieces of
  pure ring orientation; "probably somewhat greater in commercial lumber".
"""  # noqa: E501


@pytest.mark.usefixtures("shelf")
def test_movement_as_printed(woodref):
    question = ["movement", "sugar maple", "--width", "965mm", "--from", "7", "--to", "11"]
    assert woodref(*question, "--units", "si").out == MOVEMENT


@pytest.mark.usefixtures("shelf")
def test_movement_in_inches_as_json(woodref):
    question = ["movement", "sugar maple", "--width", "38", "--from", "7%", "--to", "11 %"]
    data = json.loads(woodref(*question, "--format", "json").out)
    assert data["answer"] == [
        "Sugar maple, flat sawn: 38 in wide at 7 % is 38-17/32 in at 11 %; it swells 17/32 in."
    ]
    assert data["wood"] == "sugar maple"
    assert (data["from_moisture_pct"], data["to_moisture_pct"]) == (7.0, 11.0)
    assert [row["cut"] for row in data["movement"]] == ["flat", "rift", "quarter"]
    flat = data["movement"][0]
    assert flat["before_in"] == 38.0
    assert flat["after_in"] == pytest.approx(38.5428, abs=1e-4)
    assert flat["change_low_in"] < flat["change_in"] < flat["change_high_in"]
    assert {row["basis"] for row in data["based_on"]} == {"checked"}


@pytest.mark.usefixtures("shelf")
def test_air_in_place_of_moisture_contents(woodref):
    # 68 F and 40 % RH give 7.7 %, FPL-GTR-190 (2010), Table 4-2 (70 F: 7.7 %).
    out = woodref(
        *("movement", "sugar maple", "--width", "10in", "--cut", "quarter"),
        *("--from", "68F,40%", "--to", "20C, 70%"),
    ).out
    assert out.startswith("Sugar maple, quarter sawn: 10 in wide at 7.7 % is 10-")
    assert "at 13.1 %" in out


@pytest.mark.parametrize("start", [[], ["--from", "7"]], ids=["driest", "built"])
def test_the_steps_of_a_year_tell_the_sizes_of_its_table(woodref, start):
    question = ["movement", "black cherry", "--width", "8in", *start, "--units", "si", "--explain"]
    answer = woodref(
        *question, "--place", "Duluth", "--setting", "heated-house", "--format", "json"
    )
    data = json.loads(answer.out)
    swings = {row["cut"]: row for row in data["swings"]}
    assert set(swings) == {"flat", "rift", "quarter"}
    steps = data["explain"]
    assert len(steps) == (6 if start else 3)
    for step in steps:
        cut = step["of"].removeprefix("black cherry, ").removesuffix(" sawn")
        month = "driest" if "at the driest" in step["what"] else "wettest"
        assert step["result"] == pytest.approx(swings[cut][f"size_{month}_mm"], abs=0.051)
        began = swings[cut]["size_driest_mm"] if month == "wettest" else 203.2
        assert float(step["numbers"].split(" * ")[0]) == pytest.approx(began, abs=0.051)


@pytest.mark.usefixtures("shelf")
def test_wanted_asks_how_wide_to_start_and_rounds_up(woodref):
    question = ["movement", "sugar maple", "--width", "8in", "--target"]
    answer = woodref(*question, "--from", "green", "--to", "8", "--format", "json")
    data = json.loads(answer.out)
    # D(M) = Dg (1 - St (1 - M/30)), so Dg = 8 / (1 - 0.099 (1 - 8/30)).
    start = 8.0 / (1.0 - 0.099 * (1.0 - 8.0 / 30.0))
    assert data["movement"][0]["before_in"] == pytest.approx(start, abs=1e-4)
    assert data["movement"][0]["after_in"] == 8.0
    assert data["answer"] == [
        "Sugar maple, flat sawn: start from 8-21/32 in wide at 30 % for 8 in at 8 %."
    ]
    back = woodref("movement", "sugar maple", "--width", f"{start}in", "--from", "30", "--to", "8")
    assert "is 8 in at 8 %" in back.out


@pytest.mark.usefixtures("shelf")
def test_thickness_takes_the_complement_of_the_ring_angle(woodref):
    def change(*arguments):
        question = ["movement", "sugar maple", "--from", "12", "--to", "6", "--format", "json"]
        return json.loads(woodref(*question, *arguments).out)["movement"][0]["change_in"]

    flat_width = change("--width", "1in", "--cut", "flat")
    assert change("--thickness", "4/4", "--cut", "quarter") == flat_width
    assert change("--thickness", "1in", "--cut", "90") == flat_width
    assert change("--thickness", "1in", "--cut", "30") == change("--width", "1in", "--cut", "60")
    assert change("--thickness", "1in", "--cut", "flat") == change("--width", "1", "--cut", "90")


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize("style", ["table", "json", "csv", "markdown"])
@pytest.mark.parametrize(
    "question",
    [
        ["movement", "model wood", "--width", "300mm", "--from", "7", "--to", "11"],
        ["density", "model wood"],
        ["weight", "model wood", "--length", "1m", "--width", "100mm", "--thickness", "20mm"],
    ],
    ids=lambda q: q[0],
)
def test_a_recalled_figure_keeps_the_word_memory(woodref, question, style):
    result = woodref(*question, "--format", style)
    assert result.code == 0
    assert result.out.count("unchecked") >= (1 if style == "csv" else 2)
    if style == "table":
        assert "*" in result.out.splitlines()[0]
        assert "* Unchecked, from memory and not seen in print: " in " ".join(result.out.split())


@pytest.mark.usefixtures("shelf")
def test_density(woodref):
    result = woodref("density", "sugar maple", "--units", "si", "--format", "json")
    row = json.loads(result.out)["densities"][0]
    # FPL-GTR-282 (2021), Eq. 4-9, 4-11 and 4-14: 1000 Gb (1 + 0.12) / (1 - 0.147 (1 - 12/30)).
    expected = 1120.0 * 0.56 / (1.0 - 0.147 * 0.6)
    assert row["density_kg_m3"] == round(expected)
    assert row["density_low_kg_m3"] == round(expected * (1 - 0.16449))
    assert row["density_high_kg_m3"] == round(expected * (1 + 0.16449))
    lead = woodref("density", "sugar maple", "--units", "si").out.splitlines()[0]
    assert lead == "Sugar maple at 12 %: 688 kg/m3 (575 to 801)."


@pytest.mark.usefixtures("shelf")
def test_weight_of_one_board_and_of_several(woodref):
    board = ["weight", "sugar maple", "--length", "10ft", "--width", "8", "--thickness", "4/4"]
    one = woodref(*board)
    # 1 x 8 x 120 in = 0.015731 m3; at 8 %, 1080 x 0.56 / (1 - 0.147 x 22/30) = 677.9 kg/m3.
    assert one.out.splitlines()[0] == (
        "A board of sugar maple, 1 in x 8 in x 120 in, weighs 23.5 lb (20 to 27) at 8 %."
    )
    many = json.loads(woodref(*board, "--quantity", "4", "--format", "json").out)
    single, together = many["weights"]
    assert (single["quantity"], together["quantity"]) == (1, 4)
    assert together["mass_lb"] == pytest.approx(4 * single["mass_lb"], abs=0.03)
    # Boards of one wood share half of their spread: sd of 4 is sqrt(4 + 0.5 * 12) times one.
    spread = single["mass_high_lb"] - single["mass_low_lb"]
    assert together["mass_high_lb"] - together["mass_low_lb"] == pytest.approx(
        spread * 10.0**0.5, abs=0.06
    )
    assert many["answer"][0].startswith("Each of 4 boards of sugar maple")


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--width", "0", "--from", "7", "--to", "8"], "a size must be above 0"),
        (["--width", "-3", "--from", "7", "--to", "8"], "a length cannot be negative: '-3'"),
        (["--width", "3 stone", "--from", "7", "--to", "8"], "not a unit of length"),
        (["--width", "3", "--from", "7", "--to", "45"], "outside 0 to 30 %"),
        (["--width", "3", "--from", "-7", "--to", "8"], "cannot be negative"),
        (["--width", "3", "--from", "dry", "--to", "8"], "write for example 8 or 8%, green, or"),
        (["--width", "3", "--from", "68F,100%", "--to", "8"], "0 to below 100 %"),
        (["--width", "3", "--from", "250F,40%", "--to", "8"], "nearest: 200F"),
        (["--width", "3", "--from", "7", "--to", "8", "--cut", "curly"], "use flat, rift, quarter"),
        (["--width", "3", "--from", "7", "--to", "8", "--cut", "91"], "between 0 (flat) and 90"),
        (["--from", "7", "--to", "8"], "either --width or --thickness"),
        (["--width", "3", "--thickness", "1", "--from", "7", "--to", "8"], "either --width or"),
    ],
)
def test_impossible_questions_about_movement(woodref, arguments, message):
    result = woodref("movement", "sugar maple", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["density", "--moisture", "500"], "holds at most"),
        (["density", "--moisture", "nan"], "is not a moisture content"),
        (["weight", "--length", "0", "--width", "1", "--thickness", "1"], "length must be above 0"),
        (
            ["weight", "--length", "1", "--width", "1", "--thickness", "1", "--quantity", "0"],
            "a whole number from 1",
        ),
    ],
)
def test_impossible_boards(woodref, arguments, message):
    command, *rest = arguments
    result = woodref(command, "sugar maple", *rest)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1


# The dataset itself: what makers ask, answered in the first line.


@pytest.mark.parametrize(
    ("moisture", "expected_lb"),
    # By Eq. 4-9, 4-11 and 4-14 from 0.47 and 11.5 %: FPL-GTR-282 (2021), Tables 5-3a and 4-3.
    [("8", 19.2), ("60", 26.1)],
)
def test_what_a_cherry_board_weighs(woodref, moisture, expected_lb):
    board = ["weight", "cherry", "--thickness", "4/4", "--width", "8in", "--length", "10ft"]
    result = woodref(*board, "--moisture", moisture, "--format", "json")
    data = json.loads(result.out)
    assert data["botanical_name"] == "Prunus serotina"
    assert data["weights"][0]["mass_lb"] == pytest.approx(expected_lb, abs=0.05)


@pytest.mark.parametrize(
    ("cut", "expected"), [("flat", 978.8), ("rift", 975.0), ("quarter", 971.4)]
)
def test_how_a_sugar_maple_top_moves(woodref, cut, expected):
    top = ["movement", "sugar maple", "--width", "965", "--from", "7", "--to", "11"]
    result = woodref(*top, "--cut", cut, "--units", "si", "--format", "json")
    assert json.loads(result.out)["movement"][0]["after_mm"] == expected


@pytest.mark.parametrize("wood", ["European oak", "European beech", "Scots pine", "red oak"])
def test_woods_of_both_sides_of_the_sea_answer(woodref, wood):
    top = ["movement", wood, "--width", "600", "--from", "8", "--to", "11", "--units", "si"]
    lead = woodref(*top).out.splitlines()[0]
    assert ", flat sawn: 600 mm wide at 8 % is 6" in lead
    assert lead[0].isupper()


def test_an_unknown_wood_gets_the_nearest_names(woodref):
    result = woodref("density", "sugar mapel")
    assert result.code == 2
    assert "sugar maple" in result.err
    assert result.err.count("\n") == 1
