"""A remark that goes with a result: decisions go by its code and basis, people read its text."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple


class Note(NamedTuple):
    """What is assumed, left out or particular about a result.

    ``code`` names the remark for programs ('load-near-breaking'), ``text`` says it without a
    capital or a final stop, ``basis`` how surely it is known where that is not print: a word of
    woodref.reference.bases, '' where nothing needs to be said. ``text_us`` says a text that has
    quantities in US units, '' where the text has none.
    """

    code: str
    text: str
    basis: str = ""
    text_us: str = ""

    @classmethod
    def told(cls, code: str, text: Callable[[str], str], basis: str = "") -> Note:
        """A remark with quantities; text says it in the units 'us' or 'si'."""
        return cls(code, text("si"), basis, text("us"))

    def headed(self, head: str) -> Note:
        """The same remark behind a head, such as the name of the part it is of."""
        text_us = self.text_us and head + self.text_us
        return self._replace(text=head + self.text, text_us=text_us)

    def said(self, units: str) -> str:
        """The text in the units 'us' or 'si'."""
        return (units == "us" and self.text_us) or self.text
