"""What a piece weighs when it is shipped and when it has settled, and its heaviest lift."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from math import isfinite

from woodref.board.shapes import Shape, volume_of
from woodref.board.weight import DensityEstimate, density_of
from woodref.display import Grid, Shown, ranged
from woodref.errors import InputError, UnitsError
from woodref.formulas.density import greatest_density
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.spread import RULE, likely_range, sd_of_woods
from woodref.quantity import Range, exactly, total
from woodref.record import record, replace
from woodref.reference.bases import UNCHECKED
from woodref.reference.woods import Wood
from woodref.units import either_unit, quantity_told

#: The lift a part or an item belongs to where none is named.
WHOLE = "the piece"
#: What keeps its weight; packaging alone is gone once the piece has settled in.
ITEM_KINDS = ("hardware", "glass", "stone", "sheet goods", "finish", "packaging", "other")
#: Usual densities with the range of what is sold [kg/m3], recalled, not seen in print.
USUAL_DENSITIES = {
    "glass": Range(2500.0, 2450.0, 2550.0),
    "stone": Range(2700.0, 2300.0, 3000.0),
    "sheet goods": Range(650.0, 450.0, 800.0),
}
WEIGHT_RULE = f"{RULE}; a part of quantity n is n boards, a panel is its staves"
_MOST = 100_000


@record
class WoodPart:
    """A part of solid wood, ``quantity`` times; a panel of ``staves``; the lift it is part of.

    Sizes are those at the moisture content of the build. A lift holds all its pieces.
    """

    name: str
    wood: Wood
    shape: Shape
    quantity: int = 1
    staves: int = 1
    lift: str = WHOLE


@record
class Item:
    """What keeps its weight: ``mass_kg`` of one, ``quantity`` times; ``kind`` of ITEM_KINDS.

    The mass is a Range where it is not known well; ``basis`` 'given', or
    'unchecked' where a usual density was used; ``price`` of one.
    """

    name: str
    mass_kg: float | Range
    quantity: int = 1
    kind: str = "hardware"
    lift: str = WHOLE
    basis: str = "given"
    price: Range | None = None

    @property
    def each_kg(self) -> Range:
        """The mass of one with its range [kg]."""
        return self.mass_kg if isinstance(self.mass_kg, Range) else exactly(self.mass_kg)

    @property
    def whole_kg(self) -> Range:
        """The mass of all together, end to end [kg]."""
        return self.each_kg.scaled(self.quantity)


@record
class LoadLine:
    """One part or item: all its pieces together, when shipped and when settled, with ranges.

    ``one_kg`` is one piece when shipped; ``volume_m3`` None for an item.
    """

    name: str
    material: str
    quantity: int
    volume_m3: float | None
    shipped_kg: Range
    settled_kg: Range
    one_kg: Range
    basis: str


@record(repr=False)
class Load(Shown):
    """What is shipped: lines, totals, and what each lift weighs when shipped."""

    lines: tuple[LoadLine, ...]
    shipped_kg: Range
    settled_kg: Range
    lifts: tuple[tuple[str, Range], ...]
    densities: tuple[DensityEstimate, ...]

    @property
    def heaviest_lift(self) -> tuple[str, Range]:
        """Name and mass of the heaviest lift."""
        return max(self.lifts, key=lambda pair: pair[1].expected)

    def _line(self) -> str:
        return f"{len(self.lines)} lines, shipped {ranged(self.shipped_kg, 'kg')}"

    def _grid(self) -> Grid:
        return Grid(
            ("part", "material", "quantity", "shipped [kg]", "low", "high", "settled [kg]"),
            (
                (x.name, x.material, x.quantity, *x.shipped_kg, x.settled_kg.expected)
                for x in self.lines
            ),
        )


def slab_mass(
    length_mm: float, width_mm: float, thickness_mm: float, density_kg_m3: float
) -> float:
    """Mass of a sheet of glass, stone or board of a known density [kg].

    Raises: InputError for an impossible size or density.
    """
    if not 10.0 <= density_kg_m3 <= 9000.0:
        raise impossible_density(density_kg_m3)
    shape = Shape("box", length_mm, width_mm, thickness_mm)
    return volume_of(shape) * 1e-9 * density_kg_m3


def impossible_density(density_kg_m3: float) -> UnitsError:
    """The error for a density that nothing in a crate has."""
    return UnitsError(
        lambda units: (
            f"a density is {either_unit(units, '0.6 to 560 lb/ft3', '10 to 9000 kg/m3')}, not "
            f"{quantity_told('density', density_kg_m3, units)}"
        )
    )


def usual_slab(
    name: str,
    kind: str,
    size_mm: tuple[float, float, float],
    quantity: int = 1,
    lift: str = WHOLE,
) -> Item:
    """A sheet of glass, stone or sheet goods of the usual density, with the range of that.

    Parameters: name; kind, a key of USUAL_DENSITIES; size_mm length, width and thickness;
    quantity; lift.
    Returns: Item, its basis 'unchecked'.
    Raises: InputError for an impossible size or another kind.
    """
    if kind not in USUAL_DENSITIES:
        raise InputError(
            f"{name}: there is no usual density of '{kind}', only of "
            f"{', '.join(USUAL_DENSITIES)}; give its weight or density"
        )
    usual = USUAL_DENSITIES[kind]
    mass = Range(*(slab_mass(*size_mm, density) for density in usual))
    return Item(name, mass, quantity, kind, lift, UNCHECKED)


def _checked(moisture_pct: float, what: str) -> None:
    if not (isfinite(moisture_pct) and 0.0 <= moisture_pct <= 100.0):
        raise InputError(f"moisture content {what} is 0 to 100 %, not {moisture_pct:g}")


def _check_part(part: WoodPart) -> None:
    fewest, boards = min(part.quantity, part.staves), part.quantity * part.staves
    if fewest < 1 or boards > _MOST:
        raise InputError(f"{part.name}: quantity and staves are 1 or more, {_MOST} in all at most")


def _check_item(item: Item) -> None:
    if not 1 <= item.quantity <= _MOST:
        raise InputError(f"{item.name}: a quantity is 1 to {_MOST}, not {item.quantity}")
    each = item.each_kg
    if not (0.0 <= each.low <= each.expected <= each.high and isfinite(each.high)):
        raise UnitsError(
            lambda units: (
                f"{item.name}: a weight of {quantity_told('mass', each.expected, units)}, from "
                f"{quantity_told('mass', each.low, units)} to "
                f"{quantity_told('mass', each.high, units)}, cannot be"
            )
        )
    if item.kind not in ITEM_KINDS:
        raise InputError(f"{item.name}: '{item.kind}' is none of {', '.join(ITEM_KINDS)}")


def _wood_total(
    parts: Sequence[WoodPart], densities: dict[str, DensityEstimate], moisture_pct: float
) -> Range:
    """Mass of several parts at the build, with the range of the sum."""
    boards: dict[str, list[float]] = defaultdict(list)
    mass = volume = 0.0
    for part in parts:
        density = densities[part.wood.species_id]
        whole = volume_of(part.shape) * 1e-9 * part.quantity
        count = part.quantity * part.staves
        boards[part.wood.species_id] += [whole / count * density.sd_kg_m3] * count
        mass += whole * density.density_kg_m3
        volume += whole
    low, high = likely_range(
        mass, sd_of_woods(boards), 0.0, greatest_density(moisture_pct) * volume
    )
    return Range(mass, low, high)


def _part_line(part: WoodPart, densities: dict[str, DensityEstimate], build_pct: float) -> LoadLine:
    """The line of a part as it is shipped, which has not settled yet."""
    shipped = each = _wood_total([part], densities, build_pct)
    if part.quantity > 1:
        each = _wood_total([replace(part, quantity=1)], densities, build_pct)
    return LoadLine(
        part.name,
        part.wood.common_name,
        part.quantity,
        volume_of(part.shape) * 1e-9 * part.quantity,
        shipped,
        shipped,
        each,
        densities[part.wood.species_id].basis,
    )


def _item_line(item: Item) -> LoadLine:
    whole = item.whole_kg
    settled = whole.scaled(0.0) if item.kind == "packaging" else whole
    return LoadLine(
        item.name, item.kind, item.quantity, None, whole, settled, item.each_kg, item.basis
    )


def load(
    parts: Sequence[WoodPart], items: Sequence[Item], build_pct: float, settled_pct: float
) -> Load:
    """Weight of a piece when shipped and when settled where it lives.

    Parameters: parts and items; build_pct the moisture content it is built and shipped at,
    settled_pct the one it comes to [%]. The ovendry mass stays, so a mass goes as 100 +
    moisture content; packaging is gone once it has settled.
    Returns: Load. The range of an item is added to that of the wood, end to end.
    Raises: InputError for an impossible shape, count or moisture content, or where there is
    nothing to weigh; NoDataError for a wood without density.
    Source: FPL-GTR-282 (2021), Eq. 4-14; spread: WEIGHT_RULE.
    """
    return loads(parts, items, build_pct, (settled_pct,))[0]


def loads(
    parts: Sequence[WoodPart],
    items: Sequence[Item],
    build_pct: float,
    settled_pcts: Sequence[float],
) -> tuple[Load, ...]:
    """Weight of a piece when shipped, and when settled at each of several moisture contents.

    Parameters: as load; settled_pcts [%].
    Returns: Load for each of settled_pcts.
    Raises: as load.
    Source: as load.
    """
    if not parts and not items:
        raise InputError("there is nothing to weigh; name a part or an item")
    _checked(build_pct, "at the build")
    for pct in settled_pcts:
        _checked(pct, "when settled")
    for part in parts:
        _check_part(part)
    for item in items:
        _check_item(item)
    densities = {p.wood.species_id: density_of(p.wood, build_pct) for p in parts}
    for d in densities.values():
        most = float(maximum_moisture_content(d.basic_specific_gravity))
        for pct in settled_pcts:
            if pct > most:
                raise InputError(
                    f"{d.wood.common_name} holds at most {most:.0f} % moisture content, not "
                    f"{pct:g} %"
                )
    wood = _wood_total(parts, densities, build_pct)
    of_wood = [_part_line(p, densities, build_pct) for p in parts]
    of_items = [_item_line(i) for i in items]
    shipped = wood.plus(total([i.whole_kg for i in items]))
    staying = total([i.whole_kg for i in items if i.kind != "packaging"])
    lifts = tuple(
        (
            name,
            _wood_total([p for p in parts if p.lift == name], densities, build_pct).plus(
                total([i.whole_kg for i in items if i.lift == name])
            ),
        )
        for name in dict.fromkeys([*(p.lift for p in parts), *(i.lift for i in items)])
    )

    def settled(pct: float) -> Load:
        wet = (100.0 + pct) / (100.0 + build_pct)
        lines = [replace(line, settled_kg=line.shipped_kg.scaled(wet)) for line in of_wood]
        return Load(
            (*lines, *of_items),
            shipped,
            wood.scaled(wet).plus(staying),
            lifts,
            tuple(densities.values()),
        )

    return tuple(map(settled, settled_pcts))
