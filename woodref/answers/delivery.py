"""Answer about a piece built in one place that lives in another."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.drying_notes import first_lines, physics_notes
from woodref.answers.method_words import movement_method
from woodref.answers.property_text import UNCHECKED_MARK, marks
from woodref.answers.provenance import based_on, basis_notes, sentence, sentences, spread_notes
from woodref.answers.room_words import THROUGH_THE_RANGE, room_lines
from woodref.answers.shop_words import change_text
from woodref.answers.words import (
    identity,
    likely_text,
    percent_text,
    range_columns,
    range_facts,
    room_facts,
    sold_as,
    wood_facts,
)
from woodref.climate.seasons import MONTH_NAMES, MONTHS
from woodref.drying.delivery import extremes
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.drying.delivery import Delivery
    from woodref.note import Note
    from woodref.reference.woods import Wood

#: A wider width is rarely one board (common practice, no source) [mm].
ONE_BOARD_MM = 305.0


def _month_section(d: Delivery) -> Section:
    return Section.of(
        "months",
        "At the end of each month",
        [
            Column("month", "month"),
            Column("emc", "air", "percent"),
            *range_columns("mean_moisture", "board", "percent"),
            Column("middle_moisture", "its middle", "percent", aside=True),
            *range_columns("change", "width since build", "change"),
        ],
        (
            (MONTHS[m.month - 1], m.emc_pct, *m.mean_pct, m.middle_pct.expected, *m.change_mm)
            for m in d.months
        ),
    )


def _moved(change_mm: float, units: str) -> str:
    """'13/32 in wider'."""
    word = "wider" if change_mm >= 0.0 else "narrower"
    return f"{change_text(change_mm, units)} {word}"


def width_marks(d: Delivery) -> str:
    """The marks of a width after delivery: the lag is recalled, the movement perhaps estimated."""
    return marks(*d.movement.basis.values, besides=UNCHECKED_MARK)


def delivery_answer(
    wood: Wood, d: Delivery, lives: Room, arrives: str, built_notes: Sequence[Note], units: str
) -> Answer:
    """What a piece does after delivery: the extremes first, then month by month.

    Parameters: wood; d; lives, the room; arrives, name of the month it arrives at the beginning
    of; built_notes on the place of the build; units 'us' or 'si'.
    """
    size = KINDS["size"].text
    low, high = extremes(d.months)
    year = d.year
    first = (
        f"{sentence(wood.common_name)} {size(d.size_mm, units)} wide: in the first year "
        f"{_moved(high.change_mm.expected, units)} than built by the end of "
        f"{MONTH_NAMES[high.month - 1]}, {_moved(low.change_mm.expected, units)} by the end of "
        f"{MONTH_NAMES[low.month - 1]}."
    )
    third = (
        f"It is {size(d.board.thickness_mm, units)} thick, {d.finish.label}, built at "
        f"{percent_text(d.built_pct)}, and lives in {lives.label} from the beginning of {arrives}."
    )
    second = (
        f"In the years after allow {likely_text(d.swing_mm, 'change', units, width_marks(d))} of "
        f"movement over the year: {_moved(d.narrowest_mm.expected, units)} to "
        f"{_moved(d.widest_mm.expected, units)} than built."
    )
    moved = d.movement
    used = (moved.basis.tangential, moved.basis.radial)
    return Answer(
        headline=[first, second, third, *first_lines([d.finish]), *room_lines(lives.season)],
        names=sold_as(wood),
        facts=[
            *wood_facts(wood),
            (Column("width", "", "size"), d.size_mm),
            (Column("thickness", "", "size"), d.board.thickness_mm),
            (Column("basic_specific_gravity", "", "ratio"), d.board.gravity),
            (Column("finish", ""), d.finish.label),
            (Column("build_moisture", "", "percent"), d.built_pct),
            *room_facts(lives),
            (Column("arrival_month", ""), arrives),
            *range_facts("narrowest_change", "change", d.narrowest_mm),
            *range_facts("widest_change", "change", d.widest_mm),
            *range_facts("swing", "change", d.swing_mm),
            *range_facts("year_share", "share", year.mean_share.scaled(100.0)),
        ],
        sections=[_month_section(d), based_on((*used, *d.board.density.values[:1]))],
        notes=[
            *identity(wood),
            f"Of the year's swing of the air ({year.swing_pct:.1f} %) "
            f"{100.0 * year.mean_share.expected:.0f} % reach the mean of the board, as far as the "
            f"lag is known {100.0 * year.mean_share.low:.0f} to "
            f"{100.0 * year.mean_share.high:.0f} %.",
            "The range of the swing is what boards differ by; that of a width in a month joins it "
            "and what is not known of the lag.",
            *(
                ["The width is taken as one board; a panel is its staves, give --boards."]
                if d.boards == 1 and d.size_mm > ONE_BOARD_MM
                else []
            ),
            *sentences(built_notes, units),
            *sentences(moved.notes, units),
            *sentences((THROUGH_THE_RANGE, *lives.notes), units),
            *physics_notes(d.board, [d.finish], units),
            f"Width computed from {movement_method(moved.basis)}.",
            *basis_notes(used),
            *spread_notes(used),
        ],
    )
