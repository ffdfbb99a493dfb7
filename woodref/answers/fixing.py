"""What the commands fixing and gluing say: the tables and the notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.fastener import (
    holding_lines,
    holding_notes,
    load_section,
    screw_hole_line,
)
from woodref.answers.fixing_words import VERDICTS, headline, moisture_words, sets
from woodref.answers.method_words import movement_method
from woodref.answers.provenance import (
    based_on,
    computed_notes,
    sentence,
    sentences,
)
from woodref.answers.words import identity, likely_columns, room_facts, sold_as, wood_facts
from woodref.joinery.clearance import Fixing, first_needs
from woodref.joinery.fixing_types import FIXINGS
from woodref.quantity import exactly
from woodref.reference.bases import in_words
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.part_seasons import PartSeasons
    from woodref.joinery.holding import Holding, ScrewHoles
    from woodref.reference.library import Reference

_NEVER = (
    "It says whether the wood can move, not what the fixing carries: never a structural value; "
    "where it may fall on someone, local codes and licensed practice decide."
)


def _travel_section(f: Fixing, seasons: PartSeasons) -> Section:
    t, (_, dry, wet) = f.travel, moisture_words(seasons)
    columns = [
        Column("way", "way"),
        Column("at", "at"),
        *likely_columns("travel", "movement", "change"),
    ]
    rows = [("in, as it shrinks", dry, *t.toward), ("out, as it swells", wet, *t.away)]
    return Section.of("travels", "Movement at the fixing", columns, rows, aside=True)


def _set_columns(units: str, inch: str, metric: str) -> list[Column]:
    """What the shop has in inches and in millimeters; a screen tells those of its own units."""
    return [
        Column("inch_set", inch, aside=units != "us"),
        Column("metric_set", metric, aside=units == "us"),
    ]


def _make_section(f: Fixing) -> Section:
    return Section.of(
        "sizes_to_make",
        "To make",
        [
            Column("size", "what"),
            Column("needed", "needed", "change"),
            *_set_columns(f.spec.units, "inch sizes", "metric sizes"),
            Column("made", "", "tool"),
        ],
        ((n.what, n.size_mm, *sets(n), n.made_mm(f.spec.units)) for n in f.needs),
        aside=True,
    )


def _check_section(f: Fixing) -> Section:
    rows = [(c.what, c.room_mm, *c.need, c.spare_mm, VERDICTS[c.verdict]) for c in f.checks]
    if f.spec.kind == "glued":
        columns = [
            Column("check", "what"),
            Column("room", "of the trade", "size"),
            Column("needed", "of the joint", "size"),
            Column("needed_low", "", "size"),
            Column("needed_high", "", "size"),
            Column("spare", "to spare", "size"),
            Column("verdict", "verdict"),
        ]
        return Section.of("size_checks", "", columns, rows, aside=True)
    columns = [
        Column("check", "what"),
        Column("room", "gives", "change"),
        *likely_columns("needed", "needs", "change"),
        Column("spare", "to spare", "change_end"),
        Column("verdict", "verdict"),
    ]
    # The headline tells of the one with the least room.
    return Section.of("size_checks", "Your sizes", columns, rows, aside=len(rows) == 1)


def _gap_section(f: Fixing, seasons: PartSeasons) -> Section:
    """The gap at the build, the driest and the wettest."""
    gap, t = f.gap_mm, f.travel
    rows: list[tuple[Any, ...]] = []
    if gap is not None:
        ways = (exactly(0.0), t.to_driest, t.to_wettest)
        names = ("when fitted", "at the driest", "at the wettest")
        rows = [
            (when, at, gap - way.expected, gap - way.high, gap - way.low)
            for when, at, way in zip(names, moisture_words(seasons), ways, strict=True)
        ]
    return Section.of(
        "gaps",
        "Gap through the year",
        [Column("when", "when"), Column("at", "at"), *likely_columns("gap", "gap", "change")],
        rows,
        aside=True,
    )


def _month_section(f: Fixing, seasons: PartSeasons) -> Section:
    """What is made first, for each month it may be fitted in; nothing without a room."""
    rows = []
    if seasons.room:
        months = seasons.room.season.months
        needs = first_needs(f, [m.emc_pct for m in months])
        # A glued joint has no size to make, and so no row.
        for m, need in zip(months, needs, strict=False):
            rows.append((m.name, m.emc_pct, need.what, need.size_mm, *sets(need)))
    return Section.of(
        "months",
        "By the month it is fitted in",
        [
            Column("month", "month"),
            Column("build_moisture", "moisture", "percent"),
            Column("size", "what"),
            Column("needed", "needed", "change"),
            *_set_columns(f.spec.units, "inch sizes", "metric sizes"),
        ],
        rows,
    )


def trade_notes(rules: Sequence[tuple[str, str]], reference: Reference, units: str) -> list[str]:
    """What the trade does, from the rules of practice, each by its topic and words."""
    from woodref.reference.trade import practices

    notes = []
    for topic, rule in rules:
        r = practices(reference, topic)[rule]
        low, high = (KINDS["size"].text(end, units) for end in (r.low_mm, r.high_mm))
        notes.append(f"{sentence(rule)}: {low} to {high} ({in_words(r.basis)}, no source).")
    return notes


def fixing_answer(
    f: Fixing,
    seasons: PartSeasons,
    reference: Reference,
    monthly: bool,
    holes: ScrewHoles | None = None,
    held: Holding | None = None,
) -> Answer:
    """The answer about a fixing or a glued joint.

    Parameters: fixing; seasons; reference library, for the rules of the trade; monthly with
    what to make for each month; holes of its screw, None where none is named; held, what it
    holds in this wood, None where its depth is not given.
    """
    units = f.spec.units
    used = (f.travel.basis.tangential, f.travel.basis.radial)
    checked = bool(f.checks) and f.spec.kind != "glued"
    return Answer(
        headline=[
            *headline(f, seasons),
            *([screw_hole_line(holes, units)] if holes and not held else []),
            *(holding_lines(held, units) if held else []),
        ],
        names=sold_as(f.wood),
        facts=[
            *wood_facts(f.wood),
            *room_facts(seasons.room),
            (Column("fixing_kind", ""), f.spec.kind),
            (Column("verdict", ""), VERDICTS[f.verdict] if f.verdict else None),
            (Column("fixed_line_distance", "", "size"), f.spec.distance_mm),
            (Column("ring_angle_deg", ""), f.spec.ring_angle_deg),
            (Column("build_moisture", "", "percent"), f.moisture.build_pct),
            (Column("driest_moisture", "", "percent"), f.moisture.driest_pct),
            (Column("wettest_moisture", "", "percent"), f.moisture.wettest_pct),
            (Column("strain", "", "percent"), f.strain_pct),
            (Column("pilot_hole_hardwood", "", "tool"), holes.hardwood_mm if holes else None),
            (Column("pilot_hole_softwood", "", "tool"), holes.softwood_mm if holes else None),
        ],
        sections=[
            _make_section(f),
            _check_section(f),
            _travel_section(f, seasons),
            _gap_section(f, seasons),
            *([_month_section(f, seasons)] if monthly else []),
            load_section(held, units),
            based_on([*used, *(held.gravity.values if held else ())]),
        ],
        notes=[
            _NEVER,
            *identity(f.wood),
            *sentences([*f.notes, *seasons.notes], units),
            *(holding_notes(held, units) if held else []),
            *trade_notes(FIXINGS[f.spec.kind].rules, reference, units),
            *computed_notes(movement_method(f.travel.basis), used),
        ],
        main="size_checks" if checked else "travels" if f.spec.kind == "glued" else "sizes_to_make",
    )
