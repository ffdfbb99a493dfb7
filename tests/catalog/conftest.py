from typing import NamedTuple

import pytest

from woodref.cli.main import run
from woodref.reference.library import Reference


class Result(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture(scope="session")
def reference():
    return Reference(own=False)


@pytest.fixture(autouse=True)
def without_the_user_s_own(monkeypatch, tmp_path_factory):
    folder = tmp_path_factory.mktemp("nothing")
    empty = folder / "config.toml"
    empty.write_text("")
    monkeypatch.setenv("WOODREF_CONFIG", str(empty))
    monkeypatch.setenv("WOODREF_DATA", str(folder))
    for name in ("UNITS", "PRICES", "PLACE", "REGION"):
        monkeypatch.delenv(f"WOODREF_{name}", raising=False)


@pytest.fixture
def woodref_command(capsys):
    """Run the command line in this process."""

    def call(*arguments):
        code = run(list(arguments))
        told = capsys.readouterr()
        return Result(code, told.out, told.err)

    return call
