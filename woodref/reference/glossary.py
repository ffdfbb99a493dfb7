"""The glossary: terms of wood and of the shop in plain words, from woodref/glossary/words.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from woodref.errors import InputError
from woodref.record import record
from woodref.reference.names import fold


@record
class Word:
    """A term, the other names it goes by, and what it means.

    ``command`` of woodref that computes with it, ``source`` of a number in the meaning; '' for
    none. The wording is our own.
    """

    term: str
    meaning: str
    aliases: tuple[str, ...] = ()
    command: str = ""
    source: str = ""

    @property
    def headed(self) -> str:
        """'Moisture content (MC)', with its first other name."""
        other = f" ({self.aliases[0]})" if self.aliases else ""
        return f"{self.term[0].upper()}{self.term[1:]}{other}"


@cache
def glossary() -> tuple[Word, ...]:
    """All terms, in the order of the alphabet."""
    text = (files("woodref") / "glossary" / "words.toml").read_text(encoding="utf-8")
    return tuple(
        Word(**(row | {"aliases": tuple(row.get("aliases", ()))}))
        for row in tomllib.loads(text)["word"]
    )


def _key(name: str) -> str:
    """The look-up key of a term; a fraction such as 4/4 is one by itself."""
    return name.strip() if "/" in name else fold(name)


@cache
def _by_name() -> Mapping[str, Word]:
    words = {_key(word.term): word for word in glossary()}
    return {_key(a): word for word in glossary() for a in word.aliases} | words


def word_of(name: str) -> Word:
    """The term of a name, in any case, with hyphens or without, or of an alias.

    Raises: InputError with the nearest terms for another.
    """
    known = _by_name()
    found = known.get(_key(name))
    if found is None:
        near = ", ".join(_near(name))
        raise InputError(
            f"the glossary has no '{name}'; "
            + (f"nearest: {near}" if near else "woodref words lists its terms")
        )
    return found


def _near(name: str) -> list[str]:
    """Terms that hold the words of a name, else those most like it; each once."""
    from woodref.files import closest_few

    key, known = _key(name), _by_name()
    holding = [word.term for at, word in known.items() if key and key in at]
    return list(dict.fromkeys(holding or [known[at].term for at in closest_few(name, known, 3)]))
