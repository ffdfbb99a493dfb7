"""The side hardness of the woods of a piece, as print gives it."""

from __future__ import annotations

from woodref.piece.estimate import Estimate
from woodref.reference.library import Reference
from woodref.reference.printed import in_printed_units, printed_figures


def printed_hardness(reference: Reference, estimate: Estimate, units: str) -> dict[str, float]:
    """The side hardness of each wood of a piece as print gives it in these units [N].

    Parameters: reference library; estimate; units 'us' or 'si'.
    Returns: by the identifier of the wood, those that have one.
    """
    hardness = {}
    for wood in {p.wood.species_id: p.wood for p in estimate.parts if p.wood}.values():
        value = wood.value("side_hardness")
        figures = printed_figures(reference, wood.species_ids, "side_hardness")
        if value:
            shown = in_printed_units(wood, figures, units)
            hardness[wood.species_id] = shown.get(("side_hardness", value.condition), value.value)
    return hardness
