"""Print an answer, and save it where that is asked; the only place that prints answers."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from woodref.answers.render import Answer, render


def emit(
    answer: Answer, units: str, style: str, save: Path | None = None, whole: Answer | None = None
) -> None:
    """Print the answer on stdout; with ``save`` write it to a file too, as JSON, before that.

    Parameters: save the file, replaced where it exists; whole the answer to save, where it is
    more than what is printed.
    Raises: as woodref.files.write_text.
    """
    terminal = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
    text = render(answer, units, style, terminal)
    if save:
        from woodref.files import write_text

        write_text(save, render(whole or answer, units, "json") + "\n", overwrite=True)
    sys.stdout.write(text + "\n")
