"""What a yard sells: the sizes of its boards, and its thicknesses with what they dress to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from woodref.errors import InputError
from woodref.lumber.lots import Size
from woodref.lumber.nominal import Nominal
from woodref.lumber.prices import PriceList
from woodref.lumber.rough import sawn_thicknesses, softwood_thicknesses, softwood_width
from woodref.lumber.thicknesses import (
    ThicknessesSold,
    listed_thicknesses,
    usual_thicknesses,
)
from woodref.record import record
from woodref.reference.library import Reference
from woodref.reference.look_words import AUSTRALIA_NZ, EUROPE
from woodref.reference.trade import SoftwoodSize, dressed_thicknesses, softwood_sizes
from woodref.reference.woods import Wood

_METRIC_REGIONS = (EUROPE, AUSTRALIA_NZ)

#: Sizes of boards offered to one plan at the most.
_SIZES_LIMIT = 200


@record
class Yard:
    """The boards a yard sells: every width in every length [mm].

    ``used_widths_mm`` what is left of each width, where boards are sold by a nominal one.
    """

    widths_mm: tuple[float, ...]
    lengths_mm: tuple[float, ...]
    used_widths_mm: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a yard without sizes, or with sizes that cannot be."""
        if not self.widths_mm or not self.lengths_mm:
            raise InputError("a yard needs widths and lengths; give both")
        if len(self.widths_mm) * len(self.lengths_mm) > _SIZES_LIMIT:
            raise InputError(f"widths times lengths make more than {_SIZES_LIMIT} sizes")
        if self.used_widths_mm and len(self.used_widths_mm) != len(self.widths_mm):
            raise InputError("a yard needs a used width for each width, or none")

    @property
    def sizes(self) -> list[Size]:
        """Every size of board."""
        used = self.used_widths_mm or self.widths_mm
        return [
            Size(width, length, left, None)
            for width, left in zip(self.widths_mm, used, strict=True)
            for length in self.lengths_mm
        ]


def thicknesses_sold(
    reference: Reference,
    woods: Iterable[Wood],
    prices: PriceList | None,
    units: str,
    planing_mm: float,
    nominals: Sequence[Nominal] = (),
    softwood: bool = False,
) -> ThicknessesSold:
    """The thicknesses that are sold of woods, with what they dress to.

    By the yard where it is known, else as the price list has a wood, else as yards of the region
    usually sell it: in quarters of an inch, or sawn in millimeters.

    Parameters: reference, whose region it is; woods; prices, None where there is no list; units
    'us' or 'si' of the piece; planing_mm off both faces of what no table holds [mm]; nominals the
    yard saws; softwood, whether the yard sells dressed softwood by nominal sizes.
    """
    dressed, pine = dressed_thicknesses(reference), softwood_sizes(reference)
    metric = units == "si" or reference.region in _METRIC_REGIONS
    usual = usual_thicknesses(metric, dressed, pine, planing_mm)
    if softwood:
        return replace(usual, yard=softwood_thicknesses(pine))
    if nominals:
        return replace(usual, yard=sawn_thicknesses(nominals, dressed, planing_mm))
    if prices is None:
        return usual
    listed = listed_thicknesses(list(woods), prices.nominals, dressed, planing_mm)
    return replace(usual, listed=listed)


def softwood_yard(
    widths_mm: Sequence[float], lengths_mm: Sequence[float], sizes: Sequence[SoftwoodSize]
) -> Yard:
    """A yard that sells dressed softwood by nominal widths, of which less is left.

    Raises: InputError for a width that is no nominal one.
    """
    used = tuple(softwood_width(w, sizes) for w in widths_mm)
    return Yard(tuple(widths_mm), tuple(lengths_mm), used)
