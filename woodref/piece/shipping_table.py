"""Shapes, items and shipping as a piece file gives them, turned into what load and crate take."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from woodref.board.shapes import SHAPES, Shape, parse_volume, volume_of
from woodref.record import record
from woodref.reference.shipping import Divisor, parse_divisor
from woodref.shipping.crate import USUAL_PADDING_MM, Packing
from woodref.shipping.load import ITEM_KINDS, USUAL_DENSITIES, WHOLE, Item, slab_mass, usual_slab
from woodref.toml_reader import TomlTable
from woodref.units import KINDS, LB_TO_KG, either_unit
from woodref.written import parse_mass

_SLAB = ("length", "width", "thickness")
#: Keys of a table of [[items]].
ITEM_KEYS = (
    *("name", "note", "kind", "quantity", "mass", *_SLAB, "density", "price", "lift", "assembly"),
)
#: Keys of the table [shipping].
SHIPPING_KEYS = (
    "note",
    "length",
    "depth",
    "height",
    "padding",
    "wall",
    "wall_density",
    "batten_width",
    "batten_thickness",
    "batten_density",
    "pallet",
    "pallet_height",
    "packing_mass",
    "divisors",
)
#: Keys of the table [size].
SIZE = ("length", "depth", "height")
#: Keys of the shape of a part, beside its sizes.
SHAPE_KEYS = ("shape", "end_width", "end_thickness", "inner", "volume", "removed")
_LENGTH_LIMIT_MM, _BATTEN_LIMIT_MM = 20_000.0, 500.0
#: The shape each key belongs to; what is removed may go with any.
_OWNER = {
    "end_width": "tapered leg",
    "end_thickness": "tapered leg",
    "inner": "ring",
    "volume": "volume",
}


@record
class ShippingPlan:
    """How a piece is packed: its outside length, depth and height [mm], packing, own divisors.

    ``padding_given`` False where the usual room was taken.
    """

    size_mm: tuple[float, float, float]
    packing: Packing
    divisors: tuple[Divisor, ...]
    padding_given: bool


def _bare(units: str) -> str:
    return "in" if units == "us" else "mm"


def read_shape(
    table: TomlTable, units: str, length_mm: float, width_mm: float, thickness_mm: float
) -> Shape | None:
    """The shape of a part whose sizes are read, None where the file names none.

    The sizes are those of the block the part is cut from: a disc or ring is as long as it is
    wide, a cylinder as thick as it is wide, and a leg tapers from its full size.

    Raises: InputError naming file, table and key.
    """
    if not any(key in table for key in SHAPE_KEYS):
        return None
    kind = table.choice("shape", SHAPES) if "shape" in table else "box"
    for key, owner in _OWNER.items():
        if key in table and kind != owner:
            raise table.error(key, f'goes with shape = "{owner}", not with a {kind}')
    if kind in ("disc", "ring") and abs(length_mm - width_mm) > 0.05:
        raise table.error("length", f"a {kind} is as long as it is wide; both are its diameter")
    if kind == "cylinder" and abs(thickness_mm - width_mm) > 0.05:
        raise table.error("thickness", "a cylinder is as thick as it is wide, its diameter")

    def size(key: str, most_mm: float) -> float | None:
        return table.length(key, _bare(units), most_mm) if key in table else None

    shape = Shape(
        kind,
        length_mm,
        width_mm,
        thickness_mm,
        end_width_mm=size("end_width", width_mm),
        end_thickness_mm=size("end_thickness", thickness_mm),
        inner_mm=size("inner", width_mm),
        volume_mm3=_volume(table, "volume") if "volume" in table else None,
    )
    whole = table.parsed("shape", lambda: volume_of(shape))
    if whole > length_mm * width_mm * thickness_mm * (1.0 + 1e-9):
        raise table.error("volume", "is more than length x width x thickness of the part")
    if "removed" not in table:
        return shape
    cut = shape._replace(removed_mm3=_volume(table, "removed"))
    table.parsed("removed", lambda: volume_of(cut))
    return cut


def _volume(table: TomlTable, key: str) -> float:
    text = table.text(key, either_unit(table.units, '"12 in3"', '"250 cm3"'))
    return table.parsed(key, lambda: parse_volume(text))


def read_item(table: TomlTable, units: str) -> Item:
    """An item of [[items]]: what keeps its weight, by its mass or as a slab of a density.

    Raises: InputError naming file, table and key.
    """
    name = table.text("name")
    kind = table.choice("kind", ITEM_KINDS) if "kind" in table else "hardware"
    quantity = table.integer("quantity", 1, 10_000) if "quantity" in table else 1
    lift = table.text("lift") if "lift" in table else WHOLE
    sized = [key for key in (*_SLAB, "density") if key in table]
    if "mass" in table and sized:
        raise table.error(sized[0], f"give the mass or the {sized[0]}, not both")
    if not sized:
        item = Item(name, _mass(table, "mass", units), quantity, kind, lift)
    else:
        item = _slab(table, units, Item(name, 0.0, quantity, kind, lift))
    price = table.figure("price", 0.0, 1e9) if "price" in table else None
    return replace(item, price=price)


def _slab(table: TomlTable, units: str, item: Item) -> Item:
    size = (
        table.length("length", _bare(units), _LENGTH_LIMIT_MM),
        table.length("width", _bare(units), _LENGTH_LIMIT_MM),
        table.length("thickness", _bare(units), _BATTEN_LIMIT_MM),
    )
    if "density" in table:
        density = table.density("density", 9000.0)
        return replace(item, mass_kg=slab_mass(*size, density))
    if item.kind not in USUAL_DENSITIES:
        raise table.error(
            "density",
            f"is missing; only {', '.join(USUAL_DENSITIES)} have a usual one, "
            f"and this is of kind {item.kind}",
        )
    return usual_slab(item.name, item.kind, size, item.quantity, item.lift)


def _mass(table: TomlTable, key: str, units: str) -> float:
    """A mass in kg: a text with unit, or a number in the units of the file."""
    example = either_unit(units, '"1.2 lb"', '"540 g"')
    if key not in table:
        raise table.error(key, f"is missing; write for example {key} = {example}")
    value = table.data[key]
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise table.error(key, f"must be a weight, such as {example}")
    if not isinstance(value, str):
        return table.number(key, 0.0, 1e5) * (LB_TO_KG if units == "us" else 1.0)
    mass = table.parsed(key, lambda: parse_mass(value, "lb" if units == "us" else "kg"))
    if mass > 1e5:
        given, most = (KINDS["mass"].text(x, units) for x in (mass, 1e5))
        raise table.error(key, f"{given} is above {most}; check the unit")
    return mass


def read_size(table: TomlTable, units: str) -> tuple[float, float, float]:
    """The table [size]: outside length, depth and height of the piece as it stands [mm].

    Raises: InputError naming file, table and key.
    """
    length, depth, height = (table.length(key, _bare(units), _LENGTH_LIMIT_MM) for key in SIZE)
    return length, depth, height


def read_shipping(
    table: TomlTable, units: str, outside_mm: tuple[float, float, float] | None = None
) -> ShippingPlan:
    """The table [shipping]: outside size of the piece as packed, and what is packed around it.

    Parameters: table; units; outside_mm, the size of the piece where it stands, which holds
    where the table gives none of its own.
    Raises: InputError naming file, table and key.
    """
    bare = _bare(units)

    def length(key: str, usual: float) -> float:
        value = table.data.get(key, usual)
        if key not in table or (value == 0 and not isinstance(value, bool | str)):
            return float(value)
        return table.length(key, bare, _LENGTH_LIMIT_MM)

    def density(key: str, usual: float) -> float:
        return table.density(key, 9000.0) if key in table else usual

    own = outside_mm is None or any(key in table for key in SIZE)
    size = read_size(table, units) if own or outside_mm is None else outside_mm
    battens = [key for key in ("batten_width", "batten_thickness") if key in table]
    if len(battens) == 1:
        other = "batten_width" if battens == ["batten_thickness"] else "batten_thickness"
        raise table.error(other, f"is missing; {battens[0]} alone is no batten")
    usual = Packing(USUAL_PADDING_MM)
    packing = Packing(
        padding_mm=length("padding", USUAL_PADDING_MM),
        wall_mm=length("wall", 0.0),
        wall_density_kg_m3=density("wall_density", usual.wall_density_kg_m3),
        batten_mm=(length("batten_width", 0.0), length("batten_thickness", 0.0)),
        batten_density_kg_m3=density("batten_density", usual.batten_density_kg_m3),
        pallet=table.truth("pallet"),
        pallet_height_mm=length("pallet_height", usual.pallet_height_mm),
        mass_kg=_mass(table, "packing_mass", units) if "packing_mass" in table else None,
    )
    table.parsed("", packing.check)
    return ShippingPlan(size, packing, _divisors(table), "padding" in table)


def _divisors(table: TomlTable) -> tuple[Divisor, ...]:
    value = table.data.get("divisors", [])
    if not isinstance(value, list) or not all(isinstance(v, str) for v in value):
        example = either_unit(table.units, '["139 in3/lb"]', '["5000 cm3/kg"]')
        raise table.error("divisors", f"must be a list, such as {example}")
    return tuple(table.parsed("divisors", partial(parse_divisor, text)) for text in value)
