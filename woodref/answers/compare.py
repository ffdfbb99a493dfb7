"""The answer of compare: woods side by side, and whether single boards show the difference."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.compare_words import (
    compare_screen,
    label_of,
    range_of,
    unit_of_row,
    value_of,
    verdicts,
)
from woodref.answers.property_text import (
    exact,
    footnotes,
    marks,
    number,
    spread_lines,
)
from woodref.answers.provenance import disagreeing_densities, sentence
from woodref.answers.words import sold_as
from woodref.choose.compare import COMPARED, COMPUTED, ComparedValue, Comparison, Contrast, Row
from woodref.errors import InputError
from woodref.formulas.spread import DIFFERENCE_RULE
from woodref.reference.densities import DENSITIES
from woodref.reference.names import fold
from woodref.reference.properties import PROPERTIES
from woodref.units import KINDS

#: Words of the shop for figures, beside their own labels.
_WORDS: dict[str, tuple[str, ...]] = {
    "hardness": ("side_hardness", "brinell_hardness"),
    "janka": ("side_hardness",),
    "weight": ("board_mass", "density"),
    "movement": ("movement_flat", "movement_quarter"),
    "stiffness": ("modulus_of_elasticity",),
    "bending strength": ("modulus_of_rupture",),
    "density": ("density",),
}
#: Rows that say how heavy a wood is.
_OF_DENSITY = {"density", "board_mass", *DENSITIES}
#: Letters that the beginning of a word needs, to stand for it.
_SHORTEST = 3
#: Figures that lead where none is asked for, with the most of them.
_LEADS, _MOST_LEADS = ("side_hardness", "board_mass", "movement_flat"), 4


def figures_asked(wanted: Sequence[str]) -> list[str]:
    """The figures meant by what was typed: an identifier, a label or a part of one.

    Raises: InputError with the nearest names.
    """
    return list(dict.fromkeys(key for text in wanted for key in _figures_of(text)))


def _figures_of(text: str) -> Sequence[str]:
    key = fold(text.replace("_", " "))
    if key in _WORDS:
        return _WORDS[key]
    names: dict[str, tuple[str, ...]] = {
        p: (fold(p.replace("_", " ")), fold(v.label)) for p, v in PROPERTIES.items()
    }
    names.update({c: (fold(c.replace("_", " ")),) for c in COMPUTED})
    # By the whole name, then by the beginning of words of it.
    for fits in (key.__eq__, lambda name: len(key) >= _SHORTEST and f" {key}" in f" {name}"):
        figures = [p for p, forms in names.items() if any(fits(f) for f in forms)]
        if figures:
            return figures
    from woodref.files import nearest

    known = [*_WORDS, *(p.replace("_", " ") for p in (*COMPUTED, *COMPARED))]
    hint = nearest(key, known, f"use for example {', '.join(_WORDS)}", 3)
    raise InputError(f"--property '{text}' is no figure of the tables; {hint}")


def _told(row: Row, cells: Sequence[str], names: Sequence[str]) -> str:
    return ", ".join(f"{name} {text}" for name, text in zip(names, cells, strict=True))


def _shown_verdict(c: Contrast) -> str:
    """The verdict in a cell, '' where no spread is known."""
    return "" if c.verdict is None else c.verdict.value


def _lead(comparison: Comparison, row: Row, units: str) -> list[str]:
    """The figure of each wood, and the verdicts."""
    names = [w.common_name for w in comparison.woods]
    cells = [value_of(row, cell, units) if cell else "- (in no table)" for cell in row.cells]
    told = f"{sentence(label_of(row))}: {_told(row, cells, names)}."
    return [" ".join([told, *verdicts(row, names)])]


def _hardness_lead(comparison: Comparison, row: Row, units: str) -> list[str]:
    """As _lead, and how far apart single boards are."""
    ranges = [
        f"{wood.common_name} {range_of(row, cell, units)} {unit_of_row(row, units)}"
        for wood, cell in zip(comparison.woods, row.cells, strict=True)
        if cell
    ]
    return [*_lead(comparison, row, units), f"Single boards likely: {', '.join(ranges)}."]


def _lead_of(comparison: Comparison, row: Row, units: str) -> list[str]:
    if row.property_id == "side_hardness":
        return _hardness_lead(comparison, row, units)
    return _lead(comparison, row, units)


def _lead_rows(comparison: Comparison, asked: Sequence[str] | None) -> list[Row]:
    rows = comparison.rows if asked is not None else [r for r in map(comparison.row, _LEADS) if r]
    shared = [r for r in rows if sum(c is not None for c in r.cells) > 1]
    return list(shared or (rows if asked is not None else ()))[:_MOST_LEADS]


def _cell_text(row: Row, cell: ComparedValue | None, units: str) -> str:
    if cell is None:
        return "-"
    if row.kind:
        text = KINDS[row.kind].text(cell.value, units).removesuffix(KINDS[row.kind].label(units))
    else:
        text = number(row.property_id, cell.values[0].in_units(units).value, units)
    ends = range_of(row, cell, units)
    return f"{text.strip()}{marks(*cell.values)}" + (f" ({ends})" if ends else "")


def _table(comparison: Comparison, units: str) -> Section:
    names = [w.common_name for w in comparison.woods]
    columns = [Column("figure", "figure"), Column("unit", "unit")]
    columns += [Column(f"wood_{i}", name) for i, name in enumerate(names)]
    for i, name in enumerate(names[1:]):
        columns.append(Column(f"ratio_{i}", "ratio" if len(names) == 2 else f"to {name}"))
        columns.append(Column(f"difference_{i}", "difference"))
    rows = []
    for row in comparison.rows:
        cells: dict[str, Any] = {"figure": label_of(row), "unit": unit_of_row(row, units)}
        for i, cell in enumerate(row.cells):
            cells[f"wood_{i}"] = _cell_text(row, cell, units)
        for i, c in enumerate(row.contrasts):
            cells[f"ratio_{i}"] = f"{c.ratio:.2f}" if c else "-"
            cells[f"difference_{i}"] = _shown_verdict(c) if c else "-"
        rows.append(cells)
    return Section(
        "comparison", "Side by side, the range of single boards in parentheses", columns, rows
    )


def _for_programs(comparison: Comparison, units: str) -> Section:
    """One row per figure and wood."""
    columns = (
        *("figure_id", "condition", "wood", "species_id", "value", "unit", "value_low"),
        *("value_high", "basis", "source", "first_over_this", "chance_first_exceeds"),
        "difference",
    )
    rows = []
    for row in comparison.rows:
        cells, contrasts = row.cells_in(units), (None, *row.contrasts)
        for wood, cell, c in zip(comparison.woods, cells, contrasts, strict=True):
            value = _exact(row, cell.value if cell else None, units)
            _, low, high = (_exact(row, v, units) for v in (cell and cell.likely) or (None,) * 3)
            rows.append(
                {
                    "figure_id": row.property_id or row.key,
                    "condition": row.condition,
                    "wood": wood.common_name,
                    "species_id": wood.species_id,
                    "value": value,
                    "unit": unit_of_row(row, units),
                    "value_low": low,
                    "value_high": high,
                    "basis": cell.basis if cell else None,
                    "source": cell.source if cell else None,
                    "first_over_this": round(c.ratio, 4) if c else None,
                    "chance_first_exceeds": None
                    if c is None or c.chance is None
                    else round(c.chance, 4),
                    "difference": _shown_verdict(c) if c else None,
                }
            )
    return Section("comparison", "", [Column(c, "") for c in columns], rows)


def _exact(row: Row, value: float | None, units: str) -> float | None:
    if value is None or not row.kind:
        return exact(row.property_id, value, units)
    return KINDS[row.kind].number(value, units)


def _missing(comparison: Comparison) -> list[str]:
    notes = []
    for i, wood in enumerate(comparison.woods):
        lacking = [label_of(r) for r in comparison.rows if r.cells[i] is None]
        if lacking:
            notes.append(f"A dash for {wood.common_name}: no table holds {'; '.join(lacking)}.")
    return notes


def _group_notes(comparison: Comparison) -> list[str]:
    """What a group is, and how many of its members have each figure."""
    notes = []
    for i, wood in enumerate(comparison.woods):
        if wood.is_group:
            counts: dict[int, list[str]] = {}
            for row in comparison.rows:
                cell = row.cells[i]
                if cell and not row.kind:
                    counts.setdefault(cell.values[0].members, []).append(label_of(row))
            told = "; ".join(
                f"{n} of them: {', '.join(labels)}"
                for n, labels in sorted(counts.items(), reverse=True)
                if n < len(wood.members)
            )
            notes.append(
                f"{sentence(wood.common_name)}: {wood.note}. The value is the unweighted mean of "
                "the members that have it, the spread the root of that within and that between "
                f"them squared and added{f'; held by {told}' if told else ''}."
            )
        elif wood.note:
            notes.append(f"{sentence(wood.common_name)}: {wood.note}.")
    return notes


def _sample_notes(comparison: Comparison) -> list[str]:
    notes = [
        f"{sentence(wood.common_name)}, {PROPERTIES[v.property_id].label}: narrow sample, "
        f"{v.sample}."
        for i, wood in enumerate(comparison.woods)
        for cell in (row.cells[i] for row in comparison.rows)
        for v in (cell.values if cell else ())
        if v.sample
    ]
    return list(dict.fromkeys(notes))


def _notes(comparison: Comparison, asked: Sequence[str] | None) -> list[str]:
    values = [v for r in comparison.rows for c in r.cells if c for v in c.values]
    keys = {r.property_id or r.key for r in comparison.rows}
    unlike = any(r.condition not in ("", "12pct", "range", "green") for r in comparison.rows)
    told = (
        (True, f"{sentence(DIFFERENCE_RULE)}. Boards of two woods are independent."),
        (
            asked is None and "side_hardness" not in keys,
            "No table holds a side hardness (Janka) of these woods.",
        ),
        (
            "brinell_hardness" in keys,
            "Brinell hardness is another test than Janka's; the two are never compared.",
        ),
        (unlike, "Figures of unlike moisture condition stand in rows of their own."),
        (any(r.kind for r in comparison.rows), comparison.board.assumptions),
    )
    return [
        *(text for holds, text in told if holds),
        *_missing(comparison),
        *_group_notes(comparison),
        *_sample_notes(comparison),
        *(disagreeing_densities(comparison.woods) if keys & _OF_DENSITY else []),
        *footnotes(marks(*values)),
        *spread_lines(values),
        "Not structural design values. woodref show NAME --sources says where each number stands.",
    ]


def compare_answer(
    comparison: Comparison,
    units: str,
    asked: Sequence[str] | None = None,
    for_people: bool = True,
) -> Answer:
    """A comparison as an answer.

    Parameters: comparison; units; asked the figures asked for, None for the usual ones;
    for_people false for one row per figure and wood.
    Raises: InputError where no wood has a figure asked for.
    """
    if not comparison.rows:
        raise InputError(
            f"no table holds {', '.join(asked or ['a figure'])} of these woods; without "
            "--property compare shows what there is"
        )
    leads = [
        line for row in _lead_rows(comparison, asked) for line in _lead_of(comparison, row, units)
    ]
    return Answer(
        headline=leads,
        screen=compare_screen(comparison, _lead_rows(comparison, asked), units),
        names=sold_as(*comparison.woods),
        facts=[
            (Column("woods", ""), [w.common_name for w in comparison.woods]),
            (Column("rule", ""), DIFFERENCE_RULE),
        ],
        sections=[_table(comparison, units) if for_people else _for_programs(comparison, units)],
        notes=_notes(comparison, asked),
    )
