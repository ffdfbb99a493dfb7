"""Change the code of a room one place at a time, and see whether its tests notice.

``python tests/mutation/run.py ROOM`` with a room of ``rooms.toml``; ``--again`` runs the mutants
that survived once more, after tests were added. Works in ``build/mutation/ROOM``; a run that was
stopped goes on where it stood. mutmut makes the mutants; it leaves decorated functions alone, so
they are written as a plain function and a call of the decorator, which means the same. The tests
are collected once, and a fork of that one process for each mutant runs those that call the changed
function, first those that noticed other mutants of it, then the quick ones.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import shutil
import sys
import tomllib
from math import inf
from pathlib import Path
from random import Random
from typing import Any

ROOT = Path(__file__).parents[2]
ROOMS = Path(__file__).with_name("rooms.toml")
WORK = ROOT / "build" / "mutation"
#: What is copied beside the mutants, and what only the tests read.
COPIED, READ = ("woodref", "pipeline", "tests"), ("datasets", "docs", "notebooks")
#: What became of a mutant: noticed by a test, or stopped by the clock; alive though its tests ran,
#: or because no test of the room calls its function.
KILLED, ENDLESS, SURVIVED, NO_TESTS = "killed", "time", "survived", "no tests"
#: Decorators of a function that mutmut knows, or that only mark it.
KEPT = {"staticmethod", "classmethod", "overload"}


def plain(source: str) -> str:
    """The source with each decorator of a function as a call after it."""
    lines = source.splitlines()
    additions: list[tuple[int, str]] = []
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.FunctionDef) or not node.decorator_list:
            continue
        if any(isinstance(d, ast.Name) and d.id in KEPT for d in node.decorator_list):
            continue
        if any(isinstance(d, ast.Attribute) for d in node.decorator_list):
            continue
        called = node.name
        for decorator in reversed(node.decorator_list):
            called = f"{ast.unparse(decorator)}({called})"
            for number in range(decorator.lineno - 1, decorator.end_lineno or 0):
                lines[number] = ""
        assert node.end_lineno is not None
        additions.append((node.end_lineno, f"{' ' * node.col_offset}{node.name} = {called}"))
    for after, line in sorted(additions, reverse=True):
        lines.insert(after, line)
    return "\n".join(lines) + "\n"


def settings(room: dict[str, list[str]], project: str) -> str:
    """The configuration of the tools, for the folder of a room."""
    options = tomllib.loads(project)["tool"]["pytest"]["ini_options"]
    return "\n".join(
        [
            "[tool.pytest.ini_options]",
            *(f"{k} = {json.dumps(v)}" for k, v in options.items()),
            "[tool.mutmut]",
            f"source_paths = {json.dumps(['woodref', 'pipeline'])}",
            f"only_mutate = {json.dumps(room['files'])}",
            "",
        ]
    )


def prepare(folder: Path, room: dict[str, list[str]]) -> None:
    """Copy what has changed since the last run into the folder of a room."""
    (folder / "mutants").mkdir(parents=True, exist_ok=True)
    for name in READ:
        shutil.copytree(ROOT / name, folder / "mutants" / name, dirs_exist_ok=True)
    for name in COPIED:
        for source in sorted((ROOT / name).rglob("*")):
            if source.is_dir() or "__pycache__" in source.parts:
                continue
            target = folder / source.relative_to(ROOT)
            content = source.read_bytes()
            if any(source.relative_to(ROOT).match(pattern) for pattern in room["files"]):
                content = plain(content.decode()).encode()
            if not target.exists() or target.read_bytes() != content:
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(content)
                if name != "tests":
                    (folder / "mutants" / source.relative_to(ROOT)).unlink(missing_ok=True)
    (folder / "pyproject.toml").write_text(
        settings(room, (ROOT / "pyproject.toml").read_text(encoding="utf-8")), encoding="utf-8"
    )


def results(folder: Path) -> dict[str, str]:
    """What became of each mutant of a room so far."""
    file = folder / "results.json"
    known: dict[str, str] = json.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
    return known


def generate(folder: Path) -> tuple[list[str], set[str]]:
    """The names of all mutants, and of those in code that changed since the last run."""
    os.chdir(folder)  # where mutmut finds its settings as it is imported
    from mutmut import __main__ as tool
    from mutmut.mutation.trampoline import set_mutant_under_test

    set_mutant_under_test("mutant_generation")
    tool.copy_src_dir()
    tool.copy_also_copy_files()
    tool.setup_source_paths()
    before = _hashes(folder)
    tool.create_mutants(1)
    after = _hashes(folder)
    names = [name for meta in _metas(folder) for name in meta["exit_code_by_key"]]
    changed = {
        name
        for name in names
        if before.get(_function(name)) != after.get(_function(name)) or not before
    }
    return names, changed


def _metas(folder: Path) -> list[dict[str, Any]]:
    files = sorted((folder / "mutants").rglob("*.meta"))
    return [json.loads(f.read_text(encoding="utf-8")) for f in files]


def _function(mutant: str) -> str:
    return mutant.rpartition("__mutmut_")[0]


def _hashes(folder: Path) -> dict[str, str]:
    """A mark of the code of each function, by its name among the mutants."""
    marks = {}
    for meta in _metas(folder):
        for name in meta["exit_code_by_key"]:
            function = _function(name)
            marks[function] = meta["hash_by_function_name"].get(function.rpartition(".")[2], "")
    return marks


def main() -> int:
    """Run a room."""
    rooms = tomllib.loads(ROOMS.read_text(encoding="utf-8"))
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room", choices=sorted(rooms))
    parser.add_argument("--again", action="store_true", help="what has survived so far")
    parser.add_argument("--minutes", type=float, default=inf, help="stop after so long")
    options = parser.parse_args()
    folder = WORK / options.room
    prepare(folder, rooms[options.room])
    known = results(folder)
    names, changed = generate(folder)
    (folder / "mutants.json").write_text(json.dumps(len(names)), encoding="utf-8")
    alive = (SURVIVED, NO_TESTS)
    keep = {
        n: known[n]
        for n in names
        if n in known and n not in changed and not (options.again and known[n] in alive)
    }
    from session import run_tests

    todo = [n for n in names if n not in keep]
    # In no order, so that a run that is stopped is a fair sample; first those that were run before.
    Random(1).shuffle(todo)
    todo.sort(key=lambda name: name not in known)
    return run_tests(folder, rooms[options.room], todo, keep, 60.0 * options.minutes)


if __name__ == "__main__":
    sys.exit(main())
