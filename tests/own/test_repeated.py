"""A table that is stored already counts once; boards told apart by a date or a note are others."""

import os

import pytest

from woodref.errors import InputError, WoodrefError
from woodref.own.intake import rejects_file, take_in
from woodref.own.storage import rows_of, take_out
from woodref.reference.library import Reference
from woodref.user_folders import user_folder

HEAD = "species,property,value,unit,note\n"
TWO = HEAD + "white oak,density_12pct,45,lb/ft3,\nwhite oak,density_12pct,47,lb/ft3,\n"


def add(reference, path, **given):
    return take_in(reference, path, "measurements", "bench", **given)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        (TWO, "boards.csv"),
        (TWO, "copy.csv"),
        (TWO.replace("white oak", "White Oak"), "boards.csv"),
        ("".join(TWO.splitlines(keepends=True)[i] for i in (0, 2, 1)), "boards.csv"),
        (TWO + "nothing,density_12pct,45,lb/ft3,\n", "boards.csv"),
    ],
    ids=["the file", "a copy", "another spelling", "another order", "and a bad row"],
)
def test_the_same_table_is_told_and_not_counted_twice(reference, table, text, name):
    add(reference, table(TWO, "boards.csv"))
    with pytest.raises(InputError, match=r"stored already, as m1 of boards\.csv .*remove m1"):
        add(reference, table(text, name))
    assert len(rows_of("measurements")) == 2


def test_a_table_that_has_grown_is_told(reference, table):
    add(reference, table(TWO, "boards.csv"))
    grown = TWO + "white oak,density_12pct,44,lb/ft3,\n"
    with pytest.raises(InputError, match="holds all rows of m1 and more"):
        add(reference, table(grown, "boards.csv"))
    take_out("m1")
    assert add(reference, table(grown, "boards.csv")).kept == 3


def test_other_boards_that_weigh_the_same_are_counted(reference, table):
    add(reference, table(TWO, "boards.csv"))
    for text in (TWO.replace("45,lb/ft3,", "45,lb/ft3,June"), HEAD + TWO.splitlines()[1] + "\n"):
        add(reference, table(text, "june.csv"))
    more = TWO + "white oak,density_12pct,44,lb/ft3,\n"
    add(reference, table(more, "july.csv"))
    assert len(rows_of("measurements")) == 2 + 2 + 1 + 3


def test_a_longer_price_list_may_come_after_a_shorter_one(reference, table):
    head = "species,thickness,price,per\nwhite ash,4/4,6.5,board foot\n"
    take_in(reference, table(head), "prices", "yard")
    with pytest.raises(InputError, match="stored already, as p1"):
        take_in(reference, table(head), "prices", "yard")
    assert take_in(reference, table(head + "teak,4/4,30,board foot\n"), "prices", "yard").kept == 2


def test_rejects_a_person_may_have_corrected_are_kept(reference, table):
    path = table(TWO + "white oak,density_12pct,lots,lb/ft3,\n")
    rejects = add(reference, path).rejects
    corrected = rejects.read_text().replace("lots", "46")
    rejects.write_text(corrected)
    path.write_text(TWO.replace("45", "43") + "white oak,density_12pct,few,lb/ft3,\n")
    with pytest.raises(InputError, match=r"table\.rejects\.csv: holds rejected rows"):
        add(reference, path)
    assert rejects_file(path).read_text() == corrected
    assert len(rows_of("measurements")) == 2
    add(reference, path, overwrite=True)
    assert "few" in rejects_file(path).read_text()


def test_a_folder_that_cannot_be_listed_is_no_folder_without_figures(data_home, monkeypatch):
    data_home.write_text("no folder")
    with pytest.raises(
        WoodrefError, match=r"own figures cannot be read: not a directory.*--no-own"
    ):
        Reference().wood("white oak")
    data_home.unlink()
    assert Reference().wood("white oak")
    data_home.symlink_to(data_home.with_name("away"))
    with pytest.raises(WoodrefError, match="own figures cannot be read"):
        Reference().wood("white oak")
    monkeypatch.setenv("WOODREF_NO_OWN", "1")
    assert Reference().wood("white oak")


def test_a_folder_without_permission_is_told(data_home, monkeypatch):
    data_home.mkdir()
    listed = os.listdir

    def refuse(folder="."):
        if folder == user_folder("data"):
            raise PermissionError(13, "Permission denied")
        return listed(folder)

    monkeypatch.setattr("woodref.reference.overlay.os.listdir", refuse)
    with pytest.raises(WoodrefError, match="own figures cannot be read: permission denied"):
        Reference().wood("white oak")
