"""The tables of an estimate about fixings: travel and verdict, sizes to make, sizes given."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Heed, Section
from woodref.answers.fixing_words import VERDICTS
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import need_text
from woodref.answers.words import range_row

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate


def _way_columns(key: str, head: str) -> list[Column]:
    return [
        Column(key, head, "change"),
        Column(f"{key}_low", "", "change_end"),
        Column(f"{key}_high", "up to", "change_end"),
    ]


def fixing_section(estimate: Estimate) -> Section:
    """How far each fixing must let its part travel, and whether the given sizes let it."""
    rows = []
    for r in estimate.fixings:
        row: dict[str, Any] = {
            "fixing": r.spec.name,
            "part": r.spec.part,
            "fixing_kind": r.spec.kind,
            "fixed_line_distance": r.spec.distance_mm,
            "unknown_reason": r.unknown or None,
        }
        if r.fixing:
            worst = r.fixing.worst
            row |= {
                **range_row("travel_toward", r.fixing.travel.toward),
                **range_row("travel_away", r.fixing.travel.away),
                "verdict": VERDICTS[r.fixing.verdict] if r.fixing.verdict else "nothing given",
                "spare": worst.spare_mm if worst else None,
            }
        rows.append(row)
    columns = [
        Column("fixing", "fixing"),
        Column("part", "part"),
        Column("fixing_kind", ""),
        Column("fixed_line_distance", "from where it is fixed", "size"),
        *_way_columns("travel_toward", "shrinks"),
        *_way_columns("travel_away", "swells"),
        Column("verdict", "given sizes"),
        Column("spare", "room left", "change_end"),
        Column("unknown_reason", ""),
    ]
    return Section("fixings", "Fixings", columns, rows)


def need_section(estimate: Estimate) -> Section:
    """The sizes to make, rounded up to what a shop has."""
    rows = [
        {
            "fixing": r.spec.name,
            "size": need.what,
            "needed": need.size_mm,
            "made": need.made_mm(r.spec.units),
            "made_as": need.how,
        }
        for r in estimate.fixings
        if r.fixing
        for need in r.fixing.needs
    ]
    columns = [
        Column("fixing", "fixing"),
        Column("size", "size"),
        Column("needed", "needed", "change_end"),
        Column("made", "make", "tool"),
        Column("made_as", ""),
    ]
    return Section("sizes_to_make", "Sizes to make at the build", columns, rows)


def check_section(estimate: Estimate, for_people: bool) -> Section:
    """Each size that was given: the room it leaves and the room that is needed.

    For people the ones that fall short alone.
    """
    rows = [
        {
            "fixing": r.spec.name,
            "check": check.what,
            "room": check.room_mm,
            **range_row("needed", check.need),
            "spare": check.spare_mm,
            "verdict": VERDICTS[check.verdict],
        }
        for r in estimate.fixings
        if r.fixing
        for check in r.fixing.checks
        if not (for_people and check.ok)
    ]
    columns = [
        Column("fixing", "fixing"),
        Column("check", "falls short" if for_people else "check"),
        Column("room", "room", "change_end"),
        Column("needed", "needed", "change_end"),
        Column("needed_low", "", "change_end"),
        Column("needed_high", "up to", "change_end"),
        Column("spare", "", "change_end"),
        Column("verdict", ""),
    ]
    return Section("size_checks", "Given sizes that fall short", columns, rows)


def fixing_line(estimate: Estimate, units: str) -> list[str]:
    """The lines of the headline about fixings: which do not hold, and by how much."""
    known = [r for r in estimate.fixings if r.fixing]
    bad = []
    for r in known:
        fixing = r.fixing
        if fixing is None or fixing.holds or fixing.verdict is None or fixing.worst is None:
            continue
        worst, verdict = fixing.worst, VERDICTS[fixing.verdict]
        short = need_text(worst.short_mm, units)
        bad.append(f"{r.spec.name} ({r.spec.part}): {verdict}, {worst.what} {short} short")
    if bad:
        return [Heed(f"Fixings: {'; '.join(bad)}.")]
    given = sum(1 for r in known if r.fixing and r.fixing.checks)
    if given:
        return [f"Fixings: ok ({given})."]
    return []


def fixing_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of the fixings, each once with the names it holds for."""
    notes: dict[str, list[str]] = {}
    for r in estimate.fixings:
        if r.unknown:
            notes.setdefault(f"not known: {r.unknown}", []).append(r.spec.name)
        for note in (
            *(n.said(units) for n in (r.fixing.notes if r.fixing else ())),
            *([r.spec.note] if r.spec.note else []),
        ):
            notes.setdefault(note, []).append(r.spec.name)
    everywhere = len(estimate.fixings)
    return [
        f"{sentence(note.rstrip('.'))}."
        if len(names) == everywhere > 1
        else f"{', '.join(dict.fromkeys(names))}: {note.rstrip('.')}."
        for note, names in notes.items()
    ]
