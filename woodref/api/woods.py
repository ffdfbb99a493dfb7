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
from woodref.reference.printed import Printed, printed_figures
from woodref.reference.properties import known_property
from woodref.reference.ratings import Rating, ratings_for
from woodref.reference.search import NameMatches
from woodref.reference.woods import Wood


def wood(name: str) -> Wood:
    """Look up the wood, or trade group, that goes by a name.

    Parameters
    ----------
    name : str
        Common name in either word order, botanical name, synonym, trade group or trade name;
        case, hyphens, accents and plurals do not matter.

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

    Examples
    --------
    >>> import woodref
    >>> woodref.wood("sugar maple").value("side_hardness").value
    6400.0
    """
    return reference().wood(name)


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
