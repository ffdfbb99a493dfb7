"""The moisture contents a wood swings between in a year."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT


@dataclass(frozen=True)
class SeasonalRange:
    """Moisture contents of the driest and the wettest of a year [%].

    By default those of a heated house (common practice, no source).
    """

    driest_pct: float = DRIEST_PCT
    wettest_pct: float = DAMPEST_PCT
