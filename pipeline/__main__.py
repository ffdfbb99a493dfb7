"""``python -m pipeline build`` makes the reference dataset."""

from __future__ import annotations

import argparse
import sys

from pipeline.build import build
from pipeline.read import REFERENCE


def main() -> int:
    """Parse the command line and run it; the exit code is returned."""
    parser = argparse.ArgumentParser(prog="python -m pipeline", description=__doc__)
    parser.add_argument("step", choices=["build"])
    parser.parse_args()
    build(REFERENCE)
    return 0


if __name__ == "__main__":
    sys.exit(main())
