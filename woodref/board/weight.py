"""Density of a wood and weight of a board at a moisture content."""

from __future__ import annotations

from enum import StrEnum
from math import isfinite
from typing import NamedTuple

from woodref.board.densities_agree import disagreement_notes
from woodref.board.shapes import Shape, volume_of
from woodref.display import Shown, number, ranged
from woodref.errors import InputError, NoDataError
from woodref.formulas.density import (
    basic_specific_gravity_from,
    basic_specific_gravity_from_general,
    density_at,
    greatest_density,
    specific_gravity_at,
    specific_gravity_at_general,
    volumetric_shrinkage,
    volumetric_shrinkage_general,
)
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.note import Note
from woodref.quantity import MOST_BOARDS, Range
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE, ESTIMATED, IMPLIED, OWN, weakest
from woodref.reference.densities import AIR_DRY_PCT, stand_ins
from woodref.reference.estimated import GENUS_LIMIT_PCT, density_figures
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood


class DensityFrom(StrEnum):
    """The figure a density is computed from.

    Basic specific gravity as printed; a density or a specific gravity at a known moisture
    content, turned back to basic; or the mean of the genus.
    """

    BASIC = "basic"
    CONVERTED = "converted"
    GENUS_MEAN = "genus mean"


class ShrinkageFrom(StrEnum):
    """Where the volumetric shrinkage of a wood is from.

    Its own; from its radial and tangential; implied by its two specific gravities; estimated
    from density; or the general relation to specific gravity, 0.265 times.
    """

    VOLUMETRIC = "volumetric"
    TWO_DIRECTIONS = "radial and tangential"
    IMPLIED = "implied by two gravities"
    ESTIMATED = "estimated"
    GENERAL = "general relation"


@record(repr=False)
class DensityEstimate(Shown):
    """Density of a wood with its water at a moisture content.

    ``density_kg_m3`` expected; ``sd_kg_m3`` between single boards; ``values`` the printed
    figures used, the density first; ``density_from`` and ``shrinkage_from`` how they were
    used; ``notes`` what is assumed.
    """

    wood: Wood
    moisture_pct: float
    density_kg_m3: float
    sd_kg_m3: float
    basic_specific_gravity: float
    values: tuple[Value, ...]
    density_from: DensityFrom
    shrinkage_from: ShrinkageFrom
    notes: tuple[Note, ...]

    @property
    def likely_kg_m3(self) -> Range:
        """The density with the central 90 % of single boards [kg/m3]."""
        most = greatest_density(self.moisture_pct)
        ends = likely_range(self.density_kg_m3, self.sd_kg_m3, high=most)
        return Range(self.density_kg_m3, *ends)

    @property
    def basis(self) -> str:
        """The weakest basis among the figures used."""
        return weakest(v.basis for v in self.values)

    def _line(self) -> str:
        density = ranged(self.likely_kg_m3, "kg/m3")
        return f"{self.wood.common_name} at {number(self.moisture_pct)} %: {density}"


@record(repr=False)
class BoardWeight(Shown):
    """Mass of boards of one size with its likely range and spread, of one and of all [kg].

    ``mass_kg``, ``sd_kg`` of one; ``total_kg``, ``total_sd_kg`` of all together. A size that the
    shape does not have is 0.
    """

    length_mm: float
    width_mm: float
    thickness_mm: float
    quantity: int
    density: DensityEstimate
    volume_m3: float
    mass_kg: Range
    sd_kg: float
    total_kg: Range
    total_sd_kg: float

    def _line(self) -> str:
        size = " x ".join(
            number(s) for s in (self.length_mm, self.width_mm, self.thickness_mm) if s
        )
        total = ranged(self.total_kg, "kg")
        return f"{self.quantity} of {size} mm {self.density.wood.common_name}: {total}"


class WoodShrinkage(NamedTuple):
    """Volumetric shrinkage, None where only the general relation is left, and its origin.

    ``fiber_saturation_pct`` the moisture content it is spread over.
    """

    total_pct: float | None
    values: tuple[Value, ...]
    origin: ShrinkageFrom
    fiber_saturation_pct: float

    def basic_from(self, specific_gravity: float, moisture_pct: float) -> float:
        """Basic specific gravity from that at a moisture content."""
        if self.total_pct is None:
            basic = basic_specific_gravity_from_general(
                specific_gravity, moisture_pct, self.fiber_saturation_pct
            )
        else:
            basic = basic_specific_gravity_from(
                specific_gravity, moisture_pct, self.total_pct, self.fiber_saturation_pct
            )
        return float(basic)

    def density(self, basic: float, moisture_pct: float) -> float:
        """Density at a moisture content from basic specific gravity [kg/m3]."""
        if self.total_pct is None:
            at = specific_gravity_at_general(basic, moisture_pct, self.fiber_saturation_pct)
        else:
            at = specific_gravity_at(basic, moisture_pct, self.total_pct, self.fiber_saturation_pct)
        return float(density_at(at, moisture_pct))


def wood_shrinkage(wood: Wood) -> WoodShrinkage:
    """Volumetric shrinkage of a wood: its own, from its two directions, or not in print.

    Then what its gravities imply or its density tells; the general relation for a wood whose
    density is that of its genus alone.
    """
    own, point = wood.value("shrinkage_volumetric"), wood.fiber_saturation.pct
    if own:
        return WoodShrinkage(own.value, (own,), ShrinkageFrom.VOLUMETRIC, point)
    radial, tangential = wood.value("shrinkage_radial"), wood.value("shrinkage_tangential")
    if radial and tangential:
        return WoodShrinkage(
            volumetric_shrinkage(radial.value, tangential.value),
            (radial, tangential),
            ShrinkageFrom.TWO_DIRECTIONS,
            point,
        )
    estimated = wood.estimate("shrinkage_volumetric")
    if estimated:
        implied = estimated.basis == IMPLIED
        origin = ShrinkageFrom.IMPLIED if implied else ShrinkageFrom.ESTIMATED
        return WoodShrinkage(estimated.value, (estimated,), origin, point)
    return WoodShrinkage(None, (), ShrinkageFrom.GENERAL, point)


def _basic(
    wood: Wood, shrinkage: WoodShrinkage
) -> tuple[Value, float, DensityFrom, tuple[Note, ...]]:
    """(figure used, basic specific gravity, how it was used, notes) of a wood.

    Raises: NoDataError where no density of stated moisture condition is printed.
    """
    printed = wood.value("basic_specific_gravity")
    values, figures = density_figures(wood)
    found = [(values[s.which], s) for s in stand_ins(figures)]
    own = [(value, s) for value, s in found if value.basis == OWN]
    if printed and (printed.basis == OWN or not own):
        return printed, printed.value, DensityFrom.BASIC, ()
    for value, at in own or found:
        notes: tuple[Note, ...] = ()
        if value.property_id == "density_air_dry" and value.moisture_content_pct is None:
            text = (
                f"the air-dry density is taken as that at {AIR_DRY_PCT:g} % moisture content "
                "(common practice, no source)"
            )
            notes = (Note("air-dry-moisture-assumed", text, COMMON_PRACTICE),)
        basic = shrinkage.basic_from(at.gravity, at.moisture_pct)
        return value, basic, DensityFrom.CONVERTED, notes
    genus = wood.estimate("basic_specific_gravity")
    if genus and 100.0 * genus.between_sd / genus.value <= GENUS_LIMIT_PCT:
        text = f"Basic specific gravity {genus.printed}"
        note = Note("genus-mean", text, ESTIMATED)
        return genus, genus.value, DensityFrom.GENUS_MEAN, (note,)
    unstated = wood.value("density_unstated")
    problem = (
        f"only a density of unstated moisture condition is printed for {wood.common_name} "
        f"({unstated.value:g} kg/m3), which says little about its weight"
        if unstated
        else f"no table holds a density of {wood.common_name} at a stated moisture condition"
    )
    if genus:
        problem += (
            f"; its genus ranges from {genus.printed}, coefficient of variation "
            f"{100.0 * genus.between_sd / genus.value:.0f} %, too wide for one number"
        )
    raise NoDataError(f"{problem}; weigh a board: woodref own weigh")


def _label(value: Value) -> str:
    return PROPERTIES[value.property_id].label


def _range_note(value: Value) -> tuple[Note, ...]:
    if not value.is_midpoint:
        return ()
    ends = f"{value.printed_low:g} to {value.printed_high:g}"
    text = f"{_label(value)} is printed as a range, {ends}; its midpoint is used"
    return (Note("midpoint-of-printed-range", text),)


def density_of(wood: Wood, moisture_pct: float) -> DensityEstimate:
    """Density of a wood with its water at a moisture content.

    From basic specific gravity and the wood's own volumetric shrinkage; else its radial and
    tangential shrinkage; else what its gravities imply, or an estimate from density. Without a
    basic specific gravity, from a specific gravity or density at a known moisture content,
    turned back to basic.
    The spread between boards is the coefficient of variation of the density figure used.

    Parameters: wood; moisture_pct [%], from 0 to the most the wood can hold; above fiber
    saturation the volume stays green.
    Returns: DensityEstimate.
    Raises: InputError for an impossible moisture content; NoDataError where the wood has no
    density of stated moisture condition.
    Source: FPL-GTR-282 (2021), Eq. 4-3 and 4-9 to 4-14, pp. 4-3 to 4-13.
    """
    if not (isfinite(moisture_pct) and moisture_pct >= 0.0):
        raise InputError(f"a moisture content is 0 % or more, not {moisture_pct:g} %")
    return wood.once((density_of, moisture_pct), lambda: _density_of(wood, moisture_pct))


def _density_of(wood: Wood, moisture_pct: float) -> DensityEstimate:
    shrinkage = wood_shrinkage(wood)
    value, basic, density_from, notes = _basic(wood, shrinkage)
    most_pct = maximum_moisture_content(basic)
    if moisture_pct > most_pct:
        raise InputError(
            f"{wood.common_name} of basic specific gravity {basic:.2f} holds at most "
            f"{most_pct:.0f} % moisture content, not {moisture_pct:g} %"
        )
    if moisture_pct > wood.fiber_saturation.pct:
        text = (
            f"above fiber saturation ({wood.fiber_saturation.pct:g} %) the volume is the green "
            "one; "
            "the likely range is for boards at exactly this moisture content, and green boards "
            "differ in it"
        )
        notes += (Note("above-fiber-saturation", text),)
    for used in (value, *shrinkage.values):
        notes += _range_note(used)
    total_pct = shrinkage.total_pct
    if total_pct is None:
        total_pct = float(volumetric_shrinkage_general(basic))
    notes += disagreement_notes(wood, value, total_pct)
    density = shrinkage.density(basic, moisture_pct)
    sd = density * (value.sd or 0.0) / value.value
    return DensityEstimate(
        wood,
        moisture_pct,
        density,
        sd,
        basic,
        (value, *shrinkage.values),
        density_from,
        shrinkage.origin,
        notes,
    )


def weight_of(
    wood: Wood,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    moisture_pct: float,
    quantity: int = 1,
) -> BoardWeight:
    """Mass of boards of one size, with the likely range of one and of all together.

    Parameters: wood; length_mm, width_mm, thickness_mm the size at ``moisture_pct`` [mm];
    moisture_pct [%] as density_of; quantity number of boards, which share part of their
    spread (woodref.formulas.spread).
    Returns: BoardWeight.
    Raises: InputError for an impossible size, moisture content or quantity; NoDataError.
    Source: FPL-GTR-282 (2021), Eq. 4-14; spread: woodref.formulas.spread.
    """
    return weight_of_shape(
        wood, Shape("box", length_mm, width_mm, thickness_mm), moisture_pct, quantity
    )


def weight_of_shape(
    wood: Wood, shape: Shape, moisture_pct: float, quantity: int = 1
) -> BoardWeight:
    """Mass of pieces of one shape, with the likely range of one and of all together.

    Parameters, returns, errors and source as weight_of; the sizes of the shape are those at
    ``moisture_pct``.
    """
    volume_m3 = volume_of(shape) * 1e-9
    if not 1 <= quantity <= MOST_BOARDS:
        raise InputError(f"a quantity is a whole number from 1 to {MOST_BOARDS}, not {quantity}")
    density = density_of(wood, moisture_pct)
    mass, sd = density.density_kg_m3 * volume_m3, density.sd_kg_m3 * volume_m3
    total_sd = sd_of_sum([sd] * quantity)
    heaviest = greatest_density(moisture_pct) * volume_m3
    total = mass * quantity
    return BoardWeight(
        shape.length_mm,
        shape.width_mm,
        shape.thickness_mm,
        quantity,
        density,
        volume_m3,
        Range(mass, *likely_range(mass, sd, high=heaviest)),
        sd,
        Range(total, *likely_range(total, total_sd, high=heaviest * quantity)),
        total_sd,
    )
