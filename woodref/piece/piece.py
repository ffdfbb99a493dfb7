"""A piece of furniture as a person writes it down: the TOML file and what it turns into.

The top of the file names the piece; ``[build]`` and ``[use]`` give moisture contents,
``[waste]`` the allowance for offcuts, ``[[sheets]]`` the sheet goods with their own density
and price, ``[[parts]]`` the parts; ``[[span]]`` what must not sag, ``[[fixing]]`` what holds and
lets move, ``[[items]]`` hardware, glass and the like, ``[finish]`` what is put on, ``[buying]``
the boards in hand and those of the yard, ``[size]`` the outside of the piece, ``[shipping]`` the
crate, ``[maker]`` who makes it and ``[quote]`` what that costs. Sizes are finished sizes at
the moisture content of the build. Each table is read by a module of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from woodref.errors import InputError
from woodref.files import path_beside
from woodref.joinery.fixing_types import FixingSpec
from woodref.lumber.cut_list import is_cut_list
from woodref.note import Note
from woodref.piece.assembly_table import (
    ASSEMBLY,
    Assembly,
    assembly_named,
    item_of,
    part_of,
    read_assembly,
)
from woodref.piece.buying_table import BUYING, PieceBuying, read_buying
from woodref.piece.carton_table import CARTON, CartonPlan, read_carton
from woodref.piece.finish_table import FINISH, PieceFinish, read_finish
from woodref.piece.fixing_table import FIXING_KEYS, read_fixing
from woodref.piece.maker_table import MAKER, Maker, read_maker
from woodref.piece.moisture_table import NO_ROOMS, PieceAir, Rooms, read_build, read_use
from woodref.piece.parts_table import PART, SHEET, Part, Sheet, read_part, read_sheet
from woodref.piece.quote_table import QUOTE, QuoteSpec, read_quote
from woodref.piece.shipping_table import (
    ITEM_KEYS,
    SHIPPING_KEYS,
    SIZE,
    ShippingPlan,
    read_item,
    read_shipping,
    read_size,
)
from woodref.piece.span_table import SPAN, PieceSpan, read_span
from woodref.quantity import Range
from woodref.record import record
from woodref.shipping.load import Item
from woodref.toml_reader import PERCENT, Mistakes, TomlTable
from woodref.toml_text import load_toml, parse_toml

if TYPE_CHECKING:
    from woodref.climate.rooms import Room

T = TypeVar("T")
_TABLES = (
    "build",
    "use",
    "waste",
    "sheets",
    "assemblies",
    "parts",
    "span",
    "fixing",
    "items",
    "cartons",
    "finish",
    "buying",
    "size",
    "shipping",
    "maker",
    "quote",
)
_TOP = ("name", "note", "units", "currency", "prices", "grade", *_TABLES)
_WASTE = ("lumber_pct", "sheet_pct")
#: Stands for a size that was refused, where others are still judged [mm].
_ANY_SIZE = (1000.0, 1000.0, 1000.0)


@record
class Piece:
    """A piece of furniture; ``file`` is the name used in messages, ``prices`` as written.

    ``waste`` and ``sheet_waste`` are added for offcuts [%], None where the file does not say.
    ``use_notes`` say where build, driest and wettest come from, where that is a room in a town;
    ``room`` is the one it lives in, ``build_month`` that of the build and ``arrival_month`` the
    one it arrives in, 0 where none is given. ``assemblies`` are counted in the
    quantities of their parts and items, and lifted one by one. ``size_mm`` is the outside length,
    depth and height of the piece as it stands [mm], None where the file does not say.
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
    assemblies: tuple[Assembly, ...] = ()
    cartons: tuple[CartonPlan, ...] = ()
    size_mm: tuple[float, float, float] | None = None
    maker: Maker | None = None
    quote: QuoteSpec | None = None

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
        return path_beside(Path(self.file), name) if name else None


def read_piece(path: Path, rooms: Rooms = NO_ROOMS) -> Piece:
    """The piece in a TOML file.

    Parameters: path; rooms, how the place and the setting of [use] are looked up.
    Raises: InputError, one line naming file, table, key and problem.
    """
    if is_cut_list(path):
        raise InputError(
            f"{path}: is a cut list, and a piece file is needed here; woodref template table "
            f"--from {path.name} makes one of it"
        )
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
    mistakes = Mistakes()
    top = TomlTable(data, file, "", _TOP, mistakes=mistakes)
    units = top.choice("units", ("us", "si"))
    if data.get("units") != units:
        mistakes.refuse()  # without them no other value can be judged
    top.units = units
    name = top.text("name")
    build = mistakes.read(lambda: read_build(top, units, rooms))
    use = mistakes.read(lambda: read_use(top, units, rooms))
    assemblies = _assemblies(top, mistakes)
    parts = _parts(top, assemblies, mistakes)
    waste = _table(top, "waste", _WASTE, lambda t: t, mistakes)
    currency = top.text("currency", '"USD"') if "currency" in top else ""
    lumber_waste, sheet_waste = (_percent(waste, key) for key in _WASTE)
    prices, note = (top.text(key) if key in top else "" for key in ("prices", "note"))
    grade = top.text("grade", '"FAS"') if "grade" in top else ""
    spans = _on_parts(top, "span", SPAN, read_span, parts, mistakes)
    fixings = _on_parts(top, "fixing", FIXING_KEYS, read_fixing, parts, mistakes)
    items = _all(
        top.tables("items", ITEM_KEYS),
        lambda t: item_of(read_item(t, units), assembly_named(t, assemblies)),
        mistakes,
    )
    cartons = _all(top.tables("cartons", CARTON), lambda t: read_carton(t, units), mistakes)
    finish = _table(top, "finish", FINISH, read_finish, mistakes)
    size = _table(top, "size", SIZE, lambda t: read_size(t, units), mistakes)
    # A mistake in [size] is told there, and not once more as sizes that [shipping] lacks.
    stands = size or (_ANY_SIZE if "size" in top else None)
    shipping = _table(
        top, "shipping", SHIPPING_KEYS, lambda t: read_shipping(t, units, stands), mistakes
    )
    maker = _table(top, "maker", MAKER, read_maker, mistakes)
    quote = _table(top, "quote", QUOTE, read_quote, mistakes)
    buying = _table(top, "buying", BUYING, lambda t: read_buying(t, units), mistakes)
    mistakes.refuse()
    assert build
    assert use
    return Piece(
        file=file,
        name=name,
        units=units,
        currency=currency,
        build=build.air,
        driest=use.driest,
        wettest=use.wettest,
        use_notes=(*build.notes, *use.notes),
        parts=tuple(_good(parts).values()),
        waste=lumber_waste,
        sheet_waste=sheet_waste,
        prices=prices,
        note=note,
        grade=grade,
        room=use.room,
        build_month=build.month,
        arrival_month=use.month,
        spans=spans,
        fixings=fixings,
        finish=finish,
        items=items,
        shipping=shipping,
        buying=buying,
        assemblies=tuple(assemblies.values()),
        cartons=cartons,
        size_mm=size,
        maker=maker,
        quote=quote,
    )


def _table(
    top: TomlTable,
    key: str,
    keys: Collection[str],
    read: Callable[[TomlTable], T],
    mistakes: Mistakes,
) -> T | None:
    """What a table of the file turns into, None where there is none, or a mistake in it."""
    return mistakes.read(lambda: read(top.table(key, keys))) if key in top else None


def _all(
    tables: Iterable[TomlTable], read: Callable[[TomlTable], T | None], mistakes: Mistakes
) -> tuple[T, ...]:
    """What tables turn into, without those that have a mistake in them."""
    read_ones = (mistakes.read(partial(read, table)) for table in tables)
    return tuple(one for one in read_ones if one is not None)


def _percent(waste: TomlTable | None, key: str) -> Range | None:
    """A waste, None where it is not given."""
    return waste.figure(key, 0, 300, PERCENT) if waste and key in waste else None


def _by_name(
    tables: Iterable[TomlTable],
    read: Callable[[TomlTable], T | None],
    hint: str,
    mistakes: Mistakes,
) -> dict[str, T | None]:
    """What tables turn into, by their names; None for one with a mistake in it."""
    named: dict[str, T | None] = {}
    for table in tables:
        one = mistakes.read(partial(read, table))
        name = " ".join(str(table.data.get("name", "")).split())
        if name and name in named:
            table.tell(table.error("name", f"'{name}' is there twice; {hint}"))
        named[name] = one
    return named


def _spoilt(table: TomlTable, key: str, named: Mapping[str, object | None]) -> bool:
    """True where a table names another that has a mistake in it, or all of those have."""
    meant = table.data.get(key)
    if not isinstance(meant, str) or not named:
        return False
    return not _good(named) or named.get(meant, ...) is None


def _good(named: Mapping[str, T | None]) -> dict[str, T]:
    """Those without a mistake, by their names."""
    return {name: one for name, one in named.items() if one is not None}


def _assemblies(top: TomlTable, mistakes: Mistakes) -> dict[str, Assembly]:
    """The assemblies of the file by name, those without a mistake."""
    tables, hint = top.tables("assemblies", ASSEMBLY), "give each assembly its own name"
    return _good(_by_name(tables, read_assembly, hint, mistakes))


def _parts(
    top: TomlTable, assemblies: Mapping[str, Assembly], mistakes: Mistakes
) -> dict[str, Part | None]:
    """The parts by name, None for one with a mistake in it, or in its sheet goods."""
    units = top.units
    sheets: dict[str, Sheet | None] = _by_name(
        top.tables("sheets", SHEET),
        lambda t: read_sheet(t, units),
        "give each sheet its own",
        mistakes,
    )

    no_sheets = "sheets" in top and not sheets

    def read(table: TomlTable) -> Part | None:
        if _spoilt(table, "sheet", sheets) or (no_sheets and "sheet" in table):
            return None
        return part_of(read_part(table, units, _good(sheets)), assembly_named(table, assemblies))

    tables = top.tables("parts", PART)
    if top.data.get("parts", []) == [] and not top.misspelt("parts"):
        top.tell(top.error("parts", "the piece has no parts; add a table under [[parts]]"))
    hint = "give each part its own name, or raise its quantity"
    return _by_name(tables, read, hint, mistakes)


def _on_parts(
    top: TomlTable,
    key: str,
    keys: Collection[str],
    read: Callable[[TomlTable, str, Mapping[str, Part]], T],
    parts: Mapping[str, Part | None],
    mistakes: Mistakes,
) -> tuple[T, ...]:
    """What is said of parts, without that of a part with a mistake in it."""
    good = _good(parts)
    return _all(
        top.tables(key, keys),
        lambda t: None if not good or _spoilt(t, "part", parts) else read(t, top.units, good),
        mistakes,
    )
