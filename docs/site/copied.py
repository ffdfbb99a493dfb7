"""Pages that are files of the project as they stand, their links turned."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site.links import PLACES, for_site
from docs.site.page import Page, read

#: Files that have pages of their own making.
_MADE = {
    "README.md",
    "docs/commands.md",
    "docs/python.md",
    "docs/tour.md",
    "docs/data-dictionary.md",
}


def pages() -> Iterator[Page]:
    """One page a file."""
    for file, path in PLACES.items():
        if file not in _MADE:
            yield Page(path, lambda file=file: for_site(read(file), file))  # type: ignore[misc]
