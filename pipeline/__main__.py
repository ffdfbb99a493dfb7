"""``python -m pipeline build`` makes the reference dataset, ``check`` compares it anew.

``archive`` writes it as one file.
"""

from __future__ import annotations

import argparse
import hashlib
import sys
import tempfile
from pathlib import Path

import pandas as pd

from pipeline.archive import write_archive
from pipeline.build import assemble
from pipeline.check import differences
from pipeline.dataset import write_dataset
from pipeline.read import REFERENCE, ROOT

DICTIONARY = ROOT / "docs" / "data-dictionary.md"


def _build(out: Path) -> int:
    """Build into a folder; the data dictionary goes with the dataset of the checkout."""
    write_dataset(assemble(), out, DICTIONARY if out == REFERENCE else out / DICTIONARY.name)
    return 0


def _check() -> int:
    """Rebuild aside and compare byte for byte."""
    with tempfile.TemporaryDirectory(prefix="woodref-check-") as name:
        folder = Path(name) / REFERENCE.name
        page = Path(name) / DICTIONARY.name
        write_dataset(assemble(), folder, page)
        lines = differences(REFERENCE, folder)
        if not DICTIONARY.is_file() or DICTIONARY.read_bytes() != page.read_bytes():
            lines.append(f"{DICTIONARY.relative_to(ROOT)}: differs")
    if lines:
        print("\n".join(lines))
        print("the reference dataset is out of date: run 'python -m pipeline build'")
        return 1
    print("reference dataset is up to date")
    return 0


def _archive(out: Path) -> int:
    """Write the archive of the published dataset into a folder."""
    path = write_archive(REFERENCE, DICTIONARY, out)
    content = path.read_bytes()
    print(f"{hashlib.sha256(content).hexdigest()}  {path.name}  {len(content) / 1e6:.2f} MB")
    return 0


def main(arguments: list[str] | None = None) -> int:
    """Parse the command line and run it; the exit code is returned."""
    parser = argparse.ArgumentParser(prog="python -m pipeline", description=__doc__)
    steps = parser.add_subparsers(dest="step", required=True)
    building = steps.add_parser("build", help="build the reference dataset from datasets/sources")
    building.add_argument(
        "--out", type=Path, default=REFERENCE, help="folder to build into", metavar="DIR"
    )
    keeping = steps.add_parser("archive", help="write the dataset as one file to keep and to cite")
    keeping.add_argument("--out", type=Path, default=ROOT / "dist", help="folder", metavar="DIR")
    steps.add_parser("check", help="rebuild aside and fail where the published dataset differs")
    options = parser.parse_args(arguments)
    try:
        # Tables are gone through cell by cell in places; a column of Arrow's is slow at that.
        with pd.option_context("mode.string_storage", "python"):
            if options.step == "check":
                return _check()
            out = options.out.resolve()
            return _build(out) if options.step == "build" else _archive(out)
    except KeyError as error:
        print(f"no table and no declaration holds {error}", file=sys.stderr)
    except (ValueError, OSError) as error:
        print(error, file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
