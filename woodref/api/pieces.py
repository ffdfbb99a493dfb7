"""A whole piece: its load and its crate."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.api.shared import reference
from woodref.quantity import Range
from woodref.reference.shipping import Divisor, shipping_facts
from woodref.shipping import crate as packed
from woodref.shipping import load as laden
from woodref.shipping.crate import Crate, Packing
from woodref.shipping.load import Item, Load, WoodPart


def load(
    parts: Sequence[WoodPart],
    items: Sequence[Item] = (),
    build_pct: float = 8.0,
    settled_pct: float = 8.0,
) -> Load:
    """What a piece weighs shipped and settled, by part, in all and by lift, with ranges.

    Parameters
    ----------
    parts : sequence of WoodPart
        Each of a Wood and a Shape [mm].
    items : sequence of Item, optional
        What keeps its weight [kg].
    build_pct, settled_pct : float, optional
        Moisture contents when it is shipped and when it has settled [%].

    Returns
    -------
    Load
        Masses [kg].

    Raises
    ------
    InputError
        For an impossible size, quantity or moisture content.
    NoDataError
        As :func:`woodref.density`.
    """
    return laden.load(parts, items, build_pct, settled_pct)


def crate(
    size_mm: tuple[float, float, float],
    mass_kg: Range | float,
    packing: Packing,
    divisors: Sequence[Divisor] = (),
) -> Crate:
    """The crate or carton around a piece: size, gross weight, freight class, who can lift it.

    Parameters
    ----------
    size_mm : tuple of float
        Length, depth and height of the piece [mm].
    mass_kg : Range or float
        What it weighs [kg], such as ``load(...).shipped_kg``.
    packing : Packing
        Padding and what the packing weighs or is made of.
    divisors : sequence of Divisor, optional
        Of dimensional weight, by default the usual ones.

    Returns
    -------
    Crate
        Sizes [mm] and masses [kg].

    Raises
    ------
    InputError
        For an impossible size or mass.
    """
    weight_kg = mass_kg if isinstance(mass_kg, Range) else Range(mass_kg, mass_kg, mass_kg)
    return packed.crate(size_mm, weight_kg, packing, shipping_facts(reference()), divisors)
