"""Tables of the shop's: every row is kept, or rejected with line, column, value and reason."""

import csv

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.own.intake import take_in
from woodref.own.storage import rows_of

HEAD = "species,property,value,unit,condition,moisture_content_pct,note\n"


def reasons(found):
    return {(b.line, b.column): b.reason for b in found.bad}


def test_good_rows_are_kept_in_si(reference, table):
    path = table(
        HEAD + "white oak,side hardness,1400,lbf,,,\nWhite Oak,density_12pct,45,lb/ft3,,,x\n"
    )
    found = take_in(reference, path, "measurements", "bench")
    assert (found.rows, found.kept, found.bad, found.rejects) == (2, 2, (), None)
    hardness, density = rows_of("measurements")
    assert hardness["value"] == pytest.approx(1400 * 4.4482216152605)
    assert (hardness["species_id"], hardness["printed_value"]) == ("quercus-alba", "1400")
    assert density["value"] == pytest.approx(45 * 16.01846337396014)
    assert density["origin"] == "bench"


@pytest.mark.parametrize(
    ("row", "column", "words"),
    [
        ("wite oak,side_hardness,1400,lbf,,,", "species", "nearest: white oak"),
        ("hickory,side_hardness,1400,lbf,,,", "species", "trade group"),
        ("oak,side_hardness,1400,lbf,,,", "species", "several woods"),
        (",side_hardness,1400,lbf,,,", "species", "is empty"),
        ("white oak,side hardnes,1400,lbf,,,", "property", "nearest: side hardness"),
        ("white oak,side_hardness,lots,lbf,,,", "value", "is not a number"),
        ("white oak,side_hardness,inf,lbf,,,", "value", "is not a number"),
        ("white oak,side_hardness,,lbf,,,", "value", "is empty"),
        ('white oak,side_hardness,"1400,5",lbf,,,', "value", "decimal comma"),
        ("white oak,side_hardness,1400,stone,,,", "unit", "not a unit"),
        ("white oak,side_hardness,9000000,lbf,,,", "value", "physical sense"),
        ("white oak,side_hardness,-5,lbf,,,", "value", "physical sense"),
        ("white oak,side_hardness,1400,lbf,wet,,", "condition", "use 12pct or green"),
        ("white oak,density_at_test_moisture,700,kg/m3,,,", "moisture_content_pct", "is needed"),
        ("white oak,density_at_test_moisture,700,kg/m3,,900,", "moisture_content_pct", "0 to 300"),
        ("white oak,side_hardness,1400,lbf", "row", "has 4 values"),
        ("white oak,side_hardness,1,400,lbf,,,", "row", "decimal comma"),
    ],
)
def test_a_bad_row_says_where_and_why(reference, table, row, column, words):
    path = table(f"{HEAD}white oak,side_hardness,1400,lbf,,,\n{row}\n")
    found = take_in(reference, path, "measurements", "bench")
    assert (found.rows, found.kept) == (2, 1)
    assert words in reasons(found)[3, column]
    with found.rejects.open(newline="") as file:
        kept = list(csv.reader(file))
    assert kept[0][:3] == ["line", "column", "reason"]
    assert kept[1][:2] == ["3", column]
    assert ",".join(kept[1][3:]).count("oak") == row.count("oak")


@pytest.mark.parametrize(
    ("text", "encoding", "words"),
    [
        ("", "utf-8", "is empty"),
        ("# only a remark\n", "utf-8", "holds remarks only"),
        (HEAD.replace(",", ";"), "utf-8", "separated by semicolons"),
        (HEAD.replace("unit", "units"), "utf-8", "did you mean 'unit'"),
        (HEAD.replace("value,", ""), "utf-8", "the column 'value' is missing"),
        (HEAD.replace("note", "unit"), "utf-8", "is there twice"),
        (HEAD + "chêne,side_hardness,1,lbf,,,\n", "latin-1", "not UTF-8"),
    ],
)
def test_a_file_of_the_wrong_form_is_one_line(reference, table, text, encoding, words):
    with pytest.raises(InputError, match=words) as caught:
        take_in(reference, table(text, encoding=encoding), "measurements", "bench")
    assert "\n" not in str(caught.value)
    assert rows_of("measurements") == []


def test_an_origin_is_needed(reference, table):
    with pytest.raises(InputError, match="--origin"):
        take_in(reference, table(HEAD), "measurements", "  ")


def months(place, count=12, humidity="60"):
    return "".join(f"{place},{n},10C,{humidity}\n" for n in range(1, count + 1))


def test_a_place_needs_all_twelve_months(reference, table):
    head = "place,month,temperature,humidity_pct\n"
    path = table(head + months("Here") + months("There", 11))
    found = take_in(reference, path, "places", "logger")
    assert (found.rows, found.kept) == (23, 12)
    assert all("11 of 12 months" in b.reason for b in found.bad)


def test_a_place_with_one_bad_month_is_rejected_whole(reference, table):
    head = "place,month,temperature,humidity_pct\n"
    text = head + months("Here", 11) + "Here,12,10C,160\n"
    found = take_in(reference, table(text), "places", "logger")
    assert (found.rows, found.kept) == (12, 0)
    assert "must be 0 to 100 %" in reasons(found)[13, "humidity_pct"]


def test_prices_are_judged_by_the_reader_of_estimates(reference, table):
    text = (
        "species,thickness,price,per\nwhite ash,4/4,6.5,board foot\nwhite ash,5/4,abc,board foot\n"
    )
    found = take_in(reference, table(text), "prices", "yard")
    assert (found.rows, found.kept) == (2, 1)
    assert "is not a number" in reasons(found)[3, "price"]


CELL = st.text(st.characters(codec="utf-8", exclude_characters="\r\n\x00"), max_size=12)


@settings(
    deadline=None, max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(st.lists(CELL, min_size=1, max_size=8), max_size=8))
def test_no_row_is_lost(reference, table, rows):
    """Whatever is in a table: rows read are rows kept and rows rejected."""
    path = table(HEAD)
    with path.open("a", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)
    try:
        found = take_in(reference, path, "measurements", "bench")
    except InputError:  # a quote or a mark that makes it no CSV at all is said before any row
        return
    assert found.rows == found.kept + len(found.bad)


def test_a_large_table(reference, table):
    """100,000 rows, one in a hundred bad: nothing lost."""
    rows = 100_000
    lines = [HEAD]
    for i in range(rows):
        value = "lots" if i % 100 == 0 else str(1200 + i % 400)
        lines.append(f"white oak,side_hardness,{value},lbf,,,\n")
    found = take_in(reference, table("".join(lines)), "measurements", "bench")
    assert (found.rows, found.kept, len(found.bad)) == (rows, 99_000, 1_000)
    assert found.bad[0].line == 2
    with found.rejects.open() as file:
        assert sum(1 for _ in file) == 1_001
