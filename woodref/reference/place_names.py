"""Fold the name of a place for look-up: case, accents, hyphens and 'St.' do not matter."""

from __future__ import annotations

import re
import unicodedata

_NOT_WORD = re.compile(r"[^a-z0-9]+")
#: Letters that do not come apart into a plain letter and an accent.
_LETTERS = str.maketrans({"ø": "o", "đ": "d", "ł": "l", "ı": "i", "ß": "ss", "æ": "ae", "œ": "oe"})
_WORDS = {"st": "saint", "ste": "sainte", "ft": "fort", "mt": "mount"}
#: What people write for a country, folded, and its name in the table.
_COUNTRIES = {
    "usa": "united states",
    "us": "united states",
    "america": "united states",
    "united states of america": "united states",
    "uk": "united kingdom",
    "great britain": "united kingdom",
    "england": "united kingdom",
    "northern ireland": "united kingdom",
    "holland": "netherlands",
    "czechia": "czech republic",
    "dc": "district of columbia",
    "d c": "district of columbia",
}


def fold_place(name: str) -> str:
    """The look-up key of a place: 'Sault Ste. Marie' gives 'sault sainte marie'."""
    plain = unicodedata.normalize("NFKD", name.lower().translate(_LETTERS))
    text = plain.encode("ascii", "ignore").decode().replace("'", "")
    return " ".join(_WORDS.get(w, w) for w in _NOT_WORD.sub(" ", text).split())


def fold_region(name: str) -> str:
    """The look-up key of a state, province or country: 'USA' gives 'united states'."""
    key = fold_place(name)
    return _COUNTRIES.get(key, key)
