"""The year of wood indoors where no place is named, apart from what computes seasons."""

from __future__ import annotations

#: Moisture contents of wood in a heated house, driest and dampest of a year (common practice, no
#: source) [%].
DRIEST_PCT, DAMPEST_PCT = 6.0, 10.0
