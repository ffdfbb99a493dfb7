"""What the questions of rank and substitute held, beside what was found for them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from woodref.choose.figures_in_units import figure_in_units
from woodref.record import record

if TYPE_CHECKING:
    from woodref.choose.rank import Contribution, RankedWood
    from woodref.climate.rooms import Room
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece
    from woodref.piece.replaced import Replacement
    from woodref.reference.woods import Wood


@record
class Asked:
    """What the question held beside the use, and ``woods``, those shown by species_id.

    ``kind`` hardwood or softwood, '' for both.
    """

    room: Room | None
    prices: PriceList | None
    thickness: str
    woods: Mapping[str, Wood]
    kind: str = ""

    def figure(self, w: RankedWood, c: Contribution, units: str) -> float | None:
        """What a criterion looks at of a wood, as print gives it in the units [SI]."""
        return figure_in_units(self.woods[w.species_id], c.scale.criterion.column, c.value, units)


@record
class Question:
    """What was asked beside wood and use; ``woods`` those shown by species_id.

    ``replacements``, the piece with each wood by its species_id; ``kind`` hardwood, softwood or
    any.
    """

    width_mm: float
    room: Room | None
    prices: PriceList | None
    thickness: str
    woods: Mapping[str, Wood]
    piece: Piece | None = None
    replacements: Mapping[str, Replacement] = field(default_factory=dict)
    kind: str = ""
