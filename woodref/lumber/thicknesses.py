"""The thicknesses a shop can buy, wood by wood: as listed for it, else as yards usually saw it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import NamedTuple

from woodref.lumber.nominal import SAME_MM, Nominal, choose_nominal
from woodref.lumber.rough import Allowances, sawn_thicknesses, softwood_thicknesses
from woodref.lumber.waste import Waste
from woodref.record import record
from woodref.reference.trade import DressedSize, SoftwoodSize
from woodref.reference.woods import Wood

#: Quarters of an inch in which yards usually stock hardwood; others only where a list names them
#: (common practice, no source).
_QUARTERS = ("4/4", "5/4", "6/4", "8/4", "10/4", "12/4", "16/4")
#: Nominal softwood thinner than 1 in stands in the table and on few racks (common practice, no
#: source) [mm].
_LEAST_SOFTWOOD_MM = 25.4
#: Thicknesses in which European mills usually saw [mm]: the preferred sizes of EN 1313-2 for
#: hardwood and of EN 1313-1 for softwood (from memory).
_SAWN_HARDWOOD_MM = (20.0, 27.0, 32.0, 40.0, 50.0, 60.0, 65.0, 70.0, 80.0, 100.0)
_SAWN_SOFTWOOD_MM = (16.0, 19.0, 22.0, 25.0, 32.0, 38.0, 44.0, 50.0, 63.0, 75.0, 100.0)


class ThickerListed(NamedTuple):
    """Stock that a price list has for a part, while yards usually have thinner stock for it.

    ``resawn`` boards of the part's thickness come from one of the listed thickness.
    """

    wood: str
    listed: DressedSize
    usual: DressedSize
    resawn: int

    @property
    def words(self) -> str:
        """What is counted, what yards have, and what a saw gets from the thick stock."""
        said = (
            f"the thinnest {self.wood} for it in the price list is {self.listed.nominal}, and is "
            f"counted whole; yards usually have {self.usual.nominal}: ask for it, and give it as "
            "the stock of the part"
        )
        if self.resawn < 2:
            return said
        return f"{said}; or resaw, {self.resawn} boards from one {self.listed.nominal}"


@record
class ThicknessesSold:
    """What is sold of each wood, the thinnest first.

    ``dressed`` the table that says what a rough size dresses to; ``hardwood`` and ``softwood``
    what yards usually sell of either; ``listed`` what is known to be sold of a wood by its
    species_id, which goes before what is usual; ``yard`` what the yard sells of every wood,
    which goes before both.
    """

    dressed: Sequence[DressedSize]
    hardwood: Sequence[DressedSize]
    softwood: Sequence[DressedSize]
    listed: Mapping[str, Sequence[DressedSize]] = field(default_factory=dict)
    yard: Sequence[DressedSize] = ()

    @classmethod
    def only(cls, sizes: Sequence[DressedSize]) -> ThicknessesSold:
        """Sizes that are sold of every wood alike."""
        return cls(sizes, sizes, sizes)

    def choose(self, wood: Wood, thickness_mm: float) -> DressedSize | None:
        """The least thickness sold of a wood that dresses to a finished one, None where none does.

        Parameters: wood; thickness_mm finished [mm].
        """
        for sizes in self._offers(wood):
            chosen = choose_nominal(thickness_mm, sizes)
            if chosen:
                return chosen
        return None

    def thicker_listed(
        self, wood: Wood, thickness_mm: float, planing_mm: float, kerf_mm: float
    ) -> ThickerListed | None:
        """That a price list has thicker stock alone than yards usually have for a part.

        The listed stock stays the one chosen: it can be bought, and what it costs is known.

        Parameters: wood; thickness_mm finished [mm]; planing_mm off both faces of a resawn board,
        kerf_mm of the saw.
        Returns: None where the yard is known, or nothing thinner is usual.
        """
        if self.yard:
            return None
        listed, usual = (choose_nominal(thickness_mm, sizes) for sizes in self._offers(wood))
        if listed is None or usual is None or usual.rough_mm > listed.rough_mm - SAME_MM:
            return None
        each = thickness_mm + planing_mm
        resawn = int((listed.rough_mm + kerf_mm) / (each + kerf_mm) + 1e-9)
        return ThickerListed(wood.common_name, listed, usual, resawn)

    def most_mm(self, wood: Wood) -> float:
        """The thickest that anything sold of a wood dresses to [mm]."""
        return max((s.dressed_mm for sizes in self._offers(wood) for s in sizes), default=0.0)

    @property
    def all(self) -> tuple[DressedSize, ...]:
        """Every size there is, those of a table first."""
        offers = (self.dressed, self.yard, *self.listed.values(), self.hardwood, self.softwood)
        return tuple(dict.fromkeys(size for sizes in offers for size in sizes))

    def _offers(self, wood: Wood) -> list[Sequence[DressedSize]]:
        if self.yard:
            return [self.yard]
        usual = self.softwood if wood.kind == "softwood" else self.hardwood
        return [self.listed.get(wood.species_id, ()), usual]


def usual_thicknesses(
    metric: bool,
    dressed: Sequence[DressedSize],
    softwood_sizes: Sequence[SoftwoodSize],
    planing_mm: float,
) -> ThicknessesSold:
    """What yards usually sell, in quarters of an inch and nominal softwood, or sawn in millimeters.

    Parameters: metric; dressed, the table of hardwood thicknesses; softwood_sizes, that of dressed
    softwood; planing_mm off both faces of what no table holds [mm].
    Source: NHLA standard thicknesses and Voluntary Product Standard PS 20; EN 1313 from memory.
    """
    if metric:
        hardwood, softwood = (
            sawn_thicknesses([Nominal(f"{mm:g} mm", mm) for mm in sizes], (), planing_mm)
            for sizes in (_SAWN_HARDWOOD_MM, _SAWN_SOFTWOOD_MM)
        )
        return ThicknessesSold(dressed, hardwood, softwood)
    quarters = tuple(s for s in dressed if s.nominal in _QUARTERS)
    softwood = softwood_thicknesses(softwood_sizes)
    usual = tuple(s for s in softwood if s.rough_mm >= _LEAST_SOFTWOOD_MM - SAME_MM)
    return ThicknessesSold(dressed, quarters, usual)


def listed_thicknesses(
    woods: Sequence[Wood],
    nominals_of: Callable[[frozenset[str]], Sequence[Nominal]],
    dressed: Sequence[DressedSize],
    planing_mm: float,
) -> dict[str, tuple[DressedSize, ...]]:
    """What a price list has of each wood, by its species_id.

    Parameters: woods; nominals_of a wood's species, in a price list; dressed, the table of
    hardwood thicknesses; planing_mm off both faces of what it does not hold [mm].
    """
    return {
        wood.species_id: sawn_thicknesses(
            nominals_of(frozenset(wood.species_ids)), dressed, planing_mm
        )
        for wood in woods
    }


class YardStock(NamedTuple):
    """The thicknesses that are sold, the allowances, and the waste of shop practice."""

    sold: ThicknessesSold
    allowances: Allowances
    usual_waste: Waste
