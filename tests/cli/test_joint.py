"""joint at the command line."""

import re

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")


def lead(result):
    """The lines of the answer, before the tables."""
    assert (result.code, result.err) == (0, "")
    return result.out.split("\n\n")[0].splitlines()


def test_which_side_of_a_miter_opens(woodref):
    asked = ["joint", "cherry", "--kind", "miter", "--width", "3in", "--built", "8"]
    opens, which, turns = lead(woodref(*asked))
    assert which.endswith("Fitted at 8 %.")
    dry, wet = opens.split("; ")
    assert dry.startswith("The miter opens 1/32 in (0 to 1/32) at the inside at the driest, 6 %")
    assert wet.endswith("at the outside at the wettest, 10 %.")
    assert turns.startswith("Each cut turns from 45.00 to 44.")
    # Built in the damp of its life, it opens at the inside alone.
    damp = lead(woodref(*asked[:-1], "12", "--driest", "6", "--wettest", "11"))[0]
    assert damp.count(" at the inside at the ") == 2


def test_metric_answers_hold_no_inches(woodref):
    for kind in ("tenon", "dowel", "breadboard"):
        asked = ["joint", "white ash", "--kind", kind, "--width", "150", "--units", "si"]
        out = woodref(*asked).out
        assert not re.search(r"\d in\b", out)
        assert re.search(r"\d mm\b", out)


def test_what_the_trade_prints_stands_beside_the_slots_of_dowels(woodref):
    out = " ".join(woodref("joint", "cherry", "--kind", "dowel", "--width", "12in").out.split())
    assert "moving end of a batten or cleat: 1/4 in to 1/2 in (common practice, no source)" in out
    assert out.count("Racking, tipping and strength are not covered") == 1


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (["--kind", "mitre", "--width", "3in"], "did you mean 'miter'?"),
        (["--kind", "miter", "--width", "3in", "--fixed", "edge"], "--fixed does not go"),
        (["--kind", "tenon", "--width", "3in", "--core", "cherry"], "--core does not go"),
        (["--kind", "dowel", "--width", "3in", "--fixed", "4in"], "4 in from the edge"),
        (["--kind", "dowel", "--width", "3in", "--month", "May"], "--month needs a town"),
    ],
)
def test_wrong_use_is_one_line(woodref, said, words):
    result = woodref("joint", "cherry", *said)
    assert (result.code, result.out, result.err.count("\n")) == (2, "", 1)
    assert words in result.err


def test_months_and_a_picture_with_a_place(woodref, tmp_path, monkeypatch):
    monkeypatch.delenv("WOODREF_FULL")
    asked = ["joint", "cherry", "--kind", "miter", "--width", "2in", "--place", "Duluth"]
    assert "Month by month" not in woodref(*asked).out
    picture = tmp_path / "miter.svg"
    full = woodref(*asked, "--full", "--plot", str(picture))
    assert "Month by month" in full.out
    assert len(re.findall(r"^  [A-Z][a-z]+ +\d+\.\d %", full.out, re.MULTILINE)) == 12
    drawn = picture.read_text()
    assert "open inside" in drawn
    assert "open outside" in drawn
    alone = woodref(*asked[:-2], "--plot", str(tmp_path / "none.svg"))
    assert (alone.code, "add --place" in alone.err) == (2, True)


def test_unlike_members_of_a_corner(woodref):
    asked = ["joint", "cherry", "--kind", "miter", "--width", "2in", "--built", "8"]
    _, second, *_, turns = lead(woodref(*asked, "--other", "walnut", "--other-width", "3in"))
    assert second.startswith(
        "Black cherry member 2 in wide and black walnut member 3 in wide, mitered at 90 degrees "
        "and closed."
    )
    assert turns.endswith("cut them at 33.69 and 56.31.")
    assert "mitered at 120 degrees" in lead(woodref(*asked, "--corner", "120"))[1]
    wrong = woodref(*asked, "--corner", "wide")
    assert (wrong.code, "is not an angle" in wrong.err) == (2, True)
