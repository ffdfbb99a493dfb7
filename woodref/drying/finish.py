"""The finish on a board, and what of the printed test it stands for."""

from __future__ import annotations

from dataclasses import field, replace

from woodref.record import record
from woodref.reference.bases import OWN, weakest
from woodref.reference.finish_kin import kin_of, own_resistance
from woodref.reference.finishes import (
    FinishRow,
    checked_coats,
    coats_of,
    finish_of,
    usual_coats,
)


@record
class Finish:
    """A finish on a board; ``name`` is '' for bare wood.

    ``one_face`` where the other face stays bare; ``basis`` the weakest of its printed rows;
    ``noted`` where they carry notes; ``rows`` the whole table, from which its resistance is
    fitted. ``sold_as`` is what the shop calls it where ``name`` is only its nearest kin in the
    test, for the reason ``why``. ``resistance`` is its own, where it was given [Pa s m2/kg].
    """

    name: str = ""
    coats: int = 0
    one_face: bool = False
    basis: str = ""
    sources: tuple[str, ...] = ()
    noted: bool = False
    rows: tuple[FinishRow, ...] = field(default=(), repr=False)
    sold_as: str = ""
    why: str = ""
    resistance: float | None = None

    @property
    def label(self) -> str:
        """'bare', 'Linseed oil, 2 coats', or 'hardwax oil (as Linseed oil, 2 coats)'."""
        if not self.name:
            return "bare"
        if self.resistance is not None:
            return f"your finish, {self.name}{', one face' if self.one_face else ''}"
        if self.sold_as:
            return f"{self.sold_as} (as {replace(self, sold_as='').label})"
        coats = f"{self.coats} coat{'s' if self.coats > 1 else ''}"
        return f"{self.name}, {coats}{', one face' if self.one_face else ''}"


BARE = Finish()


def finish_on(
    rows: tuple[FinishRow, ...], name: str, coats: int | None = None, one_face: bool = False
) -> Finish:
    """A finish by name, with a number of coats that was tested.

    Parameters: rows of the table; name as printed or as shops call it, whose nearest tested kin
    is taken, or a resistance of one's own, 'sd 0.8 m' or '2.5 perms'; coats, by default those
    nearest to two that were tested; one_face, true where the other face stays bare.
    Raises: InputError with the nearest finish, or the nearest number of coats.
    """
    resistance = own_resistance(name)
    if resistance is not None:
        known = " ".join(name.split())
        return Finish(known, coats or 1, one_face, OWN, resistance=resistance)
    kin = kin_of(name)
    if kin:
        tested = coats_of(rows, kin.tested)
        wanted = 2.0 if coats is None else coats / kin.coats_each
        nearest = min(tested, key=lambda n: (abs(n - wanted), n))
        nearest_kin = finish_on(rows, kin.tested, nearest, one_face)
        return replace(nearest_kin, sold_as=" ".join(name.split()), why=kin.why)
    finish = finish_of(rows, name)
    if not finish:
        return BARE
    coats = usual_coats(rows, finish) if coats is None else checked_coats(rows, finish, coats)
    own = [r for r in rows if (r.finish, r.coats) == (finish, coats)]
    sources = tuple(dict.fromkeys(r.source for r in own))
    basis, noted = weakest(r.basis for r in own), any(r.note for r in own)
    return Finish(finish, coats, one_face, basis, sources, noted, rows)
