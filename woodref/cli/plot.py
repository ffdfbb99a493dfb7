"""Pictures beside an answer: the file is checked first, written, and named on stderr."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer
from woodref.cli.output import checked_save, emit
from woodref.cli.say import complain
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.charts.figure import Figure


def checked_plot(file: str, force: bool, *inputs: Path | None) -> None:
    """Refuse a file that cannot be drawn to before anything is computed.

    Parameters: file, '' for none; force; inputs, files that the command is going to read.
    Raises: InputError as woodref.charts.figure.plot_path; nothing where no file is named.
    """
    if file:
        from woodref.charts.figure import plot_path
        from woodref.files_in_use import remember

        for given in inputs:
            if given:
                remember(given)
        plot_path(file, force)


def emit_with_plot(
    answer: Answer,
    units: str,
    style: str,
    file: str,
    draw: Callable[[], Figure],
    save_to: Path | None = None,
    whole: Answer | None = None,
    force: bool = False,
    full: bool | None = None,
) -> None:
    """Print the answer, and where a file is named draw to it first.

    Parameters: answer, units, style, save_to, whole, force, full as woodref.cli.output.emit;
    file, '' for no picture; draw makes the figure.
    Raises: as woodref.charts.figure.save; no answer is printed then.
    """
    checked_save(save_to, force)
    if file:
        from woodref.charts.figure import save

        quiet_drawing()

        path = save(draw(), file, force)
        complain(f"woodref: drawn to {path}")
    emit(answer, units, style, save_to, whole, force, full)


def quiet_drawing() -> None:
    """Keep from stderr what the drawing package says of folders of its own."""
    import logging

    logging.getLogger("matplotlib").setLevel(logging.CRITICAL)


def needs_room(file: str) -> None:
    """Refuse a picture of the year where no room is named.

    Raises: InputError; nothing where no file is named.
    """
    if file:
        raise InputError(
            "--plot draws the year of a room: add --place and --setting, for example --place "
            "Savannah --setting heated-house"
        )
