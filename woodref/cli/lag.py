"""Commands about time: stock that acclimatizes, a board lagging behind, a delivered piece."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Cut,
    Force,
    Format,
    PlaceOption,
    Plot,
    RoomAsked,
    RoomFigures,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    built_moisture,
    example,
    length_unit,
    moisture,
    place_named,
    reference,
    room_asked,
    room_named,
    source_of,
    temperature_unit,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.units import MM_PER_FOOT
from woodref.written import parse_length, parse_temperature, parse_thickness

if TYPE_CHECKING:
    from woodref.charts.figure import Figure
    from woodref.climate.rooms import Room
    from woodref.drying.finish import Finish

Thickness = Annotated[
    str, typer.Option("--thickness", help="Thickness: rough 4/4 (1 in), 3/4in, 20mm.")
]
Coats = Annotated[
    int | None,
    typer.Option("--coats", help="Coats; 2 where so many were tested, else the nearest."),
]
OneFace = Annotated[bool, typer.Option("--one-face", help="The other face stays bare (it warps).")]
#: Moisture contents between which a board is followed where none are given [%].
_FROM, _TO = "6", "10"
#: The width that moves where none is given, by system of units [mm].
_USUAL_WIDTH = {"us": MM_PER_FOOT, "si": 300.0}


def _finishes(names: list[str], coats: int | None, one_face: bool) -> list[Finish]:
    """The finishes of the command line, each with the coats asked for or usual."""
    from woodref.drying.finish import finish_on
    from woodref.reference.finishes import finish_rows

    if not names:
        if coats is not None or one_face:
            option = "--one-face" if one_face else "--coats"
            raise InputError(f'{option} needs a finish, for example --finish "urethane varnish"')
        return []
    rows = finish_rows(reference())
    return list(dict.fromkeys(finish_on(rows, name, coats, one_face) for name in names))


def _by_place(context: typer.Context, asked: RoomAsked, given: tuple[str, ...]) -> Room | None:
    """The room asked for, None where moisture contents are given or taken instead.

    A place that is only a default gives way to moisture contents on the command line.
    """
    typed = [o for o in given if source_of(context, o) == "COMMANDLINE"]
    if typed and place_named(context, asked):
        option = {"start": "--from", "end": "--to"}[typed[0]]
        raise InputError(f"{option} does not go with a place; leave one out")
    return room_asked(context, asked, bool(typed))


def _temperature(text: str, units: UnitSystem) -> float:
    """Temperature of the air [degC] where a moisture content is given as air, else a room's."""
    from woodref.drying.ambient import ROOM_C

    first, comma, _ = text.partition(",")
    return parse_temperature(first, temperature_unit(units)) if comma else ROOM_C


def lag_command(
    context: typer.Context,
    species: Species,
    thickness: Thickness,
    finish: Annotated[
        list[str] | None,
        typer.Option("--finish", help="A finish of the table; may be given several times."),
    ] = None,
    coats: Coats = None,
    one_face: OneFace = False,
    start: Annotated[
        str, typer.Option("--from", help="Moisture content at rest in the dry season.")
    ] = _FROM,
    end: Annotated[str, typer.Option("--to", help="And in the wet season.")] = _TO,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    days: Annotated[
        float, typer.Option("--days", help="Days of the wet season: what is left after them?")
    ] = 61.0,
    width: Annotated[str, typer.Option("--width", help="Width, to have its movement too.")] = "",
    cut: Cut = "flat",
    monthly: Annotated[
        bool, typer.Option("--monthly", help="The year of the board month by month.")
    ] = False,
    plot: Plot = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How much finish and thickness slow movement.

    Bare wood is always among the answers. Both seasons as moisture contents, or with --place
    and --setting a year from the driest to the wettest to design for in a room. --plot draws
    that year.
    """
    from woodref.answers.lag import lag_answer
    from woodref.board.movement import ring_angle
    from woodref.drying.ambient import air_of, months_between
    from woodref.drying.board_lag import board_lag
    from woodref.drying.finish import BARE
    from woodref.drying.follow import board_of

    checked_plot(plot, force)
    wood = reference().wood(species)
    board = board_of(wood, parse_thickness(thickness, length_unit(units)))
    chosen = _finishes(finish or [], coats, one_face)
    finishes = [BARE, *(f for f in chosen if f != BARE)]
    room = _by_place(context, RoomAsked(place, setting, room_figures), ("start", "end"))
    if room:
        emc, temperature = air_of(room.season)
        first, second = min(emc), max(emc)
    else:
        first, second = moisture(start, units), moisture(end, units)
        if first > second:
            raise InputError(
                f"the dry season, {first:g} %, is wetter than the wet one, {second:g} %; exchange "
                "--from and --to"
            )
        emc = months_between(first, second)
        temperature = (_temperature(end, units),) * 12
    lag = board_lag(
        wood,
        board,
        finishes,
        (first, second),
        emc,
        temperature,
        days,
        parse_length(width, length_unit(units)) if width else None,
        ring_angle(cut),
    )
    long = monthly or style is not Style.table
    answer = lag_answer(lag, room, units, long)
    whole = lag_answer(lag, room, units, True) if save and not long else answer

    def draw() -> Figure:
        from woodref.charts.lagging import lag_through_year

        return lag_through_year(lag, room, units)

    emit_with_plot(answer, units, style, plot, draw, save, whole, force)


def acclimate_command(
    context: typer.Context,
    species: Species,
    thickness: Thickness,
    start: Annotated[
        str, typer.Option("--from", help="Moisture content of the stock: 12, or air 68F,65%.")
    ] = "12",
    end: Annotated[
        str, typer.Option("--to", help="What the room brings it to: 7, or air 68F,40%.")
    ] = "7",
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    month: Annotated[
        str, typer.Option("--month", help="Month in that room; else the mean of its year.")
    ] = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How long stock should rest in a room before it is milled.

    Both faces open to the air, as stock on stickers. The rule of the trade is printed beside
    the estimate, with what to trust for what.
    """
    from woodref.answers.acclimation import acclimate_answer
    from woodref.climate.seasons import month_number
    from woodref.drying.acclimation import acclimate, acclimate_in
    from woodref.reference.trade import acclimation_rule

    wood = reference().wood(species)
    size = parse_thickness(thickness, length_unit(units))
    room = _by_place(context, RoomAsked(place, setting, room_figures), ("end",))
    if month and not room:
        raise InputError("--month needs a town, for example --place Savannah")
    taken = [
        f"{option} {value} %"
        for option, name, value in (("--from", "start", start), ("--to", "end", end))
        if source_of(context, name) == "DEFAULT" and not (room and name == "end")
    ]
    if room:
        number = month_number(month) if month else 0
        stock = acclimate_in(wood, size, moisture(start, units), room.season, number)
    else:
        number = 0
        stock = acclimate(
            wood, size, moisture(start, units), moisture(end, units), _temperature(end, units)
        )
    rule = acclimation_rule(reference())
    answer = acclimate_answer(wood, stock, rule, room, number, taken, units)
    emit(answer, units, style, save, force=force)


def delivery_command(
    species: Species,
    thickness: Thickness,
    built: Annotated[
        str,
        typer.Option(
            "--built",
            help="Moisture content at the build: 6.5, air 68F,35%, or TOWN/SETTING/MONTH, for "
            "example Tucson/unheated-shop/March.",
        ),
    ],
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    month: Annotated[
        str,
        typer.Option("--month", help="It arrives when this begins; else a month after the build."),
    ] = "",
    width: Annotated[str, typer.Option("--width", help="Width; else 12 in or 300 mm.")] = "",
    cut: Cut = "flat",
    boards: Annotated[int, typer.Option("--boards", help="Boards glued to that width.")] = 1,
    finish: Annotated[
        str, typer.Option("--finish", help="A finish of the table; else bare wood.")
    ] = "",
    coats: Coats = None,
    one_face: OneFace = False,
    plot: Plot = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """Built here, lives there: what a piece does after delivery.

    Month by month through the first year in the room of --place and --setting, and the swing
    of the years after. --plot draws it.
    """
    from woodref.answers.delivery import delivery_answer
    from woodref.board.movement import ring_angle
    from woodref.climate.seasons import MONTH_NAMES, month_number
    from woodref.drying.delivery import delivery, month_after
    from woodref.drying.finish import BARE
    from woodref.quantity import check_glued

    checked_plot(plot, force)
    if not place:
        raise InputError('name the town it goes to, for example --place "Portland, Maine"')
    check_glued(boards)
    wood = reference().wood(species)
    unit = length_unit(units)
    lives = room_named(RoomAsked(place, setting, room_figures))
    build = built_moisture(built, units)
    arrives = month_number(month) if month else month_after(build.month)
    piece = delivery(
        wood,
        parse_length(width, unit) if width else _USUAL_WIDTH[units],
        parse_thickness(thickness, unit),
        build.moisture_pct,
        lives.season,
        arrives,
        (_finishes([finish] if finish else [], coats, one_face) or [BARE])[0],
        ring_angle(cut),
        boards,
    )
    answer = delivery_answer(wood, piece, lives, MONTH_NAMES[arrives - 1], build.notes, units)

    def draw() -> Figure:
        from woodref.charts.after_delivery import delivered

        return delivered(wood, piece, lives, units)

    emit_with_plot(answer, units, style, plot, draw, save, force=force)


def finishes_command(units: Units = UnitSystem.us, style: Format = Style.table) -> None:
    """How well finishes keep moisture out."""
    from woodref.answers.finishes import finishes_answer
    from woodref.reference.finishes import finish_rows

    emit(finishes_answer(finish_rows(reference()), units), units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "acclimate",
        epilog=example(
            'woodref acclimate "hard maple" --thickness 8/4 --from 12 --to 7',
            "woodref acclimate cherry --thickness 4/4 --from 9 --place Duluth --setting "
            "heated-house --month January",
        ),
    )(acclimate_command)
    app.command(
        "lag",
        epilog=example(
            'woodref lag "white ash" --thickness 3/4in --finish "linseed oil" '
            '--finish "urethane varnish" --coats 3',
            "woodref lag cherry --thickness 7/8in --width 16in --place Savannah --setting "
            "air-conditioned-house",
        ),
    )(lag_command)
    app.command("finishes", epilog=example("woodref finishes"))(finishes_command)
    app.command(
        "delivery",
        epilog=example(
            'woodref delivery "white oak" --thickness 7/8in --width 30in --built '
            'Tucson/unheated-shop/March --place "Portland, Maine" --setting heated-house '
            '--finish "urethane varnish" --coats 3',
            "woodref delivery walnut --thickness 20mm --built 6.5 --place Savannah",
        ),
    )(delivery_command)
