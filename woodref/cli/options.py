"""Options and arguments shared by the commands, and the values they turn into."""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from typing import Annotated

import typer

from woodref.errors import InputError
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.reference.library import Reference
from woodref.units import parse_temperature


class UnitSystem(StrEnum):
    """Systems of units."""

    us = "us"
    si = "si"


class Style(StrEnum):
    """Output formats."""

    table = "table"
    json = "json"
    csv = "csv"
    markdown = "markdown"


Units = Annotated[
    UnitSystem,
    typer.Option("--units", envvar="WOODREF_UNITS", help="Units of bare numbers and of output."),
]
Format = Annotated[Style, typer.Option("--format", help="Form of the output.")]


@cache
def reference() -> Reference:
    """The packaged reference library, opened once per run."""
    return Reference()


def length_unit(units: UnitSystem) -> str:
    """Unit of a bare length: inches or millimeters."""
    return "in" if units is UnitSystem.us else "mm"


def temperature_unit(units: UnitSystem) -> str:
    """Unit of a bare temperature."""
    return "F" if units is UnitSystem.us else "C"


def moisture(text: str, units: UnitSystem) -> float:
    """A moisture content [%] from '8', '8%' or air as temperature and humidity '68F,40%'.

    Raises: InputError for anything else.
    """
    first, comma, second = text.partition(",")
    try:
        if not comma:
            return float(first.strip().removesuffix("%"))
        humidity = float(second.strip().removesuffix("%"))
    except ValueError:
        raise InputError(
            f"'{text}' is not a moisture content; write 8 for 8 %, or air as 68F,40%"
        ) from None
    return float(
        equilibrium_moisture_content(parse_temperature(first, temperature_unit(units)), humidity)
    )
