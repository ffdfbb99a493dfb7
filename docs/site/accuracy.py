"""How near woodref comes to print: what it estimates, and every check against a publication.

The checks are the tests of ``tests/published``; they are run, and tell by ``tests/kit/checked.py``
what numbers they compared.
"""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from functools import cache
from math import sqrt
from pathlib import Path
from typing import Any, NamedTuple

from docs.site.data import query
from docs.site.page import ROOT, Page, blocks, link, plain, table
from woodref.answers.provenance import sentence
from woodref.reference.properties import PROPERTIES

FOLDER = ROOT / "tests" / "published"
_PATH = "trust/accuracy.md"
#: A difference below this is told as none.
_NOTHING = 5e-4


class Check(NamedTuple):
    """A check: the file and the function it is, and what it says of itself."""

    file: str
    name: str
    about: str

    @property
    def title(self) -> str:
        """'Cells above 200 f'."""
        return sentence(self.name.removeprefix("test_").replace("_", " "))


class CheckFile(NamedTuple):
    """The checks against a publication, or a few of one kind."""

    title: str
    about: str
    checks: tuple[Check, ...]


def _parted(text: str) -> tuple[str, str]:
    """The first line of a text and what follows."""
    first, _, rest = text.partition("\n")
    return first.rstrip("."), rest.strip()


def check_files() -> Iterator[CheckFile]:
    """Every file of checks, with its checks in order, read without running them."""
    for path in sorted(FOLDER.glob("test_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        checks = (
            Check(path.stem, node.name, ast.get_docstring(node) or "")
            for node in tree.body
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
        )
        yield CheckFile(*_parted(ast.get_docstring(tree) or path.stem), tuple(checks))


@cache
def found() -> dict[str, Any]:
    """What the checks find now, by file and name.

    Raises: CalledProcessError where one fails.
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "checks.json"
        subprocess.run(
            [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(FOLDER)],
            cwd=ROOT,
            env={**os.environ, "WOODREF_CHECKS": str(path)},
            stdout=subprocess.DEVNULL,
            check=True,
        )
        read: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        return read


def _number(value: float) -> str:
    """'0.21', '110': two digits, or all before the point."""
    if abs(value) < _NOTHING:
        return "0"
    return f"{value:.0f}" if abs(value) >= 10.0 else f"{value:.2g}"


def errors(compared: list[dict[str, Any]]) -> tuple[str, str, str, str]:
    """How many numbers were compared, and their mean, RMS and largest difference, with unit."""
    units = {c["unit"] for c in compared if c["unit"]}
    unit = next(iter(sorted(units)), "")
    off = [float(c["off"]) for c in compared if c["unit"] == unit]
    if not off:
        return "", "", "", ""
    mean_off = sum(off) / len(off)
    told = (
        f"{'+' if mean_off >= _NOTHING else ''}{_number(mean_off)}",
        _number(sqrt(sum(x * x for x in off) / len(off))),
        _number(max(map(abs, off))),
    )
    mean, rms, most = (f"{x} {unit}".strip() for x in told)
    return f"{len(off):,}", mean, rms, most


def _row(check: Check, what: dict[str, Any]) -> tuple[str, ...]:
    about = f": {check.about}" if check.about else ""
    if not what:
        state = ""
    elif what["skipped"] and not what["passed"]:
        state = "not run here"
    else:
        state = f"{what['passed']} of {what['passed'] + what['failed']} hold"
    return (
        plain(f"{check.title}{about}"),
        state,
        *map(plain, errors(what.get("compared", []))),
    )


def _section(file: CheckFile, results: dict[str, Any]) -> str:
    rows = [_row(c, results.get(f"{c.file}::{c.name}", {})) for c in file.checks]
    heads = ("check", "cases", "numbers", "mean off", "RMS", "largest")
    about = "\n\n".join(plain(part) for part in file.about.split("\n\n"))
    return blocks(f"### {plain(file.title)}", about, table(heads, rows, right=(2, 3, 4, 5)))


def _estimates() -> str:
    rows = [
        (
            plain(PROPERTIES[property_id].label),
            plain(check),
            str(woods),
            plain(f"{'+' if bias >= _NOTHING else ''}{_number(bias)} {unit}"),
            plain(f"{_number(rms)} {unit}"),
            "" if held is None else f"{held:.0f} %",
        )
        for property_id, check, woods, unit, bias, rms, held in query(
            'select property_id, "check", woods, unit, bias, rms, coverage_pct from {accuracy}'
        )
    ]
    heads = ("figure", "compared", "woods", "mean off (bias)", "RMS", "held")
    return table(heads, rows, right=(2, 3, 4, 5))


def page_of(results: dict[str, Any]) -> str:
    """The page, with what the checks found."""
    files = list(check_files())
    compared = sum(len(what["compared"]) for what in results.values())
    count = sum(len(f.checks) for f in files)
    told = f"They compared {compared:,} pairs of numbers. " if compared else ""
    return blocks(
        "# Accuracy",
        "Two questions: how near an estimate comes where no table prints a figure, and how near "
        "each formula and table comes to what is published. Both are worked out anew when this "
        "page is made.",
        "## Where print is silent",
        "Each way of estimating is tried on woods whose figure is printed. *Mean off* is the "
        "average of estimate less print; *RMS* is the typical size of the difference; *held* is "
        "the share of woods whose printed mean lies in the 90 % range of the estimate, that range "
        "found on the other woods: near 90 % is right.",
        _estimates(),
        f"More: {link('quality of the data', 'data/quality.md')}.",
        "## Every check against a publication",
        f"{count} checks in {len(files)} files, which are run with the tests of the program. "
        f"{told}A difference in % alone is a share of the printed figure, (log) its logarithm; "
        "*MC* is moisture content, *RH* relative humidity. A check without numbers compares words, "
        "order or limits. Where a figure was not read in print the check says so.",
        *(_section(f, results) for f in files),
        "A figure that agrees with print is still the mean of clear test pieces and no structural "
        "design value; local codes and licensed practice decide.",
    )


def pages() -> Iterator[Page]:
    """The page on accuracy."""
    yield Page(_PATH, lambda: page_of(found()))
