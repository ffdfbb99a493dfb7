"""Print an answer, and save it where that is asked; the only place that prints answers."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from woodref.answers.render import Answer, render


def checked_save(file: Path | None, force: bool, *inputs: Path | None) -> None:
    """Refuse a file that cannot be saved to before anything is computed.

    Parameters: file, None for none; force; inputs, files that the command is going to read.
    Raises: InputError as woodref.files.check_target; nothing where no file is named.
    """
    if file:
        from woodref.files import check_target
        from woodref.files_in_use import remember

        for given in inputs:
            if given:
                remember(given)
        check_target(file, force)


def emit(
    answer: Answer,
    units: str,
    style: str,
    save: Path | None = None,
    whole: Answer | None = None,
    force: bool = False,
    full: bool = True,
) -> None:
    """Print the answer on stdout; with ``save`` write it to a file too, as JSON, before that.

    Parameters: save the file; whole the answer to save, where it is more than what is printed;
    force, whether a file that exists may be replaced; full false for the short form of the
    answer, where it has one and no other format is asked for.
    Raises: as woodref.files.write_text.
    """
    terminal = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
    text = render(answer, units, style, terminal, full)
    if save:
        from woodref.files import write_text

        write_text(save, render(whole or answer, units, "json") + "\n", force)
    sys.stdout.write(text + "\n")
