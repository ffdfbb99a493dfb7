"""What a yard sells: the sizes of its boards, and its thicknesses with what they dress to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from woodref.errors import InputError
from woodref.lumber.lots import Size
from woodref.lumber.nominal import Nominal
from woodref.lumber.rough import sawn_thicknesses, softwood_thicknesses, softwood_width
from woodref.reference.library import Reference
from woodref.reference.trade import (
    DressedSize,
    SoftwoodSize,
    dressed_thicknesses,
    softwood_sizes,
)

#: Sizes of boards offered to one plan at the most.
_SIZES_LIMIT = 200


@dataclass(frozen=True)
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
    nominals: Sequence[Nominal] = (),
    planing_mm: float = 0.0,
    softwood: bool = False,
) -> tuple[DressedSize, ...]:
    """The thicknesses a yard sells, thinnest first, with what they dress to.

    Parameters: reference; nominals it saws, none for all whole quarters of an inch; planing_mm
    off both faces of those that no table holds [mm]; softwood, whether it sells dressed
    softwood by nominal sizes, in the thicknesses of those.
    Source: NHLA standard thicknesses; Voluntary Product Standard PS 20 for softwood.
    """
    if softwood:
        return softwood_thicknesses(softwood_sizes(reference))
    standard = dressed_thicknesses(reference)
    return sawn_thicknesses(nominals, standard, planing_mm) if nominals else standard


def softwood_yard(
    widths_mm: Sequence[float], lengths_mm: Sequence[float], sizes: Sequence[SoftwoodSize]
) -> Yard:
    """A yard that sells dressed softwood by nominal widths, of which less is left.

    Raises: InputError for a width that is no nominal one.
    """
    used = tuple(softwood_width(w, sizes) for w in widths_mm)
    return Yard(tuple(widths_mm), tuple(lengths_mm), used)
