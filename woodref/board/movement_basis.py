"""The printed figures a wood's movement is computed from, and what they say of a face."""

from __future__ import annotations

from enum import StrEnum
from math import nan
from typing import NamedTuple

from woodref.errors import NoDataError
from woodref.formulas.movement import (
    cv_of_size_change,
    share_of_green_size_across,
    size_across,
)
from woodref.formulas.shrinkage import (
    COEFFICIENT_GOVERNS_SHARE,
    coefficient_off_shrinkage,
    shrinkage_at_ring_angle,
    shrinkage_of_coefficient,
    size_at,
    size_by_change_per_pct,
)
from woodref.record import replace
from woodref.reference.bases import ESTIMATED, OWN
from woodref.reference.fiber_saturation import GENERAL_FIBER_SATURATION, FiberSaturation
from woodref.reference.woods import Value, Wood


class MovementMethod(StrEnum):
    """What movement is computed from.

    Shrinkage from green to ovendry, on a straight line below fiber saturation; the change per
    1 % moisture content as printed; the shrinkage that printed dimensional change coefficients
    stand for; or one estimated from the density of the wood.
    """

    SHRINKAGE = "shrinkage"
    CHANGE_PER_PCT = "change per 1 %"
    COEFFICIENT = "dimensional change coefficient"
    ESTIMATED = "estimated shrinkage"


class MovementBasis(NamedTuple):
    """The figures a wood's movement is computed from, and how.

    ``fiber_saturation`` is the wood's own where print tells it. ``radial_coefficient`` and
    ``tangential_coefficient`` are printed dimensional change coefficients that go before the
    shrinkage from 6 to 14 %, None where the shrinkage agrees with them or none is printed.
    """

    method: MovementMethod
    radial: Value
    tangential: Value
    fiber_saturation: FiberSaturation = GENERAL_FIBER_SATURATION
    radial_coefficient: Value | None = None
    tangential_coefficient: Value | None = None

    @property
    def values(self) -> tuple[Value, ...]:
        """The printed figures, the tangential first."""
        coefficients = (self.tangential_coefficient, self.radial_coefficient)
        return (self.tangential, self.radial, *(c for c in coefficients if c))

    @property
    def by_shrinkage(self) -> bool:
        """True where green-to-ovendry shrinkage is used, false for a change per 1 %."""
        return self.method is not MovementMethod.CHANGE_PER_PCT

    @property
    def by_coefficient(self) -> bool:
        """True where a printed coefficient goes before the shrinkage from 6 to 14 %."""
        return bool(self.radial_coefficient or self.tangential_coefficient)

    @property
    def curve(self) -> tuple[float, float, float, float, float]:
        """What size_across takes after the ring angle: shrinkages, fiber saturation, coefficients.

        Tangential before radial; nan for a coefficient that does not govern.
        """
        coefficients = (self.tangential_coefficient, self.radial_coefficient)
        tangential, radial = (c.value if c else nan for c in coefficients)
        point = self.fiber_saturation.pct
        return self.tangential.value, self.radial.value, point, tangential, radial

    def share_of_green(self, moisture_pct: float, ring_angle_deg: float) -> float:
        """Size across a face at a moisture content over its green size [1].

        Parameters: moisture_pct [%]; ring_angle_deg 0 flat to 90 quarter sawn.
        """
        return float(share_of_green_size_across(moisture_pct, ring_angle_deg, *self.curve))

    def mixed(self, ring_angle_deg: float) -> float:
        """Shrinkage, or change per 1 %, across a face [% or %/%]."""
        figures = (self.tangential.value, self.radial.value)
        return float(shrinkage_at_ring_angle(*figures, ring_angle_deg))

    def size_after(
        self, size_mm: float, from_moisture_pct: float, to_moisture_pct: float, angle_deg: float
    ) -> float:
        """Size after a change of moisture content, expected [mm]."""
        change = (size_mm, from_moisture_pct, to_moisture_pct)
        if not self.by_shrinkage:
            return float(size_by_change_per_pct(*change, self.mixed(angle_deg)))
        if self.by_coefficient:
            return float(size_across(*change, angle_deg, *self.curve))
        # Of shrinkages alone, what the curve gives for either direction, turned to the face.
        return float(size_at(*change, self.mixed(angle_deg), self.fiber_saturation.pct))

    def cv(self, ring_angle_deg: float) -> float:
        """Coefficient of variation of a change of size between single boards [1].

        That of the shrinkage over the fiber saturation point, which it is spread over.
        """
        tangential, radial = self.tangential, self.radial
        return float(
            cv_of_size_change(
                tangential.value,
                radial.value,
                tangential.sd or 0.0,
                radial.sd or 0.0,
                ring_angle_deg,
                self.fiber_saturation.cv if self.by_shrinkage else 0.0,
            )
        )


def _shrinkage_of(coefficient: Value, wood: Wood) -> Value:
    """The shrinkage a printed coefficient stands for, at the fiber saturation point of the wood."""
    direction = coefficient.property_id.rsplit("_", 1)[1]
    total = float(shrinkage_of_coefficient(coefficient.value, wood.fiber_saturation.pct))
    return replace(
        coefficient,
        property_id=f"shrinkage_{direction}",
        value=total,
        unit="%",
        sd=coefficient.sd and total * coefficient.sd / coefficient.value,
        printed=f"from the coefficient {coefficient.printed}",
    )


def _by_shrinkage(
    wood: Wood, method: MovementMethod, radial: Value, tangential: Value
) -> MovementBasis:
    """Shrinkage with the wood's fiber saturation point and the coefficients that govern it."""
    point = wood.fiber_saturation

    def governing(direction: str, shrinkage: Value) -> Value | None:
        c = wood.value(f"dimensional_change_coefficient_{direction}")
        # Of a group, the coefficient must be that of the same members as the shrinkage.
        if c is None or shrinkage.basis in (OWN, ESTIMATED) or c.members != shrinkage.members:
            return None
        off = coefficient_off_shrinkage(c.value, shrinkage.value, point.pct)
        return c if off > COEFFICIENT_GOVERNS_SHARE else None

    return MovementBasis(
        method,
        radial,
        tangential,
        point,
        governing("radial", radial),
        governing("tangential", tangential),
    )


def movement_basis(wood: Wood) -> MovementBasis:
    """The figures movement is computed from.

    Shrinkage, else change per 1 % moisture content, else printed dimensional change coefficients,
    else an estimate.

    Raises: NoDataError where the wood has neither pair.
    """
    return wood.once(movement_basis, lambda: _movement_basis(wood))


def _movement_basis(wood: Wood) -> MovementBasis:
    radial, tangential = wood.value("shrinkage_radial"), wood.value("shrinkage_tangential")
    if radial and tangential:
        return _by_shrinkage(wood, MovementMethod.SHRINKAGE, radial, tangential)
    radial, tangential = (wood.value(f"change_per_pct_{d}") for d in ("radial", "tangential"))
    # One publication's definition is never mixed with another's.
    if radial and tangential and radial.source_id == tangential.source_id:
        return MovementBasis(MovementMethod.CHANGE_PER_PCT, radial, tangential)
    coefficients = [
        wood.value(f"dimensional_change_coefficient_{d}") for d in ("radial", "tangential")
    ]
    of_radial, of_tangential = (c and _shrinkage_of(c, wood) for c in coefficients)
    if of_radial and of_tangential:
        return MovementBasis(
            MovementMethod.COEFFICIENT, of_radial, of_tangential, wood.fiber_saturation
        )
    radial, tangential = wood.estimate("shrinkage_radial"), wood.estimate("shrinkage_tangential")
    if radial and tangential:
        return _by_shrinkage(wood, MovementMethod.ESTIMATED, radial, tangential)
    raise NoDataError(
        f"no table holds radial and tangential shrinkage of {wood.common_name}, so its movement "
        "cannot be computed; 'woodref find' shows the woods that have them"
    )
