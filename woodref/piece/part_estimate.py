"""One part of a piece: its stock, weight, movement and share of the cost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from woodref.board.movement import Movement, PanelMovement, movement, panel_year
from woodref.errors import NoDataError
from woodref.piece.cost import LumberLine, PartStock, SheetLine, part_board_feet, share
from woodref.piece.moisture_table import PieceAir
from woodref.piece.parts_table import Part
from woodref.piece.piece import Piece
from woodref.quantity import Range
from woodref.reference.woods import Wood

#: The conditions parts are moved between, in order.
CONDITIONS = ("build", "driest", "wettest")
#: A single board wider than this is rare enough to remark on [mm] (common practice, no source).
WIDE_BOARD_MM = 305.0


@dataclass(frozen=True)
class PartEstimate:
    """One part, all its pieces together where not said otherwise.

    ``mass_kg`` by condition, None without a density; ``movements`` of the width of one piece,
    build to driest, build to wettest, driest to wettest, empty where it does not move or
    ``unmoved`` says why not known; ``thicknesses`` the same of its thickness; ``cost`` its
    share of what is bought, None with the reason in ``unpriced``.
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

    @property
    def material(self) -> str:
        """Name of the wood or of the sheet goods."""
        return self.wood.common_name if self.wood else self.part.sheet.name  # type: ignore[union-attr]


def airs(piece: Piece) -> dict[str, PieceAir]:
    """The conditions of a piece by name, in the order of CONDITIONS."""
    return dict(zip(CONDITIONS, (piece.build, piece.driest, piece.wettest), strict=True))


def sheet_part(part: Part, line: SheetLine, masses: Mapping[str, Range]) -> PartEstimate:
    """A part of sheet goods: weight and cost by the user's own figures; it does not move."""
    cost = share(line.cost, part.face_m2, line.net_area_m2)
    return PartEstimate(part, None, None, None, masses, (), cost, unpriced=line.unpriced)


def lumber_part(
    piece: Piece,
    part: Part,
    wood: Wood,
    stock: PartStock,
    line: LumberLine,
    masses: Mapping[str, Range] | None,
    unweighed: str,
) -> PartEstimate:
    """A part of solid wood; ``line`` is the lumber bought for it and its like.

    ``masses`` by condition, None with the reason in ``unweighed``.
    """
    feet = part_board_feet(part, line.nominal)
    movements: tuple[Movement, ...] = ()
    thicknesses: tuple[Movement, ...] = ()
    unmoved = ""
    try:
        movements = movements_of(piece, part, wood)
        thicknesses = thicknesses_of(piece, part, wood)
    except NoDataError as error:
        unmoved = str(error)
    cost = share(line.cost, feet, line.net_board_feet)
    return PartEstimate(
        part,
        wood,
        stock,
        feet,
        masses,
        movements,
        cost,
        unweighed,
        unmoved,
        line.unpriced,
        thicknesses,
    )


def movements_of(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Width movement of a lumber part: build to driest, build to wettest, driest to wettest.

    Raises: NoDataError where the wood has no shrinkage.
    """
    build, driest, wettest = (air.moisture_pct for air in airs(piece).values())
    if part.panel:
        year = panel_year(wood, part.panel, build, driest, wettest)
        return tuple(_as_one(panel) for panel in year)

    def of(size_mm: float, start: float, end: float) -> Movement:
        return movement(wood, size_mm, start, end, part.ring_angle_deg, part.staves)

    dry = of(part.width_mm, build, driest)
    return dry, of(part.width_mm, build, wettest), of(dry.after_mm, driest, wettest)


def _as_one(panel: PanelMovement) -> Movement:
    """The movement of a whole panel; its ring angle is that of the first stave."""
    return replace(
        panel.staves[0],
        size_mm=panel.size_mm,
        after_mm=panel.after_mm,
        low_mm=panel.low_mm,
        high_mm=panel.high_mm,
    )


def thicknesses_of(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Movement of the thickness, as movements_of; where the rings turn most for a panel.

    Rings that meet the face at an angle meet the edge at its complement.
    """
    build, driest, wettest = (air.moisture_pct for air in airs(piece).values())
    angles = [s.ring_angle_deg for s in part.panel] or [part.ring_angle_deg]
    angle = 90.0 - max(angles)
    dry = movement(wood, part.thickness_mm, build, driest, angle)
    return (
        dry,
        movement(wood, part.thickness_mm, build, wettest, angle),
        movement(wood, dry.after_mm, driest, wettest, angle),
    )
