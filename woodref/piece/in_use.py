"""What a piece does where it lives: its spans, its fixings, and the months after delivery."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from woodref.board.beam_material import BeamMaterial, of_panel, of_wood
from woodref.board.deflection import Deflection, deflection
from woodref.board.span import LoadNotNamedError, carrying
from woodref.errors import InputError, NoDataError
from woodref.joinery.clearance import Fixing, fixing_of
from woodref.joinery.fixing_types import FixingSpec
from woodref.joinery.travel import MoistureRange
from woodref.piece.parts_table import Coated, Part, Sheet
from woodref.piece.span_table import PieceSpan
from woodref.record import record
from woodref.reference.sag_rules import SagRules
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from woodref.drying.delivery import Delivery
    from woodref.drying.finish import Finish
    from woodref.piece.part_estimate import PartEstimate
    from woodref.piece.piece import Piece
    from woodref.piece.resolve import ResolvedPiece


@record
class SpanResult:
    """A span of the piece and its sag, None with the reason in ``unknown``.

    ``load_missing`` True where the reason is that nothing says what it carries.
    """

    spec: PieceSpan
    sag: Deflection | None
    unknown: str = ""
    load_missing: bool = False


def spans_of(
    piece: Piece, woods: Mapping[str, Wood], rules: SagRules | None
) -> tuple[SpanResult, ...]:
    """The sag of every span of a piece, at the wettest of its use where none is given.

    Parameters: piece; its woods by name; rules of sag, None for a piece without spans.
    Raises: InputError naming file and table, for a span that cannot be, or a part of sheet goods
    whose file names neither a panel nor a modulus.
    """
    if rules is None:
        return ()
    return tuple(_span_result(piece, woods, rules, spec) for spec in piece.spans)


def _of_sheet(sheet: Sheet) -> BeamMaterial:
    """Sheet goods as a beam takes them.

    Raises: InputError where nothing says how stiff they are.
    """
    return of_panel(sheet.name, sheet.figures, sheet.modulus_mpa, sheet.density_kg_m3)


def _span_result(
    piece: Piece, woods: Mapping[str, Wood], rules: SagRules, spec: PieceSpan
) -> SpanResult:
    where = f"{piece.file}: {spec.place}: "
    part = next(p for p in piece.parts if p.name == spec.part)
    moisture = piece.wettest.moisture_pct if spec.moisture_pct is None else spec.moisture_pct
    try:
        span = carrying(spec.span, spec.load, rules)
        if part.sheet:
            if spec.shear_free or spec.moisture_pct is not None:
                raise InputError("moisture_pct and shear_free are for a part of solid wood")
            material = _of_sheet(part.sheet)
        else:
            material = of_wood(woods[part.species], moisture, spec.shear_free)
        return SpanResult(spec, deflection(material, span, rules, spec.creep_factor, spec.limit))
    except NoDataError as error:
        return SpanResult(spec, None, str(error))
    except LoadNotNamedError:
        return SpanResult(spec, None, "no load is named", load_missing=True)
    except InputError as error:
        raise InputError(f"{where}{error.told(piece.units)}") from None


@record
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
            where = f'{piece.file}: fixing[{n}] "{spec.name}"'
            raise InputError(f"{where}: {error.told(piece.units)}") from None
    return tuple(fixings)


def most_mobile_part(parts: Sequence[PartEstimate]) -> PartEstimate | None:
    """The part of solid wood whose width changes most through the year, None where none does."""
    moving = [p for p in parts if p.movements]
    return max(moving, key=lambda p: abs(p.movements[-1].change_mm), default=None)


def _on_part(finish: Finish, part: Part) -> Finish:
    """The finish of the piece as it is on a part: on one face where the part says so, or none."""
    from woodref.drying.finish import BARE

    if part.coated is Coated.NONE or not finish.name:
        return BARE
    return replace(finish, one_face=True) if part.coated is Coated.ONE else finish


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
    from woodref.drying.finish import BARE

    try:
        return delivery(
            part.wood,
            part.part.width_mm,
            part.part.thickness_mm,
            piece.build.moisture_pct,
            piece.room.season,
            piece.arrival_month or month_after(piece.build_month),
            _on_part(finish or BARE, part.part),
            part.part.ring_angle_deg,
            part.part.staves,
        )
    except (InputError, NoDataError):
        return None  # too thick for the lag to be followed, or of unknown density


@record
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
        spans_of(piece, woods, resolved.sag_rules),
        fixings_of(piece, woods),
        delivery_of(piece, most_mobile_part(parts), resolved.finish),
    )
