"""One wood in place of another, by itself: figures, movement, price; nothing is ranked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.board.movement import Movement, movement
from woodref.choose.compare import Comparison, compare
from woodref.choose.overview import USUAL_BOARDS
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.wood_pair import WoodPair, wood_pair
from woodref.errors import InputError, NoDataError
from woodref.record import record

if TYPE_CHECKING:
    from woodref.lumber.nominal import Nominal
    from woodref.lumber.price_rows import Price
    from woodref.lumber.prices import PriceList
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood


@record
class WoodBeside:
    """A wood and another in its place.

    ``comparison`` their figures side by side; ``swings`` the movement of a flat-sawn width from
    the driest to the wettest of ``year``, None where the shrinkage is not known; ``prices`` by
    the list, None where it has none.
    """

    pair: WoodPair
    comparison: Comparison
    width_mm: float
    year: SeasonalRange
    swings: tuple[Movement | None, Movement | None]
    prices: tuple[Price | None, Price | None]


def wood_beside(
    reference: Reference,
    first: Wood,
    other: Wood,
    width_mm: float,
    year: SeasonalRange | None = None,
    listing: PriceList | None = None,
    nominal: Nominal | None = None,
    units: str = "us",
) -> WoodBeside:
    """What is known of one wood in place of another.

    Parameters: reference library; first; other; width_mm the movement is told for [mm]; year, by
    default that of a heated house; listing of prices and nominal thickness, None for none; units
    'us' or 'si' of the board whose weight is told.
    Raises: InputError for the same wood twice, and a width that cannot be.
    """
    if set(first.species_ids) == set(other.species_ids):
        raise InputError(f"{first.common_name} in place of itself changes nothing; name another")
    between = year or SeasonalRange()

    def swing(wood: Wood) -> Movement | None:
        try:
            return movement(wood, width_mm, between.driest_pct, between.wettest_pct)
        except NoDataError:
            return None

    def price(wood: Wood) -> Price | None:
        return listing.find(frozenset(wood.species_ids), nominal) if listing and nominal else None

    return WoodBeside(
        wood_pair(reference, first, other),
        compare([first, other], USUAL_BOARDS[units]),
        width_mm,
        between,
        (swing(first), swing(other)),
        (price(first), price(other)),
    )
