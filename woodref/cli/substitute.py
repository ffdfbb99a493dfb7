"""The command that finds what comes closest to a wood for a use."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.beside import (
    Other,
    Output,
    emit_piece_beside,
    emit_wood_beside,
    refuse_ranking,
)
from woodref.cli.choice import (
    AllWoods,
    AnyKind,
    BuyingAsked,
    ExcludeAllergens,
    ShadeOption,
    Stock,
    StockClass,
    Yard,
    buyable,
    priced,
)
from woodref.cli.options import (
    Force,
    Format,
    Full,
    PlaceOption,
    Plot,
    RoomAsked,
    RoomFigures,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    reference,
    room_asked,
    source_of,
)
from woodref.cli.piece import rooms_asked, units_of
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.cli.price_list import price_list
from woodref.cli.rank import Prices, Use
from woodref.errors import InputError, UnitsError
from woodref.units import sizes_told
from woodref.written import parse_length

if TYPE_CHECKING:
    from woodref.answers.choice_questions import Question
    from woodref.charts.figure import Figure
    from woodref.choose.substitute_result import Substitutes
    from woodref.piece.piece import Piece
    from woodref.piece.replaced import Replacement

#: Largest width the movement is told for [mm].
_WIDEST_MM = 5_000.0


class Chart(StrEnum):
    """What a picture of woods in place of another shows."""

    look_work = "look-work"
    side_by_side = "side-by-side"


def substitute_command(
    context: typer.Context,
    species: Species,
    use: Use = "",
    width: Annotated[
        str,
        typer.Option(
            help="Width the movement is told for, flat sawn; 12 in or 300 mm, or that of the part."
        ),
    ] = "",
    prices: Prices = "",
    max_price: Annotated[
        float | None,
        typer.Option(
            "--max-price",
            help="Most a board foot may cost by the price list; a cubic meter with --units si.",
        ),
    ] = None,
    thickness: Annotated[
        str, typer.Option("--thickness", help="Nominal thickness of the prices: 4/4, 27 mm.")
    ] = "4/4",
    kind: Annotated[
        AnyKind | None,
        typer.Option("--kind", help="Hardwoods or softwoods; that of the wood where none is said."),
    ] = None,
    exclude_allergens: ExcludeAllergens = False,
    shade: ShadeOption = None,
    all_woods: AllWoods = False,
    stock: Stock = StockClass.specialty,
    yard: Yard = "",
    origin: Annotated[
        str, typer.Option("--origin", help="Only woods from a region: Europe, North America ...")
    ] = "",
    exclude_controlled: Annotated[
        bool,
        typer.Option("--exclude-controlled", help="Leave out woods with a recorded trade control."),
    ] = False,
    ignore_look: Annotated[
        bool, typer.Option("--ignore-look", help="Go by the work alone, as under paint.")
    ] = False,
    piece: Annotated[
        Path | None,
        typer.Option(
            "--piece", help="A piece of this wood, a TOML file or a cut list: what the change does."
        ),
    ] = None,
    part: Annotated[
        str, typer.Option("--part", help="The part that changes wood; all of this wood without.")
    ] = "",
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    limit: Annotated[int, typer.Option("--rows", help="How many woods to show.")] = 8,
    other: Other = "",
    plot: Plot = "",
    force: Force = False,
    chart: Annotated[
        Chart | None,
        typer.Option(
            "--chart",
            help="What --plot shows: look against work, or the three best beside the first.",
        ),
    ] = None,
    full: Full = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """What comes closest to a wood for a use, and what changes.

    In work and in look; with a piece, whether what was sized for the first wood still holds.
    --with sets one wood beside it, for no use and without an order. --plot draws look against
    work, or with --chart side-by-side movement, hardness and weight of the three best.
    """
    from woodref.answers.choice_questions import Question
    from woodref.answers.substitute import substitute_answer
    from woodref.choose.filters import asked
    from woodref.choose.profile import load_profile
    from woodref.choose.seasonal_range import SeasonalRange
    from woodref.choose.substitute import substitutes

    if part and piece is None:
        raise InputError("--part needs the piece it belongs to: --piece PIECE.toml")
    if chart and not plot:
        raise InputError(f"--chart goes with --plot, for example --plot {chart}.svg")
    checked_plot(plot, force, piece)
    if other:
        refuse_ranking(context, piece is not None)
        out, asked_room = Output(style, full), RoomAsked(place, setting, room_figures)
        read = _read(context, piece, asked_room, species)
        listing = price_list(prices, source_of(context, "prices") == "COMMANDLINE", read)
        if read:
            told_in = units_of(context, units, read)
            emit_piece_beside(read, [(species, other)], listing, told_in, out, part)
            return
        room = room_asked(context, asked_room, False)
        width_mm = _width(width, units, None, "")
        emit_wood_beside(species, other, width_mm, room, listing, thickness, out)
        return
    if not use:
        raise InputError(
            "--for is missing: the use, for example --for tabletop; --with OTHER sets one wood "
            "beside it for no use"
        )
    wood, profile = reference().wood(species), load_profile(use)
    asked_room = RoomAsked(place, setting, room_figures)
    read = _read(context, piece, asked_room, species)
    room = read.room if read else room_asked(context, asked_room, False)
    listing = price_list(prices, source_of(context, "prices") == "COMMANDLINE", read)
    list_of = priced(listing, thickness, max_price, units, False)
    seasonal_range = SeasonalRange.of_piece(read) if read else SeasonalRange.of_room(room)
    filters = asked("", origin, exclude_controlled, exclude_allergens, shade or "") + list_of.limits
    where_from = buyable(
        BuyingAsked.of(context, all_woods, stock, yard), listing if list_of.per_m3 else None
    )
    parts: list[str] = []
    if read:
        from woodref.piece.replaced import parts_of_wood

        parts = parts_of_wood(read, reference().wood, wood, part)
    nearest = substitutes(
        reference(),
        wood,
        profile,
        seasonal_range,
        filters,
        limit,
        look_counts=not ignore_look,
        prices_per_m3=list_of.per_m3,
        buyable=where_from,
        kind=kind.value if kind else "",
    )
    width_mm = _width(width, units, read, part)
    others: dict[str, Replacement] = {}
    if read:
        from woodref.choose.replacement import replacements

        others = replacements(reference(), read, parts, nearest, listing)
    shown = reference().woods(s.species_id for s in (*nearest.woods, *nearest.own_group))
    alike = kind.value if kind else wood.kind
    question = Question(width_mm, room, listing, list_of.nominal.label, shown, read, others, alike)
    people = style in (Style.table, Style.markdown)
    emit_with_plot(
        substitute_answer(nearest, question, units.value, people),
        units,
        style,
        plot,
        lambda: _drawn(chart or Chart.look_work, nearest, question, units.value),
        force=force,
        full=full,
    )


def _drawn(chart: Chart, nearest: Substitutes, question: Question, units: str) -> Figure:
    if chart is Chart.side_by_side:
        from woodref.charts.beside_first import best_beside

        return best_beside(nearest, question.woods, question.width_mm, units)
    from woodref.charts.look_work import look_against_work

    return look_against_work(nearest, question.kind)


def _read(
    context: typer.Context, piece: Path | None, asked: RoomAsked, species: str
) -> Piece | None:
    """The piece; of a cut list the parts that name no wood are of the one asked about."""
    if piece is None:
        return None
    from woodref.cli.piece_input import read_any_piece
    from woodref.lumber.cut_list import is_cut_list

    units, wood = str(context.params["units"]), species if is_cut_list(piece) else ""
    return read_any_piece(piece, rooms_asked(context, asked), units, wood, force=False)[0]


def _width(given: str, units: UnitSystem, piece: Piece | None, part: str) -> float:
    """The width as given, else that of the part, else the usual one [mm]."""
    from woodref.choose.overview import USUAL_BOARDS

    if given:
        width = parse_length(given, length_unit(units))
        if not 0.0 < width <= _WIDEST_MM:
            raise UnitsError(
                sizes_told("--width is above 0 and at most {}, not {}", _WIDEST_MM, width)
            )
        return width
    own = next((p.width_mm for p in piece.parts if p.name == part), None) if piece else None
    return own or USUAL_BOARDS[units.value].across_mm


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "substitute",
        epilog=example(
            'woodref substitute "black walnut" --for tabletop --prices PRICES.csv',
            "woodref substitute teak --for outdoor-bench --place Savannah --width 4in",
            'woodref substitute "white oak" --for tabletop --piece PIECE.toml --part top',
            'woodref substitute "white oak" --with "European oak"',
        ),
    )(substitute_command)
