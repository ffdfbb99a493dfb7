"""Fill one board with bands of blanks: the inner step of the search."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np


def _reachable(sizes: Sequence[int], most: int) -> int:
    """Sums up to ``most`` that repeated sizes can make, as bits."""
    mask = (1 << (most + 1)) - 1
    bits = 1
    for size in sizes:
        shift = size
        while shift <= most:
            bits |= (bits << shift) & mask
            shift *= 2
    return bits


def fill(
    across: Sequence[int],
    along: Sequence[int],
    value: Sequence[float],
    width: int,
    length: int,
    rng: Any,
    noise: float,
) -> list[tuple[int, ...]]:
    """Bands across a board, each filled along it with items no larger across than the band.

    A band is the best filling of the length (a knapsack over the items not yet used); its
    size is chosen for its value and for what the rest of the board can still be divided into.

    Parameters: across, along sizes of the items in steps; value of each; width and length of
    the board in steps; rng a numpy Generator; noise the random share of a choice.
    Returns: the items of each band, by index; no item twice.
    """
    offered = sorted(
        (i for i in range(len(across)) if across[i] <= width and along[i] <= length),
        key=lambda i: (across[i], along[i]),
    )
    strips: list[tuple[int, ...]] = []
    free = width
    while offered:
        best = np.zeros(length + 1)
        takes = []
        tops: dict[int, tuple[float, int]] = {}
        for k, i in enumerate(offered):
            size = along[i]
            added = best[: length + 1 - size] + value[i]
            take = added > best[size:]
            takes.append(take)
            best[size:] = np.where(take, added, best[size:])
            tops[across[i]] = (float(best[-1]), k)
        bits = _reachable(list(tops), free)
        densest = max(v / size for size, (v, _) in tops.items())
        chosen, chosen_score = 0, -1.0
        for size, (v, _) in tops.items():
            rest = (bits & ((1 << (free - size + 1)) - 1)).bit_length() - 1
            score = (v + densest * rest) * (1.0 + noise * rng.random())
            if score > chosen_score:
                chosen, chosen_score = size, score
        strip, position = [], length
        for k in range(tops[chosen][1], -1, -1):
            size = along[offered[k]]
            if position >= size and takes[k][position - size]:
                strip.append(offered[k])
                position -= size
        strips.append(tuple(strip))
        free -= max(across[i] for i in strip)
        gone = set(strip)
        offered = [i for i in offered if i not in gone and across[i] <= free]
    return strips
