"""The air of a room, from the mean outdoor air of a month, and what wood comes to in it.

Indoor air is outdoor air warmed or cooled, with the vapor that living adds to it, within what a
machine leaves of it. Every figure of a kind of room is common practice without a source, or from
memory where it says so, and can be changed.
"""

from __future__ import annotations

from typing import NamedTuple

from woodref.formulas.air import saturation_vapor_pressure
from woodref.formulas.engine import Q, choose, larger, smaller
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT

#: Gas constant of water vapor [J/(kg K)] (CODATA gas constant over the molar mass of water).
VAPOR_GAS_CONSTANT = 461.5
#: Kelvin at 0 degC.
_ZERO_C_K = 273.15
#: Outdoor mean from which on living adds no vapor, as windows stand open [degC] (ISO 13788, the
#: humidity classes of dwellings; from memory).
OPEN_WINDOWS_C = 20.0
#: Outdoor mean above which an air conditioner runs [degC]: 65 degF, the base of cooling degree
#: days in weather records.
COOLING_BASE_C = (65.0 - 32.0) / 1.8


#: A month hotter than this outdoors in the mean makes a place one of air conditioning where no
#: setting is named: the temperature such a room is cooled to (common practice, no source) [degC].
HOT_C = 24.0
#: The range to design for reaches at least this far either side of the mean of the year [%]:
#: Table 13-2 of FPL-GTR-190 (2010) prints about as much for single pieces of a region, and
#: sorption has a hysteresis of some 10 % of a moisture content besides.
DESIGN_LEAST_PCT = 2.0


class RoomFigures(NamedTuple):
    """How a kind of room changes the outdoor air of a month.

    The room is held at ``heated_c`` at least and at ``cooled_c`` at most [degC], where given,
    and stands ``warmer_c`` [degC] above the outdoor mean otherwise. Living adds ``gain_g_m3`` of
    vapor at 0 degC outdoors and below, ``gain_band_g_m3`` more or less [g/m3]. A humidifier keeps
    the relative humidity above ``humidifier_pct``, a dehumidifier below ``dehumidifier_pct``, and
    an air conditioner, in the months it runs, below ``cooler_pct``; each holds it within
    ``band_pct`` either side of its set point [%]. ``open_air`` is true where rain and sun reach
    the wood.
    """

    heated_c: float | None = None
    cooled_c: float | None = None
    warmer_c: float = 0.0
    gain_g_m3: float = 0.0
    gain_band_g_m3: float = 0.0
    humidifier_pct: float = 0.0
    dehumidifier_pct: float = 100.0
    cooler_pct: float = 100.0
    band_pct: float = 10.0
    open_air: bool = False

    def humidity(self, outdoor_c: Q, outdoor_humidity_pct: Q, room_c: Q, end: int = 0) -> Q:
        """Compute the relative humidity of such a room, with its vapor and its machines.

        Parameters
        ----------
        outdoor_c, outdoor_humidity_pct : Q
            Air outdoors [degC, %].
        room_c : Q
            Temperature of the room [degC].
        end : int, optional
            0 what is expected, -1 the low end of what the room may come to, 1 the high end.

        Returns
        -------
        Q
            Relative humidity [%], 0 to 100.

        Notes
        -----
        room_humidity and held_humidity, each figure moved by its band.
        """
        gain = max(0.0, self.gain_g_m3 + end * self.gain_band_g_m3)
        off = end * self.band_pct
        least = max(0.0, self.humidifier_pct + off) if self.humidifier_pct > 0.0 else 0.0
        dry, cool = (
            min(100.0, max(0.0, point + off)) if point < 100.0 else 100.0
            for point in (self.dehumidifier_pct, self.cooler_pct)
        )
        most = choose(outdoor_c > COOLING_BASE_C, min(dry, cool), dry)
        return held_humidity(
            room_humidity(outdoor_c, outdoor_humidity_pct, room_c, gain), least, most
        )


_DWELLING = RoomFigures(heated_c=21.0, gain_g_m3=4.0, gain_band_g_m3=2.0)
#: The kinds of rooms, by name. Temperatures and machines are common practice, no source; the
#: vapor that living adds is that of the humidity classes of ISO 13788, from memory: storage up to
#: 2 g/m3, dwellings 2 to 6.
ROOM_FIGURES: dict[str, RoomFigures] = {
    "outdoors": RoomFigures(open_air=True),
    "outdoors under cover": RoomFigures(),
    "unheated shop": RoomFigures(warmer_c=3.0, gain_g_m3=1.0, gain_band_g_m3=1.0),
    "heated house": _DWELLING,
    "air-conditioned house": _DWELLING._replace(cooled_c=24.0, cooler_pct=55.0),
    "humidity-controlled room": _DWELLING._replace(
        cooled_c=21.0, humidifier_pct=40.0, dehumidifier_pct=50.0, band_pct=5.0
    ),
}


def room_temperature(
    outdoor_c: Q, warmer_c: Q = 0.0, heated_c: Q | None = None, cooled_c: Q | None = None
) -> Q:
    """Compute the temperature of a room from the outdoor mean of a month.

    Parameters
    ----------
    outdoor_c : Q
        Outdoor mean [degC].
    warmer_c : Q, optional
        How far the room stands above it [degC].
    heated_c, cooled_c : Q, optional
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
    if heated_c is not None:
        heated = larger(heated, heated_c)
    return heated if cooled_c is None else smaller(heated, cooled_c)


def room_humidity(outdoor_c: Q, outdoor_humidity_pct: Q, room_c: Q, gain_g_m3: Q = 0.0) -> Q:
    """Compute the relative humidity of outdoor air in a room where people live.

    Parameters
    ----------
    outdoor_c, outdoor_humidity_pct : Q
        Air outdoors [degC, %].
    room_c : Q
        Temperature of the room [degC].
    gain_g_m3 : Q, optional
        Vapor that living adds at 0 degC outdoors and below [g/m3 of indoor air]; it falls in a
        straight line to none at OPEN_WINDOWS_C.

    Returns
    -------
    Q
        Relative humidity [%], at most 100.

    Notes
    -----
    Vapor pressure indoors is that outdoors plus ``gain R T / 1000`` [1]_; the gas law of water
    vapor. No humidity is taken out but by condensation: machines are held_humidity.

    References
    ----------
    .. [1] ISO 13788, internal vapor pressure and humidity classes (from memory).
    """
    share = smaller(larger((OPEN_WINDOWS_C - outdoor_c) / OPEN_WINDOWS_C, 0.0), 1.0)
    gain_pa = gain_g_m3 * share * VAPOR_GAS_CONSTANT * (room_c + _ZERO_C_K) / 1000.0
    outdoor_pa = saturation_vapor_pressure(outdoor_c) * outdoor_humidity_pct / 100.0
    return smaller(100.0 * (outdoor_pa + gain_pa) / saturation_vapor_pressure(room_c), 100.0)


def held_humidity(humidity_pct: Q, least_pct: Q = 0.0, most_pct: Q = 100.0) -> Q:
    """Compute the relative humidity that machines leave of that of a room.

    Parameters
    ----------
    humidity_pct : Q
        Relative humidity without them [%].
    least_pct, most_pct : Q, optional
        What a humidifier brings it up to, and a dehumidifier or an air conditioner down to [%].

    Returns
    -------
    Q
        Relative humidity [%], ``least_pct`` to ``most_pct``.

    Notes
    -----
    Common practice, no source.
    """
    return smaller(larger(humidity_pct, least_pct), most_pct)


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
