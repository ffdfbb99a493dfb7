"""How the lumber of a piece is bought: by a plan of boards, by its grade, or by a waste factor."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from woodref.cutting.model import Progress
from woodref.errors import InputError
from woodref.lumber.buying import BuyingPlan, Yard, buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.prices import PriceList
from woodref.lumber.rough import Allowances, usual, waste_of_grade
from woodref.lumber.tally import Board
from woodref.piece.piece import Piece
from woodref.reference.library import Reference
from woodref.reference.trade import dressed_thicknesses, grades
from woodref.reference.woods import Wood

#: Keys of [buying] by the allowance they give.
_ALLOWANCES = {
    "kerf": "kerf_mm",
    "end_trim": "end_trim_mm",
    "length_allowance": "length_mm",
    "width_allowance": "width_mm",
    "planing": "planing_mm",
}


def allowances_of(reference: Reference, piece: Piece) -> Allowances:
    """The usual allowances with those of [buying] in their place.

    Raises: InputError naming the file for an allowance that cannot be.
    """
    given = {_ALLOWANCES[key]: mm for key, mm in (piece.buying.allowances if piece.buying else ())}
    try:
        return replace(usual(reference).allowances, **given)
    except InputError as error:
        raise InputError(f"{piece.file}: buying: {error}") from None


def plan_of(
    reference: Reference,
    piece: Piece,
    woods: Mapping[str, Wood],
    prices: PriceList | None,
    in_hand: Sequence[tuple[Wood, Board]] = (),
    report: Callable[[str, Progress], None] | None = None,
) -> BuyingPlan | None:
    """The plan that cuts the parts of a piece from boards, None where it asks for none.

    Parameters: piece with its table [buying]; woods by the species names of its parts; prices;
    in_hand the boards in hand with their woods; report as woodref.lumber.buying.
    Raises: InputError naming the file, as woodref.lumber.buying.buying_plan.
    """
    spec = piece.buying
    parts = cut_parts_of(piece)
    if spec is None or not parts:
        return None
    allowances = allowances_of(reference, piece)
    try:
        yard = Yard(spec.yard_widths_mm, spec.yard_lengths_mm) if spec.yard_widths_mm else None
        return buying_plan(
            parts,
            woods,
            dressed_thicknesses(reference),
            allowances,
            piece.waste,
            in_hand,
            yard,
            prices,
            piece.grade,
            spec.seconds,
            report=report,
            units=piece.units,
        )
    except InputError as error:
        raise InputError(f"{piece.file}: {error}") from None


def by_grade(reference: Reference, piece: Piece) -> tuple[Piece, tuple[str, ...]]:
    """The piece with the waste of its grade, where it names one and no waste or plan; and why.

    A plan knows its offcuts, and a waste that is given is meant: neither is ever added to the
    yield of a grade.
    """
    if not piece.grade or piece.waste_given or piece.buying:
        return piece, ()
    found = waste_of_grade(piece.grade, grades(reference))
    if found is None:
        return piece, ()
    grade, waste = found
    why = (
        f"waste from the clear face that {grade.name} promises, {grade.clear_face_pct:.4g} % "
        f"[{grade.basis}]: {grade.source}"
    )
    return replace(piece, waste=waste, waste_given=True), (why,)


def cut_parts_of(piece: Piece) -> tuple[CutPart, ...]:
    """The parts of solid wood of a piece; a panel whose staves have widths of their own is one
    part for each of them. Sheet goods are left out.
    """
    found: list[CutPart] = []
    for p in piece.parts:
        if p.sheet:
            continue
        whole = CutPart(
            p.name,
            p.length_mm,
            p.width_mm,
            p.thickness_mm,
            p.species,
            p.quantity,
            p.staves,
            p.shape,
            p.lift,
            p.stock,
        )
        if len({round(s.width_mm, 3) for s in p.panel}) <= 1:
            found.append(whole)
            continue
        found += [
            replace(whole, name=f"{p.name}, stave {k}", width_mm=s.width_mm, staves=1, shape=None)
            for k, s in enumerate(p.panel, 1)
        ]
    return tuple(found)
