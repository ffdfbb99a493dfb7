"""Commands about the shop's own numbers: own add, list, remove, weigh."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.render import Answer, Column, Section
from woodref.cli.options import (
    Format,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    mass_unit,
    moisture,
    reference,
)
from woodref.cli.output import emit
from woodref.errors import InputError, WoodrefError

if TYPE_CHECKING:
    from woodref.own.weigh import WeighedBoard

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
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Take a table of your own figures into the dataset.

    Rows that cannot be used are named on stderr and kept, with the reason, in
    TABLE.rejects.csv beside the table.
    """
    from woodref.own.intake import take_in

    found = take_in(reference(), table, kind.value, origin)
    named = found.bad[:_NAMED] if sys.stderr.isatty() else found.bad
    sys.stderr.write("".join(f"woodref: {table}: {bad}\n" for bad in named))
    if len(found.bad) > len(named):
        sys.stderr.write(f"woodref: {table}: and {len(found.bad) - len(named):,} more rows\n")
    if not found.kept:
        raise WoodrefError(
            f"{table}: none of {found.rows} rows can be used"
            + (f"; they are kept, with the reasons, in {found.rejects}" if found.rejects else "")
        )
    lead = f"{found.kept:,} of {found.rows:,} rows kept as {found.batch}."
    if found.rejects:
        lead += f" The other {len(found.bad):,} stand with their reasons in {found.rejects}."
    emit(
        Answer(
            headline=[lead],
            facts=[
                (Column("batch", ""), found.batch),
                (Column("rows", "", "count"), found.rows),
                (Column("kept", "", "count"), found.kept),
                (Column("rejected", "", "count"), len(found.bad)),
                (Column("rejects_file", ""), str(found.rejects or "")),
            ],
            notes=[
                f"woodref own remove {found.batch} takes them out again.",
                *(
                    [f"Correct the rows in {found.rejects} and add that file in the same way."]
                    if found.rejects
                    else []
                ),
            ],
        ),
        units.value,
        style.value,
    )


@own.command("list", epilog=example("woodref own list"))
def list_all(units: Units = UnitSystem.us, style: Format = Style.table) -> None:
    """What of your own is stored, table by table."""
    from woodref.own.storage import batches
    from woodref.reference.overlay import KINDS, own_folder

    rows = [{"kind": kind, **batch} for kind in KINDS for batch in batches(kind)]
    total = sum(int(r["rows"]) for r in rows)
    lead = (
        f"{total:,} figures of your own in {len(rows)} tables."
        if rows
        else "Nothing of your own is stored; woodref own add takes a table in."
    )
    emit(
        Answer(
            headline=[lead],
            sections=[
                Section(
                    "tables",
                    "",
                    [
                        Column("batch", "id"),
                        Column("kind", "kind"),
                        Column("rows", "rows", "count"),
                        Column("origin", "origin"),
                        Column("added", "added"),
                        Column("file", "from"),
                    ],
                    rows,
                )
            ],
            notes=[f"They lie in {own_folder()}."],
        ),
        units.value,
        style.value,
    )


@own.command("remove", epilog=example("woodref own remove m1"))
def remove(
    batch: Annotated[str, typer.Argument(help="The id that woodref own list shows.")],
) -> None:
    """Take a table of your own out again."""
    from woodref.own.storage import batches, remove_batch
    from woodref.reference.overlay import KINDS

    known = {b["batch"]: kind for kind in KINDS for b in batches(kind)}
    if batch not in known:
        near = f"; stored are {', '.join(known)}" if known else "; nothing of your own is stored"
        raise InputError(f"no table of your own is called '{batch}'{near}")
    removed = remove_batch(known[batch], batch)
    typer.echo(f"{removed:,} row{'' if removed == 1 else 's'} of {batch} taken out.")


def _rank(lighter_share: float) -> str:
    """'It is heavier than 86 of 100 boards'; no table tells 99.7 of 100 from all."""
    count = round(100.0 * lighter_share)
    if count in (0, 100):
        return f"It is {'lighter' if count == 0 else 'heavier'} than nearly every board"
    return f"It is heavier than {count} of 100 boards"


def _weighed_notes(board: WeighedBoard) -> list[str]:
    from woodref.reference.properties import PROPERTIES

    notes = [
        f"Computed from {board.method}.",
        "Sizes and weight are those at the stated moisture content; a scale and a meter good to "
        "1 % each leave about 2 % of doubt.",
    ]
    if board.published is not None:
        notes += [
            f"The tables: {PROPERTIES[v.property_id].label} {v.printed.removesuffix(' 1')}, "
            f"{v.source} [{v.basis}]."
            for v in board.published.values[:1]
        ]
        notes.append(
            "The share of lighter boards is that of a normal distribution with the published "
            "coefficient of variation."
        )
    return notes


@own.command(
    "weigh",
    epilog=example(
        'woodref own weigh --species "white oak" --length 48in --width 6in --thickness 1in '
        '--mass "8 lb" --moisture-content 8'
    ),
)
def weigh_command(
    species: Annotated[str, typer.Option("--species", help="The wood, by any of its names.")],
    length: Annotated[str, typer.Option("--length", help="Length of the board.")],
    width: Annotated[str, typer.Option("--width", help="Width of the board.")],
    thickness: Annotated[str, typer.Option("--thickness", help="Its true thickness.")],
    mass: Annotated[str, typer.Option("--mass", help="What it weighs: 8 lb, 3.1 kg, 2 lb 4 oz.")],
    moisture_content: Annotated[
        str, typer.Option("--moisture-content", help="Its moisture content, 8 or air 68F,40%.")
    ],
    keep: Annotated[bool, typer.Option("--keep", help="Keep it as your own figure.")] = False,
    origin: Annotated[
        str, typer.Option("--origin", help="Where the board comes from, kept with the figure.")
    ] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Is a board heavy for its kind? Weigh it; keep it as your own figure."""
    from woodref.own.weigh import keep as keep_board
    from woodref.own.weigh import weigh
    from woodref.reference.library import Reference
    from woodref.units import KINDS, parse_length, parse_mass

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
        Reference(own=False).wood(species),
    )
    density = KINDS["density"].text(board.density_kg_m3, units.value)
    name = wood.common_name
    lead = [
        f"{name[:1].upper()}{name[1:]}, {density} at {board.moisture_pct:g} %: {board.verdict}."
    ]
    if board.published is not None and board.lighter_share is not None:
        ends = " to ".join(
            KINDS["density"].text(v, units.value)
            for v in (board.published.likely_kg_m3.low, board.published.likely_kg_m3.high)
        )
        lead.append(f"{_rank(board.lighter_share)}; single boards are likely {ends}.")
    batch = keep_board(board, origin) if keep else ""
    if batch:
        lead.append(f"Kept as {batch}; it goes before the printed figure from now on.")
    published = board.published
    facts: list[tuple[Column, object]] = [
        (Column("species_id", ""), wood.species_id),
        (Column("density", "", "density"), board.density_kg_m3),
        (Column("basic_specific_gravity", "", "ratio"), board.basic_specific_gravity),
        (Column("published_density", "", "density"), published and published.density_kg_m3),
        (Column("published_low", "", "density"), published and published.likely_kg_m3.low),
        (Column("published_high", "", "density"), published and published.likely_kg_m3.high),
        (Column("heavier_than_share", "", "ratio"), board.lighter_share),
        (Column("verdict", ""), board.verdict),
        (Column("batch", ""), batch),
    ]
    emit(Answer(headline=lead, facts=facts, notes=_weighed_notes(board)), units.value, style.value)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program, as a group."""
    app.add_typer(own, name="own")
