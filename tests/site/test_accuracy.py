"""What the checks against print find is written down as it is."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from docs.site import accuracy

KIT = Path(__file__).resolve().parents[1] / "kit"
CHECKS = """
import numpy as np
import pytest
from checked import checked

@pytest.mark.parametrize("x", [101.0, 98.0])
def test_single_numbers(x):
    assert x == pytest.approx(100.0, rel=0.05)
    assert "text" == pytest.approx("text")

def test_arrays():
    assert np.array([1.0, 2.2]) == pytest.approx([1.0, 2.0], rel=0.2)

def test_named():
    checked([7.7, 8.1], [7.5, 8.0], "% MC")
    assert 1.0 == pytest.approx(1.0)

def test_skipped():
    pytest.skip("not here")
"""


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("checks")
    (folder / "test_some.py").write_text(CHECKS)
    (folder / "conftest.py").write_text(
        "from checked import register\n\ndef pytest_configure(config):\n    register(config)\n"
    )
    path = folder / "found.json"
    subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-c", "/dev/null", str(folder)],
        env={"WOODREF_CHECKS": str(path), "PYTHONPATH": str(KIT), "PATH": ""},
        check=True,
        capture_output=True,
    )
    return json.loads(path.read_text())


def test_numbers_are_heard_and_named_ones_alone_count(written):
    single, named = written["test_some::test_single_numbers"], written["test_some::test_named"]
    assert single["passed"] == 2
    assert [c["off"] for c in single["compared"]] == pytest.approx([1.0, -2.0])
    assert [c["off"] for c in named["compared"]] == pytest.approx([0.2, 0.1])
    assert {c["unit"] for c in named["compared"]} == {"% MC"}
    assert [c["off"] for c in written["test_some::test_arrays"]["compared"]] == pytest.approx(
        [0.0, 10.0]
    )
    assert written["test_some::test_skipped"]["skipped"] == 1


def test_errors_are_told_with_their_mean_their_rms_and_the_largest(written):
    compared = written["test_some::test_single_numbers"]["compared"]
    assert accuracy.errors(compared) == ("2", "-0.5 %", "1.6 %", "2 %")
    assert accuracy.errors([]) == ("", "", "", "")


def test_the_page_tells_what_was_found_and_what_was_not_run():
    file = next(f for f in accuracy.check_files() if f.checks[0].file == "test_wood_handbook")
    check = file.checks[0]
    key = f"{check.file}::{check.name}"
    ran = {"passed": 3, "failed": 0, "skipped": 0, "compared": [{"off": 0.5, "unit": "%"}]}
    assert "| 3 of 3 hold | 1 | +0.5 % | 0.5 % | 0.5 % |" in accuracy.page_of({key: ran})
    assert "not run here" in accuracy.page_of({key: ran | {"passed": 0, "skipped": 3}})
