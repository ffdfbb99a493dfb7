"""Run the tests with the lowest versions that pyproject.toml allows, and with the newest.

    python -m release.versions
    python -m release.versions --python python3.13 --state lowest -- tests/reference tests/cli

On each Python there is, an environment for each state is made in .venv-versions and kept:
``lowest`` has what woodref depends on at its lowest versions and the tools of the tests as pinned,
``newest`` takes everything as the package index has it today. Tests of the same bytes hold with
the pinned versions alone and are left out (the marker ``pinned``).
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import NamedTuple

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
ENVIRONMENTS = ROOT / ".venv-versions"
#: Pythons looked for, the last one not yet out when this was written.
PYTHONS = tuple(f"python3.{minor}" for minor in range(11, 17))
STATES = ("lowest", "newest")


class Outcome(NamedTuple):
    """What became of the tests on a Python in a state: the last line of pytest, or of pip."""

    python: str
    state: str
    passed: bool
    said: str


def project() -> dict[str, object]:
    """The table [project] of pyproject.toml."""
    with (ROOT / "pyproject.toml").open("rb") as file:
        table: dict[str, object] = tomllib.load(file)["project"]
    return table


def floors(requirements: list[str]) -> dict[str, str]:
    """The lowest version of each requirement, by canonical name.

    Raises: ValueError for a requirement without one.
    """
    lowest = {}
    for text in requirements:
        requirement = Requirement(text)
        least = [s.version for s in requirement.specifier if s.operator == ">="]
        if len(least) != 1:
            raise ValueError(f"{text}: says no lowest version")
        lowest[canonicalize_name(requirement.name)] = least[0]
    return lowest


def lowest_constraints(pinned: str, lowest: dict[str, str]) -> str:
    """The pinned versions, with those of the floors in place of the newer ones."""
    kept = [
        line
        for line in pinned.splitlines()
        if "==" in line and canonicalize_name(line.partition("==")[0]) not in lowest
    ]
    return "\n".join([*kept, *(f"{name}=={version}" for name, version in lowest.items())]) + "\n"


def started(path: str) -> bool:
    """Tell whether a Python starts; a stand-in for one that is not chosen does not."""
    run = subprocess.run([path, "-c", ""], check=False, capture_output=True)
    return run.returncode == 0


def pythons() -> dict[str, str]:
    """The Pythons there are, by name: on the path, or among those that pyenv keeps."""
    kept = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    here = {}
    for name in PYTHONS:
        others = sorted(kept.glob(f"{name.removeprefix('python')}.*/bin/{name}"))
        on_path = shutil.which(name)
        paths = [*([on_path] if on_path else []), *map(str, reversed(others))]
        path = next((p for p in paths if started(p)), None)
        if path:
            here[name] = path
    return here


def environment(name: str, python: str, state: str) -> Path:
    """An environment of a Python in a state, made or brought up to date; the Python in it.

    Raises: CalledProcessError where something cannot be installed.
    """
    place = ENVIRONMENTS / f"{name}-{state}"
    inside = place / "bin" / "python"
    if not inside.exists():
        subprocess.run([python, "-m", "venv", str(place)], check=True)
    words = ["install", "--quiet", "--disable-pip-version-check", "-e", f"{ROOT}[dev]"]
    if state == "lowest":
        requirements = project()["dependencies"]
        assert isinstance(requirements, list)
        constraints = place / "constraints.txt"
        pinned = (ROOT / "constraints.txt").read_text(encoding="utf-8")
        constraints.write_text(lowest_constraints(pinned, floors(requirements)), encoding="utf-8")
        words += ["-c", str(constraints)]
    else:
        words.append("--upgrade")
    subprocess.run([str(inside), "-m", "pip", *words], check=True, capture_output=True, text=True)
    return inside


def tried(name: str, python: str, state: str, tests: list[str]) -> Outcome:
    """Install and run the tests; what pytest prints is passed on."""
    try:
        inside = environment(name, python, state)
    except subprocess.CalledProcessError as error:
        lines = (error.stderr or str(error)).strip().splitlines()
        return Outcome(name, state, False, lines[-1])
    words = [str(inside), "-m", "pytest", "-n", "2", "-m", "not pinned", *tests]
    run = subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    assert run.stdout is not None
    last = ""
    for line in run.stdout:
        sys.stdout.write(line)
        last = line.strip() or last
    return Outcome(name, state, run.wait() == 0, last)


def main() -> int:
    """Try every Python in every state; one line each at the end."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--python", action="append", help="such as python3.12; all there are")
    parser.add_argument("--state", action="append", choices=STATES, help="both")
    parser.add_argument("tests", nargs="*", help="what pytest is given")
    options = parser.parse_args()
    here = pythons()
    outcomes = [
        tried(name, here[name], state, options.tests)
        for name in options.python or here
        for state in options.state or STATES
    ]
    missing = [name for name in PYTHONS if name not in here]
    print(f"not here: {', '.join(missing)}" if missing and not options.python else "")
    for python, state, passed, said in outcomes:
        print(f"{python} {state}: {'passed' if passed else 'FAILED'}: {said}")
    return int(not all(one.passed for one in outcomes))


if __name__ == "__main__":
    sys.exit(main())
