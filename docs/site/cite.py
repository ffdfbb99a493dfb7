"""How to cite, from the file that says so to machines."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site.page import Page, blocks, link, read

_FILE = "CITATION.cff"


def _page() -> str:
    publications = link("the list of publications", "data/publications/index.md")
    return blocks(
        "# How to cite",
        "A number is the work of those who measured it: cite the publication it comes from. Every "
        f"answer names it, and so does {publications}. "
        "For woodref or its data as a whole, this is the record, in the Citation File Format; "
        "programs that keep references read it.",
        f"```yaml\n{read(_FILE).rstrip()}\n```",
        f"What you may do with the data: {link('license', 'data/license.md')}.",
    )


def pages() -> Iterator[Page]:
    """The page on citing."""
    yield Page("about/cite.md", _page)
