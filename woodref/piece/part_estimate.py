"""One part of a piece: its stock, weight, movement and share of the cost."""

from __future__ import annotations

from collections.abc import Mapping

from woodref.board.movement import Movement
from woodref.piece.buy import Bought
from woodref.piece.cost import PartStock, SheetLine, part_board_feet, share
from woodref.piece.move import PartMovement
from woodref.piece.parts_table import Part
from woodref.piece.resolve import ResolvedPiece
from woodref.piece.weigh import Masses
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.woods import Wood


@record
class PartEstimate:
    """One part, all its pieces together where not said otherwise.

    ``mass_kg`` by condition, None without a density; ``movements`` of the width of one piece,
    build to driest, build to wettest, driest to wettest, empty where it does not move or
    ``unmoved`` says why not known; ``thicknesses`` the same of its thickness; ``cost`` its
    share of what is bought, None with the reason in ``unpriced``; ``lengths`` the movements of the
    length of a part of end grain.
    """

    part: Part
    wood: Wood | None
    stock: PartStock | None
    board_feet: float | None
    mass_kg: Mapping[str, Range] | None
    movements: tuple[Movement, ...]
    cost: Range | None
    unweighed: str = ""
    unmoved: str = ""
    unpriced: str = ""
    thicknesses: tuple[Movement, ...] = ()
    lengths: tuple[Movement, ...] = ()

    @property
    def material(self) -> str:
        """Name of the wood or of the sheet goods."""
        return self.wood.common_name if self.wood else self.part.sheet.name  # type: ignore[union-attr]


def part_estimates(
    resolved: ResolvedPiece,
    masses: Masses,
    movements: Mapping[str, PartMovement],
    bought: Bought,
) -> tuple[PartEstimate, ...]:
    """Every part of a piece, in its order: its stock, weight, movement and share of the cost."""
    return tuple(
        _sheet_part(part, bought.sheets[part.sheet.name], masses)
        if part.sheet
        else _lumber_part(part, resolved.woods[part.species], masses, movements[part.name], bought)
        for part in resolved.piece.parts
    )


def _sheet_part(part: Part, line: SheetLine, masses: Masses) -> PartEstimate:
    """A part of sheet goods: weight and cost by the user's own figures; it does not move."""
    return PartEstimate(
        part=part,
        wood=None,
        stock=None,
        board_feet=None,
        mass_kg=masses.parts[part.name],
        movements=(),
        cost=share(line.cost, part.face_m2, line.net_area_m2),
        unpriced=line.unpriced,
    )


def _lumber_part(
    part: Part, wood: Wood, masses: Masses, movement: PartMovement, bought: Bought
) -> PartEstimate:
    """A part of solid wood, with its share of the lumber bought for it and its like."""
    line = bought.lumber[part.name]
    feet = part_board_feet(part, line.nominal)
    return PartEstimate(
        part=part,
        wood=wood,
        stock=bought.stocks[part.name],
        board_feet=feet,
        mass_kg=masses.parts.get(part.name),
        movements=movement.widths,
        cost=share(line.cost, feet, line.net_board_feet),
        unweighed=masses.unweighed.get(part.name, ""),
        unmoved=movement.unknown,
        unpriced=line.unpriced,
        thicknesses=movement.thicknesses,
        lengths=movement.lengths,
    )
