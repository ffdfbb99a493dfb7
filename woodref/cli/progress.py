"""How far a search for a cutting plan is, in one line on a terminal."""

from __future__ import annotations

import sys
from time import monotonic
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from woodref.cutting.model import Progress

#: Between two lines of progress [s].
_PROGRESS_SECONDS = 0.2


class Ticker:
    """Progress on a terminal, in one line that is wiped at the end; nothing elsewhere."""

    def __init__(self) -> None:
        self.shown = sys.stderr.isatty()
        self.last, self.width = 0.0, 0

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
        """Wipe the line."""
        if self.width:
            sys.stderr.write("\r" + " " * self.width + "\r")
            sys.stderr.flush()
