"""The most valuable filling of a length: a knapsack that grows kind by kind."""

from __future__ import annotations

from typing import Any

import numpy as np

from woodref.cutting.work import Work

#: Steps that a call costs beside its length.
_CALL = 4_000


class Filling:
    """The best value of every length up to ``most``, from the kinds offered so far."""

    def __init__(self, most: int, work: Work) -> None:
        self.best: Any = np.zeros(most + 1)
        self.most, self.work = most, work
        self._takes: list[tuple[int, int, int, Any]] = []

    def offer(self, kind: int, size: int, value: float, count: int) -> None:
        """Offer up to ``count`` of a kind of a size; in lots of 1, 2, 4 ... and a rest."""
        left, lot = min(count, self.most // size), 1
        best = self.best
        while left > 0:
            n = min(lot, left)
            left, lot, step = left - n, lot * 2, n * size
            added = best[: self.most + 1 - step] + n * value
            take = added > best[step:]
            np.maximum(best[step:], added, out=best[step:])
            self._takes.append((kind, n, step, take))
            self.work.spend(_CALL + self.most)

    @property
    def worth(self) -> float:
        """The best value of the whole length."""
        return float(self.best[-1])

    @property
    def offered(self) -> int:
        """How much has been offered so far, for ``chosen``."""
        return len(self._takes)

    def chosen(self, offered: int | None = None, most: int | None = None) -> list[tuple[int, int]]:
        """Kinds and how many of each the best filling takes.

        Parameters: offered counts what had been offered, as told then, None for all; most the
        length to fill, None for the whole.
        """
        position = self.most if most is None else most
        kinds = []
        for kind, n, step, take in reversed(self._takes[:offered]):
            if position >= step and take[position - step]:
                kinds.append((kind, n))
                position -= step
        return kinds
