"""How much a search may do: counted steps, so that no plan depends on a clock."""

from __future__ import annotations

from collections.abc import Callable

from woodref.record import record


@record
class Effort:
    """How long a search goes on: steps in all, and rounds without a better plan at most."""

    steps: int
    stale_rounds: int


#: A million steps take about a millisecond of a processor of 2020.
EFFORTS = {
    "quick": Effort(400_000_000, 60),
    "usual": Effort(4_000_000_000, 300),
    "long": Effort(16_000_000_000, 1200),
}


class Work:
    """Steps that are left; whoever does some takes them off.

    ``seen`` is called from time to time, to tell how far the search is.
    """

    def __init__(self, steps: int, seen: Callable[[], None] | None = None) -> None:
        self.steps, self.left = steps, steps
        self._seen = seen

    def spend(self, steps: int) -> None:
        """Take steps off."""
        self.left -= steps

    def tell(self) -> None:
        """Tell how far the search is."""
        if self._seen:
            self._seen()

    @property
    def over(self) -> bool:
        """True where no step is left."""
        return self.left <= 0
