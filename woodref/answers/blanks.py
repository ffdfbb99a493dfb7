"""The tables of blanks that are more than one board for one part: multiples, glued turnings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Column, Section

if TYPE_CHECKING:
    from woodref.lumber.cut_list import CutPart
    from woodref.lumber.multiples import Multiple
    from woodref.piece.parts_table import Part

_MULTIPLES = [
    Column("part", "part"),
    Column("pieces_in_blank", "from one blank", "count"),
    Column("long_blanks", "blanks", "count"),
    Column("length", "rough length", "size"),
    Column("width", "rough width", "size"),
]
_TURNINGS = [
    Column("part", "turned part"),
    Column("quantity", "no.", "count"),
    Column("staves", "staves in each", "count"),
    Column("stave_thickness", "each thick", "size"),
    Column("stave_width", "rough width", "size"),
    Column("length", "finished length", "size"),
    Column("glue_faces", "glue lines", "count"),
    Column("glue_area", "glue area, all", "area"),
]


def multiple_section(multiples: Sequence[Multiple]) -> Section:
    """Short parts that come several from one blank: how many, and the rough size of the blank."""
    rows = ((m.part.name, m.pieces, m.blanks, m.length_mm, m.width_mm) for m in multiples)
    title = "Short parts: several end to end in one blank, crosscut last"
    return Section.of("multiples", title, _MULTIPLES, rows)


def turning_section(parts: Iterable[CutPart | Part]) -> Section:
    """Turned parts glued from staves: too thick for a board, or asked so; the others left out."""
    rows = (
        (
            p.name,
            p.quantity,
            p.glued.staves,
            p.glued.stave_mm,
            p.glued.side_mm,
            p.length_mm,
            p.glued.glue_faces,
            p.quantity * p.glued.glue_area_m2(p.length_mm),
        )
        for p in parts
        if p.glued
    )
    return Section.of("turnings", "Turnings glued from staves, face to face", _TURNINGS, rows)
