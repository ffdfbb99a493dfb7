"""The air of a room, from the mean outdoor air of a month, and what wood comes to in it.

Source: humidity as in :mod:`woodref.formulas.air`, moisture content as in
:mod:`woodref.formulas.moisture`; the figures of the kinds of rooms are common practice, no
source.
"""

from __future__ import annotations

from typing import NamedTuple

from woodref.formulas.air import STANDARD_PRESSURE_PA, relative_humidity_after
from woodref.formulas.engine import Q, larger, smaller
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT


class RoomFigures(NamedTuple):
    """How a kind of room changes the outdoor air of a month.

    The room is held at ``indoor_c`` at least and at ``cooled_c`` at most [degC], where given,
    and stands ``warmer_c`` [degC] above the outdoor mean otherwise; ``added_g_kg`` is the water
    living adds to each kg of dry air [g]; the relative humidity is held within ``low_pct`` and
    ``high_pct`` [%].
    """

    indoor_c: float | None = None
    cooled_c: float | None = None
    warmer_c: float = 0.0
    added_g_kg: float = 0.0
    low_pct: float = 0.0
    high_pct: float = 100.0


#: The kinds of rooms, by name; their figures are common practice, no source.
ROOM_FIGURES: dict[str, RoomFigures] = {
    "outdoors under cover": RoomFigures(),
    "unheated shop": RoomFigures(warmer_c=3.0),
    "heated house": RoomFigures(indoor_c=21.0, added_g_kg=2.0, low_pct=20.0, high_pct=60.0),
    "air-conditioned house": RoomFigures(
        indoor_c=21.0, cooled_c=24.0, added_g_kg=2.0, low_pct=20.0, high_pct=55.0
    ),
    "humidity-controlled room": RoomFigures(
        indoor_c=21.0, cooled_c=21.0, added_g_kg=2.0, low_pct=40.0, high_pct=50.0
    ),
}


def room_temperature(
    outdoor_c: Q, warmer_c: Q = 0.0, indoor_c: Q | None = None, cooled_c: Q | None = None
) -> Q:
    """Compute the temperature of a room from the outdoor mean of a month.

    Parameters
    ----------
    outdoor_c : Q
        Outdoor mean [degC].
    warmer_c : Q, optional
        How far the room stands above it [degC].
    indoor_c, cooled_c : Q, optional
        What it is heated to at least and cooled to at most [degC], None for a room without.

    Returns
    -------
    Q
        Temperature [degC].

    Notes
    -----
    Common practice, no source.
    """
    heated = outdoor_c + warmer_c
    if indoor_c is not None:
        heated = larger(heated, indoor_c)
    return heated if cooled_c is None else smaller(heated, cooled_c)


def room_humidity(
    outdoor_c: Q,
    outdoor_humidity_pct: Q,
    room_c: Q,
    added_g_kg: Q = 0.0,
    low_pct: Q = 0.0,
    high_pct: Q = 100.0,
    pressure_pa: Q = STANDARD_PRESSURE_PA,
) -> Q:
    """Compute the relative humidity of outdoor air brought to the temperature of a room.

    Parameters
    ----------
    outdoor_c, outdoor_humidity_pct : Q
        Air outdoors [degC, %].
    room_c : Q
        Temperature of the room [degC].
    added_g_kg : Q, optional
        Water that living adds [g per kg of dry air].
    low_pct, high_pct : Q, optional
        What the humidity is held within [%].
    pressure_pa : Q, optional
        Pressure of the air [Pa].

    Returns
    -------
    Q
        Relative humidity [%], ``low_pct`` to ``high_pct``.

    Notes
    -----
    woodref.formulas.air.relative_humidity_after; the limits of a room are common practice, no
    source.
    """
    humidity = relative_humidity_after(
        outdoor_c, outdoor_humidity_pct, room_c, added_g_kg, pressure_pa
    )
    return smaller(larger(humidity, low_pct), high_pct)


def moisture_content_in_air(temperature_c: Q, relative_humidity_pct: Q) -> Q:
    """Compute the moisture content wood comes to in air, at most fiber saturation.

    Parameters
    ----------
    temperature_c : Q
        Temperature of the air [degC], as equilibrium_moisture_content.
    relative_humidity_pct : Q
        Relative humidity [%].

    Returns
    -------
    Q
        Moisture content [%].

    Notes
    -----
    The EMC equation [1]_; fiber saturation at 30 %, as there.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.
    """
    emc = equilibrium_moisture_content(temperature_c, relative_humidity_pct)
    return smaller(emc, FIBER_SATURATION_PCT)
