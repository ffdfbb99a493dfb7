"""What a piece does where it lives: its spans, its fixings, and the months after delivery."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from woodref.board.deflection import Deflection, deflection
from woodref.errors import InputError, NoDataError
from woodref.joinery.clearance import Fixing, fixing_of
from woodref.joinery.fixing_types import FixingSpec
from woodref.joinery.travel import MoistureRange
from woodref.piece.span_table import PieceSpan
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from woodref.drying.delivery import Delivery
    from woodref.drying.lag import Finish
    from woodref.piece.part_estimate import PartEstimate
    from woodref.piece.piece import Piece
    from woodref.piece.resolve import ResolvedPiece


@dataclass(frozen=True)
class SpanResult:
    """A span of the piece and its sag, None with the reason in ``unknown``."""

    spec: PieceSpan
    wood: Wood
    sag: Deflection | None
    unknown: str = ""


def spans_of(piece: Piece, woods: Mapping[str, Wood]) -> tuple[SpanResult, ...]:
    """The sag of every span of a piece, at the wettest of its use where none is given.

    Raises: InputError naming file and table, for a span that cannot be, or a part of sheet
    goods, whose modulus no table holds.
    """
    spans = []
    parts = {p.name: p for p in piece.parts}
    for spec in piece.spans:
        where = f"{piece.file}: {spec.place}: "
        part = parts[spec.part]
        if part.sheet:
            raise InputError(
                f"{where}part: '{part.name}' is of sheet goods, whose stiffness no table here "
                "holds; name a part of solid wood"
            )
        wood = woods[part.species]
        moisture = piece.wettest.moisture_pct if spec.moisture_pct is None else spec.moisture_pct
        try:
            sag = deflection(
                wood, spec.span, moisture, spec.creep_factor, spec.shear_free, spec.limit_mm
            )
            spans.append(SpanResult(spec, wood, sag))
        except NoDataError as error:
            spans.append(SpanResult(spec, wood, None, str(error)))
        except InputError as error:
            raise InputError(f"{where}{error}") from None
    return tuple(spans)


@dataclass(frozen=True)
class FixingResult:
    """A fixing of the piece and what it needs, None with the reason in ``unknown``."""

    spec: FixingSpec
    wood: Wood
    fixing: Fixing | None
    unknown: str = ""


def fixings_of(piece: Piece, woods: Mapping[str, Wood]) -> tuple[FixingResult, ...]:
    """What every fixing of a piece needs, fitted at the build, from its driest to its wettest.

    Raises: InputError naming file and fixing, for one that cannot be.
    """
    fixings = []
    parts = {p.name: p for p in piece.parts}
    moisture = MoistureRange(*(air.moisture_pct for air in piece.conditions.values()))
    for n, spec in enumerate(piece.fixings, 1):
        wood = woods[parts[spec.part].species]
        try:
            fixings.append(FixingResult(spec, wood, fixing_of(spec, wood, moisture)))
        except NoDataError as error:
            fixings.append(FixingResult(spec, wood, None, str(error)))
        except InputError as error:
            raise InputError(f'{piece.file}: fixing[{n}] "{spec.name}": {error}') from None
    return tuple(fixings)


def most_mobile_part(parts: Sequence[PartEstimate]) -> PartEstimate | None:
    """The part of solid wood whose width changes most through the year, None where none does."""
    moving = [p for p in parts if p.movements]
    return max(moving, key=lambda p: abs(p.movements[-1].change_mm), default=None)


def delivery_of(piece: Piece, part: PartEstimate | None, finish: Finish | None) -> Delivery | None:
    """The part that moves most, month by month after delivery, through the lag of its thickness.

    Parameters: piece; the part, None where no part moves; finish on it, None where it is bare.
    It arrives at the beginning of its month of arrival, else of the one after the build, else
    of January.
    Returns: Delivery; None where the piece names no room it lives in, or the wood has no density.
    Source: woodref.drying.delivery.
    """
    if piece.room is None or part is None or part.wood is None:
        return None
    from woodref.drying.delivery import delivery, month_after
    from woodref.drying.lag import BARE

    try:
        return delivery(
            part.wood,
            part.part.width_mm,
            part.part.thickness_mm,
            piece.build.moisture_pct,
            piece.room.season,
            piece.arrival_month or month_after(piece.build_month),
            finish or BARE,
            part.part.ring_angle_deg,
            part.part.staves,
        )
    except (InputError, NoDataError):
        return None  # too thick for the lag to be followed, or of unknown density


@dataclass(frozen=True)
class InUse:
    """What a piece does where it lives: its spans, its fixings, the months after delivery."""

    spans: tuple[SpanResult, ...]
    fixings: tuple[FixingResult, ...]
    delivery: Delivery | None


def in_use(resolved: ResolvedPiece, parts: Sequence[PartEstimate]) -> InUse:
    """What a piece does where it lives.

    Parameters: resolved; parts as they are estimated.
    Raises: InputError naming file and table, for a span or a fixing that cannot be.
    """
    piece, woods = resolved.piece, resolved.woods
    return InUse(
        spans_of(piece, woods),
        fixings_of(piece, woods),
        delivery_of(piece, most_mobile_part(parts), resolved.finish),
    )


def tightest(fixings: Iterable[FixingResult], part: str) -> Fixing | None:
    """The fixing of a part that is nearest to running out of room, by the sizes given for it.

    Glued joints, and fixings without given sizes, are passed over; None where no other is left.
    """
    known = [r.fixing for r in fixings if r.fixing and r.spec.part == part]
    checked = [f for f in known if f.worst and f.spec.kind != "glued"]
    return min(
        checked,
        key=lambda f: f.worst.spare_mm / f.travel.distance_mm if f.worst else 0.0,
        default=None,
    )
