"""What to buy of a wood in a thickness: boards that a plan chose, or an amount, and the cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from woodref.lumber.board_price import amounts_of, board_price
from woodref.lumber.nominal import Nominal
from woodref.lumber.price_rows import Price
from woodref.lumber.prices import PriceList
from woodref.quantity import Range, exactly, times, total, with_waste
from woodref.record import record
from woodref.reference.woods import Wood


@record
class Purchase:
    """What to buy of one wood and thickness.

    ``boards`` (width, length [mm], number) where a plan chose them, empty where only an
    amount is known: ``waste`` [%] is then counted in ``board_feet``, and is None otherwise.
    ``prices`` are the rows used; ``cost`` None, with the reason in ``unpriced``, where the
    list has no price.
    """

    wood: str
    nominal: Nominal
    boards: tuple[tuple[float, float, int], ...]
    board_feet: Range
    buy_volume_m3: Range
    waste: Range | None
    prices: tuple[Price, ...]
    cost: Range | None
    unpriced: str = ""


def _unpriced(prices: PriceList | None, wood: Wood, nominal: Nominal, grade: str) -> str:
    if prices is None:
        return "no price list"
    ids = frozenset(wood.species_ids)
    others = prices.thicknesses(ids)
    has = f", only {', '.join(others)}" if others else ""
    of = f" {grade}" if grade else ""
    if grade and nominal.label in others:
        has = ", only of another grade or sold in another way"
    elif nominal.label in others:
        has = " for boards of these sizes"
    return f"{prices.file} has no price for {wood.common_name} {nominal.label}{of}{has}"


def boards_bought(
    wood: Wood,
    nominal: Nominal,
    boards: Mapping[tuple[float, float], int],
    prices: PriceList | None,
    grade: str = "",
) -> Purchase:
    """The boards of a plan, each size priced by the row that fits it best.

    Parameters: wood; nominal thickness; boards, how many of each width and length [mm];
    prices; grade.
    Source: board feet woodref.formulas.lumber; the choice of a row PriceList.for_board.
    """
    ids = frozenset(wood.species_ids)
    feet = volume = 0.0
    costs: list[Range] = []
    used: list[Price] = []
    for (width, length), n in boards.items():
        each = amounts_of(nominal, width, length)
        feet, volume = feet + n * each[0], volume + n * each[1]
        price = prices.for_board(ids, nominal, width, length, grade) if prices else None
        if price:
            used.append(price)
            costs.append(times(exactly(n), board_price(price, nominal, width, length)))
    priced = bool(costs) and len(costs) == len(boards)
    return Purchase(
        wood.common_name,
        nominal,
        tuple((width, length, n) for (width, length), n in sorted(boards.items())),
        exactly(feet),
        exactly(volume),
        None,
        tuple(dict.fromkeys(used)) if priced else (),
        total(costs) if priced else None,
        "" if priced else _unpriced(prices, wood, nominal, grade),
    )


def amount_bought(
    wood: Wood,
    nominal: Nominal,
    faces: Sequence[tuple[float, float, int]],
    waste: Range,
    prices: PriceList | None,
    grade: str = "",
) -> Purchase:
    """An amount for pieces without a plan: their finished faces and a waste [%].

    Parameters: wood; nominal thickness; faces, width and length [mm] and how many; waste;
    prices, of which only those by amount can be used; grade.
    """
    feet = volume = 0.0
    for width, length, n in faces:
        each = amounts_of(nominal, width, length)
        feet, volume = feet + n * each[0], volume + n * each[1]
    buy, buy_m3 = with_waste(feet, waste), with_waste(volume, waste)
    price = prices.find(frozenset(wood.species_ids), nominal, grade) if prices else None
    return Purchase(
        wood.common_name,
        nominal,
        (),
        buy,
        buy_m3,
        waste,
        (price,) if price else (),
        times(buy_m3 if price.per == "m3" else buy, price.price) if price else None,
        "" if price else _unpriced(prices, wood, nominal, grade),
    )
