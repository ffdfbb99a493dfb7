"""How a movement or a density was computed, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.board.movement_basis import MovementMethod
from woodref.board.weight import DensityFrom, ShrinkageFrom
from woodref.reference.properties import PROPERTIES

if TYPE_CHECKING:
    from woodref.board.movement_basis import MovementBasis
    from woodref.board.weight import DensityEstimate
    from woodref.own.weigh import WeighedBoard

_MOVEMENT: dict[MovementMethod, str] = {
    MovementMethod.SHRINKAGE: "shrinkage green to ovendry",
    MovementMethod.CHANGE_PER_PCT: "change per 1 % moisture content as printed",
    MovementMethod.COEFFICIENT: "shrinkage of the printed dimensional change coefficients",
    MovementMethod.ESTIMATED: "shrinkage estimated from density, no figure of this wood",
}
_SHRINKAGE: dict[ShrinkageFrom, str] = {
    ShrinkageFrom.VOLUMETRIC: "the wood's own volumetric shrinkage",
    ShrinkageFrom.TWO_DIRECTIONS: "volumetric shrinkage from the wood's radial and tangential",
    ShrinkageFrom.IMPLIED: (
        "volumetric shrinkage that its gravities, green and at 12 %, imply (none is printed)"
    ),
    ShrinkageFrom.ESTIMATED: (
        "volumetric shrinkage estimated from density (the wood's own is in no table)"
    ),
    ShrinkageFrom.GENERAL: (
        "the general relation of volumetric shrinkage to specific gravity (0.265 times; "
        "the wood's own shrinkage is in no table)"
    ),
}


def movement_method(basis: MovementBasis) -> str:
    """What a movement is computed from, and the fiber saturation point it is spread over."""
    words = _MOVEMENT[basis.method]
    if not basis.by_shrinkage:
        return words
    point = basis.fiber_saturation
    known = "which its print implies" if point.implied else "the general figure"
    line = (
        f"{words}, straight line below fiber saturation at {point.pct:.3g} %, {known}; that point "
        f"varies by {point.sd_pct:.2g} from tree to tree (from memory)"
    )
    if not basis.by_coefficient:
        return line
    return f"the printed dimensional change coefficient from 6 to 14 %, beyond it from {line}"


def density_method(d: DensityEstimate) -> str:
    """What a density is computed from: the figure, and the shrinkage."""
    figure = d.values[0]
    label = PROPERTIES[figure.property_id].label
    words = {
        DensityFrom.BASIC: label,
        DensityFrom.CONVERTED: f"{label} turned to basic specific gravity",
        DensityFrom.GENUS_MEAN: f"an estimate from {figure.source}, no figure of this wood",
    }[d.density_from]
    return f"{words}, and {_SHRINKAGE[d.shrinkage_from]}"


def weighed_method(board: WeighedBoard) -> str:
    """What the basic specific gravity of a weighed board is computed from."""
    return f"mass over volume, and {board.relation or _SHRINKAGE[board.shrinkage_from]}"
