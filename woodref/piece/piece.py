"""A piece of furniture as a person writes it down: the TOML file and what it turns into.

The top of the file names the piece; ``[build]`` and ``[use]`` give moisture contents,
``[waste]`` the allowance for offcuts, ``[[sheets]]`` the sheet goods with their own density
and price, ``[[parts]]`` the parts; ``[[span]]`` what must not sag, ``[[fixing]]`` what holds and
lets move, ``[[items]]`` hardware, glass and the like, ``[finish]`` what is put on, ``[buying]``
the boards in hand and those of the yard, ``[shipping]`` the crate. Sizes are finished sizes at
the moisture content of the build. Each table is read by a module of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.joinery.fixing_types import FixingSpec
from woodref.note import Note
from woodref.piece.buying_table import BUYING, PieceBuying, read_buying
from woodref.piece.finish_table import FINISH, PieceFinish, read_finish
from woodref.piece.fixing_table import FIXING_KEYS, read_fixing
from woodref.piece.moisture_table import NO_ROOMS, PieceAir, Rooms, read_build, read_use
from woodref.piece.parts_table import PART, SHEET, Part, Sheet, read_part, read_sheet
from woodref.piece.shipping_table import (
    ITEM_KEYS,
    SHIPPING_KEYS,
    ShippingPlan,
    read_item,
    read_shipping,
)
from woodref.piece.span_table import SPAN, PieceSpan, read_span
from woodref.quantity import Range
from woodref.shipping.load import Item
from woodref.toml_reader import TomlTable, load_toml, parse_toml

if TYPE_CHECKING:
    from woodref.climate.rooms import Room

_TABLES = (
    "build",
    "use",
    "waste",
    "sheets",
    "parts",
    "span",
    "fixing",
    "items",
    "finish",
    "buying",
    "shipping",
)
_TOP = ("name", "note", "units", "currency", "prices", "grade", *_TABLES)
_WASTE = ("lumber_pct", "sheet_pct")


@dataclass(frozen=True)
class Piece:
    """A piece of furniture; ``file`` is the name used in messages, ``prices`` as written.

    ``waste`` and ``sheet_waste`` are added for offcuts [%], None where the file does not say.
    ``use_notes`` say where build, driest and wettest come from, where that is a room in a town;
    ``room`` is the one it lives in, ``build_month`` that of the build and ``arrival_month`` the
    one it arrives in, 0 where none is given.
    """

    file: str
    name: str
    units: str
    currency: str
    build: PieceAir
    driest: PieceAir
    wettest: PieceAir
    parts: tuple[Part, ...]
    waste: Range | None = None
    sheet_waste: Range | None = None
    prices: str = ""
    note: str = ""
    use_notes: tuple[Note, ...] = ()
    grade: str = ""
    room: Room | None = None
    build_month: int = 0
    arrival_month: int = 0
    spans: tuple[PieceSpan, ...] = ()
    fixings: tuple[FixingSpec, ...] = ()
    finish: PieceFinish | None = None
    buying: PieceBuying | None = None
    items: tuple[Item, ...] = ()
    shipping: ShippingPlan | None = None

    @property
    def conditions(self) -> dict[str, PieceAir]:
        """The conditions it is moved between by name: build, driest, wettest."""
        return {"build": self.build, "driest": self.driest, "wettest": self.wettest}

    @property
    def settled_pct(self) -> float:
        """Moisture content it settles at: the mean of its room's year, or of the two ends [%]."""
        if self.room:
            return self.room.season.mean_emc_pct
        return (self.driest.moisture_pct + self.wettest.moisture_pct) / 2.0

    @property
    def price_file(self) -> Path | None:
        """The price list that it names, None where it names none."""
        return self._beside(self.prices)

    @property
    def boards_file(self) -> Path | None:
        """The file of boards in hand that it names, None where it names none."""
        return self._beside(self.buying.boards if self.buying else "")

    def _beside(self, name: str) -> Path | None:
        """A file, its path seen from the piece file."""
        return Path(self.file).parent / Path(name).expanduser() if name else None


def read_piece(path: Path, rooms: Rooms = NO_ROOMS) -> Piece:
    """The piece in a TOML file.

    Parameters: path; rooms, how the place and the setting of [use] are looked up.
    Raises: InputError, one line naming file, table, key and problem.
    """
    return piece_from(load_toml(path, "piece file"), str(path), rooms)


def parse_piece(text: str, file: str, rooms: Rooms = NO_ROOMS) -> Piece:
    """The piece in TOML text; ``file`` is the name used in messages.

    Raises: as read_piece.
    """
    return piece_from(parse_toml(text, file), file, rooms)


def piece_from(data: dict[str, object], file: str, rooms: Rooms = NO_ROOMS) -> Piece:
    """The piece in the tables of a TOML file.

    Raises: as read_piece.
    """
    top = TomlTable(data, file, "", _TOP)
    units = top.choice("units", ("us", "si"))
    name = top.text("name")
    build = read_build(top, units, rooms)
    use = read_use(top, units, rooms)
    sheets: dict[str, Sheet] = {}
    for table in top.tables("sheets", SHEET):
        sheet = read_sheet(table, units)
        if sheet.name in sheets:
            raise table.error("name", f"'{sheet.name}' is there twice; give each sheet its own")
        sheets[sheet.name] = sheet
    parts = tuple(read_part(t, units, sheets) for t in top.tables("parts", PART))
    if not parts:
        raise top.error("parts", "the piece has no parts; add a table under [[parts]]")
    names = [p.name for p in parts]
    for part in parts:
        if names.count(part.name) > 1:
            raise InputError(
                f"{file}: {part.place}: name: '{part.name}' is there twice; "
                "give each part its own name, or raise its quantity"
            )
    by_name = {p.name: p for p in parts}
    waste = top.table("waste", _WASTE) if "waste" in top else TomlTable({}, file, "waste", _WASTE)
    return Piece(
        file=file,
        name=name,
        units=units,
        currency=top.text("currency", '"USD"') if "currency" in top else "",
        build=build.air,
        driest=use.driest,
        wettest=use.wettest,
        use_notes=(*build.notes, *use.notes),
        parts=parts,
        waste=waste.figure("lumber_pct", 0, 300, "%") if "lumber_pct" in waste else None,
        sheet_waste=waste.figure("sheet_pct", 0, 300, "%") if "sheet_pct" in waste else None,
        prices=top.text("prices") if "prices" in top else "",
        note=top.text("note") if "note" in top else "",
        grade=top.text("grade", '"FAS"') if "grade" in top else "",
        room=use.room,
        build_month=build.month,
        arrival_month=use.month,
        spans=tuple(read_span(t, units, by_name) for t in top.tables("span", SPAN)),
        fixings=tuple(read_fixing(t, units, by_name) for t in top.tables("fixing", FIXING_KEYS)),
        finish=read_finish(top.table("finish", FINISH)) if "finish" in top else None,
        items=tuple(read_item(t, units) for t in top.tables("items", ITEM_KEYS)),
        shipping=read_shipping(top.table("shipping", SHIPPING_KEYS), units)
        if "shipping" in top
        else None,
        buying=read_buying(top.table("buying", BUYING), units) if "buying" in top else None,
    )
