"""Beams, fastenings and strength to 50 digits, written from print or from first principles."""

from mpmath import mpf, pi, quad, sin, sqrt


def second_moment(b, h):
    """The definition: the square of the distance from the middle over the section."""
    return quad(lambda y: b * y**2, [-h / 2, h / 2])


def second_moment_round(d):
    """The definition in polar coordinates."""
    return quad(lambda r: r**3, [0, d / 2]) * quad(lambda a: sin(a) ** 2, [0, pi, 2 * pi])


def disc_width(d):
    """Virtual work of a disc under a load in the middle, against that of a board as wide as w.

    The deflection is the integral of M m / (E I), half the load times x at x from the edge.
    """
    disc = quad(lambda x: 2 * (x / 2) ** 2 / (2 * sqrt(d * x - x**2)), [0, d / 2])
    return d**3 / 48 / disc


def deflection_uniform(load, span, modulus, inertia, coefficient):
    """k W L3 / (E I), any table of beams; the coefficients are worked out in the test."""
    return coefficient * load * span**3 / (modulus * inertia)


def _virtual_work(moment, at, breaks, stiffness):
    """The deflection at a place of a beam on two supports, as long as the last of the breaks."""
    span = breaks[-1]

    def unit(x):
        return x * (span - at) / span if x < at else at * (span - x) / span

    return quad(lambda x: moment(x) * unit(x), sorted([*breaks, at])) / stiffness


def deflection_point_simple(load, span, nearer, modulus, inertia):
    """Virtual work at the place of the most deflection, sqrt((L2 - b2) / 3) from the far end."""
    farther = span - nearer

    def moment(x):
        return load * nearer * x / span if x < farther else load * farther * (span - x) / span

    at = sqrt((span**2 - nearer**2) / 3)
    return _virtual_work(moment, at, [mpf(0), farther, span], modulus * inertia)


def deflection_point_fixed(load, span, nearer, modulus, inertia):
    """The moment integrated twice from the farther end, to where the slope is none."""
    farther = span - nearer
    end = load * farther * nearer**2 / span**2
    reaction = load * nearer**2 * (3 * farther + nearer) / span**3
    at = 2 * farther * span / (3 * farther + nearer)
    return quad(lambda s: (at - s) * (end - reaction * s), [0, at]) / (modulus * inertia)


def deflection_point_cantilever(load, span, distance, modulus, inertia):
    """Virtual work of a load at a distance on the tip."""
    return quad(lambda x: load * (distance - x) * (span - x), [0, distance]) / (modulus * inertia)


#: The constants of Wood Handbook FPL-GTR-282 (2021), chapter 8, as whole fractions.
EXACT = {
    "bending.second_moment": second_moment,
    "bending.second_moment_round": second_moment_round,
    "bending.disc_width": disc_width,
    "bending.deflection_uniform": deflection_uniform,
    "bending.deflection_point_simple": deflection_point_simple,
    "bending.deflection_point_fixed": deflection_point_fixed,
    "bending.deflection_point_cantilever": deflection_point_cantilever,
    # Eq. 8-1: p = 54.12 G^(5/2) D L.
    "fastening.nail_withdrawal": lambda g, d, depth: mpf(5412) / 100 * g**2 * sqrt(g) * d * depth,
    # Eq. 8-2: p = 77.57 G^2 D L.
    "fastening.annular_nail_withdrawal": lambda g, d, depth: mpf(7757) / 100 * g * g * d * depth,
    # Eq. 8-10: p = 108.25 G^2 D L.
    "fastening.screw_withdrawal": lambda g, d, depth: mpf(433) / 4 * g * g * d * depth,
    # Eq. 8-14: p = 125.4 G^(3/2) D^(3/4) L.
    "fastening.lag_withdrawal": lambda g, d, depth: (
        mpf(627) / 5 * g * sqrt(g) * sqrt(d) * sqrt(sqrt(d)) * depth
    ),
    # Eq. 8-2 of lateral loads: p = K D^(3/2).
    "fastening.nail_lateral": lambda k, d: k * d * sqrt(d),
    # Eq. 8-13 and, of FPL-GTR-190 (2010), 8-15: p = K D^2, the factors of Tables 8-10 and 8-11.
    "fastening.screw_lateral": lambda k, d: k * d * d,
    "fastening.lag_lateral": lambda k, d, factor: factor * d * d * k,
    # Pages 8-10 and 8-11: the root is two thirds of the shank, the hole a share of it.
    "fastening.screw_pilot_hole": lambda shank, share: shank * 2 / 3 * (share / 100),
    # Page 8-6: one sixth.
    "fastening.long_time_load": lambda load: load / 6,
    # Eq. 5-3: P = P12 (P12 / Pg) ^ ((12 - M) / (Mp - 12)), M no further than Mp.
    "strength.property_at": lambda dry, green, m, mp: (
        green if m >= mp else dry * (green / dry) ** ((m - 12) / (mp - 12))
    ),
    # Table 5-11: a G^b.
    "strength.property_from_gravity": lambda a, g, b: a * g**b,
    # Note to Table 5-1: the modulus along the grain is 10 % above that of the bending test.
    "strength.modulus_along_grain": lambda e: e * 11 / 10,
}
