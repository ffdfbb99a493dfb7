"""What a page of the site is, and the Markdown that pages share."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]

#: Characters that would mark up a text, or end a cell.
_MARKUP = re.compile(r"([\\|*`<>\[\]_{}$])")


class Page(NamedTuple):
    """A page: where it stands in the site, what makes its text, and whether a menu lists it."""

    path: str
    make: Callable[[], str]
    listed: bool = True


class Drawing(NamedTuple):
    """A picture: where it stands in the site, and what draws it, as the text of an SVG file."""

    path: str
    make: Callable[[], str]


def read(path: str) -> str:
    """The text of a file of the project, by its path from the root."""
    return (ROOT / path).read_text(encoding="utf-8")


def plain(text: object) -> str:
    """A text that holds no markup, in one line."""
    return _MARKUP.sub(r"\\\1", " ".join(str(text).split()))


def table(heads: Sequence[str], rows: Iterable[Sequence[str]], right: Iterable[int] = ()) -> str:
    """A table.

    Parameters: heads; rows of cells that are Markdown; right, the columns set flush right.
    """
    flush = set(right)
    rule = ["---:" if i in flush else "---" for i in range(len(heads))]
    return "\n".join("| " + " | ".join(cells) + " |" for cells in [list(heads), rule, *rows])


def link(words: str, target: str, anchor: str = "") -> str:
    """A link to a page by its path in the site: '/woods/x.md'."""
    return f"[{plain(words)}](/{target}{'#' + anchor if anchor else ''})"


def menu(paths: Iterable[str], depth: int = 1) -> str:
    """The pages below this one, for the menu at its side; not printed on the page."""
    names = "\n".join(f"/{p.rpartition('.')[0]}" for p in paths)
    return f"```{{toctree}}\n:hidden:\n:maxdepth: {depth}\n\n{names}\n```"


def blocks(*parts: str) -> str:
    """A page of its parts, empty ones left out."""
    return "\n\n".join(p.strip("\n") for p in parts if p.strip()) + "\n"
