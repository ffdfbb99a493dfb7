"""What woods cost: a price list as one price of a cubic meter for each wood."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from woodref.choose.columns import PRICED
from woodref.errors import InputError
from woodref.units import BOARD_FOOT_M3

if TYPE_CHECKING:
    from woodref.lumber.nominal import Nominal
    from woodref.lumber.prices import PriceList


def prices_per_m3(prices: PriceList, nominal: Nominal) -> Mapping[str, float]:
    """The price of a cubic meter by species_id, for every wood a list sells by amount.

    Parameters: prices; nominal thickness. A row for the very wood goes before one for a group,
    a row for the thickness before one for any.
    """
    woods = sorted({i for row in prices.rows for i in row.species_ids})
    per_m3 = {}
    for species_id in woods:
        price = prices.find(frozenset({species_id}), nominal)
        if price:
            volume_m3 = BOARD_FOOT_M3 if price.per == "board foot" else 1.0
            per_m3[species_id] = price.price.expected / volume_m3
    return per_m3


def check_amounts(prices: PriceList, nominal: Nominal, per_m3: Mapping[str, float]) -> None:
    """See that a price list that was asked for sells some wood by amount in a thickness.

    Parameters: prices; nominal thickness; per_m3 as prices_per_m3 gives it.
    Raises: InputError with the thicknesses the list has.
    """
    if not per_m3:
        labels = dict.fromkeys(r.nominal.label for r in prices.rows if r.nominal)
        raise InputError(
            f"{prices.file}: has no price by amount for {nominal.label}; it has {', '.join(labels)}"
        )


def check_prices(columns: Iterable[str], prices: Mapping[str, float]) -> None:
    """See that there are prices where columns that need them are used.

    Raises: InputError.
    """
    if not prices and any(c in PRICED for c in columns):
        raise InputError("prices are counted, and there are none; name a list: --prices FILE")
