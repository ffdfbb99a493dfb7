"""From a finished part to its rough blank: allowances, and the stock thick enough for it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from woodref.errors import InputError, NoDataError, UnitsError
from woodref.lumber.nominal import SAME_MM, SLACK_MM, Nominal, choose_nominal
from woodref.lumber.waste import Waste, WasteOrigin
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.library import Reference
from woodref.reference.trade import DressedSize, SoftwoodSize, practices
from woodref.units import MM_PER_INCH, fraction_of_inch, sizes_told

#: Basis of what no table says.
PRACTICE = COMMON_PRACTICE
#: Blanks shorter than this are not planed or ripped by themselves [mm]: 12 in, 300 mm (common
#: practice, no source).
SAFE_LENGTH_MM = {"us": 304.8, "si": 300.0}
_RULES = {
    "length": "length allowance over finished part",
    "width": "width allowance over finished part",
    "end": "end check trim per end of rough board",
    "kerf": "saw kerf, table saw full kerf",
    "planing": "planing allowance, rough to finished thickness, both faces",
    "waste": "waste allowance, typical furniture cut list",
}


@record
class Allowances:
    """What is cut larger than finished, and lost on the way [mm].

    ``length_mm`` and ``width_mm`` over the finished part (trimming both ends; jointing both
    edges); ``end_trim_mm`` off each end of a rough board; ``kerf_mm`` of the saw;
    ``planing_mm`` off both faces together, of stock that no table of dressed sizes holds.
    ``safe_length_mm``: shorter blanks are cut in multiples, 0 where each is cut by itself.
    """

    length_mm: float
    width_mm: float
    end_trim_mm: float
    kerf_mm: float
    planing_mm: float
    safe_length_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse an allowance that cannot be."""
        for name, value in vars(self).items():
            most = 1_000.0 if name == "safe_length_mm" else 500.0
            if not 0.0 <= value <= most:
                words = name.removesuffix("_mm").replace("_", " ")
                raise UnitsError(
                    sizes_told(f"an allowance for {words} is 0 to {{}}, not {{}}", most, value)
                )


@record
class Usual:
    """The allowances and the waste of shop practice; all common practice, no source."""

    allowances: Allowances
    waste: Waste


def usual(reference: Reference, units: str = "us") -> Usual:
    """The usual allowances: the low end of each rule of practice, as a tight plan has them.

    Parameters: reference; units 'us' or 'si', in which the safe length is a round one.

    Raises: NoDataError where the dataset lacks a rule.
    """
    rules = practices(reference, "stock")
    try:
        practice = {key: rules[rule] for key, rule in _RULES.items()}
    except KeyError as error:
        raise NoDataError(f"the dataset lacks the rule of practice {error}") from None
    low, high = practice["waste"].low, practice["waste"].high
    return Usual(
        Allowances(
            practice["length"].low_mm,
            practice["width"].low_mm,
            practice["end"].low_mm,
            practice["kerf"].low_mm,
            practice["planing"].low_mm,
            SAFE_LENGTH_MM[units],
        ),
        Waste(Range((low + high) / 2.0, low, high), WasteOrigin.PRACTICE, practice["waste"].basis),
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
    listed = next((s for s in sizes if abs(s.rough_mm - nominal.size_mm) < SAME_MM), None)
    return listed.dressed_mm if listed else max(0.0, nominal.size_mm - planing_mm)


class Shortfall(NamedTuple):
    """Stock that does not dress to a finished thickness [mm]."""

    nominal: Nominal
    dressed_mm: float
    thickness_mm: float

    def words(self, units: str) -> str:
        """'4/4 dresses to 13/16 in: too thin for 7/8 in'."""
        return (
            f"{self.nominal.label} dresses to {size_words(self.dressed_mm, units)}: too thin for "
            f"{size_words(self.thickness_mm, units)}"
        )


def shortfall(
    thickness_mm: float, nominal: Nominal, sizes: Sequence[DressedSize], planing_mm: float
) -> Shortfall | None:
    """How stock falls short of a finished thickness, None where it dresses to it."""
    dressed = dressed_thickness(nominal, sizes, planing_mm)
    if dressed + SLACK_MM >= thickness_mm:
        return None
    return Shortfall(nominal, dressed, thickness_mm)


def check_stock(
    thickness_mm: float,
    nominal: Nominal,
    sizes: Sequence[DressedSize],
    planing_mm: float,
    units: str = "us",
) -> None:
    """Refuse stock that does not dress to a finished thickness.

    Raises: InputError in the words of its shortfall, with the stock that would reach.
    """
    short = shortfall(thickness_mm, nominal, sizes, planing_mm)
    if short:
        better = choose_nominal(thickness_mm, sizes)
        hint = f"{better.nominal} reaches it" if better else "laminate it from thinner stock"
        raise InputError(f"{short.words(units)}; {hint}")


def softwood_thicknesses(sizes: Sequence[SoftwoodSize]) -> tuple[DressedSize, ...]:
    """The nominal thicknesses of softwood, thinnest first, as sizes to choose from.

    Source: Voluntary Product Standard PS 20, minimum dressed dry sizes.
    """
    rows = {s.nominal_mm: s for s in sizes if s.side == "thickness"}
    return tuple(
        DressedSize(f"{s.nominal} in", s.nominal_mm, s.dressed_mm, s.basis, s.source)
        for _, s in sorted(rows.items())
    )


def softwood_width(nominal_mm: float, sizes: Sequence[SoftwoodSize]) -> float:
    """Dressed width of softwood of a nominal width [mm].

    Raises: InputError for a width that the table does not have.
    Source: as softwood_thicknesses.
    """
    rows = [s for s in sizes if s.side == "width"]
    row = next((s for s in rows if abs(s.nominal_mm - nominal_mm) < SAME_MM), None)
    if row is None:
        known = dict.fromkeys(s.nominal for s in sorted(rows, key=lambda s: s.nominal_mm))
        raise InputError(
            f"{size_words(nominal_mm, 'us')} is no nominal width of softwood; use one of "
            f"{', '.join(known)}"
        )
    return row.dressed_mm


def sawn_thicknesses(
    nominals: Sequence[Nominal], sizes: Sequence[DressedSize], planing_mm: float
) -> tuple[DressedSize, ...]:
    """Rough thicknesses a yard saws, such as 27 mm, as sizes to choose from, thinnest first.

    What a table does not hold dresses to its rough size less the planing allowance.
    """
    sawn = []
    for n in sorted(nominals, key=lambda n: n.size_mm):
        row = next((s for s in sizes if abs(s.rough_mm - n.size_mm) < SAME_MM), None)
        dressed = dressed_thickness(n, (), planing_mm)
        sawn.append(row or DressedSize(n.label, n.size_mm, dressed, PRACTICE, ""))
    return tuple(sawn)
