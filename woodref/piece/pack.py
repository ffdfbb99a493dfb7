"""How a piece leaves the shop: the crate around it, and a caution about its heaviest lift."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.errors import InputError
from woodref.piece.notices import lifting_notice
from woodref.piece.resolve import ResolvedPiece
from woodref.piece.weigh import Masses
from woodref.reference.cautions import Notice
from woodref.shipping.crate import Crate, crate
from woodref.shipping.load import WHOLE


@dataclass(frozen=True)
class Packed:
    """The crate, None where the file says nothing of shipping; cautions about lifting."""

    crate: Crate | None
    cautions: tuple[Notice, ...]


def pack(resolved: ResolvedPiece, masses: Masses) -> Packed:
    """The crate around a piece, and what its heaviest lift calls for.

    Raises: InputError naming the file, for a crate that cannot be.
    """
    return Packed(_crate(resolved, masses), _lifting(resolved, masses))


def _crate(resolved: ResolvedPiece, masses: Masses) -> Crate | None:
    plan, packed_kg = resolved.piece.shipping, masses.packed
    if plan is None or resolved.shipping is None or not packed_kg.expected:
        return None
    try:
        return crate(plan.size_mm, packed_kg, plan.packing, resolved.shipping, plan.divisors)
    except InputError as error:
        raise InputError(f"{resolved.piece.file}: shipping: {error}") from None


def _lifting(resolved: ResolvedPiece, masses: Masses) -> tuple[Notice, ...]:
    """A caution about the heaviest lift of a piece, which may be a part of it."""
    heaviest = masses.heaviest_lift
    if heaviest is None:
        return ()
    name, mass = heaviest
    rest = "The piece" if len(masses.lifts) == 1 else "What is left of the piece"
    what = rest if name == WHOLE else f"The heaviest lift, {name},"
    return lifting_notice(mass, resolved.lifting, what)
