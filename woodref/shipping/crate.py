"""The crate or carton around a piece: size, gross weight, freight class, dimensional weight."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from math import isfinite, prod

from woodref.display import Shown, number, ranged
from woodref.errors import InputError, UnitsError
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.shipping import Divisor, FreightClass, ShippingFacts
from woodref.shipping.lifting import Certainty, Lifting, lifting
from woodref.shipping.load import impossible_density
from woodref.units import LB_FT3_TO_KG_M3, MM_PER_INCH, quantity_told, sizes_told

#: Densities of a panel of a crate and of its battens [kg/m3], and the height of a pallet [mm],
#: recalled, not seen in print.
USUAL_WALL_KG_M3, USUAL_BATTEN_KG_M3, USUAL_PALLET_HEIGHT_MM = 550.0, 450.0, 140.0
#: Room on each side of a piece where none is given: the middle of 1 to 2 in (common practice,
#: no source).
USUAL_PADDING_MM = 1.5 * MM_PER_INCH
#: How far the weight of walls and battens may be off, either way [%] (our assumption).
CRATE_SPREAD_PCT = 15.0


class UsualFigure(Enum):
    """A figure of a packing that is recalled, where nothing is given."""

    WALL_DENSITY = "wall density"
    BATTEN_DENSITY = "batten density"
    PALLET_HEIGHT = "pallet height"


@record
class Packing:
    """How a piece is packed; sizes [mm], densities [kg/m3].

    ``padding_mm`` on every side; ``wall_mm`` the panels of a crate, 0 for a carton, whose
    weight is the usual share of the piece; ``batten_mm`` width and thickness of battens along
    the twelve edges, outside the walls; ``pallet`` True where it stands on one as large as its
    floor, ``pallet_height_mm`` high. ``mass_kg`` replaces all those weights where it is known.
    """

    padding_mm: float
    wall_mm: float = 0.0
    wall_density_kg_m3: float = USUAL_WALL_KG_M3
    batten_mm: tuple[float, float] = (0.0, 0.0)
    batten_density_kg_m3: float = USUAL_BATTEN_KG_M3
    pallet: bool = False
    pallet_height_mm: float = USUAL_PALLET_HEIGHT_MM
    mass_kg: float | None = None

    def check(self) -> None:
        """Raise InputError where a size or a weight of the packing is impossible."""
        if not (0.0 <= self.padding_mm < 1000.0 and 0.0 <= self.wall_mm < 200.0):
            raise UnitsError(
                sizes_told(
                    "padding is below {} and a wall below {}, and neither negative", 1000.0, 200.0
                )
            )
        if not all(0.0 <= x < 500.0 for x in self.batten_mm):
            raise UnitsError(
                sizes_told("a batten is below {} wide and thick, and not negative", 500.0)
            )
        if any(self.batten_mm) and not (all(self.batten_mm) and self.wall_mm):
            raise InputError("battens need a width, a thickness and the wall of a crate")
        if not 0.0 <= self.pallet_height_mm < 1000.0:
            raise UnitsError(sizes_told("a pallet is below {} high, and not negative", 1000.0))
        for density in (self.wall_density_kg_m3, self.batten_density_kg_m3):
            if not 10.0 <= density <= 9000.0:
                raise impossible_density(density)
        if self.mass_kg is not None and not 0.0 <= self.mass_kg < 1e5:
            mass_kg = self.mass_kg
            raise UnitsError(
                lambda units: f"packing cannot weigh {quantity_told('mass', mass_kg, units)}"
            )

    @property
    def kind(self) -> str:
        """'crate' or 'carton'."""
        return "crate" if self.wall_mm else "carton"

    @property
    def unchecked(self) -> tuple[UsualFigure, ...]:
        """The usual figures of this packing that are unchecked."""
        weighed = self.mass_kg is not None
        walls = self.wall_mm and self.wall_density_kg_m3 == USUAL_WALL_KG_M3
        battens = self.batten_mm[0] and self.batten_density_kg_m3 == USUAL_BATTEN_KG_M3
        height = self.pallet and self.pallet_height_mm == USUAL_PALLET_HEIGHT_MM
        used = {
            UsualFigure.WALL_DENSITY: walls and not weighed,
            UsualFigure.BATTEN_DENSITY: battens and not weighed,
            UsualFigure.PALLET_HEIGHT: height,
        }
        return tuple(figure for figure, is_used in used.items() if is_used)


@record
class DimensionalWeight:
    """One divisor: what the volume counts as, and what is charged, the larger of the two [kg]."""

    divisor: Divisor
    dimensional_kg: float
    chargeable_kg: Range


@record
class ParcelLimit:
    """A usual limit of a parcel, ``kind`` 'mass' [kg] or 'size' [mm], and whether it is exceeded.

    Perhaps, where only the high end of the weight exceeds it.
    """

    name: str
    kind: str
    value: float
    limit: float
    over: Certainty


@record(repr=False)
class Crate(Shown):
    """A packed piece: outer size [mm], weights, density, freight class, lifting, limits.

    ``freight`` at the expected weight, ``freight_low`` and ``freight_high`` at the ends of its
    range.
    """

    size_mm: tuple[float, float, float]
    volume_m3: float
    packing_kg: Range
    gross_kg: Range
    freight: FreightClass
    freight_low: FreightClass
    freight_high: FreightClass
    dimensional: tuple[DimensionalWeight, ...]
    lifting: Lifting
    limits: tuple[ParcelLimit, ...]

    @property
    def density_kg_m3(self) -> float:
        """Gross weight by outer volume [kg/m3]."""
        return self.gross_kg.expected / self.volume_m3

    @property
    def over(self) -> tuple[str, ...]:
        """Which of the usual limits of a parcel it exceeds, or may exceed."""
        return tuple(x.name for x in self.limits if x.over is not Certainty.NO)

    def _line(self) -> str:
        size = " x ".join(map(number, self.size_mm))
        return f"{size} mm, gross {ranged(self.gross_kg, 'kg')}"


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


def _check(size_mm: Sequence[float], load_kg: Range, packing: Packing) -> None:
    for name, value in zip(("length", "depth", "height"), size_mm, strict=True):
        if not 0.0 < value < 20_000.0:
            raise UnitsError(
                sizes_told(f"{name} must be above 0 and below {{}}, not {{}}", 20_000.0, value)
            )
    packing.check()
    if not (0.0 < load_kg.low <= load_kg.expected <= load_kg.high and isfinite(load_kg.high)):
        raise InputError("a load must weigh something, and low, expected and high not fall")


def _packing_mass(
    load_kg: Range, inner: Sequence[float], packing: Packing, facts: ShippingFacts
) -> Range:
    """What crate or carton and pallet weigh around a room of a size [mm]."""
    if packing.mass_kg is not None:
        return exactly(packing.mass_kg)
    walls = [x + 2.0 * packing.wall_mm for x in inner]
    if packing.wall_mm:
        width, thickness = packing.batten_mm
        mass = (prod(walls) - prod(inner)) * 1e-9 * packing.wall_density_kg_m3
        edges = 4.0 * sum(x + 2.0 * thickness for x in walls)
        mass += edges * width * thickness * 1e-9 * packing.batten_density_kg_m3
        spread = mass * CRATE_SPREAD_PCT / 100.0
        low, high = mass - spread, mass + spread
    else:
        low = load_kg.low * facts.packing_pct.low / 100.0
        high = load_kg.high * facts.packing_pct.high / 100.0
        mass = load_kg.expected * (facts.packing_pct.low + facts.packing_pct.high) / 200.0
    if packing.pallet:
        floor = [x + 2.0 * packing.batten_mm[1] for x in walls[:2]]
        share = prod(floor) / prod(facts.pallet.footprint_mm)
        ends = facts.pallet.low_kg * share, facts.pallet.high_kg * share
        low, mass, high = low + ends[0], mass + sum(ends) / 2.0, high + ends[1]
    return Range(mass, low, high)


def crate(
    size_mm: tuple[float, float, float],
    load_kg: Range,
    packing: Packing,
    facts: ShippingFacts,
    divisors: Sequence[Divisor] = (),
    one_person_kg: float | None = None,
) -> Crate:
    """The crate or carton around a piece.

    Parameters: size_mm the outside of the piece, length, depth and height [mm]; load_kg what
    it weighs; packing; facts the tables of shipping; divisors, by default those of the tables;
    one_person_kg what one person should lift, by default the load constant [kg].
    Returns: Crate. The range of the packing is added to that of the load, end to end; a pallet
    weighs by the floor it carries.
    Raises: InputError for an impossible size or weight.
    Source: shipping_facts of the dataset; NIOSH Publication 94-110 for the load constant.
    """
    _check(size_mm, load_kg, packing)
    inner = [x + 2.0 * packing.padding_mm for x in size_mm]
    added = _packing_mass(load_kg, inner, packing, facts)
    a, b, c = (x + 2.0 * (packing.wall_mm + packing.batten_mm[1]) for x in inner)
    outer = (a, b, c + packing.pallet_height_mm if packing.pallet else c)
    volume = prod(outer) * 1e-9
    gross = load_kg.plus(added)

    def step(mass_kg: float) -> FreightClass:
        return freight_class(mass_kg / volume / LB_FT3_TO_KG_M3, facts.classes)

    return Crate(
        outer,
        volume,
        added,
        gross,
        step(gross.expected),
        step(gross.low),
        step(gross.high),
        tuple(dimensional_weight(volume, gross, d) for d in divisors or facts.divisors),
        lifting(gross, facts, one_person_kg),
        _limits(outer, gross, facts),
    )


def dimensional_weight(volume_m3: float, gross_kg: Range, divisor: Divisor) -> DimensionalWeight:
    """What a volume counts as by a divisor, and what is charged: the larger of it and gross.

    Source: common practice, no source.
    """
    counted = volume_m3 * divisor.kg_per_m3
    return DimensionalWeight(divisor, counted, Range(*(max(counted, x) for x in gross_kg)))


def _limits(outer: Sequence[float], gross: Range, facts: ShippingFacts) -> tuple[ParcelLimit, ...]:
    """The usual limits of a parcel beside what it has."""
    longest, *others = sorted(outer, reverse=True)
    girth = longest + 2.0 * sum(others)
    limit = facts.ceiling
    if gross.expected > limit.mass_kg:
        heavy = Certainty.YES
    else:
        heavy = Certainty.PERHAPS if gross.high > limit.mass_kg else Certainty.NO
    return (
        ParcelLimit("weight", "mass", gross.expected, limit.mass_kg, heavy),
        *(
            ParcelLimit(name, "size", value, most, Certainty.YES if value > most else Certainty.NO)
            for name, value, most in (
                ("longest side", longest, limit.length_mm),
                ("length plus girth", girth, limit.length_and_girth_mm),
            )
        ),
    )
