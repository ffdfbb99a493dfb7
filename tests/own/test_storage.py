"""The overlay: preferred, switched off, removed, and read as earlier versions stored it."""

import shutil

import duckdb
import pytest

from woodref.board.weight import density_of
from woodref.errors import InputError, WoodrefError
from woodref.lumber.nominal import Nominal
from woodref.lumber.prices import resolver
from woodref.own import storage
from woodref.own.intake import take_in
from woodref.own.prices import own_prices
from woodref.own.storage import batches, remove_batch, rows_of, take_out
from woodref.reference.library import Reference
from woodref.reference.overlay import batch_file, batch_folder, batch_of, first_file, stored
from woodref.reference.query import run_query

HEAD = "species,property,value,unit\n"


def add(reference, table, *values, unit="lbf", prop="side_hardness", origin="bench"):
    rows = "".join(f"white oak,{prop},{v},{unit}\n" for v in values)
    return take_in(reference, table(HEAD + rows), "measurements", origin)


def rewrite(path, query):
    """Put the rows of a query in the place of a stored batch, as if they had been stored so."""
    aside = path.with_name("aside")
    duckdb.execute(f"copy ({query}) to '{aside}' (format parquet)")
    kind = path.parent.name.partition("-")[0]
    path.unlink()
    aside.replace(batch_file(kind, batch_of(path), aside))


def test_own_figures_go_before_the_printed_ones(reference, table):
    printed = Reference().wood("white oak").value("side_hardness")
    add(reference, table, 1500)
    own = Reference().wood("white oak").value("side_hardness")
    assert own.basis == "own"
    assert own.value == pytest.approx(1500 * 4.4482216152605)
    assert own.sd == pytest.approx(0.20 * own.value)  # the published coefficient of variation
    assert own.source.startswith("your own: bench (")
    assert "own figures" in Reference().wood("white oak").note
    assert Reference(own=False).wood("white oak").value("side_hardness") == printed


def test_from_three_figures_on_their_own_spread_counts(reference, table):
    add(reference, table, 1400, 1500, 1600)
    own = Reference().wood("white oak").value("side_hardness")
    assert own.value == pytest.approx(1500 * 4.4482216152605)
    assert own.sd == pytest.approx(100 * 4.4482216152605)


def test_the_same_figure_three_times_is_no_spread(reference, table):
    """Three boards alike say nothing of the fourth: the published spread stays."""
    add(reference, table, 1500, 1500, 1500)
    own = Reference().wood("white oak").value("side_hardness")
    assert own.cv_pct == pytest.approx(20.0)


def test_the_mean_of_several_boards_counts_as_many_and_gives_no_spread(reference, table):
    head = HEAD.replace("unit", "unit,sample_size")
    rows = "".join(f"white oak,side_hardness,{v},lbf,{n}\n" for v, n in ((1400, 8), (1600, 1)))
    take_in(reference, table(head + rows), "measurements", "bench")
    add(reference, table, 1500)
    own = Reference().wood("white oak").value("side_hardness")
    assert own.value == pytest.approx((8 * 1400 + 1600 + 1500) / 10 * 4.4482216152605)
    assert own.cv_pct == pytest.approx(20.0)
    assert "the mean of 3 of your own figures of 10 boards" in own.basis_reason


def test_a_board_of_one_member_leaves_the_printed_mean_of_its_group(reference, table):
    asked = ("side_hardness", "basic_specific_gravity", "density_12pct")
    printed = Reference(own=False).wood("white oak group")
    add(reference, table, 1500)
    add(reference, table, 45.0, unit="lb/ft3", prop="density_12pct")
    group = Reference().wood("white oak group")
    assert [group.value(p) for p in asked] == [printed.value(p) for p in asked]
    assert Reference().wood("white oak").value("side_hardness").basis == "own"


def test_no_printed_figure_changes_for_figures_of_ones_own(reference, table):
    printed = Reference(own=False).wood("white oak")
    add(reference, table, 1500)
    add(reference, table, 45.0, unit="lb/ft3", prop="density_12pct")
    own = Reference().wood("white oak")
    measured = {("side_hardness", "12pct"), ("density_12pct", "12pct")}
    assert {k: v for k, v in own.values.items() if k not in measured} == {
        k: v for k, v in printed.values.items() if k not in measured
    }


def test_origin_and_day_of_measuring_are_the_source(reference, table):
    rows = "white oak,side_hardness,1500,lbf,2026-03-02\n"
    take_in(reference, table(HEAD.replace("unit", "unit,date") + rows), "measurements", "bench")
    own = Reference().wood("white oak").value("side_hardness")
    assert own.source == "your own: bench (2026-03-02)"


def test_an_own_density_is_what_weight_uses(reference, table):
    add(reference, table, 50.0, unit="lb/ft3", prop="density_12pct")
    density = density_of(Reference().wood("white oak"), 12.0)
    assert density.density_kg_m3 == pytest.approx(50.0 * 16.01846337396014)
    assert density.values[0].basis == "own"


def test_switched_off_by_the_environment(reference, table, monkeypatch):
    add(reference, table, 1500)
    monkeypatch.setenv("WOODREF_NO_OWN", "1")
    assert Reference().wood("white oak").value("side_hardness").basis != "own"


def test_list_and_remove(reference, table):
    first, second = add(reference, table, 1500), add(reference, table, 1600, 1700)
    assert [(b["batch"], b["rows_kept"]) for b in batches("measurements")] == [("m1", 1), ("m2", 2)]
    assert remove_batch("measurements", second.batch) == 2
    assert [r["batch"] for r in rows_of("measurements")] == [first.batch]
    assert remove_batch("measurements", "m9") == 0


def test_the_latest_own_price_serves(reference, table):
    text = "species,thickness,price,per\nwhite ash,4/4,{},board foot\n"
    take_in(reference, table(text.format("6.5")), "prices", "yard")
    take_in(reference, table(text.format("7.5")), "prices", "yard")
    listed = own_prices(lambda name: frozenset({name}))
    assert [row.price.expected for row in listed.rows] == [7.5]


def test_prices_by_grade_and_by_the_board_are_kept(reference, table):
    text = (
        "species,thickness,price,per,grade,width,length,date\n"
        "white ash,4/4,9,board foot,FAS,,,2025-03-31\n"
        "white ash,4/4,6,board foot,No. 1 Common,,,\n"
        "white ash,4/4,30,board,,6 in,8 ft,\n"
    )
    found = take_in(reference, table(text), "prices", "yard")
    assert (found.kept, found.bad) == (3, ())
    listed = own_prices(resolver(reference))
    ash = frozenset(reference.wood("white ash").species_ids)
    four = Nominal("4/4", 25.4)
    assert listed.find(ash, four, "No. 1 Common").price.expected == 6.0
    assert listed.find(ash, four, "FAS").date == "2025-03-31"
    assert listed.for_board(ash, four, 152.4, 2438.4).per == "board"


def test_prices_stored_before_grades_were_are_still_read(reference, table):
    take_in(
        reference,
        table("species,thickness,price,per\nwhite ash,4/4,6.5,board foot\n"),
        "prices",
        "yard",
    )
    (path,) = stored("prices")
    old = "select * exclude (grade, date, width, length) from read_parquet('{0}')"
    rewrite(path, old.format(path))
    text = "species,thickness,price,per,grade\nwhite ash,4/4,9,board foot,FAS\n"
    assert take_in(reference, table(text), "prices", "yard").kept == 1
    assert [row.grade for row in own_prices(resolver(reference)).rows] == ["", "FAS"]


def test_one_wood_and_thickness_under_two_names_has_one_price(reference, table):
    """Lists that name a wood or a size in other words do not stand in each other's way."""
    head = "species,thickness,price,per,currency\n"
    lists = [
        "white ash,4/4,6.5,board foot,\nteak,4/4,30,board foot,\n",
        "Fraxinus americana,1 in,7.5,board foot,USD\n",
    ]
    for rows in lists:
        take_in(reference, table(head + rows), "prices", "yard")
    listed = own_prices(resolver(reference))
    assert listed.currency == "USD"
    assert [(row.species, row.price.expected) for row in listed.rows] == [
        ("teak", 30.0),
        ("Fraxinus americana", 7.5),
    ]


def test_a_price_of_a_wood_no_longer_known_is_said(reference, table):
    text = "species,thickness,price,per\nwhite ash,4/4,6.5,board foot\n"
    take_in(reference, table(text), "prices", "yard")

    def unknown(name):
        raise InputError(f"no wood is called '{name}'")

    with pytest.raises(WoodrefError, match=r"p1 of table\.csv.*own remove p1.*--no-own"):
        own_prices(unknown)


def test_a_property_of_a_later_dataset_is_said(reference, table):
    add(reference, table, 1500)
    (path,) = stored("measurements")
    rewrite(path, f"select * replace ('glow' as property_id) from '{path}'")
    with pytest.raises(WoodrefError, match=r"does not know, 'glow'.*--no-own"):
        Reference().wood("white oak")


def test_a_file_of_a_newer_version_is_said_and_left(reference, table, data_home):
    add(reference, table, 1500)
    newer = data_home / "measurements-4.parquet"
    newer.write_bytes(b"of the future")
    with pytest.raises(WoodrefError, match="newer version of woodref"):
        Reference().wood("white oak")
    with pytest.raises(WoodrefError, match="newer version"):
        add(reference, table, 1600)
    assert newer.read_bytes() == b"of the future"


def test_a_damaged_file_names_itself(reference, table):
    add(reference, table, 1500)
    stored("measurements")[0].write_bytes(b"PAR1 not")
    with pytest.raises(WoodrefError, match=r"measurements-3\.parquet.m1-\w{8}\.parquet.*--no-own"):
        Reference().wood("white oak")
    with pytest.raises(WoodrefError, match="move the file away"):
        add(reference, table, 1600)


def as_version_1(kind="measurements"):
    """Put what is stored where version 1 kept it."""
    rows = f"select * from '{batch_folder(kind)}/*.parquet' order by batch, line"
    duckdb.execute(f"copy ({rows}) to '{first_file(kind)}' (format parquet)")
    shutil.rmtree(batch_folder(kind))


def as_version_2(kind="measurements"):
    """Put what is stored where version 2 kept it, without checksums."""
    for file in stored(kind):
        older = batch_folder(kind, 2) / f"{batch_of(file)}.parquet"
        older.parent.mkdir(exist_ok=True)
        file.rename(older)


def test_what_version_2_stored_is_read_added_to_and_taken_out(reference, table):
    for value in (1500, 1600):
        add(reference, table, value)
    before = Reference().wood("white oak").value("side_hardness").value
    as_version_2()
    assert Reference().wood("white oak").value("side_hardness").value == before
    assert reference.wood("white oak").value("side_hardness").value == before
    assert add(reference, table, 1700).batch == "m3"
    assert [b["batch"] for b in batches("measurements")] == ["m1", "m2", "m3"]
    with pytest.raises(InputError, match="stored already, as m2"):
        add(reference, table, 1600)
    assert (take_out("m1"), take_out("m3")) == (1, 1)
    assert [r["printed_value"] for r in rows_of("measurements")] == ["1600"]


def test_what_version_1_stored_is_read_added_to_and_taken_out(reference, table):
    for value in (1500, 1600):
        add(reference, table, value)
    before = Reference().wood("white oak").value("side_hardness").value
    as_version_1()
    assert Reference().wood("white oak").value("side_hardness").value == before
    assert add(reference, table, 1700).batch == "m3"
    assert [b["batch"] for b in batches("measurements")] == ["m1", "m2", "m3"]
    with pytest.raises(InputError, match="stored already, as m2"):
        add(reference, table, 1600)
    assert take_out("m1") == 1
    assert take_out("m3") == 1
    assert [r["printed_value"] for r in rows_of("measurements")] == ["1600"]


def test_adding_a_row_reads_no_batch_of_more_rows(reference, table, monkeypatch):
    rows = "".join(f"white oak,side_hardness,{1000 + n},lbf\n" for n in range(40))
    take_in(reference, table(HEAD + rows), "measurements", "bench")
    add(reference, table, 1500)
    read = []
    real = storage.files_sql
    monkeypatch.setattr(storage, "files_sql", lambda f, *way: read.extend(f) or real(f, *way))
    add(reference, table, 1600)
    assert [batch_of(file) for file in read] == ["m2"]
    assert [batch_of(file) for file in stored("measurements")] == ["m1", "m2", "m3"]


def test_a_wood_kept_by_name_follows_what_is_stored(reference, table, monkeypatch):
    printed = reference.wood("teak")
    assert reference.wood("teak") is printed
    path = table("species,property,value,unit\nteak,side_hardness,4000,N\n")
    stored = take_in(reference, path, "measurements", "bench")
    own = reference.wood("teak")
    assert own.value("side_hardness").value == 4000.0
    assert reference.wood("teak") is own
    monkeypatch.setenv("WOODREF_NO_OWN", "1")
    assert reference.wood("teak").value("side_hardness") == printed.value("side_hardness")
    monkeypatch.delenv("WOODREF_NO_OWN")
    remove_batch("measurements", stored.batch)
    assert reference.wood("teak").value("side_hardness") == printed.value("side_hardness")


def test_a_query_sees_what_is_stored(reference, table, monkeypatch):
    for value in (1500, 1600):
        add(reference, table, value)
    query = "select batch, value from own_measurements join species using (species_id) order by 1"
    assert [row[0] for row in run_query(query).rows] == ["m1", "m2"]
    with pytest.raises(InputError, match="'own_prices', as nothing of your own"):
        run_query("select * from own_prices")
    with pytest.raises(InputError):
        run_query(f"select * from read_text('{stored('measurements')[0].parent.parent}/.lock')")
    monkeypatch.setenv("WOODREF_NO_OWN", "1")
    with pytest.raises(InputError, match="own_measurements"):
        run_query(query)
