"""What a screw, a nail or a lag screw holds in a wood, and how it is bored and placed for it.

Average loads of tests of clear wood, and a share of them for a load that stays; never a
structural value. Source: Wood Handbook FPL-GTR-282 (2021), chapter 8.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from woodref.board.weight import density_of
from woodref.display import Shown, ranged
from woodref.errors import UnitsError
from woodref.formulas.density import specific_gravity_from_density
from woodref.formulas.fastening import (
    annular_nail_withdrawal,
    lag_lateral,
    lag_withdrawal,
    long_time_load,
    nail_lateral,
    nail_withdrawal,
    screw_lateral,
    screw_pilot_hole,
    screw_withdrawal,
)
from woodref.joinery.fastener import Fastener, FastenerKind
from woodref.joinery.hardware import screw_gauge
from woodref.quantity import Range, exactly, times
from woodref.record import record
from woodref.reference.bases import OWN, weakest
from woodref.reference.fasteners import Fact, FastenerTables
from woodref.reference.woods import Value, Wood
from woodref.units import sizes_told

#: The deepest a fastener is driven [mm].
DEEPEST_MM = 304.8
#: The withdrawal of each kind, by specific gravity, shank and depth.
WITHDRAWAL: dict[FastenerKind, Callable[..., Any]] = {
    FastenerKind.SCREW: screw_withdrawal,
    FastenerKind.NAIL: nail_withdrawal,
    FastenerKind.RING_NAIL: annular_nail_withdrawal,
    FastenerKind.LAG: lag_withdrawal,
}
_END_GRAIN = {
    FastenerKind.SCREW: ("screw withdrawal", "in end grain, against side grain"),
    FastenerKind.NAIL: ("nail withdrawal", "in end grain, at once, against side grain"),
    FastenerKind.RING_NAIL: ("nail withdrawal", "in end grain, at once, against side grain"),
    FastenerKind.LAG: ("lag screw", "withdrawal in end grain against side grain"),
}
_SOFTWOOD = "softwood"
_NAILS = (FastenerKind.NAIL, FastenerKind.RING_NAIL)
#: Specific gravities below which a wood that print does not name is bored for a lag screw as the
#: lightest woods that it names, and as the next (our extension, by the classes of Table 8-4).
_LAG_LIGHT, _LAG_MIDDLING = 0.43, 0.57
#: Specific gravities between which a nail has to be less deep as the wood is denser (p. 8-6).
_NAIL_LIGHT, _NAIL_DENSE = 0.42, 0.61


@record
class Gravity:
    """Specific gravity of a wood, ovendry mass over volume at ``moisture_pct``.

    ``likely`` with the range of single boards; ``printed`` True where that very figure is.
    """

    moisture_pct: float
    likely: Range
    printed: bool
    values: tuple[Value, ...]

    @property
    def basis(self) -> str:
        """The weakest basis among the figures used."""
        return weakest(v.basis for v in self.values)


@record
class Sideways:
    """The load across a fastener in side grain: ``load_n`` from a depth of ``full_mm`` on.

    Of a lag screw ``load_n`` is that along the grain, with its ``factor`` for the thickness of the
    side member, ``across_n`` that across it, with ``across_factor``; print here says no depth.
    """

    load_n: float
    coefficient: float
    full_mm: float | None
    factor: float = 1.0
    across_n: float | None = None
    across_factor: float | None = None


@record
class Withdrawal:
    """The load that pulls a fastener straight out.

    ``average_n`` of tests, with the range of single boards; ``stays_n`` the share of it for a
    load that stays; ``end_grain`` the share of side grain that is in it, None in side grain.
    """

    average_n: Range
    stays_n: Range
    end_grain: Fact | None


@record(repr=False)
class Holding(Shown):
    """What a fastener holds in a wood, how it is bored for, and where it may stand [mm].

    ``pilot_mm`` the hole of the thread, a range where print gives one, and ``pilot`` where that
    comes from; ``pilot_extended`` True where print does not name the wood; ``shank_mm`` the hole
    of the shank, None for a nail. ``withdrawal`` and ``sideways`` are None where no depth is
    given or print holds nothing for the wood. ``end_mm`` and ``edge_mm`` are the least distances
    in the piece it goes through, None where that has no given thickness; ``beyond_tests`` True
    for a screw of a gauge that was not tested at its length; ``stays`` and ``distances`` say where
    the share for a load that stays and the distances are from.
    """

    wood: Wood
    fastener: Fastener
    gravity: Gravity
    into_mm: float | None
    pilot_mm: Range
    pilot: Fact
    pilot_extended: bool
    shank_mm: float | None
    withdrawal: Withdrawal | None
    sideways: Sideways | None
    end_mm: float | None
    edge_mm: float | None
    beyond_tests: bool
    stays: Fact
    distances: Fact

    def _line(self) -> str:
        held = f", pulls out at {ranged(self.withdrawal.average_n, 'N')}" if self.withdrawal else ""
        size = self.fastener.size or f"{self.fastener.diameter_mm:g} mm"
        return f"{size} {self.fastener.kind.value} in {self.wood.common_name}{held}"


def gravity_of(wood: Wood, moisture_pct: float) -> Gravity:
    """Specific gravity of a wood, ovendry mass over volume at a moisture content.

    The one printed at 12 %, where that is asked for and the shop has no density of its own; else
    from basic specific gravity and shrinkage.

    Raises: NoDataError for a wood of unknown density.
    """
    density = density_of(wood, moisture_pct)
    gravity = float(specific_gravity_from_density(density.density_kg_m3, moisture_pct))
    printed = wood.value("specific_gravity_12pct") if moisture_pct == 12.0 else None
    values = density.values
    if printed and (printed.basis == OWN or values[0].basis != OWN):
        gravity, values = printed.value, (printed,)
    else:
        printed = None
    spread = density.likely_kg_m3.scaled(1.0 / density.density_kg_m3)
    return Gravity(moisture_pct, spread.scaled(gravity), printed is not None, values)


def holding(
    wood: Wood,
    fastener: Fastener,
    tables: FastenerTables,
    into_mm: float | None = None,
    through_mm: float | None = None,
    end_grain: bool = False,
) -> Holding:
    """What a fastener holds in a wood, with its holes and distances.

    Parameters: wood that holds its point; fastener; tables; into_mm how deep the thread, or the
    nail, is in it [mm], by default what the length of a nail leaves; through_mm thickness of the
    piece it goes through first [mm]; end_grain True where it is driven along the grain.
    Returns: Holding, its range that of the specific gravity of single boards.
    Raises: InputError for a depth or a thickness that cannot be; NoDataError for a wood of
    unknown density.
    Source: FPL-GTR-282 (2021), Eq. 8-1, 8-2, 8-10, 8-13, 8-14, Table 8-4; distances p. 8-7, 8-12;
    lag screws sideways FPL-GTR-190 (2010), Eq. 8-15, Tables 8-10, 8-11.
    """
    depth = _depth(fastener, into_mm, through_mm)
    gravity = gravity_of(wood, 0.0 if fastener.kind is FastenerKind.RING_NAIL else 12.0)
    # Of a ring nail print has neither hole nor load across by specific gravity at 12 %.
    pilot, extended = _pilot(wood, fastener, tables, gravity.likely.expected)
    apart = fastener.kind is not FastenerKind.LAG and through_mm is not None
    edge, end = (tables.facts["nail spacing", f"{side} distance"] for side in ("edge", "end"))
    screws_apart = tables.facts["screw lateral load", "thickness of the side member"]
    stays = tables.facts["allowable load", "long-time loading, against the average maximum"]
    return Holding(
        wood,
        fastener,
        gravity,
        depth,
        _pilot_mm(fastener, pilot),
        pilot,
        extended,
        None if fastener.kind in _NAILS else fastener.diameter_mm,
        _withdrawal(fastener, gravity, tables, depth, end_grain) if depth else None,
        None
        if end_grain
        else _sideways(wood, fastener, tables, gravity.likely.expected, through_mm),
        end.middle * through_mm if apart and through_mm else None,
        edge.middle * through_mm if apart and through_mm else None,
        _beyond_tests(fastener, tables, depth, through_mm),
        stays,
        edge if fastener.kind in _NAILS else screws_apart,
    )


def _depth(fastener: Fastener, into_mm: float | None, through_mm: float | None) -> float | None:
    for name, size in (("depth", into_mm), ("thickness it goes through", through_mm)):
        if size is not None and not 0.0 < size <= DEEPEST_MM:
            raise UnitsError(sizes_told(f"the {name} is above 0 and at most {{}}", DEEPEST_MM))
    length = fastener.length_mm
    if length is None:
        return into_mm
    through = through_mm or 0.0
    left = length - through
    if left <= 0.0:
        text = "the nail is no longer than the piece it goes through, {}"
        raise UnitsError(sizes_told(text, through))
    if into_mm is None:
        return None if through_mm is None else left
    if into_mm > left + 1e-6:
        raise UnitsError(sizes_told("{} of that nail are left to hold, not {}", left, into_mm))
    return into_mm


def _withdrawal(
    fastener: Fastener, gravity: Gravity, tables: FastenerTables, depth: float, end_grain: bool
) -> Withdrawal:
    pulls = WITHDRAWAL[fastener.kind]
    average = Range(*(float(pulls(g, fastener.diameter_mm, depth)) for g in gravity.likely))
    share = tables.facts[_END_GRAIN[fastener.kind]] if end_grain else None
    if share:
        average = times(average, share.shares)
    return Withdrawal(average, Range(*(float(long_time_load(n)) for n in average)), share)


def _between(rows: tuple[tuple[float, float], ...], at: float) -> float | None:
    """A factor between two of a table, None outside it."""
    if not rows or at < rows[0][0] - 1e-6:
        return None
    for (low, first), (high, last) in pairwise(rows):
        if at <= high + 1e-6:
            return first + (last - first) * (at - low) / (high - low)
    return None


def _lag_sideways(
    fastener: Fastener, tables: FastenerTables, coefficient: float, through_mm: float | None
) -> Sideways | None:
    """The load across a lag screw; None without a side member of a thickness that print covers."""
    shank = fastener.diameter_mm
    if through_mm is None:
        return None
    most = tables.lag_thickness[-1][0]
    factor = _between(tables.lag_thickness, min(through_mm / shank, most))
    if factor is None:
        return None
    along = float(lag_lateral(coefficient, shank, factor))
    turned = _between(tables.lag_across, shank)
    if turned is None:
        return Sideways(along, coefficient, None, factor)
    across = float(lag_lateral(coefficient, shank, factor * turned))
    return Sideways(along, coefficient, None, factor, across, factor * turned)


def _sideways(
    wood: Wood,
    fastener: Fastener,
    tables: FastenerTables,
    gravity: float,
    through_mm: float | None,
) -> Sideways | None:
    """The load across a fastener; None for ring nails and outside the classes of print."""
    if fastener.kind is FastenerKind.RING_NAIL:
        return None
    of = next(
        (c for c in tables.lateral.get(wood.kind, ()) if c.low <= round(gravity, 2) <= c.high), None
    )
    if of is None:
        return None
    if fastener.kind is FastenerKind.LAG:
        return _lag_sideways(fastener, tables, of.lag, through_mm)
    shank = fastener.diameter_mm
    if fastener.kind is FastenerKind.SCREW:
        full = tables.facts["screw lateral load", "penetration of the thread for the full load"]
        return Sideways(float(screw_lateral(of.screw, shank)), of.screw, full.middle * shank)
    dense, light = (
        tables.facts["nail lateral load", f"penetration for the full load, specific gravity {w}"]
        for w in ("over 0.61", "under 0.42")
    )
    share = (min(max(gravity, _NAIL_LIGHT), _NAIL_DENSE) - _NAIL_LIGHT) / (
        _NAIL_DENSE - _NAIL_LIGHT
    )
    depths = light.middle + share * (dense.middle - light.middle)
    return Sideways(float(nail_lateral(of.nail, shank)), of.nail, depths * shank)


def _pilot(
    wood: Wood, fastener: Fastener, tables: FastenerTables, gravity: float
) -> tuple[Fact, bool]:
    """The printed share of a pilot hole, and True where print does not name the wood."""
    if fastener.kind is FastenerKind.SCREW:
        return screw_hole(tables, wood.kind == _SOFTWOOD), False
    if fastener.kind in _NAILS:
        return tables.facts["nail lead hole", "slightly better withdrawal"], False
    named = [h for h in tables.lag_holes if h.woods.issuperset(wood.species_ids)]
    if named:
        return named[0].share, False
    light, middling, dense = (h.share for h in tables.lag_holes)
    if gravity < _LAG_LIGHT:
        return light, True
    return (middling if gravity < _LAG_MIDDLING else dense), True


def screw_hole(tables: FastenerTables, softwood: bool) -> Fact:
    """The pilot hole of a screw over its root [%], in a softwood or in any other wood."""
    return tables.facts["screw lead hole", "softwoods" if softwood else "hardwoods"]


@record
class ScrewHoles:
    """The pilot hole of a screw in a hardwood and in a softwood [mm]."""

    hardwood_mm: float
    softwood_mm: float


def screw_holes(shank_mm: float, tables: FastenerTables) -> ScrewHoles:
    """The pilot holes of a screw of a shank [mm].

    Source: FPL-GTR-282 (2021), p. 8-10, 8-11.
    """
    shares = (screw_hole(tables, softwood).middle for softwood in (False, True))
    return ScrewHoles(*(float(screw_pilot_hole(shank_mm, share)) for share in shares))


def _pilot_mm(fastener: Fastener, share: Fact) -> Range:
    """The pilot hole [mm]: of a screw by its root, of others by the shank."""
    if fastener.kind is FastenerKind.SCREW:
        return exactly(float(screw_pilot_hole(fastener.diameter_mm, share.middle)))
    return share.shares.scaled(fastener.diameter_mm)


def _beyond_tests(
    fastener: Fastener, tables: FastenerTables, depth: float | None, through_mm: float | None
) -> bool:
    """True for a screw whose gauge is outside those that the equation covers at its length."""
    if fastener.kind is not FastenerKind.SCREW or depth is None or not tables.screw_lengths:
        return False
    length = depth + (through_mm or 0.0)
    gauge = screw_gauge(fastener.diameter_mm)
    nearest = min(tables.screw_lengths, key=lambda s: abs(s.length_mm - length))
    return not nearest.gauge_min - 0.5 <= gauge <= nearest.gauge_max + 0.5
