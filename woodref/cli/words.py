"""Words and numbers that several answers share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.cli.provenance import sentence
from woodref.cli.render import Column

if TYPE_CHECKING:
    from woodref.reference.woods import Wood


def percent_text(value: float) -> str:
    """'8 %', '8.5 %'."""
    return f"{value:.1f}".removesuffix(".0") + " %"


def cut_words(cut: str) -> str:
    """'flat sawn', or 'rings at 30 degrees'."""
    return f"{cut} sawn" if cut.isalpha() else f"rings at {cut} degrees"


def identity(wood: Wood) -> list[str]:
    """Why the name asked for led to this wood, where that is not plain."""
    return [sentence(wood.note) + "."] if wood.note else []


def range_columns(key: str, head: str, kind: str) -> list[Column]:
    """A value and the ends of its range, under a key, its _low and its _high."""
    return [
        Column(key, head, kind),
        Column(f"{key}_low", "from", kind),
        Column(f"{key}_high", "to", kind),
    ]
