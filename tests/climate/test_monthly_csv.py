"""The user's own months as a CSV file."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.climate.monthly_csv import parse_months, read_months
from woodref.climate.seasons import MONTHS
from woodref.errors import InputError

ROWS = [f"{m},{60 + n}F,{30 + n}" for n, m in enumerate(MONTHS)]


def text(rows=ROWS, header="month,temperature,humidity_pct"):
    return "\n".join(["# invented", header, *rows])


def test_a_year():
    year = parse_months(text(), "mine.csv", "C")
    assert [m.month for m in year] == list(range(1, 13))
    assert year[0].temperature_c == pytest.approx((60 - 32) / 1.8)
    assert year[11].humidity_pct == 41.0


def test_bare_temperatures_are_in_the_default_unit_and_months_may_be_numbers():
    rows = [f"{40 + n}, {n} ,68" for n in range(1, 13)]
    year = parse_months(text(rows, "humidity_pct,month,temperature"), "mine.csv", "F")
    assert year[0].temperature_c == pytest.approx(20.0)
    assert year[0].humidity_pct == 41.0


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (ROWS[:3] + ROWS[4:], "mine.csv: April is missing"),
        ([*ROWS, ROWS[0]], "mine.csv: January is there twice"),
        (["Jan,60F,130", *ROWS[1:]], "January: a relative humidity is 0 to 100 %, not 130"),
        (["Jam,60F,30", *ROWS[1:]], "line 3: month: 'Jam' is not a month"),
        (["J,60F,30", *ROWS[1:]], "line 3: month: 'J' is not a month"),
        (["Jan,warm,30", *ROWS[1:]], "line 3: temperature: 'warm'"),
        (["Jan,60F,-3", *ROWS[1:]], "line 3: humidity_pct: a relative humidity cannot be negative"),
        (["Jan,60F", *ROWS[1:]], "line 3: has 2 cells"),
        (["Jan,15,5,30", *ROWS[1:]], "line 3: has 4 cells, the header 3; decimals take a point"),
    ],
)
def test_what_is_wrong_is_said_with_its_place(rows, said):
    with pytest.raises(InputError) as caught:
        parse_months(text(rows), "mine.csv", "C")
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("header", "said"),
    [
        ("month,temperatur,humidity_pct", "unknown column 'temperatur'"),
        ("month,temperature", "needs the column humidity_pct once"),
        ("month,month,temperature,humidity_pct", "needs the column month once"),
    ],
)
def test_headers(header, said):
    with pytest.raises(InputError, match=said):
        parse_months(text(header=header), "mine.csv", "C")


def test_nothing_but_remarks():
    with pytest.raises(InputError, match="has no header"):
        parse_months("# only this\n", "mine.csv", "C")


def test_a_missing_file(tmp_path):
    with pytest.raises(InputError, match="no such file of months"):
        read_months(tmp_path / "none.csv", "C")


@given(st.text(max_size=200))
def test_any_text_is_a_year_or_one_line(text):
    try:
        found = len(parse_months(text, "mine.csv", "C"))
        said = ""
    except InputError as error:
        found, said = 12, str(error)
    assert found == 12
    assert "\n" not in said


def test_a_file_of_bare_degrees_is_read_in_the_unit_asked_for(tmp_path):
    path = tmp_path / "air.csv"
    rows = "".join(f"{n},50,70\n" for n in range(1, 13))
    path.write_text(f"month,temperature,humidity_pct\n{rows}", encoding="utf-8")
    assert read_months(path, "C")[0].temperature_c == 50.0
    assert read_months(path, "F")[0].temperature_c == pytest.approx(10.0)
    path.write_text(f"month,temperature,humidity_pct\n{rows}1,50,70\n", encoding="utf-8")
    with pytest.raises(InputError, match=r"air\.csv: January is there twice"):
        read_months(path, "C")


def test_a_file_of_a_thousand_lines_may_be_one_of_months_and_no_longer_one(tmp_path):
    path = tmp_path / "air.csv"
    year = f"{text()}\n"
    path.write_text("# a remark\n" * (1000 - year.count("\n")) + year, encoding="utf-8")
    assert len(read_months(path, "C")) == 12
    path.write_text("# a remark\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    with pytest.raises(InputError, match="has more than 1,000 lines"):
        read_months(path, "C")
