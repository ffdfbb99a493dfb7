"""How a wood looks, works, is used and is stocked, in short lines and as tables."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import mark_of
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.look_words import LOOK_CELLS
from woodref.reference.looks import Look

#: What each cell is called.
LABELS: dict[str, str] = {name: name.replace("_", " ") for name in LOOK_CELLS} | {
    "heart_sap_contrast": "contrast of heartwood and sapwood",
    "sold_as_hue": "hue as sold",
    "sold_as_lightness": "lightness as sold",
    "oily_or_resinous": "oil or resin",
    "dries": "drying",
}
#: The most uses told in a line; programs get all of them.
_MOST_USES = 5


class _Part(NamedTuple):
    """A few words of a line, and how they are known."""

    text: str
    basis: str


def _lines(lead: str, parts: Sequence[_Part], more: int = 0) -> list[str]:
    """The parts as a line; none where there are none.

    Parameters: lead; parts; more, how many are not told here.
    """
    if not parts:
        return []
    told = ", ".join(part.text + mark_of(part.basis) for part in parts)
    rest = f" and {more} more" if more else ""
    return [f"{lead}: {told}{rest}."]


def _words(look: Look, sayings: dict[str, str], silent: Sequence[str] = ()) -> list[_Part]:
    """What is said of cells that are filled: 'fine texture'; some values go without saying."""
    return [
        _Part(text.format(look.cells[name].value), look.cells[name].basis)
        for name, text in sayings.items()
        if name in look.cells and look.cells[name].value not in silent
    ]


def look_lines(look: Look | None) -> list[str]:
    """Look, structure, working, uses and stock, a line each; none where nothing is known."""
    if look is None:
        return []
    color = {
        "sold_as_hue": "{} as mostly sold",
        "heartwood_hue": "{} heartwood",
        "sapwood": "{} sapwood",
        "color_with_age": "{} with light",
    }
    if look.value("sapwood") == "not distinct":
        color["sapwood"] = "sapwood {}"
    structure = {
        "texture": "{} texture",
        "pores": "{}-porous",
        "grain": "{} grain",
        "figure": "figure {}",
    }
    working = {
        "workability": "{}",
        "dries": "drying {}",
        "blunting": "{} blunting of edges",
        "odor": "{} odor",
        "oily_or_resinous": "{}",
    }
    uses = [_Part(use.use, use.basis) for use in look.uses]
    stock = [_Part(f"{c} in {region}", COMMON_PRACTICE) for region, c in look.stock.items()]
    return [
        *_lines("Look (typical, not a test of identity)", _words(look, color)),
        *_lines("Structure", _words(look, structure, ("none",))),
        *_lines("Working", _words(look, working, ("none", "no"))),
        *_lines("Used for", uses[:_MOST_USES], len(uses[_MOST_USES:])),
        *_lines("Yards (common practice)", stock),
    ]


def look_marks(look: Look | None) -> list[str]:
    """The marks of the cells and uses, for the notes that tell what they mean."""
    return [] if look is None else [mark_of(basis) for basis in look.bases]


def look_sections(look: Look | None, for_people: bool) -> list[Section]:
    """The cells with how each is known; for programs the uses and the stock too."""
    if look is None:
        return []
    cells = Section.of(
        "look_cells",
        "Look and working, typical of the wood",
        [
            Column("characteristic", "what" if for_people else ""),
            Column("look_value", "is" if for_people else ""),
            Column("basis", "basis" if for_people else ""),
        ],
        [
            (LABELS[name] if for_people else name, cell.value, cell.basis)
            for name, cell in look.cells.items()
        ],
    )
    if for_people:
        return [cells]
    return [
        cells,
        Section.of(
            "used_for",
            "",
            [Column("use", ""), Column("basis", "")],
            [(use.use, use.basis) for use in look.uses],
        ),
        Section.of(
            "stocked",
            "",
            [Column("region", ""), Column("stock_class", ""), Column("basis", "")],
            [(region, c, COMMON_PRACTICE) for region, c in look.stock.items()],
        ),
    ]


def look_notes(look: Look | None) -> list[str]:
    """Where the cells that were read stand, and what is ours."""
    if look is None:
        return []
    read = f"read in {look.source}" if look.source else "nothing of it was read in print"
    unchecked = "; cells marked unchecked are recalled" if look.unchecked else ""
    return [
        f"Look, working and uses: {read}{unchecked}; lightness, and hue as sold, are our judgment, "
        "and what yards stock is common practice.",
        *([f"{look.note[:1].upper()}{look.note[1:]}."] if look.note else []),
    ]
