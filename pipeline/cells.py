"""Printed cells as the rules see them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from typing import Any, TypeAlias

#: A row of the measurements as a named tuple, with repeats, unit_counterpart_id and wood_kind;
#: cells of one wood grown in another country (grown_in) are another sample of it.
Cell: TypeAlias = Any
#: The measurement_id of a cell outside physical sense, and the reason.
Finding: TypeAlias = tuple[str, str]

#: Properties that rise on drying (not work, impact or tension across the grain).
RISING = frozenset(
    (
        "modulus_of_rupture",
        "modulus_of_elasticity",
        "compression_parallel",
        "compression_perpendicular",
        "shear_parallel",
        "side_hardness",
    )
)


def grouped(
    cells: Iterable[Cell], key: Callable[[Cell], tuple[str, ...]]
) -> dict[tuple[str, ...], list[Cell]]:
    """Cells by key, in order of first appearance."""
    out: dict[tuple[str, ...], list[Cell]] = defaultdict(list)
    for cell in cells:
        out[key(cell)].append(cell)
    return out
