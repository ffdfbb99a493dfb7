"""A turning too thick for one board: its blank is glued from staves, face to face."""

from __future__ import annotations

from typing import NamedTuple

from woodref.board.shapes import Shape
from woodref.lumber.nominal import SLACK_MM, Nominal
from woodref.lumber.rough import Allowances, dressed_thickness
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.reference.woods import Wood

#: Shapes that are turned about their length.
TURNED = "cylinder"
#: More staves than this are no blank but a mistake (our assumption).
MOST_STAVES = 24


class GluedTurning(NamedTuple):
    """A square blank of flat staves glued face to face, all as wide as the blank.

    ``stave_mm`` thickness of each when it is dressed for gluing, ``side_mm`` of the blank [mm].
    """

    staves: int
    stave_mm: float
    side_mm: float

    @property
    def glue_faces(self) -> int:
        """Glue lines of one blank."""
        return self.staves - 1

    def glue_area_m2(self, length_mm: float) -> float:
        """Area that is glued in one blank of a length [mm], each line once [m2]."""
        return self.glue_faces * self.side_mm * length_mm * 1e-6


def is_turned(shape: Shape | None) -> bool:
    """True for a part that is turned about its length."""
    return shape is not None and shape.kind == TURNED


def glued_turning(
    diameter_mm: float,
    staves: int,
    stock: Nominal | None,
    wood: Wood,
    sold: ThicknessesSold,
    allowances: Allowances,
) -> GluedTurning | None:
    """The staves a turned part is glued from, None where one board is thick enough.

    The blank is larger than the turning by the width allowance, which the lathe takes off.

    Parameters: diameter_mm of the turning; staves it is to have, 1 where that is not said; stock
    it must come from, such as a thick board in hand, None where any may do; wood; thicknesses
    sold; allowances.
    Returns: as many staves as were asked for; else the fewest, which have the fewest glue lines.
    None too where no number of staves helps.
    """
    side = diameter_mm + allowances.width_mm
    if staves > 1:
        return GluedTurning(staves, side / staves, side)

    most = (
        dressed_thickness(stock, sold.dressed, allowances.planing_mm)
        if stock
        else sold.most_mm(wood)
    )
    if most + SLACK_MM >= diameter_mm:
        return None
    for count in range(2, MOST_STAVES + 1):
        if side / count <= most + SLACK_MM:
            return GluedTurning(count, side / count, side)
    return None
