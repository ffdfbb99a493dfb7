"""The answer that lists the finishes of the test."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.drying_notes import FILM_TEST_C
from woodref.answers.property_text import FOOTNOTES, UNCHECKED_MARK
from woodref.answers.provenance import sentence
from woodref.answers.screen import brief
from woodref.reference.bases import weakest
from woodref.reference.finishes import FinishRow
from woodref.units import KINDS


def _most_coats(table: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Of each finish the row with the most coats."""
    most: dict[str, dict[str, Any]] = {}
    for row in table:
        if row["finish"] not in most or row["coats"] > most[row["finish"]]["coats"]:
            most[row["finish"]] = row
    return list(most.values())


def finishes_answer(rows: Sequence[FinishRow], units: str) -> Answer:
    """The table of finishes, one row for each number of coats, as printed.

    Parameters: rows; units 'us' or 'si', of the example.
    """
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
    thick = "3/4in" if units == "us" else "20mm"
    example = f'woodref lag ash --thickness {thick} --finish "urethane varnish"'
    best = sorted(
        _most_coats(table), key=lambda row: row.get("excluded_14_days") or 0.0, reverse=True
    )
    columns = [
        Column("finish", "finish"),
        Column("coats", "coats", "count"),
        *(Column(f"excluded_{d}_days", f"{d} day{'s' if d > 1 else ''}", "share") for d in days),
        Column("basis", "basis"),
    ]
    return Answer(
        headline=[
            f"{names} finishes, {len(keys)} with their numbers of coats: the share of the moisture "
            "each kept out of wood brought from dry to damp air.",
            "The higher the figure after 14 days, the slower the wood moves; none stops it.",
        ],
        screen=brief(
            [
                f"{sentence(str(best[0]['finish']))} keeps moisture out best of {names} finishes, "
                f"{best[0]['excluded_14_days']:.0f} % of it after 14 days in damp air; none stops "
                "it.",
            ],
            [Section("finishes", "Moisture kept out, with the most coats tested", columns, best)],
            [f"In a board: {example}."],
        ),
        sections=[
            Section(
                "finishes",
                "",
                [*columns, Column("source", ""), Column("note", "")],
                table,
            )
        ],
        notes=[
            "Moisture-excluding effectiveness, 100 (U - C) / U, U and C the moisture unfinished "
            "and finished wood took up: ponderosa pine sapwood, 30 to 90 % relative humidity, "
            f"{KINDS['temperature'].text(FILM_TEST_C, units)}.",
            *(f"{s}." for s in dict.fromkeys(r.source for r in rows)),
            FOOTNOTES[UNCHECKED_MARK],
            f"What a finish leaves of a board's movement: {example}.",
        ],
    )
