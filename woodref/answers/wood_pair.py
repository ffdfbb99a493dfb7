"""What is said of a wood and another in its place: look, hardness, decay, trade control."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import UNCHECKED_MARK, mark_of, marks, value_text

if TYPE_CHECKING:
    from woodref.choose.look_pair import LookPair
    from woodref.choose.wood_pair import Side, WoodPair
    from woodref.reference.looks import Look
    from woodref.reference.woods import Wood

NO_DATA = "no data"
#: Parts of the look that are told, the most telling first.
_MOST_PARTS = 3


def color_words(look: Look | None) -> str:
    """'grayish brown, flecked rays': the hue as the wood reaches the maker, and its figure."""
    if look is None:
        return NO_DATA
    hue, figure = look.seen["hue"], look.cells.get("figure")
    words = f"{hue.value}{mark_of(hue.basis)}"
    if figure is None or figure.value == "none":
        return words
    return f"{words}, {figure.value}{mark_of(figure.basis)}"


def look_words(pair: LookPair) -> str:
    """'related*: color, figure': how near, and in what they differ most; 'close'."""
    if pair.band is None:
        return NO_DATA
    mark = UNCHECKED_MARK if pair.unchecked else ""
    told = ", ".join(pair.differs[:_MOST_PARTS])
    return f"{pair.band}{mark}{': ' if told else ''}{told}"


def hardness_words(wood: Wood, units: str) -> str:
    """'1,360 lbf', with its mark."""
    value = wood.known("side_hardness")
    return NO_DATA if value is None else value_text(value, units) + marks(value)


def decay_words(side: Side) -> str:
    """'resistant', with a mark where the class is recalled."""
    if side.decay is None:
        return NO_DATA
    return " or ".join(side.decay.words) + (UNCHECKED_MARK if side.decay.unchecked else "")


def trade_words(side: Side) -> str:
    """The recorded controls of trade, or that there are none."""
    return "; ".join(side.controls) or "none on record"


def printed_notes(pair: WoodPair) -> list[str]:
    """What print says of the two being alike, with its page."""
    return [
        f"Alike in print: {r.wood}, {r.like} ({r.compares}): {r.edition}, p. {r.page}"
        f"{mark_of(r.basis)}."
        for r in pair.look.printed
    ]


def pair_section(pairs: list[tuple[WoodPair, tuple[str, ...]]]) -> Section:
    """The woods that give way and those in their place, for programs.

    Parameters: pairs, each with the parts that change wood, none where no piece is asked about.
    """
    rows: list[dict[str, Any]] = []
    for pair, parts in pairs:
        one, two = (s.wood.known("side_hardness") for s in (pair.first, pair.other))
        rows.append(
            {
                "wood_before": pair.first.wood.common_name,
                "wood": pair.other.wood.common_name,
                "species_id": pair.other.wood.species_id,
                "parts_changed": list(parts),
                "look_band": pair.look.band,
                "look_differs": list(pair.look.differs),
                "printed_alike": [f"{r.edition}, p. {r.page}" for r in pair.look.printed],
                "side_hardness_before": one.value if one else None,
                "side_hardness": two.value if two else None,
                "side_hardness_basis": two.basis if two else None,
                "decay_class_before": " or ".join(pair.first.decay.words)
                if pair.first.decay
                else None,
                "decay_class": " or ".join(pair.other.decay.words) if pair.other.decay else None,
                "trade_control_before": "; ".join(pair.first.controls) or None,
                "trade_control": "; ".join(pair.other.controls) or None,
            }
        )
    kinds = dict.fromkeys(("side_hardness_before", "side_hardness"), "force")
    names = list(rows[0]) if rows else ["wood"]
    return Section("woods_changed", "", [Column(n, "", kinds.get(n, "")) for n in names], rows)
