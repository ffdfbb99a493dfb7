"""The public names of the package: light to import, documented, one for each command."""

import doctest
import pkgutil
import subprocess
import sys
from importlib import import_module
from importlib.metadata import version

import pytest

import woodref
from woodref import api
from woodref.cli.main import COMMANDS
from woodref.reference.fields import DATASET_VERSION

LIGHT = """
import sys, woodref
before = set(sys.modules)
assert not any(m.startswith("woodref.") for m in before), sorted(before)
assert not {"duckdb", "typer", "pandas", "numpy", "rapidfuzz"} & before
woodref.emc(20.0, 50.0)
assert "_duckdb" not in sys.modules
woodref.movement("sugar maple", 300, 6, 10)
woodref.compare("white oak", "teak")
assert "_duckdb" in sys.modules
heavy = {"typer", "pandas", "numpy", "pyarrow", "pydantic", "rapidfuzz", "rich"}
assert not heavy & set(sys.modules), heavy & set(sys.modules)
"""


@pytest.mark.pinned
def test_importing_is_light_and_a_look_up_loads_the_database_alone():
    process = subprocess.run(
        [sys.executable, "-c", LIGHT], check=False, capture_output=True, text=True
    )
    assert process.returncode == 0, process.stderr


MODULES = [import_module(f"woodref.api.{m.name}") for m in pkgutil.iter_modules(api.__path__)]


def test_the_examples_in_the_documentation_hold():
    results = [doctest.testmod(module) for module in MODULES]
    assert sum(r.attempted for r in results) > 2
    assert sum(r.failed for r in results) == 0


def test_every_public_name_is_there_and_documented():
    assert set(woodref.__all__) <= set(dir(woodref))
    for name in woodref.__all__:
        assert getattr(woodref, name).__doc__, name
    with pytest.raises(AttributeError, match="no attribute 'hardnes'"):
        _ = woodref.hardnes


#: Commands whose answer Python gives by other names, and why.
OTHER_NAMES = {
    "begin": ("template",),  # asks at a terminal; here the file of your own parts
    "show": ("wood", "printed", "ratings", "cautions", "stability"),  # a page; here its parts
    "report": ("page",),  # a room of the package has the name of the command
    "own": ("own_add", "own_figures", "own_remove", "own_weigh"),  # a group of commands
}


def test_what_a_command_says_can_be_asked_from_python():
    public = set(woodref.__all__)
    for command in COMMANDS:
        assert set(OTHER_NAMES.get(command, (command,))) <= public, command
    assert set(OTHER_NAMES) <= set(COMMANDS)


def test_versions():
    assert woodref.__version__ == version("woodref")
    assert woodref.data_version == DATASET_VERSION
