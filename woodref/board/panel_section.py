"""A panel of boards joined edge to edge, each cut anywhere in the log, at another moisture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from woodref.board.cross_section import (
    CrossSection,
    Measures,
    board_section,
    changed_faces,
    likely_measures,
)
from woodref.board.outline import Pith, Points, departures, leveled, placed
from woodref.errors import InputError
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.woods import Wood

#: The most boards of a panel: more is a slip.
MOST_BOARDS = 50
#: The range is measured on outlines of every so many points: a wave less sharp, not less high.
_COARSE = 64


class PanelShape(Enum):
    """The top of a panel between its edges."""

    HOLLOW = "hollow"
    ROUNDED = "rounded"
    WAVY = "wavy"


@record
class PanelSection:
    """Boards joined edge to edge, before and after [mm].

    ``top_mm``, ``bottom_mm`` straight from corner to corner; ``highest_mm``, ``lowest_mm`` how
    far the top rises above and falls below the straight line between its ends;
    ``out_of_flat_mm`` their difference; ``boards`` each board by itself.
    """

    wood: Wood
    width_mm: float
    boards: tuple[CrossSection, ...]
    top_mm: float
    bottom_mm: float
    highest_mm: float
    lowest_mm: float
    out_of_flat_mm: Range
    outline: Mapping[str, Points]

    @property
    def shape(self) -> PanelShape:
        """Wavy where it goes up and down, the less by more than a tenth of the other."""
        less, more = sorted((self.highest_mm, -self.lowest_mm))
        if less > 0.1 * more:
            return PanelShape.WAVY
        return PanelShape.ROUNDED if self.highest_mm > -self.lowest_mm else PanelShape.HOLLOW


def _joined(outlines: Sequence[Mapping[str, Points]]) -> dict[str, Points]:
    """Boards put edge to edge: each left edge on the right edge before it, middle on middle.

    Each board is moved as a rigid piece so that the edges stay in contact, as the glue holds
    them; faces of like-sided boards then meet at a slight ridge, those of alternating ones run on.
    """
    faces: list[dict[str, Points]] = [dict(outlines[0])]
    for outline in outlines[1:]:
        edge, free = faces[-1]["right"], outline["left"]
        up, own = edge[-1] - edge[0], free[0] - free[-1]
        turn = up / own
        anchor, target = (free[0] + free[-1]) / 2.0, (edge[0] + edge[-1]) / 2.0
        faces.append(placed(dict(outline), anchor, target, turn / abs(turn)))
    return leveled(
        {
            "bottom": sum((f["bottom"] for f in faces), ()),
            "right": faces[-1]["right"],
            "top": sum((f["top"] for f in reversed(faces)), ()),
            "left": faces[0]["left"],
        }
    )


def panel_section(
    wood: Wood,
    widths_mm: Sequence[float],
    thickness_mm: float,
    piths: Sequence[Pith],
    from_moisture_pct: float,
    to_moisture_pct: float,
) -> PanelSection:
    """A panel of boards glued flat edge to edge, after its moisture content changed.

    Parameters: wood; widths_mm of the boards from left to right [mm]; thickness_mm [mm]; piths,
    one for each board (``Pith.turned`` for a board turned over); moistures [%], 0 to 30.
    Returns: PanelSection.
    Raises: InputError for no board, too many, or lists that differ; as board_section.
    Valid: as board_section; the stress in the joints is left out.
    """
    if not 0 < len(widths_mm) <= MOST_BOARDS or len(widths_mm) != len(piths):
        raise InputError(f"a panel has 1 to {MOST_BOARDS} boards, each with its place in the log")
    moistures = (from_moisture_pct, to_moisture_pct)
    known: dict[tuple[float, complex, float], CrossSection] = {}
    for w, p in zip(widths_mm, piths, strict=True):
        key = (w, p.toward, p.distance_mm)
        known[key] = known.get(key) or board_section(wood, w, thickness_mm, p, *moistures)
    boards = tuple(known[w, p.toward, p.distance_mm] for w, p in zip(widths_mm, piths, strict=True))
    coarse: dict[tuple[float, complex, float, float, float], dict[str, Points]] = {}

    def piece(b: CrossSection, radial: float, tangential: float) -> dict[str, Points]:
        key = (b.width_mm, b.pith.toward, b.pith.distance_mm, radial, tangential)
        if key not in coarse:
            full = changed_faces(b.width_mm, thickness_mm, b.pith, radial, tangential)
            coarse[key] = {n: face[::_COARSE] for n, face in full.items()}
        return coarse[key]

    def measures(pairs: Sequence[tuple[float, float]]) -> Measures:
        joined = _joined([piece(b, *pair) for b, pair in zip(boards, pairs, strict=True)])
        away = departures(joined["top"])
        return {"out_of_flat": max(away) - min(away)}

    outline = _joined([b.outline for b in boards])
    away = departures(outline["top"])
    value = max(away) - min(away)
    likely = likely_measures(measures, [b.shares for b in boards])["out_of_flat"]
    shift = value - likely.expected
    return PanelSection(
        wood,
        sum(widths_mm),
        boards,
        abs(outline["top"][-1] - outline["top"][0]),
        abs(outline["bottom"][-1] - outline["bottom"][0]),
        -min(away),
        -max(away),
        Range(value, max(0.0, likely.low + shift), likely.high + shift),
        outline,
    )
