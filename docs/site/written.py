"""Pages that people write, in docs/site/written: plain Markdown, its links rooted in the site.

A fenced block ``run`` holds a command; what the program prints for it stands in its place when the
site is made, so that it can not be out of date.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from docs.site.page import ROOT, Page

FOLDER = ROOT / "docs" / "site" / "written"
_RUN = re.compile(r"^```run\n(?P<command>woodref .+)\n```$", re.MULTILINE)


@cache
def printed_by(command: str) -> str:
    """What a command prints.

    Raises: ValueError for one that does not answer.
    """
    from docs import refresh

    return refresh.printed_by(command)


def filled(text: str) -> str:
    """A written page with the answers of its commands."""

    def shown(match: re.Match[str]) -> str:
        command = match["command"]
        return f"```text\n$ {command}\n{printed_by(command).rstrip()}\n```"

    return _RUN.sub(shown, text)


def pages() -> Iterator[Page]:
    """One page a file."""
    for file in sorted(FOLDER.rglob("*.md")):
        path = file.relative_to(FOLDER).as_posix()
        yield Page(path, lambda file=file: filled(file.read_text(encoding="utf-8")))  # type: ignore[misc]
