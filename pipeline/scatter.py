"""Cells far from what all woods show: fits on specific gravity and between properties."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from pipeline.cells import Cell, Finding
from woodref.formulas.density import (
    basic_specific_gravity_from_general,
    specific_gravity_at,
    specific_gravity_at_general,
    specific_gravity_from_density,
    volumetric_shrinkage,
)
from woodref.reference.bases import UNCHECKED
from woodref.reference.properties import PROPERTIES

Array: TypeAlias = NDArray[np.float64]

#: Properties that follow specific gravity closely enough for the scatter rule.
_ON_GRAVITY = (
    "modulus_of_rupture",
    "modulus_of_elasticity",
    "compression_parallel",
    "shear_parallel",
    "side_hardness",
)
#: Pairs (y on x) that go together in one row of a table.
_PAIRS = (
    ("modulus_of_rupture", "compression_parallel"),
    ("shear_parallel", "compression_parallel"),
    ("side_hardness", "modulus_of_rupture"),
)
_MAX_SD = 3.0
_PAIR_SD = 4.0
#: A green and a dry value off to the same side by this much show the wood's nature, not a slip.
_SUPPORT_SD = 2.2
_MIN_WOODS = 20
_GRAVITY_STEP = 0.04
#: Conditions fitted together: an air-dry test is taken with those at 12 %.
_STATE = {"green": "green", "12pct": "dry", "air_dry": "dry"}


def gravity_pairs(cells: Sequence[Cell]) -> Iterator[tuple[Cell, Cell]]:
    """The basic and the 12 % specific gravity of one wood in one table."""
    pairs: dict[tuple[str, str, str], dict[str, Cell]] = defaultdict(dict)
    for c in cells:
        if c.property_id in ("basic_specific_gravity", "specific_gravity_12pct"):
            pairs[c.species_id, c.source_table, c.trade_name].setdefault(c.property_id, c)
    for found in pairs.values():
        if len(found) == 2:
            yield found["basic_specific_gravity"], found["specific_gravity_12pct"]


def robust_sd(residuals: Array) -> float:
    """Standard deviation from the median absolute deviation, blind to outliers."""
    return float(1.4826 * np.median(np.abs(residuals - np.median(residuals))))


@dataclass(frozen=True)
class Line:
    """A log-log line fitted without the cells far off it, and its standard deviation."""

    slope: float
    intercept: float
    sd: float

    def off(self, x: float, y: float) -> float:
        """How many standard deviations y stands off the line at x."""
        return float((np.log(y) - self.slope * np.log(x) - self.intercept) / self.sd)

    def expected(self, x: float) -> float:
        """The value on the line at x."""
        return float(np.exp(self.slope * np.log(x) + self.intercept))


def fit(points: Sequence[tuple[float, float]]) -> Line | None:
    """The log-log line through points (x, y), refitted without those far off; None for few."""
    if len(points) < _MIN_WOODS:
        return None
    x, y = (np.log(np.array(column, float)) for column in zip(*points, strict=True))
    keep = np.ones(len(x), bool)
    slope, intercept, sd = 1.0, 0.0, 1.0
    for _ in range(5):
        slope, intercept = (float(v) for v in np.polyfit(x[keep], y[keep], 1))
        residuals = y - (slope * x + intercept)
        sd = robust_sd(residuals[keep])
        keep = np.abs(residuals) <= _MAX_SD * sd
    return Line(slope, intercept, sd)


def _volumetric(cells: Sequence[Cell]) -> dict[str, float]:
    """Volumetric shrinkage of each wood: the median printed, else from the two directions."""
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    for c in cells:
        if c.property_id.startswith("shrinkage_"):
            found[c.species_id, c.property_id.removeprefix("shrinkage_")].append(c.value)
    out = {
        s: float(volumetric_shrinkage(median(v), median(found[s, "tangential"])))
        for (s, direction), v in found.items()
        if direction == "radial" and (s, "tangential") in found
    }
    out.update({s: median(v) for (s, d), v in found.items() if d == "volumetric"})
    return out


def gravity_against_shrinkage(cells: list[Cell]) -> Iterator[Finding]:
    """Specific gravity at 12 % far from green specific gravity and the wood's own shrinkage.

    For the woods of Table 5-3 without shrinkage the handbook's general relation serves.
    """
    shrinkage = _volumetric(cells)
    found = []
    for green, dry in gravity_pairs(cells):
        if green.species_id in shrinkage:
            expected = specific_gravity_at(green.value, 12.0, shrinkage[green.species_id])
        elif green.source_table.startswith("strength_us"):
            expected = specific_gravity_at_general(green.value, 12.0)
        else:
            continue
        found.append((dry, float(expected)))
    if len(found) < _MIN_WOODS:
        return
    sd = robust_sd(np.array([dry.value - expected for dry, expected in found]))
    for dry, expected in found:
        off = dry.value - expected
        if abs(off) > max(_MAX_SD * sd, _GRAVITY_STEP):
            yield (
                dry.measurement_id,
                (
                    f"specific gravity at 12 % {dry.printed_value} against {expected:.2f} from the "
                    f"green value and the volumetric shrinkage, {abs(off) / sd:.1f} standard "
                    "deviations off"
                ),
            )


#: A wood, and the country of a sample that is another than the tables of its home print.
Sample: TypeAlias = tuple[str, str]


def _sample(c: Cell) -> Sample:
    return c.species_id, c.grown_in


def wood_gravities(cells: Sequence[Cell]) -> dict[Sample, float]:
    """Basic specific gravity of each sample: the median printed, else from a density near 12 %."""
    basic: dict[Sample, list[float]] = defaultdict(list)
    other: dict[Sample, list[float]] = defaultdict(list)
    for c in cells:
        if c.property_id == "basic_specific_gravity":
            basic[_sample(c)].append(c.value)
        elif c.property_id in ("density_12pct", "density_air_dry"):
            at_12 = specific_gravity_from_density(c.value, 12.0)
            other[_sample(c)].append(float(basic_specific_gravity_from_general(at_12, 12.0)))
    out = {s: median(v) for s, v in other.items()}
    out.update({s: median(v) for s, v in basic.items()})
    return out


@dataclass(frozen=True)
class Scored:
    """A cell with how far it stands off the line of all woods of its kind."""

    cell: Cell
    off: float
    expected: float


def score_on_gravity(cells: list[Cell]) -> list[Scored]:
    """Every strength and hardness cell against the log-log fit on basic specific gravity.

    One fit per property, moisture state and kind (hardwood, softwood), of the samples a wood is
    known by: those of another country (grown_in) are measured by the line, not part of it.
    """
    gravity = wood_gravities(cells)
    rows: dict[tuple[str, str, str], list[Cell]] = defaultdict(list)
    for c in cells:
        if (
            c.property_id in _ON_GRAVITY
            and c.condition in _STATE
            and _sample(c) in gravity
            and c.wood_kind
        ):
            rows[c.property_id, _STATE[c.condition], c.wood_kind].append(c)
    out = []
    for found in rows.values():
        line = fit([(gravity[_sample(c)], c.value) for c in found if not c.grown_in])
        if line:
            out += [
                Scored(
                    c,
                    line.off(gravity[_sample(c)], c.value),
                    line.expected(gravity[_sample(c)]),
                )
                for c in found
            ]
    return out


def _supported(s: Scored, scored: Sequence[Scored]) -> bool:
    """True where the wood is off the same way in the other moisture state, not both recalled."""
    return any(
        o.cell.property_id == s.cell.property_id
        and _STATE[o.cell.condition] != _STATE[s.cell.condition]
        and (o.cell.basis != UNCHECKED or s.cell.basis != UNCHECKED)
        and o.off * s.off > 0
        and abs(o.off) > _SUPPORT_SD
        for o in scored
    )


def off_the_gravity_line(cells: list[Cell]) -> Iterator[Finding]:
    """Values more than 3 standard deviations off a log-log fit on specific gravity.

    Where most of a wood's values are off the same way, its specific gravity is the cell
    flagged, not they; where a value that was read in the other moisture state is off the
    same way, the wood is like that.
    """
    by_sample: dict[Sample, list[Scored]] = defaultdict(list)
    for s in score_on_gravity(cells):
        by_sample[_sample(s.cell)].append(s)
    for sample, scored in by_sample.items():
        low = sum(s.off < -_MAX_SD for s in scored)
        high = sum(s.off > _MAX_SD for s in scored)
        if len(scored) >= 6 and max(low, high) > 0.7 * len(scored):
            for c in cells:
                if _sample(c) == sample and c.property_id == "basic_specific_gravity":
                    yield (
                        c.measurement_id,
                        (
                            f"specific gravity {c.printed_value}: most strength values of this "
                            f"wood stand more than {_MAX_SD:g} standard deviations off the line "
                            "of all woods at that gravity"
                        ),
                    )
            continue
        for s in scored:
            if abs(s.off) > _MAX_SD and not _supported(s, scored):
                p = PROPERTIES[s.cell.property_id]
                yield (
                    s.cell.measurement_id,
                    (
                        f"{s.cell.printed_value} {s.cell.printed_unit} is {s.off:+.1f} standard "
                        f"deviations off the log-log fit of {p.label} on specific gravity "
                        f"({s.expected:.3g} {p.si_unit} expected)"
                    ),
                )


def _pairs(cells: list[Cell], y_name: str, x_name: str) -> list[tuple[float, Cell, Cell]]:
    """(standard deviations off, x, y) of every row that prints both properties."""
    rows: dict[tuple[str, int, str], dict[str, Cell]] = defaultdict(dict)
    for c in cells:
        single = c.value_low != c.value_low  # a printed range says little of its row
        if c.property_id in (x_name, y_name) and c.wood_kind and c.condition in _STATE and single:
            rows[c.source_table, c.source_line, c.condition].setdefault(c.property_id, c)
    kinds: dict[tuple[str, str], list[tuple[Cell, Cell]]] = defaultdict(list)
    for row in rows.values():
        if len(row) == 2:
            y = row[y_name]
            kinds[_STATE[y.condition], y.wood_kind].append((row[x_name], y))
    out = []
    for found in kinds.values():
        line = fit([(x.value, y.value) for x, y in found if not y.grown_in])
        if line:
            out += [(line.off(x.value, y.value), x, y) for x, y in found]
    return out


def off_another_property(cells: list[Cell]) -> Iterator[Finding]:
    """Two properties of one row that do not go together as they do in other woods.

    The one farther off the line on specific gravity is the cell flagged; a wood that is
    off the same way in both moisture states is like that.
    """
    gravity_off = {s.cell.measurement_id: abs(s.off) for s in score_on_gravity(cells)}
    for y_name, x_name in _PAIRS:
        pairs = _pairs(cells, y_name, x_name)
        by_sample: dict[Sample, list[tuple[float, str]]] = defaultdict(list)
        for off, _, y in pairs:
            by_sample[_sample(y)].append((off, _STATE[y.condition]))
        for off, x, y in pairs:
            if abs(off) <= _PAIR_SD or any(
                o * off > 0 and abs(o) > _SUPPORT_SD and state != _STATE[y.condition]
                for o, state in by_sample[_sample(y)]
            ):
                continue
            first = gravity_off.get(y.measurement_id, 0.0) >= gravity_off.get(x.measurement_id, 0.0)
            culprit, other = (y, x) if first else (x, y)
            yield (
                culprit.measurement_id,
                (
                    f"{PROPERTIES[culprit.property_id].label} {culprit.printed_value} does not go "
                    f"with {PROPERTIES[other.property_id].label} {other.printed_value} of the same "
                    f"row: {abs(off):.1f} standard deviations off the log-log fit of all woods"
                ),
            )
