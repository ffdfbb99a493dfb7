"""The moisture content of wood in hand: by a sample from the oven, or by a meter."""

from __future__ import annotations

from woodref.errors import InputError
from woodref.formulas.moisture import (
    METER_CALIBRATION_C,
    METER_RANGE_PCT,
    meter_moisture_content,
    moisture_content,
)


def sample_moisture(wet_kg: float, dry_kg: float) -> float:
    """Moisture content of a sample from its mass before and after ovendrying [%].

    Parameters: wet_kg, dry_kg in one unit of mass.
    Raises: InputError for a dry mass that is not above 0, or above the wet one.
    Source: woodref.formulas.moisture.moisture_content.
    """
    if not dry_kg > 0.0:
        raise InputError("a sample weighs more than 0 when dry")
    if not wet_kg >= dry_kg:
        raise InputError(
            "a sample weighs less wet than dry: it gains nothing in the oven; are they exchanged?"
        )
    return float(moisture_content(wet_kg, dry_kg))


def corrected_reading(
    reading_pct: float, temperature_c: float, calibration_c: float = METER_CALIBRATION_C
) -> float:
    """Moisture content from the reading of a resistance meter in cold or warm wood [%].

    Parameters: reading_pct [%]; temperature_c of the wood, calibration_c of the meter [degC].
    Raises: InputError for a reading outside the range of such meters, or a correction that
    leaves less than nothing.
    Source: woodref.formulas.moisture.meter_moisture_content.
    """
    low, high = METER_RANGE_PCT
    if not low <= reading_pct <= high:
        raise InputError(
            f"a resistance meter can be used from {low:g} to {high:g} %, and {reading_pct:g} is "
            "outside; weigh a sample before and after the oven"
        )
    percent = float(meter_moisture_content(reading_pct, temperature_c, calibration_c))
    if not percent >= 0.0:
        raise InputError(
            f"the correction of {percent - reading_pct:+.1f} % leaves less than nothing; check "
            "the temperatures"
        )
    return percent
