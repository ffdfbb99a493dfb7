"""What a screw, a nail or a lag screw holds: the page of the command, and the lines of a fixing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, basis_notes, sentence
from woodref.answers.screen import brief
from woodref.answers.words import identity, likely_columns, sold_as, wood_facts
from woodref.formulas.fastening import NAIL_SLIP_MM
from woodref.joinery.fastener import FastenerKind
from woodref.joinery.hardware import nearest_bit, next_bit
from woodref.reference.bases import EDITORIAL
from woodref.units import KGF_TO_N, KINDS, LBF_TO_N, MM_PER_INCH, fraction_of_inch

if TYPE_CHECKING:
    from woodref.joinery.fastener import Fastener
    from woodref.joinery.holding import Holding, ScrewHoles

NEVER = (
    "Never a structural value: averages of tests of clear wood, with no regard to knots, splits, "
    "poor driving or shocks; where it may fall on someone or must carry people, local codes and "
    "licensed practice decide."
)
_KINDS: dict[FastenerKind, str] = {
    FastenerKind.SCREW: "screw",
    FastenerKind.NAIL: "nail",
    FastenerKind.RING_NAIL: "nail",
    FastenerKind.LAG: "lag screw",
}
_NAILS = (FastenerKind.NAIL, FastenerKind.RING_NAIL)
_EQUATIONS: dict[FastenerKind, str] = {
    FastenerKind.SCREW: "Eq. 8-10",
    FastenerKind.NAIL: "Eq. 8-1",
    FastenerKind.RING_NAIL: "Eq. 8-2",
    FastenerKind.LAG: "Eq. 8-14",
}
#: Names of the two loads, for programs and for people.
_PULL, _SIDEWAYS = "pulled straight out", "pushed sideways"
_ALONG, _ACROSS = "pushed sideways, along the grain", "pushed sideways, across the grain"


def fastener_answer(h: Holding, units: str) -> Answer:
    """What a fastener holds, its holes and its distances.

    Parameters: h; units 'us' or 'si'.
    """
    f = h.fastener
    holds, *rest = holding_lines(h, units)
    return Answer(
        headline=[holds, *rest],
        screen=brief([holds, *rest[:-1], *_sideways_line(h, units), *rest[-1:]]),
        names=sold_as(h.wood),
        facts=[
            *wood_facts(h.wood),
            (Column("fastener", ""), f.kind.value),
            (Column("fastener_size", ""), f.size or None),
            (Column("shank", "", "tool"), f.diameter_mm),
            (Column("into", "", "size"), h.into_mm),
            (Column("end_grain", ""), bool(h.withdrawal and h.withdrawal.end_grain)),
            (Column("gravity", "", "gravity"), h.gravity.likely.expected),
            (Column("held_for_long_basis", ""), long_time_basis(h) if h.withdrawal else None),
            (Column("end_distance", "", "size_up"), h.end_mm),
            (Column("edge_distance", "", "size_up"), h.edge_mm),
        ],
        sections=[load_section(h, units), hole_section(h), based_on(h.gravity.values)],
        notes=[
            NEVER,
            *identity(h.wood),
            *basis_notes(h.gravity.values),
            *holding_notes(h, units),
        ],
    )


def _named(f: Fastener, units: str) -> str:
    """'#8 screw', '8d box nail', '8 mm lag screw'."""
    inches = f"{fraction_of_inch(f.diameter_mm / MM_PER_INCH, 64)} in"
    shank = inches if units == "us" else f"{f.diameter_mm:.3g} mm"
    return f"{f.size or shank} {_KINDS[f.kind]}"


def _weight(force_n: float, units: str) -> str:
    """A load in the pounds or kilograms that would hang there: '1,190 lb', '540 kg'."""
    x = force_n / (LBF_TO_N if units == "us" else KGF_TO_N)
    digits = max(0, 3 - len(f"{x:.0f}"))
    rounded = float(f"{x:.3g}")
    return f"{rounded:,.{digits}f} {'lb' if units == 'us' else 'kg'}"


def holding_lines(h: Holding, units: str) -> list[str]:
    """What it holds, how it is bored for, where it may stand.

    Parameters: h; units 'us' or 'si'.
    """
    size = KINDS["size"].text
    lines = []
    if h.withdrawal and h.into_mm:
        average, stays = h.withdrawal.average_n, h.withdrawal.stays_n
        where = "end grain of " if h.withdrawal.end_grain else ""
        lines.append(
            f"{sentence(_named(h.fastener, units))}, {size(h.into_mm, units)} deep in {where}"
            f"{h.wood.common_name}: pulls out at {_weight(average.expected, units)}"
            f"{marks(*h.gravity.values)} on average ({_weight_end(average.low, units)} to "
            f"{_weight_end(average.high, units)})."
        )
        lines.append(
            f"For a load that stays allow one sixth, {_weight(stays.expected, units)}"
            f"{_extension(h)}."
        )
    lines.append(f"{_hole_words(h, units)}{_distance_words(h, units)} Never a structural value.")
    return lines


def _weight_end(force_n: float, units: str) -> str:
    """An end of a range of loads, without its unit: '759'."""
    return _weight(force_n, units).rpartition(" ")[0]


def _sideways_line(h: Holding, units: str) -> list[str]:
    """'Pushed sideways it holds 172 lb (proportional limit).'; none where not known."""
    if not h.sideways or not h.into_mm:
        return []
    told = _weight(h.sideways.load_n, units)
    if h.sideways.across_n is not None:
        told = f"{told} along the grain and {_weight(h.sideways.across_n, units)} across it"
    return [f"Pushed sideways it holds {told} ({_sideways_is(h, units)})."]


def _sideways_is(h: Holding, units: str) -> str:
    """What the load across a fastener is, by the print it comes from."""
    if h.fastener.kind in _NAILS:
        return f"at a slip of {KINDS['change_end'].text(NAIL_SLIP_MM, units)}"
    return "proportional limit"


def screw_hole_line(holes: ScrewHoles, units: str) -> str:
    """'Where the screw bites, bore a pilot hole of 3/32 in in a hardwood, 5/64 in in a softwood.'.

    Parameters: holes; units 'us' or 'si'.
    """
    hard, soft = (
        KINDS["tool"].text(nearest_bit(x, units), units)
        for x in (holes.hardwood_mm, holes.softwood_mm)
    )
    return (
        f"Where the screw bites, bore a pilot hole of {hard} in a hardwood, {soft} in a softwood."
    )


def _extension(h: Holding) -> str:
    return "" if h.fastener.kind in _NAILS else " (a rule for nails, which we extend to screws)"


def _hole_words(h: Holding, units: str) -> str:
    """'Pilot hole 7/64 in, shank hole 11/64 in.'."""
    bit = KINDS["tool"].text
    low, high = (bit(nearest_bit(end, units), units) for end in (h.pilot_mm.low, h.pilot_mm.high))
    pilot = low if low == high else f"{low} to {high}"
    optional = ", if any" if h.fastener.kind in _NAILS else ""
    words = f"Pilot hole in {h.wood.common_name} {pilot}{optional}"
    if h.shank_mm is not None:
        words += f"; shank hole {bit(next_bit(h.shank_mm, units) or h.shank_mm, units)}"
    return f"{words}."


def _distance_words(h: Holding, units: str) -> str:
    if h.end_mm is None or h.edge_mm is None:
        return ""
    size = KINDS["size_up"].text
    return (
        f" Keep it {size(h.end_mm, units)} from the end of the piece it goes through and "
        f"{size(h.edge_mm, units)} from the edge."
    )


def load_section(h: Holding | None, units: str) -> Section:
    """The load straight out and the one across, as far as they are known; empty for None."""
    rows: list[tuple[Any, ...]] = []
    if h and h.withdrawal:
        pulled = h.withdrawal
        rows.append((_PULL, *pulled.average_n, pulled.stays_n.expected, "average of tests"))
    if h and h.sideways and h.into_mm:
        what = _sideways_is(h, units)
        side = h.sideways
        lag = h.fastener.kind is FastenerKind.LAG
        rows.append((_ALONG if lag else _SIDEWAYS, side.load_n, None, None, None, what))
        if side.across_n is not None:
            rows.append((_ACROSS, side.across_n, None, None, None, what))
    return Section.of(
        "held_loads",
        "",
        [
            Column("pull", "load"),
            *likely_columns("held", "holds", "force"),
            Column("held_for_long", "one sixth", "force"),
            Column("held_is", "what it is"),
        ],
        rows,
    )


def hole_section(h: Holding) -> Section:
    """The holes to bore, in bits of either set."""
    ends = dict.fromkeys((h.pilot_mm.low, h.pilot_mm.high))
    rows: list[tuple[Any, ...]] = [
        ("pilot hole", end, *(_bit(nearest_bit(end, u), u) for u in ("us", "si"))) for end in ends
    ]
    if h.shank_mm is not None:
        shank = h.shank_mm
        rows.append(("shank hole", shank, *(_bit(next_bit(shank, u), u) for u in ("us", "si"))))
    return Section.of(
        "sizes_to_make",
        "To bore",
        [
            Column("size", "what"),
            Column("needed", "needed", "change_end"),
            Column("inch_set", "inch bit"),
            Column("metric_set", "metric bit"),
        ],
        rows,
    )


def _bit(size_mm: float | None, units: str) -> str:
    return "none" if size_mm is None else KINDS["tool"].text(size_mm, units)


def holding_notes(h: Holding, units: str) -> list[str]:
    """What the loads are, and where holes and distances come from.

    Parameters: h; units 'us' or 'si'.
    """
    return [
        f"Pilot hole: {_pilot_share(h)}, {h.pilot.source}"
        + (
            "; print does not name this wood, which is taken with those of its weight (our "
            "extension)."
            if h.pilot_extended
            else "."
        ),
        *(
            [
                "End distance the thickness of the piece it goes through, edge distance half of "
                f"it: {h.distances.source}."
            ]
            if h.end_mm is not None
            else []
        ),
        *_load_notes(h, units),
    ]


def _pilot_share(h: Holding) -> str:
    share = h.pilot
    ends = f"{share.low:g}" if share.low == share.high else f"{share.low:g} to {share.high:g}"
    return f"about {ends} {share.unit}"


def _load_notes(h: Holding, units: str) -> list[str]:
    if h.withdrawal is None:
        return ["Give --into, how deep it is in the wood, for what it holds."]
    size, g = KINDS["size"].text, h.gravity
    f, known = h.fastener, "printed" if g.printed else "computed"
    notes = [
        f"Average maximum load of tests in side grain, FPL-GTR-282 (2021), {_EQUATIONS[f.kind]}; "
        f"specific gravity {g.likely.expected:.2f}, ovendry mass over volume at "
        f"{g.moisture_pct:g} %, {known}. The range is that of the specific gravity of single "
        "boards; the scatter of the tests is not printed.",
        f"One sixth of the average maximum for a load that stays, {h.stays.source}, printed of "
        f"nails{'' if f.kind in _NAILS else '; for screws and lag screws it is our extension'}.",
    ]
    if h.withdrawal.end_grain:
        share = h.withdrawal.end_grain
        low, high = (f"{100.0 * end:g}" for end in (share.shares.low, share.shares.high))
        notes.append(
            f"End grain: about {low if low == high else f'{low} to {high}'} % of side grain, "
            f"{share.source}; it is not to be relied on."
        )
    if f.kind in _NAILS:
        notes.append(
            "After changes of moisture content a smooth nail may hold a quarter of it, "
            "FPL-GTR-190 (2010), p. 8-3."
        )
    if h.beyond_tests:
        notes.append(
            "A screw of that gauge was not tested at that length (Table 8-8): the equation is "
            "stretched."
        )
    notes += _lag_notes(h)
    full = h.sideways.full_mm if h.sideways else None
    if full is not None and h.into_mm and h.into_mm < full - 1e-6:
        notes.append(
            f"Sideways it holds that much from {size(full, units)} deep on; less "
            "where it is shallower."
        )
    return notes


def _lag_notes(h: Holding) -> list[str]:
    """What the loads across a lag screw are, or why there are none; what is not in print."""
    if h.fastener.kind is FastenerKind.RING_NAIL:
        return ["Sideways: print gives no figure here for ring nails."]
    if h.fastener.kind is not FastenerKind.LAG:
        return []
    if h.sideways is None:
        return [
            "Sideways: give --through, the thickness of the piece it goes through; print has lag "
            "screws from 2 shanks of it on, in woods of a specific gravity of 0.29 to 0.74."
        ]
    more = (
        "" if h.sideways.across_n is not None else "; print has no factor across the grain for it"
    )
    return [
        f"Sideways: FPL-GTR-190 (2010), Eq. 8-15 and Tables 8-4, 8-10 and 8-11, p. 8-13, times "
        f"{h.sideways.factor:.2f} for the piece it goes through{more}. The direction is that of "
        "the grain of the wood that holds; how deep it must be for it is not in our tables."
    ]


def long_time_basis(h: Holding) -> str:
    """How surely the share for a load that stays is known: printed of nails alone."""
    return h.stays.basis if h.fastener.kind in _NAILS else EDITORIAL
