"""How fast wood follows the air, and what a finish leaves of that."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.api.shared import reference, wood_of
from woodref.board.movement import ring_angle
from woodref.climate.rooms import Room
from woodref.climate.seasons import month_number
from woodref.drying import delivery as delivering
from woodref.drying.acclimation import Acclimation, acclimate_in
from woodref.drying.acclimation import acclimate as acclimate_at
from woodref.drying.ambient import ROOM_C, air_of, months_between
from woodref.drying.board_lag import BoardLag, board_lag
from woodref.drying.delivery import Delivery
from woodref.drying.finish import BARE, finish_on
from woodref.drying.follow import board_of
from woodref.drying.lag import LagStep, lag_step
from woodref.errors import InputError
from woodref.quantity import check_glued
from woodref.reference.finishes import FinishRow, finish_rows
from woodref.reference.woods import Wood


def finishes() -> tuple[FinishRow, ...]:
    """List the finishes whose effect was tested, and what moisture they kept out.

    Returns
    -------
    tuple of FinishRow
        One for each finish, number of coats and days of exposure: the share of the moisture
        kept out [%], with its source.
    """
    return finish_rows(reference())


def lag(
    name: Wood | str,
    thickness_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    days: Sequence[float],
    finish: str = "bare",
    coats: int | None = None,
) -> LagStep:
    """Compute how much of its movement a board has made, some days after the air changed.

    Parameters
    ----------
    name : Wood or str
        The wood.
    thickness_mm : float
        Thickness [mm].
    from_moisture_pct, to_moisture_pct : float
        Of the board, and what it comes to in the new air [%], 0 to 30.
    days : sequence of float
        Days after the change, rising [d].
    finish : str, optional
        A finish of the table; see :func:`woodref.finishes`.
    coats : int, optional
        Coats of it; by default those nearest to two that were tested.

    Returns
    -------
    LagStep
        Shares of the whole change for each of ``days`` [1], with their spread.

    Raises
    ------
    InputError
        For an unknown finish, or an impossible size or moisture content.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.

    Notes
    -----
    One-dimensional diffusion through the thickness, with the resistance of the air and of the
    finish: ``woodref.formulas.diffusion``.
    """
    chosen = finish_on(finish_rows(reference()), finish, coats)
    board = board_of(wood_of(name), thickness_mm)
    return lag_step(board, [chosen], from_moisture_pct, to_moisture_pct, days)[0]


def lag_year(
    name: Wood | str,
    thickness_mm: float,
    room: Room | None = None,
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    *,
    finishes: Sequence[str] = (),
    coats: int | None = None,
    one_face: bool = False,
    days: float = 61.0,
    width_mm: float | None = None,
    cut: str | float = "flat",
) -> BoardLag:
    """Compute what thickness and finishes leave of the movement of a board, through a year.

    Parameters
    ----------
    name : Wood or str
        The wood.
    thickness_mm : float
        Thickness [mm].
    room : Room, optional
        The room it lives in, of :func:`woodref.season`.
    driest_pct, wettest_pct : float, optional
        Moisture contents at rest in the dry and in the wet season [%], 0 to 30, where no room
        is given.
    finishes : sequence of str, optional
        Finishes of the table, :func:`woodref.finishes`; bare wood is always the first.
    coats : int, optional
        Coats of them; by default those nearest to two that were tested.
    one_face : bool, optional
        True where the other face stays bare.
    days : float, optional
        Of the wet season that is asked for [d].
    width_mm : float, optional
        Width at rest in the dry season, to have its movement too [mm].
    cut : str or float, optional
        As for :func:`woodref.movement`.

    Returns
    -------
    BoardLag
        For each finish ``made``, the share of the movement made after ``days`` [1], and
        ``years``, what it swings through a year [%].

    Raises
    ------
    InputError
        For an unknown finish, or an impossible size or moisture content.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.

    See Also
    --------
    lag : the course after one change of the air.
    """
    if room is None:
        emc: Sequence[float] = months_between(driest_pct, wettest_pct)
        warmth: Sequence[float] = (ROOM_C,) * 12
        ends = (driest_pct, wettest_pct)
    else:
        emc, warmth = air_of(room.season)
        ends = (min(emc), max(emc))
    wood, rows = wood_of(name), finish_rows(reference())
    chosen = [finish_on(rows, finish, coats, one_face) for finish in finishes]
    return board_lag(
        wood,
        board_of(wood, thickness_mm),
        list(dict.fromkeys([BARE, *chosen])),
        ends,
        emc,
        warmth,
        days,
        width_mm,
        ring_angle(cut),
    )


def acclimate(
    name: Wood | str,
    thickness_mm: float,
    from_moisture_pct: float = 12.0,
    to_moisture_pct: float = 7.0,
    temperature_c: float = ROOM_C,
    *,
    room: Room | None = None,
    month: str | int | None = None,
) -> Acclimation:
    """Estimate how long stock should rest in a room before it is milled, both faces open.

    Parameters
    ----------
    name : Wood or str
        The wood.
    thickness_mm : float
        Thickness [mm].
    from_moisture_pct : float, optional
        Moisture content of the stock [%], 0 to 30.
    to_moisture_pct : float, optional
        What the room brings it to [%], 0 to 30.
    temperature_c : float, optional
        Of the room [degC].
    room : Room, optional
        In place of the two, a room of :func:`woodref.season`.
    month : str or int, optional
        In that room, by name or number; else the mean of its year.

    Returns
    -------
    Acclimation
        Days until the mean and the middle of the stock are within 1 % of the room [d].

    Raises
    ------
    InputError
        For an impossible size, moisture content or month, and a month without a room.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    wood = wood_of(name)
    if room is None:
        if month is not None:
            raise InputError("a month needs the room it is one of")
        return acclimate_at(wood, thickness_mm, from_moisture_pct, to_moisture_pct, temperature_c)
    number = 0 if month is None else month_number(str(month))
    return acclimate_in(wood, thickness_mm, from_moisture_pct, room.season, number)


def delivery(
    name: Wood | str,
    thickness_mm: float,
    built_pct: float,
    room: Room,
    month: str | int = 1,
    *,
    width_mm: float = 300.0,
    cut: str | float = "flat",
    boards: int = 1,
    finish: str = "bare",
    coats: int | None = None,
    one_face: bool = False,
) -> Delivery:
    """Follow a piece built in one place in the room it is delivered to.

    Parameters
    ----------
    name : Wood or str
        The wood.
    thickness_mm : float
        Thickness [mm].
    built_pct : float
        Moisture content at the build [%], 0 to 30.
    room : Room
        Where it lives, of :func:`woodref.season`.
    month : str or int, optional
        It arrives when this begins, by name or number.
    width_mm : float, optional
        Width at the build [mm].
    cut : str or float, optional
        As for :func:`woodref.movement`.
    boards : int, optional
        Boards glued to that width.
    finish : str, optional
        A finish of the table, :func:`woodref.finishes`.
    coats : int, optional
        Coats of it; by default those nearest to two that were tested.
    one_face : bool, optional
        True where the other face stays bare.

    Returns
    -------
    Delivery
        ``months`` of the first year, and ``swing_mm`` of the years after [mm].

    Raises
    ------
    InputError
        For an unknown finish, or an impossible size, moisture content or month.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    check_glued(boards)
    return delivering.delivery(
        wood_of(name),
        width_mm,
        thickness_mm,
        built_pct,
        room.season,
        month_number(str(month)),
        finish_on(finish_rows(reference()), finish, coats, one_face),
        ring_angle(cut),
        boards,
    )
