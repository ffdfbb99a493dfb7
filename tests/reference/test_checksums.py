"""Damage of any file of the dataset is told in a line where the file is opened."""

import os
import random
import shutil

import pytest

from woodref.choose.ready import published
from woodref.errors import WoodrefError
from woodref.reference import store
from woodref.reference.checksums import (
    CHECKSUMS,
    checksums_text,
    dataset_checksum,
    intact,
    is_published,
)
from woodref.reference.library import Reference
from woodref.reference.query import run_query
from woodref.reference.store import Store, data_directory

#: Bits flipped of each file.
FLIPS = 5


@pytest.fixture(scope="module")
def pristine(tmp_path_factory):
    """A copy of the dataset that every test leaves as it was."""
    copy = tmp_path_factory.mktemp("damaged") / "reference"
    shutil.copytree(data_directory(), copy)
    return copy


@pytest.fixture
def folder(pristine):
    yield pristine
    shutil.copytree(data_directory(), pristine, dirs_exist_ok=True)
    (pristine / "extra.parquet").unlink(missing_ok=True)


def files_of(folder):
    return sorted(p for p in folder.rglob("*") if p.is_file() and p.name != CHECKSUMS)


def flipped(content, bit):
    changed = bytearray(content)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def told(folder, path):
    """What is said of a file, one line that names it and the way out."""
    with pytest.raises(WoodrefError) as caught:
        intact(path, folder)
    line = str(caught.value)
    assert line.startswith(f"{path}: ")
    assert "\n" not in line
    assert line.endswith("install woodref again, or run 'python -m pipeline build' in a checkout")
    assert caught.value.exit_code == 1
    with pytest.raises(WoodrefError):
        dataset_checksum(folder)
    return line


def test_the_list_holds_every_file_as_it_is():
    folder = data_directory()
    assert (folder / CHECKSUMS).read_text(encoding="utf-8") == checksums_text(folder)
    assert len(files_of(folder)) > 50
    for path in files_of(folder):
        assert intact(path, folder) == path
    assert len(dataset_checksum(folder)) == 64


def test_a_flipped_bit_of_any_file_is_told(folder):
    choose = random.Random(20261127)
    for path in files_of(folder):
        content = path.read_bytes()
        for bit in (0, *(choose.randrange(8 * len(content)) for _ in range(FLIPS))):
            path.write_bytes(flipped(content, bit))
            with pytest.raises(WoodrefError, match="damaged"):
                intact(path, folder)
        path.write_bytes(content)
    path.write_bytes(flipped(content, 77))
    assert "damaged, it does not hold what was published" in told(folder, path)


def test_what_is_cut_short_lengthened_gone_or_a_folder_is_told(folder):
    path = folder / "names.parquet"
    content = path.read_bytes()
    for changed in (b"", content[:-1], content + b"\0", content[: len(content) // 2]):
        path.write_bytes(changed)
        assert "damaged" in told(folder, path)
    path.unlink()
    assert "missing" in told(folder, path)
    path.mkdir()
    assert "cannot be read" in told(folder, path)
    path.rmdir()


def test_a_file_under_the_name_of_another_is_told(folder):
    one, other = folder / "names.parquet", folder / "ready" / "names.parquet"
    one.write_bytes(other.read_bytes())
    assert "damaged" in told(folder, one)


def test_a_file_that_was_not_published_is_not_read(folder):
    extra = folder / "extra.parquet"
    shutil.copy(folder / "names.parquet", extra)
    assert not is_published(extra, folder)
    with pytest.raises(WoodrefError, match="no part of the reference dataset as published"):
        intact(extra, folder)


def test_a_list_that_is_damaged_or_gone_is_told(folder, monkeypatch):
    path = folder / CHECKSUMS
    content = path.read_bytes()
    for changed in (
        b"",
        b"\xff\xfe" + content,
        content.replace(b"names.parquet,", b"names.parquet", 1),
        content.replace(b",", b"\0"),
    ):
        path.write_bytes(changed)
        with pytest.raises(WoodrefError, match=r"checksums\.csv: damaged"):
            intact(folder / "names.parquet", folder)
    path.unlink()
    with pytest.raises(WoodrefError, match=r"checksums\.csv: missing"):
        dataset_checksum(folder)
    # A folder of somebody's own making has none and is read as it is; the package's always has.
    assert Store(folder).rows("select 1 as one from {species} limit 1") == [{"one": 1}]
    monkeypatch.setattr(store, "__file__", str(folder.parent / "woodref" / "reference" / "s.py"))
    with pytest.raises(WoodrefError, match=r"not built or not whole; install woodref again"):
        data_directory()


def test_damage_after_a_first_look_is_told_too(folder):
    path = folder / "ready" / "figures.parquet"
    intact(path, folder)
    path.write_bytes(flipped(path.read_bytes(), 12345))
    later = path.stat().st_mtime_ns + 10**9
    os.utime(path, ns=(later, later))
    assert "damaged" in told(folder, path)


@pytest.mark.parametrize(
    ("name", "ask"),
    [
        ("ready/figures", lambda folder: Reference(folder, own=False).wood("cherry").values),
        ("ready/woods", lambda folder: published(folder, "woods")),
        ("sources", lambda folder: Store(folder).rows("from {sources}")),
        ("climate", lambda folder: run_query("select 1 from climate limit 1", folder)),
    ],
)
def test_questions_to_a_damaged_table_are_refused(folder, name, ask):
    path = folder / f"{name}.parquet"
    assert ask(folder)
    content = path.read_bytes()
    path.write_bytes(flipped(content, 4 * len(content)))
    later = path.stat().st_mtime_ns + 10**9
    os.utime(path, ns=(later, later))
    with pytest.raises(WoodrefError, match=rf"{name.split('/')[-1]}\.parquet: damaged"):
        ask(folder)


@pytest.mark.parametrize(
    ("arguments", "name"),
    [
        (["show", "white oak"], "ready/names"),
        (["season", "Duluth"], "climate"),
        (["rank", "--for", "tabletop"], "ready/woods"),
        (["sql", "from sources"], "measurements"),
        (["--version"], "QUALITY"),
    ],
)
def test_a_command_says_so_in_a_line(folder, monkeypatch, capsys, arguments, name):
    from woodref.cli import options
    from woodref.cli.main import run
    from woodref.reference import library, query

    # Another test may have opened the dataset of the package for all commands.
    monkeypatch.setattr(options, "opened", options.opened.__wrapped__)
    (path,) = (p for p in files_of(folder) if p.with_suffix("") == folder / name)
    path.write_bytes(flipped(path.read_bytes(), 4321))
    monkeypatch.setenv("WOODREF_NO_OWN", "1")
    for module in (store, library, query):
        monkeypatch.setattr(module, "data_directory", lambda: folder)
    assert run([*arguments]) == 1
    out, err = capsys.readouterr()
    assert "sha256" not in out
    assert err.startswith("woodref: ")
    assert err.count("\n") == 1
    assert str(path) in err
    assert "damaged" in err
