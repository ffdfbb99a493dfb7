"""A piece with other woods in place of its own: what is estimated again, and what was sized.

The wood is replaced before anything is looked up, so that sizes, stock, build and room stay as
they are in the file and every figure follows from the other wood.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING

from woodref.board.deflection import SagVerdict
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.joinery.fit import Verdict
from woodref.record import record
from woodref.reference.library import Reference

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.estimate import Estimate
    from woodref.piece.in_use import FixingResult, SpanResult
    from woodref.piece.piece import Piece
    from woodref.reference.woods import Wood


class Unjudged(Enum):
    """Why there is no verdict: no size was given to judge, or a figure is missing."""

    NOTHING_GIVEN = "nothing given"
    UNKNOWN = "unknown"


Outcome = Verdict | SagVerdict | Unjudged


def _grade(outcome: Outcome) -> int | None:
    """2 where it holds or nothing was given to judge, down to 0; None where it is not known."""
    if isinstance(outcome, Verdict):
        return outcome.grade
    if outcome is Unjudged.UNKNOWN:
        return None
    return 0 if outcome is SagVerdict.SAGS else 2


@record
class Sized:
    """A fixing or a span sized for the first wood, and what becomes of it.

    ``what`` 'fixing' or 'span'; ``spare_before_mm`` and ``spare_after_mm`` the room left, or
    the sag to spare under its limit, None where not known.
    """

    what: str
    name: str
    part: str
    before: Outcome
    after: Outcome
    spare_before_mm: float | None
    spare_after_mm: float | None

    @property
    def broken(self) -> bool:
        """True where it holds less well than with the first wood."""
        before, after = _grade(self.before), _grade(self.after)
        return before is not None and after is not None and after < before

    @property
    def holds(self) -> bool:
        """True where it holds with the other wood."""
        return _grade(self.after) == 2

    @property
    def unknown(self) -> bool:
        """True where a figure of the other wood is missing."""
        return self.after is Unjudged.UNKNOWN


@record
class Replacement:
    """A piece before and after; ``species`` the new wood of each part that changes, by part."""

    species: Mapping[str, str]
    before: Estimate
    after: Estimate
    sized: tuple[Sized, ...]

    @property
    def parts(self) -> tuple[str, ...]:
        """The names of the parts that change wood."""
        return tuple(self.species)

    @property
    def mass_kg(self) -> tuple[float | None, float | None]:
        """Mass at the build before and after, None where a part is of unknown weight [kg]."""
        return _mass(self.before), _mass(self.after)

    @property
    def cost(self) -> tuple[float | None, float | None]:
        """Cost of all materials before and after, None where some lumber has no price."""
        return _cost(self.before), _cost(self.after)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What the price list does not have of the other wood."""
        return tuple(x.unpriced for x in self.after.lumber if x.unpriced)

    @property
    def fixings(self) -> tuple[tuple[FixingResult, FixingResult], ...]:
        """Each fixing of the parts that change wood, before and after."""
        both = zip(self.before.fixings, self.after.fixings, strict=True)
        return tuple(pair for pair in both if pair[0].spec.part in self.species)

    @property
    def spans(self) -> tuple[tuple[SpanResult, SpanResult], ...]:
        """Each span of the parts that change wood, before and after."""
        both = zip(self.before.spans, self.after.spans, strict=True)
        return tuple(pair for pair in both if pair[0].spec.part in self.species)


def _mass(estimate: Estimate) -> float | None:
    return None if estimate.unweighed else estimate.mass_kg["build"].expected


def _cost(estimate: Estimate) -> float | None:
    if estimate.cost is None or any(line.unpriced for line in estimate.lumber):
        return None
    return estimate.cost.expected


def parts_of_wood(
    piece: Piece, find: Callable[[str], Wood], wood: Wood, part: str = ""
) -> list[str]:
    """The names of the parts of a piece that are of a wood; of the one named alone.

    Raises: InputError naming the file, where no part, or not the named one, is of the wood.
    """
    from woodref.piece.resolve import find_woods

    woods = find_woods(piece, find)
    own = _of_wood(piece, woods, wood)
    if not part:
        if not own:
            raise InputError(
                f"{piece.file}: no part is of {wood.common_name}; it has {_used(woods)}"
            )
        return own
    named = next((p for p in piece.parts if p.name == part), None)
    if named is None:
        near = did_you_mean(part, [p.name for p in piece.parts])
        raise InputError(f"{piece.file}: no part is called '{part}'{near}")
    if part not in own:
        of = woods[named.species].common_name if named.species else "sheet goods"
        raise InputError(f"{piece.file}: the part '{part}' is of {of}, not of {wood.common_name}")
    return [part]


def _of_wood(piece: Piece, woods: Mapping[str, Wood], wood: Wood) -> list[str]:
    """The names of the parts that are of a wood, or of a member of a group."""
    ids = set(wood.species_ids)
    return [p.name for p in piece.parts if p.species and ids & set(woods[p.species].species_ids)]


def _used(woods: Mapping[str, Wood]) -> str:
    """The woods a piece has, for a message."""
    return ", ".join(dict.fromkeys(w.common_name for w in woods.values())) or "no wood"


def without_boards(piece: Piece) -> Piece:
    """The piece without its boards in hand.

    What one wood costs beside another is told by the amount it takes, not by what lies on the
    rack.
    """
    return replace(piece, buying=None)


def with_woods(piece: Piece, species: Mapping[str, str]) -> Piece:
    """The piece with other woods in some of its parts; sizes and stock stay.

    Parameters: piece; species by the names of parts.
    """
    parts = (replace(p, species=species.get(p.name, p.species)) for p in piece.parts)
    return replace(piece, parts=tuple(parts))


def replaced(
    reference: Reference,
    before: Estimate,
    species: Mapping[str, str],
    prices: PriceList | None = None,
) -> Replacement:
    """A piece estimated again with other woods in some parts, the sizes as they were.

    Parameters: reference library; before, the piece as it stands; species by the names of parts,
    each a species_id or a name that means one wood; prices, None where there is no list.
    Raises: as woodref.piece.estimate.estimate_piece.
    """
    # The words of a verdict are said of woods that stand in no piece too.
    from woodref.piece.estimate import estimate_piece

    after = estimate_piece(reference, with_woods(before.piece, species), prices)
    return Replacement(dict(species), before, after, _sized(before, after, species))


def _sized(before: Estimate, after: Estimate, parts: Mapping[str, str]) -> tuple[Sized, ...]:
    sized = []
    for first, then in zip(before.fixings, after.fixings, strict=True):
        if first.spec.part in parts:
            pair = _of_fixing(first), _of_fixing(then)
            sized.append(_pair("fixing", first.spec.name, first.spec.part, *pair))
    for sag, later in zip(before.spans, after.spans, strict=True):
        if sag.spec.part in parts:
            pair = _of_span(sag), _of_span(later)
            sized.append(_pair("span", sag.spec.name, sag.spec.part, *pair))
    return tuple(sized)


def _of_fixing(result: FixingResult) -> tuple[Outcome, float | None]:
    """If a fixing holds, and the room left [mm]."""
    fixing = result.fixing
    if fixing is None:
        return Unjudged.UNKNOWN, None
    spare = fixing.worst.spare_mm if fixing.worst else None
    return fixing.verdict or Unjudged.NOTHING_GIVEN, spare


def _of_span(result: SpanResult) -> tuple[Outcome, float | None]:
    """If a span holds, and the sag to spare under its limit [mm]."""
    sag = result.sag
    if result.load_missing or (sag and sag.verdict is None):
        return Unjudged.NOTHING_GIVEN, None
    if sag is None or sag.verdict is None:
        return Unjudged.UNKNOWN, None
    return sag.verdict, sag.deciding.sag_mm - sag.now_mm.expected


def _pair(
    what: str,
    name: str,
    part: str,
    before: tuple[Outcome, float | None],
    after: tuple[Outcome, float | None],
) -> Sized:
    return Sized(what, name, part, before[0], after[0], before[1], after[1])
