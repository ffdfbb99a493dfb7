"""What is particular to a piece: what its maker wrote, and what is so of its woods and parts."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.lumber.multiples import Multiple
from woodref.lumber.rough import SAFE_LENGTH_MM
from woodref.lumber.turning import GluedTurning
from woodref.lumber.waste import WasteOrigin
from woodref.note import Note
from woodref.piece.buy import Bought
from woodref.piece.cost import PartStock
from woodref.piece.part_estimate import PartEstimate
from woodref.piece.parts_table import Part
from woodref.piece.resolve import ResolvedPiece
from woodref.reference.bases import COMMON_PRACTICE, UNCHECKED, in_words
from woodref.units import KINDS

#: Code of what the maker wrote of the whole piece.
PIECE = "piece"
#: A single board wider than this is rare enough to remark on [mm] (common practice, no source).
WIDE_BOARD_MM = 305.0


def remarks(
    resolved: ResolvedPiece, parts: Sequence[PartEstimate], bought: Bought
) -> tuple[Note, ...]:
    """What the maker wrote, what is particular to a wood or a part, and which prices serve.

    Parameters: resolved; parts; bought, what is bought for them.
    """
    piece = resolved.piece
    said = [Note(PIECE, piece.note)] if piece.note else []
    said += [
        Note("wood", f"{wood.common_name}: {wood.note}")
        for wood in resolved.woods.values()
        if wood.note
    ]
    said += [
        Note("trade-name", f"yards sell {n.woods} woods as {n.name}: '{n.group}' takes their mean")
        for n in dict.fromkeys(w.trade_name for w in resolved.woods.values() if w.trade_name)
    ]
    said += resolved.decay
    for part in parts:
        said += [*_of_part(part), *_round_or_end(part), *_glued(part)]
    said += _short(resolved, [p.part for p in parts if p.wood], bought.multiples)
    said += [Note("thicker-listed", f"{name}: {t.words}") for name, t in bought.thicker_listed]
    return (*dict.fromkeys(said), *_prices(resolved), *_graded(resolved))


def _of_part(p: PartEstimate) -> list[Note]:
    """What is particular to a part."""
    name, said = p.part.name, []
    if p.part.note:
        said.append(Note("part", f"{name}: {p.part.note}"))
    if p.stock and p.stock.unchecked:
        label = p.stock.nominal.label
        said.append(
            Note(
                "stock-size",
                f"{name}: the dressed size of {label} is recalled, not seen in print",
                UNCHECKED,
            )
        )
    if p.unmoved:
        said.append(Note("unmoved", f"{name}: movement is not known: {p.unmoved}"))
    if p.wood and p.part.staves == 1 and p.part.width_mm > WIDE_BOARD_MM:
        said.append(
            Note(
                "wide-board",
                f"{name}: counted as one board, wider than most; "
                "if it is glued up, write staves = their number",
                COMMON_PRACTICE,
            )
        )
    if p.wood and p.movements and not p.movements[0].basis.by_shrinkage:
        how = "moves by the change per 1 % moisture content as printed"
        said.append(Note("movement-method", f"{p.wood.common_name} {how}"))
    notes = [note for m in p.movements for note in m.notes]
    return said + [n.headed(f"{name}: ") for n in notes]


def _round_or_end(p: PartEstimate) -> list[Note]:
    """That a round part turns oval, and that one of end grain moves along both sides."""
    size, name = KINDS["size"].text, p.part.name
    if p.lengths:
        swing_mm = abs(p.lengths[-1].change_mm)
        return [
            Note.told(
                "end-grain",
                lambda units: (
                    f"{name}: end grain: its length moves by {size(swing_mm, units)} through the "
                    "year too, its thickness does not"
                ),
            )
        ]
    if p.part.shape and p.part.shape.kind in ("disc", "ring") and p.movements:
        dry, wet, _ = p.movements
        return [
            Note.told(
                "turns-oval",
                lambda units: (
                    f"{name}: turns oval: {size(p.part.width_mm, units)} along the grain all year, "
                    f"across it {size(dry.after_mm, units)} at the driest and "
                    f"{size(wet.after_mm, units)} at the wettest"
                ),
            )
        ]
    return []


def _glued(p: PartEstimate) -> list[Note]:
    """Of what a turning is glued, and the oval that its section becomes."""
    glued, stock = p.part.glued, p.stock
    if glued is None or stock is None:
        return []
    return [
        Note.told(
            "glued-turning", lambda units: _glued_text(p, glued, stock, units), COMMON_PRACTICE
        )
    ]


def _glued_text(p: PartEstimate, glued: GluedTurning, stock: PartStock, units: str) -> str:
    size, name = KINDS["size"].text, p.part.name
    lines = "glue line" if glued.glue_faces == 1 else "glue lines"
    said = (
        f"{name}: glued from {glued.staves} staves {size(glued.stave_mm, units)} thick, "
        f"{stock.nominal.label}, face to face, {glued.glue_faces} {lines} in each; lay the rings "
        "of all staves the same way"
    )
    if p.movements and p.thicknesses:
        (dry, wet, _), (thin, thick, _) = p.movements, p.thicknesses
        said += (
            f". Turned round, it is {size(dry.after_mm, units)} along the glue lines by "
            f"{size(thin.after_mm, units)} across them at the driest, {size(wet.after_mm, units)} "
            f"by {size(thick.after_mm, units)} at the wettest"
        )
    return said


def _short(
    resolved: ResolvedPiece, parts: Sequence[Part], multiples: Sequence[Multiple]
) -> list[Note]:
    """That short parts are not machined one by one, and how many come from one blank."""
    allowances, size = resolved.allowances, KINDS["size"].text
    safe = allowances.safe_length_mm or SAFE_LENGTH_MM[resolved.piece.units]
    short = [p.name for p in parts if p.length_mm + allowances.length_mm < safe]
    if not short:
        return []

    def text(units: str) -> str:
        names = []
        for name in short:
            blanks = dict.fromkeys(
                f"{m.pieces} from one of {size(m.length_mm, units)}"
                for m in multiples
                if m.part.name == name or m.part.name.startswith(f"{name}, stave ")
            )
            names.append(f"{name} ({', '.join(blanks)})" if blanks else name)
        return (
            f"{', '.join(names)}: blanks shorter than {size(safe, units)}: plane and rip several "
            "in one length and crosscut last; short pieces kick back"
        )

    return [Note.told("short-blank", text, COMMON_PRACTICE)]


def _prices(resolved: ResolvedPiece) -> list[Note]:
    """Which price list serves."""
    return [Note("prices", f"Prices: {resolved.prices.file}")] if resolved.prices else []


def _graded(resolved: ResolvedPiece) -> list[Note]:
    """Why the grade of the lumber asks for its waste."""
    waste = resolved.waste
    if waste.origin is not WasteOrigin.GRADE or waste.grade is None:
        return []
    grade = waste.grade
    return [
        Note(
            "grade",
            f"waste from the clear face that {grade.name} promises, {grade.clear_face_pct:.4g} % "
            f"[{in_words(grade.basis)}]: {grade.source}",
            grade.basis,
        )
    ]
