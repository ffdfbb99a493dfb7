"""Density, board measure, spread and the helpers of engines to 50 digits, written from print.

Equation numbers are those of Wood Handbook FPL-GTR-282 (2021), chapter 4.
"""

from exact_sizes import shrunk
from mpmath import atan, cos, degrees, erfc, exp, fabs, floor, log, mpf, ncdf, quad, radians, sqrt


def gravity_at(basic, moisture, volumetric, saturation):
    """Eq. 4-11 with 4-9: Gx = Gb / (1 - Sx / 100)."""
    return 100 * basic / (100 - shrunk(volumetric, moisture, saturation))


def gravity_general(basic, moisture, saturation):
    """Eq. 4-13: Gx = Gb / (1 - 0.265 Gb (1 - x / MCfs))."""
    dried = max(mpf(0), 1 - moisture / saturation)
    return basic / (1 - mpf("0.265") * basic * dried)


def from_ovendry(density, moisture, volumetric, saturation):
    """Eq. 4-15: rho_x = rho_0 (1 + x / 100) (100 - S0) / (100 - Sx)."""
    swollen = (100 - volumetric) / (100 - shrunk(volumetric, moisture, saturation))
    return density * (1 + moisture / 100) * swollen


def greatest(moisture):
    """A cell wall of 1.54 and its water side by side, without a void."""
    wall, water = 1 / mpf("1.54"), moisture / 100
    return 1000 * (1 + water) / (wall + water)


def folded(basic, volumetric, saturation):
    """The volume of 1 kg of ovendry wood, halfway to green, and half of what 1 % adds to it."""
    green = 1 / (1000 * basic)
    ovendry = green * (1 - volumetric / 100)
    return [(green + ovendry) / 2, (green - ovendry) / saturation / 2]


def by_folded(moisture, middle, half, saturation):
    """The mass of 1 kg of ovendry wood with its water, over the volume that stops at saturation."""
    ovendry = middle - half * saturation
    return (1 + moisture / 100) / (ovendry + 2 * half * min(moisture, saturation))


def surface_measure(width, length):
    """The product over 12 to the nearest whole foot, halves up; whole feet of length (NHLA)."""
    slack = mpf("1e-9")
    return floor(width * floor(length + slack) / 12 + mpf("0.5") + slack)


def greater(mean_a, sd_a, mean_b, sd_b):
    """The tail of the normal distribution of the difference."""
    sd = sqrt(sd_a**2 + sd_b**2)
    return erfc((mean_b - mean_a) / (sd * sqrt(2))) / 2


def sd_of_sum(sds, correlation):
    """The sum over the whole matrix of covariances."""
    return sqrt(
        sum(
            a * b * (1 if i == j else correlation)
            for i, a in enumerate(sds)
            for j, b in enumerate(sds)
        )
    )


#: A deviate with 5 % of the normal distribution beyond it, as a float has it.
Z90 = mpf(1.6448536269514722)
assert fabs(ncdf(Z90) - mpf("0.95")) < mpf("1e-16")

EXACT = {
    # A box that loses both shares of its sides.
    "density.volumetric_shrinkage": lambda r, t: r + t - r * t / 100,
    # Eq. 4-12: S0 = 26.5 Gb.
    "density.volumetric_shrinkage_general": lambda basic: mpf(53) / 2 * basic,
    # Eq. 4-16: S0 = 26.5 rho_0 / (rho_w + 0.265 rho_0).
    "density.volumetric_shrinkage_from_ovendry_density": lambda rho: (
        mpf(53) / 2 * rho / (1000 + mpf(53) / 200 * rho)
    ),
    "density.specific_gravity_at": gravity_at,
    "density.specific_gravity_at_general": gravity_general,
    # Eq. 4-9 and 4-11 solved for S0.
    "density.volumetric_shrinkage_implied": lambda basic, gravity, m, saturation: (
        100 * (gravity - basic) / gravity * saturation / (saturation - m)
    ),
    # Eq. 4-10: Gx'' = Gx' (100 - Sx') / (100 - Sx'').
    "density.specific_gravity_from_another": lambda g, one, other: g * (100 - one) / (100 - other),
    "density.basic_specific_gravity_from": lambda g, m, volumetric, saturation: (
        g - g * shrunk(volumetric, m, saturation) / 100
    ),
    # Eq. 4-13 as a line in 1 / Gb: 1 / Gx = 1 / Gb - 0.265 (1 - x / MCfs).
    "density.basic_specific_gravity_from_general": lambda g, m, saturation: (
        1 / (1 / g + mpf("0.265") * max(mpf(0), 1 - m / saturation))
    ),
    # Eq. 4-14: rho_x = rho_w Gx (1 + x / 100).
    "density.density_at": lambda g, m: 1000 * g * (100 + m) / 100,
    "density.mass_of": lambda volume, density: density * volume,
    "density.specific_gravity_from_density": lambda rho, m: rho / (1000 + 10 * m),
    "density.density_from_ovendry": from_ovendry,
    "density.greatest_density": greatest,
    "folded.density_coefficients": folded,
    "folded.density_by_coefficients": by_folded,
    # 144 cubic inches a board foot; under 1 in. counts as 1 in. (NHLA).
    "lumber.board_feet": lambda t, w, length: max(t, mpf(1)) * w * (12 * length) / 144,
    "lumber.surface_measure": surface_measure,
    "lumber.board_feet_of_surface": lambda measure, t: measure * max(t, mpf(1)),
    "lumber.board_feet_of_volume": lambda volume: volume / (144 * mpf("0.0254") ** 3),
    "lumber.volume_of_board_feet": lambda feet: feet * 144 * mpf("0.0254") ** 3,
    "spread.likely_range": lambda mean, sd, low, high: [
        min(high, max(low, mean - Z90 * sd)),
        min(high, max(low, mean + Z90 * sd)),
    ],
    # The uniform distribution: the mean square of the distance from the middle.
    "spread.sd_of_range": lambda low, high: sqrt(
        quad(lambda x: (x - (low + high) / 2) ** 2, [low, high]) / (high - low)
    ),
    "spread.sd_of_sum": sd_of_sum,
    "spread.sd_of_woods": lambda boards, correlation: sqrt(
        sum(sd_of_sum(sds, correlation) ** 2 for sds in boards.values())
    ),
    "spread.high_end": lambda mean, cv, deviate: mean + mean * deviate * cv,
    "spread.cv_of_boards": lambda cv, n, r: sqrt(n * cv**2 + n * (n - 1) * r * cv**2) / n,
    "spread.chance_greater": greater,
    "engine.exp": exp,
    "engine.log": log,
    "engine.cos_degrees": lambda x: cos(radians(x)),
    "engine.atan_degrees": lambda x: degrees(atan(x)),
    "engine.floor": floor,
    "engine.absolute": fabs,
    "engine.smaller": min,
    "engine.larger": max,
}
