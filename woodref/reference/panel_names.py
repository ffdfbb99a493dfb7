"""The words a shop has for panels: plywood, MDF and their kin."""

from __future__ import annotations

PLYWOOD = "plywood"
#: Panels by the words a shop has for them, as print names them.
PANELS: dict[str, str] = {
    PLYWOOD: "plywood",
    "MDF": "medium-density fiberboard",
    "particleboard": "particleboard",
    "hardboard": "hardboard",
    "OSB": "oriented strandboard",
}


def panel_called(text: str) -> str | None:
    """The panel that goes by a word of PANELS or by its printed name; None where none does."""
    word = text.strip().lower()
    for shop, printed in PANELS.items():
        if word in (shop.lower(), printed):
            return shop
    return None


def panel_of(text: str) -> str | None:
    """The panel that a shop's words for it end in: 'birch plywood' is plywood; else None."""
    return panel_called(text) or panel_called(text[text.rfind(" ") + 1 :])
