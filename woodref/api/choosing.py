"""Choosing a wood for a use, or in place of another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from woodref.api.shared import price_list, reference, wood_of
from woodref.choose import rank as ranking
from woodref.choose import substitute as substituting
from woodref.choose.buyable import Buyable
from woodref.choose.columns import COLUMNS
from woodref.choose.filters import SHADES, Filter, asked, compared_with, of_most
from woodref.choose.prices import check_amounts, prices_per_m3
from woodref.choose.profile import Profile, load_profile, profile_files, weighing_price
from woodref.choose.rank import Ranking
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.substitute_result import Substitutes
from woodref.climate.rooms import Room
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.prices import PriceList
from woodref.reference.look_words import NORTH_AMERICA, REGIONS
from woodref.reference.woods import Wood


def uses() -> dict[str, Profile]:
    """List the uses woods are ranked for, and what each asks of a wood.

    Returns
    -------
    dict of str to Profile
        By name; your own, TOML files in the folder uses beside your configuration, go before
        those that come with the package.
    """
    return {name: load_profile(name) for name in profile_files()}


def _year(driest_pct: float, wettest_pct: float, room: Room | None) -> SeasonalRange:
    if room is None:
        return SeasonalRange(driest_pct, wettest_pct)
    return SeasonalRange.of_room(room)


def _priced(
    prices: str | Path | None, thickness: str, max_price_per_m3: float | None
) -> tuple[Mapping[str, float], list[Filter]]:
    """Prices of a cubic meter by wood, and the filter of the most that is asked for."""
    listed: PriceList | None = price_list(prices)
    if listed is None:
        if max_price_per_m3 is not None:
            raise InputError("a highest price needs a price list")
        return {}, []
    nominal = parse_nominal(thickness, "mm")
    per_m3 = prices_per_m3(listed, nominal)
    if prices:
        check_amounts(listed, nominal, per_m3)
    if max_price_per_m3 is None:
        return per_m3, []
    return per_m3, [of_most(max_price_per_m3, "si", listed.currency, nominal.label)]


def _shade(shade: str) -> str:
    if shade and shade not in SHADES:
        raise InputError(f"no shade is called '{shade}'; use {', '.join(SHADES)}")
    return shade


def _buyable(
    region: str, yard: Sequence[Wood | str] | None, all_woods: bool, prices: str | Path | None
) -> Buyable | None:
    if all_woods:
        return None
    if region not in REGIONS:
        raise InputError(f"no region is called '{region}'{did_you_mean(region, REGIONS)}")
    has = None
    if yard is not None:
        has = frozenset(i for name in yard for i in wood_of(name).species_ids)
        if not has:
            raise InputError("the yard is empty; name its woods, or leave it out")
    return Buyable(region, has, price_list=Path(prices).name if prices else "")


def rank(
    use: str,
    where: str = "",
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 20,
    *,
    room: Room | None = None,
    kind: str = "",
    origin: str = "",
    exclude_controlled: bool = False,
    exclude_allergens: bool = False,
    shade: str = "",
    harder_than: Wood | str | None = None,
    stiffer_than: Wood | str | None = None,
    steadier_than: Wood | str | None = None,
    lighter_than: Wood | str | None = None,
    prices: str | Path | None = None,
    thickness: str = "4/4",
    max_price_per_m3: float | None = None,
    region: str = NORTH_AMERICA,
    yard: Sequence[Wood | str] | None = None,
    all_woods: bool = False,
) -> Ranking:
    """Rank woods for a use, best first, each with what makes its score.

    Parameters
    ----------
    use : str
        'tabletop', 'outdoor bench' or another use, or the path of a profile, a TOML file.
    where : str, optional
        A condition in SQL over the columns of ``woodref.choose.columns.COLUMNS``.
    driest_pct, wettest_pct : float, optional
        Moisture contents of the year, for movement [%].
    limit : int, optional
        Most woods returned.
    room : Room, optional
        In place of the moisture contents, a room of :func:`woodref.season`.
    kind : str, optional
        'hardwood' or 'softwood'.
    origin : str, optional
        A region: 'Europe', 'North America' or another.
    exclude_controlled : bool, optional
        Leave out woods with a recorded trade control.
    exclude_allergens : bool, optional
        Leave out woods whose dust a document names for allergy, asthma or dermatitis.
    shade : str, optional
        'pale', 'medium' or 'dark', as sold.
    harder_than, stiffer_than, steadier_than, lighter_than : Wood or str, optional
        Only woods that are so beside this one.
    prices : str or Path, optional
        A price list, a CSV file; else the shop's own.
    thickness : str, optional
        Nominal thickness of the prices: '4/4' or '27 mm'.
    max_price_per_m3 : float, optional
        Most a cubic meter may cost, in the currency of the list [1/m3].
    region : str, optional
        Whose yards, of 'North America', 'Europe' and 'Australia and New Zealand': woods they stock,
        commonly or as a specialty, are ranked.
    yard : sequence of Wood or str, optional
        The woods your own yard has, in place of those the region stocks; else a price list that
        is named says what can be bought.
    all_woods : bool, optional
        Every wood known, whether anyone sells it or not.

    Returns
    -------
    Ranking
        ``woods`` the first of those that pass, ``unranked`` those that lack a figure;
        ``to_frame()`` a pandas frame of one row a wood.

    Raises
    ------
    InputError
        For an unknown use, a wrong condition, or prices that are asked for and not there.
    NoDataError
        Where no wood passes, with the nearest miss.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    year = _year(driest_pct, wettest_pct, room)
    others = {
        "harder": harder_than,
        "stiffer": stiffer_than,
        "steadier": steadier_than,
        "lighter": lighter_than,
    }
    beside = [compared_with(word, wood_of(o), year) for word, o in others.items() if o is not None]
    per_m3, most = _priced(prices, thickness, max_price_per_m3)
    kept_out = (exclude_controlled, exclude_allergens)
    filters = [*beside, *asked(kind, origin, *kept_out, _shade(shade)), *most]
    profile = load_profile(use)
    if per_m3:
        profile = weighing_price(profile, COLUMNS["price_per_m3"])
    where_from = _buyable(region, yard, all_woods, prices if per_m3 else None)
    return ranking.rank(reference(), profile, year, filters, where, limit, per_m3, where_from)


def substitute(
    name: Wood | str,
    use: str,
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 8,
    *,
    room: Room | None = None,
    kind: str = "",
    origin: str = "",
    exclude_controlled: bool = False,
    exclude_allergens: bool = False,
    shade: str = "",
    ignore_look: bool = False,
    prices: str | Path | None = None,
    thickness: str = "4/4",
    max_price_per_m3: float | None = None,
    region: str = NORTH_AMERICA,
    yard: Sequence[Wood | str] | None = None,
    all_woods: bool = False,
) -> Substitutes:
    """Find the woods that come closest to one for a use, in work and in look.

    Parameters
    ----------
    name : Wood or str
        The wood to be replaced.
    use : str
        As for :func:`woodref.rank`.
    driest_pct, wettest_pct : float, optional
        Moisture contents of the year, for movement [%].
    limit : int, optional
        Most woods returned.
    room : Room, optional
        As for :func:`woodref.rank`.
    kind : str, optional
        'hardwood', 'softwood' or 'any'; that of the wood where none is named.
    origin : str, optional
        As for :func:`woodref.rank`.
    exclude_controlled, exclude_allergens : bool, optional
        As for :func:`woodref.rank`.
    shade : str, optional
        As for :func:`woodref.rank`.
    ignore_look : bool, optional
        Go by the work alone, as under paint.
    prices : str or Path, optional
        As for :func:`woodref.rank`.
    thickness : str, optional
        As for :func:`woodref.rank`.
    max_price_per_m3 : float, optional
        As for :func:`woodref.rank`.
    region, yard, all_woods : optional
        As for :func:`woodref.rank`.

    Returns
    -------
    Substitutes
        ``woods`` of other trade groups, ``own_group`` of its own, ``unranked`` those of which too
        little is known; ``to_frame()`` a pandas frame of one row a wood.

    Raises
    ------
    InputError
        For an unknown use, or prices that are asked for and not there.
    NoDataError
        Where too little is known of the wood, or nothing passes.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    per_m3, most = _priced(prices, thickness, max_price_per_m3)
    return substituting.substitutes(
        reference(),
        wood_of(name),
        load_profile(use),
        _year(driest_pct, wettest_pct, room),
        [*asked("", origin, exclude_controlled, exclude_allergens, _shade(shade)), *most],
        limit,
        look_counts=not ignore_look,
        prices_per_m3=per_m3,
        buyable=_buyable(region, yard, all_woods, prices if per_m3 else None),
        kind=kind,
    )
