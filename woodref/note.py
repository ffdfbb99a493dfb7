"""A remark that goes with a result: decisions go by its code and basis, people read its text."""

from __future__ import annotations

from typing import NamedTuple


class Note(NamedTuple):
    """What is assumed, left out or particular about a result.

    ``code`` names the remark for programs ('load-near-breaking'), ``text`` says it without a
    capital or a final stop, ``basis`` how surely it is known where that is not print: a word of
    woodref.reference.bases, '' where nothing needs to be said.
    """

    code: str
    text: str
    basis: str = ""
