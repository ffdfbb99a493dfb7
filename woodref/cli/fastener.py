"""The command about screws and nails: fastener."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Explain,
    Force,
    Format,
    Save,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    reference,
)
from woodref.cli.output import checked_save, emit
from woodref.written import parse_length


def fastener_command(
    species: Species,
    screw: Annotated[
        str, typer.Option("--screw", help="A wood screw by its gauge, #8, or its shank, 4mm.")
    ] = "",
    nail: Annotated[
        str, typer.Option("--nail", help="A nail: 8d, 8d box, 8d ring, or its shank.")
    ] = "",
    lag: Annotated[str, typer.Option("--lag", help="A lag screw by its shank: 5/16in.")] = "",
    into: Annotated[
        str, typer.Option("--into", help="How deep its thread, or the nail, is in this wood.")
    ] = "",
    through: Annotated[
        str, typer.Option("--through", help="Thickness of the piece it goes through first.")
    ] = "",
    end_grain: Annotated[
        bool, typer.Option("--end-grain", help="Driven into the end of the board.")
    ] = False,
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """What a screw, nail or lag screw holds, and what to bore.

    The average load of tests that pulls it out of this wood, one sixth of it for a load that stays,
    the pilot hole, and how far to keep from end and edge. Never a structural value.
    """
    from woodref.answers.fastener import fastener_answer
    from woodref.joinery.fastener import named
    from woodref.joinery.holding import holding
    from woodref.reference.fasteners import fastener_tables

    checked_save(save, force)
    unit, tables = length_unit(units), fastener_tables(reference())
    h = holding(
        reference().wood(species),
        named(screw, nail, lag, tables.sizes, unit),
        tables,
        parse_length(into, unit) if into else None,
        parse_length(through, unit) if through else None,
        end_grain,
    )
    answer = fastener_answer(h, units)
    if explain:
        from woodref.explain.fastening import holding_steps

        add_steps(answer, holding_steps(h))
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "fastener",
        epilog=example(
            'woodref fastener "white oak" --screw "#8" --into 1in --through 3/4in',
            'woodref fastener "sugar maple" --screw 4mm --into 25mm --end-grain',
            'woodref fastener "eastern white pine" --nail "8d box" --through 3/4in',
        ),
    )(fastener_command)
