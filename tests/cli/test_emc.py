import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

SI = ("--units", "si")


def facts(result):
    return json.loads(result.out)


# Wood Handbook FPL-GTR-190 (2010), Table 4-2: moisture content by temperature and humidity.
@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [("70F", 40, 7.7), ("30F", 50, 9.5), ("70F", 65, 12.0), ("100F", 30, 5.8), ("200F", 80, 10.9)],
)
def test_emc_is_that_of_the_printed_table(woodref, temperature, humidity, expected):
    result = woodref("emc", temperature, f"{humidity}%", "--format", "json")
    assert facts(result)["emc_pct"] == pytest.approx(expected, abs=0.06)


def test_emc_leads_with_the_answer(woodref):
    assert woodref("emc", "68F", "40%").out.startswith(
        "Wood comes to 7.7 % moisture content at 68 F and 40 % relative humidity.\n"
    )
    assert woodref("emc", "68F,40%").out == woodref("emc", "68", "40").out
    assert woodref("emc", "20", "40", *SI).out.startswith("Wood comes to 7.7 % moisture content")


def test_emc_backwards_is_the_humidity_that_brings_it(woodref):
    result = woodref("emc", "68F", "--keep", "8", "--format", "json")
    humidity = facts(result)["humidity_pct"]
    assert humidity == pytest.approx(41.8, abs=0.1)
    there = facts(woodref("emc", "68F", f"{humidity}", "--format", "json"))
    assert there["emc_pct"] == pytest.approx(8.0, abs=0.01)
    assert woodref("emc", "68F", "--keep", "8").out.startswith(
        "At 68 F keep the air at 42 % relative humidity to hold wood at 8 %.\n"
    )
    assert "At 70 F" in woodref("emc", "--keep", "8").out  # the default, which the answer states


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ([], "give the air"),
        (["68F"], "give the air"),
        (["68F", "40", "--keep", "8"], "give the air"),
        (["68F,40%", "40"], "give the air"),
        (["68K", "40"], "is not a temperature"),
        (["68F", "damp"], "is not a relative humidity"),
        (["68F", "100"], "0 to below 100 %"),
        (["201F", "40"], "outside 30 to 200 F, the"),
        (["29F", "40"], "nearest: 30F"),
        (["250F", "--keep", "8"], "nearest: 200F"),
        (["68F", "--keep", "60"], "no air keeps wood at 60 %"),
        (["68F", "--keep", "-8"], "cannot be negative"),
    ],
)
def test_emc_refuses_in_one_line(woodref, arguments, message):
    result = woodref("emc", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1


def test_moisture_from_two_weighings(woodref):
    result = woodref("moisture", "--wet", "412g", "--dry", "371g")
    assert result.out.startswith("Moisture content 11.1 %: 412g before, 371g ovendry.\n")
    data = facts(woodref("moisture", "--wet", "412 g", "--dry", "0.371 kg", "--format", "json"))
    # FPL-GTR-282 (2021), Eq. 4-2: 100 (412 - 371) / 371.
    assert data["moisture_pct"] == pytest.approx(11.05, abs=0.005)
    assert (data["wet_g"], data["dry_g"]) == (412.0, 371.0)


# FPL-GTR-190 (2010), p. 13-3: half a percent for each 10 F, added when the wood is colder.
@pytest.mark.parametrize(
    ("temperature", "calibration", "expected"),
    [("70F", None, 11.0), ("50F", None, 12.0), ("90F", None, 10.0), ("50F", "80F", 12.5)],
)
def test_moisture_from_a_meter(woodref, temperature, calibration, expected):
    more = ["--calibration", calibration] if calibration else []
    question = ["moisture", "--meter", "11", "--temperature", temperature, *more]
    assert facts(woodref(*question, "--format", "json"))["moisture_pct"] == expected
    text = woodref(*question).out
    assert text.startswith(f"Moisture content {expected:.1f} %, likely within 1 %: 11 % on the")
    assert ("taken to be calibrated at 70 F" in text) == (calibration is None)
    assert "6 to 30 %" in " ".join(text.split())


def test_a_meter_in_degrees_celsius(woodref):
    question = ["moisture", "--meter", "11", "--temperature", "10", "--calibration", "21.1", *SI]
    data = facts(woodref(*question, "--format", "json"))
    assert data["moisture_pct"] == pytest.approx(12.0, abs=0.01)
    assert data["calibration_temperature_c"] == 21.1


def test_a_corrected_reading_outside_the_range_says_so(woodref):
    out = woodref("moisture", "--meter", "6.5", "--temperature", "110F").out
    assert "leaves the range of 6 to 30 %" in out


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ([], "give --wet and --dry"),
        (["--wet", "412g"], "give --wet and --dry"),
        (["--meter", "11"], "give --wet and --dry"),
        (["--wet", "412g", "--dry", "371g", "--meter", "11"], "give --wet and --dry"),
        (["--wet", "412g", "--dry", "0"], "weighs more than 0 when dry"),
        (["--wet", "371g", "--dry", "412g"], "are they exchanged?"),
        (["--wet", "heavy", "--dry", "412g"], "'heavy' is not a mass"),
        (["--meter", "5", "--temperature", "50F"], "from 6 to 30 %"),
        (["--meter", "31", "--temperature", "50F"], "from 6 to 30 %"),
        (["--meter", "wet", "--temperature", "50F"], "is not a meter reading"),
        (["--meter", "6", "--temperature", "300F"], "check the temperatures"),
    ],
)
def test_moisture_refuses_in_one_line(woodref, arguments, message):
    result = woodref("moisture", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err
    assert result.err.count("\n") == 1
