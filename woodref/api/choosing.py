"""Choosing a wood for a use, or in place of another."""

from __future__ import annotations

from woodref.api.shared import reference, wood_of
from woodref.choose import rank as ranking
from woodref.choose import substitute as substituting
from woodref.choose.profile import Profile, load_profile, profile_files
from woodref.choose.rank import Ranking
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.substitute import Substitutes
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


def rank(
    use: str,
    where: str = "",
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 20,
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

    Returns
    -------
    Ranking
        ``woods`` the first of those that pass, ``unranked`` those that lack a figure;
        ``to_frame()`` a pandas frame of one row a wood.

    Raises
    ------
    InputError
        For an unknown use or a wrong condition.
    NoDataError
        Where no wood passes, with the nearest miss.

    See Also
    --------
    woodref.choose.rank.rank : takes prices and other woods to compare with too.
    """
    seasonal_range = SeasonalRange(driest_pct, wettest_pct)
    return ranking.rank(reference(), load_profile(use), seasonal_range, where=where, limit=limit)


def substitute(
    name: Wood | str,
    use: str,
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 8,
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

    Returns
    -------
    Substitutes
        ``woods`` of other trade groups, ``own_group`` of its own, ``unranked`` those of which too
        little is known; ``to_frame()`` a pandas frame of one row a wood.

    Raises
    ------
    InputError
        For an unknown use.
    NoDataError
        Where too little is known of the wood, or nothing passes.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    See Also
    --------
    woodref.choose.substitute.substitutes : takes prices and filters too.
    """
    seasonal_range = SeasonalRange(driest_pct, wettest_pct)
    profile = load_profile(use)
    return substituting.substitutes(
        reference(), wood_of(name), profile, seasonal_range, limit=limit
    )
