"""Names in JSON are part of the interface: docs/json.md says of each what it means."""

import importlib.util
from pathlib import Path

import pytest
import typer

from woodref.cli.main import COMMANDS, app

DOCS = Path(__file__).resolve().parents[2] / "docs"


@pytest.fixture(scope="module")
def json_page():
    """docs/json_page.py; it keeps what the commands printed, so that each is run once."""
    spec = importlib.util.spec_from_file_location("json_page", DOCS / "json_page.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def commands():
    """Every command, with those of a group: 'show', 'own add'."""
    program = typer.main.get_command(app)
    for name in COMMANDS:
        command = program.get_command(None, name)
        under = getattr(command, "commands", None)
        yield from [name] if under is None else (f"{name} {sub}" for sub in under)


def test_every_command_is_asked_or_prints_no_json(json_page):
    assert set(commands()) == set(json_page.QUESTIONS) | set(json_page.SILENT)
    assert all(json_page.SILENT.values())


def test_every_name_is_described_and_the_page_is_of_today(json_page):
    assert json_page.faults() == []
    assert json_page.PAGE.read_text(encoding="utf-8") == json_page.page(), "run make docs"
