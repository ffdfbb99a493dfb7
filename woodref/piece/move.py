"""How the parts of a piece move in width and thickness between its conditions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from woodref.board.movement import Movement, movement
from woodref.board.panel import PanelMovement, panel_year
from woodref.errors import NoDataError
from woodref.piece.parts_table import Part
from woodref.piece.piece import Piece
from woodref.piece.resolve import ResolvedPiece
from woodref.record import record
from woodref.reference.woods import Wood


@record
class PartMovement:
    """How one piece of a part moves: build to driest, build to wettest, driest to wettest.

    ``widths`` and ``thicknesses`` are empty where it does not move, or ``unknown`` says why
    nobody knows. ``lengths`` are those of a part of end grain, which moves in both directions of
    its face and not in its thickness.
    """

    widths: tuple[Movement, ...] = ()
    thicknesses: tuple[Movement, ...] = ()
    lengths: tuple[Movement, ...] = ()
    unknown: str = ""


def move(resolved: ResolvedPiece) -> Mapping[str, PartMovement]:
    """How every part of solid wood moves, by its name.

    Source: FPL-GTR-282 (2021), Eq. 4-9, as woodref.board.movement.
    """
    return {
        part.name: _part_movement(resolved.piece, part, resolved.woods[part.species])
        for part in resolved.piece.parts
        if part.sheet is None
    }


def _part_movement(piece: Piece, part: Part, wood: Wood) -> PartMovement:
    try:
        if part.end_grain:
            whole = replace(part, width_mm=part.length_mm, panel=(), staves=1)
            return PartMovement(_widths(piece, part, wood), lengths=_widths(piece, whole, wood))
        return PartMovement(_widths(piece, part, wood), _thicknesses(piece, part, wood))
    except NoDataError as error:
        return PartMovement(unknown=str(error))


def _widths(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Movement of the width of a part.

    Raises: NoDataError where the wood has no shrinkage.
    """
    build, driest, wettest = (air.moisture_pct for air in piece.conditions.values())
    if part.panel:
        year = panel_year(wood, part.panel, build, driest, wettest)
        return tuple(_as_one(panel) for panel in year)

    def of(size_mm: float, start: float, end: float) -> Movement:
        return movement(wood, size_mm, start, end, part.ring_angle_deg, part.staves)

    dry = of(part.width_mm, build, driest)
    return dry, of(part.width_mm, build, wettest), of(dry.after_mm, driest, wettest)


def _as_one(panel: PanelMovement) -> Movement:
    """The movement of a whole panel; its ring angle is that of the first stave."""
    return replace(panel.staves[0], size_mm=panel.size_mm, likely_mm=panel.likely_mm)


def _thicknesses(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Movement of the thickness of a part; where the rings turn most for a panel.

    Rings that meet the face at an angle meet the edge at its complement.
    """
    build, driest, wettest = (air.moisture_pct for air in piece.conditions.values())
    angles = [s.ring_angle_deg for s in part.panel] or [part.ring_angle_deg]
    angle = 90.0 - max(angles)
    dry = movement(wood, part.thickness_mm, build, driest, angle)
    return (
        dry,
        movement(wood, part.thickness_mm, build, wettest, angle),
        movement(wood, dry.after_mm, driest, wettest, angle),
    )
