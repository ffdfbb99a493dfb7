"""Woods whose botanical names differ so little that they may be one wood in two spellings."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from itertools import combinations

import pandas as pd
from rapidfuzz.distance import Levenshtein

_SPECIES = re.compile(r"^([A-Z][a-z]+) ([a-z-]{4,})$")
#: Endings that turn with the gender of a genus or the taste of an author.
_ENDING = re.compile(r"(?:iana|anum|ana|anus|ensis|ense|us|um|is|ii|ae|a|e|i)$")
#: Letters that spellings exchange: the first is taken for the others.
_ALIKE = str.maketrans({"y": "i", "k": "c", "j": "i"})
_LONG = 7


@cache
def _stem(epithet: str) -> str:
    """An epithet without its ending, double letters and hyphens."""
    stem = _ENDING.sub("", epithet.replace("-", "").replace("ph", "f").translate(_ALIKE))
    return re.sub(r"(.)\1", r"\1", stem.replace("ae", "e").replace("oe", "e").replace("h", ""))


def near_names(botanical: pd.Series) -> Iterator[tuple[str, str, str]]:
    """Pairs of names that may be one: (name, name, why).

    Two species of one genus whose epithets are a letter apart or have one stem, and the same
    epithet in two genera a letter apart.

    Parameters: botanical names, one species each; others are passed over.
    """
    genera: dict[str, list[str]] = defaultdict(list)
    epithets: dict[str, list[str]] = defaultdict(list)
    for name in sorted(set(botanical)):
        words = _SPECIES.match(name)
        if words:
            genera[words[1]].append(words[2])
            epithets[words[2]].append(words[1])
    for genus, found in genera.items():
        for a, b in combinations(found, 2):
            long = min(len(a), len(b)) >= _LONG
            if _stem(a) == _stem(b) and len(_stem(a)) > 3:
                yield f"{genus} {a}", f"{genus} {b}", "one stem"
            elif long and Levenshtein.distance(a, b, score_cutoff=1) <= 1:
                yield f"{genus} {a}", f"{genus} {b}", "a letter apart"
    for epithet, found in epithets.items():
        for a, b in combinations(found, 2):
            if min(len(a), len(b)) >= 6 and Levenshtein.distance(a, b, score_cutoff=1) <= 1:
                yield f"{a} {epithet}", f"{b} {epithet}", "genera a letter apart"
