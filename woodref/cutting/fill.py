"""Fill one board with bands of blanks: crosscut sections that are ripped, or the other way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from woodref.cutting.knapsack import Filling
from woodref.cutting.work import Work
from woodref.record import record

#: A band: blanks by kind, one for each piece of its second cut; a piece that a third cut
#: divides holds several.
Band = tuple[tuple[int, ...], ...]


@record
class Room:
    """A board and blanks in whole steps, seen along its bands: ``across`` them and ``along``."""

    across: Sequence[int]
    along: Sequence[int]
    width: int
    length: int


def reachable(sizes: Sequence[int], most: int) -> int:
    """Sums up to ``most`` that repeated sizes can make, as bits."""
    mask = (1 << (most + 1)) - 1
    bits = 1
    for size in sizes:
        shift = size
        while shift <= most:
            bits |= (bits << shift) & mask
            shift *= 2
    return bits


def preferred(worths: Mapping[int, float], free: int, rng: Any, noise: float) -> int:
    """The size of the next band: by its worth, and by what the rest can still be divided into.

    Parameters: worths by size; free steps across the board; rng a numpy Generator; noise the
    random share of the choice.
    """
    bits = reachable(list(worths), free)
    densest = max(worth / size for size, worth in worths.items())
    chosen, chosen_score = 0, -1.0
    for size, worth in worths.items():
        rest = (bits & ((1 << (free - size + 1)) - 1)).bit_length() - 1
        score = (worth + densest * rest) * (1.0 + noise * rng.random())
        if score > chosen_score:
            chosen, chosen_score = size, score
    return chosen


def by_size(room: Room, value: Mapping[int, float]) -> list[int]:
    """Kinds that fit a board and are worth something, the smallest across first."""
    return sorted(
        (
            i
            for i, v in value.items()
            if v > 1e-12 and room.across[i] <= room.width and room.along[i] <= room.length
        ),
        key=lambda i: (room.across[i], room.along[i]),
    )


def _bands(
    room: Room,
    kinds: Sequence[int],
    value: Mapping[int, float],
    left: Mapping[int, int],
    work: Work,
) -> tuple[Filling, dict[int, tuple[float, int]]]:
    """The best filling along a band of each size, of blanks no larger across than it."""
    filling = Filling(room.length, work)
    tops: dict[int, tuple[float, int]] = {}
    for i in kinds:
        filling.offer(i, room.along[i], value[i], left[i])
        tops[room.across[i]] = (filling.worth, filling.offered)
    return filling, tops


def fill(
    room: Room,
    value: Mapping[int, float],
    counts: Mapping[int, int],
    rng: Any,
    noise: float,
    work: Work,
) -> tuple[Band, ...]:
    """Bands across a board, each filled along it, with no blank more often than there are.

    A band is the best filling of the length (a knapsack); its size is chosen for its value and
    for what the rest of the board can still be divided into.

    Parameters: room; value and counts of the kinds offered; rng a numpy Generator; noise the
    random share of a choice; work that is counted.
    """
    left = dict(counts)
    kinds = by_size(room, value)
    bands: list[Band] = []
    free = room.width
    while True:
        kinds = [i for i in kinds if left[i] > 0 and room.across[i] <= free]
        if not kinds:
            return tuple(bands)
        filling, tops = _bands(room, kinds, value, left, work)
        worths = {size: worth for size, (worth, _) in tops.items()}
        size = preferred(worths, free, rng, noise)
        band: list[tuple[int, ...]] = []
        for i, n in filling.chosen(tops[size][1]):
            band += [(i,)] * n
            left[i] -= n
        bands.append(tuple(band))
        free -= max(room.across[i] for (i,) in band)


def best_bands(
    room: Room, value: Mapping[int, float], counts: Mapping[int, int], work: Work
) -> tuple[float, tuple[Band, ...]]:
    """The most valuable bands that fit a board, where each band by itself keeps to the counts.

    Returns: the value, which no filling in bands exceeds, and the bands, which together may
    hold more blanks of a kind than there are.
    Source: two-stage patterns, Gilmore and Gomory (1965).
    """
    kinds = by_size(room, value)
    if not kinds:
        return 0.0, ()
    filling, tops = _bands(room, kinds, value, counts, work)
    across = Filling(room.width, work)
    least = 0.0
    for size, (worth, _) in tops.items():
        if worth > least:
            across.offer(size, size, worth, room.width // size)
            least = worth
    bands: list[Band] = []
    for size, n in across.chosen():
        band = tuple((i,) for i, many in filling.chosen(tops[size][1]) for _ in range(many))
        bands += [band] * n
    return across.worth, tuple(bands)
