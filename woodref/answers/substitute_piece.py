"""What another wood does to a piece: the line and the tables of substitute --piece."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.fixing_words import VERDICTS
from woodref.answers.sag_words import VERDICTS as SAGS
from woodref.answers.shop_words import shown
from woodref.board.deflection import SagVerdict
from woodref.joinery.fit import Verdict
from woodref.piece.replaced import Unjudged

if TYPE_CHECKING:
    from woodref.choose.substitute_result import Substitute, Substitutes
    from woodref.piece.piece import Piece
    from woodref.piece.replaced import Outcome, Replacement, Sized


#: What is said where nothing could be judged.
_UNJUDGED: dict[Unjudged, str] = {
    Unjudged.NOTHING_GIVEN: "nothing given",
    Unjudged.UNKNOWN: "unknown",
}


def _word(outcome: Outcome) -> str:
    """If a fixing or a span holds, in words."""
    if isinstance(outcome, SagVerdict):
        return SAGS[outcome]
    return VERDICTS[outcome] if isinstance(outcome, Verdict) else _UNJUDGED[outcome]


def _broken(replaced: Replacement) -> str:
    return "; ".join(f"{x.name} ({_word(x.after)})" for x in replaced.sized if x.broken)


def _verdict(replaced: Replacement) -> str:
    """If what was sized for the first wood still holds, in words."""
    if not replaced.sized:
        return "the piece names no fixing or span on these parts"
    broken, unknown = _broken(replaced), [x.name for x in replaced.sized if x.unknown]
    before = [x.name for x in replaced.sized if not x.holds and not x.broken and not x.unknown]
    parts = []
    if broken:
        parts.append(f"no longer in order: {broken}")
    elif not before and not unknown:
        parts.append("fixings, grooves and spans sized for the first wood still hold")
    else:
        parts.append("what held still holds")
    if before:
        parts.append(f"did not hold before either: {', '.join(before)}")
    if unknown:
        parts.append(f"not known: {', '.join(unknown)}")
    return "; ".join(parts)


def _short(replaced: Replacement) -> str:
    """The same for a cell."""
    if not replaced.sized:
        return "none named"
    if broken := _broken(replaced):
        return f"no longer: {broken}"
    short = [x.name for x in replaced.sized if not x.holds]
    return f"as before; not in order: {', '.join(short)}" if short else "all hold"


def _one(pair: tuple[float | None, float | None], kind: str, units: str, after: str = "") -> str:
    first, second = (None if x is None else shown(kind, x, units) + after for x in pair)
    return f"{second or 'not known'} in place of {first or 'not known'}"


def piece_line(
    substitutes: Substitutes, replacements: Mapping[str, Replacement], best: Substitute, units: str
) -> list[str]:
    """The piece with the closest wood: weight, cost, and if what was sized still holds."""
    if not replacements:
        return []
    replaced = replacements[best.species_id]
    currency = f" {replaced.before.currency}" if replaced.before.currency else ""
    lead = f"{replaced.before.piece.name} in {best.common_name} ({', '.join(replaced.parts)})"
    known = any(x is not None for x in replaced.cost)
    costs = (
        f"materials {_one(replaced.cost, 'money', units, currency)}" if known else "cost not known"
    )
    return [f"{lead}: {_one(replaced.mass_kg, 'mass', units)}, {costs}; {_verdict(replaced)}."]


def sized_rows(sized: Iterable[Sized]) -> list[dict[str, Any]]:
    """Each fixing and span sized for the first wood, and what becomes of it, as rows."""
    return [
        {
            "what": x.what,
            "name": x.name,
            x.what: x.name,
            "part": x.part,
            "verdict_before": _word(x.before),
            "verdict": _word(x.after),
            "spare_before": x.spare_before_mm,
            "spare": x.spare_after_mm,
            "broken": x.broken,
        }
        for x in sized
    ]


def piece_sections(
    substitutes: Substitutes,
    replacements: Mapping[str, Replacement],
    piece: Piece | None,
    people: bool,
) -> list[Section]:
    """The piece with each wood, and each fixing and span on the parts that change."""
    if piece is None:
        return []
    woods = [
        s for s in (*substitutes.woods, *substitutes.own_group) if s.species_id in replacements
    ]
    rows: list[dict[str, Any]] = []
    sized: list[dict[str, Any]] = []
    for s in woods:
        replaced = replacements[s.species_id]
        rows.append(
            {
                "wood": s.common_name,
                "parts_changed": ", ".join(replaced.parts) if people else list(replaced.parts),
                "mass_before": replaced.mass_kg[0],
                "mass": replaced.mass_kg[1],
                "cost_before": replaced.cost[0],
                "cost": replaced.cost[1],
                "still_holds": _short(replaced) if people else not _broken(replaced),
                "unpriced": "; ".join(replaced.unpriced) or None,
            }
        )
        kept = [x for x in replaced.sized if not people or s in substitutes.woods[:1] or x.broken]
        sized += [{"wood": s.common_name, **row} for row in sized_rows(kept)]
    currency = next(
        (f", {w.before.currency}" for w in replacements.values() if w.before.currency), ""
    )
    piece_columns = [
        Column("wood", "wood"),
        Column("parts_changed", ""),
        Column("mass_before", "weighed", "mass"),
        Column("mass", "weighs", "mass"),
        Column("cost_before", f"cost{currency}", "money"),
        Column("cost", f"costs{currency}", "money"),
        Column("still_holds", "fixings, grooves, spans"),
        Column("unpriced", ""),
    ]
    sized_columns = [
        Column("wood", "wood"),
        *([Column("what", "what"), Column("name", "name")] if people else []),
        *([] if people else [Column("fixing", ""), Column("span", "")]),
        Column("part", "part"),
        Column("verdict_before", "before"),
        Column("verdict", "after"),
        Column("spare_before", "room left, before", "change_end"),
        Column("spare", "after", "change_end"),
        Column("broken", ""),
    ]
    return [
        Section("pieces", f"{piece.name} with each wood", piece_columns, rows),
        Section("sized", "Sized for the first wood", sized_columns, sized),
    ]


def piece_notes(replacements: Mapping[str, Replacement]) -> list[str]:
    """What the figures of the piece take for granted."""
    if not replacements:
        return []
    notes = [
        "The piece is estimated anew with the sizes, stock, build and room as they are in its "
        "file; of a span the room left is the sag to spare under its limit. Not a structural "
        "check: where people can be hurt, local codes and licensed practice decide.",
        "Its cost is that of all the lumber with waste added; boards in hand are left aside, so "
        "that woods are set against each other alike.",
    ]
    lacking = list(
        dict.fromkeys(x for replaced in replacements.values() for x in replaced.unpriced)
    )
    if lacking:
        more = f" and {len(lacking) - 3} more" if len(lacking) > 3 else ""
        notes.append(f"No cost where a price is missing: {'; '.join(lacking[:3])}{more}.")
    return notes
