"""Answers about a board that lags behind the air, and the list of finishes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from woodref.answers.provenance import based_on, basis_notes, sentence, spread_notes
from woodref.answers.render import Answer, Column, Section
from woodref.answers.words import identity, percent_text, range_columns
from woodref.drying.lag import (
    CAUTION,
    RANGE_RULE,
    RELATION,
    DryingBoard,
    Finish,
    LagStep,
    LagYear,
    lag_step,
    lag_year,
    width_change,
)
from woodref.quantity import Range
from woodref.reference.finishes import FinishRow, weakest
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.reference.woods import Wood

#: Days of the course that is shown.
COURSE_DAYS = (7, 14, 30, 61, 91, 182)
RECALLED = "[memory] rests on a recalled relation; the ranges below are part of the answer."
_RECALLED_FINISH = "[memory] the test of {} is recalled, not seen in print."
ONE_FACE = (
    "Warning: finished on one face only the other takes up and gives off water faster, and the "
    "board warps: finish both faces alike."
)
_SLOWS = "A finish slows movement; it does not change where wood comes to rest."


@dataclass(frozen=True)
class Question:
    """What is asked of a board: its finishes, two seasons, and the year between them."""

    wood: Wood
    board: DryingBoard
    finishes: tuple[Finish, ...]
    from_pct: float
    to_pct: float
    emc_pct: Sequence[float]
    temperature_c: Sequence[float]
    days: float
    room: Room | None
    width_mm: float | None
    ring_angle_deg: float


def range_row(key: str, value: Range, factor: float = 1.0) -> dict[str, float]:
    """The cells of range_columns."""
    likely, low, high = (factor * v for v in value)
    return {key: likely, f"{key}_low": low, f"{key}_high": high}


def share_text(value: Range) -> str:
    """'62 % (44 to 77)'."""
    likely, low, high = (100.0 * v for v in value)
    return f"{likely:.0f} % ({low:.0f} to {high:.0f})"


def finish_notes(finishes: Sequence[Finish]) -> list[str]:
    """Where the resistance of each finish comes from, and how it is known."""
    named = [f for f in finishes if f.name]
    return [
        *(
            f"{f.label}: resistance fitted to the moisture it kept out in the test, "
            f"{'; '.join(f.sources)} [{f.basis}]"
            + ("; its rows carry notes: woodref finishes --format json." if f.noted else ".")
            for f in named
        ),
        *(
            [
                "The test: ponderosa pine sapwood brought from 30 to 90 % relative humidity at "
                "80 F (26.7 C) for 1, 7 and 14 days (FPL-RP-462, 1985); your film may be thicker "
                "or thinner, and a worn one resists less."
            ]
            if named
            else []
        ),
    ]


def physics_notes(board: DryingBoard, finishes: Sequence[Finish]) -> list[str]:
    """The cautions of every answer about lag, and what it is computed from."""
    return [
        f"{sentence(CAUTION)}.",
        f"{sentence(RANGE_RULE)}.",
        *finish_notes(finishes),
        f"{RELATION}.",
        *basis_notes(board.density.values[:1]),
    ]


def first_lines(finishes: Sequence[Finish]) -> list[str]:
    """What must stand above the figures: the recalled relation, and a finish on one face."""
    recalled = [f.label for f in finishes if f.basis == "memory"]
    return [
        *([ONE_FACE] if any(f.one_face for f in finishes) else []),
        RECALLED,
        *([_RECALLED_FINISH.format(_listed(recalled))] if recalled else []),
    ]


def _listed(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _main_section(
    q: Question, steps: Sequence[LagStep], years: Sequence[LagYear], at: int
) -> Section:
    columns = [
        Column("finish", "finish"),
        *range_columns("mean_share", "movement made", "share"),
        Column("middle_share", "", "share"),
        *range_columns("year_share", "of a year's swing", "share"),
        Column("year_middle_share", "in the middle", "share"),
        Column("finish_basis", "test"),
        Column("basis", ""),
    ]
    if q.width_mm is not None:
        columns[-2:-2] = [
            Column("change", "change of width", "change"),
            Column("change_low", "from", "change_end"),
            Column("change_high", "to", "change_end"),
        ]
    rows: list[dict[str, Any]] = []
    for step, year in zip(steps, years, strict=True):
        row: dict[str, Any] = {
            "finish": step.finish.label,
            **range_row("mean_share", step.mean_share[at], 100.0),
            "middle_share": 100.0 * step.middle_share[at].expected,
            **range_row("year_share", year.mean_share, 100.0),
            "year_middle_share": 100.0 * year.middle_share.expected,
            "finish_basis": step.finish.basis,
            "basis": "memory",  # the relation of the diffusion coefficient, whatever the finish
        }
        if q.width_mm is not None:
            reached = Range(
                *(q.from_pct + s * (q.to_pct - q.from_pct) for s in step.mean_share[at])
            )
            moved = width_change(q.wood, q.width_mm, q.from_pct, reached, q.ring_angle_deg)
            row |= range_row("change", moved)
        rows.append(row)
    return Section("finishes", "", columns, rows)


def _course_section(steps: Sequence[LagStep]) -> Section:
    return Section(
        "course",
        "Share of the movement made after days",
        [
            Column("finish", "finish"),
            *(Column(f"after_{d}_days", str(d), "share") for d in COURSE_DAYS),
        ],
        [
            {
                "finish": s.finish.label,
                **{
                    f"after_{d}_days": 100.0 * s.mean_share[s.days.index(d)].expected
                    for d in COURSE_DAYS
                },
            }
            for s in steps
        ],
    )


def _month_section(years: Sequence[LagYear]) -> Section:
    from woodref.climate.seasons import MONTHS

    return Section(
        "months",
        "Moisture content through a year, in the middle of each month",
        [
            Column("finish", "finish"),
            Column("month", "month"),
            Column("emc", "air", "percent"),
            *range_columns("mean", "board", "percent"),
            *range_columns("middle", "its middle", "percent"),
        ],
        [
            {
                "finish": y.finish.label,
                "month": MONTHS[m.month - 1],
                "emc": m.emc_pct,
                **range_row("mean", m.mean_pct),
                **range_row("middle", m.middle_pct),
            }
            for y in years
            for m in y.months
        ],
    )


def lag_answer(q: Question, units: str, monthly: bool) -> Answer:
    """What is left of the movement of a board under its finishes.

    Parameters: q; units 'us' or 'si'; monthly, with the year month by month.
    """
    days = sorted({*map(float, COURSE_DAYS), q.days})
    mean_c = sum(q.temperature_c) / 12.0
    steps = lag_step(q.board, q.finishes, q.from_pct, q.to_pct, days, mean_c)
    years = lag_year(q.board, q.finishes, q.emc_pct, q.temperature_c)
    at = days.index(q.days)
    size = KINDS["size"].text(q.board.thickness_mm, units)
    made = _listed([f"{s.finish.label} {share_text(s.mean_share[at])}" for s in steps])
    swing = _listed([f"{y.finish.label} {share_text(y.mean_share)}" for y in years])
    where = f", {q.room.label}" if q.room else ""
    values = q.board.density.values[:1]
    notes = [_SLOWS]
    if q.width_mm is not None:
        from woodref.board.movement import movement

        moved = movement(q.wood, q.width_mm, q.from_pct, q.to_pct, q.ring_angle_deg)
        values = (*values, moved.basis.tangential, moved.basis.radial)
        notes += [
            f"A full change of the width would be {KINDS['change'].text(moved.change_mm, units)}.",
            *spread_notes(values[1:]),
        ]
    if q.room:
        notes += [f"{sentence(n)}." for n in q.room.notes]
    else:
        notes.append(
            "The year is a cosine between the two moisture contents (our own choice); for that of "
            "a room give --place and --setting."
        )
    return Answer(
        headline=[
            f"{sentence(q.wood.common_name)} {size} thick{where}, after {q.days:g} days of the wet "
            f"season ({percent_text(q.from_pct)} to {percent_text(q.to_pct)}) has made of its "
            f"movement: {made}.",
            f"Of the swing of a whole year reach it: {swing}.",
            *first_lines(q.finishes),
        ],
        facts=[
            (Column("wood", ""), q.wood.common_name),
            (Column("botanical_name", ""), q.wood.botanical_name),
            (Column("thickness", "", "size"), q.board.thickness_mm),
            (Column("basic_specific_gravity", "", "ratio"), q.board.gravity),
            (Column("place", ""), q.room.place.label if q.room else None),
            (Column("setting", ""), q.room.season.setting.name if q.room else None),
            (Column("from_moisture", "", "percent"), q.from_pct),
            (Column("to_moisture", "", "percent"), q.to_pct),
            (Column("days", "", "tenths"), q.days),
            (Column("width", "", "size"), q.width_mm),
        ],
        sections=[
            _main_section(q, steps, years, at),
            _course_section(steps),
            *([_month_section(years)] if monthly else []),
            based_on(values),
        ],
        notes=[*identity(q.wood), *notes, *physics_notes(q.board, q.finishes)],
    )


def finishes_answer(rows: Sequence[FinishRow]) -> Answer:
    """The table of finishes, one row for each number of coats, as printed."""
    days = (1, 7, 14)
    printed = {(r.finish, r.coats, r.days): r for r in rows}
    keys = list(dict.fromkeys((r.finish, r.coats) for r in rows))
    table: list[dict[str, Any]] = []
    for finish, coats in keys:
        own = {d: printed[finish, coats, d] for d in days if (finish, coats, d) in printed}
        table.append(
            {
                "finish": finish,
                "coats": coats,
                **{f"excluded_{d}_days": r.excluded_pct for d, r in own.items()},
                "basis": weakest(r.basis for r in own.values()),
                "source": "; ".join(dict.fromkeys(r.source for r in own.values())),
                "note": "; ".join(dict.fromkeys(r.note for r in own.values() if r.note)),
            }
        )
    names = len({f for f, _ in keys})
    return Answer(
        headline=[
            f"{names} finishes, {len(keys)} with their numbers of coats: the share of the moisture "
            "each kept out of wood brought from dry to damp air.",
            "The higher the figure after 14 days, the slower the wood moves; none stops it.",
        ],
        sections=[
            Section(
                "finishes",
                "",
                [
                    Column("finish", "finish"),
                    Column("coats", "coats", "count"),
                    *(
                        Column(f"excluded_{d}_days", f"{d} day{'s' if d > 1 else ''}", "share")
                        for d in days
                    ),
                    Column("basis", "basis"),
                    Column("source", ""),
                    Column("note", ""),
                ],
                table,
            )
        ],
        notes=[
            "Moisture-excluding effectiveness, 100 (U - C) / U, U and C the moisture unfinished "
            "and finished wood took up: ponderosa pine sapwood, 30 to 90 % relative humidity, 80 F "
            "(26.7 C).",
            *(f"{s}." for s in dict.fromkeys(r.source for r in rows)),
            "[memory] recalled, not seen in print.",
            "What a finish leaves of a board's movement: woodref lag ash --thickness 3/4in "
            '--finish "urethane varnish".',
        ],
    )
