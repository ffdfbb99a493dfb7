"""How fast wood follows the air."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.api.shared import reference, wood_of
from woodref.drying.lag import LagStep, board_of, finish_on, lag_step
from woodref.reference.finishes import finish_rows
from woodref.reference.woods import Wood


def lag(
    name: Wood | str,
    thickness_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    days: Sequence[float],
    finish: str = "bare",
    coats: int | None = None,
) -> LagStep:
    """How much of its movement a board has made, some days after the air changed for good.

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
