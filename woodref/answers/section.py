"""Answers about a cross-section: the cup first, then every face, then what it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from woodref.answers.provenance import (
    based_on,
    basis_notes,
    recalled_line,
    sentence,
    sentences,
    spread_notes,
)
from woodref.answers.render import Answer, Column, Section
from woodref.answers.words import identity, percent_text
from woodref.board.cross_section import CrossSection, Face, Round
from woodref.board.movement import Shares
from woodref.board.outline import FACES, Pith
from woodref.board.panel_section import PanelSection
from woodref.quantity import Range
from woodref.reference.woods import Wood
from woodref.units import KINDS

#: Less than this is called flat, square or round: half a thousandth of an inch [mm].
_FLAT_MM = 0.0127
#: From this cup on a board rocks on a flat table: 1/64 in (common practice, no source) [mm].
_ROCKS_MM = 0.4
#: A piece not wider than this many times its thickness is answered as a squared leg.
_LEG = 1.5
#: A face is cut into so many pieces in the outline given to programs.
_PIECES = 32
_NOTES = (
    "Rings are taken as circles around the pith, the moisture as the same throughout, and the "
    "piece as free to move: the pith, knots, slanting grain and a dry surface over a wet core add "
    "to it.",
    "Method: a point at distance r and angle a from the pith goes to r (1 - sr) and "
    "a (1 - st) / (1 - sr), which shrinks it by sr across and st along the rings everywhere.",
    "Radial and tangential shrinkage of a board are taken to correlate by 0.5, as two boards do "
    "(our assumption).",
)
_CAUTION = (
    "A cupped board rocks, and can bind the saw and be thrown back: flatten one face before "
    "ripping, with guards in place (common practice, no source)."
)


def _likely(figure: Range, units: str) -> str:
    ends = [KINDS["change_end"].text(x, units) for x in (figure.low, figure.high)]
    return f"likely {ends[0].rpartition(' ')[0]} to {ends[1]}"


def _placed(pith: Pith, half_width_mm: float, half_thickness_mm: float, units: str) -> str:
    """Where the pith lies, in words: how far from the face, or how the rings run.

    Parameters: pith; half_width_mm, half_thickness_mm of the piece [mm]; units.
    """
    rings = f"rings at {pith.ring_angle_deg:.0f} degrees to the face"
    if pith.far:
        return f"straight {rings}"
    size, x, y = KINDS["size"].text, pith.point.real, pith.point.imag
    if abs(x) < 1e-6:
        where = "below" if y < 0.0 else "above"
        return f"the pith {size(abs(y) - half_thickness_mm, units)} {where}"
    if abs(y) < 1e-6:
        where = "left" if x < 0.0 else "right"
        return f"the pith {size(abs(x) - half_width_mm, units)} to the {where}"
    return f"{rings} in the middle, {size(pith.distance_mm, units)} from the pith"


def _outline(points: Iterable[complex], units: str) -> list[list[float]]:
    number = KINDS["change"].number
    return [[number(z.real, units), number(z.imag, units)] for z in points]


def _facts(wood: Wood, shares: Shares, start: float, end: float, pith: Pith) -> list[Any]:
    return [
        (Column("wood", ""), wood.common_name),
        (Column("botanical_name", ""), wood.botanical_name),
        (Column("from_moisture", "", "percent"), start),
        (Column("to_moisture", "", "percent"), end),
        (Column("radial_shrinkage", "", "percent"), 100.0 * shares.radial),
        (Column("tangential_shrinkage", "", "percent"), 100.0 * shares.tangential),
        (Column("ring_angle_deg", ""), round(pith.ring_angle_deg, 2)),
        (Column("pith_from_middle", "", "size"), None if pith.far else pith.distance_mm),
    ]


def _notes(wood: Wood, shares: Shares, rocks: bool) -> list[str]:
    used = (shares.basis.tangential, shares.basis.radial)
    return [
        *identity(wood),
        *sentences(shares.notes),
        *([_CAUTION] if rocks else []),
        *_NOTES,
        f"Computed from {shares.basis.method}.",
        *basis_notes(used),
        *spread_notes(used),
    ]


def _bent(cup_mm: float) -> str:
    if abs(cup_mm) < _FLAT_MM:
        return "straight"
    return "hollow" if cup_mm > 0.0 else "rounded"


def _crosses_zero(figure: Range) -> list[str]:
    if abs(figure.expected) < _FLAT_MM or figure.low * figure.high >= 0.0:
        return []
    return ["The likely range passes zero: a single board may bend the other way."]


def _faces_section(s: CrossSection) -> Section:
    columns = [
        Column("face", "face"),
        Column("side", "side"),
        Column("before", "now", "size"),
        Column("after", "then", "size"),
        Column("change", "change", "change"),
        Column("length", "", "size"),
        Column("shape", "shape"),
        Column("cup", "cup", "change"),
        Column("cup_low", "likely from", "change_end"),
        Column("cup_high", "to", "change_end"),
    ]
    rows = [
        {
            "face": f.name,
            "side": f.side,
            "before": f.before_mm,
            "after": f.after_mm,
            "change": f.after_mm - f.before_mm,
            "length": f.along_mm,
            "shape": _bent(f.cup_mm.expected),
            "cup": f.cup_mm.expected,
            "cup_low": f.cup_mm.low,
            "cup_high": f.cup_mm.high,
        }
        for f in (s.faces[n] for n in ("top", "bottom", "left", "right"))
    ]
    return Section("faces", "", columns, rows)


def _where(face: Face) -> str:
    """'on the bark side', or 'above' where the faces are alike."""
    if face.side:
        return f"on the {face.side}"
    return "above" if face.name == "top" else "below"


def _cup_words(s: CrossSection, units: str) -> str:
    face = s.cupped
    if abs(face.cup_mm.expected) < _FLAT_MM:
        less = "half a thousandth of an inch" if units == "us" else "0.02 mm"
        return f"it stays flat, a cup of less than {less}"
    cup = KINDS["change"].text(face.cup_mm.expected, units)
    return f"it cups {cup}, hollow {_where(face)}, {_likely(face.cup_mm, units)}"


def _corner_words(out_of_square_deg: float) -> str:
    off = f"{abs(out_of_square_deg):.1f}"
    return "stay square" if off == "0.0" else f"are at most {off} degrees off square"


def _leg_words(s: CrossSection, units: str) -> str:
    change, gap = KINDS["change"].text, s.diagonal_difference_mm
    if abs(gap.expected) < _FLAT_MM:
        wide, thick = (s.faces[n].after_mm - s.faces[n].before_mm for n in ("bottom", "right"))
        return (
            f"its width changes by {change(wide, units)} and its thickness by "
            f"{change(thick, units)}; its corners stay square"
        )
    ends = sorted((abs(gap.low), abs(gap.high))) if gap.low * gap.high > 0.0 else None
    likely = _likely(Range(gap.expected, *ends), units) if ends else _likely(gap, units)
    return (
        f"it becomes a diamond, its diagonals {change(abs(gap.expected), units)} apart, {likely}, "
        f"and its corners {abs(s.out_of_square_deg):.1f} degrees off square"
    )


def _is_leg(s: CrossSection) -> bool:
    return 1.0 / _LEG <= s.width_mm / s.thickness_mm <= _LEG


def _oval_words(r: Round, units: str) -> str:
    across = "across the rings" if r.shares.tangential > 0.0 else "along the rings"
    if r.oval_mm.expected < _FLAT_MM:
        return "it stays round"
    return (
        f"it becomes oval, {KINDS['change'].text(r.oval_mm.expected, units)} thicker {across}, "
        f"{_likely(r.oval_mm, units)}"
    )


def _flat_words(p: PanelSection, units: str) -> str:
    if p.out_of_flat_mm.expected < _FLAT_MM:
        return "it stays flat"
    return (
        f"it goes {KINDS['change'].text(p.out_of_flat_mm.expected, units)} out of flat, {p.shape}, "
        f"{_likely(p.out_of_flat_mm, units)}"
    )


def change_words(found: CrossSection | Round | PanelSection, units: str) -> str:
    """'from 12 % to 6 % it cups 0.064 in, ...': what becomes of a piece, in the words it needs.

    Parameters: found; units 'us' or 'si'.
    """
    if isinstance(found, Round):
        words = _oval_words(found, units)
    elif isinstance(found, PanelSection):
        words = _flat_words(found, units)
    else:
        words = (_leg_words if _is_leg(found) else _cup_words)(found, units)
    first = found.boards[0] if isinstance(found, PanelSection) else found
    return (
        f"from {percent_text(first.from_moisture_pct)} to {percent_text(first.to_moisture_pct)} "
        f"{words}"
    )


def section_answer(found: CrossSection | Round | PanelSection, rings: str, units: str) -> Answer:
    """What becomes of a board, a round or a panel.

    Parameters: found; rings of a panel, 'alike' or 'alternating'; units 'us' or 'si'.
    """
    if isinstance(found, Round):
        return round_answer(found, units)
    if isinstance(found, PanelSection):
        return panel_answer(found, rings, units)
    return board_answer(found, units)


def board_answer(s: CrossSection, units: str) -> Answer:
    """What becomes of a board, or of a squared leg.

    Parameters: s; units 'us' or 'si'.
    """
    size = KINDS["size"].text
    used = (s.shares.basis.tangential, s.shares.basis.radial)
    placed = _placed(s.pith, s.width_mm / 2.0, s.thickness_mm / 2.0, units)
    leg = _is_leg(s)
    lead = (
        f"{sentence(s.wood.common_name)}, {size(s.width_mm, units)} x "
        f"{size(s.thickness_mm, units)}, {placed}: {change_words(s, units)}."
    )
    second = (
        f"Then it is {size(s.faces['top'].after_mm, units)} wide above, "
        f"{size(s.faces['bottom'].after_mm, units)} below, and {size(s.middle_mm, units)} thick in "
        f"the middle; its corners {_corner_words(s.out_of_square_deg)}."
    )
    rocks = not leg and s.cupped.cup_mm.expected >= _ROCKS_MM
    told = s.diagonal_difference_mm if leg else s.cupped.cup_mm
    outline = [z for n in FACES for z in s.outline[n][:: len(s.outline[n]) // _PIECES][:_PIECES]]
    return Answer(
        headline=[lead, *([] if leg else [second]), *recalled_line(used)],
        facts=[
            *_facts(s.wood, s.shares, s.from_moisture_pct, s.to_moisture_pct, s.pith),
            (Column("width", "", "size"), s.width_mm),
            (Column("thickness", "", "size"), s.thickness_mm),
            (Column("middle_thickness", "", "size"), s.middle_mm),
            (Column("out_of_square_deg", ""), round(s.out_of_square_deg, 3)),
            (Column("corners_deg", ""), [round(c, 3) for c in s.corners_deg]),
            (Column("diagonal_difference", "", "change"), s.diagonal_difference_mm.expected),
            (Column("diagonal_difference_low", "", "change"), s.diagonal_difference_mm.low),
            (Column("diagonal_difference_high", "", "change"), s.diagonal_difference_mm.high),
            (Column("outline", "", "change"), _outline(outline, units)),
        ],
        sections=[_faces_section(s), based_on(used)],
        notes=[*_crosses_zero(told), *_notes(s.wood, s.shares, rocks)],
    )


def round_answer(r: Round, units: str) -> Answer:
    """What becomes of a dowel or turned leg.

    Parameters: r; units 'us' or 'si'.
    """
    size = KINDS["size"].text
    used = (r.shares.basis.tangential, r.shares.basis.radial)
    placed = _placed(r.pith, r.diameter_mm / 2.0, r.diameter_mm / 2.0, units)
    lead = (
        f"{sentence(r.wood.common_name)}, a round of {size(r.diameter_mm, units)}, "
        f"{placed}: {change_words(r, units)}."
    )
    keys = ("widest", "narrowest", "oval", "oval_low", "oval_high")
    heads = ("widest", "narrowest", "difference", "likely from", "to")
    kinds = ("size", "size", "change", "change_end", "change_end")
    row = (r.widest_mm, r.narrowest_mm, r.oval_mm.expected, r.oval_mm.low, r.oval_mm.high)
    columns = [Column(*c) for c in zip(keys, heads, kinds, strict=True)]
    return Answer(
        headline=[lead, *recalled_line(used)],
        facts=[
            *_facts(r.wood, r.shares, r.from_moisture_pct, r.to_moisture_pct, r.pith),
            (Column("diameter", "", "size"), r.diameter_mm),
            (Column("outline", "", "change"), _outline(r.outline[::4][:-1], units)),
        ],
        sections=[
            Section("round", "", columns, [dict(zip(keys, row, strict=True))]),
            based_on(used),
        ],
        notes=[*_crosses_zero(r.oval_mm), *_notes(r.wood, r.shares, False)],
    )


def panel_answer(p: PanelSection, rings: str, units: str) -> Answer:
    """What becomes of a panel of boards.

    Parameters: p; rings 'alike' or 'alternating'; units 'us' or 'si'.
    """
    size = KINDS["size"].text
    first = p.boards[0]
    used = (first.shares.basis.tangential, first.shares.basis.radial)
    flat = p.out_of_flat_mm.expected < _FLAT_MM
    placed = _placed(first.pith, first.width_mm / 2.0, first.thickness_mm / 2.0, units)
    lead = (
        f"{sentence(p.wood.common_name)}, a panel of {len(p.boards)} boards of "
        f"{size(first.width_mm, units)} x {size(first.thickness_mm, units)}, rings {rings}, "
        f"{placed}{' the first' if rings == 'alternating' else ''}: {change_words(p, units)}."
    )
    second = (
        f"{size(p.width_mm, units)} wide now, it is {size(p.top_mm, units)} then, straight across "
        "the top from edge to edge."
    )
    columns = [
        Column("board", "board", "count"),
        Column("hollow", "hollow"),
        Column("top_after", "top then", "size"),
        Column("bottom_after", "bottom then", "size"),
        Column("cup", "cup by itself", "change"),
        Column("cup_low", "likely from", "change_end"),
        Column("cup_high", "to", "change_end"),
    ]
    rows = [
        {
            "board": i,
            "hollow": "flat" if b.cupped.cup_mm.expected < _FLAT_MM else _hollow(b.cupped),
            "top_after": b.faces["top"].after_mm,
            "bottom_after": b.faces["bottom"].after_mm,
            "cup": b.cupped.cup_mm.expected,
            "cup_low": b.cupped.cup_mm.low,
            "cup_high": b.cupped.cup_mm.high,
        }
        for i, b in enumerate(p.boards, start=1)
    ]
    outline = [z for n in FACES for z in p.outline[n][:: 512 // 8]]
    return Answer(
        headline=[lead, second, *recalled_line(used)],
        facts=[
            *_facts(
                p.wood, first.shares, first.from_moisture_pct, first.to_moisture_pct, first.pith
            ),
            (Column("rings", ""), rings),
            (Column("width", "", "size"), p.width_mm),
            (Column("thickness", "", "size"), first.thickness_mm),
            (Column("top", "", "size"), p.top_mm),
            (Column("bottom", "", "size"), p.bottom_mm),
            (Column("shape", ""), "flat" if flat else p.shape),
            (Column("highest", "", "change"), p.highest_mm),
            (Column("lowest", "", "change"), p.lowest_mm),
            (Column("out_of_flat", "", "change"), p.out_of_flat_mm.expected),
            (Column("out_of_flat_low", "", "change"), p.out_of_flat_mm.low),
            (Column("out_of_flat_high", "", "change"), p.out_of_flat_mm.high),
            (Column("outline", "", "change"), _outline(outline, units)),
        ],
        sections=[Section("boards", "", columns, rows), based_on(used)],
        notes=[
            "Boards are put edge to edge as they come, each bent by itself; the stress in the "
            "joints is left out.",
            *_notes(p.wood, first.shares, False),
        ],
    )


def _hollow(face: Face) -> str:
    return "above" if face.name == "top" else "below"
