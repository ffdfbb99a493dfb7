"""Which boards to cut a piece from, what is left to buy, and what that costs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from time import monotonic

from woodref.errors import InputError
from woodref.estimate.cost import total, with_waste
from woodref.estimate.cut_list import CutPart
from woodref.estimate.materials import amounts_of, board_price
from woodref.estimate.packing import SECONDS, Blank, CutPlan, Progress, StockBoard, pack
from woodref.estimate.piece_parts import Nominal
from woodref.estimate.prices import SAME_MM, Price, PriceList
from woodref.estimate.rough import Allowances, nominal_for, size_words, thinnest_of
from woodref.estimate.tally import Board
from woodref.estimate.toml_table import Figure
from woodref.reference.trade import DressedSize
from woodref.reference.woods import Wood

#: Sizes of boards offered to one plan at the most.
_SIZES_LIMIT = 200


@dataclass(frozen=True)
class Yard:
    """The boards a yard sells: every width in every length [mm]."""

    widths_mm: tuple[float, ...]
    lengths_mm: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.widths_mm or not self.lengths_mm:
            raise InputError("a yard needs widths and lengths; give both")
        if len(self.widths_mm) * len(self.lengths_mm) > _SIZES_LIMIT:
            raise InputError(f"widths times lengths make more than {_SIZES_LIMIT} sizes")


@dataclass(frozen=True)
class Uncut:
    """Blanks of a part that no board was there for, and why."""

    part: CutPart
    quantity: int
    reason: str


@dataclass(frozen=True)
class Purchase:
    """What to buy of one wood and thickness.

    ``boards`` (width, length [mm], number) where a plan chose them, empty where only an
    amount is known: ``waste`` [%] is then counted in ``board_feet``. ``cost`` None, with the
    reason in ``unpriced``, where the list has no price.
    """

    wood: str
    nominal: Nominal
    boards: tuple[tuple[float, float, int], ...]
    board_feet: Figure
    volume_m3: Figure
    waste: Figure | None
    prices: tuple[Price, ...]
    cost: Figure | None
    unpriced: str = ""


@dataclass(frozen=True)
class LotPlan:
    """The parts of one wood and rough thickness, cut from boards in hand or of a yard."""

    wood: Wood
    nominal: Nominal
    parts: tuple[CutPart, ...]
    plan: CutPlan
    sizes: tuple[tuple[float, float], ...]
    bought: bool


@dataclass(frozen=True)
class BuyingPlan:
    """Plans by wood and thickness, what stays uncut, what to buy, what it costs together."""

    lots: tuple[LotPlan, ...]
    uncut: tuple[Uncut, ...]
    purchases: tuple[Purchase, ...]
    cost: Figure | None
    currency: str
    interrupted: bool

    @property
    def complete(self) -> bool:
        """True where the boards in hand give every part."""
        return not self.uncut

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What has no price, and why."""
        return tuple(dict.fromkeys(p.unpriced for p in self.purchases if p.unpriced))


def blank_of(part: CutPart, allowances: Allowances, pieces: int = 1) -> Blank:
    """The rough blanks of ``pieces`` of a part; a panel is its staves."""
    return Blank(
        part.name,
        part.length_mm + allowances.length_mm,
        part.width_mm / part.staves + allowances.width_mm,
        part.quantity * part.staves * pieces,
    )


def _same(a: Nominal, b: Nominal) -> bool:
    return abs(a.size_mm - b.size_mm) < SAME_MM


def _unpriced(prices: PriceList | None, wood: Wood, nominal: Nominal) -> str:
    if prices is None:
        return "no price list"
    others = prices.thicknesses(frozenset(wood.species_ids))
    has = f", only {', '.join(others)}" if others else ""
    return f"{prices.file} has no price for {wood.common_name} {nominal.label}{has}"


class _Maker:
    """What a plan is made with; the arguments of buying_plan, in one place."""

    def __init__(
        self,
        woods: Mapping[str, Wood],
        sizes: Sequence[DressedSize],
        allowances: Allowances,
        waste: Figure,
        prices: PriceList | None,
        grade: str,
        until: float,
        seed: int,
        report: Callable[[str, Progress], None] | None,
        units: str,
    ) -> None:
        self.woods, self.sizes, self.allowances = woods, sizes, allowances
        self.waste, self.prices, self.grade, self.units = waste, prices, grade, units
        self.until, self.seed, self.report = until, seed, report
        self.to_come = 1

    def lot(
        self,
        wood: Wood,
        nominal: Nominal,
        parts: Sequence[CutPart],
        boards: Sequence[tuple[float, float, int | None]],
        needed: Mapping[str, int] | None = None,
    ) -> LotPlan:
        """Parts cut from boards (width, length, number), or only ``needed`` blanks of them."""
        a = self.allowances
        blanks = [blank_of(p, a) for p in parts]
        if needed is not None:
            blanks = [replace(b, quantity=needed[b.name]) for b in blanks]
        words = f"{nominal.label} {wood.common_name}"
        stock = [
            StockBoard(
                f"{words} {size_words(w, self.units)} x {size_words(n, self.units)}",
                n - 2.0 * a.end_trim_mm,
                w,
                count,
            )
            for w, n, count in boards
        ]
        share = max(0.5, (self.until - monotonic()) / max(1, self.to_come))
        self.to_come -= 1
        aim = "boards" if needed is None and all(s.quantity is not None for s in stock) else "wood"

        def tell(progress: Progress) -> None:
            if self.report:
                self.report(words, progress)

        plan = pack(blanks, stock, a.kerf_mm, aim, share, self.seed, tell)
        if plan.interrupted:
            self.until = monotonic()  # the plans to come are quick ones
        sizes = tuple((w, n) for w, n, _ in boards)
        return LotPlan(wood, nominal, tuple(parts), plan, sizes, aim == "wood")

    def boards_bought(self, lot: LotPlan) -> Purchase:
        """The boards of a plan, priced one by one."""
        ids = frozenset(lot.wood.species_ids)
        numbers: dict[tuple[float, float], int] = defaultdict(int)
        for board in lot.plan.boards:
            numbers[lot.sizes[board.stock]] += 1
        feet = volume = 0.0
        costs: list[Figure] = []
        used: list[Price] = []
        for (width, length), n in numbers.items():
            each = amounts_of(lot.nominal, width, length)
            feet, volume = feet + n * each[0], volume + n * each[1]
            price = (
                self.prices.for_board(ids, lot.nominal, width, length, self.grade)
                if self.prices
                else None
            )
            if price is None:
                continue
            used.append(price)
            one = board_price(price, lot.nominal, width, length)
            costs.append(Figure(n * one.expected, n * one.low, n * one.high))
        priced = len(costs) == len(numbers) and bool(costs)
        return Purchase(
            lot.wood.common_name,
            lot.nominal,
            tuple((w, n, count) for (w, n), count in sorted(numbers.items())),
            Figure(feet, feet, feet),
            Figure(volume, volume, volume),
            None,
            tuple(dict.fromkeys(used)),
            total(costs) if priced else None,
            "" if priced else _unpriced(self.prices, lot.wood, lot.nominal),
        )

    def amount_bought(self, wood: Wood, nominal: Nominal, uncut: Sequence[Uncut]) -> Purchase:
        """An amount for blanks without a plan: their faces and the usual waste."""
        feet = volume = 0.0
        for u in uncut:
            p = u.part
            each = amounts_of(nominal, p.width_mm / p.staves, p.length_mm)
            feet, volume = feet + u.quantity * each[0], volume + u.quantity * each[1]
        buy, buy_m3 = with_waste(feet, self.waste), with_waste(volume, self.waste)
        price = (
            self.prices.find(frozenset(wood.species_ids), nominal, self.grade)
            if self.prices
            else None
        )
        cost = None
        if price:
            amount = buy_m3 if price.per == "m3" else buy
            cost = Figure(
                amount.expected * price.price.expected,
                amount.low * price.price.low,
                amount.high * price.price.high,
            )
        return Purchase(
            wood.common_name,
            nominal,
            (),
            buy,
            buy_m3,
            self.waste,
            (price,) if price else (),
            cost,
            "" if price else _unpriced(self.prices, wood, nominal),
        )


def _uncut_of(lot: LotPlan, units: str) -> list[Uncut]:
    """The blanks of a plan that stay uncut, with the reason."""
    found = []
    for i, part in enumerate(lot.parts):
        n = lot.plan.left[i]
        if not n:
            continue
        blank = lot.plan.blanks[i]
        words = f"{size_words(blank.length_mm, units)} x {size_words(blank.width_mm, units)} rough"
        if i in lot.plan.too_large:
            hint = "" if part.staves > 1 else "; glue it up: give it staves"
            wide = blank.width_mm > max(w for w, _ in lot.sizes)
            reason = f"{words} is larger than every board{hint if wide else ''}"
        else:
            reason = f"no board is left for it ({words})"
        found.append(Uncut(part, n, reason))
    return found


def buying_plan(
    parts: Sequence[CutPart],
    woods: Mapping[str, Wood],
    sizes: Sequence[DressedSize],
    allowances: Allowances,
    waste: Figure,
    in_hand: Sequence[tuple[Wood, Board]] = (),
    yard: Yard | None = None,
    prices: PriceList | None = None,
    grade: str = "",
    seconds: float = SECONDS,
    seed: int = 0,
    report: Callable[[str, Progress], None] | None = None,
    units: str = "us",
) -> BuyingPlan:
    """Cut parts from the boards in hand, and say what to buy for the rest.

    Parameters: parts; woods by the species names of the parts; sizes the standard
    thicknesses; allowances; waste [%] added where no yard is given, so that no plan says what
    is bought; in_hand the boards in hand with their woods; yard the sizes to buy; prices;
    grade to buy; seconds for all plans together; seed of their random choices; report called
    with the lot and its progress; units of messages.
    Returns: BuyingPlan. A part takes the thinnest stock in hand of its wood that dresses to
    it; a thickness that is not in hand is bought.
    Raises: InputError where a part is thicker than any standard stock, or nothing is to cut.
    """
    if not parts:
        raise InputError("there is nothing to cut; name a part")
    make = _Maker(
        woods, sizes, allowances, waste, prices, grade, monotonic() + seconds, seed, report, units
    )
    uncut: list[Uncut] = []
    lots: list[LotPlan] = []
    groups: dict[tuple[str, float], list[CutPart]] = defaultdict(list)
    nominals: dict[tuple[str, float], Nominal] = {}
    for part in parts:
        wood = woods[part.species]
        own = [
            Nominal(b.thickness, b.thickness_mm)
            for w, b in in_hand
            if set(wood.species_ids) & set(w.species_ids)
        ]
        nominal = thinnest_of(part.thickness_mm, own, sizes, allowances.planing_mm)
        if nominal is None:
            try:
                nominal = nominal_for(part.thickness_mm, sizes, units)
            except InputError as error:
                raise InputError(f"{part.name}: {error}") from None
            if own:
                thickest = max(own, key=lambda n: n.size_mm)
                reason = (
                    f"{thickest.label}, the thickest {wood.common_name} in hand, is too thin for "
                    f"{size_words(part.thickness_mm, units)}"
                )
            else:
                reason = f"no {wood.common_name} in hand"
            uncut.append(Uncut(part, part.quantity * part.staves, reason))
        key = (wood.species_id, round(nominal.size_mm, 1))
        groups[key].append(part)
        nominals.setdefault(key, nominal)
    missing = {u.part.name for u in uncut}
    in_lots = {k: [p for p in g if p.name not in missing] for k, g in groups.items()}
    make.to_come = sum(1 for g in in_lots.values() if g) + (len(groups) if yard else 0)
    for key, group in in_lots.items():
        if group:
            wood, nominal = woods[group[0].species], nominals[key]
            boards = [
                (b.width_mm, b.length_mm, b.quantity)
                for w, b in in_hand
                if set(wood.species_ids) & set(w.species_ids)
                and _same(Nominal(b.thickness, b.thickness_mm), nominal)
            ]
            lot = make.lot(wood, nominal, group, boards)
            lots.append(lot)
            uncut += _uncut_of(lot, units)
    purchases: list[Purchase] = []
    short = lots_short(groups, uncut)
    for key, rest in short.items():
        wood, nominal = woods[rest[0].part.species], nominals[key]
        if yard is None:
            purchases.append(make.amount_bought(wood, nominal, rest))
            continue
        needed = {u.part.name: u.quantity for u in rest}
        offered = [(w, n, None) for w in yard.widths_mm for n in yard.lengths_mm]
        lot = make.lot(wood, nominal, [u.part for u in rest], offered, needed)
        lots.append(lot)
        purchases.append(make.boards_bought(lot))
    costs = [p.cost for p in purchases if p.cost]
    still = [u for lot in lots if lot.bought for u in _uncut_of(lot, units)]
    if still:
        raise InputError(
            f"{still[0].part.name}: {still[0].reason} that the yard sells; offer larger boards"
        )
    return BuyingPlan(
        tuple(lots),
        tuple(uncut),
        tuple(purchases),
        total(costs) if costs else None,
        prices.currency if prices else "",
        any(lot.plan.interrupted for lot in lots),
    )


def lots_short(
    groups: Mapping[tuple[str, float], Sequence[CutPart]], uncut: Sequence[Uncut]
) -> dict[tuple[str, float], list[Uncut]]:
    """What stays uncut, by wood and thickness."""
    found: dict[tuple[str, float], list[Uncut]] = {}
    for key, group in groups.items():
        names = {p.name for p in group}
        rest = [u for u in uncut if u.part.name in names]
        if rest:
            found[key] = rest
    return found


def pieces_short(uncut: Uncut) -> int:
    """Whole parts that miss at least one stave."""
    return ceil(uncut.quantity / uncut.part.staves)
