"""Mechanical properties moved from the tested moisture content to another.

For comparing woods; nothing here is a structural design value.

Source: Wood Handbook FPL-GTR-282 (2021), chapter 5.
"""

from __future__ import annotations

from woodref.formulas.declaration import HANDBOOK, formula
from woodref.formulas.engine import Q, smaller

#: Intersection moisture content used where the wood's own is not known [%] (Table 5-13).
INTERSECTION_MOISTURE_PCT = 25.0
#: Modulus along the grain over the bending modulus of Table 5-3.
SHEAR_FREE_RATIO = 1.10


@formula(
    "E12 (E12/Eg)^((12 - M)/(Mp - 12))",
    ("E12", "Eg", "M", "Mp"),
    HANDBOOK,
    "5-3",
    M=lambda _dry, _green, moisture, intersection: smaller(moisture, intersection),
)
def property_at(
    at_12_pct: Q,
    green: Q,
    moisture_pct: Q,
    intersection_pct: Q = INTERSECTION_MOISTURE_PCT,
) -> Q:
    """Compute hardness, stiffness or strength at a moisture content.

    Parameters
    ----------
    at_12_pct, green : Q
        The property at 12 % and green [any one unit], above 0.
    moisture_pct : Q
        Moisture content M [%].
    intersection_pct : Q, optional
        Intersection moisture content Mp [%], above 12.

    Returns
    -------
    Q
        The property in the unit given; the green one at and above Mp.

    Notes
    -----
    ``P = P12 (P12 / Pg) ^ ((12 - M) / (Mp - 12))`` for clear wood at about 21 degC [1]_, Mp of
    Table 5-13. Not for work to maximum load, impact bending or tension perpendicular to the grain,
    which do not follow it: the caller refuses those.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 5-3, p. 5-34.
    """
    moisture = smaller(moisture_pct, intersection_pct)
    return at_12_pct * (at_12_pct / green) ** ((12.0 - moisture) / (intersection_pct - 12.0))


@formula("a G^b", ("a", "G", "b"), "FPL-GTR-282 (2021), Table 5-11")
def property_from_gravity(coefficient: Q, specific_gravity: Q, exponent: Q) -> Q:
    """Compute the mean of a mechanical property that goes with a specific gravity.

    Parameters
    ----------
    coefficient : Q
        The property at specific gravity 1 [any one unit].
    specific_gravity : Q
        Specific gravity at the moisture condition of the function [1].
    exponent : Q
        Exponent of the function [1].

    Returns
    -------
    Q
        The property in the unit of ``coefficient``.

    Notes
    -----
    Averages over species, not for a single board [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Table 5-11, p. 5-29.
    """
    return coefficient * specific_gravity**exponent


def modulus_along_grain(bending_modulus: Q) -> Q:
    """Compute the modulus of elasticity along the grain from that of the bending test.

    Parameters
    ----------
    bending_modulus : Q
        Apparent modulus, of Table 5-3 [any unit of stress].

    Returns
    -------
    Q
        Modulus EL in the same unit.

    Notes
    -----
    Takes out the shear deflection that the printed bending modulus contains [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), note to Table 5-1, p.
       5-2.
    """
    return SHEAR_FREE_RATIO * bending_modulus
