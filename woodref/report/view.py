"""What a page is made from: an estimate, for whom, in which units, with what on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from woodref.piece.estimate import Estimate
from woodref.reference.woods import Value, Wood

#: Who a page is for.
AUDIENCES = ("client", "shop")
HARDNESS = "side_hardness"


@dataclass(frozen=True)
class View:
    """An estimate to be shown.

    ``costs`` and ``sizes``, whether the shop's costs and the sizes of its joints are on the
    page; ``shown`` for each wood, by its identifier, its side hardness as print gives it in
    these units [N], where that is not its value.
    """

    estimate: Estimate
    audience: str
    units: str
    costs: bool
    sizes: bool
    shown: Mapping[str, float] = field(default_factory=dict)

    @property
    def woods(self) -> list[Wood]:
        """The woods of the piece, in the order of its parts."""
        return list({p.wood.species_id: p.wood for p in self.estimate.parts if p.wood}.values())

    @property
    def figures(self) -> list[tuple[Wood, Value]]:
        """The printed figures the page rests on."""
        hardness = [(w, v) for w in self.woods if (v := w.value(HARDNESS))]
        return [*self.estimate.figures, *hardness]
