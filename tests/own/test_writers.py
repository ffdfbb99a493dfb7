"""Writers of the overlay: a second one waits, one that fails or is killed damages nothing."""

import os
import subprocess
import sys
import textwrap
import time

import pytest

from woodref.errors import WoodrefError
from woodref.own import storage
from woodref.own.intake import take_in
from woodref.own.storage import rows_of
from woodref.reference.library import Reference
from woodref.reference.overlay import batch_folder, stored

HEAD = "species,property,value,unit\n"


def add(reference, table, value):
    return take_in(
        reference, table(f"{HEAD}white oak,side_hardness,{value},lbf\n"), "measurements", "bench"
    )


def contents():
    """Every stored file of measurements with what it holds."""
    return {file.name: file.read_bytes() for file in stored("measurements")}


def test_a_failed_write_leaves_the_overlay_as_it_was(reference, table, monkeypatch):
    add(reference, table, 1500)
    before = contents()

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(storage.os, "replace", fail)
    with pytest.raises(WoodrefError, match="no space left"):
        add(reference, table, 1600)
    assert contents() == before
    assert not list(batch_folder("measurements").parent.rglob("*.aside"))


WRITER = textwrap.dedent(
    """
    import os, sys
    from pathlib import Path
    from woodref.own.intake import take_in
    from woodref.reference.library import Reference
    reference = Reference()
    folder, times, rows = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    for n in range(times):
        path = folder / f"boards-{os.getpid()}-{n}.csv"
        row = f"white oak,side_hardness,1500,lbf,board {path.stem}\\n"
        path.write_text("species,property,value,unit,note\\n" + row * rows)
        take_in(reference, path, "measurements", "writer")
    """
)


def writer(folder, times, rows=1):
    """A process that adds so many tables of so many boards each."""
    words = [sys.executable, "-c", WRITER, str(folder), str(times), str(rows)]
    return subprocess.Popen(words, env=os.environ)


def test_two_writers_at_once_lose_nothing(tmp_path):
    both = [writer(tmp_path, 4), writer(tmp_path, 4)]
    assert [p.wait(timeout=60) for p in both] == [0, 0]
    rows = rows_of("measurements")
    assert len(rows) == 8
    assert len({r["batch"] for r in rows}) == 8


KILLED = textwrap.dedent(
    """
    import os, signal, sys
    from pathlib import Path
    from woodref.own import storage
    from woodref.own.intake import take_in
    from woodref.reference.library import Reference

    def killed(*_):
        os.kill(os.getpid(), signal.SIGKILL)

    def half(descriptor):
        os.ftruncate(descriptor, 40)
        killed()

    def in_place(*paths, replace=os.replace):
        replace(*paths)
        killed()

    storage.os.replace = in_place if sys.argv[2] == "in place" else killed
    if sys.argv[2] == "half":
        storage.os.fsync = half
    take_in(Reference(), Path(sys.argv[1]), "measurements", "writer")
    """
)


@pytest.mark.skipif(sys.platform == "win32", reason="kills by signal")
@pytest.mark.parametrize("when", ["half", "whole"])
def test_a_writer_killed_in_mid_write_changes_nothing(reference, table, data_home, when):
    """With the file aside half or wholly written; the next writer clears it away."""
    add(reference, table, 1500)
    before = contents()
    path = table(HEAD + "white oak,side_hardness,1600,lbf\n")
    words = [sys.executable, "-c", KILLED, str(path), when]
    assert subprocess.run(words, env=os.environ, timeout=60, check=False).returncode == -9
    assert contents() == before
    assert len(list(data_home.glob(".*.aside"))) == 1
    add(reference, table, 1700)
    assert [r["printed_value"] for r in rows_of("measurements")] == ["1500", "1700"]
    assert not list(data_home.glob(".*.aside"))


@pytest.mark.skipif(sys.platform == "win32", reason="kills by signal")
def test_a_writer_killed_once_the_file_is_in_place_has_stored_it(reference, table):
    add(reference, table, 1500)
    path = table(HEAD + "white oak,side_hardness,1600,lbf\n")
    words = [sys.executable, "-c", KILLED, str(path), "in place"]
    assert subprocess.run(words, env=os.environ, timeout=60, check=False).returncode == -9
    assert [r["printed_value"] for r in rows_of("measurements")] == ["1500", "1600"]
    assert Reference().wood("white oak").value("side_hardness").basis == "own"


def test_a_killed_writer_leaves_a_whole_overlay(reference, table, tmp_path):
    process = writer(tmp_path, 200, rows=2000)
    for _ in range(1500):
        if stored("measurements"):
            break
        time.sleep(0.02)
    time.sleep(0.3)
    process.kill()
    process.wait(timeout=30)
    count = len(rows_of("measurements"))
    assert count > 0
    assert count % 2000 == 0
    # and the next writer goes on
    add(reference, table, 1600)
    assert len(rows_of("measurements")) == count + 1
