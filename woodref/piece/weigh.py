"""What a piece weighs: its parts and items at the build, when settled, and at either end of use."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from woodref.board.shapes import Shape
from woodref.board.weight import DensityEstimate, density_of
from woodref.errors import NoDataError
from woodref.piece.parts_table import Part
from woodref.piece.resolve import ResolvedPiece
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.woods import Wood
from woodref.shipping.load import WHOLE, Item, Load, WoodPart, load, loads

NOTHING = exactly(0.0)


@record
class Masses:
    """Masses by condition, of the piece, of each part and item by name [kg].

    ``unweighed`` says why a part has none; ``lifts`` what is lifted together at the build, and
    ``one_of`` the same by the names of the file, of an assembly one;
    ``packed`` what is shipped, packaging among the items counted.
    """

    whole: Mapping[str, Range]
    parts: Mapping[str, Mapping[str, Range]]
    items: tuple[Range, ...]
    unweighed: Mapping[str, str]
    densities: Mapping[str, DensityEstimate]
    lifts: tuple[tuple[str, Range], ...]
    packed: Range
    one_of: Mapping[str, Range]

    @property
    def heaviest_lift(self) -> tuple[str, Range] | None:
        """Name and mass of the heaviest lift, None where nothing is weighed."""
        return max(self.lifts, key=lambda lift: lift[1].expected, default=None)


def shape_of(part: Part) -> Shape:
    """The shape of a part, a box where none is given."""
    return part.shape or Shape("box", part.length_mm, part.width_mm, part.thickness_mm)


def _densities(
    woods: Mapping[str, Wood], moisture_pct: float
) -> tuple[dict[str, DensityEstimate], dict[str, str]]:
    """Densities by species name of the file, and why others have none."""
    known, reasons = {}, {}
    for name, wood in woods.items():
        try:
            known[name] = density_of(wood, moisture_pct)
        except NoDataError as error:
            reasons[name] = str(error)
    return known, reasons


def weigh(resolved: ResolvedPiece, finish_kg: float = 0.0) -> Masses:
    """What a piece weighs at the build, at its driest and its wettest, and when settled.

    Parameters: resolved; finish_kg of dry finish.
    Returns: Masses. A part of unknown density is left out, and said.
    Source: woodref.shipping.load; densities FPL-GTR-282 (2021), Eq. 4-14.
    """
    piece, woods = resolved.piece, resolved.woods
    conditions = {name: air.moisture_pct for name, air in piece.conditions.items()}
    conditions["settled"] = piece.settled_pct
    build = conditions["build"]
    densities, reasons = _densities(woods, build)
    lumber = [p for p in piece.parts if p.sheet is None and p.species in densities]
    sheets = [p for p in piece.parts if p.sheet]
    wood_parts = [
        WoodPart(p.name, woods[p.species], shape_of(p), p.quantity, p.staves, p.lift or WHOLE)
        for p in lumber
    ]
    boards = [
        Item(p.name, p.sheet_kg, p.quantity, "sheet goods", p.lift or WHOLE, p.sheet.density_basis)
        for p in sheets
        if p.sheet
    ]
    coat = [Item("finish", finish_kg, 1, "finish")] if finish_kg else []
    items = [*boards, *piece.items, *coat]
    kept = [i for i in items if i.kind != "packaging"]
    each_load: Sequence[Load | None] = [None] * len(conditions)
    if wood_parts or kept:
        each_load = loads(wood_parts, kept, build, list(conditions.values()))
    by_condition = dict(zip(conditions, each_load, strict=True))
    known = [*lumber, *sheets]
    packed = load(wood_parts, items, build, build) if wood_parts or items else None
    first = len(boards) + len(wood_parts)
    counts = {a.name: a.quantity for a in piece.assemblies}
    built = by_condition["build"]
    one_of = _one_of(counts, built, wood_parts, kept, build) if built else {}
    return Masses(
        {name: each.settled_kg if each else NOTHING for name, each in by_condition.items()},
        {
            p.name: {name: each.lines[n].settled_kg for name, each in by_condition.items() if each}
            for n, p in enumerate(known)
        },
        tuple(x.shipped_kg for x in packed.lines[first : first + len(piece.items)])
        if packed
        else (),
        {p.name: reasons[p.species] for p in piece.parts if p.species in reasons},
        densities,
        tuple(
            (f"{name}, each of {counts[name]}" if counts.get(name, 1) > 1 else name, mass)
            for name, mass in one_of.items()
        ),
        packed.shipped_kg if packed else NOTHING,
        one_of,
    )


def _one_of(
    counts: Mapping[str, int],
    whole: Load,
    parts: Sequence[WoodPart],
    items: Sequence[Item],
    build_pct: float,
) -> dict[str, Range]:
    """What is lifted together at the build, by name: of an assembly, one of its ``counts``."""
    one_of = dict(whole.lifts)
    for name, count in counts.items():
        own = [replace(p, quantity=p.quantity // count) for p in parts if p.lift == name]
        with_it = [replace(i, quantity=i.quantity // count) for i in items if i.lift == name]
        if own or with_it:
            one_of[name] = load(own, with_it, build_pct, build_pct).shipped_kg
    return one_of
