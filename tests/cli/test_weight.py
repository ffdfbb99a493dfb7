"""Shapes in weight at the command line."""

import json

import pytest

LEG = ["--shape", "tapered-leg", "--length", "28in", "--width", "2in", "--thickness", "2in"]


def weigh(woodref, *arguments):
    result = woodref("weight", "white ash", *arguments, "--format", "json")
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


def board(woodref, length, width, thickness):
    data = weigh(woodref, "--length", length, "--width", width, "--thickness", thickness)
    return data["weights"][0]["mass_lb"]


def test_a_tapered_leg(woodref):
    data = weigh(woodref, *LEG, "--end-width", "1in", "--quantity", "4")
    # A frustum of 2 x 2 and 1 x 1 in is 7/12 of the 2 x 2 in blank.
    blank = board(woodref, "28in", "2in", "2in")
    single, together = data["weights"]
    assert single["mass_lb"] == pytest.approx(blank * 7 / 12, abs=0.01)
    assert together["mass_lb"] == pytest.approx(4 * single["mass_lb"], abs=0.03)
    assert (data["shape"], data["end_width_in"], data["inner_diameter_in"]) == (
        "tapered leg",
        1.0,
        None,
    )
    assert data["answer"][0].startswith(
        "Each of 4 tapered legs of white ash, 28 in long, from 2 in x 2 in to 1 in x 1 in, weighs"
    )


@pytest.mark.parametrize(
    ("arguments", "cubic_inches", "words"),
    [
        (
            ["--shape", "disc", "--diameter", "24", "--thickness", "1"],
            452.389,
            "24 in across, 1 in",
        ),
        (["--shape", "disc", "--width", "24", "--thickness", "4/4"], 452.389, "24 in across, 1 in"),
        (
            ["--shape", "cylinder", "--diameter", "2", "--length", "30"],
            94.248,
            "2 in across, 30 in",
        ),
        (
            ["--shape", "ring", "--diameter", "24", "--inner", "18", "--thickness", "1"],
            197.920,
            "24 in across, 18 in inside, 1 in thick",
        ),
        (["--shape", "volume", "--volume", "120 in3"], 120.0, "120.0 in3"),
        (
            ["--length", "10", "--width", "4", "--thickness", "1", "--removed", "4 in3"],
            36.0,
            "1 in x 4 in x 10 in, 4.0 in3 cut away",
        ),
    ],
)
def test_a_shape_weighs_by_its_volume(woodref, arguments, cubic_inches, words):
    data = weigh(woodref, *arguments)
    row = data["weights"][0]
    # A board foot is 144 cubic inches (NHLA rules).
    assert row["volume_board_feet"] == pytest.approx(cubic_inches / 144.0, abs=0.006)
    density = data["densities"][0]["density_lb_ft3"]
    assert row["mass_lb"] == pytest.approx(cubic_inches / 1728.0 * density, abs=0.02)
    assert f"of white ash, {words}" in data["answer"][0]


def test_a_board_is_a_box(woodref):
    sizes = ["--length", "10ft", "--width", "8in", "--thickness", "4/4"]
    assert weigh(woodref, *sizes) == weigh(woodref, *sizes, "--shape", "box")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ([], "--length is missing; a box needs --length, --width, --thickness"),
        (["--shape", "ball"], "'ball' is no shape"),
        (["--shape", "disk"], "did you mean 'disc'?"),
        (["--shape", "ring", "--diameter", "9", "--thickness", "1"], "--inner is missing; a ring"),
        ([*LEG], "--end-width is missing"),
        ([*LEG, "--end-width", "1", "--inner", "1"], "--inner does not go with a tapered leg"),
        (["--shape", "volume", "--volume", "12"], "'12' is not a volume"),
        (["--shape", "volume", "--volume", "1 L", "--length", "9"], "--length does not go with"),
        (
            ["--shape", "ring", "--diameter", "9", "--inner", "9", "--thickness", "1"],
            "is not less than the outer",
        ),
        (
            ["--length", "1", "--width", "1", "--thickness", "1", "--removed", "2 in3"],
            "cannot be removed",
        ),
        (
            [*LEG[:-1], "1in", "--end-width", "1in"],
            "thickness at its end must be above 0",
        ),
    ],
)
def test_a_wrong_shape_is_one_line(woodref, arguments, message):
    result = woodref("weight", "white ash", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1
