"""Every page of the site."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site import commands, copied, data, publications, python_pages, written
from docs.site.page import Page

_ROOMS = (written, commands, copied, python_pages, data, publications)


def every_page() -> Iterator[Page]:
    """All pages, in no order that matters."""
    for room in _ROOMS:
        yield from room.pages()
