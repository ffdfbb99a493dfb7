"""Where the figures of an answer come from, the same way in every command."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.reference.bases import ESTIMATED, OWN

if TYPE_CHECKING:
    from woodref.note import Note
    from woodref.reference.cautions import Notice
    from woodref.reference.woods import Value, Wood

ESTIMATED_NOTE = (
    "Estimated strengths are printed in no table at 12 %: they come from another moisture content, "
    "or from specific gravity by the functions of Table 5-11, with the spread those have"
)


def based_on(values: Iterable[Value]) -> Section:
    """The figures used: what was printed, how it is known, and where it stands."""
    return Section.of(
        "based_on",
        "Based on",
        [
            Column("figure", "figure"),
            Column("printed", "printed"),
            Column("basis", "basis"),
            Column("source", "source"),
        ],
        map(figure_row, values),
    )


def figure_row(value: Value) -> tuple[str, str, str, str]:
    """A figure used: its label, what was printed, how it is known, where it stands."""
    from woodref.reference.properties import PROPERTIES

    label = PROPERTIES[value.property_id].label
    return label, value.printed.removesuffix(" 1"), value.basis, value.source


def unchecked_note(what: str) -> str:
    """'* Unchecked, from memory and not seen in print: basic specific gravity.'."""
    return f"* Unchecked, from memory and not seen in print: {what}."


def basis_notes(values: Iterable[Value]) -> list[str]:
    """What the bases say that a word in a table does not: recalled, corroborated by, sample."""
    from woodref.reference.properties import PROPERTIES

    used = [(PROPERTIES[v.property_id].label, v) for v in values]
    labels = [
        label + (" (of some members)" if v.members > 1 else "") for label, v in used if v.unchecked
    ]
    return [
        *([unchecked_note("; ".join(labels))] if labels else []),
        *(f"{sentence(label)}: {v.basis_reason}." for label, v in used if v.basis_reason),
        *(
            f"{sentence(label)} is from a narrow sample: {v.sample}."
            for label, v in used
            if v.sample
        ),
    ]


def disagreeing_densities(woods: Iterable[Wood]) -> list[str]:
    """Names the woods whose printed densities disagree, and where to read by how much."""
    from woodref.choose.overview import air_dry_density

    names = [
        wood.common_name
        for wood in woods
        if (density := air_dry_density(wood))
        and any(note.code == "densities-disagree" for note in density.notes)
    ]
    if not names:
        return []
    return [f"Printed densities disagree of {', '.join(names)}: woodref show NAME says how far."]


def computed_notes(method: str, values: Sequence[Value]) -> list[str]:
    """How a figure was computed, and what is to be said of the values it is computed from."""
    return [f"Computed from {method}.", *basis_notes(values), *spread_notes(values)]


def caution_line(notice: Notice, units: str) -> str:
    """A caution in a line, with its kind."""
    return f"Caution, {notice.kind}: {caution_text(notice, units)}"


def caution_text(notice: Notice, units: str) -> str:
    """What a caution says; documents that the text does not name follow it, two at most."""
    unnamed = [s for s in notice.sources if s not in notice.text]
    more = f"; and {len(unnamed) - 2} more" if len(unnamed) > 2 else ""
    source = f" ({'; '.join(unnamed[:2])}{more})" if unnamed else ""
    return f"{notice.said(units)}{source}"


def caution_row(notice: Notice, units: str) -> dict[str, Any]:
    """A caution for programs."""
    return {
        "caution": notice.kind,
        "text": notice.said(units),
        "documents": list(notice.sources),
        "basis": notice.basis,
    }


def sentence(text: str) -> str:
    """The text with a capital letter first."""
    return text[:1].upper() + text[1:]


def sentences(notes: Iterable[Note | str], units: str) -> list[str]:
    """Remarks as sentences, with a capital letter first and a final stop."""
    return [f"{sentence(n if isinstance(n, str) else n.said(units))}." for n in notes]


def spread_notes(values: Sequence[Value]) -> list[str]:
    """The rule of the likely range, and the coefficients of variation it uses here."""
    from woodref.formulas.spread import RULE
    from woodref.reference.properties import PROPERTIES

    used = {
        (p.cv_pct, p.cv_basis): p.label
        for v in values
        if v.sd is not None
        and v.basis != ESTIMATED
        and (p := PROPERTIES[v.property_id]).cv_pct is not None
        and not (v.basis == OWN and abs((v.cv_pct or 0.0) - p.cv_pct) > 1e-6)
    }
    notes = [f"Coefficient of variation {cv:g} %: {basis}." for cv, basis in used]
    estimated = [v.cv_pct for v in values if v.basis == ESTIMATED and v.cv_pct is not None]
    if estimated:
        notes.append(
            f"Spread of the estimate: coefficient of variation {max(estimated):.0f} %, that of the "
            "relation, of the density it starts from and of single boards together."
        )
    return [sentence(RULE) + ".", *notes]
