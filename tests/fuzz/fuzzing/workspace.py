"""A folder with the files that questions name, and a command line run there in this process."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import sys
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import process_time
from unittest import mock

from fuzzing.case import DEVICE, FIFO, FOLDER, LOOP, Case, Outcome
from fuzzing.questions import CONFIG, MONTHS
from woodref.cli.main import run
from woodref.piece.start_file import piece_file, template_file

ROOT = Path(__file__).resolve().parents[3]
DEMO = ROOT / "datasets" / "demo"


class Workspace:
    """The folder, with what each case finds in it; what a case leaves there is gone after it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.temporary, self.own, self.cache = (
            folder.parent / f"{folder.name}-{name}" for name in ("tmp", "own", "cache")
        )
        for made in (folder, self.temporary, self.cache):
            made.mkdir()
        self.given: dict[str, bytes] = {p.name: p.read_bytes() for p in DEMO.iterdir()}
        self.given |= {name: text.encode() for name, text in _made().items()}
        # A catalog of a few rows is read in the same way as one of many.
        catalog = self.given["invented-catalog.csv"].splitlines(keepends=True)
        self.given["invented-catalog.csv"] = b"".join(catalog[:42])
        self.given["invented-catalog.parquet"] = _as_parquet(DEMO / "invented-catalog.csv")
        self.given["invented-catalog.jsonl"] = _as_json_lines(DEMO / "invented-catalog.csv")
        for name in self.given:
            self._write(name)
        self._seen = self._state()

    def ask(self, case: Case) -> Outcome:
        """Run a case, and clear up behind it."""
        for name, data in case.files.items():
            _put(self.folder / name, data)
        before = set(self._names(self.folder))
        out, err = _stream(), _stream()
        outcome = Outcome(None, "", "", {}, [])
        started = process_time()
        with self._around(case), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            try:
                outcome.code = run(list(case.arguments))
            except BaseException as error:  # each is a fault, whatever it is
                outcome.error, outcome.traceback = error, traceback.format_exc()
        outcome.seconds = process_time() - started
        outcome.out, outcome.err = _text(out), _text(err)
        outcome.made = {
            name: (self.folder / name).read_bytes()
            for name in set(self._names(self.folder)) - before
            if (self.folder / name).is_file()
        }
        outcome.left = [
            name
            for name in outcome.made
            if name.startswith(".") or name.endswith(".part")
            if not any(name in word for word in case.arguments)
        ]
        outcome.left += self._names(self.temporary)
        self._clear()
        return outcome

    @contextmanager
    def _around(self, case: Case) -> Iterator[None]:
        environment = {
            "PATH": os.environ.get("PATH", ""),
            "HOME": str(self.folder),
            "WOODREF_CONFIG": str(self.folder / "config.toml"),
            "WOODREF_DATA": str(self.own),
            "WOODREF_CACHE": str(self.cache),
            "TMPDIR": str(self.temporary),
            "COLUMNS": "100",
            "MPLBACKEND": "agg",
            **case.environment,
        }
        where = Path.cwd()
        os.chdir(self.folder)
        try:
            with (
                mock.patch.dict(os.environ, environment, clear=True),
                mock.patch("tempfile.tempdir", None),
                mock.patch.object(sys, "stdin", io.StringIO("")),
            ):
                yield
        finally:
            os.chdir(where)

    def _names(self, folder: Path) -> list[str]:
        return os.listdir(folder)

    def _write(self, name: str) -> None:
        (self.folder / name).write_bytes(self.given[name])

    def _state(self) -> dict[str, tuple[int, int, int]]:
        state = {}
        for name in self.given:
            with contextlib.suppress(OSError):
                told = os.lstat(self.folder / name)
                state[name] = (told.st_mtime_ns, told.st_size, told.st_ino)
        return state

    def _clear(self) -> None:
        for name in self._names(self.folder):
            if name not in self.given:
                _remove(self.folder / name)
        for name in self._names(self.temporary):
            _remove(self.temporary / name)
        _remove(self.own)
        now = self._state()
        if now != self._seen:
            for name, told in self._seen.items():
                if now.get(name) != told:
                    _remove(self.folder / name)
                    self._write(name)
            self._seen = self._state()


def _made() -> dict[str, str]:
    """Files that no demo has: those of the templates, a profile, a configuration."""
    profile = ROOT / "woodref" / "profiles" / "tabletop.toml"
    shelf = (DEMO / "wall-shelf.toml").read_text()
    maker = '\n[maker]\nname = "x (invented)"\nlogo = "maker-logo.svg"\n'
    return {
        "bookcase.toml": piece_file("bookcase", "us"),
        **{
            f"{kind}.csv": template_file(kind)
            for kind in ("measurements", "places", "prices", "yard")
        },
        "desk.toml": profile.read_text(),
        "config.toml": "",
        "full-config.toml": CONFIG,
        "months.csv": MONTHS,
        "branded.toml": shelf.partition("\n[maker]")[0] + maker,
    }


def _stream() -> io.TextIOWrapper:
    # As woodref.cli.main.main sets them.
    return io.TextIOWrapper(io.BytesIO(), encoding="utf-8", errors="replace", newline="")


def _text(stream: io.TextIOWrapper) -> str:
    stream.flush()
    return stream.buffer.getvalue().decode("utf-8", "backslashreplace")


def _put(path: Path, data: bytes | str) -> None:
    _remove(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(data, bytes):
        path.write_bytes(data)
    elif data == FIFO:
        os.mkfifo(path)
    elif data == FOLDER:
        path.mkdir()
    else:
        path.symlink_to({DEVICE: "/dev/zero", LOOP: path.name}[data])


def _remove(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
    else:
        path.unlink(missing_ok=True)


def _as_parquet(table: Path) -> bytes:
    import pandas as pd

    target = io.BytesIO()
    pd.read_csv(table, comment="#", dtype=str).head(40).to_parquet(target)
    return target.getvalue()


def _as_json_lines(table: Path) -> bytes:
    import pandas as pd

    rows = pd.read_csv(table, comment="#", dtype=str).head(40).fillna("").to_dict("records")
    return "".join(json.dumps(row) + "\n" for row in rows).encode()
