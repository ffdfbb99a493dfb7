"""Movement, density and weight of many boards: arrays of one shape."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from woodref.arrays import ArrayResult, RangeArrays
from woodref.formulas.density import greatest_density
from woodref.formulas.spread import likely_range
from woodref.note import Note
from woodref.record import record
from woodref.reference.bases import weakest

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from woodref.arrays import Floats, Objects


@record(eq=False, repr=False)
class MovementArrays(ArrayResult):
    """Changes of sizes as arrays of one shape, each element as in a Movement.

    ``wood``, ``basis`` and ``notes`` hold what a Movement holds in an array of objects.
    """

    wood: Objects
    size_mm: Floats
    from_moisture_pct: Floats
    to_moisture_pct: Floats
    ring_angle_deg: Floats
    likely_mm: RangeArrays
    basis: Objects
    notes: Objects

    @property
    def after_mm(self) -> Floats:
        """The sizes after, expected [mm]."""
        return self.likely_mm.expected

    @property
    def change_mm(self) -> Floats:
        """Sizes after less sizes before, expected [mm]."""
        return self.likely_mm.expected - self.size_mm

    @property
    def likely_change_mm(self) -> RangeArrays:
        """Sizes after less sizes before, with their likely ranges [mm]."""
        return RangeArrays(*(after - self.size_mm for after in self.likely_mm))

    def columns(self) -> dict[str, NDArray[np.generic]]:
        """The columns of the frame: the figures, and ``basis`` the weakest of those used."""
        return {
            "wood": _each(lambda wood: wood.common_name, self.wood),
            "size_mm": self.size_mm,
            "from_moisture_pct": self.from_moisture_pct,
            "to_moisture_pct": self.to_moisture_pct,
            "ring_angle_deg": self.ring_angle_deg,
            "after_mm": self.after_mm,
            "low_mm": self.likely_mm.low,
            "high_mm": self.likely_mm.high,
            "change_mm": self.change_mm,
            "basis": _each(lambda b: weakest([b.radial.basis, b.tangential.basis]), self.basis),
            "notes": _each(_text, self.notes),
        }


@record(eq=False, repr=False)
class DensityArrays(ArrayResult):
    """Densities as arrays of one shape, each element as in a DensityEstimate.

    ``wood``, ``values``, ``density_from``, ``shrinkage_from`` and ``notes`` hold what it holds in
    an array of objects.
    """

    wood: Objects
    moisture_pct: Floats
    density_kg_m3: Floats
    sd_kg_m3: Floats
    basic_specific_gravity: Floats
    values: Objects
    density_from: Objects
    shrinkage_from: Objects
    notes: Objects

    @property
    def likely_kg_m3(self) -> RangeArrays:
        """The densities with the central 90 % of single boards [kg/m3]."""
        most = greatest_density(self.moisture_pct)
        ends = likely_range(self.density_kg_m3, self.sd_kg_m3, high=most)
        return RangeArrays(self.density_kg_m3, *ends)

    @property
    def basis(self) -> Objects:
        """The weakest basis among the figures used for each element."""
        return _each(lambda values: weakest(v.basis for v in values), self.values)

    def columns(self) -> dict[str, NDArray[np.generic]]:
        """The columns of the frame: the figures, and ``basis`` the weakest of those used."""
        likely = self.likely_kg_m3
        return {
            "wood": _each(lambda wood: wood.common_name, self.wood),
            "moisture_pct": self.moisture_pct,
            "density_kg_m3": self.density_kg_m3,
            "low_kg_m3": likely.low,
            "high_kg_m3": likely.high,
            "sd_kg_m3": self.sd_kg_m3,
            "basic_specific_gravity": self.basic_specific_gravity,
            "basis": self.basis,
            "density_from": _each(str, self.density_from),
            "shrinkage_from": _each(str, self.shrinkage_from),
            "notes": _each(_text, self.notes),
        }


@record(eq=False, repr=False)
class WeightArrays(ArrayResult):
    """Masses as arrays of one shape, each element as in a BoardWeight."""

    length_mm: Floats
    width_mm: Floats
    thickness_mm: Floats
    quantity: Floats
    density: DensityArrays
    volume_m3: Floats
    mass_kg: RangeArrays
    sd_kg: Floats
    total_kg: RangeArrays
    total_sd_kg: Floats

    def columns(self) -> dict[str, NDArray[np.generic]]:
        """The columns of the frame: sizes and masses, and those of the density."""
        density = self.density.columns()
        return {
            "wood": density.pop("wood"),
            "length_mm": self.length_mm,
            "width_mm": self.width_mm,
            "thickness_mm": self.thickness_mm,
            "moisture_pct": density.pop("moisture_pct"),
            "quantity": self.quantity,
            "volume_m3": self.volume_m3,
            "mass_kg": self.mass_kg.expected,
            "low_kg": self.mass_kg.low,
            "high_kg": self.mass_kg.high,
            "total_kg": self.total_kg.expected,
            "total_low_kg": self.total_kg.low,
            "total_high_kg": self.total_kg.high,
            "density_kg_m3": density["density_kg_m3"],
            "basis": density["basis"],
            "density_from": density["density_from"],
            "shrinkage_from": density["shrinkage_from"],
            "notes": density["notes"],
        }


def _each(of_one: Callable[..., object], objects: Objects) -> Objects:
    """What a function makes of each object, called once for each distinct one."""
    made = {id(one): one for one in objects.flat}
    texts = {key: of_one(one) for key, one in made.items()}
    out = np.empty(objects.size, dtype=np.object_)
    for n, one in enumerate(objects.flat):
        out[n] = texts[id(one)]
    return out.reshape(objects.shape)


def _text(notes: Sequence[Note]) -> str:
    return "; ".join(note.text for note in notes)
