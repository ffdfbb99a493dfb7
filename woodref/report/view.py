"""What a page is made from: an estimate, for whom, in which units, with what on it."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.piece.estimate import Estimate
from woodref.reference.woods import Value, Wood

#: Who a page is for.
AUDIENCES = ("client", "shop")
HARDNESS = "side_hardness"


@dataclass(frozen=True)
class View:
    """An estimate to be shown.

    ``costs`` and ``sizes``, whether the shop's costs and the sizes of its joints are on the
    page.
    """

    estimate: Estimate
    audience: str
    units: str
    costs: bool
    sizes: bool

    @property
    def woods(self) -> list[Wood]:
        """The woods of the piece, in the order of its parts."""
        return list({p.wood.species_id: p.wood for p in self.estimate.parts if p.wood}.values())

    @property
    def figures(self) -> list[tuple[Wood, Value]]:
        """The printed figures the page rests on."""
        known = ((w, w.value(HARDNESS)) for w in self.woods)
        hardness = [(w, v.in_units(self.units)) for w, v in known if v]
        return [*self.estimate.figures, *hardness]
