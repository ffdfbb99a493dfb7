"""Options and arguments shared by the commands, and the values they turn into."""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from woodref.errors import InputError
from woodref.written import parse_percent, parse_temperature

if TYPE_CHECKING:
    from woodref.climate.part_seasons import BuildMoisture
    from woodref.climate.rooms import Room
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood

#: Moisture content of a green piece, as far as its size is concerned [%].
GREEN_PCT = 30.0


class UnitSystem(StrEnum):
    """Systems of units."""

    us = "us"
    si = "si"


class SearchEffort(StrEnum):
    """How long a search for a cutting plan goes on at most, in counted steps."""

    quick = "quick"
    usual = "usual"
    long = "long"


class Style(StrEnum):
    """Output formats."""

    table = "table"
    json = "json"
    csv = "csv"
    markdown = "markdown"


Species = Annotated[str, typer.Argument(help="The wood, by any of its names.")]


class Asked:
    """What this run of the program is asked in: the region of the trade, '' for none named.

    ``full`` is true where the whole page is asked for, not the first screen; ``ways`` are the
    options by which this command tells more.
    """

    region = ""
    units = UnitSystem.us
    full = True
    ways: tuple[str, ...] = ()


def _keep_units(units: UnitSystem) -> UnitSystem:
    """Remember the units, which say which yards a plain name is of where no region does."""
    Asked.units = units
    return units


Units = Annotated[
    UnitSystem,
    typer.Option(
        "--units",
        envvar="WOODREF_UNITS",
        callback=_keep_units,
        help="Units of bare numbers and of output.",
    ),
]
Setting = Annotated[
    str,
    typer.Option(
        "--setting",
        help="The room: outdoors, outdoors-under-cover, unheated-shop, heated-house, "
        "air-conditioned-house or humidity-controlled-room; by the climate where none is named.",
    ),
]
RoomFigures = Annotated[
    list[str] | None,
    typer.Option(
        "--room",
        metavar="KEY=VALUE",
        help="Change a figure of that room, once for each: heated_to=68F, cooled_to=76F, "
        "vapor_gain_g_m3=4, humidifier_pct=35, dehumidifier_pct=50, cooler_pct=55, band_pct=10.",
    ),
]
Cut = Annotated[
    str, typer.Option("--cut", help="flat, rift, quarter, or the angle of the rings to the face.")
]
PlaceOption = Annotated[
    str,
    typer.Option(
        "--place",
        envvar="WOODREF_PLACE",
        help="The town it stands in, in place of moisture contents; with --setting.",
    ),
]
OwnShrinkage = Annotated[
    str,
    typer.Option(
        "--shrinkage",
        metavar="T,R",
        help="Your own tangential and radial shrinkage, green to ovendry in percent, in place of "
        "those of the tables: 9.9,4.8.",
    ),
]
Save = Annotated[
    Path | None,
    typer.Option(
        "--save", metavar="FILE", help="Write the whole answer to this file too, as JSON."
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Replace a file that exists.")]
Explain = Annotated[
    bool,
    typer.Option(
        "--explain", help="Say how it was computed: each formula with its numbers and its source."
    ),
]
Effort = Annotated[
    SearchEffort,
    typer.Option("--effort", help="How long to search for a cutting plan, in counted steps."),
]
Format = Annotated[Style, typer.Option("--format", help="Form of the output.")]
FULL_HELP = "All tables and notes, not the first screen alone."


def keep_full(context: typer.Context, full: bool) -> bool:
    """Remember whether the whole page is asked for: by --full, or by what only it can hold."""
    Asked.full = full or any(context.params.get(name) for name in ("explain", "sources"))
    options = {option for p in context.command.params for option in p.opts}
    Asked.ways = tuple(o for o in ("--sources", "--explain") if o in options)
    return full


Full = Annotated[
    bool,
    typer.Option("--full", envvar="WOODREF_FULL", callback=keep_full, help=FULL_HELP),
]

Plot = Annotated[
    str,
    typer.Option(
        "--plot", metavar="FILE", help="Draw it too: a picture that ends in .svg or .png."
    ),
]


def example(*lines: str) -> str:
    """The epilog of a command: lines to copy, shown as they are at the end of its help."""
    return "\n".join(["\b", "Example:", *(f"  {line}" for line in lines)])


def source_of(context: typer.Context, name: str) -> str:
    """Where the value of a parameter comes from: COMMANDLINE, ENVIRONMENT, DEFAULT_MAP, DEFAULT."""
    source = context.get_parameter_source(name)
    return source.name if source else "DEFAULT"


class RoomAsked(NamedTuple):
    """A room as the command line asks for it: a town, a setting, and figures of it to change."""

    place: str = ""
    setting: str = ""
    figures: list[str] | None = None

    @property
    def described(self) -> bool:
        """True where more than a town is given, which asks for one."""
        return bool(self.setting or self.figures)


def room_changes(figures: list[str] | None) -> dict[str, float]:
    """Figures of a room from the option --room, bare temperatures in the units of the run."""
    if not figures:
        return {}
    from woodref.climate.room_figures import read_room_option

    return read_room_option(figures, temperature_unit(Asked.units))


def place_named(context: typer.Context, asked: RoomAsked) -> bool:
    """True where a place is asked for, and is not only a default; a setting asks for one."""
    named = bool(asked.place) and source_of(context, "place") == "COMMANDLINE"
    return asked.described or named


def check_town(asked: RoomAsked) -> None:
    """Refuse a room that is described without a town."""
    if not asked.place:
        option = "--setting" if asked.setting else "--room"
        raise InputError(f"{option} needs a town, for example --place Savannah")


def room_named(asked: RoomAsked) -> Room:
    """The room asked for, of the usual setting where none is named.

    Raises: InputError without a place; as woodref.climate.rooms.room_of.
    """
    from woodref.climate.rooms import room_of

    check_town(asked)
    return room_of(reference(), asked.place, asked.setting, room_changes(asked.figures))


def room_asked(context: typer.Context, asked: RoomAsked, moistures: bool) -> Room | None:
    """The room asked for; None where moisture contents are given, or nothing.

    A place that is only a default gives way to moisture contents on the command line.

    Parameters: context; asked; moistures, true where moisture contents
    are given in place of a room.
    Raises: as room_named.
    """
    if moistures and not place_named(context, asked):
        return None
    return room_named(asked) if asked.place or asked.described else None


def outdoor_lines(room: Room | None, wood: Wood) -> list[str]:
    """The decay class of a wood whose room is outdoors, nothing elsewhere."""
    if room is None or not room.season.setting.is_outdoors:
        return []
    from woodref.answers.provenance import sentences
    from woodref.reference.ratings import decay_note

    return sentences([decay_note(reference(), wood)], "")


def built_moisture(text: str, units: UnitSystem) -> BuildMoisture:
    """Moisture content at the build: as ``moisture`` reads it, or TOWN/SETTING/MONTH.

    Raises: InputError for anything else.
    """
    from woodref.climate.part_seasons import BuildMoisture, built_in
    from woodref.climate.seasons import month_number

    town, slash, in_town = text.partition("/")
    if not slash:
        return BuildMoisture(moisture(text, units))
    setting, _, month = in_town.partition("/")
    room = room_named(RoomAsked(town, setting.strip()))
    return built_in(room, month_number(month) if month.strip() else 0)


def known_region(text: str) -> str:
    """A region of the trade as typed, '' for none.

    Raises: InputError with the regions there are for another.
    """
    if not text:
        return ""
    from woodref.reference.look_words import REGIONS

    found = next((r for r in REGIONS if r.lower() == text.strip().lower()), None)
    if found is None:
        from woodref.files import did_you_mean

        raise InputError(f"no region is called '{text}'{did_you_mean(text, REGIONS)}")
    return found


def names_region() -> str:
    """The region whose plain names hold: the one named, else North America in US units.

    In SI units none does, so that a name that differs by region is refused.
    """
    from woodref.reference.look_words import NORTH_AMERICA

    return Asked.region or (NORTH_AMERICA if Asked.units is UnitSystem.us else "")


def stock_region() -> str:
    """The region whose yards are asked about: the one named, else that of the units."""
    from woodref.reference.look_words import EUROPE

    return names_region() or EUROPE


@cache
def opened(region: str) -> Reference:
    """The packaged reference library for a region, opened once per run."""
    from woodref.reference.library import Reference

    return Reference(region=region)


def reference() -> Reference:
    """The packaged reference library, for the region of this run."""
    return opened(names_region())


def with_own(wood: Wood, shrinkage: str) -> Wood:
    """The wood, with the shrinkage given for it where there is one."""
    if not shrinkage:
        return wood
    from woodref.own.shrinkage import parse_shrinkage, with_shrinkage

    return with_shrinkage(wood, *parse_shrinkage(shrinkage))


def length_unit(units: UnitSystem) -> str:
    """Unit of a bare length: inches or millimeters."""
    return "in" if units is UnitSystem.us else "mm"


def temperature_unit(units: UnitSystem) -> str:
    """Unit of a bare temperature."""
    return "F" if units is UnitSystem.us else "C"


def temperature_example(units: UnitSystem) -> str:
    """A temperature as it is typed, for a hint."""
    return "68F" if units is UnitSystem.us else "20C"


def mass_unit(units: UnitSystem) -> str:
    """Unit of a bare mass."""
    return "lb" if units is UnitSystem.us else "kg"


def moisture(text: str, units: UnitSystem) -> float:
    """A moisture content [%]: '8', '8%', 'green', or air as temperature and humidity '68F,40%'.

    Raises: InputError for anything else.
    """
    if text.strip().lower() == "green":
        return GREEN_PCT
    first, comma, second = text.partition(",")
    if not comma:
        try:
            return parse_percent(text, "moisture content")
        except InputError as error:
            raise error.headed("", f", green, or air as {temperature_example(units)},40%") from None
    from woodref.climate.air import moisture_in_air

    temperature = parse_temperature(first, temperature_unit(units))
    return moisture_in_air(temperature, parse_percent(second, "relative humidity"))
