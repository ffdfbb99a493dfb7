"""The command about sag: deflection."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.provenance import based_on, basis_notes, recalled_line, sentences
from woodref.answers.render import Answer, Column, Section
from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Explain,
    Format,
    Save,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
)
from woodref.cli.output import emit
from woodref.units import KINDS, parse_length, parse_load, parse_thickness

if TYPE_CHECKING:
    from woodref.board.deflection import Deflection

_NEVER = (
    "Never a structural value: it says whether a shelf looks straight, not whether it is safe; "
    "for anything that must carry people or may fall on them, local codes and licensed practice "
    "decide."
)


def _lead(d: Deflection, units: str) -> list[str]:
    change, size = KINDS["change"].text, KINDS["size_up"].text
    name = d.wood.common_name
    seen = "seen as sagging" if d.seen else "too little to be seen"
    under = "that" if d.limit_mm == d.visible_mm else change(d.limit_mm, units)
    lines = [
        f"{name[:1].upper()}{name[1:]} sags {change(d.now_mm.expected, units)} now and about "
        f"{change(d.later_mm.expected, units)} after years of this load: {seen} "
        f"(the eye begins at {change(d.visible_mm, units)}).",
    ]
    if d.needed_mm == float("inf"):
        return [*lines, f"No thickness up to {size(500.0, units)} keeps it under {under}."]
    safe = "" if d.safe_mm == float("inf") else f", {size(d.safe_mm, units)} if the board is limp"
    return [
        *lines,
        f"To stay under {under} for years it must be {size(d.needed_mm, units)} thick{safe}. "
        "Never a structural value.",
    ]


def deflection_command(
    species: Species,
    span: Annotated[str, typer.Option("--span", help="Free length between the supports.")],
    width: Annotated[str, typer.Option("--width", help="Width (the depth of a shelf).")],
    thickness: Annotated[str, typer.Option("--thickness", help="Thickness: 3/4in, 18mm, 4/4.")],
    uniform: Annotated[
        str, typer.Option("--uniform", help="Load spread over the span: 20 lb/ft, 300 N/m.")
    ] = "",
    point: Annotated[str, typer.Option("--point", help="A load on one spot: 50 lb, 200 N.")] = "",
    at: Annotated[
        str, typer.Option("--at", help="Where that is, from one end; else the worst spot.")
    ] = "",
    support: Annotated[
        str, typer.Option("--support", help="How it is held: simple, fixed or cantilever.")
    ] = "simple",
    percent: Annotated[
        str, typer.Option("--moisture", help="Moisture content in use: 8, or air 68F,40%.")
    ] = "8",
    creep: Annotated[
        float, typer.Option("--creep", help="Sag after years over the first sag.")
    ] = 2.0,
    limit: Annotated[
        str, typer.Option("--limit", help="Sag to stay under after years; else what the eye sees.")
    ] = "",
    shear_free: Annotated[
        bool, typer.Option("--shear-free", help="Take the test's shear out of the modulus.")
    ] = False,
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """How much a shelf, top or rail sags, now and in years."""
    from woodref.board.deflection import SUPPORTS, Span, deflection

    bare = length_unit(units)
    load = Span(
        parse_length(span, bare),
        parse_length(width, bare),
        parse_thickness(thickness, bare),
        support.strip().lower(),
        parse_load(uniform, True) if uniform else 0.0,
        parse_load(point, False) if point else 0.0,
        parse_length(at, bare) if at else None,
    )
    d = deflection(
        reference().wood(species),
        load,
        moisture(percent, units),
        creep,
        shear_free,
        parse_length(limit, bare) if limit else None,
    )
    rows = [
        {"when": when, "sag": sag.expected, "low": sag.low, "high": sag.high}
        for when, sag in (("now", d.now_mm), ("after years", d.later_mm))
    ]
    answer = Answer(
        headline=[*_lead(d, units.value), *recalled_line(d.values)],
        facts=[
            (Column("wood", ""), d.wood.common_name),
            (Column("modulus_of_elasticity", "", "modulus"), d.modulus_mpa),
            (Column("own_weight", "", "force"), d.own_weight_n),
            (Column("visible", "", "change"), d.visible_mm),
            (Column("limit", "", "change"), d.limit_mm),
            (Column("needed_thickness", "", "size_up"), _finite(d.needed_mm)),
            (Column("needed_thickness_if_limp", "", "size_up"), _finite(d.safe_mm)),
            (Column("creep_factor", "", "ratio"), d.creep_factor),
        ],
        sections=[
            Section(
                "sag",
                "",
                [
                    Column("when", "when"),
                    Column("sag", "sag", "change"),
                    Column("low", "likely from", "change_end"),
                    Column("high", "to", "change_end"),
                ],
                rows,
            ),
            based_on(d.values),
        ],
        notes=[
            _NEVER,
            f"A solid board {SUPPORTS[load.support]}, its own weight counted; where two loads have "
            "their worst spots apart, the two largest sags are added.",
            *sentences(d.notes),
            f"After years about {d.creep_factor:g} times the first sag at usual loads in a dry "
            "room (FPL-GTR-190 (2010), 5-39, inferred); two to three times the creep where it is "
            "50 F warmer, four to six times the first sag where green wood dries under load.",
            "Visible sag: 0.02 in per foot of span (common practice, no source).",
            "Likely range of a single board from the coefficient of variation of the modulus, "
            "22 %: FPL-GTR-190 (2010), Table 5-6 (memory).",
            *basis_notes(d.values),
        ],
    )
    if explain:
        from woodref.explain.board import span_steps

        add_steps(answer, span_steps(d.wood.common_name, d))
    emit(answer, units.value, style.value, save)


def _finite(size_mm: float) -> float | None:
    return None if size_mm == float("inf") else size_mm


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "deflection",
        epilog=example(
            'woodref deflection "eastern white pine" --span 36in --width 10in --thickness 3/4in '
            '--uniform "20 lb/ft"'
        ),
    )(deflection_command)
