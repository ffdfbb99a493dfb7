"""A whole piece: its estimate, its page, its load and its crate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from woodref.api.lumber import boards_of_file
from woodref.api.shared import price_list, reference, refuse_rejects
from woodref.choose.piece_beside import PieceBeside, piece_beside
from woodref.climate.rooms import room_of
from woodref.errors import InputError
from woodref.lumber.cut_list import is_cut_list
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.piece.cut_list_piece import read_cut_list_piece, read_parts
from woodref.piece.estimate import Estimate, estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import Piece, read_piece
from woodref.piece.start_file import KINDS, Start, piece_file, template_file
from woodref.piece.swaps import swaps_of
from woodref.quantity import Range, exactly
from woodref.reference.shipping import Divisor, shipping_facts
from woodref.report.html import report_html
from woodref.shipping import crate as packed
from woodref.shipping import load as laden
from woodref.shipping.crate import Crate, Packing
from woodref.shipping.load import Item, Load, WoodPart


def template(
    name: str = "piece",
    *,
    units: str = "us",
    wood: str = "",
    place: str = "",
    parts: str | Path | None = None,
) -> str:
    """Read a commented file to start from.

    Parameters
    ----------
    name : str, optional
        'table', 'cabinet', 'bookcase', 'bench', 'chest', 'bed' or 'frame-and-panel-door', an
        invented piece with every key that a piece file may have; 'piece', a short one;
        'prices', or for own figures 'measurements' or 'places'.
    units, wood, place : str, optional
        Of a kind of piece: 'us' or 'si', its wood, the town it stands in.
    parts : str or Path, optional
        A cut list whose parts take the place of the invented ones.

    Returns
    -------
    str
        The text of the file, to write and edit.

    Raises
    ------
    InputError
        For another name, and for a cut list with a row that is no part.
    """
    if name not in KINDS:
        return template_file(name)
    if parts is None:
        return piece_file(name, units, Start(wood=wood, place=place))
    path = Path(parts)
    listed = read_parts(path, units, wood)
    refuse_rejects(path, listed.rejects)
    return piece_file(name, units, Start(name=path.stem, place=place, rows=listed.cells))


def _boards(piece: Piece) -> list[WrittenBoard]:
    file = piece.boards_file
    if file is None:
        return []
    return [WrittenBoard(board, str(file)) for board in boards_of_file(file, piece.units)]


def estimate(
    file: str | Path,
    *,
    prices: str | Path | None = None,
    place: str = "",
    setting: str = "",
    wood: str = "",
    units: str = "us",
    effort: str = "",
) -> Estimate:
    """Estimate what a piece of furniture weighs, costs, moves and needs.

    Parameters
    ----------
    file : str or Path
        The piece, a TOML file; :func:`woodref.template` starts one. Or its parts alone, a cut
        list (.csv, .tsv or .txt), with ``place``.
    prices : str or Path, optional
        A price list, a CSV file; else the one the piece names, else the shop's own.
    place, setting : str, optional
        The room it stands in, as for :func:`woodref.season`, whatever the file says of its use.

    wood, units : str, optional
        Of a cut list: the wood of parts that name none, and 'us' or 'si' of bare sizes.
    effort : str, optional
        'quick', 'usual' or 'long', how long the search for a cutting plan goes on at most; else
        that of the piece.

    Returns
    -------
    Estimate
        Parts, masses [kg], cost, movement [mm], what to buy, spans, fixings, delivery, crate,
        and what is left out or assumed.

    Raises
    ------
    InputError
        For a file that cannot be read as a piece, naming table and key, or a row of a cut list
        that is no part, naming its line; for a price list or
        boards that cannot be read, and for sizes that cannot be.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    Notes
    -----
    What is not known, a density or a price, is told and left out of the totals.
    """
    rooms = Rooms(partial(room_of, reference()), place, setting)
    path = Path(file)
    if is_cut_list(path):
        from_rows = read_cut_list_piece(path, units, wood, rooms)
        refuse_rejects(path, from_rows.rejects)
        piece = from_rows.piece
    elif wood:
        raise InputError(f"a wood goes with a cut list; {path} names that of each part")
    else:
        piece = read_piece(path, rooms)
    listed = price_list(prices or piece.price_file)
    if effort and piece.buying:
        piece = replace(piece, buying=replace(piece.buying, effort=effort))
    return estimate_piece(reference(), piece, listed, _boards(piece))


def replace_woods(
    file: str | Path,
    woods: Mapping[str, str],
    *,
    prices: str | Path | None = None,
    place: str = "",
    setting: str = "",
) -> PieceBeside:
    """Set a piece as drawn beside the same piece with other woods.

    Parameters
    ----------
    file : str or Path
        The piece, a TOML file.
    woods : mapping of str to str
        The woods of the piece by any of their names, each with the wood in its place.
    prices : str or Path, optional
        A price list, a CSV file; else the one the piece names, else the shop's own.
    place, setting : str, optional
        The room it stands in, as for :func:`woodref.estimate`.

    Returns
    -------
    PieceBeside
        ``replacement.before`` and ``replacement.after`` the two estimates, ``fixings`` with the
        sizes that must change [mm], ``pairs`` of woods with their look, decay and trade control.

    Raises
    ------
    InputError
        For a wood that no part has, two woods for one part, the same wood on both sides; and as
        :func:`woodref.estimate`.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    Notes
    -----
    Sizes, stock, build and room are those of the file; boards in hand are left aside.
    """
    piece = read_piece(Path(file), Rooms(partial(room_of, reference()), place, setting))
    swaps = swaps_of(reference(), piece, list(woods.items()))
    return piece_beside(reference(), piece, swaps, price_list(prices or piece.price_file))


def page(
    estimate: Estimate,
    audience: str = "client",
    units: str = "",
    costs: bool = True,
    price: bool = False,
    sources: bool = False,
    day: date | None = None,
) -> str:
    """Put a piece on one HTML page to print, which needs nothing else.

    Parameters
    ----------
    estimate : Estimate
        Of :func:`woodref.estimate`.
    audience : str, optional
        'client', how to live with the piece, or 'shop', what to make and to buy.
    units : str, optional
        'us' or 'si'; else those of the piece.
    costs : bool, optional
        Whether the shop's page tells what things cost.
    price : bool, optional
        Whether the client's page gives the price of the quote of the piece.
    sources : bool, optional
        Whether a last page says what the page rests on.
    day : datetime.date, optional
        The date written on the page; none if left out.

    Returns
    -------
    str
        The page, every word that a person wrote escaped.

    Raises
    ------
    InputError
        For another audience or unit, a price without a quote, a logo that is no picture.
    NoDataError
        For the price of a quote that leaves something out.
    """
    own_units = units or estimate.piece.units
    return report_html(estimate, audience, own_units, costs, price, sources, day=day)


def load(
    parts: Sequence[WoodPart],
    items: Sequence[Item] = (),
    build_pct: float = 8.0,
    settled_pct: float = 8.0,
) -> Load:
    """Weigh a piece, shipped and settled, by part, in all and by lift, with ranges.

    Parameters
    ----------
    parts : sequence of WoodPart
        Each of a Wood and a Shape [mm].
    items : sequence of Item, optional
        What keeps its weight [kg].
    build_pct, settled_pct : float, optional
        Moisture contents when it is shipped and when it has settled [%].

    Returns
    -------
    Load
        Masses [kg].

    Raises
    ------
    InputError
        For an impossible size, quantity or moisture content.
    NoDataError
        As :func:`woodref.density`.
    """
    return laden.load(parts, items, build_pct, settled_pct)


def crate(
    size_mm: tuple[float, float, float],
    mass_kg: Range | float,
    packing: Packing,
    divisors: Sequence[Divisor] = (),
) -> Crate:
    """Compute the crate around a piece: size, gross weight, freight class, who can lift it.

    Parameters
    ----------
    size_mm : tuple of float
        Length, depth and height of the piece [mm].
    mass_kg : Range or float
        What it weighs [kg], such as ``load(...).shipped_kg``.
    packing : Packing
        Padding and what the packing weighs or is made of.
    divisors : sequence of Divisor, optional
        Of dimensional weight, by default the usual ones.

    Returns
    -------
    Crate
        Sizes [mm] and masses [kg].

    Raises
    ------
    InputError
        For an impossible size or mass.
    """
    weight_kg = mass_kg if isinstance(mass_kg, Range) else exactly(mass_kg)
    return packed.crate(size_mm, weight_kg, packing, shipping_facts(reference()), divisors)
