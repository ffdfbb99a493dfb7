"""What a beam is made of: stiffness in use and density of a wood or a panel."""

from __future__ import annotations

from enum import Enum

from woodref.board.weight import density_of
from woodref.errors import InputError, NoDataError
from woodref.formulas.spread import Z90
from woodref.formulas.strength import (
    INTERSECTION_MOISTURE_PCT,
    modulus_along_grain,
    property_at,
)
from woodref.note import Note
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.bases import ESTIMATED, UNCHECKED
from woodref.reference.panel_names import PANELS, PLYWOOD
from woodref.reference.panels import PanelFigures
from woodref.reference.woods import Value, Wood

#: A limber board keeps at least this share of the mean modulus, however wide the spread is.
_LEAST_SHARE = 0.2


_PANEL_CREEP = Note(
    "panel-creep",
    "the rules of creep are those of solid wood: plywood creeps somewhat more, particleboard and "
    "fiberboard far more (unchecked)",
    UNCHECKED,
)


class Spread(Enum):
    """What the range of a modulus of elasticity is that of."""

    BOARDS = "single boards"
    PRODUCTS = "products"
    NONE = "none"


@record
class BeamMaterial:
    """A wood or a panel as a beam takes it.

    ``modulus_mpa`` the modulus of elasticity in use, with its range, and ``spread`` what that is;
    ``moisture_pct`` in use and ``wood``, None for a panel; ``shear_free`` True where the shear of
    the bending test was taken out of the modulus.
    """

    name: str
    modulus_mpa: Range
    density_kg_m3: float
    moisture_pct: float | None = None
    shear_free: bool = False
    values: tuple[Value, ...] = ()
    notes: tuple[Note, ...] = ()
    spread: Spread = Spread.NONE
    wood: Wood | None = None

    @property
    def is_panel(self) -> bool:
        """True for a panel, whose figures hold for no moisture content of their own."""
        return self.moisture_pct is None

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
        Spread.BOARDS,
        wood,
    )


def of_panel(
    name: str,
    figures: PanelFigures | None = None,
    modulus_mpa: float | None = None,
    density_kg_m3: float | None = None,
) -> BeamMaterial:
    """A panel as a beam takes it: by figures of one's own, else as print has its like.

    Parameters: name; figures of print, None where there are none; modulus_mpa and density_kg_m3 of
    one's own, in their place.
    Raises: InputError without a modulus or a density.
    """
    density = figures.density.expected if figures else None
    if density_kg_m3 is not None:
        density = density_kg_m3
    if density is None or (figures is None and modulus_mpa is None):
        raise InputError(
            f"nothing says how stiff and heavy {name} is: name a panel ({', '.join(PANELS)}), or "
            "give its modulus and density"
        )
    if modulus_mpa is not None:
        return BeamMaterial(name, exactly(modulus_mpa), density, notes=(_PANEL_CREEP,))
    assert figures
    return BeamMaterial(
        name,
        figures.modulus_mpa,
        density,
        values=(figures.modulus,),
        notes=(_panel_modulus(figures), _PANEL_CREEP),
        spread=Spread.PRODUCTS,
    )


def _panel_modulus(figures: PanelFigures) -> Note:
    text = (
        f"the modulus of {figures.name} is that of a range of products, {figures.modulus.source}, "
        "and yours may differ"
    )
    if figures.name == PLYWOOD:
        text += "; it is along the grain of the faces, and across it plywood is limper"
    return Note("panel-modulus", text, figures.modulus.basis)


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
