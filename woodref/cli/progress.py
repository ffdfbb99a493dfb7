"""How far a search for a cutting plan is, in one line on a terminal."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence
from time import monotonic
from typing import TYPE_CHECKING

from woodref.answers.answer import WholePage
from woodref.answers.render import NOTE_WIDTH, as_lines

if TYPE_CHECKING:
    from woodref.cutting.model import Progress

#: Between two lines of progress [s].
_PROGRESS_SECONDS = 0.2


class Ticker:
    """Progress on a terminal, wiped at the end; nothing elsewhere.

    What is known before the search stands above the line of progress.
    """

    def __init__(self) -> None:
        self.shown = sys.stderr.isatty()
        self.last, self.width, self.above = 0.0, 0, 0

    def first(self, known: Sequence[str]) -> None:
        """Show what is known already."""
        if self.shown:
            width = min(shutil.get_terminal_size().columns, NOTE_WIDTH)
            lines = as_lines([x for x in known if not isinstance(x, WholePage)], width)
            sys.stderr.write("\n".join([*lines, "Looking for a cutting plan ...", ""]))
            sys.stderr.flush()
            self.above = len(lines) + 1

    def __call__(self, lot: str, progress: Progress) -> None:
        """Show how far the search for a lot is."""
        now = monotonic()
        if not self.shown or now - self.last < _PROGRESS_SECONDS:
            return
        self.last = now
        left = f", {progress.left} blanks left" if progress.left else ""
        text = (
            f"{lot}: {progress.boards} boards, at least {progress.bound}{left}, "
            f"{progress.seconds:.0f} s; Ctrl-C takes the best so far"
        )
        sys.stderr.write("\r" + text.ljust(self.width))
        sys.stderr.flush()
        self.width = len(text)

    def end(self) -> None:
        """Wipe what was shown."""
        if self.width:
            sys.stderr.write("\r" + " " * self.width + "\r")
        if self.above:
            sys.stderr.write(f"\x1b[{self.above}A\x1b[J")
        sys.stderr.flush()
