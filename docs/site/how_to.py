"""How-tos by question: those of docs/tour.md by topic, and a few of their own."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from functools import cache
from typing import Any

from docs.site.links import for_site
from docs.site.page import Page, blocks, link, menu, plain, read, table
from docs.site.written import answered
from woodref.answers.provenance import sentence
from woodref.cli.short_help import SHORT_HELP

_FILE = "docs/tour.md"
_TOPICS = "docs/site/how_to.toml"
_QUESTION = re.compile(r"^\*\*(?P<ask>.+?)\*\*", re.MULTILINE | re.DOTALL)
_COMMAND = re.compile(r"^\$ woodref ([a-z]+)|`woodref ([a-z]+)", re.MULTILINE)


def topics() -> list[dict[str, Any]]:
    """The topics as they are written down."""
    listed: list[dict[str, Any]] = tomllib.loads(read(_TOPICS))["topics"]
    return listed


@cache
def tour_questions() -> dict[str, str]:
    """The questions of the tour, each with what follows it."""
    text = for_site(read(_FILE), _FILE)
    found = list(_QUESTION.finditer(text))
    ends = [*(m.start() for m in found[1:]), len(text)]
    return {
        " ".join(m["ask"].split()): text[m.end() : end] for m, end in zip(found, ends, strict=True)
    }


def _by_its_beginning(start: str) -> tuple[str, str]:
    """A question of the tour and what follows it.

    Raises: ValueError where none, or more than one, begins so.
    """
    meant = [(ask, rest) for ask, rest in tour_questions().items() if ask.startswith(start)]
    if len(meant) != 1:
        raise ValueError(f"{len(meant)} questions of {_FILE} begin with {start!r}")
    return meant[0]


def _more(text: str) -> str:
    """Links to the commands that an answer uses."""
    names = [a or b for a, b in _COMMAND.findall(text)]
    links = [link(n, f"commands/{n}.md") for n in dict.fromkeys(names) if n in SHORT_HELP]
    return f"More: {', '.join(links)}." if links else ""


def _from_tour(start: str) -> str:
    ask, rest = _by_its_beginning(start)
    return blocks(f"## {ask.rstrip(',:')}", sentence(rest.strip()), _more(rest))


def _own(question: dict[str, str]) -> str:
    answer = answered(question["command"])
    return blocks(f"## {plain(question['ask'])}", plain(question["told"]), answer, _more(answer))


def _path(topic: dict[str, Any]) -> str:
    return f"how-to/{topic['page']}.md"


def _page(topic: dict[str, Any]) -> str:
    return blocks(
        f"# {plain(topic['title'])}",
        plain(topic["about"]),
        "The shop and the pieces are invented; the answers are what the program prints.",
        *map(_from_tour, topic["tour"]),
        *map(_own, topic.get("questions", ())),
        "Nothing here is a structural value or shows that a piece is safe; local codes and "
        "licensed practice decide.",
    )


def _index() -> str:
    rows = [(link(t["title"], _path(t)), plain(t["about"])) for t in topics()]
    rows.append((link("Pictures", "how-to/pictures.md"), "Every picture the program draws."))
    asked = [
        "- " + link(ask, _path(t), _anchor(ask))
        for t in topics()
        for ask in (
            *(_by_its_beginning(s)[0].rstrip(",:") for s in t["tour"]),
            *(q["ask"] for q in t.get("questions", ())),
        )
    ]
    return blocks(
        "# How to",
        f"What makers ask, by topic. For the first ten minutes: {link('start here', 'start.md')}.",
        table(("topic", "what it answers"), rows),
        "## By question",
        "\n".join(asked),
        menu([*map(_path, topics()), "how-to/pictures.md"]),
    )


def _anchor(heading: str) -> str:
    """The name of a heading in a link, as the generator makes it."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-")


def pages() -> Iterator[Page]:
    """The list of questions, and a page a topic."""
    yield Page("how-to/index.md", _index)
    for topic in topics():
        yield Page(_path(topic), lambda topic=topic: _page(topic))  # type: ignore[misc]
