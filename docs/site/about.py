"""What does not concern an answer: how to cite, what changed, how it is made."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site.links import PLACES
from docs.site.page import Page, blocks, link, menu, read

_CITE = "about/cite.md"
_FILE = "CITATION.cff"


def _heading(file: str) -> str:
    """The first heading of a file."""
    return read(file).partition("\n")[0].removeprefix("# ")


def _index() -> str:
    placed = {path: _heading(file) for file, path in PLACES.items() if path.startswith("about/")}
    cite, license_ = link("How to cite", _CITE), link("License of the dataset", "data/license.md")
    listed = [f"{cite} woodref, and the publications its numbers come from", license_]
    listed += [link(title, path) for path, title in placed.items()]
    return blocks(
        "# About",
        "woodref is free: the program under the MIT license, the compiled data under CC0 1.0. It "
        "runs on your own machine, without a network.",
        "\n".join(f"- {x}" for x in listed),
        menu([_CITE, *placed]),
    )


def _cite() -> str:
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
    """The list, and the page on citing."""
    yield Page("about/index.md", _index)
    yield Page(_CITE, _cite)
