"""Stored figures that a disk, a copy or a hand has changed: told in a line, and never used."""

import os
from random import Random

import duckdb
import pytest

from woodref.choose.gathered import own_values_of
from woodref.errors import WoodrefError
from woodref.lumber.prices import resolver
from woodref.own.intake import take_in
from woodref.own.prices import own_prices
from woodref.own.storage import COLUMNS, batches, rows_of, take_out
from woodref.own.yard import own_yard
from woodref.reference.library import Reference
from woodref.reference.overlay import batch_file, batch_folder, files_sql, stored
from woodref.reference.places import UnknownPlaceError, find_place, weather_of
from woodref.reference.query import run_query

BOARDS = "species,property,value,unit\n" + "".join(
    f"{wood},side_hardness,{value},N\n" for wood, value in (("teak", 4000), ("white ash", 6000))
)
GIVEN = {
    "measurements": BOARDS,
    "prices": "species,thickness,price,per\nteak,4/4,30,board foot\nwhite ash,4/4,7,board foot\n",
    "places": "place,month,temperature,humidity_pct\n"
    + "".join(f"Quiet Valley,{n},10C,50\n" for n in range(1, 13)),
    "yard": "species\nteak\nwhite ash\n",
}


def kept(reference, table, kind):
    """The file that a table of a kind is kept in."""
    take_in(reference, table(GIVEN[kind]), kind, "bench")
    (file,) = stored(kind)
    return file


def put(file, content):
    """Give a file other bytes, as another file under its name."""
    aside = file.with_name("aside")
    aside.write_bytes(content)
    os.replace(aside, file)


def one_line(error, *parts):
    text = str(error.value)
    assert "\n" not in text
    assert all(str(part) in text for part in parts), text


def test_a_flipped_bit_is_told_wherever_it_is(reference, table):
    """One bit of each byte of the file: magic, pages, statistics, footer, lengths."""
    file = kept(reference, table, "measurements")
    whole, random = file.read_bytes(), Random(11)
    for at in range(len(whole)):
        damaged = bytearray(whole)
        damaged[at] ^= 1 << random.randrange(8)
        put(file, damaged)
        with pytest.raises(WoodrefError) as error:
            files_sql([file])
        one_line(error, file, "does not hold what was stored")
    put(file, whole)
    assert len(rows_of("measurements")) == 2


@pytest.mark.parametrize("change", [lambda b: b[:-1], lambda b: b + b"\0", lambda b: b""])
def test_a_file_of_another_length_is_told(reference, table, change):
    file = kept(reference, table, "measurements")
    put(file, change(file.read_bytes()))
    with pytest.raises(WoodrefError, match=r"does not hold what was stored.*--no-own"):
        reference.wood("teak")


def read_all(kind):
    """Every way to what is stored of a kind, each as a function of a fresh Reference."""
    ways = {
        "measurements": (lambda r: r.wood("teak"), own_values_of),
        "prices": (lambda r: own_prices(resolver(r)),),
        "places": (lambda r: weather_of(r, find_place(r, "Quiet Valley")),),
        "yard": (lambda r: own_yard(resolver(r)),),
    }[kind]
    return (
        *ways,
        lambda r: batches(kind),
        lambda r: rows_of(kind),
        lambda r: run_query(f"select * from own_{kind}"),
        lambda r: take_out("x9"),
    )


@pytest.mark.parametrize("kind", GIVEN)
def test_no_way_to_a_damaged_file_goes_round_the_checksum(reference, table, kind):
    """A bit of a number, which leaves the file one that can be read."""
    file = kept(reference, table, kind)
    content = bytearray(file.read_bytes())
    content[len(content) // 3] ^= 4
    put(file, content)
    for read in read_all(kind):
        with pytest.raises(WoodrefError) as error:
            read(Reference())
        one_line(error, file, "does not hold what was stored", "move the file away")
        assert error.value.exit_code == 1
    with pytest.raises(WoodrefError, match="move the file away"):
        take_in(reference, table(GIVEN[kind]), kind, "bench")
    assert Reference(own=False).wood("teak").value("side_hardness").basis != "own"


def test_a_file_under_another_name_is_told(reference, table):
    file = kept(reference, table, "measurements")
    for name in ("m1.parquet", "m1-00000000.parquet", "copy.parquet"):
        file = file.rename(file.with_name(name))
        with pytest.raises(WoodrefError, match=f"{name}: your own figures are damaged"):
            reference.wood("teak")


def with_null(table, kind, column):
    """A stored table that lacks a cell in one of its rows, as a version of the program wrote it."""
    (file,) = stored(kind)
    aside = file.with_name("aside")
    nothing = f"case when line = 3 then null else {column} end as {column}"
    duckdb.execute(
        f"copy (select * replace ({nothing}) from '{file}') to '{aside}' (format parquet)"
    )
    file.unlink()
    aside.rename(batch_file(kind, file.stem.partition("-")[0], aside))


def refusal(read):
    """What a way to the figures refuses with, '' where it answers."""
    try:
        read(Reference())
    except WoodrefError as error:
        return str(error)
    return ""


#: Columns of each kind that a row may lack, for every question.
MAY_LACK = {
    "measurements": {
        *("species", "moisture_content_pct", "sample_size"),
        *("printed_value", "printed_unit", "measured", "note"),
    },
    "prices": {"low", "high", "currency", "note", "grade", "date", "width", "length"},
    "places": {"note"},
    "yard": {"thickness", "note"},
}
EVERY_COLUMN = [(kind, column) for kind in GIVEN for column in COLUMNS[kind]]


@pytest.mark.parametrize(("kind", "column"), EVERY_COLUMN)
def test_a_cell_that_is_missing_is_no_mistake_of_the_program(reference, table, kind, column):
    """Each way answers, or refuses in a line that names the file."""
    kept(reference, table, kind)
    with_null(table, kind, column)
    refusals = [told for read in read_all(kind)[:-1] if (told := refusal(read))]
    for told in refusals:
        assert told.startswith(str(batch_folder(kind)))
        assert "your own figures are damaged" in told
        assert "\n" not in told
        assert "None" not in told
    assert (refusals == []) == (column in MAY_LACK[kind])


@pytest.mark.parametrize(
    ("kind", "column"),
    [
        *(("measurements", c) for c in ("species_id", "condition", "value", "note")),
        *(("places", "place"), ("places", "temperature_c"), ("prices", "price"), ("yard", "note")),
    ],
)
def test_a_cell_of_several_values_is_no_mistake_of_the_program(reference, table, kind, column):
    """In a file of the format before, which no checksum guards."""
    file = kept(reference, table, kind)
    earlier = batch_folder(kind, 2) / "m1.parquet"
    earlier.parent.mkdir()
    duckdb.execute(
        f"copy (select * replace ([{column}] as {column}) from '{file}') to '{earlier}' "
        "(format parquet)"
    )
    file.unlink()
    told = [refusal(read) for read in read_all(kind)[:-1]]
    assert any(f"{earlier}: your own figures are damaged: a cell of several" in t for t in told)


def test_a_place_without_a_name_is_refused(reference, table):
    """Whatever place is asked for, as any of them may be the one."""
    kept(reference, table, "places")
    with_null(table, "places", "place")
    for asked in ("Quiet Valley", "Quiet Vally", "Duluth"):
        with pytest.raises(WoodrefError, match="damaged: a row without its place"):
            find_place(Reference(), asked)
    with pytest.raises(UnknownPlaceError):
        find_place(Reference(own=False), "Quiet Valley")


def test_no_mean_is_made_without_a_value_that_is_missing(reference, table):
    take_in(reference, table(BOARDS + "teak,side_hardness,4100,N\n"), "measurements", "bench")
    with_null(table, "measurements", "value")
    assert Reference().wood("teak").value("side_hardness").value == 4050.0
    with pytest.raises(WoodrefError, match="damaged: a row without its"):
        Reference().wood("white ash")
