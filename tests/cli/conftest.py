import json
from pathlib import Path
from typing import NamedTuple

import pytest

from woodref.cli.main import run


class Result(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture(scope="session")
def sideboard():
    """The estimate of the demo's sideboard as JSON, which test_golden.py holds to."""
    path = Path(__file__).parent / "golden" / "estimate.json"
    return json.loads(path.read_text(encoding="utf-8"))


@pytest.fixture
def whole_pages(monkeypatch):
    """Whole pages, as with --full, for tests of what stands behind the first screen."""
    monkeypatch.setenv("WOODREF_FULL", "1")


@pytest.fixture
def woodref(capsys, monkeypatch, tmp_path):
    """Run the command line in this process, away from the user's own defaults."""
    empty = tmp_path / "empty-config.toml"
    empty.write_text("")
    monkeypatch.setenv("WOODREF_CONFIG", str(empty))
    monkeypatch.delenv("WOODREF_UNITS", raising=False)
    monkeypatch.delenv("WOODREF_PRICES", raising=False)
    monkeypatch.delenv("WOODREF_PLACE", raising=False)
    monkeypatch.delenv("WOODREF_REGION", raising=False)
    # Set, so that what --no-own leaves behind is undone too.
    monkeypatch.setenv("WOODREF_NO_OWN", "")
    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "own"))
    monkeypatch.setenv("COLUMNS", "100")

    def call(*arguments):
        code = run([str(a) for a in arguments])
        captured = capsys.readouterr()
        return Result(code, captured.out, captured.err)

    return call
