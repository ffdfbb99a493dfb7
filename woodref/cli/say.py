"""What the program says beside its answers: lines that a terminal can show, whatever is in them."""

from __future__ import annotations

import sys
from contextlib import suppress

from woodref.printable import printable

#: Most characters of a complaint; what a user wrote stands in it, and may be endless.
LONGEST = 300


def say(text: str, end: str = "\n") -> None:
    """Write text on stdout."""
    sys.stdout.write(printable(text) + end)


def complain(text: str) -> None:
    """Write one line on stderr, its middle left out where it is long: the way out stands last."""
    line = printable(text, kept="")
    if len(line) > LONGEST:
        half = (LONGEST - 5) // 2
        line = f"{line[:half]} ... {line[-half:]}"
    with suppress(OSError):  # there is nowhere else to say it
        sys.stderr.write(line + "\n")
