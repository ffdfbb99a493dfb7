"""What a checker of types knows of the public functions: all, nowhere that anything goes."""

import ast
import inspect
import subprocess
import sys
from pathlib import Path

import pytest

import woodref

ROOT = Path(__file__).resolve().parents[1]
PROGRAM = ROOT / "tests" / "data" / "typed_user.py"
CONFIG = f"""
[mypy]
strict = true
disallow_any_expr = true
mypy_path = {ROOT}
[mypy-woodref.*]
follow_imports = silent
disallow_any_expr = false
[mypy-pyarrow.*,scipy.*]
ignore_missing_imports = true
"""


@pytest.mark.pinned  # older NumPy says Any of its own arrays
def test_a_user_gets_no_any(tmp_path, request):
    (tmp_path / "mypy.ini").write_text(CONFIG, encoding="utf-8")
    run = subprocess.run(
        [
            *(sys.executable, "-m", "mypy", "--config-file", tmp_path / "mypy.ini"),
            *("--cache-dir", request.config.cache.mkdir("mypy"), PROGRAM),
        ],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr


def test_every_public_function_is_called():
    tree = ast.parse(PROGRAM.read_text(encoding="utf-8"))
    called = {ast.unparse(node.func) for node in ast.walk(tree) if isinstance(node, ast.Call)}
    functions = [n for n in woodref.__all__ if inspect.isfunction(getattr(woodref, n))]
    assert len(functions) > 30
    assert [name for name in functions if f"woodref.{name}" not in called] == []


def test_every_parameter_and_result_is_annotated():
    for name in woodref.__all__:
        function = getattr(woodref, name)
        if inspect.isfunction(function):
            signature = inspect.signature(function)
            annotations = [p.annotation for p in signature.parameters.values()]
            annotations.append(signature.return_annotation)
            assert not {inspect.Parameter.empty, "Any"} & set(annotations), name
