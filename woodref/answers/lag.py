"""The answer about a board that lags behind the air."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section, WholePage
from woodref.answers.drying_notes import first_lines, physics_notes
from woodref.answers.property_text import UNCHECKED_MARK
from woodref.answers.provenance import based_on, sentences, spread_notes
from woodref.answers.room_words import THROUGH_THE_RANGE, room_lines
from woodref.answers.shop_words import change_text
from woodref.answers.words import (
    identity,
    listed,
    percent_text,
    range_columns,
    range_row,
    room_facts,
    sold_as,
    wood_facts,
)
from woodref.drying.board_lag import COURSE_DAYS, BoardLag
from woodref.drying.finish import Finish
from woodref.drying.lag import RELATION, LagStep, LagYear
from woodref.quantity import Range
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.rooms import Room

_SLOWS = "A finish slows movement; it does not change where wood comes to rest."


def _share_text(value: Range) -> str:
    """'62 % (44 to 77)'."""
    likely, low, high = (100.0 * v for v in value)
    return f"{likely:.0f} % ({low:.0f} to {high:.0f})"


def _under(finish: Finish) -> str:
    """'bare', 'under Linseed oil, 3 coats'."""
    return f"under {finish.label}" if finish.name else finish.label


def _main_section(lag: BoardLag) -> Section:
    columns = [
        Column("finish", "finish"),
        *range_columns("mean_share", "movement made", "share"),
        Column("middle_share", "", "share"),
        *range_columns("year_share", "of a year's swing", "share"),
        Column("year_middle_share", "in the middle", "share", aside=True),
        *(range_columns("change", "change of width", "change") if lag.width_changes else []),
        Column("finish_basis", "test", aside=True),
        Column("basis", ""),
    ]
    rows: list[dict[str, Any]] = [
        {
            "finish": finish.label,
            **range_row("mean_share", made, 100.0),
            "middle_share": 100.0 * middle.expected,
            **range_row("year_share", year.mean_share, 100.0),
            "year_middle_share": 100.0 * year.middle_share.expected,
            "finish_basis": finish.basis,
            "basis": RELATION.basis,  # of the diffusion coefficient, whatever the finish
        }
        for finish, made, middle, year in zip(
            lag.finishes, lag.made, lag.made_in_middle, lag.years, strict=True
        )
    ]
    for row, change in zip(rows, lag.width_changes, strict=False):
        row.update(range_row("change", change))
    return Section("finishes", "", columns, rows)


def _course_section(steps: Sequence[LagStep]) -> Section:
    return Section.of(
        "course",
        "Share of the movement made after days",
        [
            Column("finish", "finish"),
            *(Column(f"after_{d}_days", str(d), "share") for d in COURSE_DAYS),
        ],
        (
            (
                s.finish.label,
                *(100.0 * s.mean_share[s.days.index(d)].expected for d in COURSE_DAYS),
            )
            for s in steps
        ),
    )


def _month_section(years: Sequence[LagYear]) -> Section:
    from woodref.climate.seasons import MONTHS

    return Section.of(
        "months",
        "Moisture content through a year, in the middle of each month",
        [
            Column("finish", "finish"),
            Column("month", "month"),
            Column("emc", "air", "percent"),
            *range_columns("mean_moisture", "board", "percent"),
            *range_columns("middle_moisture", "its middle", "percent"),
        ],
        (
            (y.finish.label, MONTHS[m.month - 1], m.emc_pct, *m.mean_pct, *m.middle_pct)
            for y in years
            for m in y.months
        ),
    )


def lag_answer(lag: BoardLag, room: Room | None, units: str, monthly: bool) -> Answer:
    """What is left of the movement of a board under its finishes.

    Parameters: lag; room whose year it is, None where two moisture contents were given; units
    'us' or 'si'; monthly, with the year month by month.
    """
    wood, board = lag.wood, lag.board
    size = KINDS["size"].text(board.thickness_mm, units)
    made = listed(
        [
            f"{100.0 * share.expected:.0f} %{UNCHECKED_MARK}{' of the way' if n == 0 else ''} "
            f"{_under(finish)}"
            for n, (finish, share) in enumerate(zip(lag.finishes, lag.made, strict=True))
        ]
    )
    swing = listed([f"{_under(y.finish)} {_share_text(y.mean_share)}" for y in lag.years])
    where = f": {room.label}" if room else ""
    values = board.density.values[:1]
    notes = [_SLOWS]
    if lag.movement:
        whole = lag.movement
        values = (*values, whole.basis.tangential, whole.basis.radial)
        notes += [
            f"A full change of the width would be {change_text(whole.change_mm, units)}.",
            *spread_notes(values[1:]),
        ]
    if room:
        notes += sentences((THROUGH_THE_RANGE, *room.notes), units)
    else:
        notes.append(
            "The year is a cosine between the two moisture contents (our own choice); for that of "
            "a room give --place and --setting."
        )
    return Answer(
        headline=[
            f"After {lag.days:g} damp days ({percent_text(lag.from_pct)} to "
            f"{percent_text(lag.to_pct)}) {wood.common_name} {size} thick has moved {made}"
            f"{where}.",
            WholePage(f"Over a whole year, of what thin bare wood moves: {swing}."),
            *first_lines(lag.finishes),
            *(room_lines(room.season) if room else ()),
        ],
        names=sold_as(wood),
        facts=[
            *wood_facts(wood),
            (Column("thickness", "", "size"), board.thickness_mm),
            (Column("basic_specific_gravity", "", "ratio"), board.gravity),
            *room_facts(room),
            (Column("from_moisture", "", "percent"), lag.from_pct),
            (Column("to_moisture", "", "percent"), lag.to_pct),
            (Column("wet_season_days", "", "tenths"), lag.days),
            (Column("width", "", "size"), lag.width_mm),
        ],
        sections=[
            _main_section(lag),
            _course_section(lag.steps),
            *([_month_section(lag.years)] if monthly else []),
            based_on(values),
        ],
        notes=[*identity(wood), *notes, *physics_notes(board, lag.finishes, units)],
    )
