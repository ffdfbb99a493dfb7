"""A board as a beam: its sizes, how it is held, and what it carries."""

from __future__ import annotations

from math import pi

from woodref.errors import InputError, UnitsError
from woodref.files import did_you_mean
from woodref.record import record, replace
from woodref.reference.sag_rules import Carried, SagRules, UsualLoad
from woodref.units import either_unit, sizes_told

#: How ends may be held: resting on both, held fast at both, held at one.
SUPPORTS = ("simple", "fixed", "cantilever")
_LIMIT_MM = 10_000.0
#: Words for what is carried, as a person types them.
CARRIED = tuple(c.value for c in Carried)


class LoadNotNamedError(UnitsError):
    """Nothing says what an upright or round part carries, and no load of those is usual."""


def section_mm2(width_mm: float, thickness_mm: float, is_round: bool) -> float:
    """Area of a cross-section, of a round one by its diameters [mm2]."""
    return width_mm * thickness_mm * (pi / 4.0 if is_round else 1.0)


@record
class Span:
    """A board as a beam: sizes and distances [mm], loads [N/m, N].

    ``short`` True for a load that comes and goes, which does not make the board creep;
    ``is_round`` True for a dowel or a turned rail, whose width and thickness are its diameter.
    ``usual`` is the usual load that ``uniform_n_m`` stands for, None where the load was given
    as a number; ``usual_assumed`` True where no load was named at all.
    """

    span_mm: float
    width_mm: float
    thickness_mm: float
    support: str = "simple"
    uniform_n_m: float = 0.0
    point_n: float = 0.0
    point_at_mm: float | None = None
    own_weight: bool = True
    short: bool = False
    is_round: bool = False
    usual: UsualLoad | None = None
    usual_assumed: bool = False

    @property
    def loaded(self) -> bool:
        """True where it carries more than itself."""
        return self.uniform_n_m > 0.0 or self.point_n > 0.0

    @property
    def lies_flat(self) -> bool:
        """True for a board that lies on its face, as a shelf does."""
        return not self.is_round and self.thickness_mm <= self.width_mm

    @property
    def section_mm2(self) -> float:
        """Area of its cross-section [mm2]."""
        return section_mm2(self.width_mm, self.thickness_mm, self.is_round)

    @property
    def load_n(self) -> float:
        """All it carries, itself left out [N]."""
        return self.uniform_n_m * self.span_mm * 1e-3 + self.point_n

    def checked(self) -> Span:
        """The span, where it can be.

        Raises: InputError, one line, for sizes, supports and loads that cannot.
        """
        for name in ("span", "width", "thickness"):
            size = getattr(self, f"{name}_mm")
            if not 0.0 < size <= _LIMIT_MM:
                text = f"the {name} must be above 0 and at most {{}}, not {{}}"
                raise UnitsError(sizes_told(text, _LIMIT_MM, size))
        if self.support not in SUPPORTS:
            raise InputError(
                f"'{self.support}' is no way to hold a board; use {', '.join(SUPPORTS)}"
            )
        if self.uniform_n_m < 0.0 or self.point_n < 0.0:
            raise InputError("a load cannot be negative")
        if self.thickness_mm >= self.span_mm / 2.0:
            raise UnitsError(
                sizes_told(
                    "a board {} thick over {} is a block, not a beam; the span must be at least "
                    "twice the thickness",
                    self.thickness_mm,
                    self.span_mm,
                )
            )
        if self.point_at_mm is not None and not 0.0 <= self.point_at_mm <= self.span_mm:
            raise UnitsError(
                sizes_told(
                    "the point load stands at {}, outside the span of {}",
                    self.point_at_mm,
                    self.span_mm,
                )
            )
        return self


def carried(text: str) -> Carried:
    """What is carried, by its word.

    Raises: InputError with the nearest word.
    """
    word = " ".join(text.lower().replace("-", " ").split())
    if word not in CARRIED:
        own = "; a weight of your own is a uniform load, so much a foot, or a point load"
        hint = own if word[:1].isdigit() else did_you_mean(word, CARRIED)
        raise InputError(f"no usual load is called '{text}'{hint}")
    return Carried(word)


def carrying(span: Span, load: Carried | None, rules: SagRules) -> Span:
    """The span under a usual load, or under the one it was given.

    Where no load is named and none is given, a board that lies flat carries the usual load of a
    shelf, and says so.

    Parameters: span; load, None where none is named; rules.
    Raises: InputError for two loads spread over one span; LoadNotNamedError where nothing says
    what an upright or a round part carries.
    """
    if load is Carried.NOTHING:
        if span.loaded:
            raise InputError("give a load, or nothing, not both")
        return span
    if load is None and span.loaded:
        return span
    if load is not None and span.uniform_n_m > 0.0:
        raise InputError(f"give a load per length, or {load.value}, not both")
    if load is None and not span.lies_flat:
        raise LoadNotNamedError(
            lambda u: (
                "an upright or round part has no usual load; give one spread over it "
                f"({either_unit(u, '20 lb/ft', '300 N/m')}) or on one spot "
                f"({either_unit(u, '50 lb', '200 N')}), or 'nothing' for its own weight alone"
            )
        )
    usual = rules.loads[load or Carried.SHELF]
    return replace(
        span,
        uniform_n_m=usual.per_length(span.width_mm),
        usual=usual,
        usual_assumed=load is None,
    )
