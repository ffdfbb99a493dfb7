"""A piece as drawn beside the same piece with other woods: what must change, then the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.piece_changes import (
    SIZE_WORDS,
    failed_before,
    holding,
    must_change,
    packed_people,
)
from woodref.answers.property_text import footnotes, marks
from woodref.answers.provenance import sentence
from woodref.answers.render import SCREEN_HEIGHT, as_screen
from woodref.answers.sag_words import VERDICTS
from woodref.answers.shop_words import (
    change_range,
    change_text,
    is_seen,
    legend,
    mass_range,
    mass_text,
    money_range,
    people_text,
)
from woodref.answers.substitute_piece import sized_rows
from woodref.answers.wood_pair import (
    NO_DATA,
    color_words,
    decay_words,
    hardness_words,
    look_words,
    pair_section,
    printed_notes,
    trade_words,
)
from woodref.answers.words import range_columns, range_facts, range_row
from woodref.board.deflection import SagVerdict

if TYPE_CHECKING:
    from woodref.board.deflection import Deflection
    from woodref.choose.piece_beside import PieceBeside
    from woodref.piece.estimate import Estimate
    from woodref.piece.part_estimate import PartEstimate

#: Lines of what must change, and spans in the table, that one screen has room for.
_MOST_LINES, _MOST_SPANS = 5, 1
_Row = tuple[str, ...]


def _headline(beside: PieceBeside, units: str, most: int) -> list[str]:
    """The verdict, what must change, ``most`` lines of it, and the difference in short."""
    both = beside.replacement
    woods = ", ".join(
        f"{s.other.common_name} in place of {s.first.common_name}" for s in beside.swaps
    )
    changes = must_change(beside, units)
    count = len(changes)
    said = f"see to {count} thing{'s' * (count > 1)}:" if count else "nothing must change."
    lead = f"{both.before.piece.name} in {woods}: {said}"
    told = changes[:most]
    more = [f"and {count - len(told)} more: --full."] if count > len(told) else []
    return [lead, *(f"- {sentence(line)}" for line in (*told, *more)), _in_short(beside, units)]


def _in_short(beside: PieceBeside, units: str) -> str:
    """'It weighs 8.7 lb less; most moves the top, 3/64 in less; look related.'."""
    said = []
    was, now = beside.replacement.mass_kg
    if was is not None and now is not None:
        said.append(f"It weighs {_more(now - was, mass_text(abs(now - was), units), '0')}")
    first, then = beside.leads
    if first and then and not beside.unmoved:
        more = then[1].expected - first[1].expected
        change = _more(more, change_text(more, units), "under")
        same = first[0] == then[0]
        said.append(f"the {then[0]} moves most, {change if same else f'it was the {first[0]}'}")
    bands = dict.fromkeys(p.look.band or "not known" for p in beside.pairs)
    said.append(f"look {' and '.join(bands)}")
    return f"{sentence('; '.join(said))}."


def _more(change: float, told: str, nothing: str) -> str:
    """'3/64 in less', or 'as much' where the change is told as nothing."""
    if told.split(maxsplit=1)[0] == nothing:
        return "as much as before"
    return f"{told} {'more' if change > 0.0 else 'less'}"


def _weight(estimate: Estimate, units: str) -> str:
    used = [v for d in estimate.masses.densities.values() for v in d.values]
    if len(estimate.unweighed) == len(estimate.parts):
        return NO_DATA
    lacks = f", without {len(estimate.unweighed)} part(s)" if estimate.unweighed else ""
    return mass_range(estimate.mass_kg["build"], units, marks(*used)) + lacks


def _cost(estimate: Estimate) -> str:
    if estimate.cost is None:
        return "no price" if estimate.unpriced else NO_DATA
    return money_range(estimate.cost, estimate.currency)


def _movement(estimate: Estimate, units: str) -> str:
    if estimate.leading is None:
        return NO_DATA
    part, move = estimate.leading
    mark = marks(*move.basis.values)
    return f"{part.part.name} {change_range(move.likely_change_mm.unsigned, units, mark)}"


def _span_rows(beside: PieceBeside, units: str) -> list[_Row]:
    """The sag of the spans of parts that change, the one nearest its limit first."""
    rows: list[tuple[float, _Row]] = []
    for one, two in beside.replacement.spans:
        if two.sag is None or two.sag.verdict is None:
            continue
        sag, seen = two.sag, is_seen(two.sag.now_mm.expected, units)
        if seen or (one.sag and is_seen(one.sag.now_mm.expected, units)):
            cells = (_sag(one.sag, units), _sag(sag, units))
            used = sag.now_mm.expected / sag.deciding.sag_mm
            rows.append((used, (f"sag, {two.spec.name}", *cells)))
    return [row for _, row in sorted(rows, key=lambda r: -r[0])][:_MOST_SPANS]


def _sag(sag: Deflection | None, units: str) -> str:
    """'5/32 in', with its verdict where it does not look straight."""
    if sag is None or sag.verdict is None:
        return NO_DATA
    told = change_text(sag.now_mm.expected, units) + marks(*sag.material.values)
    return told if sag.verdict is SagVerdict.STRAIGHT else f"{told}, {VERDICTS[sag.verdict]}"


def _load_rows(beside: PieceBeside, units: str) -> list[_Row]:
    """The heaviest lift of a piece of several, its crate and its cartons."""
    both = beside.replacement
    rows: list[_Row] = []
    if len(both.after.masses.lifts) > 1:
        lifts = (e.masses.heaviest_lift for e in (both.before, both.after))
        was, now = (f"{x[0]} {mass_text(x[1].expected, units)}" if x else NO_DATA for x in lifts)
        rows.append(("heaviest lift", was, now))
    gross = [
        {
            **{c.plan.name: c.packed.gross_kg for c in e.cartons},
            **({"crate": e.crate.gross_kg} if e.crate else {}),
        }
        for e in (both.before, both.after)
    ]
    people = [packed_people(e) for e in (both.before, both.after)]
    return rows + [
        (
            name,
            *(
                f"{mass_text(g[name].expected, units)}, {people_text(p[name])}"
                for g, p in zip(gross, people, strict=True)
            ),
        )
        for name in gross[0]
    ]


def _wood_rows(beside: PieceBeside, units: str, full: bool) -> list[_Row]:
    rows: list[_Row] = []
    for pair in beside.pairs:
        of = f", {pair.other.wood.common_name}" if len(beside.pairs) > 1 else ""
        if of and not full:
            rows.append((f"look{of}", "", look_words(pair.look)))
            continue
        rows += [
            (f"look{of}", color_words(pair.look.first), color_words(pair.look.other)),
            ("", "", look_words(pair.look)),
            (
                f"hardness{of}",
                *(hardness_words(s.wood, units) for s in (pair.first, pair.other)),
            ),
        ]
        if full or beside.outdoors:
            rows.append((f"decay{of}", decay_words(pair.first), decay_words(pair.other)))
        if full or pair.first.controls or pair.other.controls:
            rows.append((f"trade control{of}", trade_words(pair.first), trade_words(pair.other)))
    return rows


def _figures(beside: PieceBeside, units: str, full: bool) -> Section:
    both = beside.replacement
    first, then = both.before, both.after
    rows: list[_Row] = [
        ("weight", _weight(first, units), _weight(then, units)),
        ("cost", _cost(first), _cost(then)),
        (
            "moves most",
            _movement(first, units),
            NO_DATA if beside.unmoved else _movement(then, units),
        ),
        *_span_rows(beside, units),
        *_load_rows(beside, units),
        *_wood_rows(beside, units, full),
    ]
    if not (first.cost or then.cost or first.priced_cost):
        rows = [r for r in rows if r[0] != "cost"]
    after = beside.swaps[0].other.common_name if len(beside.swaps) == 1 else "with the others"
    columns = [Column("figure", " "), Column("before", "as drawn"), Column("after", after)]
    return Section.of("", "", columns, rows)


def _part_rows(beside: PieceBeside) -> list[dict[str, Any]]:
    """Every part, before and after, those of another wood first."""
    both = beside.replacement

    def swing(p: PartEstimate) -> float | None:
        return abs(p.movements[-1].change_mm) if p.movements else None

    pairs = zip(both.before.parts, both.after.parts, strict=True)
    return [
        {
            "part": one.part.name,
            "quantity": one.part.quantity,
            "wood_before": one.material,
            "wood": two.material,
            "mass_before": one.mass_kg["build"].expected if one.mass_kg else None,
            **range_row("mass", two.mass_kg["build"] if two.mass_kg else None),
            "cost_before": one.cost.expected if one.cost else None,
            **range_row("cost", two.cost),
            "unpriced": two.unpriced or None,
            "swing_before": swing(one),
            "swing": swing(two),
        }
        for one, two in sorted(pairs, key=lambda p: p[0].part.name not in both.species)
    ]


def _parts_section(beside: PieceBeside, people: bool) -> Section:
    columns = [
        Column("part", "part"),
        Column("quantity", "no.", "count"),
        Column("wood_before", "of"),
        Column("wood", "now"),
        Column("mass_before", "weighed", "mass"),
        *(range_columns("mass", "weighs", "mass")),
        Column("cost_before", "cost", "money"),
        *(range_columns("cost", "costs", "money")),
        Column("unpriced", "no price because"),
        Column("swing_before", "moved", "change_end"),
        Column("swing", "moves", "change_end"),
    ]
    rows = _part_rows(beside)
    if people:
        ends = ("mass_low", "mass_high", "cost_low", "cost_high", "unpriced")
        columns = [
            c for c in columns if c.key not in ends and any(r.get(c.key) is not None for r in rows)
        ]
    return Section("parts", "Part by part; movement of bare wood through the year", columns, rows)


def _sizes_section(beside: PieceBeside) -> Section:
    rows = [
        {
            "fixing": f.before.spec.name,
            "part": f.before.spec.part,
            "size": SIZE_WORDS[s.key],
            "size_given": s.given,
            "made_before": s.was_mm,
            "made": s.make_mm,
            "must_change": s.grows,
        }
        for f in beside.fixings
        for s in f.sizes or ()
    ]
    columns = [
        Column("fixing", "fixing"),
        Column("part", "part"),
        Column("size", "size"),
        Column("size_given", "given"),
        Column("made_before", "was", "tool"),
        Column("made", "make", "tool"),
        Column("must_change", "must change"),
    ]
    return Section("sizes_changed", "Sizes of the fixings", columns, rows)


def _sized_section(beside: PieceBeside, people: bool) -> Section:
    named = [Column("what", "what"), Column("name", "name")]
    columns = [
        *(named if people else [Column("fixing", ""), Column("span", "")]),
        Column("part", "part"),
        Column("verdict_before", "as drawn"),
        Column("verdict", "now"),
        Column("spare_before", "room left, was", "change_end"),
        Column("spare", "now", "change_end"),
        Column("broken", ""),
    ]
    rows = sized_rows(beside.replacement.sized)
    return Section("sized", "Fixings and spans of these parts", columns, rows)


def _facts(beside: PieceBeside) -> list[tuple[Column, Any]]:
    both = beside.replacement
    facts: list[tuple[Column, Any]] = [
        (Column("piece", ""), both.after.piece.name),
        (Column("currency", ""), both.after.currency or None),
    ]
    for after, estimate in (("_before", both.before), ("", both.after)):
        leading, heaviest = estimate.leading, estimate.masses.heaviest_lift
        crate = estimate.crate
        facts += [
            *range_facts(f"mass{after}", "mass", estimate.mass_kg["build"]),
            *range_facts(f"cost{after}", "money", estimate.cost),
            (Column(f"moves_most{after}", ""), leading[0].part.name if leading else None),
            *range_facts(
                f"largest_swing{after}",
                "change",
                leading[1].likely_change_mm.unsigned if leading else None,
            ),
            (Column(f"heaviest_lift{after}", ""), heaviest[0] if heaviest else None),
            *range_facts(f"heaviest_lift_mass{after}", "mass", heaviest[1] if heaviest else None),
            *range_facts(f"gross_mass{after}", "mass", crate.gross_kg if crate else None),
            (Column(f"people{after}", "", "count"), crate.lifting.people if crate else None),
            (Column(f"unweighed{after}", ""), list(estimate.unweighed)),
            (Column(f"unpriced{after}", ""), list(estimate.unpriced)),
        ]
    return facts


def _notes(beside: PieceBeside, units: str, full: bool) -> list[str]:
    both = beside.replacement
    notes = [f"Did not hold as drawn either: {x}" for x in failed_before(beside, units)]
    good = holding(beside)
    notes += [f"Ok: {good}."] if good else []
    notes += _unpriced(both.before, both.after)
    if beside.boards_aside:
        notes.append("Cost with waste added; the boards in hand are left aside.")
    values = [v for e in (both.before, both.after) for _, v in e.figures]
    used = marks(*values) + ("*" if any(p.look.unchecked for p in beside.pairs) else "")
    if not full:
        return [*notes, *legend(used), "Part by part, and what is taken for granted: --full."]
    return [
        *notes,
        *(line for pair in beside.pairs for line in printed_notes(pair)),
        *footnotes(used),
        "Sizes, stock, build and room are those of the file; lumber is told with waste added, "
        "boards in hand are left aside. Not a structural check: where people can be hurt, local "
        "codes and licensed practice decide.",
        "Look is typical, not a promise of a board: lay a finished sample beside the first wood. "
        "Trade controls are those recorded here; check the current listing.",
    ]


def _unpriced(before: Estimate, after: Estimate) -> list[str]:
    """The woods and stock that the price list does not have; nothing where there is no list."""
    lacking: dict[str, list[str]] = {}
    for line in after.lumber:
        if line.unpriced:
            lacking.setdefault(line.wood, []).append(line.nominal.label)
    if not lacking or not before.priced_cost:
        return []
    told = "; ".join(f"{wood} {', '.join(labels)}" for wood, labels in lacking.items())
    return [f"Not in the price list: {told}."]


def piece_beside_answer(beside: PieceBeside, units: str, people: bool) -> Answer:
    """What changes in a piece with other woods: the changes, the figures side by side, what holds.

    Parameters: beside; units 'us' or 'si'; people false for programs.
    """
    pairs = [(p, s.parts) for p, s in zip(beside.pairs, beside.swaps, strict=True)]
    lead = _figures(beside, units, True) if people else pair_section(pairs)
    return Answer(
        headline=_headline(beside, units, len(must_change(beside, units))),
        facts=_facts(beside),
        sections=[
            lead,
            _parts_section(beside, people),
            _sized_section(beside, people),
            _sizes_section(beside),
        ],
        notes=_notes(beside, units, True),
        main="parts",
        screen=_screen(beside, units) if people else None,
    )


def _screen(beside: PieceBeside, units: str) -> Answer:
    """The short form, with as many lines of what must change as one screen has room for."""
    screen = Answer(sections=[_figures(beside, units, False)], notes=_notes(beside, units, False))
    for most in range(_MOST_LINES, 0, -1):
        screen.headline = _headline(beside, units, most)
        if len(as_screen(screen, units).splitlines()) <= SCREEN_HEIGHT:
            break
    return screen
