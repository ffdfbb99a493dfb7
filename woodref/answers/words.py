"""Words and numbers that several answers share."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.provenance import sentence
from woodref.answers.render import Column
from woodref.joinery.fit import Verdict
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.board.movement import SizeChange
    from woodref.climate.rooms import Room
    from woodref.quantity import Range
    from woodref.reference.woods import Wood


#: What is said of sizes by how they let the wood move.
VERDICTS: dict[Verdict, str] = {
    Verdict.HOLDS: "holds",
    Verdict.HOLDS_FOR_AVERAGE: "holds for a usual board",
    Verdict.DOES_NOT_HOLD: "does not hold",
    Verdict.SHORT_ENOUGH: "short enough",
    Verdict.TOO_LONG: "too long",
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


def range_columns(key: str, head: str, kind: str) -> list[Column]:
    """A value and the ends of its range, under a key, its _low and its _high."""
    return [
        Column(key, head, kind),
        Column(f"{key}_low", "from", kind),
        Column(f"{key}_high", "to", kind),
    ]


def range_row(key: str, value: Range, factor: float = 1.0) -> dict[str, float]:
    """The cells of range_columns; factor 100 turns shares into percent."""
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


def likely_change(m: SizeChange, units: str) -> str:
    """'likely 0.1 to 0.2 in': the range of a change."""
    ends = sorted((m.likely_change_mm.low, m.likely_change_mm.high), key=abs)
    low, high = (KINDS["change_end"].text(e, units) for e in ends)
    return f"likely {low.rpartition(' ')[0]} to {high}"
