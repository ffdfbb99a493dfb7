"""The command that starts a file: template."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from woodref.cli.options import Force, Units, UnitSystem, example, source_of
from woodref.cli.piece_input import Town
from woodref.cli.say import say
from woodref.errors import InputError


class Template(StrEnum):
    """Files to start from: kinds of pieces, then lists."""

    piece = "piece"
    table = "table"
    cabinet = "cabinet"
    bookcase = "bookcase"
    bench = "bench"
    chest = "chest"
    bed = "bed"
    frame_and_panel_door = "frame-and-panel-door"
    prices = "prices"
    measurements = "measurements"
    places = "places"
    yard = "yard"


#: What to do next with a file that is no piece.
_NEXT = {
    Template.prices: "woodref estimate PIECE.toml --prices {}",
    Template.measurements: 'woodref own add {} --kind measurements --origin "..."',
    Template.places: 'woodref own add {} --kind places --origin "..."',
    Template.yard: 'woodref own add {} --kind yard --origin "..."',
}
#: Options that only a kind of piece takes.
_OF_A_KIND = {"parts": "--from", "wood": "--wood", "place": "--place", "units": "--units"}


def _no_options(context: typer.Context, what: Template) -> None:
    """Refuse what is asked for a file that is printed as it is."""
    from woodref.piece.start_file import KINDS

    for name, option in _OF_A_KIND.items():
        if source_of(context, name) == "COMMANDLINE":
            raise InputError(f"{option} goes with {', '.join(KINDS)}, not with {what.value}")


def template_command(
    context: typer.Context,
    what: Annotated[Template, typer.Argument(help="Which file to start from.")],
    parts: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="Put the parts of this cut list (CSV) in."),
    ] = None,
    wood: Annotated[
        str,
        typer.Option(
            "--wood", metavar="WOOD", help="The wood; of a cut list, that of parts without one."
        ),
    ] = "",
    place: Town = "",
    units: Units = UnitSystem.us,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", help="Write to this file.")
    ] = None,
    force: Force = False,
) -> None:
    """A commented file to start from: a piece, prices, own figures.

    The pieces are invented, and show every key that a piece file may have.
    """
    from woodref.cli.output import checked_save
    from woodref.files import write_text
    from woodref.piece.start_file import KINDS, template_file

    checked_save(output, force, parts)
    if what.value in KINDS:
        text = _piece(what, parts, wood, place, units, force)
    else:
        _no_options(context, what)
        text = template_file(what.value)
    if output is None:
        say(text, end="")
    else:
        write_text(output, text, overwrite=force)
        following = _NEXT.get(what, "woodref estimate {}").format(output)
        say(f"{output} written; edit it, then: {following}")


def _piece(
    what: Template, parts: Path | None, wood: str, place: str, units: UnitSystem, force: bool
) -> str:
    """The piece file of a kind; rows of a cut list that are no parts are told and kept."""
    from woodref.cli.options import reference
    from woodref.piece.start_file import Start, piece_file

    if parts is None:
        if wood:
            reference().wood(wood)  # refused here, where it was typed
        return piece_file(what.value, units.value, Start(wood=wood, place=place))
    from woodref.cli.boards_file import keep_rejects
    from woodref.lumber.cut_list import woods_of
    from woodref.piece.cut_list_piece import read_parts
    from woodref.reference.panel_names import panel_of

    listed = read_parts(parts, units.value, wood)
    solid = [part for part in listed.parts if not panel_of(part.species)]
    woods_of(solid, str(parts), reference().wood)
    keep_rejects(parts, listed.header, listed.rejects, len(listed.parts), force)
    start = Start(name=parts.stem, place=place, rows=listed.cells)
    return piece_file(what.value, units.value, start)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "template",
        epilog=example(
            "woodref template bookcase -o bookcase.toml",
            'woodref template table --from PARTS.csv --wood "white oak" -o table.toml',
        ),
    )(template_command)
