"""A wood screw, a nail or a lag screw, as a shop names it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import Enum

from woodref.errors import InputError, UnitsError
from woodref.joinery.hardware import parse_screw, screw_number
from woodref.record import record
from woodref.reference.fasteners import BOX_NAIL, COMMON_NAIL, RING_NAIL, FastenerSize
from woodref.units import either_unit
from woodref.written import parse_length

_LARGEST_MM = 25.4
_NAIL = re.compile(r"\s*([0-9]{1,2})\s*d\s*([a-z]*)\s*", re.IGNORECASE)


class FastenerKind(Enum):
    """What is driven in."""

    SCREW = "wood screw"
    NAIL = "nail"
    RING_NAIL = "ring nail"
    LAG = "lag screw"


#: The word after a pennyweight, the table it is looked up in, and what is driven in.
_NAILS: dict[str, tuple[str, FastenerKind]] = {
    "": (COMMON_NAIL, FastenerKind.NAIL),
    "common": (COMMON_NAIL, FastenerKind.NAIL),
    "box": (BOX_NAIL, FastenerKind.NAIL),
    "ring": (RING_NAIL, FastenerKind.RING_NAIL),
}


@record
class Fastener:
    """A screw, nail or lag screw: its shank, its length where that is known [mm].

    ``size`` as the shop names it, '#8' or '8d box', '' where the shank was given alone.
    """

    kind: FastenerKind
    diameter_mm: float
    size: str = ""
    length_mm: float | None = None


def screw(text: str, default_unit: str = "in") -> Fastener:
    """A wood screw: '#8', '8', or its shank.

    Raises: InputError as woodref.joinery.hardware.parse_screw.
    """
    return screw_of(parse_screw(text, default_unit))


def screw_of(shank_mm: float) -> Fastener:
    """The wood screw of a shank [mm]."""
    number = screw_number(shank_mm)
    return Fastener(FastenerKind.SCREW, shank_mm, f"#{number}" if number else "")


def nail(
    text: str, sizes: Mapping[str, Mapping[str, FastenerSize]], default_unit: str = "in"
) -> Fastener:
    """A nail: '8d', '8d box', '8d ring', or the shank of a smooth one.

    Parameters: text; sizes of woodref.reference.fasteners; default_unit of a bare shank.
    Raises: InputError for anything else, and for a size that no table prints.
    """
    named = _NAIL.fullmatch(text)
    if not named:
        return Fastener(
            FastenerKind.NAIL, _shank(text, "nail", "8d, 8d box, 8d ring", default_unit)
        )
    word = named[2].lower()
    if word not in _NAILS:
        words = ", ".join(w for w in _NAILS if w)
        raise InputError(f"'{text}' is not a nail; after the pennyweight stands {words}")
    table, kind = _NAILS[word]
    known = sizes[table]
    size = known.get(f"{int(named[1])}d")
    if size is None:
        raise InputError(
            f"no table prints a {named[1]}d {word or 'common'} nail: {', '.join(known)}"
        )
    written = f"{size.size} {word}".strip()
    return Fastener(kind, size.diameter_mm, written, size.length_mm)


def lag(text: str, default_unit: str = "in") -> Fastener:
    """A lag screw by its shank: '5/16in', '8mm'.

    Raises: InputError for anything else.
    """
    return Fastener(FastenerKind.LAG, _shank(text, "lag screw", "5/16in", default_unit))


def named(
    screw_text: str,
    nail_text: str,
    lag_text: str,
    sizes: Mapping[str, Mapping[str, FastenerSize]],
    default_unit: str,
) -> Fastener:
    """The one fastener that is named, the other two texts empty.

    Raises: InputError where none is, or several are; as screw, nail and lag.
    """
    if sum(map(bool, (screw_text, nail_text, lag_text))) != 1:
        raise InputError("name one screw, one nail or one lag screw")
    if screw_text:
        return screw(screw_text, default_unit)
    return nail(nail_text, sizes, default_unit) if nail_text else lag(lag_text, default_unit)


def _shank(text: str, what: str, example: str, default_unit: str) -> float:
    problem = UnitsError(
        lambda u: (
            f"'{text}' is not a {what}; write {example}, or its shank as "
            + either_unit(u, "5/32in", "4mm")
        )
    )
    try:
        shank = parse_length(text, default_unit)
    except InputError:
        raise problem from None
    if not 0.0 < shank <= _LARGEST_MM:
        raise problem
    return shank
