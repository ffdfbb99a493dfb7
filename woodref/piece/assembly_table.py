"""Parts that make an assembly: a drawer or a door, so many times, each lifted by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from woodref.piece.parts_table import Part
from woodref.record import record
from woodref.shipping.load import Item
from woodref.toml_reader import TomlTable

#: Keys of a table of [[assemblies]].
ASSEMBLY = ("name", "quantity", "note")


@record
class Assembly:
    """Parts and items that belong together, ``quantity`` times in the piece."""

    name: str
    quantity: int


def read_assembly(table: TomlTable) -> Assembly:
    """An assembly from a table of [[assemblies]].

    Raises: InputError naming file, table, key and problem.
    """
    return Assembly(table.text("name"), table.integer("quantity", 1, 1000))


def assembly_named(table: TomlTable, known: Mapping[str, Assembly]) -> Assembly | None:
    """The assembly a part or an item belongs to, None where it names none.

    Raises: InputError for one that is not in the file, and for a lift beside it.
    """
    if "assembly" not in table:
        return None
    if not known:
        raise table.error("assembly", "there is no [[assemblies]] in the file to choose from")
    if "lift" in table:
        raise table.error("lift", "an assembly is lifted by itself; leave lift or assembly out")
    return known[table.choice("assembly", known)]


def part_of(part: Part, assembly: Assembly | None) -> Part:
    """The part as often as its assembly; its quantity in the file is that of one."""
    if assembly is None:
        return part
    return replace(part, quantity=part.quantity * assembly.quantity, lift=assembly.name)


def item_of(item: Item, assembly: Assembly | None) -> Item:
    """The item as often as its assembly, lifted with it."""
    if assembly is None:
        return item
    return replace(item, quantity=item.quantity * assembly.quantity, lift=assembly.name)
