"""Text that others wrote, as a terminal, a table or a picture may show it."""

from __future__ import annotations


def printable(text: str, kept: str = "\n", instead: str = " ") -> str:
    """Text with a space for every character that does not print.

    Such a character steers a terminal, turns the direction of what follows, or is none at all.

    Parameters: text; kept, those of them that stay: the ends of lines; instead, what takes their
    place.
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() or c in kept else instead for c in text)


def printable_json(text: str) -> str:
    """JSON that says the same, with each character that does not print as an escape."""
    if text.isprintable():
        return text
    import json

    return "".join(c if c.isprintable() or c == "\n" else json.dumps(c)[1:-1] for c in text)
