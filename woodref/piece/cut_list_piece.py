"""A piece from a cut list alone: its rows as the tables of a piece file, its room from outside.

The rows become the same tables that a piece file holds, and are read by the same rules.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from woodref.board.movement import CUTS
from woodref.errors import InputError, WoodrefError
from woodref.lumber.cut_list import CutList, read_cut_list
from woodref.note import Note
from woodref.piece.moisture_table import NO_ROOMS, Rooms
from woodref.piece.parts_table import PART, SHEET, read_part, read_sheet
from woodref.piece.piece import Piece, piece_from
from woodref.record import record
from woodref.reference.bases import EDITORIAL
from woodref.reference.panel_names import panel_of
from woodref.rows import RejectedRow
from woodref.toml_reader import TomlTable

#: Columns of a cut list that are keys of a part by the same name; those of whole numbers.
_TEXTS = ("length", "width", "thickness", "species", "stock", "shape", "inner", "removed", "lift")
_COUNTS = ("quantity", "staves")

Table = dict[str, Any]


@record
class CutListPiece:
    """A piece out of a cut list, the heading of that list, and its rows that were no parts."""

    piece: Piece
    header: tuple[str, ...]
    rejects: tuple[RejectedRow, ...]


def tables_of(rows: Sequence[Mapping[str, str]]) -> dict[str, list[Table]]:
    """The tables of a piece file, by their keys, that the rows of a cut list stand for.

    A row whose wood is a panel, plywood or MDF, is a part of sheet goods of its thickness.

    Parameters: rows by column of woodref.lumber.cut_list.COLUMNS, sizes as written.
    Returns: 'parts', and 'sheets' where there are any.
    """
    sheets: dict[str, Table] = {}
    parts = []
    for row in rows:
        sheet = _sheet_of(row)
        if sheet:
            sheets.setdefault(sheet["name"], sheet)
        parts.append(_part_table(row, sheet))
    return {"parts": parts, **({"sheets": list(sheets.values())} if sheets else {})}


def _sheet_of(row: Mapping[str, str]) -> Table | None:
    """The sheet goods a row is of; None for solid wood."""
    panel = panel_of(row["species"])
    if panel is None:
        return None
    thickness = row["thickness"]
    return {"name": f"{row['species']}, {thickness}", "thickness": thickness, "panel": panel}


def _part_table(row: Mapping[str, str], sheet: Table | None) -> Table:
    """A row as a table of [[parts]]."""
    table: Table = {"name": row["name"]}
    table |= {key: row[key] for key in _TEXTS if row.get(key)}
    table |= {key: int(row[key]) for key in _COUNTS if row.get(key)}
    if row.get("cut"):
        word = row["cut"].lower()
        table["cut"] = word if word in CUTS else float(word)
    if row.get("end"):
        table["end_width"] = row["end"]
    if row.get("note"):
        table["note"] = row["note"]
    if sheet:
        table["sheet"] = sheet["name"]
        del table["species"], table["thickness"]
    return table


def check_row(row: Mapping[str, str], units: str) -> None:
    """Refuse a row of a cut list that a piece file cannot hold as a part.

    Raises: InputError naming the key.
    """
    tables = tables_of([row])
    sheets = [
        read_sheet(TomlTable(sheet, "", "", SHEET, units), units)
        for sheet in tables.get("sheets", ())
    ]
    (part,) = tables["parts"]
    read_part(TomlTable(part, "", "", PART, units), units, {s.name: s for s in sheets})


def read_parts(path: Path, units: str, wood: str = "") -> CutList:
    """The rows of a cut list that a piece file can hold as parts.

    Parameters: path; units of bare sizes; wood of parts that name none.
    Raises: as woodref.lumber.cut_list.read_cut_list; WoodrefError where no row is a part.
    """
    listed = read_cut_list(path, units, wood, partial(check_row, units=units))
    if not listed.parts:
        first = f"; line {listed.rejects[0].line}: {listed.rejects[0].reason}"
        raise WoodrefError(f"{path}: no row is a part{first if listed.rejects else ''}")
    return listed


def read_cut_list_piece(
    path: Path, units: str, wood: str = "", rooms: Rooms = NO_ROOMS
) -> CutListPiece:
    """The piece whose parts a cut list names, built and used in one room.

    Its moisture content at the build is the mean of the year of that room, our own choice.

    Parameters: path; units of bare sizes; wood of parts that name none; rooms, with the place
    it stands in.
    Raises: as read_parts; InputError without a place.
    """
    place = rooms.place or rooms.usual_place
    if not place or rooms.find is None:
        raise InputError(
            f"{path}: a cut list names no room; say where the piece stands, for example --place "
            "Boston"
        )
    listed = read_parts(path, units, wood)
    room = rooms.find(place, rooms.setting, rooms.figures)
    mean_pct = room.season.mean_emc_pct
    data: Table = {
        "name": path.stem,
        "units": units,
        "build": {"moisture_pct": mean_pct},
        **tables_of(listed.cells),
    }
    piece = piece_from(data, str(path), replace(rooms, place=place))
    built = Note(
        "room-of-build",
        f"built at {mean_pct:.1f} %, the mean of the year of its room; a piece file may say "
        "another (woodref template)",
        EDITORIAL,
    )
    piece = replace(piece, use_notes=(built, *piece.use_notes))
    return CutListPiece(piece, listed.header, tuple(listed.rejects))
