"""How much a solid shelf, top or rail sags, now and in years: never a structural value."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from woodref.board.weight import density_of
from woodref.display import Shown, ranged
from woodref.errors import InputError, NoDataError
from woodref.formulas.bending import (
    UNIFORM,
    deflection_point_cantilever,
    deflection_point_fixed,
    deflection_point_simple,
    deflection_uniform,
    second_moment,
)
from woodref.formulas.spread import Z90
from woodref.formulas.strength import (
    INTERSECTION_MOISTURE_PCT,
    modulus_along_grain,
    property_at,
)
from woodref.note import Note
from woodref.quantity import Range
from woodref.reference.bases import ESTIMATED
from woodref.reference.woods import Value, Wood
from woodref.units import MM_PER_INCH

GRAVITY_M_S2 = 9.80665
#: Deflection after years of load over the first one (handbook FPL-GTR-190, 5-39, inferred):
#: creep about equals the elastic deflection at usual loads and conditions.
CREEP_FACTOR = 2.0
#: Sag that the eye begins to see: 0.02 in per foot of span (common practice, no source).
VISIBLE_SHARE = 0.02 / 12.0
#: How ends may be held: resting on both, held fast at both, held at one.
SUPPORTS = ("simple", "fixed", "cantilever")
_LIMIT_MM = 10_000.0
#: The thickest board that is tried [mm].
THICKEST_MM = 500.0


@dataclass(frozen=True)
class Span:
    """A board as a beam: sizes and distances [mm], loads [N/m, N]."""

    span_mm: float
    width_mm: float
    thickness_mm: float
    support: str = "simple"
    uniform_n_m: float = 0.0
    point_n: float = 0.0
    point_at_mm: float | None = None
    own_weight: bool = True


@dataclass(frozen=True, repr=False)
class Deflection(Shown):
    """The sag of a span.

    ``now_mm`` and ``later_mm`` (after years) with the likely range of a single board;
    ``visible_mm`` the sag the eye begins to see; ``limit_mm`` what the later sag is to stay
    under; ``needed_mm`` the thickness that keeps it there, expected; ``needed_high_mm`` the same
    for a board at the low end of the likely range of its stiffness; ``shear_free`` True where
    the shear of the bending test was taken out of the modulus.
    """

    wood: Wood
    span: Span
    moisture_pct: float
    modulus_mpa: float
    shear_free: bool
    own_weight_n: float
    now_mm: Range
    later_mm: Range
    creep_factor: float
    visible_mm: float
    limit_mm: float
    needed_mm: float
    needed_high_mm: float
    values: tuple[Value, ...]
    notes: tuple[Note, ...]

    @property
    def modulus_as_printed(self) -> bool:
        """True where the modulus is the figure itself, neither moved nor freed of shear."""
        return self.modulus_mpa == self.values[0].value

    @property
    def holds(self) -> bool:
        """True where the later sag, expected, stays under the limit."""
        return self.later_mm.expected <= self.limit_mm

    @property
    def seen(self) -> bool:
        """True where the later sag, expected, is one the eye sees."""
        return self.later_mm.expected > self.visible_mm

    def _line(self) -> str:
        now = ranged(self.now_mm, "mm")
        later = ranged(self.later_mm, "mm")
        return f"{self.wood.common_name}, now {now}; later {later}"


def modulus_in_use(
    wood: Wood, moisture_pct: float, shear_free: bool = False
) -> tuple[float, tuple[Value, ...], tuple[Note, ...]]:
    """Modulus of elasticity at a moisture content [MPa], the figures used, what is assumed.

    Where no table holds it at 12 %, one printed at another moisture content of dry wood, or an
    estimate from specific gravity, and a note says so.

    Raises: NoDataError where nothing tells it.
    Source: FPL-GTR-282 (2021), Eq. 5-3, with the wood's intersection moisture content or 25.
    """
    printed, green = (wood.value("modulus_of_elasticity", c) for c in ("12pct", "green"))
    dry = printed or wood.estimate("modulus_of_elasticity")
    if dry is None:
        raise NoDataError(
            f"no table holds the modulus of elasticity of {wood.common_name} at 12 %, so its sag "
            "cannot be computed; 'woodref show' says what is known"
        )
    values, notes = [dry], []
    modulus = dry.value
    if printed is None:
        notes.append(_stands_in(dry))
    if printed is None or green is None or green.value >= dry.value:
        text = "the modulus is that at 12 %: no green one to move it to another moisture"
        notes.append(Note("modulus-not-moved", text))
    else:
        values.append(green)
        crossing = wood.value("intersection_moisture_content")
        if crossing:
            values.append(crossing)
        at = crossing.value if crossing else INTERSECTION_MOISTURE_PCT
        modulus = float(property_at(dry.value, green.value, moisture_pct, at))
    if shear_free:
        modulus = float(modulus_along_grain(modulus))
        text = (
            "1.10 times the tested modulus: the part that shear adds in the test is "
            "taken out, for spans much longer than 14 times the thickness"
        )
    else:
        text = "modulus as tested, the shear of a span of 14 times the thickness included"
    notes.append(Note("modulus-shear-free" if shear_free else "modulus-as-tested", text))
    return modulus, tuple(values), tuple(notes)


def _stands_in(value: Value) -> Note:
    """What to say of a modulus that no table prints at 12 %."""
    if value.basis == ESTIMATED:
        text = (
            "no table holds the modulus of this wood at 12 %: it is estimated from its specific "
            "gravity, and the likely range is that much wider"
        )
        return Note("modulus-estimated", text, ESTIMATED)
    text = f"no table holds the modulus of this wood at 12 %: another is used, {value.note}"
    return Note("modulus-at-another-moisture", text, value.basis)


def _both(size_mm: float) -> str:
    return f"{size_mm / MM_PER_INCH:g} in ({size_mm:g} mm)"


def _checked(span: Span) -> None:
    for name in ("span", "width", "thickness"):
        size = getattr(span, f"{name}_mm")
        if not 0.0 < size <= _LIMIT_MM:
            raise InputError(
                f"the {name} must be above 0 and at most 33 ft (10 m), not {_both(size)}"
            )
    if span.support not in SUPPORTS:
        raise InputError(f"'{span.support}' is no way to hold a board; use {', '.join(SUPPORTS)}")
    if span.uniform_n_m < 0.0 or span.point_n < 0.0:
        raise InputError("a load cannot be negative")
    if span.thickness_mm >= span.span_mm / 2.0:
        raise InputError(
            f"a board {_both(span.thickness_mm)} thick over {_both(span.span_mm)} is a block, not "
            "a beam; the span must be at least twice the thickness"
        )
    if span.point_at_mm is not None and not 0.0 <= span.point_at_mm <= span.span_mm:
        raise InputError(
            f"the point load stands at {_both(span.point_at_mm)}, outside the span of "
            f"{_both(span.span_mm)}"
        )


def _sag(span: Span, thickness_mm: float, modulus_mpa: float, density_kg_m3: float) -> float:
    """Largest deflection under all loads [mm]; each load's largest is added, on the safe side."""
    inertia = second_moment(span.width_mm, thickness_mm)
    own = 0.0
    if span.own_weight:
        volume = span.span_mm * span.width_mm * thickness_mm * 1e-9
        own = volume * density_kg_m3 * GRAVITY_M_S2
    load = own + span.uniform_n_m * span.span_mm / 1000.0
    sag = deflection_uniform(load, span.span_mm, modulus_mpa, inertia, UNIFORM[span.support])
    if span.point_n:
        at = span.point_at_mm
        if span.support == "cantilever":
            distance = span.span_mm if at is None else at
            sag += deflection_point_cantilever(
                span.point_n, span.span_mm, distance, modulus_mpa, inertia
            )
        else:
            middle = span.span_mm / 2.0 if at is None else at
            nearer = min(middle, span.span_mm - middle)
            point = deflection_point_simple if span.support == "simple" else deflection_point_fixed
            sag += point(span.point_n, span.span_mm, nearer, modulus_mpa, inertia)
    return float(sag)


def _thickness(sag_of: Callable[[float], float], limit_mm: float) -> float:
    """The least thickness whose sag stays under a limit, by bisection to 0.01 mm, rounded up."""
    low, high = 0.5, THICKEST_MM
    if sag_of(high) > limit_mm:
        return float("inf")
    while high - low > 0.01:
        middle = (low + high) / 2.0
        low, high = (middle, high) if sag_of(middle) > limit_mm else (low, middle)
    return ceil(high * 10.0) / 10.0


def deflection(
    wood: Wood,
    span: Span,
    moisture_pct: float = 8.0,
    creep_factor: float = CREEP_FACTOR,
    shear_free: bool = False,
    limit_mm: float | None = None,
) -> Deflection:
    """The sag of a board under its load, now and after years.

    Parameters: wood; span; moisture_pct in use [%], 0 to 30; creep_factor later over first
    deflection, about 2 at usual loads and conditions, more in warm or damp ones;
    shear_free takes the shear part of the bending test out of the modulus; limit_mm the sag
    to stay under after years [mm], by default the one the eye begins to see.
    Returns: Deflection, with the likely range from the coefficient of variation of the modulus.
    Raises: InputError for what cannot be; NoDataError without a modulus or a density.
    Source: elementary beam theory; creep: FPL-GTR-190 (2010), 5-39 (inferred); the visible
    sag: common practice, no source.
    """
    _checked(span)
    if not 0.0 <= moisture_pct <= 30.0:
        raise InputError(f"a moisture content in use is 0 to 30 %, not {moisture_pct:g}")
    if not 1.0 <= creep_factor <= 10.0:
        raise InputError(f"a creep factor is 1 to 10, not {creep_factor:g}")
    if limit_mm is not None and not 0.0 < limit_mm <= span.span_mm:
        raise InputError(f"a sag to stay under is above 0 and below the span, not {limit_mm:g} mm")
    modulus, values, notes = modulus_in_use(wood, moisture_pct, shear_free)
    density = density_of(wood, moisture_pct).density_kg_m3
    cv = (values[0].cv_pct or 0.0) / 100.0
    stiffest, least_stiff = modulus * (1.0 + Z90 * cv), modulus * max(0.2, 1.0 - Z90 * cv)
    now = Range(
        *(_sag(span, span.thickness_mm, e, density) for e in (modulus, stiffest, least_stiff))
    )
    visible = VISIBLE_SHARE * span.span_mm
    limit = visible if limit_mm is None else limit_mm
    needed, needed_high = (
        _thickness(lambda h, e=e: creep_factor * _sag(span, h, e, density), limit)  # type: ignore[misc]
        for e in (modulus, least_stiff)
    )
    own = span.span_mm * span.width_mm * span.thickness_mm * 1e-9 * density * GRAVITY_M_S2
    return Deflection(
        wood, span, moisture_pct, modulus, shear_free, own if span.own_weight else 0.0,
        now, now.scaled(creep_factor), creep_factor, visible, limit, needed, needed_high,
        values, notes,
    )  # fmt: skip
