"""What one board does: movement, weight, cross-section."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import TYPE_CHECKING, overload

from woodref.api.shared import wood_of
from woodref.arrays import is_array, one
from woodref.board import movement as moving
from woodref.board.cross_section import CrossSection, board_section
from woodref.board.movement import Movement, ring_angle
from woodref.board.outline import pith_beside
from woodref.board.panel import PanelMovement, Stave, panel_movement
from woodref.board.weight import BoardWeight, DensityEstimate, density_of, weight_of
from woodref.errors import InputError
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from woodref.arrays import Numbers
    from woodref.board.array_results import DensityArrays, MovementArrays, WeightArrays
    from woodref.board.given_arrays import Cuts, Woods

# Where every argument is a single value the first overload is the one that holds, so that the
# two overlap by design.


@overload
def movement(  # type: ignore[overload-overlap]
    name: Wood | str,
    size_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    cut: str | float = ...,
    boards: int = ...,
) -> Movement: ...


@overload
def movement(
    name: Woods,
    size_mm: Numbers,
    from_moisture_pct: Numbers,
    to_moisture_pct: Numbers,
    cut: Cuts = ...,
    boards: Numbers = ...,
) -> MovementArrays: ...


def movement(
    name: Woods,
    size_mm: Numbers,
    from_moisture_pct: Numbers,
    to_moisture_pct: Numbers,
    cut: Cuts = "flat",
    boards: Numbers = 1,
) -> Movement | MovementArrays:
    """Compute the size of a board after its moisture content changed, with the likely range.

    Parameters
    ----------
    name : Wood, str or array_like of either
        The wood, or its name.
    size_mm : float or array_like
        Width across the face at ``from_moisture_pct`` [mm].
    from_moisture_pct, to_moisture_pct : float or array_like
        Moisture contents before and after [%], 0 to 30; a green board is 30.
    cut : str, float or array_like, optional
        'flat', 'rift', 'quarter' or the angle of the rings to the face [degree].
    boards : int or array_like of int, optional
        Number of equal boards side by side, which share part of their spread.

    Returns
    -------
    Movement or MovementArrays
        Sizes [mm]; ``basis`` the printed figures with their sources. Arrays, of the one shape
        that the arguments go together to, where any of them is an array, a list or a series.

    Raises
    ------
    InputError
        For an impossible size, angle or moisture content; of arrays the first one is named.
    NoDataError
        Where no table holds the shrinkage of the wood.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    Notes
    -----
    Shrinkage is a straight line between ovendry and fiber saturation, the geometry exact [1]_.
    The likely range is the central 90 % for the board in hand, ``woodref.formulas.spread``.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.

    Examples
    --------
    >>> import woodref
    >>> round(woodref.movement("sugar maple", 965, 7, 11).after_mm, 1)
    978.8
    >>> woodref.movement(["sugar maple", "teak"], 965, 7, 11).after_mm.round(1)
    array([978.8, 972.2])
    """
    if any(map(is_array, (name, size_mm, from_moisture_pct, to_moisture_pct, cut, boards))):
        from woodref.board.arrays import movements

        return movements(wood_of, name, size_mm, from_moisture_pct, to_moisture_pct, cut, boards)
    wood, angle, count = wood_of(one(name)), ring_angle(one(cut)), one(boards)
    if not count >= 1:
        raise InputError(f"a width is glued from 1 board or more, not {count}")
    start, end = one(from_moisture_pct), one(to_moisture_pct)
    return moving.movement(wood, one(size_mm), start, end, angle, count)


def size_for(
    name: Wood | str,
    wanted_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    cut: str | float = "flat",
) -> Movement:
    """Compute the width to cut now for a width wanted later: the inverse of movement.

    Parameters
    ----------
    name : Wood or str
        The wood.
    wanted_mm : float
        Width wanted at ``to_moisture_pct`` [mm].
    from_moisture_pct, to_moisture_pct : float
        Moisture contents now and later [%], 0 to 30.
    cut : str or float, optional
        As for :func:`woodref.movement`.

    Returns
    -------
    Movement
        ``size_mm`` is the width to cut now, ``after_mm`` the one wanted [mm].

    Raises
    ------
    InputError, NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    angle = ring_angle(cut)
    return moving.size_for(wood_of(name), wanted_mm, from_moisture_pct, to_moisture_pct, angle)


@overload
def density(  # type: ignore[overload-overlap]
    name: Wood | str, moisture_pct: float = ...
) -> DensityEstimate: ...


@overload
def density(name: Woods, moisture_pct: Numbers = ...) -> DensityArrays: ...


def density(name: Woods, moisture_pct: Numbers = 12.0) -> DensityEstimate | DensityArrays:
    """Compute the density of a wood with its water, with the likely range of single boards.

    Parameters
    ----------
    name : Wood, str or array_like of either
        The wood, or its name.
    moisture_pct : float or array_like, optional
        Moisture content [%], from 0 to the most the wood can hold.

    Returns
    -------
    DensityEstimate or DensityArrays
        Densities [kg/m3]; ``values`` the printed figures, ``density_from`` and
        ``shrinkage_from`` how they were used.
        Arrays of one shape where an argument is an array, a list or a series.

    Raises
    ------
    InputError
        For an impossible moisture content; of arrays the first one is named.
    NoDataError
        Where no density of stated moisture condition is known.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    Notes
    -----
    From basic specific gravity and the wood's own volumetric shrinkage; where that is not
    known from its radial and tangential shrinkage, or from specific gravity [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 to 4-14,
       pp. 4-10 to 4-13.
    """
    if is_array(name) or is_array(moisture_pct):
        from woodref.board.arrays import densities

        return densities(wood_of, name, moisture_pct)
    return density_of(wood_of(one(name)), one(moisture_pct))


@overload
def weight(  # type: ignore[overload-overlap]
    name: Wood | str,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    moisture_pct: float = ...,
    quantity: int = ...,
) -> BoardWeight: ...


@overload
def weight(
    name: Woods,
    length_mm: Numbers,
    width_mm: Numbers,
    thickness_mm: Numbers,
    moisture_pct: Numbers = ...,
    quantity: Numbers = ...,
) -> WeightArrays: ...


def weight(
    name: Woods,
    length_mm: Numbers,
    width_mm: Numbers,
    thickness_mm: Numbers,
    moisture_pct: Numbers = 8.0,
    quantity: Numbers = 1,
) -> BoardWeight | WeightArrays:
    """Compute the mass of boards of one size, each and together, with the likely ranges.

    Parameters
    ----------
    name : Wood, str or array_like of either
        The wood, or its name.
    length_mm, width_mm, thickness_mm : float or array_like
        Size at ``moisture_pct`` [mm].
    moisture_pct : float or array_like, optional
        Moisture content [%].
    quantity : int or array_like of int, optional
        Number of boards, which share part of their spread.

    Returns
    -------
    BoardWeight or WeightArrays
        Masses [kg]. Arrays, of the one shape that the arguments go together to, where any of
        them is an array, a list or a series.

    Raises
    ------
    InputError
        For an impossible size, moisture content or quantity; of arrays the first one is named.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.density`.

    Notes
    -----
    Volume times the density of :func:`woodref.density` [1]_. The likely range is the central
    90 % for the boards in hand, ``woodref.formulas.spread``.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-14, p. 4-12.
    """
    if any(map(is_array, (name, length_mm, width_mm, thickness_mm, moisture_pct, quantity))):
        from woodref.board.arrays import weights

        return weights(wood_of, name, length_mm, width_mm, thickness_mm, moisture_pct, quantity)
    size = (one(length_mm), one(width_mm), one(thickness_mm))
    return weight_of(wood_of(one(name)), *size, one(moisture_pct), one(quantity))


def panel(
    name: Wood | str,
    staves: Sequence[Stave],
    from_moisture_pct: float,
    to_moisture_pct: float,
    thickness_mm: float | None = None,
) -> PanelMovement:
    """Compute the width of a glued-up panel after its moisture content changed.

    Parameters
    ----------
    name : Wood or str
        The wood.
    staves : sequence of Stave
        Each a width at ``from_moisture_pct`` [mm] and a ring angle [degree], 0 flat.
    from_moisture_pct, to_moisture_pct : float
        Moisture contents before and after [%], 0 to 30.
    thickness_mm : float, optional
        Thickness as built, for its change and the steps at the joints [mm].

    Returns
    -------
    PanelMovement
        Widths [mm], and the movement of each stave.

    Raises
    ------
    InputError
        For a panel without staves, and as :func:`woodref.movement`.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    built = () if thickness_mm is None else (thickness_mm,) * len(staves)
    return panel_movement(wood_of(name), staves, from_moisture_pct, to_moisture_pct, built)


def section(
    name: Wood | str,
    width_mm: float,
    thickness_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    pith_distance_mm: float = inf,
    side: str = "below",
    offset_mm: float = 0.0,
) -> CrossSection:
    """Compute the end of a board cut anywhere in the log, after its moisture content changed.

    Parameters
    ----------
    name : Wood or str
        The wood.
    width_mm, thickness_mm : float
        Size at ``from_moisture_pct`` [mm].
    from_moisture_pct, to_moisture_pct : float
        Moisture contents before and after [%], 0 to 30.
    pith_distance_mm : float, optional
        From the face of ``side`` to the pith [mm]; straight rings where nothing is said.
    side : str, optional
        Where the pith lies: 'below', 'above', 'left' or 'right'.
    offset_mm : float, optional
        Of the pith off the middle line, to the right or up [mm].

    Returns
    -------
    CrossSection
        ``faces``, ``cupped``, ``outline`` [mm].

    Raises
    ------
    InputError
        For an impossible size, side or moisture content.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.

    Notes
    -----
    The only map of the cross-section with the strain of free shrinkage everywhere, for rings
    that are circles around the pith: ``woodref.formulas.cross_section``.
    """
    pith = pith_beside(side, pith_distance_mm, offset_mm, width_mm, thickness_mm)
    return board_section(
        wood_of(name), width_mm, thickness_mm, pith, from_moisture_pct, to_moisture_pct
    )
