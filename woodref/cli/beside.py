"""A wood in place of another: what estimate --with and substitute --with answer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from woodref.cli.options import Asked, Style, reference, source_of, stock_region
from woodref.cli.output import emit
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece

With = Annotated[
    list[str] | None,
    typer.Option(
        "--with",
        metavar="WOOD=OTHER",
        help="The piece beside itself with one wood in place of another, once for each: "
        '"white oak=white ash".',
    ),
]


Other = Annotated[
    str,
    typer.Option(
        "--with",
        metavar="WOOD",
        help="This wood in its place, and no order of others: look, work, price, trade; with "
        "--piece what it changes there.",
    ),
]
#: Options of substitute that put woods in an order, leave some out or draw them, by their
#: parameters.
_RANKING = {
    "use": "--for",
    "max_price": "--max-price",
    "kind": "--kind",
    "all_woods": "--all-woods",
    "stock": "--stock",
    "yard": "--yard",
    "origin": "--origin",
    "exclude_controlled": "--exclude-controlled",
    "exclude_allergens": "--exclude-allergens",
    "shade": "--shade",
    "ignore_look": "--ignore-look",
    "limit": "--rows",
    "plot": "--plot",
    "chart": "--chart",
}


class Output(NamedTuple):
    """How an answer is printed: its form, the whole or the first screen, and the file to save."""

    style: Style
    full: bool
    save: Path | None = None
    force: bool = False

    @property
    def for_people(self) -> bool:
        """True where people read it, and not a program."""
        return self.style in (Style.table, Style.markdown)


def pairs_of(texts: Sequence[str]) -> list[tuple[str, str]]:
    """The pairs of 'white oak=white ash': the wood of the piece, the one in its place.

    Raises: InputError for a sign or a side that is missing.
    """
    pairs = []
    for text in texts:
        first, *others = (side.strip() for side in text.split("="))
        if len(others) != 1 or not first or not others[0]:
            raise InputError(
                f"--with '{text}': write the wood it has, =, and the wood in its place: "
                '--with "white oak=white ash"'
            )
        pairs.append((first, others[0]))
    return pairs


def refuse_ranking(context: typer.Context, of_piece: bool) -> None:
    """Refuse options that say nothing where one wood is set beside another.

    Parameters: context; of_piece, whether a piece is asked about, which has its own sizes.
    Raises: InputError naming the option.
    """
    for name in ("width", "thickness") if of_piece else ():
        if source_of(context, name) == "COMMANDLINE":
            raise InputError(f"--{name} is that of the piece: leave it out with --with and --piece")
    for name, option in _RANKING.items():
        if source_of(context, name) == "COMMANDLINE":
            raise InputError(f"{option} goes with a choice among woods: leave it out with --with")


def emit_piece_beside(
    piece: Piece,
    pairs: Sequence[tuple[str, str]],
    prices: PriceList | None,
    units: str,
    out: Output,
    part: str = "",
    remarks: Sequence[str] = (),
) -> None:
    """Print a piece beside the same piece with other woods.

    Parameters: piece; pairs of names; prices; units; out; part the one that changes, '' for all;
    remarks of the file, told first among the notes.
    Raises: as woodref.piece.swaps.swaps_of and woodref.choose.piece_beside.piece_beside.
    """
    from woodref.answers.piece_beside import piece_beside_answer
    from woodref.choose.piece_beside import piece_beside
    from woodref.piece.swaps import swaps_of

    swaps = swaps_of(reference(), piece, pairs, part)
    beside = piece_beside(reference(), piece, swaps, prices, units)
    answer = piece_beside_answer(beside, units, out.for_people)
    # What is saved is what programs get; it is not made where nobody asks for it.
    whole = piece_beside_answer(beside, units, False) if out.for_people and out.save else answer
    for told in dict.fromkeys((answer, whole)):
        told.notes[:0] = remarks
    emit(answer, units, out.style, out.save, whole, out.force, out.full)


def emit_wood_beside(
    species: str,
    other: str,
    width_mm: float,
    room: Room | None,
    listing: PriceList | None,
    thickness: str,
    out: Output,
) -> None:
    """Print one wood in place of another.

    Parameters: species; other; width_mm the movement is told for [mm]; room whose year it is,
    None for a heated house; listing of prices and the nominal thickness of those; out.
    Raises: as Reference.wood and woodref.choose.wood_beside.wood_beside.
    """
    from woodref.answers.wood_beside import wood_beside_answer
    from woodref.choose.seasonal_range import SeasonalRange
    from woodref.choose.wood_beside import wood_beside
    from woodref.lumber.nominal import parse_nominal

    if "=" in other:
        raise InputError('--with takes the wood in its place alone, for example --with "white ash"')
    units = Asked.units.value
    nominal = parse_nominal(thickness, "in" if units == "us" else "mm")
    first, then = (reference().wood(name) for name in (species, other))
    beside = wood_beside(
        reference(), first, then, width_mm, SeasonalRange.of_room(room), listing, nominal, units
    )
    prices = (listing.currency, nominal.label, listing.file) if listing else ("", "", "")
    answer = wood_beside_answer(beside, units, out.for_people, stock_region(), *prices)
    emit(answer, units, out.style, full=out.full)
