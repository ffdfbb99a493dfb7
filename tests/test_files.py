"""Files are read with a reason when they cannot be, and written whole or not at all."""

import csv
import os
import stat
import sys
from pathlib import Path

import pytest

from woodref.errors import InputError, WoodrefError
from woodref.files import closest, csv_rows, did_you_mean, nearest, read_text, write_text
from woodref.files_in_use import remembered


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


def test_a_file_that_is_replaced_keeps_its_permissions(tmp_path):
    path = tmp_path / "x.txt"
    path.write_text("old")
    path.chmod(0o640)
    write_text(path, "new", overwrite=True)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(not hasattr(os, "chown"), reason="a system without owners of files")
@pytest.mark.parametrize("permitted", [True, False])
def test_a_file_that_is_replaced_keeps_owner_and_group_where_permitted(
    tmp_path, monkeypatch, permitted
):
    asked = []

    def chown(file, owner, group):
        asked.append((Path(file).parent, owner, group))
        if not permitted:
            raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "chown", chown)
    path = tmp_path / "plan.txt"
    write_text(path, "first")
    assert asked == []  # a new file is its writer's
    path.chmod(0o640)
    there = path.stat()
    write_text(path, "second", overwrite=True)
    assert asked == [(tmp_path, -1, there.st_gid), (tmp_path, there.st_uid, -1)]
    assert path.read_text() == "second"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(
    getattr(os, "geteuid", lambda: 1)() != 0, reason="only root may give files away"
)
def test_the_owner_of_a_replaced_file_is_kept_by_root(tmp_path):
    path = tmp_path / "plan.txt"
    path.write_text("first")
    os.chown(path, 1234, 2345)
    write_text(path, "second", overwrite=True)
    assert (path.stat().st_uid, path.stat().st_gid) == (1234, 2345)


def linked(path):
    path.symlink_to(path.with_name("kept.txt"))


def leading_nowhere(path):
    path.symlink_to(path.with_name("none.txt"))


def read_only(path):
    path.write_text("kept")
    path.chmod(0o444)


NEVER_REPLACED = {
    "is a link": [linked, leading_nowhere],
    "is a device or a pipe": [os.mkfifo] if hasattr(os, "mkfifo") else [],
    "is read-only": [read_only],
}


@pytest.mark.skipif(sys.platform == "win32", reason="links and permissions as POSIX has them")
@pytest.mark.parametrize(
    ("make", "said"), [(make, said) for said, makes in NEVER_REPLACED.items() for make in makes]
)
@pytest.mark.parametrize("overwrite", [False, True])
def test_what_is_no_plain_file_of_ones_own_is_never_replaced(tmp_path, make, said, overwrite):
    kept = tmp_path / "kept.txt"
    kept.write_text("kept")
    path = tmp_path / "x.txt"
    make(path)
    before = path.lstat()
    with pytest.raises(InputError, match=said):
        write_text(path, "new", overwrite)
    assert path.lstat() == before
    assert kept.read_text() == "kept"
    assert {p.name for p in tmp_path.iterdir()} == {"x.txt", "kept.txt"}


def test_a_device_is_never_replaced():
    with pytest.raises(InputError, match="is a device or a pipe"):
        write_text(Path(os.devnull), "new", overwrite=True)


def test_a_file_that_was_read_is_not_written_over_by_any_of_its_paths(tmp_path):
    path = tmp_path / "x.txt"
    path.write_text("kept")
    (tmp_path / "folder").mkdir()
    (tmp_path / "linked.txt").hardlink_to(path)
    spellings = [path, tmp_path / "folder" / ".." / "x.txt", tmp_path / "linked.txt"]
    with remembered():
        assert read_text(path, "list") == "kept"
        for spelling in spellings:
            with pytest.raises(InputError, match="is read or written by this very command"):
                write_text(spelling, "new", overwrite=True)
    assert path.read_text() == "kept"
    # Of a run that is over nothing is remembered.
    write_text(path, "new", overwrite=True)


def test_a_file_that_was_written_is_not_written_twice(tmp_path):
    path = tmp_path / "x.txt"
    with remembered():
        write_text(path, "picture")
        with pytest.raises(InputError, match="is read or written by this very command"):
            write_text(path, "answer", overwrite=True)
    assert path.read_text() == "picture"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes by name here")
def test_a_pipe_that_nobody_writes_to_is_empty_and_one_that_is_written_to_is_read(tmp_path):
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with pytest.raises(InputError, match="is empty"):
        read_text(path, "list")
    reader, writer = os.pipe()
    try:
        os.write(writer, b"4/4,8,10\n")
        os.close(writer)
        assert read_text(Path(f"/dev/fd/{reader}"), "list") == "4/4,8,10\n"
    finally:
        os.close(reader)


def test_a_folder_that_cannot_be_listed_gives_no_near_names(tmp_path, monkeypatch):
    def refuse(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", refuse)
    with pytest.raises(InputError, match=r"there is no such list$"):
        read_text(tmp_path / "none.csv", "list")


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
