"""How wet a board in hand is: as known, by a meter, or by a sample from the oven."""

from __future__ import annotations

from collections.abc import Mapping

from woodref.errors import InputError
from woodref.moisture_readings import corrected_reading, sample_moisture
from woodref.written import parse_mass, parse_percent, parse_temperature

#: Columns of a file of boards that say it; one way a row.
MOISTURE_COLUMNS = ("moisture", "meter", "wood_temperature", "sample_wet", "sample_dry")
#: Wood is as wet as this at the most [%].
_MOST_PCT = 200.0


def board_moisture(cells: Mapping[str, str], units: str) -> float | None:
    """The moisture content of a board [%], None where nothing says it.

    Parameters: cells of MOISTURE_COLUMNS; units of bare temperatures and masses, 'us' or 'si'.
    A meter's reading is corrected for the temperature of the wood; its own correction for the
    wood comes before.
    Raises: InputError for two ways in one row, half of one, or what cannot be, as
    woodref.moisture_readings has it.
    Source: woodref.formulas.moisture.
    """
    given = {key: cells.get(key, "").strip() for key in MOISTURE_COLUMNS}
    known, meter, warmth, wet, dry = given.values()
    ways = [bool(known), bool(meter or warmth), bool(wet or dry)]
    if sum(ways) > 1:
        raise InputError("give its moisture one way: moisture, or meter, or a sample")
    if known:
        moisture = parse_percent(known, "moisture content")
        if moisture > _MOST_PCT:
            raise InputError(f"a moisture content is at most {_MOST_PCT:g} %, not {moisture:g}")
        return moisture
    if meter or warmth:
        return _by_meter(meter, warmth, units)
    if wet or dry:
        return _by_sample(wet, dry, units)
    return None


def _by_meter(meter: str, warmth: str, units: str) -> float:
    if not (meter and warmth):
        missing = "wood_temperature" if meter else "meter"
        raise InputError(f"{missing} is missing: a reading is corrected for how warm the wood is")
    shown = parse_percent(meter, "meter reading")
    return corrected_reading(shown, parse_temperature(warmth, "F" if units == "us" else "C"))


def _by_sample(wet: str, dry: str, units: str) -> float:
    if not (wet and dry):
        raise InputError(f"{'sample_dry' if wet else 'sample_wet'} is missing")
    unit = "oz" if units == "us" else "g"
    return sample_moisture(parse_mass(wet, unit), parse_mass(dry, unit))
