"""Fill a board where pieces of the second cut may be divided once more: a third cut.

A section is ripped into strips, and a strip crosscut into blanks no wider than it (or the other
way round). What is gained is wood, what it costs is handling.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from math import inf
from typing import Any

import numpy as np

from woodref.cutting.fill import Band, Room, by_size, preferred, reachable
from woodref.cutting.knapsack import Filling
from woodref.cutting.work import Work

#: Sizes of a band that are tried: all where their fillings have no more steps than this together,
#: else so many; and in a quick filling.
_STEPS, _SIZES, _QUICK_SIZES = 64_000, 120, 24


class _Bands:
    """The best filling of bands of several sizes, every piece filled across the band."""

    def __init__(
        self,
        room: Room,
        kinds: Sequence[int],
        value: Mapping[int, float],
        left: Mapping[int, int],
        sizes: Sequence[int],
        work: Work,
    ) -> None:
        self.sizes = list(sizes)
        pieces = Filling(max(sizes), work)
        self.best: Any = np.zeros((len(sizes), room.length + 1))
        self.takes: list[tuple[int, int, int, Any]] = []
        for along, same in groupby(
            sorted(kinds, key=lambda i: room.along[i]), room.along.__getitem__
        ):
            most = 0
            for i in same:
                pieces.offer(i, room.across[i], value[i], left[i])
                most += left[i]
            worth = pieces.best[self.sizes][:, None]
            many, lot = min(room.length // along, most), 1
            while many > 0:
                n = min(lot, many)
                many, lot, step = many - n, lot * 2, n * along
                added = self.best[:, : room.length + 1 - step] + n * worth
                take = added > self.best[:, step:]
                np.maximum(self.best[:, step:], added, out=self.best[:, step:])
                self.takes.append((along, n, step, take))
                work.spend(6_000 + 2 * added.size)

    def worths(self) -> dict[int, float]:
        """The best value of a band, by its size."""
        return dict(zip(self.sizes, self.best[:, -1].tolist(), strict=True))

    def chosen(self, size: int) -> list[tuple[int, int]]:
        """Lengths of pieces along the best band of a size, and how many of each."""
        row, position = self.sizes.index(size), self.best.shape[1] - 1
        pieces = []
        for along, n, step, take in reversed(self.takes):
            if position >= step and take[row, position - step]:
                pieces.append((along, n))
                position -= step
        return pieces


def _piece(
    room: Room,
    kinds: Sequence[int],
    value: Mapping[int, float],
    left: Mapping[int, int],
    along: int,
    size: int,
    work: Work,
) -> tuple[int, ...]:
    """The best blanks one behind another across a band, none longer than the piece."""
    filling = Filling(size, work)
    for i in kinds:
        if room.along[i] <= along and room.across[i] <= size and left[i] > 0:
            filling.offer(i, room.across[i], value[i], left[i])
    return tuple(i for i, n in filling.chosen() for _ in range(n))


def _band(
    room: Room,
    kinds: Sequence[int],
    value: Mapping[int, float],
    left: dict[int, int],
    size: int,
    first: Sequence[tuple[int, int]],
    work: Work,
) -> Band:
    """A band of a size with pieces of the lengths chosen, then of what else fits; takes of left."""
    band: list[tuple[int, ...]] = []
    free = room.length
    wanted = [along for along, n in sorted(first, reverse=True) for _ in range(n)]
    while True:
        for along in wanted:
            if along > free:
                continue
            piece = _piece(room, kinds, value, left, along, size, work)
            if piece:
                band.append(piece)
                free -= max(room.along[i] for i in piece)
                for i in piece:
                    left[i] -= 1
        rest = [
            i for i in kinds if left[i] > 0 and room.along[i] <= free and room.across[i] <= size
        ]
        if not rest:
            return tuple(band)
        smaller = Room(room.across, room.along, room.width, free)
        chosen = _Bands(smaller, rest, value, left, [size], work).chosen(size)
        wanted = [along for along, n in sorted(chosen, reverse=True) for _ in range(n)]


def fill_thrice(
    room: Room,
    value: Mapping[int, float],
    counts: Mapping[int, int],
    rng: Any,
    noise: float,
    work: Work,
) -> tuple[Band, ...]:
    """As woodref.cutting.fill.fill, with a third cut."""
    left = dict(counts)
    kinds = by_size(room, value)
    bands: list[Band] = []
    free = room.width
    while True:
        kinds = [i for i in kinds if left[i] > 0 and room.across[i] <= free]
        if not kinds:
            return tuple(bands)
        sizes = sorted({room.across[i] for i in kinds})
        more = [a + b for a in sizes for b in sizes if a <= b and a + b <= free]
        more = sorted({*more, free} - set(sizes))
        few = max(4, _QUICK_SIZES - len(sizes))
        if len(more) > few:
            more = [more[k] for k in sorted(rng.choice(len(more), few, replace=False).tolist())]
        tried = _Bands(room, kinds, value, left, sorted({*sizes, *more}), work)
        size = preferred(tried.worths(), free, rng, noise)
        band = _band(room, kinds, value, left, size, tried.chosen(size), work)
        bands.append(band)
        free -= max(sum(room.across[i] for i in piece) for piece in band)


def best_bands_thrice(
    room: Room, value: Mapping[int, float], counts: Mapping[int, int], work: Work
) -> tuple[float, tuple[Band, ...]]:
    """As woodref.cutting.fill.best_bands, with a third cut.

    Returns: the value, inf where not all sizes of a band were tried, and the bands.
    """
    kinds = by_size(room, value)
    if not kinds:
        return 0.0, ()
    sums = reachable(sorted({room.across[i] for i in kinds}), room.width)
    sizes = [size for size in range(1, room.width + 1) if sums >> size & 1]
    whole = len(sizes) * room.length <= _STEPS
    if not whole and len(sizes) > _SIZES:
        keep = np.unique(np.linspace(0, len(sizes) - 1, _SIZES).astype(int)).tolist()
        sizes = sorted({*(sizes[k] for k in keep), *(room.across[i] for i in kinds)})
    tried = _Bands(room, kinds, value, counts, sizes, work)
    across = Filling(room.width, work)
    least = 0.0
    for size, worth in tried.worths().items():
        if worth > least + 1e-12:
            across.offer(size, size, worth, room.width // size)
            least = worth
    bands: list[Band] = []
    for size, n in across.chosen():
        band = _band(room, kinds, value, dict(counts), size, tried.chosen(size), work)
        bands += [band] * n
    return across.worth if whole else inf, tuple(bands)
