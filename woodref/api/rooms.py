"""Places, and the year of a room."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from woodref.api.shared import reference
from woodref.board.movement import SizeChange
from woodref.climate.monthly_csv import read_months
from woodref.climate.rooms import USUAL_SETTING, Room, room_of
from woodref.climate.seasons import Season, Setting, changed, setting_of, two_seasons
from woodref.climate.seasons import season as year_of
from woodref.climate.sizes_by_month import MonthSize, sizes_through_year
from woodref.errors import InputError
from woodref.reference.places import Place, find_place

#: The setting of air that is that of the room.
_AS_IT_IS = "outdoors under cover"


def place(name: str) -> Place:
    """Find the town of a name, or the one nearest to a point, with its weather station.

    Parameters
    ----------
    name : str
        'Duluth', 'Portland, Maine', 'Vienna, Austria', or latitude and longitude [degree] as
        '46.8,-92.1', west and south negative.

    Returns
    -------
    Place
        Where it lies, its station, and what weakens its record.

    Raises
    ------
    InputError
        For an unknown name, with the nearest, and for one that several towns go by.

    See Also
    --------
    season : the air of the place, outdoors and in a room.
    """
    return find_place(reference(), name)


def _setting(
    name: str,
    indoor_temperature_c: float | None,
    added_moisture_g_kg: float | None,
    lowest_humidity_pct: float | None,
    highest_humidity_pct: float | None,
) -> Setting:
    return changed(
        setting_of(name),
        indoor_c=indoor_temperature_c,
        added_g_kg=added_moisture_g_kg,
        low_pct=lowest_humidity_pct,
        high_pct=highest_humidity_pct,
    )


def season(
    place: str,
    setting: str = USUAL_SETTING,
    *,
    indoor_temperature_c: float | None = None,
    added_moisture_g_kg: float | None = None,
    lowest_humidity_pct: float | None = None,
    highest_humidity_pct: float | None = None,
) -> Room:
    """Compute what wood goes through in a year, in a kind of room in a town.

    Parameters
    ----------
    place : str
        As for :func:`woodref.place`.
    setting : str, optional
        'heated house', 'air-conditioned house', 'unheated shop', 'outdoors under cover' or
        another of ``woodref.climate.seasons.SETTINGS``.
    indoor_temperature_c : float, optional
        The room is held at this at least [degC].
    added_moisture_g_kg : float, optional
        Water that living adds [g per kg of dry air].
    lowest_humidity_pct, highest_humidity_pct : float, optional
        Between which the relative humidity is held [%].

    Returns
    -------
    Room
        ``season.months`` with the air and the moisture content wood comes to in it,
        ``season.driest`` and ``season.wettest`` of them, and ``notes``.

    Raises
    ------
    InputError
        For an unknown place or setting, and for figures that make no room.

    Notes
    -----
    Monthly means of outdoor air, heated, cooled and given water as the setting says (common
    practice, no source), and the equilibrium moisture content in it [1]_. That of a month is
    where thin bare wood comes to rest in its mean air.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.

    Examples
    --------
    >>> import woodref
    >>> woodref.season("Duluth", "heated house").season.driest.name
    'January'
    """
    chosen = _setting(
        setting,
        indoor_temperature_c,
        added_moisture_g_kg,
        lowest_humidity_pct,
        highest_humidity_pct,
    )
    return room_of(reference(), place, chosen)


def own_season(
    *,
    winter: tuple[float, float] | None = None,
    summer: tuple[float, float] | None = None,
    months: str | Path | None = None,
    setting: str = _AS_IT_IS,
    indoor_temperature_c: float | None = None,
    added_moisture_g_kg: float | None = None,
    lowest_humidity_pct: float | None = None,
    highest_humidity_pct: float | None = None,
) -> Season:
    """Compute what wood goes through in a year of air that you measured.

    Parameters
    ----------
    winter, summer : tuple of float, optional
        Temperature [degC] and relative humidity [%] at midwinter and at midsummer; the months
        between follow a cosine (our own choice).
    months : str or Path, optional
        In place of both, a CSV file with the columns month, temperature and humidity_pct.
    setting : str, optional
        The kind of room, where the air is that outdoors; the air is that of the room where
        nothing is said.
    indoor_temperature_c, added_moisture_g_kg : float, optional
        As for :func:`woodref.season`.
    lowest_humidity_pct, highest_humidity_pct : float, optional
        As for :func:`woodref.season`.

    Returns
    -------
    Season
        As ``season`` of :func:`woodref.season`.

    Raises
    ------
    InputError
        Where neither two seasons nor a file are given, or both, and for air that cannot be.
    """
    if (months is None) == (winter is None or summer is None):
        raise InputError("give winter and summer, each a temperature and a humidity, or months")
    chosen = _setting(
        setting,
        indoor_temperature_c,
        added_moisture_g_kg,
        lowest_humidity_pct,
        highest_humidity_pct,
    )
    if winter and summer:
        return year_of(two_seasons(winter, summer), chosen)
    return year_of(read_months(Path(months or ""), "C"), chosen)


def through_year(room: Room | Season, move: Callable[[float], SizeChange]) -> tuple[MonthSize, ...]:
    """Follow the size of a board or a panel through the months of a room.

    Parameters
    ----------
    room : Room or Season
        Of :func:`woodref.season` or :func:`woodref.own_season`.
    move : callable
        What gives the movement of the part to a moisture content [%], such as
        ``lambda pct: woodref.movement("teak", 300, 8, pct)``.

    Returns
    -------
    tuple of MonthSize
        Twelve, each with the moisture content [%] and the size with its likely range [mm].

    See Also
    --------
    lag_year : what thickness and finishes leave of it.

    Notes
    -----
    The part has come to rest in the mean air of each month, as thin bare wood does; thick or
    finished wood lags behind and swings less.
    """
    return sizes_through_year(room.season if isinstance(room, Room) else room, move)
