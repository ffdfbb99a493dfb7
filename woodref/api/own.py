"""Figures of your own, which go before the printed ones."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from woodref.api.shared import reference, wood_of
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.own.intake import Intake, take_in
from woodref.own.storage import rows_of, take_out
from woodref.own.weigh import WeighedBoard, keep, weigh
from woodref.reference.library import Reference
from woodref.reference.overlay import KINDS
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    import pandas


def _kind(kind: str) -> str:
    if kind not in KINDS:
        raise InputError(f"no own table is of the kind '{kind}'{did_you_mean(kind, KINDS)}")
    return kind


def own_figures(kind: str = "measurements") -> pandas.DataFrame:
    """Read what of your own is stored.

    Parameters
    ----------
    kind : str, optional
        'measurements', 'prices' or 'places'.

    Returns
    -------
    pandas.DataFrame
        One row for each figure, with its batch, its origin and the day it was added.

    Raises
    ------
    InputError
        For another kind.
    """
    import pandas

    return pandas.DataFrame(rows_of(_kind(kind)))


def own_add(file: str | Path, kind: str, origin: str, overwrite: bool = False) -> Intake:
    """Take a table of your own figures into the dataset.

    Parameters
    ----------
    file : str or Path
        A CSV file; :func:`woodref.template` starts one.
    kind : str
        'measurements', 'prices' or 'places'.
    origin : str
        Where the figures come from, shown beside each of them.
    overwrite : bool, optional
        Replace a file ``rejects`` of other rows, which you may have corrected.

    Returns
    -------
    Intake
        How many rows were kept, the identifier of their batch, and ``bad`` the rows that were
        not, which stand with their reasons in the file ``rejects`` beside the table.

    Raises
    ------
    InputError
        For another kind, a file that cannot be read as such a table, an empty origin, a table
        that is stored already, or a file ``rejects`` of other rows.
    """
    return take_in(reference(), Path(file), _kind(kind), origin, overwrite=overwrite)


def own_remove(batch: str) -> int:
    """Take a table of your own out of the dataset again.

    Parameters
    ----------
    batch : str
        Its identifier, as :func:`woodref.own_add` gave it.

    Returns
    -------
    int
        The number of rows taken out.

    Raises
    ------
    InputError
        For a batch that is not stored.
    """
    return take_out(batch)


def own_weigh(
    name: Wood | str,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    mass_kg: float,
    moisture_pct: float,
    origin: str = "",
) -> WeighedBoard:
    """Judge if a board is heavy for its kind; keep it as your own figure.

    Parameters
    ----------
    name : Wood or str
        The wood.
    length_mm, width_mm, thickness_mm : float
        True size of the board at ``moisture_pct`` [mm].
    mass_kg : float
        What it weighs [kg].
    moisture_pct : float
        Its moisture content [%], 0 to 200.
    origin : str, optional
        Where the board comes from: with it, its density is kept as your own figure.

    Returns
    -------
    WeighedBoard
        Density [kg/m3], basic specific gravity [1], and the share of boards of the wood that
        are lighter [1].

    Raises
    ------
    InputError
        For sizes, a mass or a moisture content that cannot be.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    wood = wood_of(name)
    asked = wood.common_name if wood.is_group else wood.species_id
    printed = Reference(own=False).wood(asked)
    relation = reference().relation_of(wood)
    size = (length_mm, width_mm, thickness_mm)
    board = weigh(wood, *size, mass_kg, moisture_pct, relation, printed)
    if origin:
        keep(board, origin)
    return board
