"""Which boards to cut a piece from, what is left to buy, and what that costs."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from itertools import combinations

from woodref.cutting.model import Progress
from woodref.cutting.pack import USUAL
from woodref.display import Shown, ranged
from woodref.errors import InputError
from woodref.lumber.cut_list import CutPart
from woodref.lumber.lots import LotPlan, Shop, larger_than_sold, why_left
from woodref.lumber.multiples import Multiple, multiples_of
from woodref.lumber.nominal import Nominal
from woodref.lumber.prices import PriceList
from woodref.lumber.purchase import Purchase, amount_bought, boards_bought
from woodref.lumber.rough import Allowances, check_stock
from woodref.lumber.stock_on_hand import StockOnHand, Uncut
from woodref.lumber.tally import Board
from woodref.lumber.thicknesses import ThickerListed, ThicknessesSold
from woodref.lumber.turning import glued_turning, is_turned
from woodref.lumber.yard import Yard
from woodref.quantity import Range, total
from woodref.record import record
from woodref.reference.woods import Wood


@record(repr=False)
class BuyingPlan(Shown):
    """Plans by wood and thickness, what stays uncut, what to buy, what it costs together.

    ``parts`` are those that were asked for, and ``boards_on_hand`` how many boards there were;
    ``uncut`` is what the boards in hand do not give, ``left_over`` the boards in hand that
    stay whole; ``multiples`` the blanks that hold several short parts; ``thicker_listed`` the
    parts, by name, that are bought in thicker stock than yards usually have for them; ``cost``
    holds what is priced, None where nothing is.
    """

    parts: tuple[CutPart, ...]
    boards_on_hand: int
    lots: tuple[LotPlan, ...]
    uncut: tuple[Uncut, ...]
    left_over: tuple[tuple[Wood, Board], ...]
    purchases: tuple[Purchase, ...]
    cost: Range | None
    currency: str
    interrupted: bool
    multiples: tuple[Multiple, ...] = ()
    thicker_listed: tuple[tuple[str, ThickerListed], ...] = ()

    @property
    def complete(self) -> bool:
        """True where the boards in hand give every part."""
        return not self.uncut

    @property
    def blanks(self) -> int:
        """How many blanks the parts need, one that holds several pieces counted as those."""
        return sum(p.pieces for p in self.parts)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What has no price, and why."""
        return tuple(dict.fromkeys(p.unpriced for p in self.purchases if p.unpriced))

    def _line(self) -> str:
        cost = f", {ranged(self.cost, self.currency)}" if self.cost else ""
        return (
            f"{sum(p.quantity for p in self.parts)} parts, {len(self.lots)} lots, "
            f"{len(self.uncut)} uncut, {len(self.purchases)} purchases{cost}"
        )


def _share_a_wood(a: Wood, b: Wood) -> bool:
    return not set(a.species_ids).isdisjoint(b.species_ids)


def _check_names(parts: Sequence[CutPart], woods: Mapping[str, Wood]) -> None:
    """Refuse parts of one name, and woods that are part of each other.

    Raises: InputError.
    """
    twice = [name for name, n in Counter(p.name for p in parts).items() if n > 1]
    if twice:
        raise InputError(f"the part '{twice[0]}' is there twice; raise its quantity")
    for a, b in combinations(dict.fromkeys(p.species for p in parts), 2):
        if woods[a].species_id != woods[b].species_id and _share_a_wood(woods[a], woods[b]):
            raise InputError(
                f"'{a}' and '{b}' are sold as one another; call the parts by one of the names"
            )


def buying_plan(
    parts: Sequence[CutPart],
    woods: Mapping[str, Wood],
    sold: ThicknessesSold,
    allowances: Allowances,
    waste: Range,
    on_hand: Sequence[tuple[Wood, Board]] = (),
    yard: Yard | None = None,
    prices: PriceList | None = None,
    grade: str = "",
    effort: str = USUAL,
    seed: int = 0,
    report: Callable[[str, Progress], None] | None = None,
    units: str = "us",
    surfaced: bool = False,
    third_cut: bool = False,
) -> BuyingPlan:
    """Cut parts from the boards in hand, and say what to buy for the rest.

    Parameters: parts; woods by the species names of the parts; sold the thicknesses that are
    sold; allowances; waste [%] added where no yard is given, so that no plan says what is
    bought; on_hand the boards in hand with their woods; yard the sizes to buy; prices; grade
    to buy; effort of the search for each plan, 'quick', 'usual' or 'long'; seed of its random
    choices; report called with the lot and its progress; units of messages; surfaced, whether
    the boards in hand are planed already, their thickness being what is there; third_cut, whether
    what the second cut of a board leaves may be parted once more.
    Returns: BuyingPlan. A part takes the thinnest stock in hand of its wood that dresses to
    it, what is left of it the next thicker, as far as a shop planes; what no board in hand
    gives is bought. A part whose blank is shorter than the safe length is cut in multiples; a
    turned one too thick for all stock is glued from staves. An interrupt (KeyboardInterrupt)
    gives the best plans found so far.
    Raises: InputError where there is nothing to cut, a part has a name another has, its stock
    is too thin for it, or it is too thick or too large for all that the yard sells.
    """
    if not parts:
        raise InputError("there is nothing to cut; name a part")
    _check_names(parts, woods)
    shop = Shop(allowances, sold, surfaced, effort, seed, report, units, third_cut)
    parts = [_as_glued(part, woods, sold, allowances) for part in parts]
    for part in parts:
        if part.stock and not surfaced:
            with _named(part):
                check_stock(
                    part.blank_thickness_mm, part.stock, sold.dressed, allowances.planing_mm, units
                )
    stocks = _stocks(shop, parts, woods, on_hand)
    if yard:
        for stock in stocks:
            shop.refuse_too_large(stock.parts, stock.left, yard.sizes, stock.boards)
    for stock in stocks:
        stock.cut()
    uncut = [u for stock in stocks for u in stock.uncut()]
    lots = [lot for stock in stocks for lot in stock.lots]
    purchases: list[Purchase] = []
    unplanned: list[Multiple] = []
    short = _to_buy(shop, uncut, woods)
    if yard:
        for _, _, missing in short:
            needed = {u.part.name: u.quantity for u in missing}
            shop.refuse_too_large([u.part for u in missing], needed, yard.sizes)
    for wood, nominal, missing in short:
        if yard is None:
            faces = [(u.part.blank_width_mm, u.part.length_mm, u.quantity) for u in missing]
            unplanned += [m for u in missing for m in multiples_of(u.part, allowances, u.quantity)]
            purchases.append(amount_bought(wood, nominal, faces, waste, prices, grade))
            continue
        lot = _from_yard(shop, wood, nominal, missing, yard)
        lots.append(lot)
        chosen = Counter(lot.sizes[b.stock] for b in lot.plan.boards)
        purchases.append(boards_bought(wood, nominal, chosen, prices, grade))
    costs = [p.cost for p in purchases if p.cost]
    spare = [pair for stock in stocks for pair in stock.left_over()]
    others = [(w, b) for w, b in on_hand if not any(_share_a_wood(w, s.wood) for s in stocks)]
    return BuyingPlan(
        tuple(parts),
        sum(board.quantity for _, board in on_hand),
        tuple(lots),
        tuple(uncut),
        (*spare, *others),
        tuple(purchases),
        total(costs) if costs else None,
        prices.currency if prices else "",
        any(lot.plan.interrupted for lot in lots),
        _multiples(lots, unplanned),
        tuple(
            (u.part.name, thicker)
            for wood, _, missing in short
            for u in missing
            if (thicker := _thicker(u.part, wood, sold, allowances))
        ),
    )


def _thicker(
    part: CutPart, wood: Wood, sold: ThicknessesSold, allowances: Allowances
) -> ThickerListed | None:
    """That a part is bought in thicker stock than usual; nothing where its stock is given."""
    if part.stock:
        return None
    a = allowances
    return sold.thicker_listed(wood, part.blank_thickness_mm, a.planing_mm, a.kerf_mm)


def _as_glued(
    part: CutPart,
    woods: Mapping[str, Wood],
    sold: ThicknessesSold,
    allowances: Allowances,
) -> CutPart:
    """A part with its staves, where it is a turning glued from some."""
    if part.glued or not is_turned(part.shape):
        return part
    wood = woods[part.species]
    glued = glued_turning(part.width_mm, part.staves, part.stock, wood, sold, allowances)
    return replace(part, staves=glued.staves, glued=glued) if glued else part


def _multiples(lots: Sequence[LotPlan], unplanned: Sequence[Multiple]) -> tuple[Multiple, ...]:
    """Blanks that hold several pieces: those the plans cut, and those of amounts to buy."""
    cut = [
        Multiple(part, blank.pieces, count, blank.length_mm, blank.width_mm)
        for lot in lots
        for i, (part, blank) in enumerate(zip(lot.parts, lot.plan.blanks, strict=True))
        if (count := sum(b.blanks.count(i) for b in lot.plan.boards))
    ]
    return tuple(m for m in [*cut, *unplanned] if m.pieces > 1)


@contextmanager
def _named(part: CutPart) -> Iterator[None]:
    """Put the name of a part before what is wrong with it."""
    try:
        yield
    except InputError as error:
        raise error.headed(f"{part.name}: ") from None


def _stocks(
    shop: Shop,
    parts: Sequence[CutPart],
    woods: Mapping[str, Wood],
    on_hand: Iterable[tuple[Wood, Board]],
) -> list[StockOnHand]:
    """Parts by their wood, with the boards in hand of it."""
    by_wood: dict[str, list[CutPart]] = defaultdict(list)
    for part in parts:
        by_wood[woods[part.species].species_id].append(part)
    boards = list(on_hand)
    stocks = []
    for group in by_wood.values():
        wood = woods[group[0].species]
        own = [b for w, b in boards if _share_a_wood(w, wood)]
        stocks.append(StockOnHand(shop, wood, group, own))
    return stocks


def _to_buy(
    shop: Shop, uncut: Sequence[Uncut], woods: Mapping[str, Wood]
) -> list[tuple[Wood, Nominal, list[Uncut]]]:
    """What stays uncut, by wood and the thickness to buy."""
    short: dict[tuple[str, float], tuple[Wood, Nominal, list[Uncut]]] = {}
    for u in uncut:
        wood, nominal = woods[u.part.species], u.part.stock
        if nominal is None:
            with _named(u.part):
                nominal = shop.nominal_for(wood, u.part.blank_thickness_mm)
        key = (wood.species_id, round(nominal.size_mm, 1))
        short.setdefault(key, (wood, nominal, []))[2].append(u)
    return list(short.values())


def _from_yard(
    shop: Shop, wood: Wood, nominal: Nominal, missing: Sequence[Uncut], yard: Yard
) -> LotPlan:
    """Blanks cut from boards that the yard sells.

    Raises: InputError for a blank larger than all of them.
    """
    trims = 2.0 * shop.allowances.end_trim_mm
    offered = [s for s in yard.sizes if s.length_mm > trims]
    needed = {u.part.name: u.quantity for u in missing}
    if not offered:
        raise InputError("every length the yard sells is lost in trimming its ends")
    lot = shop.plan(wood, nominal, [u.part for u in missing], needed, offered, bought=True)
    for i, part in enumerate(lot.parts):
        if lot.plan.left[i]:
            raise larger_than_sold(part, why_left(lot, i), shop.units)
    return lot
