"""A wood and another in its place: look, figures, decay, trade control; nothing is ranked."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.choose.look_pair import LookPair, look_pair
from woodref.record import record
from woodref.reference.cautions import ALL_WOODS, cautions_for
from woodref.reference.ratings import DecayClass, decay_class

if TYPE_CHECKING:
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood

#: The kind of a caution that is a control of trade.
_TRADE = "trade control"


@record
class Side:
    """One of the two woods: ``decay`` None where no scale names it, ``controls`` as recorded."""

    wood: Wood
    decay: DecayClass | None
    controls: tuple[str, ...]


@record
class WoodPair:
    """A wood, another in its place, and how they look beside each other."""

    first: Side
    other: Side
    look: LookPair

    @property
    def newly_controlled(self) -> bool:
        """True where trade in the other wood is controlled, and in the first is not."""
        return bool(self.other.controls) and not self.first.controls

    @property
    def decay_changes(self) -> bool:
        """True where the two are not of the same printed class, or one has none."""
        first, other = self.first.decay, self.other.decay
        return (first and first.words) != (other and other.words)


def _controls(reference: Reference, species_ids: Iterable[str]) -> tuple[str, ...]:
    """The recorded controls of trade in woods, in a few words each."""
    recorded = cautions_for(reference, species_ids)
    return tuple(
        dict.fromkeys(c.effect for c in recorded if c.kind == _TRADE and c.species_id != ALL_WOODS)
    )


def wood_pair(reference: Reference, first: Wood, other: Wood) -> WoodPair:
    """What is known of a wood and of another in its place.

    Parameters: reference library; first; other.
    """
    one, two = (
        Side(wood, decay_class(reference, wood), _controls(reference, wood.species_ids))
        for wood in (first, other)
    )
    return WoodPair(one, two, look_pair(reference, first, other))
