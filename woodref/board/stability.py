"""How stable a wood is, and how many other woods move less."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from woodref.board.movement import CUTS, Movement, movement
from woodref.display import Shown, number
from woodref.record import record
from woodref.reference.percentiles import MovementPercentile, movement_percentile
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from woodref.reference.library import Reference


class MovesAmong(Enum):
    """How a wood moves among all woods with printed shrinkages, by thirds (our own thirds)."""

    LITTLE = "little"
    AS_MOST = "as most"
    A_LOT = "a lot"


@record(repr=False)
class Stability(Shown):
    """How stable a wood is between two moisture contents.

    ``flat``, ``quarter`` the change of a width, flat and quarter sawn; ``ratio`` tangential
    over radial shrinkage; ``rank`` among the woods with printed shrinkages, None where the
    wood has only a change per 1 %.
    """

    flat: Movement
    quarter: Movement
    ratio: float
    rank: MovementPercentile | None

    @property
    def third(self) -> MovesAmong | None:
        """The third of the ranked woods it belongs to, None without a rank."""
        if self.rank is None:
            return None
        share = self.rank.less / self.rank.woods
        if share < 1 / 3:
            return MovesAmong.LITTLE
        return MovesAmong.A_LOT if share > 2 / 3 else MovesAmong.AS_MOST

    def _line(self) -> str:
        flat, quarter = self.flat, self.quarter
        return (
            f"{flat.wood.common_name} {number(flat.size_mm)} mm from "
            f"{number(flat.from_moisture_pct)} to {number(flat.to_moisture_pct)} %: "
            f"{number(flat.change_mm)} mm flat, {number(quarter.change_mm)} mm quarter sawn"
        )


def stability_of(
    reference: Reference, wood: Wood, driest_pct: float, wettest_pct: float, width_mm: float
) -> Stability:
    """The change of a width between two moisture contents, and how other woods compare.

    Parameters: reference library, for the rank; wood; driest_pct, wettest_pct [%], 0 to 30;
    width_mm at ``driest_pct`` [mm], 300 or a foot.
    Raises: as movement.
    """
    flat, quarter = (
        movement(wood, width_mm, driest_pct, wettest_pct, CUTS[cut]) for cut in ("flat", "quarter")
    )
    tangential, radial = flat.basis.tangential.value, flat.basis.radial.value
    rank = (
        movement_percentile(reference.store, tangential, radial)
        if flat.basis.by_shrinkage
        else None
    )
    return Stability(flat, quarter, tangential / radial, rank)
