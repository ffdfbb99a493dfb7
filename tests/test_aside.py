"""Files and folders aside are gone at the end; what a killed run left is swept by the next."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from woodref.aside import PREFIX, file_aside, folder_aside, sweep
from woodref.files import write_text

pytest.importorskip("fcntl", reason="a system without locks of files")


def left(folder):
    return sorted(p.name for p in folder.iterdir())


def aged(path):
    before = time.time() - 60.0
    os.utime(path, (before, before), follow_symlinks=False)


@pytest.mark.parametrize("aside", [file_aside, folder_aside])
def test_nothing_is_left_whatever_happens(tmp_path, aside):
    with aside(tmp_path):
        assert left(tmp_path)[0].startswith(PREFIX)
    with pytest.raises(KeyboardInterrupt), aside(tmp_path):
        raise KeyboardInterrupt
    assert left(tmp_path) == []


KILLED = """
import sys, os, signal
from pathlib import Path
from woodref.aside import file_aside, folder_aside
with file_aside(Path(sys.argv[1])) as (handle, _), folder_aside(Path(sys.argv[1])) as folder:
    handle.write(b"half")
    handle.flush()
    (folder / "half").write_text("x")
    print("ready", flush=True)
    if sys.argv[2] == "dies":
        os.kill(os.getpid(), signal.SIGKILL)
    sys.stdin.read()
"""


def other(folder, fate):
    process = subprocess.Popen(
        [sys.executable, "-c", KILLED, str(folder), fate],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    process.stdout.readline()
    return process


def test_what_a_killed_run_left_is_swept_by_the_next_that_writes_there(tmp_path):
    other(tmp_path, "dies").wait()
    names = left(tmp_path)
    assert len(names) == 2
    sweep(tmp_path)  # so fresh that another run may be making it
    assert left(tmp_path) == names
    for name in names:
        aged(tmp_path / name)
    write_text(tmp_path / "page.html", "whole")
    assert left(tmp_path) == ["page.html"]


def test_what_another_run_is_writing_stays(tmp_path):
    process = other(tmp_path, "lives")
    names = left(tmp_path)
    for name in names:
        aged(tmp_path / name)
    sweep(tmp_path)
    assert left(tmp_path) == names
    process.communicate()
    assert left(tmp_path) == []


def test_what_is_no_file_of_ours_stays(tmp_path):
    target = tmp_path / "mine"
    target.write_text("x")
    (tmp_path / f"{PREFIX}link").symlink_to(target)
    (tmp_path / "woodref-mine").write_text("x")
    os.mkfifo(tmp_path / f"{PREFIX}pipe")
    for name in left(tmp_path):
        aged(tmp_path / name)
    before = left(tmp_path)
    sweep(tmp_path)
    assert left(tmp_path) == before
    assert target.read_text() == "x"


def test_a_folder_that_is_not_there_has_nothing_to_sweep(tmp_path):
    sweep(tmp_path / "none")
    assert not Path(tmp_path / "none").exists()
