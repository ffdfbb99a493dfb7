"""The marks in a picture of a movement, and the words below it that say what they mean."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.answers.property_text import marks
from woodref.answers.shop_words import legend
from woodref.board.movement_basis import movement_basis
from woodref.reference.woods import Wood


def mark_of_movement(wood: Wood) -> str:
    """The marks of a movement of the wood, '' where what it rests on was read in print."""
    return marks(*movement_basis(wood).values)


def with_legend(note: str, used: Iterable[str]) -> str:
    """The words below a picture, then what the marks used in it mean."""
    return " ".join([note, *legend(used)]).strip()
