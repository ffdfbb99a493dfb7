"""Options of the commands that choose a wood: where it can be bought."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from woodref.cli.options import reference, source_of, stock_region
from woodref.errors import InputError, NoDataError
from woodref.reference.overlay import present

if TYPE_CHECKING:
    from collections.abc import Mapping

    from woodref.choose.buyable import Buyable
    from woodref.choose.filters import Filter
    from woodref.cli.options import UnitSystem
    from woodref.lumber.nominal import Nominal
    from woodref.lumber.prices import PriceList


class KindChoice(StrEnum):
    """Hardwood or softwood."""

    hardwood = "hardwood"
    softwood = "softwood"


class AnyKind(StrEnum):
    """Hardwood, softwood, or either in place of the other."""

    hardwood = "hardwood"
    softwood = "softwood"
    any = "any"


class Shade(StrEnum):
    """How dark a wood is as sold."""

    pale = "pale"
    medium = "medium"
    dark = "dark"


class StockClass(StrEnum):
    """How a region stocks a wood, the most usual first."""

    common = "commonly stocked"
    specialty = "specialty"
    seldom = "seldom"
    none = "not in trade"


ShadeOption = Annotated[
    Shade | None, typer.Option("--shade", help="How dark it is as sold: pale, medium or dark.")
]
ExcludeAllergens = Annotated[
    bool,
    typer.Option(
        "--exclude-allergens",
        help="Leave out woods whose dust a document names for allergy, asthma or dermatitis.",
    ),
]
AllWoods = Annotated[
    bool, typer.Option("--all-woods", help="Every wood known, whether anyone sells it or not.")
]
Stock = Annotated[
    StockClass,
    typer.Option("--stock", help="The rarest class of stock to look at, of the region's yards."),
]
Yard = Annotated[
    str,
    typer.Option(
        "--yard",
        metavar="WOODS",
        help="What your yard has, names with commas; else your own list, or that of the "
        "configuration.",
    ),
]


class BuyingAsked(NamedTuple):
    """What the command line says of where woods come from."""

    all_woods: bool
    stock: StockClass
    yard: str
    stock_named: bool = False
    yard_named: bool = False

    @classmethod
    def of(
        cls, context: typer.Context, all_woods: bool, stock: StockClass, yard: str
    ) -> BuyingAsked:
        """What the options say, and which of them stand on the command line."""
        named = (source_of(context, name) == "COMMANDLINE" for name in ("stock", "yard"))
        return cls(all_woods, stock, yard, *named)


def buyable(asked: BuyingAsked, prices: PriceList | None) -> Buyable | None:
    """Where woods come from: the yard, else the price list, else the yards of the region.

    None for every wood known.

    Raises: InputError for an empty yard, names in it that mean no wood, or options that
    contradict each other; as woodref.own.yard.own_yard.
    """
    from woodref.choose.buyable import Buyable

    if asked.all_woods:
        if asked.stock_named or asked.yard_named:
            other = "--stock" if asked.stock_named else "--yard"
            raise InputError(f"--all-woods and {other} contradict each other; leave one out")
        return None
    region = stock_region()
    if asked.stock_named:
        if asked.yard_named:
            raise InputError("--yard says what can be bought; --stock has no place beside it")
        return Buyable(region, least=asked.stock.value)
    yard = _yard(asked)
    return Buyable(region, yard, price_list=Path(prices.file).name if prices else "")


class Priced(NamedTuple):
    """A price list in the thickness asked for: the list, prices of a cubic meter by species_id."""

    listed: PriceList | None
    nominal: Nominal
    per_m3: Mapping[str, float]
    limits: list[Filter]


def priced(
    listed: PriceList | None,
    thickness: str,
    max_price: float | None,
    units: UnitSystem,
    must_have: bool,
) -> Priced:
    """What woods cost by a list, and the filter of the most that is asked for.

    Parameters: listed, None for no list; thickness as typed; max_price, None for none; units;
    must_have, whether the list must have a price in the thickness.
    Raises: InputError for a highest price without a list, or a list without the thickness.
    """
    from woodref.choose.filters import of_most
    from woodref.choose.prices import check_amounts, prices_per_m3
    from woodref.lumber.nominal import parse_nominal

    nominal = parse_nominal(thickness, "in" if units == "us" else "mm")
    if listed is None:
        if max_price is not None:
            raise InputError("--max-price needs a price list: --prices FILE, or woodref own add")
        return Priced(None, nominal, {}, [])
    per_m3 = prices_per_m3(listed, nominal)
    if must_have or max_price is not None:
        check_amounts(listed, nominal, per_m3)
    if max_price is None:
        return Priced(listed, nominal, per_m3, [])
    most = of_most(max_price, units.value, listed.currency, nominal.label)
    return Priced(listed, nominal, per_m3, [most])


def _yard(asked: BuyingAsked) -> frozenset[str] | None:
    unnamed = not asked.yard and not asked.yard_named
    if unnamed and (not reference().uses_own or not present("yard")):
        return None
    from woodref.lumber.prices import resolver

    resolve = resolver(reference())
    if unnamed:
        from woodref.own.yard import own_yard

        return own_yard(resolve)
    names = [n.strip() for n in asked.yard.split(",") if n.strip()]
    if not names:
        raise InputError('the yard is empty; name its woods: --yard "cherry, white oak"')
    woods: set[str] = set()
    for name in names:
        try:
            woods |= resolve(name)
        except (InputError, NoDataError) as error:
            raise InputError(f"--yard: {error}") from None
    return frozenset(woods)
