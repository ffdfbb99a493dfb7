"""Try a wheel as a user does: installed alone, asked from elsewhere, and typed by a checker.

    python -m release.installed dist/woodref-0.1.0-py3-none-any.whl --environment .venv-installed

The environment holds the wheel and what it depends on, in the pinned versions, and nothing else;
it is left for a bill of materials to be made of it.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
#: A program of a user that calls every public function.
PROGRAM = ROOT / "tests" / "data" / "typed_user.py"
_MYPY = (
    "[mypy]\nstrict = true\n[mypy-pyarrow.*,scipy.*,matplotlib.*]\nignore_missing_imports = true\n"
)


def run(*words: str | Path, folder: Path) -> str:
    """What a command prints, run in a folder that is not the checkout's."""
    kept = {
        k: v for k, v in os.environ.items() if k != "PYTHONPATH" and not k.startswith("WOODREF")
    }
    done = subprocess.run(
        [str(w) for w in words],
        cwd=folder,
        env=kept | {"WOODREF_DATA": str(folder)},
        check=False,
        capture_output=True,
        text=True,
    )
    if done.returncode:
        raise SystemExit(f"{' '.join(map(str, words))}\n{done.stdout}{done.stderr}")
    return done.stdout


def main() -> int:
    """Install, ask, check types."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("wheel", type=Path)
    parser.add_argument("--environment", type=Path, default=ROOT / ".venv-installed")
    options = parser.parse_args()
    place = options.environment.resolve()
    venv.create(place, clear=True)
    python = place / "bin" / "python"
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        constraints = ROOT / "constraints.txt"
        # From outside, so that the environment holds what the wheel needs and no installer.
        pip = (sys.executable, "-m", "pip", "--python", python)
        wheel = options.wheel.resolve()
        run(*pip, "install", "--quiet", "-c", constraints, wheel, folder=folder)
        print(run(place / "bin" / "woodref", "--version", folder=folder), end="")
        shown = run(place / "bin" / "woodref", "show", "white oak", folder=folder)
        print(shown.partition("\n")[0])
        # Types of pandas come apart from it; who checks types has them.
        stubs = ("install", "--quiet", "--no-deps", "-c", constraints, "pandas-stubs")
        run(*pip, *stubs, folder=folder)
        (folder / "mypy.ini").write_text(_MYPY, encoding="utf-8")
        checker = (sys.executable, "-m", "mypy", "--config-file", folder / "mypy.ini")
        print(run(*checker, "--python-executable", python, PROGRAM, folder=folder), end="")
        run(*pip, "uninstall", "--quiet", "--yes", "pandas-stubs", folder=folder)
    return 0


if __name__ == "__main__":
    sys.exit(main())
