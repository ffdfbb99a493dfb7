"""What must change in a fixing when its part is made of another wood: the sizes, and no more."""

from __future__ import annotations

from dataclasses import replace

from woodref.errors import NoDataError
from woodref.joinery.clearance import Fixing, fixing_of
from woodref.joinery.fit import CheckKey, NeedKey
from woodref.joinery.fixing_types import FixingError, Sizes
from woodref.record import record

#: The size that was given by each key of a need.
GIVEN: dict[NeedKey, str] = {
    NeedKey.HOLE: "hole",
    NeedKey.WASHER: "washer",
    NeedKey.RECESS: "recess",
    NeedKey.SLOT_CENTERED: "slot",
    NeedKey.GAP: "gap",
    NeedKey.TONGUE: "tongue",
    NeedKey.GROOVE: "groove",
}
#: The sizes that give more room where a check falls short, the first that the kind has.
_MENDS: dict[CheckKey, tuple[NeedKey, ...]] = {
    CheckKey.SHANK_IN_HOLE: (NeedKey.HOLE,),
    CheckKey.WASHER_OVER_HOLE: (NeedKey.WASHER,),
    CheckKey.WASHER_IN_RECESS: (NeedKey.RECESS,),
    CheckKey.SLOT_CENTERED: (NeedKey.SLOT_CENTERED,),
    CheckKey.SLOT_OFFSET: (NeedKey.SLOT_CENTERED,),
    CheckKey.GAP: (NeedKey.GAP,),
    CheckKey.TONGUE_LEFT: (NeedKey.TONGUE, NeedKey.GROOVE),
    CheckKey.TONGUE_BEFORE_BOTTOM: (NeedKey.GROOVE,),
}
#: One size follows from another: a wider hole asks for a wider washer, and that for a recess.
_ROUNDS = 8


@record
class Resized:
    """A size of a fixing: ``was_mm`` as given, else as made for the first wood; ``make_mm`` now.

    ``given`` True where the maker gave it; None for a size that no bit or rule gives [mm].
    """

    key: NeedKey
    given: bool
    was_mm: float | None
    make_mm: float | None

    @property
    def grows(self) -> bool:
        """True where the size must be larger than it was."""
        if self.was_mm is None:
            return False
        return self.make_mm is None or self.make_mm > self.was_mm + 1e-6


def mended(fixing: Fixing, units: str = "") -> Fixing | None:
    """The fixing with the given sizes that fall short made large enough, all others as they are.

    Parameters: fixing; units 'us' or 'si' whose set of bits and steps serves, '' its own.
    Returns: the fixing itself where it holds; None where no size mends it, as of a joint that is
    glued over too long a width, or above the largest bit.
    """
    for _ in range(_ROUNDS):
        short = [c for c in fixing.checks if not c.ok]
        if not short:
            return fixing
        sizes = fixing.spec.sizes
        for check in short:
            sizes = _larger(fixing, check.key, sizes, units or fixing.spec.units)
        if sizes == fixing.spec.sizes:
            return None
        try:
            fixing = fixing_of(replace(fixing.spec, sizes=sizes), fixing.wood, fixing.moisture)
        except (FixingError, NoDataError):
            return None
    return None


def _larger(fixing: Fixing, check: CheckKey, sizes: Sizes, units: str) -> Sizes:
    """The sizes with the one that a check asks for as large as it must be."""
    for key in _MENDS.get(check, ()):
        need = fixing.need(key)
        made = need.made_mm(units) if need else None
        if made is not None and getattr(sizes, GIVEN[key]) is not None:
            return replace(sizes, **{GIVEN[key]: made})
    return sizes


def resized(before: Fixing, after: Fixing, units: str = "") -> tuple[Resized, ...] | None:
    """Each size of a fixing, as it was for one wood and as it is to be for another.

    A given size stays where it holds; where it falls short it becomes what is needed, and what
    depends on it with it. A size that was not given is the one to make.

    Parameters: before and after, the same fixing in the two woods; units as mended.
    Returns: sizes in the order they are made; None where no size mends the fixing.
    """
    units = units or after.spec.units
    fit = mended(after, units)
    if fit is None:
        return None
    sizes = []
    for need in fit.needs:
        if need.key not in GIVEN:
            continue
        given = getattr(after.spec.sizes, GIVEN[need.key])
        first = before.need(need.key)
        if given is None:
            was = first.made_mm(units) if first else None
            now = need.made_mm(units)
        else:
            was, now = given, getattr(fit.spec.sizes, GIVEN[need.key])
        sizes.append(Resized(need.key, given is not None, was, now))
    return tuple(sizes)
