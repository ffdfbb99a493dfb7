"""How a piece leaves the shop: the crate around it, and a caution about its heaviest lift."""

from __future__ import annotations

from woodref.errors import InputError
from woodref.piece.carton_table import CartonPlan, check_cartons
from woodref.piece.notices import lifting_notice
from woodref.piece.resolve import ResolvedPiece
from woodref.piece.weigh import Masses
from woodref.quantity import total
from woodref.record import record
from woodref.reference.cautions import Notice
from woodref.shipping.crate import Crate, crate
from woodref.shipping.load import WHOLE


@record
class Carton:
    """A carton of several, as the file has it, and what it comes to packed."""

    plan: CartonPlan
    packed: Crate


@record
class Packed:
    """The crate, None where the file says nothing of shipping; cartons; cautions about lifting."""

    crate: Crate | None
    cautions: tuple[Notice, ...]
    cartons: tuple[Carton, ...] = ()


def pack(resolved: ResolvedPiece, masses: Masses) -> Packed:
    """The crate around a piece, and what its heaviest lift calls for.

    Raises: InputError naming the file, for a crate that cannot be.
    """
    cartons = _cartons(resolved, masses)
    return Packed(_crate(resolved, masses), _lifting(resolved, masses), cartons)


def _cartons(resolved: ResolvedPiece, masses: Masses) -> tuple[Carton, ...]:
    """The cartons of a piece; the weights in one are added end to end.

    Raises: InputError naming the file, for a carton that cannot be.
    """
    piece = resolved.piece
    if not piece.cartons or resolved.shipping is None:
        return ()
    there = {a.name: a.quantity for a in piece.assemblies}
    check_cartons(piece.file, piece.cartons, there, masses.one_of)
    cartons = []
    for spec in piece.cartons:
        held_kg = total([masses.one_of[name].scaled(n) for name, n in spec.holds.items()])
        plan = spec.plan
        try:
            around = crate(plan.size_mm, held_kg, plan.packing, resolved.shipping, plan.divisors)
        except InputError as error:
            told = error.told(piece.units)
            raise InputError(f"{piece.file}: cartons: {spec.name}: {told}") from None
        cartons.append(Carton(spec, around))
    return tuple(cartons)


def _crate(resolved: ResolvedPiece, masses: Masses) -> Crate | None:
    plan, packed_kg = resolved.piece.shipping, masses.packed
    if plan is None or resolved.shipping is None or not packed_kg.expected:
        return None
    try:
        return crate(plan.size_mm, packed_kg, plan.packing, resolved.shipping, plan.divisors)
    except InputError as error:
        told = error.told(resolved.piece.units)
        raise InputError(f"{resolved.piece.file}: shipping: {told}") from None


def _lifting(resolved: ResolvedPiece, masses: Masses) -> tuple[Notice, ...]:
    """A caution about the heaviest lift of a piece, which may be a part of it."""
    heaviest = masses.heaviest_lift
    if heaviest is None:
        return ()
    name, mass = heaviest
    off = ", ".join(lift for lift, _ in masses.lifts if lift != WHOLE)
    rest = f"Without {off} the piece still" if off else "The piece"
    what = rest if name == WHOLE else f"The heaviest lift, {name},"
    return lifting_notice(mass, resolved.lifting, what)
