"""The best woods in place of another beside it: movement, hardness and weight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from woodref.answers.choice_words import beside
from woodref.answers.provenance import sentence
from woodref.charts.dumbbell import dumbbells
from woodref.choose.compare import compare
from woodref.choose.overview import USUAL_BOARDS
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from woodref.choose.substitute_result import Substitutes
    from woodref.reference.woods import Wood

#: Woods drawn beside the first, and what is drawn of them.
BEST = 3
DRAWN = ("board_mass", "movement_flat", "side_hardness")


def best_beside(
    substitutes: Substitutes,
    woods: Mapping[str, Wood],
    width_mm: float | None = None,
    units: str = "us",
) -> Figure:
    """The first wood and the BEST in its place, a strip each for weight, movement and hardness.

    Parameters: substitutes; woods by species_id, those in substitutes at least; width_mm the
    movement is told for [mm], by default the usual one; units 'us' or 'si'.
    Returns: a figure of 800 px, as high as it takes.
    Raises: NoDataError where no table holds any of the figures.
    """
    chosen = (substitutes.woods or substitutes.own_group)[:BEST]
    board, year = USUAL_BOARDS[units], substitutes.seasonal_range
    if width_mm is not None:
        across = KINDS["size"].text(width_mm, units).replace(".0 mm", " mm")
        board = board._replace(across=across, across_mm=width_mm)
    # Each by the name a yard sells it as, as in the answer.
    named = [replace(woods[s.species_id], common_name=s.name) for s in chosen]
    first = chosen[0]
    return dumbbells(
        compare([substitutes.wood, *named], board, DRAWN, year),
        DRAWN,
        units,
        f"{sentence(first.name)} in place of {substitutes.wood.common_name}: "
        f"{beside(first.changes)}",
        f"Movement from {year.driest_pct:.1f} to {year.wettest_pct:.1f} % moisture content.",
    )
