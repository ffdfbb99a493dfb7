"""Commands about the shop's own numbers: own add, list, remove, weigh."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from woodref.cli.options import (
    Format,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    mass_unit,
    moisture,
    names_region,
    reference,
)
from woodref.cli.output import emit
from woodref.cli.say import complain, say
from woodref.errors import WoodrefError

#: Bad rows named one by one on a terminal; all of them stand in the rejects file.
_NAMED = 20

own = typer.Typer(
    name="own",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Your shop's own figures: boards, prices, logged air.\n\n"
    "They go before the printed figures and never touch them; --no-own leaves them out.",
    epilog=example(
        'woodref own add boards.csv --kind measurements --origin "weighed in the shop"',
        "woodref own list",
    ),
    context_settings={"help_option_names": ["-h", "--help"]},
)


class OwnKind(StrEnum):
    """Kinds of tables the shop can add."""

    measurements = "measurements"
    prices = "prices"
    places = "places"
    yard = "yard"


@own.command(
    "add",
    epilog=example(
        'woodref own add boards.csv --kind measurements --origin "weighed in the shop, 2026"'
    ),
)
def add(
    table: Annotated[Path, typer.Argument(help="A CSV file; woodref template KIND starts one.")],
    kind: Annotated[OwnKind, typer.Option("--kind", help="What the table holds.")],
    origin: Annotated[str, typer.Option("--origin", help="Where the figures come from.")],
    force: Annotated[
        bool, typer.Option("--force", help="Replace a rejects file of other rows.")
    ] = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Take a table of your own figures into the dataset.

    Rows that cannot be used are named on stderr and kept, with the reason, in
    TABLE.rejects.csv beside the table.
    """
    from woodref.answers.own import intake_answer
    from woodref.own.intake import take_in

    intake = take_in(reference(), table, kind.value, origin, overwrite=force)
    named = intake.bad[:_NAMED] if sys.stderr.isatty() else intake.bad
    for bad in named:
        complain(f"woodref: {table}: {bad}")
    if len(intake.bad) > len(named):
        complain(f"woodref: {table}: and {len(intake.bad) - len(named):,} more rows")
    if not intake.kept:
        raise WoodrefError(
            f"{table}: none of {intake.rows} rows can be used"
            + (f"; they are kept, with the reasons, in {intake.rejects}" if intake.rejects else "")
        )
    emit(intake_answer(intake), units, style)


@own.command("list", epilog=example("woodref own list"))
def list_all(units: Units = UnitSystem.us, style: Format = Style.table) -> None:
    """What of your own is stored, table by table."""
    from woodref.answers.own import stored_answer
    from woodref.own.storage import every_batch
    from woodref.user_folders import user_folder

    emit(stored_answer(every_batch(), user_folder("data")), units, style)


@own.command("remove", epilog=example("woodref own remove m1"))
def remove(
    batch: Annotated[str, typer.Argument(help="The id that woodref own list shows.")],
) -> None:
    """Take a table of your own out again."""
    from woodref.answers.own import removed_line
    from woodref.own.storage import take_out

    say(removed_line(batch, take_out(batch)))


@own.command(
    "weigh",
    epilog=example(
        'woodref own weigh "white oak" --length 48in --width 6in --thickness 1in '
        '--weight "8 lb" --moisture 8'
    ),
)
def weigh_command(
    species: Species,
    length: Annotated[str, typer.Option("--length", help="Length of the board.")],
    width: Annotated[str, typer.Option("--width", help="Width of the board.")],
    thickness: Annotated[str, typer.Option("--thickness", help="Its true thickness.")],
    mass: Annotated[str, typer.Option("--weight", help="What it weighs: 8 lb, 3.1 kg, 2 lb 4 oz.")],
    moisture_content: Annotated[
        str, typer.Option("--moisture", help="Its moisture content, 8 or air 68F,40%.")
    ],
    keep: Annotated[bool, typer.Option("--keep", help="Keep it as your own figure.")] = False,
    origin: Annotated[
        str, typer.Option("--origin", help="Where the board comes from, kept with the figure.")
    ] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Is a board heavy for its kind? Weigh it; keep it as your own figure."""
    from woodref.answers.own import weighed_answer
    from woodref.own.weigh import keep as keep_board
    from woodref.own.weigh import weigh
    from woodref.reference.library import Reference
    from woodref.written import parse_length, parse_mass

    wood = reference().wood(species)
    bare = length_unit(units)
    board = weigh(
        wood,
        parse_length(length, bare),
        parse_length(width, bare),
        parse_length(thickness, bare),
        parse_mass(mass, mass_unit(units)),
        moisture(moisture_content, units),
        reference().relation_of(wood),
        Reference(own=False, region=names_region()).wood(species),
    )
    batch = keep_board(board, origin) if keep else ""
    emit(weighed_answer(board, batch, units), units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program, as a group."""
    app.add_typer(own, name="own")
