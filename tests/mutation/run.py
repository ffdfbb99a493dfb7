"""Change the code of a room one place at a time, and see whether its tests notice.

``python tests/mutation/run.py ROOM`` with a room of ``rooms.toml``; ``--again`` runs the mutants
that survived once more, after tests were added. Works in ``build/mutation/ROOM``; a run that was
stopped goes on where it stood. The tool is mutmut, which leaves decorated functions alone; so
they are written as a plain function and a call of the decorator, which means the same. What the
types already refuse (mypy, as in ``make lint``) is not run.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
ROOMS = Path(__file__).with_name("rooms.toml")
WORK = ROOT / "build" / "mutation"
#: What the tool copies on with its mutants, and what only the tests read.
COPIED, READ = ("woodref", "pipeline", "tests"), ("datasets", "docs", "notebooks")
#: What pytest leaves out for speed: to look for what was not closed takes three times a small test.
LEAN = ("-p", "no:cacheprovider", "-p", "no:unraisableexception", "-p", "no:threadexception")
#: The code of a mutant in a function that no test of the room calls.
NO_TESTS = 33
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
    """The configuration of the tool and of the tests, for the folder of a room."""
    tools = tomllib.loads(project)["tool"]
    pytest_options, mypy_options = tools["pytest"]["ini_options"], tools["mypy"]
    types = [sys.executable, str(Path(__file__).resolve()), "--types", "mypy", *room["files"]]
    deselected = [f"--deselect={test}" for test in room.get("deselect", [])]
    return "\n".join(
        [
            "[tool.pytest.ini_options]",
            *(f"{key} = {json.dumps(value)}" for key, value in pytest_options.items()),
            "[tool.mypy]",
            "strict = true",
            f"overrides = {_inline(mypy_options['overrides'])}",
            "[tool.mutmut]",
            f"source_paths = {json.dumps(['woodref', 'pipeline'])}",
            f"only_mutate = {json.dumps(room['files'])}",
            f"pytest_add_cli_args_test_selection = {json.dumps(room['tests'])}",
            f"pytest_add_cli_args = {json.dumps([*LEAN, *deselected])}",
            # A database opened before the fork would wait in it for threads that are gone.
            'process_isolation = "forkserver"',
            # In seconds of the clock: a busy machine is no endless loop.
            "timeout_constant = 6.0",
            "timeout_multiplier = 10.0",
            f"type_check_command = {json.dumps(types)}",
            "use_git_change_detection = false",
            "",
        ]
    )


def _inline(tables: list[dict[str, Any]]) -> str:
    """Tables of a file of settings in one line."""
    rows = (", ".join(f"{k} = {json.dumps(v)}" for k, v in row.items()) for row in tables)
    return f"[{', '.join(f'{{{row}}}' for row in rows)}]"


def told_by_types(patterns: list[str]) -> list[dict[str, Any]]:
    """The errors of mypy that a mutant has and its original has not, in the folder of the mutants.

    The original may have some of its own here: a property written as a call has no type.
    """
    files = [str(f) for pattern in patterns for f in Path().glob(pattern) if f.suffix == ".py"]
    command = [sys.executable, "-m", "mypy", "--output", "json", *files]
    printed = subprocess.run(command, capture_output=True, encoding="utf-8", check=False).stdout
    errors = [json.loads(line) for line in printed.splitlines() if line.startswith("{")]
    kept = []
    for file in files:
        here = [e for e in errors if e["file"] == file and e["severity"] == "error"]
        functions = [
            n
            for n in ast.walk(ast.parse(Path(file).read_text(encoding="utf-8")))
            if isinstance(n, ast.FunctionDef) and "__mutmut_" in n.name
        ]
        told: dict[str, list[dict[str, Any]]] = {
            f.name: [e for e in here if f.lineno <= e["line"] <= (f.end_lineno or 0)]
            for f in functions
        }
        for name, found in told.items():
            if name.endswith("_orig"):
                continue
            of_original = told.get(f"{name.rpartition('__mutmut_')[0]}__mutmut_orig", [])
            usual = {e["message"] for e in of_original}
            kept += [e for e in found if e["message"] not in usual]
    return kept


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


def results(folder: Path) -> dict[str, int | None]:
    """The exit code of the tests by the name of the mutant, None of one not run."""
    codes: dict[str, int | None] = {}
    for meta in sorted((folder / "mutants").rglob("*.meta")):
        codes |= json.loads(meta.read_text(encoding="utf-8"))["exit_code_by_key"]
    return codes


def run(folder: Path, names: list[str], children: int) -> int:
    """Run the tool in the folder of a room."""
    command = [
        str(Path(sys.executable).with_name("mutmut")),
        "run",
        "--max-children",
        str(children),
    ]
    # The fork server of the tool gives a name a line; many names go by parts.
    environment = {**os.environ, "PYTHONHASHSEED": "0"}
    parts = [names[n : n + 300] for n in range(0, len(names), 300)] or [[]]
    return max(
        subprocess.run([*command, *part], cwd=folder, env=environment, check=False).returncode
        for part in parts
    )


def main() -> int:
    """Run a room."""
    rooms = tomllib.loads(ROOMS.read_text(encoding="utf-8"))
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room", choices=sorted(rooms), nargs="?")
    parser.add_argument("--types", nargs="*", help="the files to check, as mutmut asks for it")
    parser.add_argument("--again", action="store_true", help="only what has survived so far")
    parser.add_argument("--children", type=int, default=1)
    options = parser.parse_args()
    if options.types is not None:
        for error in told_by_types(options.types[1:]):
            print(json.dumps(error))
        return 0
    if options.room is None:
        parser.error("name a room")
    folder = WORK / options.room
    prepare(folder, rooms[options.room])
    survived = [name for name, code in results(folder).items() if code in (0, NO_TESTS)]
    if options.again:  # which tests concern a function is found anew
        (folder / "mutants" / "mutmut-stats.json").unlink(missing_ok=True)
    return run(folder, survived if options.again else [], options.children)


if __name__ == "__main__":
    sys.exit(main())
