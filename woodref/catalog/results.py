"""The columns of the answers of a catalog: their names, units, and the step each is taken from."""

from __future__ import annotations

from typing import NamedTuple

from woodref.catalog.request import Request, Want
from woodref.units import KINDS, M3_PER_FT3


class Result(NamedTuple):
    """A column of the answers: its name, the step it is, over a factor, and its answer."""

    name: str
    step: str
    want: Want
    factor: float = 1.0


def results(request: Request, want: tuple[Want, ...]) -> list[Result]:
    """The columns of the answers, in the units asked for."""
    made: list[Result] = []
    of_kind = _Units(request.units)
    ends = ("", "_low", "_high") if request.ranges else ("",)
    if Want.WEIGHT in want:
        for name in ("mass", "total_mass"):
            made += [of_kind(f"{name}{e}", "mass", f"{name}{e}", Want.WEIGHT) for e in ends]
        made.append(Result("mass_basis", "density_basis", Want.WEIGHT))
    if Want.VOLUME in want:
        name, factor = ("volume_m3", 1.0) if request.units == "si" else ("volume_ft3", M3_PER_FT3)
        made.append(Result(name, "whole_volume", Want.VOLUME, factor))
    if Want.BOARD_FEET in want or Want.COST in want:
        made.append(Result("rough_stock", "stock", Want.BOARD_FEET))
    if Want.BOARD_FEET in want:
        made.append(Result("board_feet", "board_feet", Want.BOARD_FEET))
    if Want.MOVEMENT in want:
        made += [
            Result("from_moisture_pct", "start", Want.MOVEMENT),
            Result("to_moisture_pct", "end", Want.MOVEMENT),
            *(of_kind(f"width_change{e}", "change", f"change{e}", Want.MOVEMENT) for e in ends),
            Result("movement_basis", "movement_basis", Want.MOVEMENT),
        ]
    if Want.COST in want:
        made += [Result(f"cost{e}", f"cost{e}", Want.COST) for e in ends]
    if Want.SHIPPING in want:
        made += [
            *(of_kind(f"gross_mass{e}", "mass", f"gross{e}", Want.SHIPPING) for e in ends),
            Result("freight_class", "freight_class", Want.SHIPPING),
            of_kind("dimensional_mass", "mass", "dimensional", Want.SHIPPING),
            *(
                of_kind(f"chargeable_mass{e}", "mass", f"chargeable{e}", Want.SHIPPING)
                for e in ends
            ),
            Result("over_parcel_limit", "over_limit", Want.SHIPPING),
        ]
    return made


class _Units:
    """Names and factors of the answers in a system of units."""

    def __init__(self, units: str) -> None:
        self.units = units

    def __call__(self, name: str, kind: str, step: str, want: Want) -> Result:
        made = KINDS[kind]
        suffix = made.suffix(self.units)
        factor = made.factor if self.units == "us" else 1.0
        return Result(f"{name}_{suffix}" if suffix else name, step, want, factor)


#: The step whose absence leaves an answer out.
ABSENT = {
    Want.WEIGHT: "mass",
    Want.BOARD_FEET: "board_feet",
    Want.MOVEMENT: "change",
    Want.COST: "cost",
    Want.SHIPPING: "gross",
}
