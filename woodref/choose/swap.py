"""A piece with one wood in place of another: weight, cost, and what was sized for the first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.joinery.fit import Verdict
from woodref.piece.estimate import Estimate, estimate_piece
from woodref.piece.resolve import find_woods
from woodref.reference.library import Reference

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece
    from woodref.reference.woods import Wood

#: Verdicts of fixings and spans by how well they hold; '' where nothing was given to judge.
_GRADES: dict[str, int] = {
    **{str(v): v.grade for v in Verdict},
    "": 2,
    "sags too far": 0,
}


@dataclass(frozen=True)
class Sized:
    """A fixing or a span sized for the first wood, and what becomes of it.

    ``what`` 'fixing' or 'span'; ``before`` and ``after`` the verdicts, '' where nothing was
    given to judge, 'unknown' where a figure is missing; ``spare_before_mm`` and
    ``spare_after_mm`` the room left, or the sag to spare under its limit, None where not known.
    """

    what: str
    name: str
    part: str
    before: str
    after: str
    spare_before_mm: float | None
    spare_after_mm: float | None

    @property
    def broken(self) -> bool:
        """True where it holds less well than with the first wood."""
        known = self.before in _GRADES and self.after in _GRADES
        return known and _GRADES[self.after] < _GRADES[self.before]

    @property
    def holds(self) -> bool:
        """True where it holds with the other wood."""
        return _GRADES.get(self.after) == max(_GRADES.values())


@dataclass(frozen=True)
class Swap:
    """A piece before and after; ``parts`` the names of those that change wood."""

    wood: str
    parts: tuple[str, ...]
    before: Estimate
    after: Estimate
    sized: tuple[Sized, ...]

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


def _mass(found: Estimate) -> float | None:
    return None if found.unweighed else found.mass_kg["build"].expected


def _cost(found: Estimate) -> float | None:
    if found.cost is None or any(line.unpriced for line in found.lumber):
        return None
    return found.cost.expected


def parts_of_wood(
    piece: Piece, find: Callable[[str], Wood], wood: Wood, part: str = ""
) -> list[str]:
    """The names of the parts of a piece that are of a wood; of the one named alone.

    Raises: InputError naming the file, where no part, or not the named one, is of the wood.
    """
    woods = find_woods(piece, find)
    ids = set(wood.species_ids)
    own = [p.name for p in piece.parts if p.species and ids & set(woods[p.species].species_ids)]
    if not part:
        if not own:
            used = ", ".join(dict.fromkeys(w.common_name for w in woods.values())) or "no wood"
            raise InputError(f"{piece.file}: no part is of {wood.common_name}; it has {used}")
        return own
    named = next((p for p in piece.parts if p.name == part), None)
    if named is None:
        near = did_you_mean(part, [p.name for p in piece.parts])
        raise InputError(f"{piece.file}: no part is called '{part}'{near}")
    if part not in own:
        of = woods[named.species].common_name if named.species else "sheet goods"
        raise InputError(f"{piece.file}: the part '{part}' is of {of}, not of {wood.common_name}")
    return [part]


def for_swapping(piece: Piece) -> Piece:
    """The piece without its boards in hand and the months after delivery.

    What one wood costs beside another is told by the amount it takes, not by what lies on the
    rack, and the months after delivery are not part of a swap.
    """
    return replace(piece, buying=None, room=None)


def with_wood(piece: Piece, parts: Sequence[str], species: str) -> Piece:
    """The piece with a species in place of that of some of its parts; sizes and stock stay."""
    changed = (replace(p, species=species) if p.name in parts else p for p in piece.parts)
    return replace(piece, parts=tuple(changed))


def name_of(reference: Reference, species_id: str, *names: str) -> str:
    """The first of some names that means one species alone.

    Raises: InputError where none does.
    """
    for name in names:
        if name and {r["species_id"] for r in reference.name_rows(name)} == {species_id}:
            return name
    raise InputError(f"no name means {names[0]} alone, so it cannot stand in a piece file")


def swap(
    reference: Reference,
    before: Estimate,
    parts: Sequence[str],
    species: str,
    prices: PriceList | None = None,
) -> Swap:
    """A piece estimated again with another wood in some parts, the sizes as they were.

    Parameters: reference library; before, the piece as it stands; parts by name; species a
    name that means one wood; prices, None where there is no list.
    Raises: as woodref.piece.estimate.estimate_piece.
    """
    after = estimate_piece(reference, with_wood(before.piece, parts, species), prices)
    return Swap(species, tuple(parts), before, after, _sized(before, after, parts))


def _sized(before: Estimate, after: Estimate, parts: Sequence[str]) -> tuple[Sized, ...]:
    found = []
    for a, b in zip(before.fixings, after.fixings, strict=True):
        if a.spec.part in parts:
            pair = [
                (
                    (r.fixing.verdict or "") if r.fixing else "unknown",
                    r.fixing.worst.spare_mm if r.fixing and r.fixing.worst else None,
                )
                for r in (a, b)
            ]
            found.append(_pair("fixing", a.spec.name, a.spec.part, pair))
    for c, d in zip(before.spans, after.spans, strict=True):
        if c.spec.part in parts:
            pair = [
                (
                    ("holds" if r.sag.holds else "sags too far") if r.sag else "unknown",
                    r.sag.limit_mm - r.sag.later_mm.expected if r.sag else None,
                )
                for r in (c, d)
            ]
            found.append(_pair("span", c.spec.name, c.spec.part, pair))
    return tuple(found)


def _pair(what: str, name: str, part: str, pair: Sequence[tuple[str, float | None]]) -> Sized:
    (before, spare_before), (after, spare_after) = pair
    return Sized(what, name, part, before, after, spare_before, spare_after)
