"""What can be bought: by the yards of a region, by a price list, or by the shop's own yard."""

from __future__ import annotations

from woodref.choose.filters import Filter
from woodref.record import record
from woodref.reference.look_words import NORTH_AMERICA, STOCK_CLASSES
from woodref.reference.store import literal

#: The rarest class that counts as stocked where nobody says: what dealers have.
SPECIALTY = "specialty"
#: SQL of how far a wood is from the shop: 0 commonly stocked, on the price list or in the yard,
#: then the classes in order; woods no table tells the stock of come last.
_TIERS = " ".join(
    f"when {{stock}} = {literal(name)} then {n}" for n, name in enumerate(STOCK_CLASSES)
)


@record
class Buyable:
    """Where woods come from.

    ``region`` of the trade, whose classes of stock hold; ``yard`` the species_id of what the
    shop's own yard has, None where no yard is known, and ``yard_name`` what that is called;
    ``price_list`` the name of a price list whose woods alone can be bought, '' for none;
    ``least`` the rarest class of stock that counts. The yard goes before the list, the list
    before the region.
    """

    region: str = NORTH_AMERICA
    yard: frozenset[str] | None = None
    yard_name: str = "your yard"
    price_list: str = ""
    least: str = SPECIALTY

    @property
    def place(self) -> str:
        """Where: 'in your yard', 'in PRICES.csv', 'stocked in Europe'."""
        if self.yard is not None:
            return f"in {self.yard_name}"
        if self.price_list:
            return f"in {self.price_list}"
        usual = "" if self.least == SPECIALTY else f" ({self.least} at least)"
        return f"stocked in {self.region}{usual}"

    @property
    def by_class(self) -> bool:
        """True where the classes of the region decide."""
        return self.yard is None and not self.price_list

    @property
    def filter(self) -> Filter:
        """What a wood must pass to be bought."""
        if self.yard is not None:
            return Filter(self.place, "in_yard", nearest="tier")
        if self.price_list:
            return Filter(self.place, "(price_per_m3 is not null)", nearest="tier")
        return Filter(
            self.place, f"(tier <= {list(STOCK_CLASSES).index(self.least)})", nearest="tier"
        )


def stock_sql(region: str) -> str:
    """SQL of the class of stock of each wood in a region: species_id, stock."""
    return f'select species_id, "class" as stock from stock where region = {literal(region)}'


def tier_sql(buyable: Buyable | None) -> str:
    """SQL of the tier of a wood, over ``stock``, ``in_yard`` and ``price_per_m3``."""
    by_class = f"case {_TIERS.format(stock='stock')} else {len(STOCK_CLASSES)} end"
    if buyable is None or buyable.by_class:
        return by_class
    has = "in_yard" if buyable.yard is not None else "price_per_m3 is not null"
    return f"case when {has} then 0 else 1 + {by_class} end"
