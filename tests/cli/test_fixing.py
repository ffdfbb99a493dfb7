"""fixing and gluing at the command line."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

PANEL = ["fixing", "cherry", "--kind", "floating-panel", "--width", "14in"]
COLUMBUS = ["--place", "Columbus, Ohio", "--setting", "heated-house"]
HOLE = ["fixing", "white oak", "--kind", "round-hole", "--distance", "9in"]


def lead(result):
    """The lines of the answer, before the tables."""
    assert (result.code, result.err) == (0, "")
    return result.out.split("\n\n")[0].splitlines()


def test_is_my_gap_enough(woodref):
    lines = lead(woodref(*PANEL, "--gap", "3/16in", "--month", "Feb", *COLUMBUS))
    first, second, third, gap, course = lines
    assert "at the wettest, 13 % (August)" in gap
    assert course.startswith("Expected in an ordinary year: ")
    assert first.startswith("Yes: the gap on each side gives 3/16 in, enough; a board that")
    assert second.startswith("Leave at least 9/64 in on each side; with your 3/16 in")
    assert "fitted at 7.6 % (February)" in third
    tight = lead(woodref(*PANEL, "--gap", "1/32in", "--month", "February", *COLUMBUS))
    assert tight[0].startswith("No, too little: the gap on each side")
    usual = lead(woodref(*PANEL, "--gap", "7/64in", "--month", "February", *COLUMBUS))
    assert usual[0].startswith("Only for an average board: ")


def test_how_long_are_the_peg_holes(woodref):
    top = ["fixing", "sugar maple", "--kind", "breadboard", "--width", "42in"]
    seasons = ["--built", "7", "--driest", "6", "--wettest", "10"]
    first, second = lead(woodref(*top, *seasons))
    assert first.startswith("Make the outer peg holes longer than the peg by ")
    assert second.startswith("Sugar maple 21 in from where it is fixed, fitted at 7 %: it shrinks")
    pegged = lead(woodref(*top, *seasons, "--peg", "3/8in", "--at", "2in"))
    assert "for a 3/8 in peg in the middle" in pegged[0]
    slots = [
        lead(woodref(*top, *seasons, "--peg", "3/8in", "--slot", size))[0] for size in ("1/2", "1")
    ]
    assert [s.split(" ")[0] for s in slots] == ["No,", "Yes:"]


def test_may_i_glue_it(woodref):
    first, second = lead(woodref("gluing", "cherry", "--length", "4in"))
    assert first.startswith("No, not all of it: 4 in across the grain is more than the usual 3 in")
    assert "common practice, no source" in first
    assert second.endswith(", 0.5 % of it.")
    ends = ["--driest", "4", "--wettest", "8.5", "--built", "8"]
    drier = lead(woodref("gluing", "cherry", "--length", "4in", *ends))
    assert "From 8 % to 4 %" in drier[1]
    wetter = lead(woodref("gluing", "cherry", "--length", "4in", *ends[:-1], "4.5"))
    assert "From 4.5 % to 8.5 %" in wetter[1]
    short = woodref("gluing", "cherry", "--length", "3in")
    assert lead(short)[0].startswith("Yes: 3 in across the grain is within the usual 3 in")
    same = woodref("fixing", "cherry", "--kind", "glued", "--distance", "4in")
    assert lead(same) == [first, second]


def test_sizes_that_are_missing_are_told_and_those_given_are_judged(woodref):
    bare = lead(woodref(*HOLE))
    assert bare[0].startswith("Drill the hole ")
    assert "wider than the shank" in bare[0]
    told = " ".join(woodref(*HOLE, "--screw", "8").out.split())
    assert "A #8 screw has a shank of 0.164 in: FPL-GTR-282 (2021), Table 8-9, p. 8-12." in told
    assert "Bits of an inch set" in told
    assert "ASME" not in woodref(*HOLE, "--screw", "4mm").out
    far = lead(woodref(*HOLE[:-1], "60in", "--screw", "#14", "--built", "6"))
    assert far[0].startswith("No common bit drills so wide a hole: take a slotted hole.")
    data = json.loads(
        woodref(
            *(*HOLE, "--screw", "#8", "--hole", "3/8in", "--washer", "3/4in", "--recess", "7/8in"),
            *("--format", "json"),
        ).out
    )
    assert [c["check"] for c in data["size_checks"]] == [
        "shank in its hole",
        "washer in its recess",
        "washer over the hole",
    ]
    # Common practice, no source: play of a #8 screw in 3/8 in, of a 3/4 in washer in 7/8 in.
    assert [c["room_in"] for c in data["size_checks"]][:2] == [0.1055, 0.0625]
    assert data["sizes_to_make"][0]["inch_set"] == "23/64 in"
    assert data["sizes_to_make"][0]["metric_set"] == "9 mm"


def test_the_month_of_fitting_counts(woodref):
    data = json.loads(woodref(*PANEL, *COLUMBUS, "--month", "2", "--format", "json").out)
    assert [m["month"] for m in data["months"]][::11] == ["January", "December"]
    february = data["months"][1]
    assert february["needed_in"] == data["sizes_to_make"][0]["needed_in"]
    assert february["build_moisture_pct"] == data["build_moisture_pct"]
    wettest = max(data["months"], key=lambda m: m["build_moisture_pct"])
    assert wettest["needed_in"] == 0.0
    table = woodref(*PANEL, *COLUMBUS, "--month", "2")
    assert "By the month" not in table.out
    assert "By the month" in woodref(*PANEL, *COLUMBUS, "--monthly").out
    elsewhere = woodref(*PANEL, *COLUMBUS, "--built", "Tucson/unheated-shop/March")
    assert "(March)" in lead(elsewhere)[1]


def test_what_was_not_said_is_told(woodref):
    out = " ".join(woodref(*PANEL).out.split())
    assert "fitted at 8 % (halfway)" in out
    assert "Nothing says when it is fitted" in out
    assert "6 and 10 % stand for the dry and the damp season indoors" in out
    assert "The part is held in the middle of the width." in out
    assert "never a structural value" in out
    mean = " ".join(woodref(*PANEL, *COLUMBUS).out.split())
    assert "(mean of the year)" in mean


@pytest.mark.parametrize("kind", ["slotted-hole", "button", "drawer-bottom", "drawer-front"])
def test_every_kind_has_its_line(woodref, kind):
    first, second, *gap = lead(woodref("fixing", "cherry", "--kind", kind, "--width", "20in"))
    assert first.startswith(("Make the slot", "Leave"))
    assert second.startswith("Black cherry")
    assert all(line.startswith("The gap is then ") for line in gap)


@pytest.mark.parametrize(("screw", "words"), [("#8", "a #8 screw"), ("3/16in", "a 3/16 in screw")])
def test_a_screw_is_called_as_it_was_given(woodref, screw, words):
    slot = ["fixing", "cherry", "--kind", "slotted-hole", "--distance", "9in"]
    assert f"long for {words} in the middle" in lead(woodref(*slot, "--screw", screw))[0]


def test_a_town_of_the_configuration_gives_way(woodref, monkeypatch):
    monkeypatch.setenv("WOODREF_PLACE", "Duluth")
    typed = json.loads(woodref(*PANEL, "--driest", "6", "--wettest", "9", "--format", "json").out)
    assert (typed["place"], typed["wettest_moisture_pct"]) == (None, 9.0)
    assert json.loads(woodref(*PANEL, "--format", "json").out)["place"] == "Duluth, Minnesota"


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--kind", "pannel"], "'pannel' is not a kind of fixing"),
        (["--kind", "buttons"], "did you mean 'button'"),
        (["--screw", "#8"], "screw does not go with the kind floating-panel"),
        (["--fixed", "20in"], "outside the part"),
        (["--fixed", "rim"], "write center, edge"),
        (["--distance", "20in"], "lies outside the part"),
        (["--at", "2in"], "at does not go with"),
        (["--gap", "wide"], "--gap: 'wide' is not a length"),
        (["--gap", "1in", "--groove", "1/2in"], "does not reach its groove"),
        (["--staves", "0"], "1 to 100000 boards"),
        (["--cut", "plain"], "use flat, rift, quarter"),
        (["--month", "May"], "--month needs a town"),
        (["--month", "Mai", "--place", "Duluth"], "'Mai' is not a month; nearest: May"),
        (["--month", "May", "--place", "Duluth", "--built", "7"], "--built or --month"),
        (["--driest", "6"], "both --driest and --wettest"),
        (["--driest", "9", "--wettest", "6"], "exchange the two"),
        (["--driest", "6", "--wettest", "9", "--place", "Duluth"], "not both"),
        (["--setting", "heated-house"], "--setting needs a town"),
        (["--built", "40"], "above fiber saturation"),
        (["--monthly"], "--monthly needs a town"),
    ],
)
def test_mistakes_are_one_line(woodref, words, message):
    result = woodref(*PANEL, *words)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--screw", "#8", "--hole", "1/8in"], "the screw does not go through its hole"),
        (["--screw", "#13"], "--screw: a #13 screw is in no table; nearest: #12"),
        (["--hole", "1/2in", "--washer", "3/8in"], "the washer falls through its hole"),
        (["--washer", "1in", "--recess", "7/8in"], "the washer does not go into its recess"),
        (["--fixed", "edge"], "give either the distance"),
    ],
)
def test_hardware_that_cannot_be(woodref, words, message):
    result = woodref(*HOLE, *words)
    assert (result.code, result.out) == (2, "")
    assert message in result.err


def test_the_gap_of_wood_that_was_fitted_wet_only_opens(woodref):
    seasons = ["--built", "12", "--driest", "4", "--wettest", "9"]
    data = json.loads(woodref(*PANEL, *seasons, "--gap", "1/8in", "--format", "json").out)
    fitted, driest, wettest = (g["gap_in"] for g in data["gaps"])
    assert (fitted, data["verdict"]) == (0.125, "holds")
    assert fitted < wettest < driest
    assert "does not swell" in woodref(*PANEL, *seasons).out


def test_a_width_or_a_distance_is_needed(woodref):
    result = woodref("fixing", "cherry", "--kind", "button")
    assert result.code == 2
    assert "--width of the part, or the --distance" in result.err


def test_a_wood_whose_movement_nobody_printed(woodref):
    result = woodref("gluing", "nosuchwood", "--length", "4in")
    assert result.code == 2
    assert "no wood is called" in result.err
