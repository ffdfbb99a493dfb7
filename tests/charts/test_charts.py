"""Every picture is had by one import, and its example holds."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

from woodref import charts


def test_every_name_is_there_and_documented():
    for name in charts.__all__:
        assert getattr(charts, name).__doc__, name
    assert set(charts.__all__) <= set(dir(charts))
    with pytest.raises(AttributeError, match="no attribute 'dumbell'"):
        _ = charts.dumbell


def test_a_checker_of_types_sees_every_name_where_it_lives():
    tree = ast.parse(Path(charts.__file__).read_text(encoding="utf-8"))
    seen = {
        alias.name: node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module.startswith("woodref.")
        for alias in node.names
    }
    assert seen == {name: f"woodref.charts.{home}" for name, home in charts._HOMES.items()}
    assert set(seen) == set(charts.__all__)
    # A module of that name would stand in the way of the picture once it is imported.
    modules = {p.stem for p in Path(charts.__file__).parent.glob("*.py")}
    assert modules.isdisjoint(seen)


def test_the_import_draws_nothing_and_loads_nothing():
    code = "import sys; from woodref import charts; assert 'matplotlib' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True)


def test_the_example_draws_what_it_says(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    lines = re.findall(r"^    (.+)$", charts.__doc__, re.MULTILINE)
    assert len(lines) == 4
    exec("\n".join(lines), {})
    assert (tmp_path / "woods.svg").read_text(encoding="utf-8").startswith("<?xml")
