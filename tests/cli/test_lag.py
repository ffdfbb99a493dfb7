"""acclimate, lag, finishes and delivery at the command line."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

ASH = ("lag", "white ash", "--thickness", "3/4in")
MAPLE = ("acclimate", "hard maple group", "--thickness", "8/4")
OAK = ("delivery", "white oak", "--thickness", "7/8in", "--width", "30in")
PORTLAND = ("--place", "Portland, Maine", "--setting", "heated-house")


def as_json(woodref, *arguments):
    result = woodref(*arguments, "--format", "json")
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


def test_oil_varnish_or_nothing(woodref):
    """Question: what is left of the movement of a 3/4 in ash panel after two wet months?"""
    finishes = ("--finish", "linseed oil", "--finish", "urethane varnish", "--coats", "3")
    lines = woodref(*ASH, *finishes).out.splitlines()
    assert lines[0].startswith(
        "After 61 damp days (6 % to 10 %) white ash 3/4 in thick has moved 97 %* of the way bare, "
        "96 %* under Linseed oil, 3 coats and 62 %* under Urethane varnish (oil-modified), 3 coats."
    )
    assert lines[1].startswith(
        "Over a whole year, of what thin bare wood moves: bare 92 % (80 to 97), under Linseed oil"
    )
    assert "* unchecked, from memory and not seen in print: diffusion" in " ".join(lines)


def test_bare_wood_is_among_the_answers_once(woodref):
    found = as_json(woodref, *ASH, "--finish", "nothing", "--finish", "shellac")
    assert [r["finish"] for r in found["finishes"]] == ["bare", "Shellac, 2 coats"]
    assert [r["finish_basis"] for r in found["finishes"]] == ["", "second_hand"]
    assert {r["basis"] for r in found["finishes"]} == {"unchecked"}
    assert len(found["months"]) == 24


def test_coats_that_nobody_asked_for_are_those_nearest_to_two(woodref):
    found = as_json(woodref, *ASH, "--finish", "paraffin wax, dipped")
    assert found["finishes"][1]["finish"] == "Paraffin wax, dipped, 1 coat"
    assert not any("the test of" in line for line in found["answer"])


def test_a_recalled_test_of_a_finish_is_told_above_the_figures(woodref):
    found = as_json(woodref, *ASH, "--finish", "marine enamel")
    assert found["finishes"][1]["finish_basis"] == "unchecked"
    assert any("the test of Marine enamel" in line for line in found["answer"])


def test_months_are_printed_when_asked_for(woodref):
    title = "Moisture content through a year"
    assert title not in woodref(*ASH).out
    assert title in woodref(*ASH, "--monthly").out


def test_a_width_has_its_movement_too(woodref):
    plain = as_json(woodref, *ASH)["finishes"][0]
    assert "change_in" not in plain
    wide = as_json(woodref, *ASH, "--width", "18in")
    quarter = as_json(woodref, *ASH, "--width", "18in", "--cut", "quarter")
    change = wide["finishes"][0]["change_in"]
    assert wide["finishes"][0]["change_low_in"] < change < wide["finishes"][0]["change_high_in"]
    assert quarter["finishes"][0]["change_in"] < change
    assert "A full change of the width would be" in " ".join(wide["notes"])


def test_a_finish_on_one_face_is_warned_of_above_the_figures(woodref):
    out = woodref(*ASH, "--finish", "shellac", "--one-face").out
    assert "Warning: finished on one face only" in out.partition("\n\n")[0]
    assert "Warning" not in woodref(*ASH, "--finish", "shellac").out


def test_a_place_gives_the_seasons(woodref):
    found = as_json(woodref, *ASH, *PORTLAND)
    assert (found["place"], found["setting"]) == ("Portland, Maine", "heated house")
    assert found["from_moisture_pct"] == pytest.approx(4.9, abs=0.1)
    assert found["to_moisture_pct"] == pytest.approx(12.6, abs=0.1)
    assert found["months"][0]["emc_pct"] == found["from_moisture_pct"]


def test_a_usual_place_gives_way_to_moisture_contents(woodref, monkeypatch):
    monkeypatch.setenv("WOODREF_PLACE", "Savannah")
    assert as_json(woodref, *ASH)["place"] == "Savannah, Georgia"
    assert as_json(woodref, *ASH, "--from", "6", "--to", "9")["place"] is None


def test_how_long_should_maple_rest(woodref):
    """Question: how long should 8/4 hard maple rest in the shop before I mill it?"""
    out = woodref(*MAPLE).out
    lines = out.splitlines()
    assert lines[0].startswith(
        "Hard maple 2 in thick, 12 % to 7 %: about 6 months (3 to 13)* to come"
    )
    assert lines[1].startswith(
        "The usual 1 to 2 weeks of rest (common practice) is not enough here: still "
    )
    assert "Taken, as it was not given: --from 12 %, --to 7 %." in out
    assert "Trust the trade's 1 to 2 weeks for stock" in out
    assert "Trust the estimate where" in " ".join(out.split())


def test_stock_near_the_room(woodref):
    result = woodref("acclimate", "cherry", "--thickness", "4/4", "--from", "7.5", "--to", "7")
    assert result.out.startswith(
        "Black cherry 1 in thick, 7.5 % to 7 %: within 1 % of the room already."
    )
    assert "Taken" not in result.out


def test_acclimate_in_a_room_and_month(woodref):
    found = as_json(woodref, *MAPLE, *PORTLAND, "--month", "jan")
    assert [found[k] for k in ("place", "setting", "month")] == [
        *("Portland, Maine", "heated house", "January")
    ]
    assert found["to_moisture_pct"] == pytest.approx(6.6, abs=0.1)
    assert (found["trade_days_low"], found["trade_days_high"]) == (7, 14)
    year = as_json(woodref, *MAPLE, *PORTLAND)
    assert (year["place"], year["month"]) == ("Portland, Maine", None)


def test_warm_air_is_faster(woodref):
    days = [
        as_json(woodref, *MAPLE, "--to", air)["mean_days"] for air in ("50F,36.5%", "90F,36.5%")
    ]
    assert days[0] > 1.5 * days[1]


def test_built_here_lives_there(woodref):
    """Question: my shop is in Tucson, the client lives in Portland, Maine."""
    result = woodref(*OAK, "--built", "Tucson/unheated-shop/March", *PORTLAND)
    lines = result.out.splitlines()
    assert lines[0].startswith(
        "White oak 30 in wide: in the first year 5/8 in wider than built by the end of July, "
    )
    assert lines[1].startswith("In the years after allow ")
    assert lines[2] == (
        "It is 7/8 in thick, bare, built at 6.1 %, and lives in Portland, Maine, heated house from "
        "the beginning of April."
    )
    assert "Built in Tucson, Arizona, unheated shop, at 6.1 %" in result.out
    assert "a panel is its staves" in result.out


def test_delivery_says_what_it_took(woodref):
    found = as_json(woodref, *OAK, "--built", "7", "--boards", "6", *PORTLAND)
    assert (found["arrival_month"], found["build_moisture_pct"]) == ("January", 7)
    assert not any("a panel is its staves" in n for n in found["notes"])
    mean = as_json(woodref, *OAK, "--built", "Tucson/unheated-shop", *PORTLAND)
    assert any("at the mean of its year" in n for n in mean["notes"])
    usual = (
        "delivery",
        "black walnut",
        "--thickness",
        "20mm",
        "--built",
        "6.5",
        "--place",
        "Savannah",
    )
    assert as_json(woodref, *usual)["width_in"] == 12
    assert as_json(woodref, *usual, "--units", "si")["width_mm"] == 300


def test_a_finished_piece_swings_less(woodref):
    varnish = ("--finish", "urethane varnish", "--coats", "3")
    swings = [
        as_json(woodref, *OAK, "--built", "7", *PORTLAND, *finish)["swing_in"]
        for finish in ((), varnish)
    ]
    assert swings[1] < 0.8 * swings[0]


def test_all_finishes_are_listed_with_how_they_are_known(woodref):
    out = woodref("finishes").out
    assert out.startswith("32 finishes, 97 with their numbers of coats")
    found = as_json(woodref, "finishes")["finishes"]
    assert len(found) == 97
    shellac = next(r for r in found if (r["finish"], r["coats"]) == ("Shellac", 1))
    assert (shellac["excluded_14_days_pct"], shellac["basis"]) == (3, "unchecked")
    assert "not in Table 16-3 of 2010" in shellac["note"]


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        ((*ASH, "--finish", "shelac"), "no finish is called 'shelac'; nearest: Shellac"),
        ((*ASH, "--finish", "varnish"), "choose one: Spar varnish"),
        ((*ASH, "--finish", "linseed oil", "--coats", "7"), "not 7; nearest: 3"),
        ((*ASH, "--coats", "2"), "--coats needs a finish"),
        ((*ASH, "--one-face"), "--one-face needs a finish"),
        ((*ASH, "--from", "10", "--to", "6"), "exchange --from and --to"),
        ((*ASH, "--from", "8", "--to", "8"), "nothing to follow"),
        ((*ASH, "--from", "6", "--to", "45"), "outside 0 to 30 %"),
        ((*ASH, "--days", "0"), "days are above 0"),
        ((*ASH, "--days", "-3"), "days are above 0"),
        ((*ASH, "--setting", "heated-house"), "--setting needs a town"),
        ((*ASH, "--place", "Savannah", "--from", "6"), "--from does not go with a place"),
        (("lag", "white ash", "--thickness", "12in"), "a thickness of 1/32 to 6 in"),
        (("lag", "white ash", "--thickness", "0"), "a thickness of 1/32 to 6 in"),
        ((*MAPLE, "--from", "green", "--month", "May"), "--month needs a town"),
        ((*MAPLE, "--from", "60"), "outside 0 to 30 %"),
        ((*MAPLE, *PORTLAND, "--month", "Janury"), "'Janury' is not a month; nearest: January"),
        ((*MAPLE, *PORTLAND, "--to", "7"), "--to does not go with a place"),
        ((*OAK, "--built", "7"), "name the town it goes to"),
        ((*OAK, "--built", "7", "--boards", "0", *PORTLAND), "1 to 100000 boards, not 0"),
        ((*OAK, "--built", "Tuscon/unheated-shop", *PORTLAND), "nearest: Tucson, Arizona"),
        ((*OAK, "--built", "Tucson/unheated-shp", *PORTLAND), "nearest: unheated-shop"),
        ((*OAK, "--built", "Tucson/unheated-shop/Marhc", *PORTLAND), "nearest: March"),
        ((*OAK, "--built", "wet", *PORTLAND), "'wet' is not a moisture content"),
    ],
)
def test_errors_are_one_line_with_a_way_on(woodref, arguments, problem):
    result = woodref(*arguments)
    assert (result.code, result.out) == (2, "")
    assert problem in result.err
    assert result.err.count("\n") == 1
