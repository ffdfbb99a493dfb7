"""Where a wood stands among all woods of the dataset."""

from __future__ import annotations

from typing import NamedTuple

from woodref.reference.store import Store


class MovementPercentile(NamedTuple):
    """A wood among the woods with radial and tangential shrinkage in print.

    ``woods`` how many there are; ``less``, ``more`` how many of them shrink less and more
    along the rings; ``evener`` how many have a smaller ratio of tangential to radial.
    """

    woods: int
    less: int
    more: int
    evener: int


def movement_percentile(
    store: Store, tangential_pct: float, radial_pct: float
) -> MovementPercentile:
    """Where a wood stands by its shrinkages, green to ovendry, in one query.

    Parameters: store of the dataset; tangential_pct, radial_pct [% of green size].
    """
    row = store.rows(
        "select count(*) as woods, "
        "count(*) filter (shrinkage_tangential_pct < $1) as less, "
        "count(*) filter (shrinkage_tangential_pct > $1) as more, "
        "count(*) filter (shrinkage_tangential_pct / shrinkage_radial_pct < $2) as evener "
        "from {species} "
        "where shrinkage_tangential_pct is not null and shrinkage_radial_pct > 0",
        [tangential_pct, tangential_pct / radial_pct],
    )[0]
    return MovementPercentile(**row)
