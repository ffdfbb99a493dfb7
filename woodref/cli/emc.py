"""Commands about moisture: emc, moisture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Format,
    Style,
    Units,
    UnitSystem,
    example,
    mass_unit,
    temperature_example,
    temperature_unit,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.written import parse_mass, parse_percent, parse_temperature

if TYPE_CHECKING:
    from woodref.answers.answer import Answer


def emc_command(
    temperature: Annotated[
        str, typer.Argument(help="Temperature, 68F or 20C; with the humidity also as 68F,40%.")
    ] = "70F",
    humidity: Annotated[str, typer.Argument(help="Relative humidity of the air: 40%.")] = "",
    wanted: Annotated[
        str,
        typer.Option("--keep", help="Moisture content to keep the wood at: which humidity?"),
    ] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Moisture content wood comes to in air, and back.

    With --keep: the humidity that keeps wood at the moisture content you want.
    """
    first, comma, second = temperature.partition(",")
    if (comma and humidity) or bool(second.strip() or humidity) == bool(wanted):
        typed = temperature_example(units)
        raise InputError(
            f"give the air, for example woodref emc {typed} 40%, or a moisture content to keep, "
            f"for example woodref emc {typed} --keep 8"
        )
    celsius = parse_temperature(first, temperature_unit(units))
    from woodref.answers.emc import emc_answer
    from woodref.climate.air import humidity_to_keep, moisture_in_air

    if wanted:
        emc = parse_percent(wanted, "moisture content")
        relative = humidity_to_keep(emc, celsius)
    else:
        relative = parse_percent(second or humidity, "relative humidity")
        emc = moisture_in_air(celsius, relative)
    emit(emc_answer(celsius, relative, emc, bool(wanted), units), units, style)


def _from_weights(wet: str, dry: str, units: UnitSystem) -> Answer:
    from woodref.answers.moisture import oven_answer
    from woodref.moisture_readings import sample_moisture

    wet_kg, dry_kg = parse_mass(wet, mass_unit(units)), parse_mass(dry, mass_unit(units))
    return oven_answer(sample_moisture(wet_kg, dry_kg), (wet_kg, dry_kg), (wet, dry), units)


def _from_meter(reading: str, temperature: str, calibration: str, units: UnitSystem) -> Answer:
    from woodref.answers.moisture import meter_answer
    from woodref.formulas.moisture import METER_CALIBRATION_C
    from woodref.moisture_readings import corrected_reading

    shown, unit = parse_percent(reading, "meter reading"), temperature_unit(units)
    wood_c = parse_temperature(temperature, unit)
    meter_c = parse_temperature(calibration, unit) if calibration else METER_CALIBRATION_C
    percent = corrected_reading(shown, wood_c, meter_c)
    return meter_answer(percent, shown, wood_c, meter_c, not calibration, units)


def moisture_command(
    wet: Annotated[str, typer.Option("--wet", help="Weight of the sample before: 412g.")] = "",
    dry: Annotated[str, typer.Option("--dry", help="Its weight out of the oven: 371g.")] = "",
    meter: Annotated[
        str, typer.Option("--meter", help="Reading of a resistance meter instead: 11.")
    ] = "",
    temperature: Annotated[
        str, typer.Option("--temperature", help="Temperature of the wood: 45F, 7C.")
    ] = "",
    calibration: Annotated[
        str, typer.Option("--calibration", help="Temperature the meter is made for, if not 70F.")
    ] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Moisture content from two weighings or a meter.

    A reading is corrected for the temperature of the wood.
    """
    if wet and dry and not (meter or temperature or calibration):
        answer = _from_weights(wet, dry, units)
    elif meter and temperature and not (wet or dry):
        answer = _from_meter(meter, temperature, calibration, units)
    else:
        raise InputError(
            "give --wet and --dry, for example --wet 412g --dry 371g, or --meter and "
            f"--temperature, for example --meter 11 --temperature {temperature_example(units)}"
        )
    emit(answer, units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("emc", epilog=example("woodref emc 68F 40%", "woodref emc 68F --keep 8"))(
        emc_command
    )
    app.command(
        "moisture",
        epilog=example(
            "woodref moisture --wet 412g --dry 371g",
            "woodref moisture --meter 11 --temperature 45F",
        ),
    )(moisture_command)
