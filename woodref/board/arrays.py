"""Movement, density and weight of many boards at once, with the formulas of a single one."""

from __future__ import annotations

from collections.abc import Sequence
from math import nan
from typing import TYPE_CHECKING

import numpy as np

from woodref.arrays import (
    RangeArrays,
    refuse_first,
    within,
)
from woodref.board.array_results import DensityArrays, MovementArrays, WeightArrays
from woodref.board.given_arrays import (
    compact,
    full,
    given_arrays,
    inside_of,
    picked,
    refuse_uncounted,
)
from woodref.board.movement import CHANGE_PER_PCT_RANGE, CUTS, movement
from woodref.board.movement_basis import MovementBasis, movement_basis
from woodref.board.weight import density_of, weight_of, wood_shrinkage
from woodref.formulas.density import (
    density_at,
    greatest_density,
    specific_gravity_at,
    volumetric_shrinkage_general,
)
from woodref.formulas.engine import choose
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.movement import (
    cv_of_size_change,
    share_of_green_size_across,
    size_across,
)
from woodref.formulas.shrinkage import (
    FIBER_SATURATION_PCT,
    share_of_green_size,
    shrinkage_at_ring_angle,
    size_by_change_per_pct,
)
from woodref.formulas.spread import cv_of_boards, likely_range
from woodref.reference.woods import Value, Wood

if TYPE_CHECKING:
    import pandas
    from numpy.typing import NDArray

    from woodref.arrays import Floats, Numbers, Objects
    from woodref.board.given_arrays import Cuts, Find, Woods

#: Numbers of a MovementBasis.curve.
_CURVE = 5
#: The most a change of size takes: two moisture contents [%] and a ring angle [degree].
_MOST_OF_CHANGE = (FIBER_SATURATION_PCT, FIBER_SATURATION_PCT, CUTS["quarter"])
#: Sizes and quantities a board can have [mm, 1].
_MOST_MM = 100_000.0


def movements(
    find: Find,
    woods: Woods,
    sizes_mm: Numbers,
    from_moisture_pct: Numbers,
    to_moisture_pct: Numbers,
    cuts: Cuts = "flat",
    boards: Numbers = 1,
) -> MovementArrays:
    """Sizes after changes of moisture content, element by element.

    Parameters: find, called once for each distinct name; the others as movement, each one or
    many, of shapes that go together; cuts as ring_angle.
    Raises: as movement, with the position of the first element it refuses.
    """
    which, distinct, (size, start, end, angle, count), index = given_arrays(
        find,
        woods,
        size=sizes_mm,
        first_moisture_content=from_moisture_pct,
        second_moisture_content=to_moisture_pct,
        cut=cuts,
        boards=boards,
    )
    alone = [compact(a) for a in (size, start, end, angle)]
    good = inside_of(alone[0], 0.0, _MOST_MM)
    for values, most in zip(alone[1:], _MOST_OF_CHANGE, strict=True):
        good = good & within(values, 0.0, most)
    refuse_first(
        np.broadcast_to(good, size.shape),
        lambda at: movement(distinct[which[at]], size[at], start[at], end[at], angle[at]),
    )
    refuse_uncounted("a number of boards", count)
    bases = [movement_basis(wood) for wood in distinct]
    wood = compact(which)
    after = _sizes_after(bases, wood, *alone)
    cv = cv_of_boards(_cvs(bases, wood, alone[-1]), compact(count))
    moved = after - alone[0]
    first, second = (alone[0] + moved * factor for factor in likely_range(1.0, cv))
    ends = (np.minimum(first, second), np.maximum(first, second))
    return MovementArrays(
        index,
        picked(distinct, wood, which.shape),
        size,
        start,
        end,
        angle,
        RangeArrays(*(full(x, which.shape) for x in (after, *ends))),
        picked(bases, wood, which.shape),
        _movement_notes(distinct, wood, alone[1], alone[2], which.shape),
    )


def _sizes_after(
    bases: Sequence[MovementBasis],
    which: NDArray[np.intp],
    size: Floats,
    start: Floats,
    end: Floats,
    angle: Floats,
) -> Floats:
    """Sizes after a change of moisture content, as MovementBasis.size_after."""
    # Of one change for all boards, the shares of the green size are those of the woods alone.
    of_woods = start.size == end.size == angle.size == 1
    rows = np.arange(len(bases)) if of_woods else which
    air = [x.reshape(()) if of_woods else x for x in (start, end, angle)]
    by_shrinkage = np.array([b.by_shrinkage for b in bases])
    curves = np.array([b.curve for b in bases]).reshape(-1, _CURVE)
    tangential, radial, point, *coefficients = (curves[:, n][rows] for n in range(_CURVE))
    governed = [bool(np.isfinite(c).any()) for c in coefficients]
    governing = [c if known else nan for c, known in zip(coefficients, governed, strict=True)]
    curve = (tangential, radial, point, *governing)

    def of_boards(share: Floats) -> Floats:
        return share[which] if of_woods else share

    if by_shrinkage.all():
        # Where no coefficient governs, shrinkage is turned to the face once, for both moistures.
        across = None if any(governed) else shrinkage_at_ring_angle(tangential, radial, air[2])
        after, before = (
            of_boards(
                share_of_green_size_across(m, air[2], *curve)
                if across is None
                else share_of_green_size(m, across, point)
            )
            for m in (air[1], air[0])
        )
        return np.asarray(size * after / before)
    by_change = size_by_change_per_pct(
        size, start, end, of_boards(shrinkage_at_ring_angle(tangential, radial, air[2]))
    )
    on_curve = size_across(size, start, end, angle, *(x[which] for x in curves.T))
    return np.asarray(choose(by_shrinkage[which], on_curve, by_change))


def _cvs(bases: Sequence[MovementBasis], which: NDArray[np.intp], angle: Floats) -> Floats:
    """Coefficients of variation of the changes of size, as MovementBasis.cv."""
    of_woods = angle.size == 1
    rows = np.arange(len(bases)) if of_woods else which
    tangential, tangential_sd = _figures([b.tangential for b in bases], rows)
    radial, radial_sd = _figures([b.radial for b in bases], rows)
    of_point = np.array([b.fiber_saturation.cv if b.by_shrinkage else 0.0 for b in bases])[rows]
    at = angle.reshape(()) if of_woods else angle
    cvs = np.asarray(cv_of_size_change(tangential, radial, tangential_sd, radial_sd, at, of_point))
    return cvs[which] if of_woods else cvs


def densities(find: Find, woods: Woods, moisture_pct: Numbers) -> DensityArrays:
    """Densities of woods with their water, element by element.

    Parameters: find, called once for each distinct name; woods and moisture_pct as density_of,
    each one or many, of shapes that go together.
    Raises: as density_of, with the position of the first element it refuses.
    """
    which, distinct, (moisture,), index = given_arrays(find, woods, moisture_content=moisture_pct)
    return _densities(distinct, which, moisture, index)


def _densities(
    woods: Sequence[Wood], which: NDArray[np.intp], moisture: Floats, index: pandas.Index | None
) -> DensityArrays:
    # What does not hang on the moisture content is that of ovendry wood, which all woods reach.
    dry = [density_of(wood, 0.0) for wood in woods]
    basics = np.array([d.basic_specific_gravity for d in dry])
    totals = np.array(
        [
            volumetric_shrinkage_general(basic) if own.total_pct is None else own.total_pct
            for basic, own in zip(basics, map(wood_shrinkage, woods), strict=True)
        ]
    )
    wood, wet = compact(which), compact(moisture)
    most_pct = maximum_moisture_content(basics)
    good = within(wet, 0.0, most_pct[wood])
    refuse_first(
        np.broadcast_to(good, which.shape), lambda at: density_of(woods[which[at]], moisture[at])
    )
    points = np.array([wood.fiber_saturation.pct for wood in woods])
    of_woods = wet.size == 1
    rows, at_pct = (np.arange(len(woods)), wet.reshape(())) if of_woods else (wood, wet)
    gravity = specific_gravity_at(basics[rows], at_pct, totals[rows], points[rows])
    density = np.asarray(density_at(gravity, at_pct))
    density = density[wood] if of_woods else density
    cv = np.array([d.sd_kg_m3 / d.density_kg_m3 for d in dry])[wood]
    shape = which.shape
    return DensityArrays(
        index,
        picked(woods, wood, shape),
        moisture,
        full(density, shape),
        full(density * cv, shape),
        full(basics[wood], shape),
        picked([d.values for d in dry], wood, shape),
        picked([d.density_from for d in dry], wood, shape),
        picked([d.shrinkage_from for d in dry], wood, shape),
        _density_notes(woods, most_pct, wood, wet, shape),
    )


def weights(
    find: Find,
    woods: Woods,
    lengths_mm: Numbers,
    widths_mm: Numbers,
    thicknesses_mm: Numbers,
    moisture_pct: Numbers,
    quantities: Numbers = 1,
) -> WeightArrays:
    """Masses of boards, element by element.

    Parameters: find, called once for each distinct name; the others as weight_of, each one or
    many, of shapes that go together.
    Raises: as weight_of, with the position of the first element it refuses.
    """
    which, distinct, (length, width, thickness, moisture, quantity), index = given_arrays(
        find,
        woods,
        length=lengths_mm,
        width=widths_mm,
        thickness=thicknesses_mm,
        moisture_content=moisture_pct,
        quantity=quantities,
    )
    good = (
        inside_of(length, 0.0, _MOST_MM)
        & inside_of(width, 0.0, _MOST_MM)
        & inside_of(thickness, 0.0, _MOST_MM)
    )
    refuse_first(
        good,
        lambda at: weight_of(distinct[which[at]], length[at], width[at], thickness[at], 0.0),
    )
    refuse_uncounted("a quantity", quantity)
    density = _densities(distinct, which, moisture, index)
    shape, count = which.shape, compact(quantity)
    volume = compact(length) * compact(width) * compact(thickness) * 1e-9
    # Of one wood at one moisture content, every board has the density of the first.
    alike = compact(which).size == compact(moisture).size == 1
    kg_m3, sd_kg_m3 = (
        x.ravel()[:1].reshape((1,) * which.ndim) if alike else x
        for x in (density.density_kg_m3, density.sd_kg_m3)
    )
    mass, sd = kg_m3 * volume, sd_kg_m3 * volume
    heaviest = greatest_density(compact(moisture)) * volume
    total, total_sd = mass * count, cv_of_boards(sd, count) * count
    each = RangeArrays(mass, *likely_range(mass, sd, high=heaviest))
    all_of_them = RangeArrays(total, *likely_range(total, total_sd, high=heaviest * count))
    return WeightArrays(
        index,
        length,
        width,
        thickness,
        quantity,
        density,
        full(volume, shape),
        RangeArrays(*(full(x, shape) for x in each)),
        full(sd, shape),
        RangeArrays(*(full(x, shape) for x in all_of_them)),
        full(total_sd, shape),
    )


def _figures(values: Sequence[Value], which: NDArray[np.intp]) -> tuple[Floats, Floats]:
    """The figure of each element and its standard deviation."""
    return (
        np.array([v.value for v in values])[which],
        np.array([v.sd or 0.0 for v in values])[which],
    )


def _movement_notes(
    woods: Sequence[Wood],
    which: NDArray[np.intp],
    start: Floats,
    end: Floats,
    shape: tuple[int, ...],
) -> Objects:
    """The notes of each element: those of its wood, inside the range of a change per 1 % or not."""
    low, high = CHANGE_PER_PCT_RANGE
    outside, within_range = (
        [movement(wood, 1.0, pct, pct).notes for wood in woods] for pct in (0.0, low)
    )
    if outside == within_range:
        return picked(outside, which, shape)
    inside = within(start, low, high) & within(end, low, high)
    return picked(outside + within_range, which + len(woods) * inside, shape)


def _density_notes(
    woods: Sequence[Wood],
    most_pct: NDArray[np.float64],
    which: NDArray[np.intp],
    moisture: Floats,
    shape: tuple[int, ...],
) -> Objects:
    """The notes of each element: those of its wood, above fiber saturation or below."""
    dry = [density_of(wood, 0.0).notes for wood in woods]
    wet = [density_of(w, most).notes for w, most in zip(woods, most_pct, strict=True)]
    points = np.array([wood.fiber_saturation.pct for wood in woods])
    return picked(dry + wet, which + len(woods) * (moisture > points[which]), shape)
