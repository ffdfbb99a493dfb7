"""Shrinkage, movement, cross-sections and miters to 50 digits, written from print.

Equation numbers are those of Wood Handbook FPL-GTR-282 (2021), chapter 4, and FPL-GTR-190
(2010), chapter 13.
"""

from itertools import pairwise

from mpmath import acot, arg, atan, cos, cot, expj, fabs, isnan, mpc, mpf, pi, radians, sin, sqrt


def shrunk(total, moisture, saturation):
    """Eq. 4-9, Sx = S0 (1 - x / MCfs) [%]; none above fiber saturation."""
    return mpf(0) if moisture >= saturation else total * (saturation - moisture) / saturation


def share(moisture, total, saturation):
    return (100 - shrunk(total, moisture, saturation)) / 100


def size_at(size, before, after, total, saturation):
    """Eq. 4-9 twice: the size over the green one at both moisture contents."""
    return size * share(after, total, saturation) / share(before, total, saturation)


def coefficient(total, start, saturation):
    """Eq. 13-3 for a size and a change of 1: 1 / (100 MCfs / S - MCfs + MI)."""
    return mpf(0) if total == 0 else 1 / (100 * saturation / total - saturation + start)


def implied_saturation(total, printed):
    """Eq. 13-3 at 10 % as a line in MCfs: MCfs (100 / S - 1) = 1 / C - 10."""
    return (1 / printed - 10) / (100 / total - 1)


def shrinkage_of(printed, saturation):
    """Eq. 13-3 at 10 % as a line in 1 / S: 100 MCfs / S = 1 / C + MCfs - 10."""
    return 100 * saturation / (1 / printed + saturation - 10)


def off(printed, total, saturation):
    return fabs(coefficient(total, mpf(10), saturation) - printed) / printed


def share_by_coefficient(moisture, total, saturation, printed):
    """By shrinkage down to 14 %, by Table 13-5 about the size at 10 % to 6 %, then by shrinkage."""
    at_14 = share(mpf(14), total, saturation)
    if moisture >= 14:
        return share(moisture, total, saturation)
    at_10 = at_14 / (1 + 4 * printed)
    if moisture >= 6:
        return at_10 * (1 + printed * (moisture - 10))
    at_6 = at_10 * (1 - 4 * printed)
    return at_6 * share(moisture, total, saturation) / share(mpf(6), total, saturation)


def on_curve(moisture, total, saturation, printed):
    """The printed coefficient governs where it is more than a tenth away from the shrinkage."""
    if isnan(printed) or off(printed, total, saturation) <= mpf("0.10"):
        return share(moisture, total, saturation)
    return share_by_coefficient(moisture, total, saturation, printed)


def turned(along, across, angle):
    """The strain of a line at an angle to the rings: Mohr's circle, by the double angle."""
    return (along + across) / 2 + (along - across) / 2 * cos(2 * radians(angle))


def across(moisture, angle, tangential, radial, saturation, by_t, by_r):
    return turned(
        on_curve(moisture, tangential, saturation, by_t),
        on_curve(moisture, radial, saturation, by_r),
        angle,
    )


def size_across(size, before, after, angle, *wood):
    return size / across(before, angle, *wood) * across(after, angle, *wood)


def cv_of_size_change(t, r, t_sd, r_sd, angle, saturation_cv):
    """A normal variable over another, by the moments of the inverse to the fourth power of its CV.

    The mean of 1 / x is 1 + f2 + 3 f4 and that of 1 / x2 is 1 + 3 f2 + 15 f4; what is of a higher
    power than the fourth in all is left out.
    """
    a2, f2 = (turned(t_sd, r_sd, angle) / turned(t, r, angle)) ** 2, saturation_cv**2
    mean_squared = 1 + 2 * f2 + 7 * f2**2
    square = (1 + 3 * f2 + 15 * f2**2) + a2 * (1 + 3 * f2)
    return sqrt(square - mean_squared)


def angle_ratio(radial, tangential):
    return (1 - tangential) / (1 - radial)


def moved(z, radial, tangential, facing):
    """In polar coordinates: the distance times 1 - s_r, the angle from facing times the ratio."""
    w = z / facing
    return facing * fabs(w) * (1 - radial) * expj(arg(w) * angle_ratio(radial, tangential))


def moved_far(z, radial, tangential, facing):
    """Each part of the point on the direction and square to it, shrunk by its own share."""
    along = (z * facing.conjugate()).real
    square = (z * facing.conjugate() / mpc(0, 1)).real
    return facing * mpc(along * (1 - radial), square * (1 - tangential))


def length_ratio(z, direction, radial, tangential):
    """The stretch of a line at an angle b to the ray through the point, any text on elasticity."""
    b = arg(direction / z)
    return sqrt((1 - radial) ** 2 * cos(b) ** 2 + (1 - tangential) ** 2 * sin(b) ** 2)


def miter_slope(width, other, corner):
    """The angle x of the cut with sin x / sin (c - x) = width / other: cot x of the sine rule."""
    c = radians(corner)
    return 1 / ((other / width + cos(c)) / sin(c))


def miter_angle(shrinkage, slope):
    return 180 / pi * atan(slope - slope * shrinkage)


def miter_opening(shrinkage, slope, other_shrinkage, other_slope):
    """What each cut has turned since the miter was closed."""
    one = atan(slope) - atan(slope * (1 - shrinkage))
    other = atan(other_slope) - atan(other_slope * (1 - other_shrinkage))
    return 180 / pi * (one + other)


def corner_opening(shrinkage):
    """From the directions of the two cuts of a square corner, as complex numbers."""
    left, right = mpc(1, 1 - shrinkage), mpc(1 - shrinkage, 1)
    return 180 / pi * arg(right / left)


def cut_length(width, shrinkage, slope):
    """The hypotenuse over the length of the cut and over the width that is left."""
    return fabs(mpc(width * cot(acot(1 / slope)), width - width * shrinkage))


def opened_gap(cut, other, opening):
    return (cut + other) / 2 * 2 * sin(radians(opening) / 2)


def miter_gap(width, shrinkage):
    """The distance of the two inner ends from each other, by their coordinates; its sign."""
    left, right = mpc(width, width * (1 - shrinkage)), mpc(width * (1 - shrinkage), width)
    return fabs(left - right) * (1 if shrinkage >= 0 else -1)


def as_bends(ovendry, below, within, above, saturation):
    """The five numbers of a line through 0, 6, 14 % and saturation, level beyond.

    A line of slopes s0 to s3 with bends at b1 to b3 is c + s M + sum (s_i - s_(i-1)) / 2 |M - b_i|,
    s the mean of the first and the last slope.
    """
    slopes, bends = (below, within, above, mpf(0)), (mpf(6), mpf(14), saturation)
    halves = [(after - before) / 2 for before, after in pairwise(slopes)]
    level = ovendry - sum(half * bend for half, bend in zip(halves, bends, strict=True))
    return [level, (slopes[0] + slopes[-1]) / 2, *halves]


def size_lines(total, saturation, printed):
    places = (mpf(0), mpf(6), mpf(14), saturation)
    sizes = [on_curve(place, total, saturation, printed) for place in places]
    slopes = [
        (sizes[n + 1] - sizes[n]) / (places[n + 1] - places[n]) for n in range(len(places) - 1)
    ]
    return [sizes[0], *slopes]


def share_by_coefficients(moisture, level, slope, at_6, at_14, at_saturation, saturation):
    bends = ((at_6, 6), (at_14, 14), (at_saturation, saturation))
    return level + slope * moisture + sum(half * fabs(moisture - bend) for half, bend in bends)


EXACT = {
    "shrinkage.shrinkage_at_ring_angle": turned,
    "shrinkage.shrinkage_to": shrunk,
    "shrinkage.size_at": size_at,
    "shrinkage.size_by_change_per_pct": lambda size, before, after, c: (
        size + size * c * (after - before) / 100
    ),
    "shrinkage.dimensional_change_coefficient": coefficient,
    "shrinkage.implied_fiber_saturation": implied_saturation,
    "shrinkage.shrinkage_of_coefficient": shrinkage_of,
    "shrinkage.coefficient_off_shrinkage": off,
    "shrinkage.share_of_green_size": share,
    "shrinkage.share_of_green_size_by_coefficient": share_by_coefficient,
    "shrinkage.share_of_green_size_on_curve": on_curve,
    # Eq. 13-2: the change is D C (M2 - M1).
    "shrinkage.size_by_coefficient": lambda size, before, after, c: (
        size + size * c * (after - before)
    ),
    "movement.share_of_green_size_across": across,
    "movement.size_across": size_across,
    "movement.cv_of_size_change": cv_of_size_change,
    "cross_section.relative_shrinkage": lambda total, before, after, saturation: (
        (shrunk(total, after, saturation) - shrunk(total, before, saturation))
        / (100 - shrunk(total, before, saturation))
    ),
    "cross_section.angle_ratio": angle_ratio,
    "cross_section.gap_deg": lambda radial, tangential: 360 * (tangential - radial) / (1 - radial),
    "cross_section.moved": moved,
    "cross_section.moved_far": moved_far,
    "cross_section.length_ratio": length_ratio,
    "miter.miter_slope": miter_slope,
    "miter.miter_angle": miter_angle,
    "miter.miter_opening": miter_opening,
    "miter.corner_opening": corner_opening,
    "miter.cut_length": cut_length,
    "miter.opened_gap": opened_gap,
    "miter.miter_gap": miter_gap,
    "folded.size_lines": size_lines,
    "folded.lines_as_bends": as_bends,
    "folded.share_by_coefficients": share_by_coefficients,
    "folded.tangential_share": lambda angle: (1 + cos(2 * radians(angle))) / 2,
    "folded.across_by_share": lambda along, over, part: along * part + over * (1 - part),
}
