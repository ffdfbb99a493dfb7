"""Answers about the moisture content of a sample: from two weighings, or from a meter."""

from __future__ import annotations

from woodref.answers.answer import Answer, Column
from woodref.formulas.moisture import METER_RANGE_PCT
from woodref.units import KINDS, fixed

#: What an oven is set to (common practice, no source) [degC].
_OVEN_C = 103.0


def oven_answer(
    moisture_pct: float, weights_kg: tuple[float, float], said: tuple[str, str], units: str
) -> Answer:
    """Moisture content from the weights of a sample before and out of the oven.

    Parameters: moisture_pct [%]; weights_kg before and ovendry [kg]; said, both as they were
    written; units 'us' or 'si'.
    """
    wet_kg, dry_kg = weights_kg
    wet, dry = said
    return Answer(
        headline=[f"Moisture content {fixed(moisture_pct, 1)} %: {wet} before, {dry} ovendry."],
        facts=[
            (Column("moisture", "", "percent"), moisture_pct),
            (Column("wet_g", ""), round(wet_kg * 1000.0, 3)),
            (Column("dry_g", ""), round(dry_kg * 1000.0, 3)),
        ],
        notes=[
            "Percent of the ovendry weight: 100 (wet - dry) / dry, FPL-GTR-282 (2021), Eq. 4-2 "
            "(unchecked, from memory).",
            f"Dry means ovendry: {KINDS['temperature'].text(_OVEN_C, units)} until two weighings "
            "some hours apart agree "
            "(common practice, no source); a sample still losing weight reads too low.",
            "An oven with wood in it is not left alone: hot wood can smolder.",
        ],
    )


def meter_answer(
    moisture_pct: float,
    reading_pct: float,
    wood_c: float,
    meter_c: float,
    meter_assumed: bool,
    units: str,
) -> Answer:
    """Moisture content from the reading of a resistance meter.

    Parameters: moisture_pct corrected for temperature, reading_pct as shown [%]; wood_c
    temperature of the wood, meter_c that the meter is calibrated for [degC]; meter_assumed,
    true where the latter was not given; units 'us' or 'si'.
    """
    low, high = METER_RANGE_PCT
    text = KINDS["temperature"].text
    notes = [
        f"0.5 % is added for each {'10 F' if units == 'us' else '5.6 C'} the wood is colder than "
        "the meter was calibrated "
        "at, and taken off when warmer: FPL-GTR-190 (2010), p. 13-3 (page inferred).",
        f"Resistance meters can be used from about {low:g} to {high:g} %; a well-used one is "
        "within 1 % of the true average. The meter's correction for the species comes on top.",
    ]
    if meter_assumed:
        notes.append(
            f"The meter is taken to be calibrated at {text(meter_c, units)} (common practice, no "
            "source); its instructions say, give it with --calibration."
        )
    if not low <= moisture_pct <= high:
        notes.append(f"Corrected, the reading leaves the range of {low:g} to {high:g} %.")
    return Answer(
        headline=[
            f"Moisture content {fixed(moisture_pct, 1)} %, likely within 1 %: {reading_pct:g} % on "
            f"the meter, {moisture_pct - reading_pct:+.1f} % for wood at {text(wood_c, units)}."
        ],
        facts=[
            (Column("moisture", "", "percent"), moisture_pct),
            (Column("reading", "", "percent"), reading_pct),
            (Column("wood_temperature", "", "temperature"), wood_c),
            (Column("calibration_temperature", "", "temperature"), meter_c),
        ],
        notes=notes,
    )
