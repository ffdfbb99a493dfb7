"""The tables behind a substitute: look, trade names, limits, woods left apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import mark_of, marks_of
from woodref.answers.uses import exact, figure_text, filters_section, label_of, unit_text
from woodref.choose.changes import Verdict
from woodref.choose.columns import COLUMNS, ChoiceColumn, Marked
from woodref.choose.figures_in_units import figure_in_units

if TYPE_CHECKING:
    from woodref.choose.changes import Change
    from woodref.choose.substitute_result import Substitutes
    from woodref.reference.looks import Look
    from woodref.reference.woods import Wood

#: Woods named in a line, trade names told of a wood.
NAMED, _NAMES = 6, 2


def listed(names: Sequence[str]) -> str:
    """Names in a line, the first few where there are many."""
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return ", ".join(names[:NAMED]) + more


def _marked_text(column: ChoiceColumn, value: float | None, units: str, marked: Marked) -> str:
    text = figure_text(column, value, units)
    return text + marks_of(marked) if text else "no data"


def _verdict(c: Change) -> str:
    if c.verdict is Verdict.UNKNOWN:
        return "not known"
    if c.verdict is Verdict.SAME:
        return "same" if c.before == c.after else "same, within natural spread"
    return f"{c.verdict}, {'clearly' if c.clear else 'slightly'}"


def changes_section(
    substitutes: Substitutes, others: Mapping[str, Wood], units: str, people: bool
) -> Section:
    """Each criterion before and after; for people of the closest wood alone.

    Parameters: substitutes; others, the woods by species_id; units; people.
    """
    woods = substitutes.woods[:1] if people else (*substitutes.woods, *substitutes.own_group)
    rows = []
    for s in woods:
        for c in s.changes:
            column = c.criterion.column
            before = figure_in_units(substitutes.wood, column, c.before, units)
            after = figure_in_units(others[s.species_id], column, c.after, units)
            row: dict[str, Any] = {"wood": s.common_name, "criterion": column.name}
            if people:
                row |= {
                    "label": label_of(column, units),
                    "before": _marked_text(column, before, units, c.of_first),
                    "after": _marked_text(column, after, units, c.of_other),
                    "verdict": _verdict(c),
                }
            else:
                row |= {
                    "value_before": exact(column, before, units),
                    "value": exact(column, after, units),
                    "unit": unit_text(column, units),
                    "beside_first": c.verdict,
                    "clear": c.clear,
                    "unchecked": c.unchecked,
                    "estimated": c.estimated,
                }
            rows.append(row)
    if people:
        best = woods[0].common_name if woods else ""
        columns = [
            Column("label", "what counts"),
            Column("before", substitutes.wood.common_name),
            Column("after", best),
            Column("verdict", "change"),
        ]
        return Section("changes", f"What changes with {best}", columns, rows)
    keys = (
        *("wood", "criterion", "value_before", "value", "unit"),
        *("beside_first", "clear", "unchecked", "estimated"),
    )
    return Section("changes", "", [Column(k, "") for k in keys], rows)


#: Cells of the look a table shows, after hue and lightness.
_CELLS = ("texture", "pores", "pore_size", "figure", "luster", "color_with_age")


def look_section(substitutes: Substitutes, people: bool) -> Section:
    """The look of each wood beside the first: its class, then what it is made of."""
    cells = ("hue", "lightness", *_CELLS)
    woods = (*substitutes.woods, *(() if people else substitutes.own_group))
    rows: list[dict[str, Any]] = [
        {
            "wood": s.name if people else s.common_name,
            "look_band": s.look.band or ("not known" if people else None),
            "look_differs": ", ".join(s.look.differs) if people else list(s.look.differs),
            "printed_alike": "; ".join(f"p. {r.page}" for r in s.look.printed)
            if people
            else [f"{r.edition}, p. {r.page}" for r in s.look.printed],
            **_cells(s.look.other, people),
        }
        for s in woods
    ]
    if people:
        first = _cells(substitutes.look, people)
        rows.insert(0, {"wood": substitutes.wood.common_name, **first})
    columns = [
        Column("wood", "wood"),
        Column("look_band", "look"),
        Column("look_differs", "differs in"),
        Column("printed_alike", ""),
        *(Column(_key(c), c.replace("_", " ")) for c in cells),
    ]
    if people:
        columns = [c for c in columns if c.key not in ("lightness", "luster", "printed_alike")]
    return Section("look", "Look, as typical of the wood as sold", columns, rows)


def _cells(look: Look | None, people: bool) -> dict[str, Any]:
    """Cells of a look, with their marks for people."""
    if look is None:
        return {}
    told = {**look.seen, **{c: look.cells[c] for c in _CELLS if c in look.cells}}
    if not people:
        return {_key(name): cell.value for name, cell in told.items()}
    return {_key(name): f"{cell.value}{mark_of(cell.basis)}" for name, cell in told.items()}


def _key(cell: str) -> str:
    """The key of a cell: a figure is a number elsewhere."""
    return "wood_figure" if cell == "figure" else cell


def names_section(substitutes: Substitutes, people: bool) -> Section:
    """Trade names to beware of, for people two of each wood at most."""
    rows: list[dict[str, Any]] = [
        {
            "trade_name": n.name,
            "wood": s.common_name,
            "wood_count": n.woods,
            "covers_both": n.covers_both,
            "note": n.note or None,
        }
        for s in substitutes.woods
        for n in (s.names[:_NAMES] if people else s.names)
    ]
    if people:
        rows = list({r["trade_name"]: r for r in reversed(rows)}.values())[::-1]
    columns = [
        Column("trade_name", "sold as"),
        Column("wood", "ask if it is"),
        Column("wood_count", "may mean", "count"),
        Column("covers_both", f"also {substitutes.wood.common_name}"),
        Column("note", "note"),
    ]
    return Section("trade_names", "Trade names that cover several woods", columns, rows)


def limits_section(substitutes: Substitutes) -> Section:
    """Each limit, what it stops and what it leaves."""
    return filters_section("Limits, in order", substitutes.filter_counts, lambda one: one.text)


def missing_section(substitutes: Substitutes, units: str, people: bool) -> Section:
    """Woods of which too little is known, for people by what is missing."""
    if not people:
        rows: list[dict[str, Any]] = [
            {
                "wood": x.common_name,
                "species_id": x.species_id,
                "missing_columns": list(x.missing_columns),
            }
            for x in substitutes.unranked
        ]
        return Section(
            "unranked", "", [Column(k, "") for k in ("wood", "species_id", "missing_columns")], rows
        )
    groups: dict[str, list[str]] = {}
    for x in substitutes.unranked:
        labels = [label_of(COLUMNS[c], units) for c in x.missing_columns] + list(x.unjudged)
        text = ", ".join(labels) if len(labels) < 3 else "three figures or more"
        groups.setdefault(text, []).append(x.common_name)
    rows = [
        {"missing": text, "count": len(names), "which": listed(names)}
        for text, names in sorted(groups.items(), key=lambda item: -len(item[1]))
    ]
    columns = [
        Column("missing", "missing"),
        Column("count", "woods", "count"),
        Column("which", "which"),
    ]
    return Section("unranked", "Not ranked: figures missing", columns, rows)
