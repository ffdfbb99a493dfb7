"""The answer of the command batch: what became of a catalog."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.reference.bases import ESTIMATED, UNCHECKED, in_words
from woodref.units import LB_TO_KG, M3_PER_FT3, fixed

if TYPE_CHECKING:
    from woodref.catalog.run import BatchSummary, Reason

_REASONS = (
    Column("row_count", "rows", "count"),
    Column("column", "column"),
    Column("reject_reason", "why"),
    Column("first_row", "first row", "count"),
)
#: The totals as facts: the name of a column of answers, the key and kind, and a unit in SI.
_TOTALS = {
    "total_mass_lb": ("mass", "mass", LB_TO_KG),
    "total_mass_kg": ("mass", "mass", 1.0),
    "board_feet": ("board_feet", "tenths", 1.0),
    "volume_m3": ("volume_m3", "ratio", 1.0),
    "volume_ft3": ("volume_m3", "ratio", M3_PER_FT3),
    "cost": ("cost", "money", 1.0),
}
_LONGEST = 46


def batch_answer(summary: BatchSummary, units: str) -> Answer:
    """What became of a catalog: rows, totals, what was rejected and what has no figure.

    Parameters: summary; units 'us' or 'si'.
    """
    s = summary
    lead = f"{_rows(s.written)} computed of {fixed(s.rows, 0)}, {fixed(s.rejected, 0)} rejected."
    answers = Answer(
        headline=[lead, *_totals(s)],
        facts=[
            (Column("rows_read", "", "count"), s.rows),
            (Column("rows_written", "", "count"), s.written),
            (Column("rows_rejected", "", "count"), s.rejected),
            *((Column(key, "", kind), value) for key, kind, value in _facts(s)),
            (Column("output_file", ""), str(s.output) if s.output else ""),
            (Column("rejects_file", ""), str(s.rejects) if s.rejects else ""),
        ],
        sections=[
            Section("reasons", "Rejected", _REASONS, [_reason(r) for r in s.reasons]),
            Section(
                "unanswered",
                "No figure",
                (Column("answer_wanted", "answer"), Column("row_count", "rows", "count")),
                [
                    {"answer_wanted": w.replace("_", " "), "row_count": n}
                    for w, n in s.unanswered.items()
                ],
            ),
            Section(
                "rows_by_basis",
                "",
                (Column("basis", ""), Column("row_count", "", "count")),
                [{"basis": b, "row_count": n} for b, n in s.bases.items()],
            ),
        ],
        notes=_notes(s),
        main="reasons",
    )
    answers.screen = _screen(answers, s)
    return answers


def _rows(count: int) -> str:
    return f"{fixed(count, 0)} {'row' if count == 1 else 'rows'}"


def _facts(s: BatchSummary) -> list[tuple[str, str, float | None]]:
    """The totals by key and kind in SI, None for one that was not asked for."""
    totals: dict[str, tuple[str, float | None]] = {}
    for name, (key, kind, factor) in _TOTALS.items():
        if name in s.totals:
            totals[key] = kind, s.totals[name] * factor
        else:
            totals.setdefault(key, (kind, None))
    return [(key, *kind_and_value) for key, kind_and_value in totals.items()]


def _totals(s: BatchSummary) -> list[str]:
    """The totals in one line, in the units of the columns of the answers; none without any."""
    told = []
    for name in (n for n in _TOTALS if n in s.totals):
        value = s.totals[name]
        if name in ("total_mass_lb", "total_mass_kg"):
            told.append(f"{fixed(value, 0)} {name[-2:]}")
        elif name == "board_feet":
            told.append(f"{fixed(value, 0)} board feet")
        elif name in ("volume_m3", "volume_ft3"):
            told.append(f"{fixed(value, 1)} {name.removeprefix('volume_')}")
        elif name == "cost":
            told.append(f"{fixed(value, 2)} {s.currency}".strip() + " of lumber, waste not counted")
    return [f"In all {', '.join(told)}."] if told else []


def _reason(r: Reason) -> dict[str, object]:
    return {
        "row_count": r.rows,
        "column": r.column,
        "reject_reason": r.reason,
        "first_row": r.first_row,
    }


def _notes(s: BatchSummary) -> list[str]:
    notes: list[str] = []
    if s.more_reasons:
        more = "reason is" if s.more_reasons == 1 else "reasons are"
        notes.append(f"{s.more_reasons} more {more} in the file of rejected rows.")
    weak = {b: n for b, n in s.bases.items() if b in (ESTIMATED, UNCHECKED)}
    for basis, count in weak.items():
        notes.append(
            Heed(f"{_rows(count)} rest on {in_words(basis)} figures: see the columns ..._basis.")
        )
    if s.output:
        notes.append(f"Written: {s.output}")
    if s.rejects:
        notes.append(f"Rejected rows, each with its reason: {s.rejects}")
    notes.append("Board feet and cost are net: no waste is added.")
    return notes


def _screen(whole: Answer, s: BatchSummary) -> Answer:
    """The answer on one screen: reasons cut to a line each."""
    reasons = [
        {**_reason(r), "reject_reason": _short(r.reason), "column": _short(r.column)}
        for r in s.reasons
    ]
    return Answer(
        headline=whole.headline,
        sections=[
            whole.sections[0]._replace(rows=reasons),
            *(x for x in whole.sections[1:2] if x.rows),
        ]
        if reasons
        else [x for x in whole.sections[1:2] if x.rows],
        notes=list(whole.notes),
    )


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."
