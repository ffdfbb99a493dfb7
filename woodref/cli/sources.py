"""Commands about the data: sources, sql."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.cli.options import Format, Style, Units, UnitSystem, example, reference
from woodref.cli.output import emit
from woodref.cli.say import say
from woodref.errors import InputError


def sources_command(
    name: Annotated[str, typer.Argument(help="A source to tell about; all of them without.")] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """The publications behind the numbers."""
    from woodref.answers.sources import source_answer, sources_answer
    from woodref.reference.sources import figures_of, source_named, sources_of

    store = reference().store
    sources = sources_of(store)
    if not name:
        emit(sources_answer(sources), units, style)
        return
    source = source_named(name, sources)
    emit(source_answer(source, figures_of(store, source.source_id)), units, style)


def sql_command(
    query: Annotated[str, typer.Argument(help="One select statement.")] = "",
    macros: Annotated[
        bool, typer.Option("--macros", help="Print the formulas as macros of DuckDB instead.")
    ] = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Ask the tables of the dataset in SQL.

    For reading alone; values are SI, as stored. The tables: species, names, groups,
    properties, measurements, ratings, sources, cautions and others; 'show tables' lists
    them and 'describe species' the columns of one.
    """
    if macros:
        from woodref.catalog.macros import macros as formulas

        say(formulas())
        return
    if not query:
        raise InputError('name a statement: woodref sql "select common_name from species limit 5"')
    import signal

    from woodref.answers.sources import query_answer
    from woodref.reference.query import run_query

    # A long query looks at an interrupt late or not at all; there is nothing here to clean up.
    before = signal.signal(signal.SIGINT, signal.SIG_DFL)
    try:
        columns, rows = run_query(query)
    finally:
        signal.signal(signal.SIGINT, before)
    emit(query_answer(columns, rows), units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("sources", epilog=example("woodref sources", "woodref sources wood-handbook-2021"))(
        sources_command
    )
    app.command(
        "sql",
        epilog=example(
            'woodref sql "select common_name, side_hardness_n from species '
            'order by 2 desc limit 5"',
            'woodref sql "describe measurements"',
            "woodref sql --macros > formulas.sql",
        ),
    )(sql_command)
