"""Places, and the year of a room."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from woodref.api.shared import reference
from woodref.board.movement import SizeChange
from woodref.climate.monthly_csv import read_months
from woodref.climate.rooms import Room, room_of
from woodref.climate.seasons import Season, two_seasons
from woodref.climate.seasons import season as year_of
from woodref.climate.settings import changed, setting_of
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


def _figures(
    heated_to_c: float | None,
    cooled_to_c: float | None,
    vapor_gain_g_m3: float | None,
    humidifier_pct: float | None,
    dehumidifier_pct: float | None,
    cooler_pct: float | None,
    band_pct: float | None,
) -> dict[str, float]:
    """Name what is changed of a room by the names of woodref.formulas.room.RoomFigures."""
    given = {
        "heated_c": heated_to_c,
        "cooled_c": cooled_to_c,
        "gain_g_m3": vapor_gain_g_m3,
        "humidifier_pct": humidifier_pct,
        "dehumidifier_pct": dehumidifier_pct,
        "cooler_pct": cooler_pct,
        "band_pct": band_pct,
    }
    return {name: value for name, value in given.items() if value is not None}


def season(
    place: str,
    setting: str = "",
    *,
    heated_to_c: float | None = None,
    cooled_to_c: float | None = None,
    vapor_gain_g_m3: float | None = None,
    humidifier_pct: float | None = None,
    dehumidifier_pct: float | None = None,
    cooler_pct: float | None = None,
    band_pct: float | None = None,
) -> Room:
    """Compute what wood goes through in a year, in a kind of room in a town.

    Parameters
    ----------
    place : str
        As for :func:`woodref.place`.
    setting : str, optional
        'heated house', 'air-conditioned house', 'unheated shop', 'outdoors under cover' or
        another of ``woodref.climate.settings.SETTINGS``; by the climate where none is named.
    heated_to_c, cooled_to_c : float, optional
        The room is held at this at least, and at most [degC].
    vapor_gain_g_m3 : float, optional
        Vapor that living adds in frost [g/m3]; none from 20 degC outdoors on.
    humidifier_pct, dehumidifier_pct, cooler_pct : float, optional
        Relative humidity that a humidifier keeps it above, a dehumidifier below, and an air
        conditioner below while it cools [%].
    band_pct : float, optional
        How far either side of its set point a machine lets the humidity go [%].

    Returns
    -------
    Room
        ``season.months`` with the air and the moisture content wood comes to in it;
        ``season.driest`` and ``season.wettest`` as expected; ``season.design_pct``, the mean of
        the year and the driest and the wettest to design for [%]; and ``notes``.

    Raises
    ------
    InputError
        For an unknown place or setting, and for figures that make no room.

    Notes
    -----
    Monthly means of outdoor air, heated, cooled, given vapor and held by machines as the setting
    says (common practice, no source; the vapor from memory), and the equilibrium moisture content
    in it [1]_. That of a month is where thin bare wood comes to rest in its mean air. The range to
    design for goes from the driest to the wettest the room may come to, and at least 2 % either
    side of its mean (our choice: about what Table 13-2 prints for single pieces [1]_).

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.

    Examples
    --------
    >>> import woodref
    >>> woodref.season("Duluth", "heated house").season.driest.name
    'January'
    """
    figures = _figures(
        heated_to_c,
        cooled_to_c,
        vapor_gain_g_m3,
        humidifier_pct,
        dehumidifier_pct,
        cooler_pct,
        band_pct,
    )
    return room_of(reference(), place, setting, figures)


def own_season(
    *,
    winter: tuple[float, float] | None = None,
    summer: tuple[float, float] | None = None,
    months: str | Path | None = None,
    southern: bool = False,
    setting: str = _AS_IT_IS,
    heated_to_c: float | None = None,
    cooled_to_c: float | None = None,
    vapor_gain_g_m3: float | None = None,
    humidifier_pct: float | None = None,
    dehumidifier_pct: float | None = None,
    cooler_pct: float | None = None,
    band_pct: float | None = None,
) -> Season:
    """Compute what wood goes through in a year of air that you measured.

    Parameters
    ----------
    winter, summer : tuple of float, optional
        Temperature [degC] and relative humidity [%] at midwinter and at midsummer; the months
        between follow a cosine (our own choice).
    months : str or Path, optional
        In place of both, a CSV file with the columns month, temperature and humidity_pct.
    southern : bool, optional
        True where winter is in July.
    setting : str, optional
        The kind of room, where the air is that outdoors; the air is that of the room where
        nothing is said.
    heated_to_c, cooled_to_c, vapor_gain_g_m3 : float, optional
        As for :func:`woodref.season`.
    humidifier_pct, dehumidifier_pct, cooler_pct, band_pct : float, optional
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
    figures = _figures(
        heated_to_c,
        cooled_to_c,
        vapor_gain_g_m3,
        humidifier_pct,
        dehumidifier_pct,
        cooler_pct,
        band_pct,
    )
    chosen = changed(setting_of(setting), figures)
    if winter and summer:
        return year_of(two_seasons(winter, summer, southern), chosen)
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
