"""Every page of the site."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site import (
    about,
    accuracy,
    commands,
    copied,
    data,
    how_to,
    method,
    publications,
    python_pages,
    woods,
    written,
)
from docs.site.page import Drawing, Page

_ROOMS = (
    *(written, how_to, woods, commands, copied, python_pages),
    *(data, publications, method, accuracy, about),
)


def every_page() -> Iterator[Page]:
    """All pages, in no order that matters."""
    for room in _ROOMS:
        yield from room.pages()


def every_drawing() -> Iterator[Drawing]:
    """All pictures that are drawn for the site alone."""
    yield from woods.drawings()
