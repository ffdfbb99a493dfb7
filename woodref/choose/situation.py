"""The year a wood is looked at for, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from woodref.choose.glance import DAMPEST_PCT, DRIEST_PCT


@dataclass(frozen=True)
class Situation:
    """What the woods are looked at for.

    ``driest_pct``, ``wettest_pct`` moisture contents of the year [%]; ``prices`` of a cubic
    meter by species_id, empty without a price list.
    """

    driest_pct: float = DRIEST_PCT
    wettest_pct: float = DAMPEST_PCT
    prices: Mapping[str, float] = field(default_factory=dict)
