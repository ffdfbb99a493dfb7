"""Answers about the shop's own figures: a table taken in, what is stored, a weighed board."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.method_words import weighed_method
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import shown
from woodref.answers.words import likely_text
from woodref.own.weigh import Heaviness, WeighedBoard
from woodref.reference.properties import PROPERTIES

if TYPE_CHECKING:
    from pathlib import Path

    from woodref.own.intake import Intake

_VERDICTS = {
    Heaviness.HEAVY: "heavy for its kind",
    Heaviness.USUAL: "usual for its kind",
    Heaviness.LIGHT: "light for its kind",
    Heaviness.UNKNOWN: "the tables hold no density to set it against",
}


def intake_answer(intake: Intake) -> Answer:
    """What became of a table: how many rows are kept, and where the others stand."""
    kept, bad, rejects = intake.kept, len(intake.bad), intake.rejects
    lead = f"{kept:,} of {intake.rows:,} rows kept as {intake.batch}."
    notes = [f"woodref own remove {intake.batch} takes them out again."]
    if rejects:
        lead += f" The other {bad:,} stand with their reasons in {rejects}."
        notes.append(f"Correct the rows in {rejects} and add that file in the same way.")
    return Answer(
        headline=[lead],
        facts=[
            (Column("batch", ""), intake.batch),
            (Column("rows_read", "", "count"), intake.rows),
            (Column("rows_kept", "", "count"), kept),
            (Column("rows_rejected", "", "count"), bad),
            (Column("rejects_file", ""), str(rejects or "")),
        ],
        notes=notes,
    )


def stored_answer(batches: Sequence[dict[str, Any]], folder: Path) -> Answer:
    """What is stored, table by table.

    Parameters: batches, of woodref.own.storage.every_batch; folder they lie in.
    """
    total = sum(int(b["rows_kept"]) for b in batches)
    lead = (
        f"{total:,} figures of your own in {len(batches)} tables."
        if batches
        else "Nothing of your own is stored; woodref own add takes a table in."
    )
    columns = [
        Column("batch", "id"),
        Column("table_kind", "kind"),
        Column("rows_kept", "rows", "count"),
        Column("table_origin", "origin"),
        Column("added", "added"),
        Column("file", "from"),
    ]
    return Answer(
        headline=[lead],
        sections=[Section("tables", "", columns, batches)],
        notes=[f"They lie in {folder}."],
    )


def removed_line(batch: str, rows: int) -> str:
    """How many rows of a batch were taken out."""
    return f"{rows:,} row{'' if rows == 1 else 's'} of {batch} taken out."


def weighed_answer(board: WeighedBoard, batch: str, units: str) -> Answer:
    """Whether a weighed board is heavy for its kind.

    Parameters: board; batch it was kept as, '' where it was not; units 'us' or 'si'.
    """
    published = board.published
    verdict = _VERDICTS[board.heaviness]
    headline = [
        f"{sentence(board.wood.common_name)}, {shown('density', board.density_kg_m3, units)} at "
        f"{board.moisture_pct:g} %: {verdict}."
    ]
    likely = published.likely_kg_m3 if published else None
    if likely and board.lighter_share is not None:
        usual = likely_text(likely, "density", units)
        headline.append(f"{_rank(board.lighter_share)}; usual is {usual}.")
    if batch:
        headline.append(f"Kept as {batch}; it goes before the printed figure from now on.")
    return Answer(
        headline=headline,
        facts=[
            (Column("species_id", ""), board.wood.species_id),
            (Column("density", "", "density"), board.density_kg_m3),
            (Column("basic_specific_gravity", "", "ratio"), board.basic_specific_gravity),
            (Column("published_density", "", "density"), likely and likely.expected),
            (Column("published_density_low", "", "density"), likely and likely.low),
            (Column("published_density_high", "", "density"), likely and likely.high),
            (Column("heavier_than_share", "", "ratio"), board.lighter_share),
            (Column("beside_published", ""), verdict),
            (Column("batch", ""), batch),
        ],
        notes=_weighed_notes(board),
    )


def _rank(lighter_share: float) -> str:
    """'It is heavier than 86 of 100 boards'; no table tells 99.7 of 100 from all."""
    count = round(100.0 * lighter_share)
    if count in (0, 100):
        return f"It is {'lighter' if count == 0 else 'heavier'} than nearly every board"
    return f"It is heavier than {count} of 100 boards"


def _weighed_notes(board: WeighedBoard) -> list[str]:
    notes = [
        f"Computed from {weighed_method(board)}.",
        "Sizes and weight are those at the stated moisture content; a scale and a meter good to "
        "1 % each leave about 2 % of doubt.",
    ]
    if board.published is not None:
        v = board.published.values[0]
        notes += [
            f"The tables: {PROPERTIES[v.property_id].label} {v.printed.removesuffix(' 1')}, "
            f"{v.source} [{v.basis}].",
            "The share of lighter boards is that of a normal distribution with the published "
            "coefficient of variation.",
        ]
    return notes
