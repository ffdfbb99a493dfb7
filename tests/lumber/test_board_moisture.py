"""How wet a board in hand is, from a row of a file of boards."""

import pytest

from woodref.errors import InputError
from woodref.lumber.board_moisture import board_moisture
from woodref.lumber.tally import read_pile


def test_as_known_by_a_meter_or_by_a_sample():
    assert board_moisture({}, "us") is None
    assert board_moisture({"moisture": "9.5 %"}, "us") == 9.5
    # FPL-GTR-190 (2010), p. 13-3: 0.5 % is added for each 10 degF the wood is colder.
    cold = {"meter": "11", "wood_temperature": "50"}
    assert board_moisture(cold, "us") == pytest.approx(12.0)
    assert board_moisture({"meter": "11", "wood_temperature": "10C"}, "us") == pytest.approx(12.0)
    sample = {"sample_wet": "412g", "sample_dry": "371g"}
    assert board_moisture(sample, "si") == pytest.approx(100 * 41 / 371)


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"moisture": "9", "meter": "9", "wood_temperature": "70"}, "one way"),
        ({"meter": "9"}, "wood_temperature is missing"),
        ({"wood_temperature": "70"}, "meter is missing"),
        ({"meter": "40", "wood_temperature": "70"}, "6 to 30 %"),
        ({"sample_wet": "412g"}, "sample_dry is missing"),
        ({"sample_wet": "371g", "sample_dry": "412g"}, "weighs less wet"),
        # As woodref moisture refuses it: taken off for warm wood is more than the meter showed.
        ({"meter": "6", "wood_temperature": "300"}, "leaves less than nothing"),
        ({"sample_wet": "412g", "sample_dry": "0"}, "more than 0 when dry"),
        ({"moisture": "900"}, "at most 200 %"),
        ({"moisture": "damp"}, "damp"),
    ],
)
def test_what_says_nothing_is_refused(cells, said):
    with pytest.raises(InputError, match=said):
        board_moisture(cells, "us")


def test_a_bad_reading_rejects_its_row_alone(tmp_path):
    file = tmp_path / "pile.csv"
    file.write_text(
        "thickness,width,length,species,meter,wood_temperature\n"
        "4/4,6,8,cherry,9,70\n4/4,6,8,cherry,90,70\n4/4,6,8,cherry,,\n"
    )
    pile = read_pile(file)
    assert [b.moisture_pct for b in pile.boards] == [pytest.approx(9.0), None]
    assert [r.line for r in pile.rejects] == [3]
    assert "6 to 30 %" in pile.rejects[0].reason
