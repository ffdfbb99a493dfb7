"""Commands that choose a wood for a use: rank, uses."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.choice import (
    AllWoods,
    BuyingAsked,
    ExcludeAllergens,
    KindChoice,
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
    Style,
    Units,
    UnitSystem,
    example,
    reference,
    room_asked,
    source_of,
)
from woodref.cli.output import emit
from woodref.cli.piece import rooms_asked, units_of
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.cli.price_list import price_list
from woodref.cli.say import say
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.charts.figure import Figure
    from woodref.choose.filters import Filter
    from woodref.choose.rank import Ranking
    from woodref.choose.seasonal_range import SeasonalRange
    from woodref.piece.piece import Piece


Use = Annotated[
    str,
    typer.Option(
        "--for",
        help="The use: tabletop, shelf, outdoor-bench ... (woodref uses lists them), or a "
        "profile of your own, a TOML file.",
    ),
]
Prices = Annotated[
    str,
    typer.Option("--prices", envvar="WOODREF_PRICES", metavar="FILE", help="Price list, CSV."),
]


def _than(word: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(
        f"--{word}-than", metavar="WOOD", help=f"Only woods {word} than this one."
    )
    return option


def _compared(others: dict[str, str], seasonal_range: SeasonalRange) -> list[Filter]:
    """The filters of --harder-than and the like."""
    from woodref.choose.filters import compared_with

    return [
        compared_with(word, reference().wood(name), seasonal_range)
        for word, name in others.items()
        if name
    ]


def rank_command(
    context: typer.Context,
    use: Use,
    where: Annotated[
        str,
        typer.Option(
            help="Only woods for which this holds, a condition in SQL over the columns that "
            "woodref uses --columns lists."
        ),
    ] = "",
    harder: Annotated[str, _than("harder")] = "",
    stiffer: Annotated[str, _than("stiffer")] = "",
    steadier: Annotated[str, _than("steadier")] = "",
    lighter: Annotated[str, _than("lighter")] = "",
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
        KindChoice | None, typer.Option("--kind", help="Hardwoods or softwoods.")
    ] = None,
    origin: Annotated[
        str, typer.Option("--origin", help="Only woods from a region: Europe, North America ...")
    ] = "",
    exclude_controlled: Annotated[
        bool,
        typer.Option("--exclude-controlled", help="Leave out woods with a recorded trade control."),
    ] = False,
    exclude_allergens: ExcludeAllergens = False,
    shade: ShadeOption = None,
    all_woods: AllWoods = False,
    stock: Stock = StockClass.specialty,
    yard: Yard = "",
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    piece: Annotated[
        Path | None,
        typer.Option("--piece", help="Try the first woods in this piece, a TOML file."),
    ] = None,
    part: Annotated[
        str, typer.Option("--part", help="The part of the piece a wood is sought for.")
    ] = "",
    limit: Annotated[int, typer.Option("--rows", help="How many woods to show.")] = 20,
    plot: Plot = "",
    force: Force = False,
    full: Full = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Which woods serve a use best, and why.

    Each wood gets a score from the criteria of the use; what each criterion brings is shown.
    --plot draws the scores as bars.
    """
    from woodref.answers.choice_questions import Asked
    from woodref.answers.rank import rank_answer
    from woodref.choose.columns import COLUMNS, price_column
    from woodref.choose.filters import asked
    from woodref.choose.profile import load_profile, weighing_price
    from woodref.choose.rank import rank
    from woodref.choose.seasonal_range import SeasonalRange

    if part and piece is None:
        raise InputError("--part needs the piece it belongs to: --piece PIECE.toml")
    checked_plot(plot, force, piece)
    profile = load_profile(use)
    asked_room = RoomAsked(place, setting, room_figures)
    read: Piece | None = None
    parts: tuple[str, ...] = ()
    if piece:
        from woodref.choose.rank_piece import parts_ranked
        from woodref.piece.piece import read_piece

        read = read_piece(piece, rooms_asked(context, asked_room))
        parts = parts_ranked(read, part)
    room = read.room if read else room_asked(context, asked_room, False)
    by_flag = source_of(context, "prices") == "COMMANDLINE"
    listing = price_list(prices, by_flag or read is None, read)
    list_of = priced(listing, thickness, max_price, units, by_flag)
    seasonal_range = SeasonalRange.of_piece(read) if read else SeasonalRange.of_room(room)
    if list_of.per_m3:
        profile = weighing_price(profile, COLUMNS[price_column(units.value)])
    others = {"harder": harder, "stiffer": stiffer, "steadier": steadier, "lighter": lighter}
    filters = _compared(others, seasonal_range)
    filters += (
        asked(
            kind.value if kind else "", origin, exclude_controlled, exclude_allergens, shade or ""
        )
        + list_of.limits
    )
    where_from = buyable(
        BuyingAsked.of(context, all_woods, stock, yard), listing if list_of.per_m3 else None
    )
    # A long condition looks at an interrupt late or not at all; nothing here is left half done.
    before = signal.signal(signal.SIGINT, signal.SIG_DFL)
    try:
        ranking = rank(
            reference(), profile, seasonal_range, filters, where, limit, list_of.per_m3, where_from
        )
    finally:
        signal.signal(signal.SIGINT, before)
    woods = reference().woods(w.species_id for w in ranking.woods)
    question = Asked(room, listing, list_of.nominal.label, woods, kind.value if kind else "")
    people = style in (Style.table, Style.markdown)
    told_in = units_of(context, units, read) if read else units.value
    if read:
        from woodref.answers.rank_piece import rank_piece_answer
        from woodref.choose.rank_piece import rank_in_piece

        tried = rank_in_piece(reference(), ranking, read, parts, listing)
        answer = rank_piece_answer(tried, question, told_in, people)
    else:
        answer = rank_answer(ranking, question, told_in, people, _bars(style))
    emit_with_plot(
        answer,
        told_in,
        style,
        plot,
        lambda: _drawn(ranking, question.kind),
        force=force,
        full=full,
    )


def _drawn(ranking: Ranking, kind: str) -> Figure:
    from woodref.charts.ranking import rank_bars

    return rank_bars(ranking, kind)


def _bars(style: Style) -> bool:
    """True where the answer is for people at a terminal, who get bars beside the figures."""
    return style is Style.table and sys.stdout.isatty()


def uses_command(
    use: Annotated[str, typer.Argument(help="A use to tell about; all of them without.")] = "",
    columns: Annotated[
        bool, typer.Option("--columns", help="List the columns a wood can be chosen by.")
    ] = False,
    text: Annotated[
        bool, typer.Option("--text", help="Print the profile itself, to copy and change.")
    ] = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """The uses woods are ranked for, and what each asks of a wood.

    A use of your own is a TOML file in the folder uses beside your configuration file, or one
    named with its path.
    """
    from woodref.answers.uses import columns_answer, use_answer, uses_answer
    from woodref.choose.profile import load_profile
    from woodref.files import read_text

    people = style in (Style.table, Style.markdown)
    if columns:
        answer = columns_answer()
    elif text:
        if not use:
            raise InputError("name a use to print: woodref uses tabletop --text")
        profile = load_profile(use)
        say(read_text(Path(profile.file), "profile"), end="")
        return
    else:
        answer = use_answer(load_profile(use), units.value, people) if use else uses_answer()
    emit(answer, units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "rank",
        epilog=example(
            "woodref rank --for tabletop --harder-than cherry --exclude-controlled",
            'woodref rank --for shelf --where "seasonal_change_mm_per_300mm < 3"',
            "woodref rank --for tabletop --prices PRICES.csv --max-price 9",
        ),
    )(rank_command)
    app.command("uses", epilog=example("woodref uses", "woodref uses tabletop"))(uses_command)
