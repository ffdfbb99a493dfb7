"""Says who: where each figure of a wood stands in print, and what else is printed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import figure_label, number, unit_of
from woodref.reference.bases import BASES, OWN, in_words
from woodref.reference.printed import Printed
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Wood


def _where(p: Printed) -> dict[str, object]:
    property_id, condition = p.key
    return {
        "property_id": property_id,
        "condition": condition,
        "species_id": p.species_id,
        "figure": figure_label(property_id, condition),
        "printed": p.value.printed.removesuffix(" 1"),
        "basis": p.value.basis,
        "publication": p.publication,
        "table": p.table,
        "page": p.page,
        "measurement_id": p.measurement_id,
        "basis_reason": "; ".join(x for x in (p.value.basis_reason, p.value.sample) if x),
        "plausibility_flag": p.plausibility_flag,
    }


def verdict(other: Printed, used: Printed | None) -> str:
    """Whether a figure agrees with the one used: within printed rounding, or by how much not."""
    if used is None:
        return "none is used"
    if other.agrees_with(used):
        return "agrees"
    return f"{other.difference_pct(used):+.1f} %"


def _columns(wood: Wood, *more: Column) -> list[Column]:
    return [
        Column("property_id", ""),
        Column("condition", ""),
        Column("species_id", "wood" if wood.is_group else ""),
        Column("figure", "figure"),
        Column("printed", "printed"),
        *more,
        Column("basis", "basis"),
        Column("publication", "publication"),
        Column("table", "table"),
        Column("page", "page"),
        Column("measurement_id", ""),
    ]


def _in_order(figures: Sequence[Printed]) -> list[Printed]:
    order = list(PROPERTIES)
    return sorted(figures, key=lambda p: (order.index(p.key[0]), p.key[1], p.species_id))


def source_sections(wood: Wood, figures: Sequence[Printed], units: str) -> list[Section]:
    """Where each figure used stands, and every other printed value of the same.

    Parameters: wood; figures of the wood or of the members of a group; units for the value
    that a figure printed in other units comes to.
    """
    used = {(p.species_id, p.key): p for p in figures if p.preferred}
    others = []
    for p in _in_order([p for p in figures if not p.preferred]):
        value = f"{number(p.key[0], p.value.value, units)} {unit_of(p.key[0], units)}".rstrip()
        others.append(
            {
                **_where(p),
                "value_text": value,
                "agrees": verdict(p, used.get((p.species_id, p.key))),
                "why_not_used": "; ".join(
                    x
                    for x in (
                        _reason(p),
                        p.plausibility_flag and f"implausible: {p.plausibility_flag}",
                    )
                    if x
                ),
            }
        )
    own = [
        {"figure": figure_label(*key), "printed": v.printed.removesuffix(" 1"), "source": v.source}
        for w in (wood.members or (wood,))
        for key, v in w.values.items()
        if v.basis == OWN
    ]
    columns = [
        Column("figure", "figure"),
        Column("printed", "figure as given"),
        Column("source", "origin"),
    ]
    return [
        *([Section("own_figures", "Your own figures, used instead", columns, own)] if own else []),
        Section(
            "used_printed_values",
            "Where the figures stand",
            [*_columns(wood), Column("basis_reason", "repeated by, or sample")],
            [_where(p) for p in _in_order(list(used.values()))],
        ),
        Section(
            "other_printed_values",
            "Other printed values, and whether they agree within printed rounding",
            _columns(
                wood,
                Column("value_text", "that is"),
                Column("agrees", "agrees"),
                Column("plausibility_flag", ""),
                Column("why_not_used", "why it is not used"),
            ),
            others,
        ),
    ]


def _reason(p: Printed) -> str:
    """Why another figure is used; a figure outside physical sense says so by itself."""
    return "" if p.plausibility_flag else p.preference


def sources_line(figures: Sequence[Printed]) -> list[str]:
    """Who says so, how sure it is, and whether others disagree, in a line or two."""
    used = {(p.species_id, p.key): p for p in figures if p.preferred}
    if not used:
        return []
    bases = Counter(p.value.basis for p in used.values())
    others = [p for p in figures if not p.preferred and (p.species_id, p.key) in used]
    disagree = [p for p in others if not p.agrees_with(used[p.species_id, p.key])]
    implausible = sum(1 for p in figures if p.plausibility_flag)
    told = ", ".join(f"{bases[b]} {in_words(b)}" for b in BASES if bases[b])
    return [
        f"{len(used)} figures are used, from {len({p.publication for p in used.values()})} "
        f"publications: {told}.",
        f"{len(others)} other printed values: {len(others) - len(disagree)} agree within printed "
        f"rounding, {len(disagree)} do not; {implausible} implausible.",
    ]
