"""The fiber saturation point of a wood: its own where print implies one, else a general one."""

from __future__ import annotations

from typing import NamedTuple

from woodref.reference.bases import ESTIMATED, IMPLIED

#: Fiber saturation point of woods of North America, the handbook's figure, and the mean of
#: published ones for all others, 27 to 28 % for tropical woods (from memory) [%].
GENERAL_PCT = {"united-states": 30.0, "other": 28.0}
#: Standard deviation between trees of one wood (from memory) [%].
SD_PCT = 4.0
#: Bounds within which an implied one is taken for that of the wood [%].
LOWEST_PCT, HIGHEST_PCT = 20.0, 32.0


class FiberSaturation(NamedTuple):
    """Fiber saturation point of a wood [%], its standard deviation between trees, its basis.

    ``basis`` is implied where two printed figures of the wood tell it, else estimated.
    """

    pct: float
    basis: str = ESTIMATED
    sd_pct: float = SD_PCT

    @property
    def implied(self) -> bool:
        """True where print tells the wood's own."""
        return self.basis == IMPLIED

    @property
    def cv(self) -> float:
        """Coefficient of variation between trees [1]."""
        return self.sd_pct / self.pct


GENERAL_FIBER_SATURATION = FiberSaturation(GENERAL_PCT["other"])


def fiber_saturation_of(implied_pct: float | None, relation: str) -> FiberSaturation:
    """The fiber saturation point of a wood: the implied one, else that of its region.

    Parameters: implied_pct, None where print implies none [%]; relation 'united-states' or
    'other'.
    """
    if implied_pct:
        return FiberSaturation(implied_pct, IMPLIED)
    return FiberSaturation(GENERAL_PCT[relation])
