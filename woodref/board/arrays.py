"""Movement, density and weight of many boards at once, with the formulas of a single one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias, TypeVar

import numpy as np

from woodref.arrays import (
    RangeArrays,
    common_index,
    is_array,
    numbers,
    one_shape,
    refuse_first,
    within,
)
from woodref.board.array_results import DensityArrays, MovementArrays, WeightArrays
from woodref.board.movement import (
    CHANGE_PER_PCT_RANGE,
    CUTS,
    MovementBasis,
    movement,
    movement_basis,
    ring_angle,
)
from woodref.board.weight import density_of, weight_of, wood_shrinkage
from woodref.errors import InputError
from woodref.formulas.density import (
    density_at,
    greatest_density,
    specific_gravity_at,
    volumetric_shrinkage_general,
)
from woodref.formulas.engine import choose
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.movement import cv_of_size_change, size_across
from woodref.formulas.shrinkage import (
    FIBER_SATURATION_PCT,
    shrinkage_at_ring_angle,
    size_by_change_per_pct,
)
from woodref.formulas.spread import cv_of_boards, likely_range
from woodref.reference.woods import Value, Wood

if TYPE_CHECKING:
    import pandas
    from numpy.typing import NDArray

    from woodref.arrays import Flags, Floats, Numbers, Objects

    #: Woods, or names of woods: one or many.
    Woods: TypeAlias = (
        Wood
        | str
        | Sequence[Wood | str]
        | Sequence[Wood]
        | Sequence[str]
        | NDArray[np.object_]
        | NDArray[np.str_]
        | pandas.Series[str]
    )
    #: Cuts by name or ring angle: one or many.
    Cuts: TypeAlias = str | Sequence[str] | NDArray[np.str_] | pandas.Series[str] | Numbers

#: What gives the wood of a name.
Find: TypeAlias = "Callable[[Wood | str], Wood]"
_Figure = TypeVar("_Figure")

#: Numbers of a MovementBasis.curve.
_CURVE = 5
#: Sizes and quantities a board can have [mm, 1].
_MOST_MM, _MOST_BOARDS = 100_000.0, 100_000.0


class _Given(NamedTuple):
    """What was handed over, in one shape: the woods are numbers of ``distinct`` ones."""

    which: NDArray[np.intp]
    distinct: list[Wood]
    floats: list[Floats]
    of_series: pandas.Index | None


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
    which, distinct, (size, start, end, angle, count), index = _given(
        find,
        woods,
        size=sizes_mm,
        first_moisture_content=from_moisture_pct,
        second_moisture_content=to_moisture_pct,
        cut=cuts,
        boards=boards,
    )
    good = (
        _inside(size, 0.0, _MOST_MM)
        & within(start, 0.0, FIBER_SATURATION_PCT)
        & within(end, 0.0, FIBER_SATURATION_PCT)
        & within(angle, 0.0, CUTS["quarter"])
    )
    refuse_first(
        good, lambda at: movement(distinct[which[at]], size[at], start[at], end[at], angle[at])
    )
    _counted("a number of boards", count)
    bases = [movement_basis(wood) for wood in distinct]
    after = _sizes_after(bases, which, size, start, end, angle)
    cv = cv_of_boards(_cvs(bases, which, angle), count)
    first, second = (size + (after - size) * factor for factor in likely_range(1.0, cv))
    likely = RangeArrays(after, np.minimum(first, second), np.maximum(first, second))
    return MovementArrays(
        index,
        _picked(distinct, which),
        size,
        start,
        end,
        angle,
        likely,
        _picked(bases, which),
        _movement_notes(distinct, which, start, end),
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
    by_shrinkage = np.array([b.by_shrinkage for b in bases])[which]
    curves = np.array([b.curve for b in bases]).reshape(-1, _CURVE)[which]
    tangential, radial, *rest = np.moveaxis(curves, -1, 0)
    on_curve = size_across(size, start, end, angle, tangential, radial, *rest)
    change = shrinkage_at_ring_angle(tangential, radial, angle)
    by_change = size_by_change_per_pct(size, start, end, change)
    return np.asarray(choose(by_shrinkage, on_curve, by_change))


def _cvs(bases: Sequence[MovementBasis], which: NDArray[np.intp], angle: Floats) -> Floats:
    """Coefficients of variation of the changes of size, as MovementBasis.cv."""
    tangential, tangential_sd = _figures([b.tangential for b in bases], which)
    radial, radial_sd = _figures([b.radial for b in bases], which)
    of_point = np.array([b.fiber_saturation.cv if b.by_shrinkage else 0.0 for b in bases])[which]
    cvs = cv_of_size_change(tangential, radial, tangential_sd, radial_sd, angle, of_point)
    return np.asarray(cvs)


def densities(find: Find, woods: Woods, moisture_pct: Numbers) -> DensityArrays:
    """Densities of woods with their water, element by element.

    Parameters: find, called once for each distinct name; woods and moisture_pct as density_of,
    each one or many, of shapes that go together.
    Raises: as density_of, with the position of the first element it refuses.
    """
    which, distinct, (moisture,), index = _given(find, woods, moisture_content=moisture_pct)
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
    basic, most_pct = basics[which], maximum_moisture_content(basics)
    good = within(moisture, 0.0, most_pct[which])
    refuse_first(good, lambda at: density_of(woods[which[at]], moisture[at]))
    points = np.array([wood.fiber_saturation.pct for wood in woods])
    gravity = specific_gravity_at(basic, moisture, totals[which], points[which])
    density = density_at(gravity, moisture)
    cv = np.array([d.sd_kg_m3 / d.density_kg_m3 for d in dry])[which]
    return DensityArrays(
        index,
        _picked(woods, which),
        moisture,
        density,
        density * cv,
        basic,
        _picked([d.values for d in dry], which),
        _picked([d.density_from for d in dry], which),
        _picked([d.shrinkage_from for d in dry], which),
        _density_notes(woods, most_pct, which, moisture),
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
    which, distinct, (length, width, thickness, moisture, quantity), index = _given(
        find,
        woods,
        length=lengths_mm,
        width=widths_mm,
        thickness=thicknesses_mm,
        moisture_content=moisture_pct,
        quantity=quantities,
    )
    good = (
        _inside(length, 0.0, _MOST_MM)
        & _inside(width, 0.0, _MOST_MM)
        & _inside(thickness, 0.0, _MOST_MM)
    )
    refuse_first(
        good,
        lambda at: weight_of(distinct[which[at]], length[at], width[at], thickness[at], 0.0),
    )
    _counted("a quantity", quantity)
    density = _densities(distinct, which, moisture, index)
    volume = length * width * thickness * 1e-9
    mass, sd = density.density_kg_m3 * volume, density.sd_kg_m3 * volume
    heaviest = greatest_density(moisture) * volume
    total, total_sd = mass * quantity, cv_of_boards(sd, quantity) * quantity
    return WeightArrays(
        index,
        length,
        width,
        thickness,
        quantity,
        density,
        volume,
        RangeArrays(mass, *likely_range(mass, sd, high=heaviest)),
        sd,
        RangeArrays(total, *likely_range(total, total_sd, high=heaviest * quantity)),
        total_sd,
    )


def _given(find: Find, woods: Woods, **given: Cuts) -> _Given:
    """What was handed over, in one shape: woods by number, each name looked up once."""
    if is_array(woods):
        which, distinct = _distinct(woods, find, (str, Wood))
    else:
        which, distinct = np.zeros((), dtype=np.intp), [find(woods)]  # type: ignore[arg-type]
    floats = [
        _angles(v) if n == "cut" else numbers(n.replace("_", " "), v) for n, v in given.items()
    ]
    codes, *shaped = one_shape(which.astype(np.float64), *floats, names=("wood", *given))
    index = common_index((woods, *given.values()))
    return _Given(codes.astype(np.intp), distinct, shaped, index)


def _angles(cuts: Cuts) -> Floats:
    """The ring angle of each cut [degree]."""
    if isinstance(cuts, str):
        return np.array(ring_angle(cuts))
    if is_array(cuts) and np.asarray(cuts).dtype.kind in "OUST":
        which, angles = _distinct(cuts, ring_angle, (str, int, float))
        return np.array(angles)[which]
    return numbers("cut", cuts)


def _distinct(
    values: object, of_one: Callable[[Any], _Figure], kinds: tuple[type, ...]
) -> tuple[NDArray[np.intp], list[_Figure]]:
    """For each value the number of its figure, and the figures of the distinct values."""
    import pandas

    array = np.asarray(values, dtype=object)
    which, distinct = pandas.factorize(array.ravel(), use_na_sentinel=False)
    for value in distinct:
        if not isinstance(value, kinds):
            raise InputError(f"a name is needed, not {value!r:.60}")
    return which.reshape(array.shape), [of_one(value) for value in distinct]


def _picked(objects: Sequence[object], which: NDArray[np.intp]) -> Objects:
    """The object of each element; tuples stay whole."""
    held = np.empty(len(objects), dtype=np.object_)
    for n, one in enumerate(objects):
        held[n] = one
    return held[which]


def _figures(values: Sequence[Value], which: NDArray[np.intp]) -> tuple[Floats, Floats]:
    """The figure of each element and its standard deviation."""
    return (
        np.array([v.value for v in values])[which],
        np.array([v.sd or 0.0 for v in values])[which],
    )


def _inside(values: Floats, low: float, high: float) -> Flags:
    return (values > low) & (values < high)


def _whole(counts: Floats) -> Flags:
    whole: Flags = counts == np.floor(counts)
    return within(counts, 1.0, _MOST_BOARDS) & whole


def _counted(name: str, counts: Floats) -> None:
    def refuse(at: tuple[int, ...]) -> None:
        raise InputError(f"{name} is a whole number from 1 to 100000, not {counts[at]:g}")

    refuse_first(_whole(counts), refuse)


def _movement_notes(
    woods: Sequence[Wood], which: NDArray[np.intp], start: Floats, end: Floats
) -> Objects:
    """The notes of each element: those of its wood, inside the range of a change per 1 % or not."""
    low, high = CHANGE_PER_PCT_RANGE
    inside = within(start, low, high) & within(end, low, high)
    notes = [movement(wood, 1.0, pct, pct).notes for pct in (0.0, low) for wood in woods]
    return _picked(notes, which + len(woods) * inside)


def _density_notes(
    woods: Sequence[Wood],
    most_pct: NDArray[np.float64],
    which: NDArray[np.intp],
    moisture: Floats,
) -> Objects:
    """The notes of each element: those of its wood, above fiber saturation or below."""
    dry = [density_of(wood, 0.0).notes for wood in woods]
    wet = [density_of(w, most).notes for w, most in zip(woods, most_pct, strict=True)]
    points = np.array([wood.fiber_saturation.pct for wood in woods])
    return _picked(dry + wet, which + len(woods) * (moisture > points[which]))
