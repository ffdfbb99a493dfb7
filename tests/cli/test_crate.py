"""crate at the command line; the scenarios are invented."""

import json
from pathlib import Path

import pytest
from examples import FEW_OF_A_FIXTURE
from hypothesis import given
from hypothesis import strategies as st

pytestmark = pytest.mark.usefixtures("whole_pages")

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
LB = 0.45359237
SIZE = ["--length", "60in", "--depth", "18in", "--height", "34in"]
SIDEBOARD = [*SIZE, "--weight", "140lb", "--weight-low", "128lb", "--weight-high", "152lb"]
CRATE = ["--padding", "2in", "--wall", "1/2in"]


def answer(woodref, *arguments):
    result = woodref("crate", *arguments, "--format", "json")
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


def test_the_first_two_lines_answer(woodref):
    lines = woodref("crate", *SIDEBOARD, *CRATE, "--wall-density", "36").out.splitlines()
    # 65 x 23 x 39 in outside less 64 x 22 x 38 in inside, at 36 lb/ft3.
    walls = (65 * 23 * 39 - 64 * 22 * 38) / 1728 * 36
    gross = 140 + walls
    assert lines[0].startswith(f"Crate {gross:.0f} lb (")
    assert lines[0].endswith("65 in x 23 in x 39 in outside.")
    assert lines[1].startswith("Crate: too heavy to lift by hand")
    density = gross / (65 * 23 * 39 / 1728)
    assert 6.0 <= density < 8.0
    assert lines[3].startswith("Freight density class 125")


def test_a_piece_file_is_weighed_and_packed(woodref, sideboard):
    piece = DEMO / "sideboard.toml"
    packed = answer(woodref, piece)
    whole = next(row for row in packed["weights"] if row["load"] == "together")
    assert sideboard["crate"][0]["gross_mass_lb"] == whole["mass_lb"]
    assert sideboard["crate"][0]["freight_class"] == packed["outside"][0]["freight_class"]
    first, second, _, freight = woodref("crate", piece).out.splitlines()[:4]
    assert first.startswith("Crate 262 lb* (")
    assert "too heavy to lift by hand" in second
    assert freight.startswith("Freight density class")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["sideboard.toml", "--pallet"], "--pallet has no place beside a piece"),
        (["hall-bench.toml"], "shipping: is missing; give length, depth and height there"),
        (["sidebord.toml"], "did you mean 'sideboard.toml'?"),
    ],
)
def test_a_piece_file_that_cannot_be_packed(woodref, arguments, words):
    result = woodref("crate", DEMO / arguments[0], *arguments[1:])
    assert (result.code, result.out) == (2, "")
    assert words in result.err
    assert result.err.count("\n") == 1


def test_a_light_carton(woodref):
    data = answer(woodref, *SIZE, "--weight", "40lb", "--packing-weight", "6lb")
    assert data["packing"] == "carton"
    assert data["answer"][0] == "Carton 46 lb, 63 in x 21 in x 37 in outside."
    assert data["answer"][1].startswith("One person can lift the carton, held close.")
    assert [row["mass_lb"] for row in data["weights"]] == [40.0, 6.0, 46.0]
    together = answer(woodref, *SIZE, "--weight", "60lb", "--packing-weight", "6lb")
    assert together["answer"][1].startswith("Two people can lift the carton.")
    perhaps = answer(woodref, *SIZE, "--weight", "90lb", "--packing-weight", "6lb")
    assert perhaps["answer"][1].startswith("Perhaps two people can lift the carton; plan for 2")


def test_divisors(woodref):
    own = ["--divisor", "200 in3/lb", "--divisor", "4000 cm3/kg"]
    data = answer(woodref, *SIZE, "--weight", "40lb", "--padding", "1in", *own)
    inches = 62 * 20 * 36
    rows = data["chargeable"]
    assert [r["divisor"] for r in rows] == ["200 in3/lb", "4000 cm3/kg"]
    assert {r["basis"] for r in rows} == {"given"}
    assert rows[0]["dimensional_mass_lb"] == pytest.approx(inches / 200, abs=0.01)
    assert rows[1]["dimensional_mass_lb"] == pytest.approx(inches * 2.54**3 / 4000 / LB, abs=0.01)
    assert rows[0]["chargeable_mass_lb"] == rows[0]["dimensional_mass_lb"]
    usual = answer(woodref, *SIZE, "--weight", "40lb")["chargeable"]
    assert {r["divisor"] for r in usual} >= {"139 in3/lb", "5000 cm3/kg"}
    assert {r["basis"] for r in usual} == {"common_practice"}


def test_what_comes_from_memory_says_so(woodref):
    unchecked = woodref("crate", *SIDEBOARD, *CRATE, "--pallet").out
    assert " lb* (" in unchecked.splitlines()[0]
    assert (
        "* Unchecked, from memory and not seen in print: the density of the walls; the height of a"
        in " ".join(unchecked.split())
    )
    given_figures = ["--wall-density", "580 kg/m3", "--pallet-height", "5in"]
    known = woodref("crate", *SIDEBOARD, *CRATE, *given_figures)
    assert "unchecked" not in known.out
    assert "on its pallet" in known.out
    data = answer(woodref, *SIDEBOARD, *CRATE, "--pallet")
    bases = {row["figure"]: row["basis"] for row in data["based_on"]}
    assert bases["height of a pallet"] == bases["density of the walls"] == "unchecked"
    assert bases["load constant of an ideal lift"] == "checked"
    assert bases["lift of two people"] == "common_practice"


def test_reaching_out(woodref):
    load = [*SIZE, "--weight", "60lb", "--packing-weight", "6lb"]
    ideal, far = answer(woodref, *load), answer(woodref, *load, "--reach", "20in", "--rise", "30in")
    assert ideal["lifts"][1]["mass_limit_lb"] == pytest.approx(23 / LB, abs=0.01)
    # NIOSH 94-110: 23 x 25/50.8 x (0.82 + 4.5/76.2), hands at 75 cm.
    assert far["lifts"][1]["mass_limit_lb"] == pytest.approx(
        23 * 25 / 50.8 * (0.82 + 4.5 / 76.2) / LB, abs=0.01
    )
    # 66 lb over 21.97 lb is a little more than 3.
    assert (ideal["lifts"][1]["people"], far["lifts"][1]["people"]) == (2, 4)
    assert "at your reach" in far["notes"][0]


def test_a_caution_stands_in_every_answer(woodref):
    for style in ("table", "json", "markdown"):
        out = " ".join(woodref("crate", *SIDEBOARD, "--format", style).out.split())
        assert "Neither medical nor legal advice." in out


def test_csv_has_the_weights(woodref):
    lines = woodref("crate", *SIDEBOARD, "--units", "si", "--format", "csv").out.splitlines()
    assert lines[0] == "load,mass_kg,mass_low_kg,mass_high_kg"
    assert [line.split(",")[0] for line in lines[1:]] == ["piece", "packing", "together"]


def test_parcel_limits(woodref):
    data = answer(woodref, *SIDEBOARD, *CRATE)
    assert [r["exceeded"] for r in data["parcel_limits"]] == ["yes", "no", "yes"]
    assert "Over parcel limits (weight, length plus girth): ship as freight." in data["answer"]
    small = answer(woodref, "--length", "20", "--depth", "9", "--height", "9", "--weight", "9lb")
    assert {r["exceeded"] for r in small["parcel_limits"]} == {"no"}
    assert "parcel" not in small["answer"][1]


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ([*SIZE], "weight"),
        ([*SIZE, "--weight", "heavy"], "'heavy' is not a mass"),
        ([*SIZE, "--weight", "0"], "must be above 0"),
        ([*SIZE, "--weight", "50", "--weight-low", "60"], "must be above 0 and not fall"),
        (
            ["--length", "0", *SIZE[2:], "--weight", "50"],
            "length must be above 0 and below 787.4 in",
        ),
        ([*SIDEBOARD, "--batten-width", "2in"], "--batten-thickness is missing"),
        ([*SIDEBOARD, "--batten-thickness", "2in"], "--batten-width is missing"),
        (
            [*SIDEBOARD, "--batten-width", "2in", "--batten-thickness", "1in"],
            "the wall of a crate",
        ),
        ([*SIDEBOARD, "--wall", "1ft"], "a wall below 7.874 in"),
        ([*SIDEBOARD, "--wall-density", "hard"], "'hard' is not a density"),
        ([*SIDEBOARD, "--divisor", "139"], "'139' is not a divisor"),
        ([*SIDEBOARD, "--hands", "30in"], "--hands goes with --reach"),
        ([*SIDEBOARD, "--rise", "30in"], "--rise goes with --reach"),
        ([*SIDEBOARD, "--reach", "30in"], "nothing should be lifted by hand"),
    ],
)
def test_wrong_questions_are_one_line(woodref, arguments, message):
    result = woodref("crate", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1


@FEW_OF_A_FIXTURE
@given(
    st.floats(50, 3000),
    st.floats(50, 2000),
    st.floats(1, 400),
    st.floats(0, 100),
    st.sampled_from(["us", "si"]),
)
def test_any_sizes_are_answered(woodref, length, depth, mass, padding, units):
    data = answer(
        woodref,
        *("--length", f"{length:.1f}mm", "--depth", f"{depth:.1f}mm", "--height", "500mm"),
        *("--weight", f"{mass:.2f}kg", "--padding", f"{padding:.1f}mm", "--units", units),
    )
    unit = "lb" if units == "us" else "kg"
    piece, packing, together = data["weights"]
    assert together[f"mass_{unit}"] == pytest.approx(
        piece[f"mass_{unit}"] + packing[f"mass_{unit}"], abs=0.02
    )
    for row in data["chargeable"]:
        assert row[f"chargeable_mass_{unit}"] >= together[f"mass_{unit}"]
