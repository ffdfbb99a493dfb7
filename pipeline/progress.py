"""Progress of the steps, one line each on stderr."""

from __future__ import annotations

import sys


def say(step: str, text: str) -> None:
    """'publish  measurements: 7000 rows' on stderr."""
    print(f"{step:<10}{text}", file=sys.stderr, flush=True)
