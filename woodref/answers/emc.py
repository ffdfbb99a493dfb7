"""The answer about the moisture content wood comes to in air, and back."""

from __future__ import annotations

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.shop_words import shown
from woodref.answers.words import percent_text
from woodref.formulas.moisture import equilibrium_moisture_content

#: Humidities printed under an answer [%].
_HUMIDITIES = (20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0)
_CHECKED = {"us": "30 to 200 F", "si": "-1 to 93 C"}
_ONE_CURVE = (
    "One average curve for all woods; wood that is drying stays somewhat wetter than this, wood "
    "that is taking up moisture somewhat drier, and thick stock takes weeks to get there."
)


def _at_this_temperature(temperature_c: float) -> Section:
    return Section.of(
        "at_this_temperature",
        "At this temperature",
        [
            Column("humidity", "relative humidity", "percent"),
            Column("emc", "moisture content of wood", "percent"),
        ],
        ((h, equilibrium_moisture_content(temperature_c, h)) for h in _HUMIDITIES),
    )


def emc_answer(
    temperature_c: float, humidity_pct: float, emc_pct: float, wanted: bool, units: str
) -> Answer:
    """Air, and the moisture content of wood in it.

    Parameters: temperature_c [degC]; humidity_pct relative [%]; emc_pct moisture content in
    that air [%]; wanted, true where the moisture content was given and the humidity found;
    units 'us' or 'si'.
    """
    at = shown("temperature", temperature_c, units)
    lead = (
        f"At {at} keep the air at {humidity_pct:.0f} % relative humidity to hold wood at "
        f"{percent_text(emc_pct)}."
        if wanted
        else f"Wood comes to {percent_text(emc_pct)} moisture content at {at} and "
        f"{humidity_pct:g} % relative humidity."
    )
    return Answer(
        headline=[lead],
        facts=[
            (Column("temperature", "", "temperature"), temperature_c),
            (Column("humidity", "", "percent"), humidity_pct),
            (Column("emc", "", "percent"), emc_pct),
        ],
        sections=[_at_this_temperature(temperature_c)],
        notes=[
            "Computed from the Hailwood-Horrobin equation, Wood Handbook FPL-GTR-282 (2021), "
            f"Eq. 4-5, p. 4-3, checked from {_CHECKED[units]} against Table 4-2 of the handbook.",
            _ONE_CURVE,
        ],
    )
