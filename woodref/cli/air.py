"""Commands about moisture: emc, moisture."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.answers.render import Answer, Column, Section
from woodref.cli.options import (
    Format,
    Style,
    Units,
    UnitSystem,
    checked_air,
    example,
    mass_unit,
    temperature_unit,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.units import KINDS, fixed, parse_mass, parse_percent, parse_temperature

#: Humidities printed under an answer [%].
_HUMIDITIES = (20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0)
_EMC_NOTES = [
    "Computed from the Hailwood-Horrobin equation, Wood Handbook FPL-GTR-282 (2021), Eq. 4-5, "
    "p. 4-3, checked from 30 to 200 F (-1 to 93 C) against Table 4-2 of the handbook.",
    "One average curve for all woods; wood that is drying stays somewhat wetter than this, wood "
    "that is taking up moisture somewhat drier, and thick stock takes weeks to get there.",
]


def _beside(temperature_c: float) -> Section:
    from woodref.formulas.moisture import equilibrium_moisture_content

    return Section(
        "at_this_temperature",
        "At this temperature",
        [
            Column("humidity", "relative humidity", "percent"),
            Column("emc", "moisture content of wood", "percent"),
        ],
        [
            {"humidity": h, "emc": equilibrium_moisture_content(temperature_c, h)}
            for h in _HUMIDITIES
        ],
    )


def _humidity_needed(emc_pct: float, temperature_c: float) -> float:
    from woodref.formulas.moisture import equilibrium_moisture_content, relative_humidity_for

    try:
        return float(relative_humidity_for(emc_pct, temperature_c))
    except ValueError:
        most = equilibrium_moisture_content(temperature_c, 100.0)
        raise InputError(
            f"no air keeps wood at {emc_pct:g} %: at this temperature damp air brings it to "
            f"{most:.0f} % at most, more is liquid water"
        ) from None


def emc_command(
    temperature: Annotated[
        str, typer.Argument(help="Temperature, 68F or 20C; with the humidity also as 68F,40%.")
    ] = "70F",
    humidity: Annotated[str, typer.Argument(help="Relative humidity of the air: 40%.")] = "",
    wanted: Annotated[
        str,
        typer.Option("--for", help="Moisture content to keep the wood at: which humidity?"),
    ] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Moisture content wood comes to in air, and back.

    With --for: the humidity that keeps wood at the moisture content you want.
    """
    first, comma, second = temperature.partition(",")
    if (comma and humidity) or bool(second.strip() or humidity) == bool(wanted):
        raise InputError(
            "give the air, for example woodref emc 68F 40%, or a moisture content to keep, "
            "for example woodref emc 68F --for 8"
        )
    celsius = parse_temperature(first, temperature_unit(units))
    if wanted:
        emc = parse_percent(wanted, "moisture content")
        checked_air(celsius, 0.0)
        relative = _humidity_needed(emc, celsius)
    else:
        from woodref.formulas.moisture import equilibrium_moisture_content

        relative = parse_percent(second or humidity, "relative humidity")
        emc = equilibrium_moisture_content(*checked_air(celsius, relative))
    at = KINDS["temperature"].text(celsius, units)
    lead = (
        f"At {at} keep the air at {relative:.0f} % relative humidity to hold wood at "
        f"{fixed(emc, 1)} %."
        if wanted
        else f"Wood comes to {fixed(emc, 1)} % moisture content at {at} and {relative:g} % "
        "relative humidity."
    )
    answer = Answer(
        headline=[lead],
        facts=[
            (Column("temperature", "", "temperature"), celsius),
            (Column("humidity", "", "percent"), relative),
            (Column("emc", "", "percent"), emc),
        ],
        sections=[_beside(celsius)],
        notes=_EMC_NOTES,
    )
    emit(answer, units, style)


def _from_weights(wet: str, dry: str, units: UnitSystem) -> Answer:
    from woodref.formulas.moisture import moisture_content

    wet_kg, dry_kg = parse_mass(wet, mass_unit(units)), parse_mass(dry, mass_unit(units))
    if dry_kg <= 0.0:
        raise InputError(f"--dry must be above 0, not '{dry}'")
    if wet_kg < dry_kg:
        raise InputError(
            f"--wet ({wet}) is lighter than --dry ({dry}): a sample does not gain weight in the "
            "oven; are they exchanged?"
        )
    percent = moisture_content(wet_kg, dry_kg)
    return Answer(
        headline=[f"Moisture content {fixed(percent, 1)} %: {wet} before, {dry} ovendry."],
        facts=[
            (Column("moisture", "", "percent"), percent),
            (Column("wet_g", ""), round(wet_kg * 1000.0, 3)),
            (Column("dry_g", ""), round(dry_kg * 1000.0, 3)),
        ],
        notes=[
            "Percent of the ovendry weight: 100 (wet - dry) / dry, FPL-GTR-282 (2021), Eq. 4-2 "
            "[memory].",
            "Dry means ovendry: 103 C (217 F) until two weighings some hours apart agree "
            "(common practice, no source); a sample still losing weight reads too low.",
            "An oven with wood in it is not left alone: hot wood can smolder.",
        ],
    )


def _from_meter(reading: str, temperature: str, calibration: str, units: UnitSystem) -> Answer:
    from woodref.formulas.moisture import (
        METER_CALIBRATION_C,
        METER_RANGE_PCT,
        meter_moisture_content,
    )

    low, high = METER_RANGE_PCT
    shown = parse_percent(reading, "meter reading")
    if not low <= shown <= high:
        raise InputError(
            f"a resistance meter can be used from {low:g} to {high:g} %, and {shown:g} is "
            "outside; dry a sample in the oven and use --wet and --dry"
        )
    unit = temperature_unit(units)
    wood_c = parse_temperature(temperature, unit)
    meter_c = parse_temperature(calibration, unit) if calibration else METER_CALIBRATION_C
    percent = float(meter_moisture_content(shown, wood_c, meter_c))
    if percent < 0.0:
        raise InputError(
            f"the correction of {percent - shown:+.1f} % leaves less than nothing; check the "
            "temperatures"
        )
    text = KINDS["temperature"].text
    notes = [
        "0.5 % is added for each 10 F (5.6 C) the wood is colder than the meter was calibrated "
        "at, and taken off when warmer: FPL-GTR-190 (2010), p. 13-3 (page inferred).",
        f"Resistance meters can be used from about {low:g} to {high:g} %; a well-used one is "
        "within 1 % of the true average. The meter's correction for the species comes on top.",
    ]
    if not calibration:
        notes.append(
            f"The meter is taken to be calibrated at {text(meter_c, units)} (common practice, no "
            "source); its instructions say, give it with --calibration."
        )
    if not low <= percent <= high:
        notes.append(f"Corrected, the reading leaves the range of {low:g} to {high:g} %.")
    return Answer(
        headline=[
            f"Moisture content {fixed(percent, 1)} %, likely within 1 %: {shown:g} % on the meter, "
            f"{percent - shown:+.1f} % for wood at {text(wood_c, units)}."
        ],
        facts=[
            (Column("moisture", "", "percent"), percent),
            (Column("reading", "", "percent"), shown),
            (Column("temperature", "", "temperature"), wood_c),
            (Column("calibration", "", "temperature"), meter_c),
        ],
        notes=notes,
    )


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
            "--temperature, for example --meter 11 --temperature 45F"
        )
    emit(answer, units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("emc", epilog=example("woodref emc 68F 40%", "woodref emc 68F --for 8"))(
        emc_command
    )
    app.command(
        "moisture",
        epilog=example(
            "woodref moisture --wet 412g --dry 371g",
            "woodref moisture --meter 11 --temperature 45F",
        ),
    )(moisture_command)
