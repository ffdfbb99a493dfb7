"""Woods: looked up, and side by side."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.api.shared import reference, wood_of
from woodref.board.stability import Stability, stability_of
from woodref.choose import compare as side_by_side
from woodref.choose.compare import Comparison
from woodref.choose.overview import USUAL_BOARDS
from woodref.errors import InputError
from woodref.reference import search
from woodref.reference.cautions import Caution, cautions_for
from woodref.reference.look_search import Matches, wanted_look
from woodref.reference.look_search import find_by_look as by_look
from woodref.reference.look_words import NORTH_AMERICA, REGIONS
from woodref.reference.looks import Look, look_of
from woodref.reference.printed import Printed, printed_figures
from woodref.reference.properties import known_property
from woodref.reference.ratings import Rating, ratings_for
from woodref.reference.search import NameMatches
from woodref.reference.woods import Wood


def _known_region(region: str) -> str:
    """Return the region; raise InputError with those there are where it is none of them."""
    if region and region not in REGIONS:
        raise InputError(f"no region is called '{region}'; use {', '.join(REGIONS)}")
    return region


def wood(name: str, region: str = NORTH_AMERICA) -> Wood:
    """Look up the wood, or trade group, that goes by a name.

    Parameters
    ----------
    name : str
        Common name in either word order, botanical name, synonym, trade group or trade name;
        case, hyphens, accents and plurals do not matter.
    region : str, optional
        The region whose yards a plain name such as 'walnut' is of: 'North America', 'Europe' or
        'Australia and New Zealand'; '' refuses a name that differs by region.

    Returns
    -------
    Wood
        Its ``value(property_id)`` gives a Value with unit, spread, basis and source.

    Raises
    ------
    UnknownNameError
        Where no wood goes by the name, with the nearest names.
    AmbiguousNameError
        Where the trade sells several unlike woods under it, with the candidates.
    RegionalNameError
        Where it means one wood here and another there, and the region does not say which.
    InputError
        For a region that is none.

    Examples
    --------
    >>> import woodref
    >>> woodref.wood("sugar maple").value("side_hardness").printed
    '1450 lbf'
    """
    return reference(_known_region(region)).wood(name)


def look(name: Wood | str) -> Look | None:
    """Tell how a wood usually looks, works, is used and is stocked.

    Parameters
    ----------
    name : Wood or str
        The wood, or a name as for :func:`woodref.wood`.

    Returns
    -------
    Look or None
        Each cell with how it is known, None for a wood that is not listed. Typical, not a test
        of identity; of a trade group the words of its members.

    Raises
    ------
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    found = wood_of(name)
    return look_of(reference(), found.species_id, found.species_ids)


def find_by_look(
    hue: str | Iterable[str] = (),
    texture: str | Iterable[str] = (),
    pores: str | Iterable[str] = (),
    figure: str | Iterable[str] = (),
    uses: str | Iterable[str] = (),
    lightness: tuple[float, float] | None = None,
    stocked: bool = False,
    region: str = NORTH_AMERICA,
) -> Matches:
    """Find woods by how they usually look, what they are used for and where yards stock them.

    Parameters
    ----------
    hue, texture, pores, figure : str or iterable of str, optional
        Words of the table ``looks``; any of several will do. Hue is that of the wood as it
        reaches the maker.
    uses : str or iterable of str, optional
        Words of the table ``uses_of_woods``; all of them must be listed.
    lightness : tuple of float, optional
        From and to, 1 palest to 5 darkest.
    stocked : bool, optional
        Woods that most yards of the region stock alone.
    region : str, optional
        The region, also that by whose yards the woods are sorted.

    Returns
    -------
    Matches
        Its ``woods`` have a ``wood`` and a ``look`` each.

    Raises
    ------
    InputError
        For a word that is none, with the nearest; for a lightness out of range or a region that
        is none.
    """
    wanted = wanted_look(
        _words(hue),
        _words(texture),
        _words(pores),
        _words(figure),
        _words(uses),
        lightness,
        stocked,
        region,
    )
    return by_look(reference(), wanted)


def _words(asked: str | Iterable[str]) -> tuple[str, ...]:
    """Return one word, or several, as a tuple."""
    return (asked,) if isinstance(asked, str) else tuple(asked)


def find(name: str) -> NameMatches:
    """Find the woods a name can mean, those whose names hold it, and the nearest names.

    Parameters
    ----------
    name : str
        A name, a part of one, or a misspelt one.

    Returns
    -------
    NameMatches
        Empty where nothing comes near.
    """
    return search.find(reference(), name)


def printed(name: Wood | str) -> tuple[Printed, ...]:
    """List every printed figure of a wood, or of the members of a group, used or not.

    Parameters
    ----------
    name : Wood or str
        The wood, or a name as for :func:`woodref.wood`.

    Returns
    -------
    tuple of Printed
        One for each figure, with what it says, where it stands, and why it is used or not.

    Raises
    ------
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    return printed_figures(reference(), wood_of(name).species_ids)


def compare(*names: Wood | str, properties: Iterable[str] | None = None) -> Comparison:
    """Set woods side by side: ratios, and whether single boards show the difference.

    Parameters
    ----------
    *names : Wood or str
        Two woods or more; the first is set against each other one.
    properties : iterable of str, optional
        The rows wanted, keys of ``woodref.PROPERTIES`` or of
        ``woodref.choose.compare.COMPUTED``; by default the usual ones.

    Returns
    -------
    Comparison
        SI figures; what needs a size is for a board of 25 x 150 x 2400 mm. ``to_frame()`` gives a
        pandas frame of one row a wood.

    Raises
    ------
    InputError
        For fewer than two woods or an unknown property.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    if len(names) < 2:
        raise InputError("compare takes two woods or more")
    wanted = None if properties is None else list(properties)
    for key in wanted or ():
        if key not in side_by_side.COMPUTED:
            known_property(key)
    return side_by_side.compare([wood_of(n) for n in names], USUAL_BOARDS["si"], wanted)


def ratings(name: Wood | str) -> tuple[Rating, ...]:
    """List the printed classes of a wood: decay resistance, gluing, machining and others.

    Parameters
    ----------
    name : Wood or str
        The wood.

    Returns
    -------
    tuple of Rating
        Each with its scale, which names its edition; scales are never mixed.

    Raises
    ------
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    return ratings_for(reference(), wood_of(name).species_ids)


def cautions(name: Wood | str) -> tuple[Caution, ...]:
    """List the hazards and trade controls recorded for a wood, those for all woods first.

    Parameters
    ----------
    name : Wood or str
        The wood.

    Returns
    -------
    tuple of Caution
        Each in our words, with the document that says so.

    Raises
    ------
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    return cautions_for(reference(), wood_of(name).species_ids)


def stability(
    name: Wood | str,
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    width_mm: float = 300.0,
) -> Stability:
    """Compute how much a wood moves between two moisture contents, beside all others.

    Parameters
    ----------
    name : Wood or str
        The wood.
    driest_pct, wettest_pct : float, optional
        Moisture contents [%], 0 to 30.
    width_mm : float, optional
        Width at ``driest_pct`` [mm].

    Returns
    -------
    Stability
        The change flat and quarter sawn [mm], the ratio of tangential to radial shrinkage [1],
        and the rank among the woods with printed shrinkages.

    Raises
    ------
    InputError, NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    return stability_of(reference(), wood_of(name), driest_pct, wettest_pct, width_mm)
