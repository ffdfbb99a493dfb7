"""Files are read with a reason when they cannot be, and written whole or not at all."""

import csv
import os
import stat
from pathlib import Path

import pytest

from woodref.errors import InputError, WoodrefError
from woodref.files import closest, csv_rows, did_you_mean, nearest, read_text, write_text


def test_a_file_is_written_whole_and_readable_by_the_usual_mask(tmp_path):
    path = tmp_path / "x.txt"
    write_text(path, "fünf\n")
    assert path.read_bytes() == "fünf\n".encode()
    mask = os.umask(0)
    os.umask(mask)
    assert stat.S_IMODE(path.stat().st_mode) == 0o666 & ~mask


def test_a_failed_write_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "x.txt"
    path.write_text("old")

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("woodref.files.os.replace", refuse)
    with pytest.raises(WoodrefError, match="cannot be written: no space left on device"):
        write_text(path, "new", overwrite=True)
    assert [p.name for p in tmp_path.iterdir()] == ["x.txt"]
    assert path.read_text() == "old"


def test_an_existing_file_is_kept_unless_told_otherwise(tmp_path):
    path = tmp_path / "x.txt"
    path.write_text("old")
    with pytest.raises(InputError, match="exists already"):
        write_text(path, "new")
    assert path.read_text() == "old"
    write_text(path, "new", overwrite=True)
    assert path.read_text() == "new"


def test_a_folder_is_no_file_to_write(tmp_path):
    with pytest.raises(InputError, match="is a folder"):
        write_text(tmp_path, "x", overwrite=True)


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_device_without_end_is_refused():
    with pytest.raises(InputError, match="is larger than 20 MB"):
        read_text(Path("/dev/zero"), "list")


@pytest.mark.parametrize(
    ("word", "near"), [("widht", "width"), ("WIDTH", "width"), ("zzzz", None), ("", None)]
)
def test_closest(word, near):
    assert closest(word, ["width", "length"]) == near


def test_did_you_mean_lists_the_choices_where_none_is_near():
    assert did_you_mean("zzzz", ["us", "si"]) == "; use one of us, si"
    assert did_you_mean("lenght", ["us", "length"]) == "; did you mean 'length'?"


def test_the_nearest_choices_or_what_else_to_do():
    choices = ["heated-house", "unheated-shop", "outdoors"]
    assert nearest("heated", choices, "use one of these") == "nearest: heated-house"
    assert nearest("zzzz", choices, "use one of these") == "use one of these"
    assert nearest("heated-shop", choices, "", 2) == "nearest: unheated-shop, heated-house"


def test_a_cell_without_end_is_told_whatever_others_set_for_the_process():
    before = csv.field_size_limit(10_000_000)
    try:
        with pytest.raises(InputError, match=r"line 2: .*longer than 131,072"):
            list(csv_rows(f"name\n{'x' * 200_000}\n", "a.csv"))
    finally:
        csv.field_size_limit(before)
