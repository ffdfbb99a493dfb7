"""From a finished part to its rough blank: allowances, and the stock thick enough for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from woodref.errors import InputError, NoDataError
from woodref.estimate.cost import choose_nominal
from woodref.estimate.piece_parts import Nominal
from woodref.estimate.prices import SAME_MM
from woodref.reference.library import Reference
from woodref.reference.trade import DressedSize, Practice, SoftwoodSize, practices
from woodref.units import MM_PER_INCH, fraction_of_inch

#: Finished and dressed thickness may differ by this and still be equal [mm].
_SLACK_MM = 0.05
_RULES = {
    "length": "length allowance over finished part",
    "width": "width allowance over finished part",
    "end": "end check trim per end of rough board",
    "kerf": "saw kerf, table saw full kerf",
    "planing": "planing allowance, rough to finished thickness, both faces",
    "waste": "waste allowance, typical furniture cut list",
}


@dataclass(frozen=True)
class Allowances:
    """What is cut larger than finished, and lost on the way [mm].

    ``length_mm`` and ``width_mm`` over the finished part (trimming both ends; jointing both
    edges); ``end_trim_mm`` off each end of a rough board; ``kerf_mm`` of the saw;
    ``planing_mm`` off both faces together, of stock that no table of dressed sizes holds.
    """

    length_mm: float
    width_mm: float
    end_trim_mm: float
    kerf_mm: float
    planing_mm: float

    def __post_init__(self) -> None:
        for name, value in vars(self).items():
            if not 0.0 <= value <= 500.0:
                words = name.removesuffix("_mm").replace("_", " ")
                raise InputError(f"an allowance for {words} is 0 to 500 mm, not {value:g}")


@dataclass(frozen=True)
class Usual:
    """The allowances and the waste [%] of shop practice; all common practice, no source."""

    allowances: Allowances
    waste: Practice


def usual(reference: Reference) -> Usual:
    """The usual allowances: the low end of each rule of practice, as a tight plan has them.

    Raises: NoDataError where the dataset lacks a rule.
    """
    rules = practices(reference, "stock")
    try:
        found = {key: rules[rule] for key, rule in _RULES.items()}
    except KeyError as error:
        raise NoDataError(f"the dataset lacks the rule of practice {error}") from None
    return Usual(
        Allowances(
            found["length"].low_mm,
            found["width"].low_mm,
            found["end"].low_mm,
            found["kerf"].low_mm,
            found["planing"].low_mm,
        ),
        found["waste"],
    )


def size_words(mm: float, units: str) -> str:
    """'7/8 in' or '22.2 mm'."""
    if units == "us":
        return f"{fraction_of_inch(mm / MM_PER_INCH)} in"
    return f"{round(mm, 1):g} mm"


def dressed_thickness(nominal: Nominal, sizes: Sequence[DressedSize], planing_mm: float) -> float:
    """What is left of a rough thickness surfaced two sides [mm].

    By the table where it has that thickness, else the rough size less the planing allowance.
    """
    found = next((s for s in sizes if abs(s.rough_mm - nominal.size_mm) < SAME_MM), None)
    return found.dressed_mm if found else max(0.0, nominal.size_mm - planing_mm)


def check_stock(
    thickness_mm: float,
    nominal: Nominal,
    sizes: Sequence[DressedSize],
    planing_mm: float,
    units: str = "us",
) -> None:
    """Refuse stock that does not dress to a finished thickness.

    Raises: InputError, '4/4 dresses to 13/16 in: too thin for 7/8 in; ...'.
    """
    dressed = dressed_thickness(nominal, sizes, planing_mm)
    if dressed + _SLACK_MM >= thickness_mm:
        return
    better = choose_nominal(thickness_mm, sizes)
    hint = f"; {better.nominal} reaches it" if better else "; laminate it from thinner stock"
    raise InputError(
        f"{nominal.label} dresses to {size_words(dressed, units)}: too thin for "
        f"{size_words(thickness_mm, units)}{hint}"
    )


def thinnest_of(
    thickness_mm: float,
    nominals: Sequence[Nominal],
    sizes: Sequence[DressedSize],
    planing_mm: float,
) -> Nominal | None:
    """The thinnest of some rough thicknesses that dresses to a finished one, None without."""
    reach = [
        n for n in nominals if dressed_thickness(n, sizes, planing_mm) + _SLACK_MM >= thickness_mm
    ]
    return min(reach, key=lambda n: n.size_mm, default=None)


def nominal_for(thickness_mm: float, sizes: Sequence[DressedSize], units: str = "us") -> Nominal:
    """The least standard thickness that dresses to a finished one.

    Raises: InputError where none reaches.
    """
    chosen = choose_nominal(thickness_mm, sizes)
    if chosen is None:
        most = max((s.dressed_mm for s in sizes), default=0.0)
        raise InputError(
            f"no standard stock dresses to {size_words(thickness_mm, units)}, the thickest to "
            f"{size_words(most, units)}; enter its layers as parts of their own"
        )
    return Nominal(chosen.nominal, chosen.rough_mm)


def softwood_dressed(
    nominal_thickness: str, nominal_width: str, sizes: Sequence[SoftwoodSize]
) -> tuple[float, float]:
    """Dressed thickness and width of softwood sold as, say, '2' x '6' [mm].

    Raises: InputError for sizes that the table does not have.
    Source: Voluntary Product Standard PS 20, minimum dressed dry sizes.
    """
    found = []
    for side, nominal in (("thickness", nominal_thickness), ("width", nominal_width)):
        rows = [s for s in sizes if s.side == side]
        row = next((s for s in rows if s.nominal == nominal.strip()), None)
        if row is None:
            known = ", ".join(dict.fromkeys(s.nominal for s in rows))
            raise InputError(f"'{nominal}' is no nominal {side} of softwood; use one of {known}")
        found.append(row.dressed_mm)
    return found[0], found[1]
