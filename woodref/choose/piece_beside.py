"""A piece as drawn beside the same piece with other woods: what must change, and what holds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.choose.wood_pair import WoodPair, wood_pair
from woodref.display import Grid, Shown, number
from woodref.joinery.holding import screw_holes
from woodref.joinery.mend import Resized, resized
from woodref.piece.estimate import Estimate, estimate_piece
from woodref.piece.replaced import Replacement, replaced, without_boards
from woodref.piece.swaps import Swap, species_by_part
from woodref.record import record
from woodref.reference.fasteners import fastener_tables
from woodref.reference.shipping import shipping_facts
from woodref.shipping.lifting import lifting

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.in_use import FixingResult
    from woodref.piece.piece import Piece
    from woodref.quantity import Range
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood


@record
class Pilot:
    """The pilot hole of a screw that bites into a part, before and after [mm]."""

    fixing: str
    before_mm: float
    after_mm: float


@record
class FixingChange:
    """A fixing before and after, and its sizes.

    ``sizes`` None where no size mends it, or a figure of one of the woods is missing.
    """

    before: FixingResult
    after: FixingResult
    sizes: tuple[Resized, ...] | None

    @property
    def held(self) -> bool:
        """True where no size that was given fell short with the first wood."""
        return self.before.fixing is not None and self.before.fixing.holds

    @property
    def holds(self) -> bool:
        """True where none falls short with the other wood, and none to make must be larger."""
        if self.after.fixing is None or not self.after.fixing.holds:
            return False
        return not any(s.grows for s in self.sizes or ())


@record(repr=False)
class PieceBeside(Shown):
    """A piece before and after, with the woods that give way to others.

    ``pairs`` of woods in the order of ``swaps``; ``pilots`` the holes of screws that change;
    ``lifters`` how many people its heaviest lift asks for, before and after; ``outdoors`` True
    where it stands outdoors; ``boards_aside`` True where its file names boards in hand.
    """

    replacement: Replacement
    swaps: tuple[Swap, ...]
    pairs: tuple[WoodPair, ...]
    fixings: tuple[FixingChange, ...]
    pilots: tuple[Pilot, ...]
    lifters: tuple[int | None, int | None]
    outdoors: bool
    boards_aside: bool

    def _line(self) -> str:
        was, now = self.replacement.mass_kg
        woods = ", ".join(
            f"{s.other.common_name} in place of {s.first.common_name}" for s in self.swaps
        )
        name, changed = self.replacement.before.piece.name, [f for f in self.fixings if f.held]
        must = sum(not f.holds for f in changed)
        return f"{name}, {woods}: {number(now)} kg, was {number(was)}; {must} fixings must change"

    def _grid(self) -> Grid:
        return Grid(
            ("fixing", "size", "was [mm]", "make [mm]", "must change"),
            (
                (f.before.spec.name, s.key.value, s.was_mm, s.make_mm, s.grows)
                for f in self.fixings
                for s in f.sizes or ()
            ),
        )

    @property
    def leads(self) -> tuple[tuple[str, Range] | None, tuple[str, Range] | None]:
        """The part that moves most and its change through the year, before and after [mm]."""
        return _leads(self.replacement.before), _leads(self.replacement.after)

    @property
    def unmoved(self) -> bool:
        """True where a part of another wood moves by nobody knows how much."""
        species = self.replacement.species
        return any(p.unmoved and p.part.name in species for p in self.replacement.after.parts)

    @property
    def unsized_mm(self) -> tuple[str, float] | None:
        """The part of another wood that leads, where the file names no fixing of it.

        With how much more it moves than it did [mm]; None where it moves no more.
        """
        first, lead = self.leads
        if self.unmoved or lead is None or lead[0] not in self.replacement.species:
            return None
        if any(f.before.spec.part == lead[0] for f in self.fixings):
            return None
        if first and first[0] == lead[0]:
            more = lead[1].expected - first[1].expected
            return (lead[0], more) if more > 0.0 else None
        swings = (
            abs(p.movements[-1].change_mm) if p.movements else None
            for e in (self.replacement.before, self.replacement.after)
            for p in e.parts
            if p.part.name == lead[0]
        )
        was, now = swings
        return None if was is None or now is None or now <= was else (lead[0], now - was)


def _leads(estimate: Estimate) -> tuple[str, Range] | None:
    if estimate.leading is None:
        return None
    part, move = estimate.leading
    return part.part.name, move.likely_change_mm.unsigned


def piece_beside(
    reference: Reference,
    piece: Piece,
    swaps: Sequence[Swap],
    prices: PriceList | None = None,
    units: str = "",
) -> PieceBeside:
    """A piece as drawn beside the same piece with other woods in some of its parts.

    Its lumber is told with waste added; boards in hand are left aside, so that both are set
    against each other alike.

    Parameters: reference library; piece; swaps as woodref.piece.swaps.swaps_of; prices, None
    where there is no list; units 'us' or 'si' of sizes to make, '' those of the piece.
    Raises: as woodref.piece.estimate.estimate_piece.
    """
    before = estimate_piece(reference, without_boards(piece), prices)
    both = replaced(reference, before, species_by_part(swaps), prices)
    room = piece.room
    return PieceBeside(
        both,
        tuple(swaps),
        tuple(wood_pair(reference, swap.first, swap.other) for swap in swaps),
        tuple(_fixing(one, two, units) for one, two in both.fixings),
        _pilots(reference, both),
        (_lifters(reference, both.before), _lifters(reference, both.after)),
        room is not None and room.season.setting.is_outdoors,
        piece.buying is not None,
    )


def _fixing(before: FixingResult, after: FixingResult, units: str) -> FixingChange:
    if before.fixing is None or after.fixing is None:
        return FixingChange(before, after, None)
    return FixingChange(before, after, resized(before.fixing, after.fixing, units))


def _lifters(reference: Reference, estimate: Estimate) -> int | None:
    """How many people the heaviest lift asks for, None where nothing is weighed."""
    heaviest = estimate.masses.heaviest_lift
    if heaviest is None:
        return None
    return lifting(heaviest[1], shipping_facts(reference)).people


def _soft(wood: Wood) -> bool:
    """True for a softwood, which is bored for a screw by a share of its own."""
    return wood.kind == "softwood"


def _pilots(reference: Reference, both: Replacement) -> tuple[Pilot, ...]:
    """The pilot holes of screws that bite into a part, where hardwood turns to softwood or back.

    Source: FPL-GTR-282 (2021), p. 8-10, 8-11.
    """
    turned = [
        (one.spec, one.wood, two.wood)
        for one, two in both.fixings
        if one.spec.bites and one.spec.sizes.screw and _soft(one.wood) != _soft(two.wood)
    ]
    if not turned:
        return ()
    tables = fastener_tables(reference)

    def hole(wood: Wood, shank_mm: float) -> float:
        holes = screw_holes(shank_mm, tables)
        return holes.softwood_mm if _soft(wood) else holes.hardwood_mm

    return tuple(
        Pilot(spec.name, hole(first, spec.sizes.screw), hole(then, spec.sizes.screw))
        for spec, first, then in turned
        if spec.sizes.screw
    )
