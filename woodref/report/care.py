"""How to live with a piece, in four lines, from what was computed for it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.sag_words import load_words
from woodref.answers.shop_words import mass_text
from woodref.drying.ambient import ROOM_C
from woodref.formulas.moisture import relative_humidity_for
from woodref.reference.bases import COMMON_PRACTICE
from woodref.report.markup import Markup, bullets, element, joined, name
from woodref.shipping.load import WHOLE

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate
    from woodref.piece.moisture_table import PieceAir
    from woodref.report.view import View


def _humidity(air: PieceAir) -> float | None:
    """The relative humidity of an air, or the one that holds wood at its moisture content [%]."""
    if air.humidity_pct is not None:
        return air.humidity_pct
    try:
        return float(relative_humidity_for(air.moisture_pct, ROOM_C))
    except ValueError:
        return None  # wetter than any air makes wood


def humidity_words(estimate: Estimate) -> str:
    """The humidity the piece was built for, '' where wood is wetter than air makes it."""
    low, high = _humidity(estimate.piece.driest), _humidity(estimate.piece.wettest)
    if low is None or high is None:
        return ""
    if round(low) == round(high):
        return f"Built for rooms around {low:.0f} % humidity; short spells outside are fine."
    return (
        f"Built for rooms around {low:.0f} to {high:.0f} % humidity; short spells outside are fine."
    )


def fixings_hold(estimate: Estimate) -> bool:
    """Whether every fixing is known, its sizes are given, and they leave wood its room."""
    return all(r.fixing and r.fixing.holds for r in estimate.fixings)


def _air(view: View) -> str:
    estimate = view.estimate
    loose = (
        " Its joints leave the wood room to move: do not glue or screw fast what is loose."
        if estimate.fixings and fixings_hold(estimate)
        else ""
    )
    return f"{humidity_words(estimate)}{loose}".strip()


def _damp(view: View) -> str:
    finish = view.estimate.finish
    slows = (
        f" The finish ({finish.finish.label}) slows water and does not stop it."
        if finish and finish.finish.name
        else ""
    )
    return f"Wipe up spills at once{view.mark([COMMON_PRACTICE])}.{slows}"


def _lifting(view: View) -> Markup:
    """Who lifts the heaviest that is lifted together; nothing where nothing is weighed."""
    masses = view.estimate.masses
    if masses.heaviest_lift is None:
        return Markup()
    what, mass = masses.heaviest_lift
    others = [name(lift) for lift in masses.one_of if lift not in (what, WHOLE)]
    weight = mass_text(mass.expected, view.units)
    if what == WHOLE and others:
        loose = joined(others, ", ")
        lead = joined(["Without its loose parts (", loose, f") it weighs {weight}"], "")
    elif others:
        lead = joined(["Heaviest to lift at once: ", name(what), f", {weight}"], "")
    else:
        lead = Markup(f"It weighs {weight}")
    heavy = any(notice.kind == "lifting" for notice in view.estimate.notices)
    who = "two people or more, or wheels" if heavy else "one person can lift it, held close"
    return joined([lead, f": {who}. Lift it, do not drag it."], "")


def care_list(view: View) -> Markup:
    """The four lines: air, heat and sun, damp, lifting."""
    heat = (
        "Keep it away from stoves, radiators, warm air vents and strong sun, which dry one face "
        f"first{view.mark([COMMON_PRACTICE])}."
    )
    lines = [
        ("Air", _air(view)),
        ("Heat and sun", heat),
        ("Damp", _damp(view)),
        ("Lifting", _lifting(view)),
    ]
    return bullets(joined([element("b", f"{head}."), said], " ") for head, said in lines if said)


def few(lines: Sequence[Markup], most: int = 3) -> list[str]:
    """The first of some lines, and how many more there are, so that the page stays one."""
    more = len(lines) - most
    return [*lines[:most], *([f"{more} more"] if more > 0 else [])]


def carries(view: View) -> list[Markup]:
    """What spans were worked out to carry, those with the same load together."""
    by_load: dict[str, list[Markup]] = {}
    for r in view.estimate.spans:
        if r.sag and r.sag.span.loaded:
            by_load.setdefault(load_words(r.sag.span, view.units), []).append(name(r.spec.name))
    return [joined([joined(few(spans), ", "), f": {load}"], "") for load, spans in by_load.items()]
