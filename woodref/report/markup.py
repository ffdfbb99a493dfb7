"""HTML built of elements: text is escaped by being put into one, and in no other way."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

from woodref.printable import printable

#: Elements without an end tag.
_VOID = frozenset({"meta", "link", "br", "hr", "col"})
_SPACE = re.compile(r"\s+")


class Markup(str):
    """HTML, as element and joined make it; all other text is escaped where it is put in."""

    __slots__ = ()


def cleaned(text: str) -> str:
    """Text in one line, each character that does not print replaced by one that says so."""
    return printable(_SPACE.sub(" ", text), "", "\N{REPLACEMENT CHARACTER}")


def escaped(text: str) -> Markup:
    """Text as HTML; what is HTML already stays as it is."""
    return text if isinstance(text, Markup) else Markup(escape(cleaned(text)))


def joined(parts: Iterable[str], between: str = "\n") -> Markup:
    """Pieces of HTML or text, one after the other."""
    return Markup(between.join(escaped(p) for p in parts if p))


def element(tag: str, *children: str, **attributes: str) -> Markup:
    """An element with its attributes and what is in it.

    Parameters: tag, its name; children, text to be escaped or Markup; attributes, underscores
    standing for hyphens and one at the end being dropped, as in ``class_``; one without a value
    is left out.
    """
    given = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(cleaned(value))}"'
        for key, value in attributes.items()
        if value
    )
    if tag in _VOID:
        return Markup(f"<{tag}{given}>")
    inside = "".join(escaped(child) for child in children)
    return Markup(f"<{tag}{given}>{inside}</{tag}>")


def name(text: str) -> Markup:
    """A name that a person gave, which may run the other way than the text around it."""
    return element("bdi", text)


def unbroken(text: str) -> Markup:
    """Text that stays in one line, as a size with a fraction: 34-7/8 in."""
    return element("span", text, class_="one-line")


def bullets(lines: Iterable[str], class_: str = "") -> Markup:
    """A list, each line once; nothing where there are none."""
    items = [element("li", line) for line in dict.fromkeys(lines)]
    return element("ul", joined(items), class_=class_) if items else Markup()


def paragraphs(lines: Iterable[str], class_: str = "") -> Markup:
    """A paragraph for each line."""
    return joined(element("p", line, class_=class_) for line in lines if line)
