"""Tables of the shop's: every row is kept, or rejected with line, column, value and reason."""

import csv

import pytest

from woodref.errors import InputError, WoodrefError
from woodref.own import intake, storage, tables
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
        ('white oak,side_hardness,"1400,5",lbf,,,', "value", "decimals take a point"),
        ('white oak,side_hardness,"1,400",lbf,,,', "value", "thousands no mark"),
        (r"\N,side_hardness,1400,lbf,,,", "species", "no wood of the dataset"),
        ("white oak,side_hardness,1400,stone,,,", "unit", "not a unit"),
        ("white oak,side_hardness,9000,lbf,,,", "value", "outside 22.48 to 5620 lbf"),
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
        (HEAD + "teak,side_hardness,1000,lbf,,,\n", "utf-16", "not UTF-8"),
        (HEAD, "utf-8", "has a heading but no rows"),
        (HEAD + "a,b,c,d,,,\n" + 'teak,"side_hardness\n', "utf-8", "line 3: .*closed"),
        (HEAD + f"teak,{'x' * 200_000},1,lbf,,,\n", "utf-8", "line 2: .*longer than 131,072"),
        (HEAD + 'teak,"1/2" board",1,lbf,,,\n', "utf-8", "line 2: .*a quote ends inside a cell"),
    ],
)
def test_a_file_of_the_wrong_form_is_one_line(reference, table, text, encoding, words):
    with pytest.raises(InputError, match=words) as caught:
        take_in(reference, table(text, encoding=encoding), "measurements", "bench")
    assert "\n" not in str(caught.value)
    assert rows_of("measurements") == []


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_the_line_is_the_one_an_editor_shows(reference, table, newline):
    """Whatever ends the lines, and with remarks, blank lines and a line break in a cell."""
    text = f"# a remark\n\n{HEAD}" + 'teak,side_hardness,1000,lbf,,,"two\nlines"\nteak,,,,,,\n'
    found = take_in(reference, table(text.replace("\n", newline)), "measurements", "bench")
    assert [(b.line, b.column) for b in found.bad] == [(6, "property")]
    assert rows_of("measurements")[0]["note"] == "two\nlines"


def test_units_with_raised_figures_and_more_columns(reference, table):
    head = "species,property,value,unit,sample_size,date\n"
    path = table(
        head
        + "teak,density_12pct,640,kg/m³,5,2026-03-02\n"
        + "teak,density_12pct,640,kg/m3,none,\n"
        + "teak,density_12pct,640,kg/m3,0,\n"
        + "teak,density_12pct,640,kg/m3,,3/2/2026\n"
    )
    found = take_in(reference, path, "measurements", "bench")
    kept = rows_of("measurements")
    assert [(r["sample_size"], r["measured"]) for r in kept] == [(5, "2026-03-02")]
    assert set(reasons(found)) == {(3, "sample_size"), (4, "sample_size"), (5, "date")}


def test_a_corrected_rejects_file_can_be_added(reference, table):
    path = table(HEAD + "teak,side_hardness,lots,lbf,,,\nteak,side_hardness,1000,lbf,,,\n")
    rejects = take_in(reference, path, "measurements", "bench").rejects
    rejects.write_text(rejects.read_text().replace(",lots,", ",1100,"))
    found = take_in(reference, rejects, "measurements", "bench")
    assert (found.rows, found.kept) == (1, 1)
    assert [r["printed_value"] for r in rows_of("measurements")] == ["1000", "1100"]


def test_rows_that_cannot_be_kept_beside_the_table_leave_all_as_it_was(
    reference, table, monkeypatch
):
    def fail(*_, **__):
        raise WoodrefError("no room")

    monkeypatch.setattr(intake, "write_rejects", fail)
    path = table(HEAD + "teak,side_hardness,lots,lbf,,,\nteak,side_hardness,1000,lbf,,,\n")
    with pytest.raises(WoodrefError, match="no room"):
        take_in(reference, path, "measurements", "bench")
    assert rows_of("measurements") == []


def test_a_message_is_short_and_printable_whatever_the_cell(reference, table):
    path = table(
        HEAD + f"{'a' * 90_000},side_hardness,1,lbf,,,\nteak,side_hardness,1\x1b[2J,lbf,,,\n"
    )
    found = take_in(reference, path, "measurements", "bench")
    messages = [str(b) for b in found.bad]
    assert all(len(m) < 500 and m.isprintable() for m in messages)
    assert "a" * 90_000 in found.rejects.read_text()  # nothing of it is lost


def test_an_origin_is_needed(reference, table):
    with pytest.raises(InputError, match="--origin"):
        take_in(reference, table(HEAD), "measurements", "  ")


def test_prices_are_judged_by_the_reader_of_estimates(reference, table):
    text = (
        "species,thickness,price,per\nwhite ash,4/4,6.5,board foot\nwhite ash,5/4,abc,board foot\n"
    )
    found = take_in(reference, table(text), "prices", "yard")
    assert (found.rows, found.kept) == (2, 1)
    assert "is not a number" in reasons(found)[3, "price"]


def test_prices_of_another_currency_than_the_stored_ones(reference, table):
    head = "species,thickness,price,per,currency\n"
    take_in(reference, table(head + "white ash,4/4,6.5,board foot,USD\n"), "prices", "yard")
    text = head + "teak,4/4,30,board foot,EUR\n"
    found = take_in(reference, table(text), "prices", "yard")
    assert found.kept == 0
    assert "your stored prices are in USD" in reasons(found)[2, "currency"]


def test_a_large_table_is_read_row_by_row(reference, table, monkeypatch):
    """With remarks, cells of several lines, a row too long and one at fault: as a small one."""
    text = (
        "# boards of the year\r\n"
        + HEAD
        + 'white oak,side_hardness,1400,lbf,,,"two\nlines"\n'
        + "white oak,side_hardness,1,450,lbf,,,\n"
        + "wite oak,side_hardness,1500,lbf,,,\n"
        + "teak,side_hardness,4000,N,,,x"
    )
    small = take_in(reference, table(text, "small.csv"), "measurements", "bench")
    stored = rows_of("measurements", small.batch)
    storage.remove_batch("measurements", small.batch)
    monkeypatch.setattr(tables, "MAX_BYTES", 10)
    large = take_in(reference, table(text, "large.csv"), "measurements", "bench")
    assert (large.rows, large.kept, large.bad) == (small.rows, small.kept, small.bad) == (
        4, 2, small.bad,
    )  # fmt: skip
    told = rows_of("measurements", large.batch)
    assert [r | {"file": "", "batch": ""} for r in told] == [
        r | {"file": "", "batch": ""} for r in stored
    ]
    path = table(HEAD, "bytes.csv")
    path.write_bytes(path.read_bytes() + b"white oak,\xff\n")
    with pytest.raises(InputError, match="line 2: byte 0xFF is not UTF-8"):
        take_in(reference, path, "measurements", "bench")
