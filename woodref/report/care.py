"""How to live with a piece, in plain words, from what was computed for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence
from woodref.answers.sag_words import load_words
from woodref.answers.words import likely_text
from woodref.climate.seasons import MONTH_NAMES
from woodref.drying.ambient import ROOM_C
from woodref.drying.delivery import extremes
from woodref.formulas.moisture import relative_humidity_for
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate
    from woodref.piece.moisture_table import PieceAir


def _humidity(air: PieceAir) -> float | None:
    """The relative humidity of an air, or the one that holds wood at its moisture content [%]."""
    if air.humidity_pct is not None:
        return air.humidity_pct
    try:
        return float(relative_humidity_for(air.moisture_pct, ROOM_C))
    except ValueError:
        return None  # wetter than any air makes wood


def humidity_words(estimate: Estimate, units: str) -> str:
    """The humidity to keep the room between, '' where wood is wetter than air makes it.

    Parameters: estimate; units 'us' or 'si'.
    """
    dry, wet = estimate.piece.driest, estimate.piece.wettest
    low, high = _humidity(dry), _humidity(wet)
    if low is None or high is None:
        return ""
    given = dry.humidity_pct is not None and wet.humidity_pct is not None
    at = "" if given else f", at {KINDS['temperature'].text(ROOM_C, units)}"
    if round(low) == round(high):
        return f"Built for a room at about {low:.0f} % relative humidity{at}."
    return (
        f"Built for rooms between about {low:.0f} and {high:.0f} % relative humidity{at}; a few "
        "days outside are fine, weeks of drier or damper air move the wood farther."
    )


def movement_words(estimate: Estimate, units: str) -> str:
    """How far the part that moves most does, with its finish and its lag where they are known."""
    if estimate.leading is None:
        return ""
    mobile, leading = estimate.leading
    size = KINDS["size"].text
    part, d = mobile.part, estimate.delivery
    change = leading.likely_change_mm.unsigned
    said = (
        f"Solid wood takes up water from damp air and gives it off to dry air, and is wider or "
        f"narrower for it: that is no fault. The part that moves most is the {part.name}, "
        f"{size(part.width_mm, units)} wide: between the driest and the dampest time of the year "
        f"its width changes by {likely_text(change, 'change', units)}"
    )
    if not d:
        return f"{said}."
    dry, wet = extremes(d.months)
    return (
        f"{said}. In the first year it is narrowest at the end of {MONTH_NAMES[dry.month - 1]} and "
        f"widest at the end of {MONTH_NAMES[wet.month - 1]}; how far it lags behind the air rests "
        "on a recalled relation (unchecked)."
    )


def fixings_hold(estimate: Estimate) -> bool:
    """Whether every fixing is known, its sizes are given, and they leave wood its room."""
    return all(r.fixing and r.fixing.holds for r in estimate.fixings)


def span_words(estimate: Estimate, units: str) -> list[str]:
    """What each span was worked out to carry, and how far it sags under that."""
    change = KINDS["change"].text
    lines = []
    for r in estimate.spans:
        d = r.sag
        if d is None or not d.span.loaded:
            continue
        later = dict.fromkeys(change(sag.expected, units) for sag in d.later_mm)
        years = f", {' to '.join(later)} after years of it" if later else ""
        lines.append(
            f"{sentence(r.spec.name)}: worked out for {load_words(d.span, units)}; it sags by "
            f"about {change(d.now_mm.expected, units)} under that{years}."
        )
    return lines


def care_lines(estimate: Estimate, units: str) -> list[str]:
    """The care of a piece, a line for each matter, the first ones from its own figures.

    Parameters: estimate; units 'us' or 'si'.
    """
    lines = [movement_words(estimate, units), humidity_words(estimate, units)]
    if estimate.fixings and fixings_hold(estimate):
        lines.append(
            "Its joints leave the wood room for that. Do not glue, screw or nail fast what was "
            "left free to move."
        )
    if estimate.finish and estimate.finish.finish.name:
        lines.append(
            f"Finish: {estimate.finish.finish.label}. A finish slows water down and does not keep "
            "it out: wipe up spills at once (common practice, no source)."
        )
    lines.append(
        "Keep it away from stoves, radiators, warm air vents and strong sun, which dry one face "
        "faster than the other (common practice, no source)."
    )
    return [line for line in lines if line]
