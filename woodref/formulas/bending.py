"""Deflection of a solid board as a beam: small deflections, straight grain, one material.

A serviceability estimate, never a structural design value. Source: elementary beam theory,
any textbook of mechanics of materials.
"""

from __future__ import annotations

from math import pi

from woodref.formulas.declaration import formula
from woodref.formulas.engine import Q

#: Largest deflection = coefficient * load * span^3 / (E I) of a load spread over the span, and
#: of a point load in the middle (at the tip of a cantilever), by how the ends are held.
UNIFORM: dict[str, float] = {"simple": 5.0 / 384.0, "fixed": 1.0 / 384.0, "cantilever": 1.0 / 8.0}
_SQRT3 = 3.0**0.5
_THEORY = "elementary beam theory; never a structural value"


@formula("b h3 / 12", ("b", "h"), _THEORY)
def second_moment(width_mm: Q, thickness_mm: Q) -> Q:
    """Compute the second moment of area of a rectangle bent over its thickness.

    Parameters
    ----------
    width_mm, thickness_mm : Q
        Width b and thickness h [mm].

    Returns
    -------
    Q
        Second moment of area [mm4].
    """
    return width_mm * thickness_mm**3 / 12.0


@formula("3.14159265359 d^4 / 64", ("d",), "FPL-GTR-190 (2010)", "9-3")
def second_moment_round(diameter_mm: Q) -> Q:
    """Compute the second moment of area of a dowel or a turned rail.

    Parameters
    ----------
    diameter_mm : Q
        Diameter d [mm].

    Returns
    -------
    Q
        Second moment of area [mm4].

    Notes
    -----
    ``I = pi d^4 / 64`` [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 9-3, p. 9-2.
    """
    return pi * diameter_mm**4 / 64.0


@formula("D / 1.06858347058", ("D",), _THEORY)
def disc_width(diameter_mm: Q) -> Q:
    """Compute the width of a board that sags as a disc does which rests on two opposite edges.

    Parameters
    ----------
    diameter_mm : Q
        Diameter D [mm].

    Returns
    -------
    Q
        Width [mm], 0.936 D, of a board as long and thick as the disc.

    Notes
    -----
    A beam as wide at each place as the disc there, under a load in the middle; our derivation
    from elementary beam theory. Under a load spread over it a disc sags less than that board.
    """
    return diameter_mm / (9.0 * pi / 4.0 - 6.0)


@formula("k W L3 / (E I)", ("W", "L", "E", "I", "k"), _THEORY)
def deflection_uniform(
    load_n: Q, span_mm: Q, modulus_mpa: Q, second_moment_mm4: Q, coefficient: Q
) -> Q:
    """Compute the largest deflection under a load spread evenly over the span.

    Parameters
    ----------
    load_n : Q
        The whole load W [N].
    span_mm : Q
        Span L [mm].
    modulus_mpa : Q
        Modulus of elasticity E [MPa].
    second_moment_mm4 : Q
        Second moment of area I [mm4].
    coefficient : Q
        k of UNIFORM, by how the ends are held [1].

    Returns
    -------
    Q
        Deflection [mm].

    Notes
    -----
    Elementary beam theory: small deflections, straight grain, one material; never a structural
    value.
    """
    return coefficient * load_n * span_mm**3 / (modulus_mpa * second_moment_mm4)


@formula("P b (L2 - b2)^1.5 / (9 sqrt(3) L E I)", ("P", "L", "b", "E", "I"), _THEORY)
def deflection_point_simple(
    load_n: Q, span_mm: Q, nearer_mm: Q, modulus_mpa: Q, second_moment_mm4: Q
) -> Q:
    """Compute the largest deflection of a simply supported beam under a point load.

    Parameters
    ----------
    load_n : Q
        Load P [N].
    span_mm : Q
        Span L [mm].
    nearer_mm : Q
        Distance b to the nearer end [mm], 0 to L/2.
    modulus_mpa : Q
        Modulus of elasticity E [MPa].
    second_moment_mm4 : Q
        Second moment of area I [mm4].

    Returns
    -------
    Q
        Deflection [mm].

    Notes
    -----
    Elementary beam theory: small deflections, straight grain, one material; never a structural
    value.
    """
    reach = (span_mm**2 - nearer_mm**2) ** 1.5
    return load_n * nearer_mm * reach / (9.0 * _SQRT3 * span_mm * modulus_mpa * second_moment_mm4)


@formula(
    "2 P a3 b2 / (3 E I (3 a + b)2)",
    ("P", "L", "b", "E", "I"),
    _THEORY,
    a=lambda _load, span, nearer, _modulus, _inertia: span - nearer,
)
def deflection_point_fixed(
    load_n: Q, span_mm: Q, nearer_mm: Q, modulus_mpa: Q, second_moment_mm4: Q
) -> Q:
    """Compute the largest deflection of a beam held fast at both ends under a point load.

    Parameters
    ----------
    load_n : Q
        Load P [N].
    span_mm : Q
        Span L [mm].
    nearer_mm : Q
        Distance b to the nearer end [mm], 0 to L/2; a = L - b is that to the other.
    modulus_mpa : Q
        Modulus of elasticity E [MPa].
    second_moment_mm4 : Q
        Second moment of area I [mm4].

    Returns
    -------
    Q
        Deflection [mm].

    Notes
    -----
    Elementary beam theory: small deflections, straight grain, one material; never a structural
    value.
    """
    a = span_mm - nearer_mm
    return (
        2.0
        * load_n
        * a**3
        * nearer_mm**2
        / (3.0 * modulus_mpa * second_moment_mm4 * (3.0 * a + nearer_mm) ** 2)
    )


@formula("P a2 (3 L - a) / (6 E I)", ("P", "L", "a", "E", "I"), _THEORY)
def deflection_point_cantilever(
    load_n: Q, span_mm: Q, distance_mm: Q, modulus_mpa: Q, second_moment_mm4: Q
) -> Q:
    """Compute the deflection of the tip of a cantilever under a point load.

    Parameters
    ----------
    load_n : Q
        Load P [N].
    span_mm : Q
        Span L [mm].
    distance_mm : Q
        Distance a from the held end [mm], 0 to L.
    modulus_mpa : Q
        Modulus of elasticity E [MPa].
    second_moment_mm4 : Q
        Second moment of area I [mm4].

    Returns
    -------
    Q
        Deflection [mm].

    Notes
    -----
    Elementary beam theory: small deflections, straight grain, one material; never a structural
    value.
    """
    lever = distance_mm**2 * (3.0 * span_mm - distance_mm)
    return load_n * lever / (6.0 * modulus_mpa * second_moment_mm4)
