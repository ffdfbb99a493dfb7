"""Print an answer, and save it where that is asked; the only place that prints answers."""

from __future__ import annotations

import os
import shutil
import sys
from dataclasses import replace
from pathlib import Path

from woodref.answers.answer import Answer
from woodref.answers.render import render, screen_width
from woodref.answers.screen import first_screen
from woodref.cli.options import Asked, Style


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


def _styled() -> bool:
    """True on a terminal that takes bold; https://no-color.org is heeded."""
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return sys.stdout.isatty() and not plain


def emit(
    answer: Answer,
    units: str,
    style: str,
    save: Path | None = None,
    whole: Answer | None = None,
    force: bool = False,
    full: bool | None = None,
) -> None:
    """Print the answer on stdout; with ``save`` write it to a file too, as JSON, before that.

    Parameters: save the file; whole the answer to save, where it is more than what is printed;
    force, whether a file that exists may be replaced; full false for the first screen
    alone where no other format is asked for, by default as --full asks.
    Raises: as woodref.files.write_text.
    """
    terminal = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
    whole_page = Asked.full if full is None else full
    shown = answer
    if style == Style.table and not whole_page:
        screen = first_screen(answer, units, Asked.ways, screen_width(terminal))
        shown = replace(answer, screen=screen)
    text = render(shown, units, style, terminal, whole_page, _styled())
    if save:
        from woodref.files import write_text

        write_text(save, render(whole or answer, units, "json") + "\n", force)
    sys.stdout.write(text + "\n")
