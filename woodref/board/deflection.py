"""How much a shelf, top or rail sags, now and in years: never a structural value."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from math import ceil, floor, inf

from woodref.board.beam_material import BeamMaterial
from woodref.board.sag_limits import LimitKind, SagLimit, limits_of
from woodref.board.span import Span, section_mm2
from woodref.display import Shown, ranged
from woodref.errors import InputError
from woodref.formulas.bending import (
    UNIFORM,
    deflection_point_cantilever,
    deflection_point_fixed,
    deflection_point_simple,
    deflection_uniform,
    second_moment,
    second_moment_round,
)
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.sag_rules import SagRules

GRAVITY_M_S2 = 9.80665
#: The thickest board that is tried, and the longest span [mm].
THICKEST_MM, LONGEST_MM = 500.0, 10_000.0


class SagVerdict(Enum):
    """The finest limit a span stays within, or that it leaves the one that decides."""

    STRAIGHT = "straight"
    TRADE = "trade"
    OWN = "own"
    SAGS = "sags"


@record
class LimitCheck:
    """A span against one limit: ``sag_mm`` what it allows, ``met`` True where the sag stays in it.

    ``needed_mm`` the thickness that does, of an average board, ``needed_high_mm`` of one at the
    low end of the likely range of its stiffness, infinite where none does; ``longest_mm`` how far
    the board as it is may reach, None where that cannot be said.
    """

    limit: SagLimit
    sag_mm: float
    met: bool
    needed_mm: float
    needed_high_mm: float
    longest_mm: float | None


@record(repr=False)
class Deflection(Shown):
    """The sag of a span.

    ``now_mm`` the first, elastic sag, with the likely range of a single board; ``creep_factors``
    sag after years over the first one, by each rule, none for a load that comes and goes;
    ``checks`` the limits it is held against, one's own first; ``rules`` those of print.
    """

    material: BeamMaterial
    span: Span
    own_weight_n: float
    now_mm: Range
    creep_factors: tuple[float, ...]
    checks: tuple[LimitCheck, ...]
    rules: SagRules

    @property
    def later_mm(self) -> tuple[Range, ...]:
        """The sag after years of the load, by each rule of creep."""
        return tuple(self.now_mm.scaled(factor) for factor in self.creep_factors)

    @property
    def own_creep(self) -> bool:
        """True where the creep is told by a factor that is not that of print."""
        printed = tuple(rule.factor for rule in self.rules.creep)
        return bool(self.creep_factors) and self.creep_factors != printed

    @property
    def deciding(self) -> LimitCheck:
        """The limit that decides: one's own, else that of the trade."""
        return self.checks[0]

    @property
    def verdict(self) -> SagVerdict | None:
        """How it stands to its limits; None for a board that carries nothing."""
        if not self.span.loaded:
            return None
        if not self.deciding.met:
            return SagVerdict.SAGS
        if self.deciding.limit.kind is LimitKind.OWN:
            return SagVerdict.OWN
        return SagVerdict.STRAIGHT if all(c.met for c in self.checks) else SagVerdict.TRADE

    @property
    def holds(self) -> bool:
        """True where it carries a load and stays within the limit that decides."""
        return self.verdict not in (None, SagVerdict.SAGS)

    @property
    def over_shelf_limit(self) -> bool:
        """True where the usual load comes to more than the trade allows on any one shelf."""
        return self.span.usual is not None and self.span.load_n > self.rules.most_n * (1.0 + 1e-9)

    def _line(self) -> str:
        later = "".join(f"; later {ranged(sag, 'mm')}" for sag in self.later_mm)
        return f"{self.material.name}, now {ranged(self.now_mm, 'mm')}{later}"


def _sag(
    span: Span,
    modulus_mpa: float,
    density_kg_m3: float,
    *,
    span_mm: float | None = None,
    thickness_mm: float | None = None,
) -> float:
    """Largest deflection under all loads [mm]; each load's largest is added, on the safe side.

    Parameters: span; modulus_mpa; density_kg_m3; span_mm and thickness_mm in place of its own, of
    a round one thickness_mm the diameter.
    """
    length = span.span_mm if span_mm is None else span_mm
    width, thickness = span.width_mm, span.thickness_mm
    if thickness_mm is not None:
        width, thickness = thickness_mm if span.is_round else width, thickness_mm
    inertia = second_moment_round(thickness) if span.is_round else second_moment(width, thickness)
    own = (
        length * section_mm2(width, thickness, span.is_round) * 1e-9 * density_kg_m3 * GRAVITY_M_S2
    )
    load = (own if span.own_weight else 0.0) + span.uniform_n_m * length / 1000.0
    sag = deflection_uniform(load, length, modulus_mpa, inertia, UNIFORM[span.support])
    if span.point_n:
        at = span.point_at_mm
        if span.support == "cantilever":
            distance = length if at is None else at
            sag += deflection_point_cantilever(span.point_n, length, distance, modulus_mpa, inertia)
        else:
            middle = length / 2.0 if at is None else at
            nearer = min(middle, length - middle)
            point = deflection_point_simple if span.support == "simple" else deflection_point_fixed
            sag += point(span.point_n, length, nearer, modulus_mpa, inertia)
    return float(sag)


def _own_weight(span: Span, density_kg_m3: float) -> float:
    """The weight of the board over its span [N], 0 where it is not to be counted."""
    if not span.own_weight:
        return 0.0
    volume = span.span_mm * span.section_mm2 * 1e-9
    return volume * density_kg_m3 * GRAVITY_M_S2


def _turning_point(within: Callable[[float], bool], low: float, high: float) -> float:
    """Where a condition that holds at ``low`` stops to hold on the way to ``high``, to 0.01."""
    while abs(high - low) > 0.01:
        middle = (low + high) / 2.0
        low, high = (middle, high) if within(middle) else (low, middle)
    return low


def _needed(span: Span, limit: SagLimit, modulus_mpa: float, density_kg_m3: float) -> float:
    """The least thickness whose sag stays within a limit [mm], rounded up; infinite for none."""

    def within(thickness_mm: float) -> bool:
        sag = _sag(span, modulus_mpa, density_kg_m3, thickness_mm=thickness_mm)
        return sag <= limit.sag_mm(span.span_mm)

    if not within(THICKEST_MM):
        return inf
    return ceil(_turning_point(within, THICKEST_MM, 0.5) * 10.0) / 10.0


def _longest(span: Span, limit: SagLimit, material: BeamMaterial) -> float | None:
    """The longest span whose sag stays within a limit [mm], rounded down.

    Infinite above LONGEST_MM; None where no span is that short, and where a load stands on a
    given spot, which another span does not keep.
    """
    if span.point_at_mm is not None:
        return None

    def within(span_mm: float) -> bool:
        modulus, density = material.modulus_mpa.expected, material.density_kg_m3
        sag = _sag(span, modulus, density, span_mm=span_mm)
        return sag <= limit.sag_mm(span_mm)

    shortest = 2.0 * span.thickness_mm
    if not within(shortest):
        return None
    if within(LONGEST_MM):
        return inf
    return floor(_turning_point(within, shortest, LONGEST_MM) * 10.0) / 10.0


def _check(span: Span, limit: SagLimit, material: BeamMaterial, now_mm: float) -> LimitCheck:
    modulus, density = material.modulus_mpa, material.density_kg_m3
    return LimitCheck(
        limit,
        limit.sag_mm(span.span_mm),
        now_mm <= limit.sag_mm(span.span_mm),
        _needed(span, limit, modulus.expected, density),
        _needed(span, limit, modulus.low, density),
        _longest(span, limit, material),
    )


def deflection(
    material: BeamMaterial,
    span: Span,
    rules: SagRules,
    creep_factor: float | None = None,
    own_limit: SagLimit | None = None,
) -> Deflection:
    """The sag of a board under its load, now and after years, against the limits of sag.

    The limits are held against the first, elastic sag, as those of print are; creep is told
    beside it.

    Parameters: material; span, with what it carries; rules of print; creep_factor of one's own,
    later over first sag, in place of the two printed ones; own_limit, the limit that decides in
    place of that of the trade.
    Returns: Deflection, with the likely range of a single board.
    Raises: InputError for what cannot be.
    Source: elementary beam theory; limits, creep and usual loads as the rules have them.
    """
    span.checked()
    if creep_factor is not None and not 1.0 <= creep_factor <= 10.0:
        raise InputError(f"a creep factor is 1 to 10, not {creep_factor:g}")
    if creep_factor is not None and span.short:
        raise InputError("a load that comes and goes has no creep; leave one of the two out")
    modulus, density = material.modulus_mpa, material.density_kg_m3
    now = Range(*(_sag(span, e, density) for e in (modulus.expected, modulus.high, modulus.low)))
    printed = tuple(rule.factor for rule in rules.creep)
    factors = printed if creep_factor is None else (creep_factor,)
    return Deflection(
        material,
        span,
        _own_weight(span, density),
        now,
        () if span.short else factors,
        tuple(_check(span, limit, material, now.expected) for limit in limits_of(rules, own_limit)),
        rules,
    )
