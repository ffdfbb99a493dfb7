"""What is added to an amount of lumber for offcuts, where no plan of boards is made."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from woodref.errors import InputError
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.trade import Grade


class WasteOrigin(Enum):
    """What a waste follows from: it was asked for, the piece has it, its grade, shop practice."""

    GIVEN = "given"
    PIECE = "piece"
    GRADE = "grade"
    PRACTICE = "practice"


@record
class Waste:
    """A waste [%] and where it comes from; ``grade`` whose clear face asks for it.

    ``basis`` is a word of woodref.reference.bases, '' where the maker gave it.
    """

    pct: Range
    origin: WasteOrigin
    basis: str = ""
    grade: Grade | None = None


def graded_waste(clear_face_pct: float) -> float:
    """Waste [%] to add where a grade promises only a share of clear face and no plan was made.

    ``100 (100 / yield - 1)``: a yield of 66.7 % asks for half as much again.

    Raises: InputError outside 0 to 100 %.
    Source: the yields of the grading rules are of the best face in clear cuttings, so a plan
    for particular parts may do better or worse.
    """
    if not 0.0 < clear_face_pct <= 100.0:
        raise InputError(f"a yield is above 0 and at most 100 %, not {clear_face_pct:g}")
    return 100.0 * (100.0 / clear_face_pct - 1.0)


def waste_of_grade(grade: str, grades: Sequence[Grade]) -> Waste | None:
    """The waste that the least yield of a grade asks for; None for another name.

    For an amount without a plan, in place of the usual waste, never on top of it.
    Source: as graded_waste.
    """
    named = next((g for g in grades if g.name.lower() == grade.strip().lower()), None)
    if named is None:
        return None
    pct = graded_waste(named.clear_face_pct)
    return Waste(exactly(pct), WasteOrigin.GRADE, named.basis, named)


def waste_for(
    given: Range | None, of_piece: Range | None, grade: str, grades: Sequence[Grade], usual: Waste
) -> Waste:
    """The waste that is asked for, else that of the piece, of the grade, of shop practice.

    Parameters: given and of_piece [%], None where nothing is said; grade to buy, '' for any;
    grades that are known; usual, the waste of shop practice.
    """
    if given is not None:
        return Waste(given, WasteOrigin.GIVEN)
    if of_piece is not None:
        return Waste(of_piece, WasteOrigin.PIECE)
    return (waste_of_grade(grade, grades) if grade else None) or usual
