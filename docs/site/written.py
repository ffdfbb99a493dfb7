"""Pages that people write, in docs/site/written: plain Markdown, its links rooted in the site.

A fenced block ``run`` holds a command; what the program prints for it stands in its place when the
site is made, so that it can not be out of date.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from docs import refresh
from docs.site.page import ROOT, Page

FOLDER = ROOT / "docs" / "site" / "written"
_RUN = re.compile(r"^```run\n(?P<command>woodref .+)\n```$", re.MULTILINE)


@cache
def _known() -> dict[str, str]:
    """What is printed for commands that a page of docs shows whole; a test holds those to it."""
    return {
        e.command: e.body.partition("\n")[2]
        for page in refresh.PAGES
        for e in refresh.examples(page.read_text(encoding="utf-8"))
        if e.fenced and not (e.answer or e.start or e.code or e.lines is not None)
    }


def answered(command: str) -> str:
    """A command and what it prints, as a block.

    Raises: ValueError for one that does not answer.
    """
    printed = _known().get(command) or refresh.printed_by(command)
    return f"```text\n$ {command}\n{printed.rstrip()}\n```"


def filled(text: str) -> str:
    """A written page with the answers of its commands."""
    return _RUN.sub(lambda match: answered(match["command"]), text)


def pages() -> Iterator[Page]:
    """One page a file."""
    for file in sorted(FOLDER.rglob("*.md")):
        path = file.relative_to(FOLDER).as_posix()
        yield Page(path, lambda file=file: filled(file.read_text(encoding="utf-8")))  # type: ignore[misc]
