"""What a beam is made of: stiffness in use and density of a wood."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.board.weight import density_of
from woodref.errors import InputError, NoDataError
from woodref.formulas.spread import Z90
from woodref.formulas.strength import (
    INTERSECTION_MOISTURE_PCT,
    modulus_along_grain,
    property_at,
)
from woodref.note import Note
from woodref.quantity import Range
from woodref.reference.bases import ESTIMATED
from woodref.reference.woods import Value, Wood

#: A limber board keeps at least this share of the mean modulus, however wide the spread is.
_LEAST_SHARE = 0.2


@dataclass(frozen=True)
class BeamMaterial:
    """A wood as a beam takes it.

    ``modulus_mpa`` the modulus of elasticity in use, with the likely range of a single board;
    ``shear_free`` True where the shear of the bending test was taken out of it.
    """

    name: str
    modulus_mpa: Range
    density_kg_m3: float
    moisture_pct: float
    shear_free: bool
    values: tuple[Value, ...]
    notes: tuple[Note, ...]

    @property
    def modulus_as_printed(self) -> bool:
        """True where the modulus is the figure itself, neither moved nor freed of shear."""
        return bool(self.values) and self.modulus_mpa.expected == self.values[0].value


def of_wood(wood: Wood, moisture_pct: float, shear_free: bool = False) -> BeamMaterial:
    """A wood at a moisture content, as a beam takes it.

    Parameters: wood; moisture_pct in use [%], 0 to 30; shear_free takes the shear part of the
    bending test out of the modulus.
    Raises: InputError for another moisture content; NoDataError without a modulus or a density.
    """
    if not 0.0 <= moisture_pct <= 30.0:
        raise InputError(f"a moisture content in use is 0 to 30 %, not {moisture_pct:g}")
    modulus, values, notes = modulus_in_use(wood, moisture_pct, shear_free)
    cv = (values[0].cv_pct or 0.0) / 100.0
    ends = modulus * max(_LEAST_SHARE, 1.0 - Z90 * cv), modulus * (1.0 + Z90 * cv)
    return BeamMaterial(
        wood.common_name,
        Range(modulus, *ends),
        density_of(wood, moisture_pct).density_kg_m3,
        moisture_pct,
        shear_free,
        values,
        notes,
    )


def modulus_in_use(
    wood: Wood, moisture_pct: float, shear_free: bool = False
) -> tuple[float, tuple[Value, ...], tuple[Note, ...]]:
    """Modulus of elasticity at a moisture content [MPa], the figures used, what is assumed.

    Where no table holds it at 12 %, one printed at another moisture content of dry wood, or an
    estimate from specific gravity, and a note says so.

    Raises: NoDataError where nothing tells it.
    Source: FPL-GTR-282 (2021), Eq. 5-3, with the wood's intersection moisture content or 25.
    """
    printed, green = (wood.value("modulus_of_elasticity", c) for c in ("12pct", "green"))
    dry = printed or wood.estimate("modulus_of_elasticity")
    if dry is None:
        raise NoDataError(
            f"no table holds the modulus of elasticity of {wood.common_name} at 12 %, so its sag "
            "cannot be computed; 'woodref show' says what is known"
        )
    values, notes = [dry], []
    modulus = dry.value
    if printed is None:
        notes.append(_stands_in(dry))
    if printed is None or green is None or green.value >= dry.value:
        text = "the modulus is that at 12 %: no green one to move it to another moisture"
        notes.append(Note("modulus-not-moved", text))
    else:
        values.append(green)
        crossing = wood.value("intersection_moisture_content")
        if crossing:
            values.append(crossing)
        at = crossing.value if crossing else INTERSECTION_MOISTURE_PCT
        modulus = float(property_at(dry.value, green.value, moisture_pct, at))
    if shear_free:
        modulus = float(modulus_along_grain(modulus))
        text = (
            "1.10 times the tested modulus: the part that shear adds in the test is "
            "taken out, for spans much longer than 14 times the thickness"
        )
    else:
        text = "modulus as tested, the shear of a span of 14 times the thickness included"
    notes.append(Note("modulus-shear-free" if shear_free else "modulus-as-tested", text))
    return modulus, tuple(values), tuple(notes)


def _stands_in(value: Value) -> Note:
    """What to say of a modulus that no table prints at 12 %."""
    if value.basis == ESTIMATED:
        text = (
            "no table holds the modulus of this wood at 12 %: it is estimated from its specific "
            "gravity, and the likely range is that much wider"
        )
        return Note("modulus-estimated", text, ESTIMATED)
    text = f"no table holds the modulus of this wood at 12 %: another is used, {value.note}"
    return Note("modulus-at-another-moisture", text, value.basis)
