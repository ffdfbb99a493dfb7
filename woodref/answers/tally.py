"""The answer of the command tally: the board feet of a pile."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.units import fixed

if TYPE_CHECKING:
    from woodref.lumber.tally import Lot

_COUNTS = (
    Column("boards", "boards", "count"),
    Column("surface_measure_ft2", "surface measure, ft2", "count"),
    Column("board_feet", "board feet", "tenths"),
    Column("unrounded_board_feet", "without rounding", "tenths"),
    Column("volume_m3", "true volume, m3", "ratio"),
)
_TRUE = "The true volume of the boards: thickness times width times length."
#: What people of a system of units are not told; programs get all of it.
_UNTOLD = {
    "us": ("volume_m3",),
    "si": ("surface_measure_ft2", "board_feet", "unrounded_board_feet"),
}
_RULE = (
    "Board feet are surface measure times thickness in inches, under 4/4 counted as 4/4; surface "
    "measure is width in inches times whole feet of length over 12, to the whole square foot for "
    "each board (NHLA rules; dropping the part of a foot and rounding halves up are common "
    "practice, no source)."
)


def tally_answer(lots: Sequence[Lot], whole: Lot, units: str) -> Answer:
    """A pile by wood and thickness, all of it in the headline.

    Parameters: lots; whole, their total; units 'us' or 'si'.
    """
    counts = whole._asdict()
    told = [c._replace(head="") if c.key in _UNTOLD[units] else c for c in _COUNTS]
    columns = [Column("wood", "wood"), Column("stock", "thickness"), *told]
    rows = [{**lot._asdict(), "wood": lot.species, "stock": lot.thickness} for lot in lots]
    return Answer(
        headline=[_lead(whole, units)],
        facts=[(c._replace(head=""), counts[c.key]) for c in _COUNTS],
        sections=[Section("lots", "", columns, rows)],
        notes=[
            _RULE if units == "us" else _TRUE,
            Heed("A stack of boards is heavy and slides: lift with two, strap the load."),
        ],
    )


def _lead(whole: Lot, units: str) -> str:
    boards = f"{fixed(whole.boards, 0)} {'board' if whole.boards == 1 else 'boards'}"
    feet = f"{fixed(whole.board_feet, 1)} board feet"
    surface = f"surface measure {fixed(whole.surface_measure_ft2, 0)} ft2"
    if units == "si":
        return f"{whole.volume_m3:.3f} m3 in {boards}."
    return f"{feet} in {boards} ({surface})."
