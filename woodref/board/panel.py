"""How much a panel of staves changes in width between two moisture contents."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from woodref.board.movement import CUTS, Movement, SizeChange, movement, ring_angle
from woodref.display import Grid, number, ranged
from woodref.errors import InputError, UnitsError
from woodref.formulas.spread import sd_of_sum
from woodref.quantity import Range, check_glued
from woodref.record import record
from woodref.reference.woods import Wood
from woodref.units import MM_PER_INCH, sizes_told
from woodref.written import parse_length

#: Width of the staves of a panel, narrowest and widest [mm]: 3 and 6 in (common practice, no
#: source).
USUAL_STAVES_MM = (3.0 * MM_PER_INCH, 6.0 * MM_PER_INCH)


class Stave(NamedTuple):
    """A board of a panel: its width [mm] and its own ring angle [degree], 0 flat."""

    width_mm: float
    ring_angle_deg: float = 0.0


@record(repr=False)
class PanelMovement(SizeChange):
    """The change of the width of a panel, as the sum of its staves.

    ``thicknesses`` of the staves, empty where no thickness was given.
    """

    staves: tuple[Movement, ...]
    thicknesses: tuple[Movement, ...] = ()

    @property
    def step_mm(self) -> float:
        """The largest difference in thickness between neighboring staves after [mm]."""
        after = [m.after_mm for m in self.thicknesses]
        return max((abs(a - b) for a, b in pairwise(after)), default=0.0)

    def _line(self) -> str:
        after = ranged(self.likely_mm, "mm")
        return f"{len(self.staves)} staves, {number(self.size_mm)} mm, after {after}"

    def _grid(self) -> Grid:
        return Grid(
            ("ring angle [degree]", "before [mm]", "after [mm]", "low [mm]", "high [mm]"),
            ((m.ring_angle_deg, m.size_mm, *m.likely_mm) for m in self.staves),
        )


def parse_stave(text: str, unit: str) -> Stave:
    """A stave from '5in', '5in quarter' or '4-1/2in 30': its width, then its cut.

    Parameters: text; unit of a bare width.
    Raises: InputError for anything else.
    """
    words = text.split()
    last = words[-1].lower() if len(words) > 1 else ""
    named = last in CUTS or last.removesuffix("deg").replace(".", "", 1).isdigit()
    angle = ring_angle(last.removesuffix("deg")) if named else 0.0
    return Stave(parse_length(" ".join(words[:-1] if named else words), unit), angle)


def equal_staves(
    width_mm: float, narrowest_mm: float, widest_mm: float, ring_angle_deg: float = 0.0
) -> tuple[Stave, ...]:
    """The fewest equal staves of a panel that a shop glues.

    Parameters: width_mm of the panel [mm]; narrowest_mm, widest_mm stave [mm];
    ring_angle_deg of all of them.
    Raises: InputError where no number of equal staves lies between the two, or too many.
    """
    if not 0.0 < narrowest_mm <= widest_mm:
        raise InputError("the narrowest stave must be above 0 and not wider than the widest")
    count = max(1, ceil(width_mm / widest_mm - 1e-9))
    check_glued(count)
    if width_mm / count < narrowest_mm - 1e-6:
        raise UnitsError(
            sizes_told(
                f"no number of equal staves of {{}} to {{}} makes {{}}: {count} come to {{}} each",
                narrowest_mm,
                widest_mm,
                width_mm,
                width_mm / count,
            )
        )
    return (Stave(width_mm / count, ring_angle_deg),) * count


def panel_movement(
    wood: Wood,
    staves: Sequence[Stave],
    from_moisture_pct: float,
    to_moisture_pct: float,
    thicknesses_mm: Sequence[float] = (),
) -> PanelMovement:
    """Width of a panel after its moisture content changed: a panel is its staves.

    Parameters: wood; staves with their widths at ``from_moisture_pct``; from_moisture_pct,
    to_moisture_pct [%], 0 to 30; thicknesses_mm of the staves [mm], whose rings meet them at the
    complement of the angle, or none.
    Raises: InputError for a panel without staves; as movement.
    Source: as movement; staves of one wood correlate by 0.5 (our assumption).
    """
    if not staves:
        raise InputError("a panel needs a stave")
    span = (from_moisture_pct, to_moisture_pct)
    known = {s: movement(wood, s[0], *span, s[1]) for s in set(staves)}
    moved = tuple(known[s] for s in staves)
    thick = tuple(
        movement(wood, t, *span, 90.0 - s.ring_angle_deg)
        for s, t in zip(staves, thicknesses_mm, strict=bool(thicknesses_mm))
    )
    before = sum(m.size_mm for m in moved)
    after = sum(m.after_mm for m in moved)
    # Each end is so many standard deviations away; they join as those do.
    low = after - sd_of_sum([m.after_mm - m.likely_mm.low for m in moved])
    high = after + sd_of_sum([m.likely_mm.high - m.after_mm for m in moved])
    return PanelMovement(before, Range(after, low, high), moved, thick)


def panel_year(
    wood: Wood,
    staves: Sequence[Stave],
    build_pct: float,
    driest_pct: float,
    wettest_pct: float,
    thickness_mm: float | None = None,
) -> tuple[PanelMovement, PanelMovement, PanelMovement]:
    """A panel from the build to its driest, to its wettest, and from driest to wettest.

    Parameters: wood; staves as built; build_pct, driest_pct, wettest_pct moisture content [%];
    thickness_mm of the panel as built [mm].
    Raises: as panel_movement.
    """
    built = () if thickness_mm is None else (thickness_mm,) * len(staves)
    dry = panel_movement(wood, staves, build_pct, driest_pct, built)
    at_driest = [Stave(m.after_mm, m.ring_angle_deg) for m in dry.staves]
    thin = [m.after_mm for m in dry.thicknesses]
    return (
        dry,
        panel_movement(wood, staves, build_pct, wettest_pct, built),
        panel_movement(wood, at_driest, driest_pct, wettest_pct, thin),
    )
