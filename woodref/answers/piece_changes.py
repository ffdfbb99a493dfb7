"""What must change in a piece with other woods, in lines: fixings, spans, holes, lifting, trade."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from woodref.answers.fixing_words import VERDICTS
from woodref.answers.shop_words import bare_size, change_text, is_seen, people_text, size_text
from woodref.answers.wood_pair import decay_words, trade_words
from woodref.board.deflection import SagVerdict
from woodref.joinery.fit import NeedKey
from woodref.joinery.hardware import nearest_bit, size_up

if TYPE_CHECKING:
    from woodref.choose.piece_beside import FixingChange, PieceBeside
    from woodref.joinery.mend import Resized
    from woodref.piece.estimate import Estimate
    from woodref.piece.in_use import SpanResult

#: What each size is called in a line.
SIZE_WORDS: dict[NeedKey, str] = {
    NeedKey.HOLE: "hole",
    NeedKey.WASHER: "washer",
    NeedKey.RECESS: "recess",
    NeedKey.SLOT_CENTERED: "slot",
    NeedKey.GAP: "gap",
    NeedKey.TONGUE: "tongue",
    NeedKey.GROOVE: "groove depth",
}


def _resized_words(sizes: tuple[Resized, ...], units: str) -> str:
    """'slot 15/32 in, was 11/32; gap 3/16 in, was 1/8'."""
    return "; ".join(
        f"{SIZE_WORDS[s.key]} {size_text(s.make_mm, units)}, was {bare_size(s.was_mm, units)}"
        if s.make_mm is not None and s.was_mm is not None
        else f"{SIZE_WORDS[s.key]} above the largest bit: take a slot"
        for s in sizes
        if s.grows
    )


def fixing_line(change: FixingChange, units: str) -> str:
    """What a fixing must become; '' where it holds as it is, or nothing is known."""
    name = change.before.spec.name
    after = change.after.fixing
    if change.holds or after is None or change.before.fixing is None:
        return ""
    if change.sizes is None:
        verdict = VERDICTS[after.verdict] if after.verdict else "does not hold"
        glued = change.before.spec.kind == "glued"
        mend = "glue the middle alone, or screw it through slots" if glued else "take a slot"
        return f"{name}: {verdict}; {mend}."
    return f"{name}: {_resized_words(change.sizes, units)}."


def span_line(before: SpanResult, after: SpanResult, units: str) -> str:
    """What a span must become; '' where it holds, or nothing is known or asked of it."""
    first, then, name = before.sag, after.sag, after.spec.name
    if then is None or then.verdict is not SagVerdict.SAGS:
        return ""
    sags = change_text(then.now_mm.expected, units)
    was = f", was {change_text(first.now_mm.expected, units)}" if first else ""
    allowed = size_text(then.deciding.sag_mm, units)
    needed = then.deciding.needed_mm
    make = "no thickness mends it"
    if isfinite(needed):
        thick = size_text(size_up(needed, units), units)
        make = f"make it {thick}, was {bare_size(then.span.thickness_mm, units)}"
    return f"{name}: sags {sags}{was}, allowed {allowed}: {make}."


def packed_people(estimate: Estimate) -> dict[str, int]:
    """How many people each packed load asks for: the crate, and each carton by its name."""
    loads = {c.plan.name: c.packed.lifting.people for c in estimate.cartons}
    if estimate.crate:
        loads["crate"] = estimate.crate.lifting.people
    return loads


def _lifting_lines(beside: PieceBeside) -> list[str]:
    """What takes more people to lift than it did."""
    first, then = beside.lifters
    both = beside.replacement
    now = packed_people(both.after)
    more = [
        f"{name}: {people_text(now[name])} to lift, was {people}."
        for name, people in packed_people(both.before).items()
        if now[name] > people
    ]
    if first and then and then > first and (heaviest := both.after.masses.heaviest_lift):
        more.insert(0, f"Lifting {heaviest[0]}: {people_text(then)}, was {first}.")
    return more


def _pilot_lines(beside: PieceBeside, units: str) -> list[str]:
    return [
        f"{p.fixing}: pilot hole {size_text(nearest_bit(p.after_mm, units), units)}, was "
        f"{bare_size(nearest_bit(p.before_mm, units), units)}."
        for p in beside.pilots
        if nearest_bit(p.after_mm, units) != nearest_bit(p.before_mm, units)
    ]


def _wood_lines(beside: PieceBeside) -> list[str]:
    """What the wood itself brings: decay where it stands outdoors, controls of trade."""
    lines = []
    for pair in beside.pairs:
        name = pair.other.wood.common_name
        if beside.outdoors and pair.decay_changes:
            lines.append(
                f"Decay outdoors: {name} {decay_words(pair.other)}, was {decay_words(pair.first)}."
            )
        if pair.newly_controlled:
            lines.append(
                f"Trade in {name} is controlled: {trade_words(pair.other)}; check the current "
                "listing."
            )
    return lines


def _unsized_lines(beside: PieceBeside, units: str) -> list[str]:
    """That a part moves more than it did, where no fixing of it is named that would tell."""
    if beside.unsized_mm is None:
        return []
    part, more = beside.unsized_mm
    if not is_seen(more, units):
        return []
    return [
        f"{part}: moves {size_text(more, units)} more, and the file names no fixing of it: check "
        "its slots and gaps."
    ]


def _unknown_lines(beside: PieceBeside) -> list[str]:
    """What cannot be judged for want of a figure, a line for each wood that lacks it."""
    both, lines = beside.replacement, []
    for swap in beside.swaps:
        name = swap.other.common_name
        unjudged = [
            f.after.spec.name
            for f in beside.fixings
            if f.after.fixing is None and f.after.spec.part in swap.parts
        ]
        unmoved = [p.part.name for p in both.after.parts if p.unmoved and p.part.name in swap.parts]
        unsagged = [
            then.spec.name
            for _, then in both.spans
            if then.sag is None and not then.load_missing and then.spec.part in swap.parts
        ]
        if unmoved:
            what = ", ".join(unjudged or unmoved)
            lines.append(f"No table says how {name} moves; not judged: {what}.")
        if unsagged:
            lines.append(
                f"No table says how stiff {name} is; sag not judged: {', '.join(unsagged)}."
            )
    return lines


def must_change(beside: PieceBeside, units: str) -> list[str]:
    """What held as drawn and must change, or be looked at, with the other wood, a line each.

    Parameters: beside; units 'us' or 'si'.
    """
    fixings = (fixing_line(f, units) for f in beside.fixings if f.held)
    spans = (
        span_line(one, two, units)
        for one, two in beside.replacement.spans
        if one.sag is None or one.sag.verdict is not SagVerdict.SAGS
    )
    lines = [
        *fixings,
        *spans,
        *_unknown_lines(beside),
        *_pilot_lines(beside, units),
        *_unsized_lines(beside, units),
    ]
    return [*filter(None, lines), *_lifting_lines(beside), *_wood_lines(beside)]


def failed_before(beside: PieceBeside, units: str) -> list[str]:
    """What did not hold as drawn either, and what it would have to be now."""
    fixings = (fixing_line(f, units) for f in beside.fixings if not f.held)
    spans = (
        span_line(one, two, units)
        for one, two in beside.replacement.spans
        if one.sag is not None and one.sag.verdict is SagVerdict.SAGS
    )
    return [line for line in (*fixings, *spans) if line]


def holding(beside: PieceBeside) -> str:
    """'4 fixings, 1 span, lifting': what holds as it was; '' for nothing."""
    fixings = sum(1 for f in beside.fixings if f.holds)
    spans = sum(
        1
        for _, two in beside.replacement.spans
        if two.sag and two.sag.verdict not in (None, SagVerdict.SAGS)
    )
    told = [
        f"{n} {what}{'' if n == 1 else 's'}"
        for n, what in ((fixings, "fixing"), (spans, "span"))
        if n
    ]
    if not _lifting_lines(beside):
        told.append("lifting")
    return ", ".join(told)
