"""The command about sag: deflection."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Explain,
    Force,
    Format,
    Plot,
    Save,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
)
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.written import parse_length, parse_load, parse_thickness

if TYPE_CHECKING:
    from woodref.charts.figure import Figure


def _section(texts: tuple[str, str, str], bare: str) -> tuple[float, float]:
    """Width and thickness [mm], of a round part its diameter twice."""
    width, thickness, diameter = texts
    if bool(diameter) == bool(width or thickness) or bool(width) != bool(thickness):
        raise InputError("give --width and --thickness, or the --diameter of a round part")
    if diameter:
        return (parse_length(diameter, bare),) * 2
    return parse_length(width, bare), parse_thickness(thickness, bare)


def deflection_command(
    species: Annotated[
        str,
        typer.Argument(help="The wood, by any of its names; or plywood, MDF, particleboard, OSB."),
    ],
    span: Annotated[str, typer.Option("--span", help="Free length between the supports.")],
    width: Annotated[str, typer.Option("--width", help="Width (the depth of a shelf).")] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Thickness: 3/4in, 18mm, 4/4.")
    ] = "",
    diameter: Annotated[
        str, typer.Option("--diameter", help="Of a dowel or turned rail, in place of both.")
    ] = "",
    uniform: Annotated[
        str, typer.Option("--uniform", help="Load spread over the span: 20 lb/ft, 300 N/m.")
    ] = "",
    load: Annotated[
        str,
        typer.Option(
            "--load",
            help="A usual load: shelf, books or 'row of books'; or nothing, for its own weight.",
        ),
    ] = "",
    point: Annotated[str, typer.Option("--point", help="A load on one spot: 50 lb, 200 N.")] = "",
    at: Annotated[
        str, typer.Option("--at", help="Where that is, from one end; else the worst spot.")
    ] = "",
    short: Annotated[
        bool, typer.Option("--short", help="The load comes and goes, as a person on a seat.")
    ] = False,
    support: Annotated[
        str, typer.Option("--support", help="How it is held: simple, fixed or cantilever.")
    ] = "simple",
    percent: Annotated[
        str, typer.Option("--moisture", help="Moisture content in use: 8, or air 68F,40%.")
    ] = "8",
    creep: Annotated[
        float | None,
        typer.Option("--creep", help="Sag after years over the first sag; else 1.5 and 2."),
    ] = None,
    limit: Annotated[
        str,
        typer.Option("--limit", help="A limit of your own, as a fraction of the span: L/240."),
    ] = "",
    shear_free: Annotated[
        bool, typer.Option("--shear-free", help="Take the test's shear out of the modulus.")
    ] = False,
    units: Units = UnitSystem.us,
    explain: Explain = False,
    plot: Plot = "",
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How much a shelf, top or rail sags, now and in years.

    --plot draws it as it sags, with its limits.
    """
    from woodref.answers.deflection import deflection_answer
    from woodref.board.beam_material import of_panel, of_wood
    from woodref.board.deflection import deflection
    from woodref.board.sag_limits import parse_limit
    from woodref.board.span import Span, carried, carrying
    from woodref.reference.panel_names import panel_called
    from woodref.reference.panels import panel_figures
    from woodref.reference.sag_rules import sag_rules

    checked_plot(plot, force)
    bare, rules = length_unit(units), sag_rules(reference())
    bare_span = Span(
        parse_length(span, bare),
        *_section((width, thickness, diameter), bare),
        support.strip().lower(),
        parse_load(uniform, True) if uniform else 0.0,
        parse_load(point, False) if point else 0.0,
        parse_length(at, bare) if at else None,
        short=short,
        is_round=bool(diameter),
    )
    panel = panel_called(species)
    if panel and shear_free:
        raise InputError("--shear-free is for solid wood")
    if panel:
        material = of_panel(panel, panel_figures(reference(), panel))
    else:
        material = of_wood(reference().wood(species), moisture(percent, units), shear_free)
    d = deflection(
        material,
        carrying(bare_span.checked(), carried(load) if load else None, rules),
        rules,
        creep,
        parse_limit(limit) if limit else None,
    )
    answer = deflection_answer(d, units)
    if explain:
        from woodref.explain.board import span_steps

        add_steps(answer, span_steps(d.material.name, d))

    def draw() -> Figure:
        from woodref.charts.sag import sagged

        return sagged(d, units)

    emit_with_plot(answer, units, style, plot, draw, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "deflection",
        epilog=example(
            "woodref deflection cherry --span 36in --width 10in --thickness 3/4in --load books",
            'woodref deflection "eastern white pine" --span 36in --width 10in --thickness 3/4in '
            '--uniform "20 lb/ft"',
        ),
    )(deflection_command)
