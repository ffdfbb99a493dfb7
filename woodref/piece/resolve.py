"""Everything a piece names, looked up once: woods, boards on hand, finish, prices, rules."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.lumber.prices import PriceList, in_currency
from woodref.lumber.rough import Allowances, usual
from woodref.lumber.stock_on_hand import WrittenBoard, with_woods
from woodref.lumber.tally import Board
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.lumber.turning import glued_turning, is_turned
from woodref.lumber.waste import Waste, WasteOrigin, waste_for
from woodref.lumber.yard import thicknesses_sold
from woodref.note import Note
from woodref.piece.parts_table import Part
from woodref.piece.piece import Piece
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.cautions import Notice, cautions_for, recorded_notices
from woodref.reference.library import Reference
from woodref.reference.looks import Look, look_of
from woodref.reference.panels import panel_figures
from woodref.reference.ratings import decay_note
from woodref.reference.sag_rules import SagRules, sag_rules
from woodref.reference.shipping import ShippingFacts, shipping_facts
from woodref.reference.trade import (
    Grade,
    LiftingLimit,
    grades,
    lifting_limit,
)
from woodref.reference.woods import Wood
from woodref.toml_reader import Mistakes

if TYPE_CHECKING:
    from woodref.drying.finish import Finish

#: Allowances for offcuts, low to high [%] (common practice, no source).
USUAL_WASTE = Waste(Range(25.0, 20.0, 30.0), WasteOrigin.PRACTICE, COMMON_PRACTICE)
USUAL_SHEET_WASTE = Waste(Range(12.5, 10.0, 15.0), WasteOrigin.PRACTICE, COMMON_PRACTICE)
#: Keys of [buying] by the allowance they give.
_ALLOWANCES = {
    "kerf": "kerf_mm",
    "end_trim": "end_trim_mm",
    "length_allowance": "length_mm",
    "width_allowance": "width_mm",
    "planing": "planing_mm",
    "safe_length": "safe_length_mm",
}


@record
class ResolvedPiece:
    """A piece and what it names; every later step computes from this alone.

    ``woods`` by the species names of its parts; ``sold`` the thicknesses that are sold;
    ``prices`` in the currency of the piece, None where there is no list; ``boards`` on hand
    with their woods; ``allowances`` for cutting parts from boards; ``finish`` as the table of
    finishes has it, None where it has none; ``cautions`` recorded for its woods; ``lifting`` the
    limit of one person's lift; ``shipping`` the tables of carriers, None where nothing is
    shipped; ``sag_rules`` what print says of sag, None where nothing spans; ``looks`` how its
    woods look, of those that have one.
    """

    piece: Piece
    woods: Mapping[str, Wood]
    sold: ThicknessesSold
    allowances: Allowances
    waste: Waste = USUAL_WASTE
    sheet_waste: Waste = USUAL_SHEET_WASTE
    prices: PriceList | None = None
    boards: Sequence[tuple[Wood, Board]] = ()
    finish: Finish | None = None
    cautions: tuple[Notice, ...] = ()
    decay: tuple[Note, ...] = ()
    lifting: LiftingLimit | None = None
    shipping: ShippingFacts | None = None
    sag_rules: SagRules | None = None
    looks: tuple[Look, ...] = ()

    @property
    def currency(self) -> str:
        """The currency of its costs, '' where neither piece nor price list names one."""
        return self.prices.currency if self.prices else self.piece.currency


def resolve(
    reference: Reference,
    piece: Piece,
    prices: PriceList | None = None,
    boards: Sequence[WrittenBoard] = (),
) -> ResolvedPiece:
    """Look up everything a piece names.

    Parameters: reference library; piece; prices, None where there is no list; boards on hand,
    for a piece that is cut from boards.
    Raises: InputError, with the file and the table, for a wood or a finish that is unknown, a
    board of no known wood, an allowance that cannot be, and where piece and price list name
    different currencies.
    """
    piece = _with_panels(reference, piece)
    woods = find_woods(piece, reference.wood)
    ids = [i for wood in woods.values() for i in wood.species_ids]
    on_hand = with_woods(boards, woods, reference.wood)
    allowances = allowances_of(reference, piece)
    sold = thicknesses_sold(
        reference,
        woods.values(),
        prices,
        piece.units,
        allowances.planing_mm,
        piece.buying.yard_thicknesses if piece.buying else (),
    )
    return ResolvedPiece(
        piece=_with_turnings(piece, woods, sold, allowances),
        woods=woods,
        boards=on_hand,
        finish=_finish(reference, piece),
        prices=in_currency(prices, piece.currency) if prices else None,
        allowances=allowances,
        sold=sold,
        waste=waste_of_piece(piece, grades(reference) if piece.grade else ()),
        sheet_waste=sheet_waste_of_piece(piece),
        cautions=recorded_notices(cautions_for(reference, ids)),
        decay=_decay(reference, piece, woods),
        lifting=lifting_limit(reference),
        shipping=shipping_facts(reference) if piece.shipping or piece.cartons else None,
        sag_rules=sag_rules(reference) if piece.spans else None,
        looks=_looks(reference, woods),
    )


def _looks(reference: Reference, woods: Mapping[str, Wood]) -> tuple[Look, ...]:
    """How each wood of a piece looks, where that is known."""
    once = {wood.species_id: wood for wood in woods.values()}
    looks = (look_of(reference, key, wood.species_ids) for key, wood in once.items())
    return tuple(look for look in looks if look)


def _decay(reference: Reference, piece: Piece, woods: Mapping[str, Wood]) -> tuple[Note, ...]:
    """The decay class of each wood of a piece that stands outdoors."""
    if piece.room is None or not piece.room.season.setting.is_outdoors:
        return ()
    return tuple(decay_note(reference, wood) for wood in woods.values())


def _with_panels(reference: Reference, piece: Piece) -> Piece:
    """The piece, with what print says of the panels its sheet goods name."""
    named = {p.sheet.name: p.sheet for p in piece.parts if p.sheet and p.sheet.panel}
    if not named:
        return piece
    known = {
        name: replace(sheet, figures=panel_figures(reference, sheet.panel))
        for name, sheet in named.items()
    }
    parts = (
        replace(p, sheet=known[p.sheet.name]) if p.sheet and p.sheet.name in known else p
        for p in piece.parts
    )
    return replace(piece, parts=tuple(parts))


def _with_turnings(
    piece: Piece,
    woods: Mapping[str, Wood],
    sold: ThicknessesSold,
    allowances: Allowances,
) -> Piece:
    """The piece, with the staves of each turned part that is glued from some."""

    def of(part: Part) -> Part:
        if part.sheet or not is_turned(part.shape):
            return part
        wood = woods[part.species]
        glued = glued_turning(part.width_mm, part.staves, part.stock, wood, sold, allowances)
        return replace(part, staves=glued.staves, glued=glued) if glued else part

    return replace(piece, parts=tuple(of(part) for part in piece.parts))


def find_woods(piece: Piece, find: Callable[[str], Wood]) -> dict[str, Wood]:
    """The woods of a piece by the name it uses for them.

    Raises: InputError with file, part and key in front of what ``find`` says of a name that
    is unknown or covers several woods.
    """
    woods: dict[str, Wood] = {}
    mistakes = Mistakes()
    unknown: set[str] = set()
    for part in piece.parts:
        if mistakes.many:
            mistakes.refuse(all_seen=False)
        if part.species and part.species not in woods and part.species not in unknown:
            try:
                woods[part.species] = find(part.species)
            except InputError as error:
                unknown.add(part.species)
                mistakes.add(InputError(f"{piece.file}: {part.place}: species: {error}"))
    mistakes.refuse()
    return woods


def allowances_of(reference: Reference, piece: Piece) -> Allowances:
    """The usual allowances with those of [buying] in their place.

    Raises: InputError naming the file for an allowance that cannot be.
    """
    given = {_ALLOWANCES[key]: mm for key, mm in (piece.buying.allowances if piece.buying else ())}
    try:
        return replace(usual(reference, piece.units).allowances, **given)
    except InputError as error:
        raise InputError(f"{piece.file}: buying: {error.told(piece.units)}") from None


def waste_of_piece(piece: Piece, known: Sequence[Grade] = ()) -> Waste:
    """The waste added to the lumber of a piece: as it has it, else that of its grade, or usual.

    Parameters: piece; known grades. A plan of boards knows its offcuts: they are never added to
    the yield of a grade.
    """
    grade = "" if piece.buying else piece.grade
    return waste_for(None, piece.waste, grade, known, USUAL_WASTE)


def sheet_waste_of_piece(piece: Piece) -> Waste:
    """The waste added to the sheet goods of a piece: as it has it, else the usual."""
    return waste_for(None, piece.sheet_waste, "", (), USUAL_SHEET_WASTE)


def _finish(reference: Reference, piece: Piece) -> Finish | None:
    """The finish of a piece in the table of finishes, None where it has none.

    Raises: InputError naming file and table, for a name or a number of coats that is not there.
    """
    spec = piece.finish
    if spec is None:
        return None
    from woodref.drying.finish import finish_on
    from woodref.reference.finishes import finish_rows

    try:
        return finish_on(finish_rows(reference), spec.name, spec.coats, spec.one_face)
    except InputError as error:
        raise InputError(f"{piece.file}: {spec.place}: {error.told(piece.units)}") from None
