"""Words and numbers that several answers share."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column
from woodref.answers.provenance import sentence, sentences
from woodref.answers.shop_words import change_text, shown
from woodref.quantity import Range

if TYPE_CHECKING:
    from woodref.board.movement import SizeChange
    from woodref.climate.rooms import Room
    from woodref.reference.woods import Wood


#: The kind of the ends of a range, where it is another: without the nearest fraction of an inch.
_END_KINDS = {"change": "change_end"}

#: How the ends of a span are held, by woodref.board.deflection.SUPPORTS.
SUPPORTED: dict[str, str] = {
    "simple": "resting on both ends",
    "fixed": "held fast at both ends",
    "cantilever": "held at one end",
}


def percent_text(value: float) -> str:
    """'8 %', '8.5 %'."""
    return f"{value:.1f}".removesuffix(".0") + " %"


def cut_words(cut: str) -> str:
    """'flat sawn', or 'rings at 30 degrees'."""
    return f"{cut} sawn" if cut.isalpha() else f"rings at {cut} degrees"


def identity(wood: Wood) -> list[str]:
    """Why the name asked for led to this wood, where that is not plain."""
    return [sentence(wood.note) + "."] if wood.note else []


def sold_as(*woods: Wood) -> list[str]:
    """Which names asked for the trade gives to several woods, and how to ask for those."""
    names = dict.fromkeys(w.trade_name for w in woods if w.trade_name)
    return [
        f'Yards sell {n.woods} species as {n.name}; for their mean: "{n.group}".' for n in names
    ]


def wood_facts(wood: Wood) -> list[tuple[Column, Any]]:
    """The two names of a wood for programs."""
    return [
        (Column("wood", ""), wood.common_name),
        (Column("botanical_name", ""), wood.botanical_name),
    ]


def range_columns(key: str, head: str, kind: str, low: str = "from") -> list[Column]:
    """A value and the ends of its range, under a key, its _low and its _high."""
    end = _END_KINDS.get(kind, kind)
    return [
        Column(key, head, kind),
        Column(f"{key}_low", low, end),
        Column(f"{key}_high", "to", end),
    ]


def likely_columns(key: str, head: str, kind: str) -> list[Column]:
    """As range_columns, the range called likely."""
    return range_columns(key, head, kind, "likely from")


def range_facts(key: str, kind: str, value: Range | None) -> list[tuple[Column, Any]]:
    """The cells of range_columns as single values for programs, null where not known."""
    return list(zip(range_columns(key, "", kind), value or (None,) * 3, strict=True))


def range_row(key: str, value: Range | None, factor: float = 1.0) -> dict[str, float]:
    """The cells of range_columns, none where not known; factor 100 turns shares into percent."""
    if value is None:
        return {}
    likely, low, high = (factor * v for v in value)
    return {key: likely, f"{key}_low": low, f"{key}_high": high}


def listed(parts: Sequence[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def room_facts(room: Room | None) -> list[tuple[Column, Any]]:
    """The town and the kind of room for programs, null where there is none."""
    return [
        (Column("place", ""), room.place.label if room else None),
        (Column("setting", ""), room.season.setting.name if room else None),
    ]


def room_notes(room: Room | None, units: str) -> list[str]:
    """What is to be said of a room, nothing where there is none."""
    from woodref.climate.rooms import LAG

    return sentences((*room.notes, LAG), units) if room else []


def likely_text(likely: Range, kind: str, units: str, mark: str = "") -> str:
    """'3/32 in* (1/16 to 1/8)': as a shop reads it; ``mark`` stands behind the first.

    Ends that read alike, as where no change is measured, are not told.
    """
    ends = sorted((likely.low, likely.high), key=abs)
    low, high = (shown(kind, x, units, with_unit=False) for x in ends)
    told = f"{shown(kind, likely.expected, units)}{mark}"
    return told if low == high else f"{told} ({low} to {high})"


def swing_text(m: SizeChange, units: str) -> str:
    """'1/4 in (3/16 to 5/16)': how much a size changes, whichever way."""
    return likely_text(m.likely_change_mm.unsigned, "change", units)


def way_text(change_mm: float, units: str) -> str:
    """'swells 1/4 in', 'shrinks under 1/64 in', 'stays as it is'."""
    if not change_mm:
        return "stays as it is"
    return f"{'swells' if change_mm > 0.0 else 'shrinks'} {change_text(change_mm, units)}"
