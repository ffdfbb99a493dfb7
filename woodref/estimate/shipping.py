"""What a piece weighs when it is shipped and when it has settled, and the crate around it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, isfinite

from woodref.errors import InputError
from woodref.estimate.shapes import Shape, volume_of
from woodref.estimate.toml_table import Figure
from woodref.estimate.weight import DensityEstimate, density_of
from woodref.formulas.density import greatest_density
from woodref.formulas.spread import RULE, likely_range, sd_of_sum, sd_of_woods
from woodref.reference.trade import FreightClass, ShippingFacts
from woodref.reference.woods import Wood
from woodref.units import LB_TO_KG, MM_PER_INCH

#: The lift a part or an item belongs to where none is named.
WHOLE = "the piece"
ITEM_KINDS = ("hardware", "glass", "stone", "sheet goods", "finish", "packaging", "other")
#: Usual densities [kg/m3], recalled, not seen in print.
USUAL_DENSITIES = {"glass": 2500.0, "stone": 2700.0}
WEIGHT_RULE = f"{RULE}; a part of quantity n is n boards, a panel is its staves"
_LB_FT3 = LB_TO_KG / (12.0 * MM_PER_INCH * 1e-3) ** 3


@dataclass(frozen=True)
class WoodPart:
    """A part of solid wood, ``quantity`` times; a panel of ``staves``; the lift it is part of.

    Sizes are those at the moisture content of the build.
    """

    name: str
    wood: Wood
    shape: Shape
    quantity: int = 1
    staves: int = 1
    lift: str = WHOLE


@dataclass(frozen=True)
class Item:
    """What keeps its weight: ``mass_kg`` of one, ``quantity`` times; ``kind`` of ITEM_KINDS."""

    name: str
    mass_kg: float
    quantity: int = 1
    kind: str = "hardware"
    lift: str = WHOLE


@dataclass(frozen=True)
class LoadLine:
    """One part or item: all its pieces together, when shipped and when settled, with ranges."""

    name: str
    material: str
    quantity: int
    volume_m3: float | None
    shipped_kg: Figure
    settled_kg: Figure
    one_kg: Figure


@dataclass(frozen=True)
class Load:
    """What is shipped: lines, totals, and the heaviest single lift with its name."""

    lines: tuple[LoadLine, ...]
    shipped_kg: Figure
    settled_kg: Figure
    lifts: tuple[tuple[str, Figure], ...]
    densities: tuple[DensityEstimate, ...]

    @property
    def heaviest_lift(self) -> tuple[str, Figure]:
        """Name and mass of the heaviest lift."""
        return max(self.lifts, key=lambda pair: pair[1].expected)


def slab_mass(
    length_mm: float, width_mm: float, thickness_mm: float, density_kg_m3: float
) -> float:
    """Mass of a sheet of glass, stone or board of a known density [kg].

    Raises: InputError for an impossible size or density.
    """
    if not 10.0 <= density_kg_m3 <= 9000.0:
        raise InputError(f"a density is 10 to 9000 kg/m3, not {density_kg_m3:g}")
    shape = Shape("box", length_mm, width_mm, thickness_mm)
    return volume_of(shape) * 1e-9 * density_kg_m3


def finish_mass(area_m2: float, coats: int, dry_g_m2: float) -> float:
    """Mass of a dry finish [kg]: area, coats, and grams a square meter and coat leave behind.

    Raises: InputError for a negative figure.
    """
    if min(area_m2, coats, dry_g_m2) < 0.0:
        raise InputError("area, coats and dry weight of a finish cannot be negative")
    return area_m2 * coats * dry_g_m2 * 1e-3


def _checked(moisture_pct: float, what: str) -> float:
    if not (isfinite(moisture_pct) and 0.0 <= moisture_pct <= 100.0):
        raise InputError(f"moisture content {what} is 0 to 100 %, not {moisture_pct:g}")
    return moisture_pct


def _wood_total(
    parts: Sequence[WoodPart], densities: dict[str, DensityEstimate], moisture_pct: float
) -> Figure:
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
    return Figure(mass, low, high)


def _scaled(figure: Figure, factor: float, fixed: float = 0.0) -> Figure:
    return Figure(
        figure.expected * factor + fixed, figure.low * factor + fixed, figure.high * factor + fixed
    )


def load(
    parts: Sequence[WoodPart], items: Sequence[Item], build_pct: float, settled_pct: float
) -> Load:
    """Weight of a piece when shipped and when settled where it lives.

    Parameters: parts and items; build_pct the moisture content it is built and shipped at,
    settled_pct the one it comes to [%]. The ovendry mass stays, so a mass goes as 100 +
    moisture content.
    Returns: Load.
    Raises: InputError for an impossible shape, count or moisture content, or where there is
    nothing to weigh; NoDataError for a wood without density.
    Source: FPL-GTR-282 (2021), Eq. 4-14; spread: WEIGHT_RULE.
    """
    if not parts and not items:
        raise InputError("there is nothing to weigh; name a part or an item")
    _checked(build_pct, "at the build")
    wet = (100.0 + _checked(settled_pct, "when settled")) / (100.0 + build_pct)
    things: list[WoodPart | Item] = [*parts, *items]
    for thing in things:
        if thing.quantity < 1 or getattr(thing, "staves", 1) < 1:
            raise InputError(f"{thing.name}: a quantity is 1 or more")
    for item in items:
        if not (isfinite(item.mass_kg) and item.mass_kg >= 0.0):
            raise InputError(f"{item.name}: a weight cannot be {item.mass_kg:g} kg")
        if item.kind not in ITEM_KINDS:
            raise InputError(f"{item.name}: '{item.kind}' is none of {', '.join(ITEM_KINDS)}")
    densities = {p.wood.species_id: density_of(p.wood, build_pct) for p in parts}
    lines = []
    for part in parts:
        shipped = _wood_total([part], densities, build_pct)
        density = densities[part.wood.species_id]
        volume = volume_of(part.shape) * 1e-9
        one = volume * density.density_kg_m3
        sd = sd_of_sum([volume / part.staves * density.sd_kg_m3] * part.staves)
        ends = likely_range(one, sd, 0.0, greatest_density(build_pct) * volume)
        lines.append(
            LoadLine(
                part.name,
                part.wood.common_name,
                part.quantity,
                volume * part.quantity,
                shipped,
                _scaled(shipped, wet),
                Figure(one, *ends),
            )
        )
    for item in items:
        each = Figure(item.mass_kg, item.mass_kg, item.mass_kg)
        whole = _scaled(each, float(item.quantity))
        lines.append(LoadLine(item.name, item.kind, item.quantity, None, whole, whole, each))
    fixed = sum(i.mass_kg * i.quantity for i in items)
    wood = _wood_total(parts, densities, build_pct)
    lifts = []
    for name in dict.fromkeys(x.lift for x in things):
        kept = sum(i.mass_kg * i.quantity for i in items if i.lift == name)
        own = _wood_total([p for p in parts if p.lift == name], densities, build_pct)
        lifts.append((name, _scaled(own, 1.0, kept)))
    return Load(
        tuple(lines),
        _scaled(wood, 1.0, fixed),
        _scaled(wood, wet, fixed),
        tuple(lifts),
        tuple(densities.values()),
    )


@dataclass(frozen=True)
class Packing:
    """How a piece is packed; sizes [mm], densities [kg/m3].

    ``padding_mm`` on every side; ``wall_mm`` the panels of a crate, 0 for a carton whose
    weight is the usual share of the piece; ``batten_mm`` width and thickness of battens along
    the twelve edges; ``pallet`` True where it stands on one, ``pallet_height_mm`` high.
    ``mass_kg`` replaces all of that where it is known.
    """

    padding_mm: float
    wall_mm: float = 0.0
    wall_density_kg_m3: float = 550.0
    batten_mm: tuple[float, float] = (0.0, 0.0)
    batten_density_kg_m3: float = 450.0
    pallet: bool = False
    pallet_height_mm: float = 140.0
    mass_kg: float | None = None


@dataclass(frozen=True)
class DimensionalWeight:
    """One divisor: what the volume counts as, and what is charged [kg]."""

    label: str
    divisor: float
    unit: str
    dimensional_kg: float
    chargeable_kg: Figure


@dataclass(frozen=True)
class Crate:
    """A packed piece: outer size [mm], weights, density, freight class, lifting, limits.

    ``freight`` at the expected weight, ``freight_low`` and ``freight_high`` at the ends of its
    range; ``people`` the least number by the load constant, at the high end of the weight;
    ``over`` what of the usual parcel limits it exceeds.
    """

    size_mm: tuple[float, float, float]
    volume_m3: float
    packing_kg: Figure
    gross_kg: Figure
    density_kg_m3: float
    freight: FreightClass
    freight_low: FreightClass
    freight_high: FreightClass
    dimensional: tuple[DimensionalWeight, ...]
    people: int
    two_people: str
    over: tuple[str, ...]


def freight_class(density_lb_ft3: float, classes: Sequence[FreightClass]) -> FreightClass:
    """The step of the density scale a density falls in; its low end belongs to it.

    Raises: InputError for a density that no step holds.
    Source: the density scale of the dataset (shipping_facts), with its basis.
    """
    for step in classes:
        high = step.high_lb_ft3
        if step.low_lb_ft3 <= density_lb_ft3 and (high is None or density_lb_ft3 < high):
            return step
    raise InputError(f"no step of the density scale holds {density_lb_ft3:g} lb/ft3")


def _packing_mass(
    load_kg: Figure, outer: Sequence[float], packing: Packing, facts: ShippingFacts
) -> Figure:
    if packing.mass_kg is not None:
        return Figure(packing.mass_kg, packing.mass_kg, packing.mass_kg)
    pallet = facts.pallet_kg if packing.pallet else (0.0, 0.0)
    low, high = pallet
    if packing.wall_mm:
        a, b, c = outer
        walls = 2.0 * (a * b + b * c + a * c) * packing.wall_mm * 1e-9
        edges = 4.0 * (a + b + c) * packing.batten_mm[0] * packing.batten_mm[1] * 1e-9
        fixed = walls * packing.wall_density_kg_m3 + edges * packing.batten_density_kg_m3
        low, high = low + fixed, high + fixed
    else:
        low += load_kg.expected * facts.packing_pct[0] / 100.0
        high += load_kg.expected * facts.packing_pct[1] / 100.0
    return Figure((low + high) / 2.0, low, high)


def _two_people(gross: Figure, facts: ShippingFacts) -> str:
    """'yes', 'perhaps' or 'no': can two people lift it, by the usual limit."""
    if gross.high <= facts.two_people_kg[0]:
        return "yes"
    return "perhaps" if gross.expected <= facts.two_people_kg[1] else "no"


def crate(
    size_mm: tuple[float, float, float],
    load_kg: Figure,
    packing: Packing,
    facts: ShippingFacts,
    divisors: Sequence[tuple[str, float, str, float]] | None = None,
) -> Crate:
    """The crate or carton around a piece.

    Parameters: size_mm the outside of the piece, length, depth and height [mm]; load_kg what
    it weighs; packing; facts the tables of shipping; divisors (label, value, unit, kg a cubic
    meter counts as), by default those of the tables.
    Returns: Crate. The range of the packing is added to that of the load, end to end.
    Raises: InputError for an impossible size.
    Source: shipping_facts of the dataset; NIOSH Publication 94-110 for the load constant.
    """
    for name, value in zip(("length", "depth", "height"), size_mm, strict=True):
        if not 0.0 < value < 20_000.0:
            raise InputError(f"{name} must be above 0 and below 20 m, not {value:g} mm")
    if not (0.0 <= packing.padding_mm < 1000.0 and 0.0 <= packing.wall_mm < 200.0):
        raise InputError("padding is below 1 m and a wall below 200 mm, and neither negative")
    if not load_kg.expected > 0.0:
        raise InputError("a load must weigh something")
    grown = 2.0 * (packing.padding_mm + packing.wall_mm + packing.batten_mm[1])
    outer = (size_mm[0] + grown, size_mm[1] + grown, size_mm[2] + grown)
    added = _packing_mass(load_kg, outer, packing, facts)
    if packing.pallet:
        outer = (outer[0], outer[1], outer[2] + packing.pallet_height_mm)
    volume = outer[0] * outer[1] * outer[2] * 1e-9
    gross = Figure(
        load_kg.expected + added.expected, load_kg.low + added.low, load_kg.high + added.high
    )
    chosen = divisors or [(d.label, d.value, d.unit, d.kg_per_m3) for d in facts.divisors]
    dimensional = []
    for label, value, unit, per_m3 in chosen:
        counted = volume * per_m3
        charged = Figure(*(max(counted, x) for x in (gross.expected, gross.low, gross.high)))
        dimensional.append(DimensionalWeight(label, value, unit, counted, charged))

    def step(mass_kg: float) -> FreightClass:
        return freight_class(mass_kg / volume / _LB_FT3, facts.classes)

    return Crate(
        outer,
        volume,
        added,
        gross,
        gross.expected / volume,
        step(gross.expected),
        step(gross.low),
        step(gross.high),
        tuple(dimensional),
        ceil(gross.high / facts.lift.mass_kg - 1e-9),
        _two_people(gross, facts),
        _over(outer, gross, facts),
    )


def _over(
    outer: tuple[float, float, float], gross: Figure, facts: ShippingFacts
) -> tuple[str, ...]:
    """Which of the usual limits of a parcel are exceeded."""
    longest, *others = sorted(outer, reverse=True)
    limit = facts.ceiling
    checks = (
        ("weight", gross.expected > limit.mass_kg),
        ("length", longest > limit.length_mm),
        ("length plus girth", longest + 2.0 * sum(others) > limit.length_and_girth_mm),
    )
    return tuple(name for name, exceeded in checks if exceeded)


def recommended_weight_limit(
    horizontal_cm: float,
    vertical_cm: float,
    distance_cm: float,
    angle_deg: float = 0.0,
    frequency_multiplier: float = 1.0,
    coupling_multiplier: float = 1.0,
) -> float:
    """The most a lift should weigh for one person [kg]; less the further it is from ideal.

    ``23 (25/H) (1 - 0.003 |V - 75|) (0.82 + 4.5/D) (1 - 0.0032 A) FM CM``.

    Parameters: horizontal_cm hands from ankles, 25 where nearer, 0 allowed beyond 63;
    vertical_cm hands above the floor, 0 to 175; distance_cm lifted, 25 where less;
    angle_deg of twist, 0 to 135; multipliers of frequency and grip from the tables.
    Raises: InputError outside those ranges.
    Source: NIOSH Publication 94-110, revised lifting equation (the limits of the ranges from
    memory).
    """
    if not 0.0 <= vertical_cm <= 175.0 or not 0.0 <= angle_deg <= 135.0:
        raise InputError("hands are 0 to 175 cm above the floor, and a twist is 0 to 135 degrees")
    if min(horizontal_cm, distance_cm) < 0.0:
        raise InputError("a distance cannot be negative")
    if horizontal_cm > 63.0 or distance_cm > 175.0:
        return 0.0
    return (
        23.0
        * (25.0 / max(25.0, horizontal_cm))
        * (1.0 - 0.003 * abs(vertical_cm - 75.0))
        * (0.82 + 4.5 / max(25.0, distance_cm))
        * (1.0 - 0.0032 * angle_deg)
        * frequency_multiplier
        * coupling_multiplier
    )
