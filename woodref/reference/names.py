"""Fold a name for look-up: case, accents, hyphens, word order and plurals do not matter."""

from __future__ import annotations

import re
import unicodedata

_PARENTHESIS = re.compile(r"\([^)]*\)")
_NOT_WORD = re.compile(r"[^a-z0-9]+")


def _singular(word: str) -> str:
    """The singular of an English plural; Latin endings stay."""
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    return word[:-1]


def fold(name: str) -> str:
    """The look-up key of a name: 'Oak, White' and 'white-oaks' both give 'white oak'.

    Parameters: name as typed. Returns: words in natural order, lower case, without
    accents, punctuation, parentheses or plural of the last word.
    """
    text = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    text = _PARENTHESIS.sub(" ", text)
    head, comma, tail = text.partition(",")
    if comma and "," not in tail:
        text = f"{tail} {head}"
    text = text.replace("'", "")
    words = _NOT_WORD.sub(" ", text).split()
    if words:
        words[-1] = _singular(words[-1])
    return " ".join(words)


def natural_order(name: str) -> str:
    """'Oak, white' as 'white oak'; a name without a comma is returned as it is."""
    head, comma, tail = name.partition(",")
    return f"{tail.strip()} {head.strip().lower()}" if comma and "," not in tail else name.strip()
