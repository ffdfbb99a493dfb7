"""A whole piece of furniture: what it weighs, what its lumber costs, how its parts move."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from woodref.board.movement import Movement
from woodref.board.weight import DensityEstimate
from woodref.cutting.model import Progress
from woodref.errors import InputError
from woodref.lumber.buying import BuyingPlan
from woodref.lumber.prices import PriceList, in_currency
from woodref.lumber.tally import Board
from woodref.piece.cost import LumberLine, PartStock, SheetLine, lumber_line, sheet_line, stock_for
from woodref.piece.cutting_plan import by_grade, plan_of
from woodref.piece.finish_and_hardware import FinishLine, finish_line, item_cost
from woodref.piece.in_use import (
    FixingResult,
    SpanResult,
    delivery_of,
    fixings_of,
    most_mobile_part,
    spans_of,
)
from woodref.piece.notices import assumptions, general_notices, lifting_notice
from woodref.piece.part_estimate import WIDE_BOARD_MM, PartEstimate, airs, lumber_part, sheet_part
from woodref.piece.parts_table import Part
from woodref.piece.piece import Piece
from woodref.piece.weights import Masses, masses_of
from woodref.quantity import Range, total
from woodref.reference.cautions import Notice, cautions_for, recorded_notices
from woodref.reference.library import Reference
from woodref.reference.shipping import shipping_facts
from woodref.reference.trade import (
    DressedSize,
    LiftingLimit,
    dressed_thicknesses,
    lifting_limit,
)
from woodref.reference.woods import Value, Wood
from woodref.shipping.crate import Crate, crate
from woodref.shipping.load import WHOLE

if TYPE_CHECKING:
    from woodref.drying.acclimation import Delivery


@dataclass(frozen=True)
class Estimate:
    """A piece estimated: parts, totals, what to buy, cautions, assumptions and figures used.

    ``spans`` say how its spans sag, ``fixings`` what they need so that it can move,
    ``delivery`` what its liveliest part does month by month after delivery, None where the
    piece names no room it lives in.

    Totals hold the parts that are known; ``unweighed`` and ``unpriced`` say what is left out.
    """

    piece: Piece
    currency: str
    parts: tuple[PartEstimate, ...]
    mass_kg: Mapping[str, Range]
    settled_pct: float
    masses: Masses
    lumber: tuple[LumberLine, ...]
    sheets: tuple[SheetLine, ...]
    unweighed: tuple[str, ...]
    unpriced: tuple[str, ...]
    notices: tuple[Notice, ...]
    assumptions: tuple[str, ...]
    remarks: tuple[str, ...]
    figures: tuple[tuple[Wood, Value], ...]
    finish: FinishLine | None = None
    spans: tuple[SpanResult, ...] = ()
    fixings: tuple[FixingResult, ...] = ()
    delivery: Delivery | None = None
    crate: Crate | None = None
    plan: BuyingPlan | None = None
    boards_in_hand: int = 0

    @property
    def cost(self) -> Range | None:
        """Cost of all that is priced, None where nothing is."""
        lines: list[LumberLine | SheetLine | FinishLine] = [*self.lumber, *self.sheets]
        lines += [self.finish] if self.finish else []
        costs = [line.cost for line in lines if line.cost]
        costs += [self.plan.cost] if self.plan and self.plan.cost else []
        costs += [cost for item in self.piece.items if (cost := item_cost(item))]
        return total(costs) if costs else None

    @property
    def board_feet(self) -> float:
        """Finished board feet of all lumber parts."""
        return sum(line.net_board_feet for line in self.lumber)

    @property
    def buy_board_feet(self) -> Range:
        """Board feet to buy: those of the plan, else with the allowance for offcuts."""
        bought = self.plan.purchases if self.plan else None
        if bought is not None:
            return total([p.board_feet for p in bought])
        return total([line.buy_board_feet for line in self.lumber])

    @property
    def lumber_cost(self) -> Range | None:
        """Cost of the lumber that is priced, None where none is."""
        costs = [line.cost for line in self.lumber if line.cost]
        return total(costs) if costs else None

    @property
    def volume_m3(self) -> float:
        """Finished volume of all parts [m3]."""
        return sum(p.part.volume_m3 for p in self.parts)

    @property
    def largest(self) -> tuple[PartEstimate, Movement] | None:
        """The part whose width changes most, and that change; None where none moves."""
        moves = [(p, m) for p in self.parts for m in p.movements]
        return max(moves, key=lambda pair: abs(pair[1].change_mm), default=None)


def settled_pct(piece: Piece) -> float:
    """Moisture content a piece settles at: the mean of its room's year, or of the two ends [%]."""
    if piece.room:
        return piece.room.season.mean_emc_pct
    return (piece.driest.moisture_pct + piece.wettest.moisture_pct) / 2.0


def find_woods(piece: Piece, find: Callable[[str], Wood]) -> dict[str, Wood]:
    """The woods of a piece by the name it uses for them.

    Raises: InputError with file, part and key in front of what ``find`` says of a name that
    is unknown or covers several woods.
    """
    woods: dict[str, Wood] = {}
    for part in piece.parts:
        if part.species and part.species not in woods:
            try:
                woods[part.species] = find(part.species)
            except InputError as error:
                raise InputError(f"{piece.file}: {part.place}: species: {error}") from None
    return woods


def estimate_piece(
    reference: Reference,
    piece: Piece,
    prices: PriceList | None = None,
    in_hand: Sequence[tuple[Wood, Board]] = (),
    report: Callable[[str, Progress], None] | None = None,
) -> Estimate:
    """Estimate a piece with the woods, sizes and cautions of the reference library.

    Parameters: piece; prices, None where there is no list; in_hand the boards in hand with
    their woods, for a piece that is cut from boards; report called with the lot of boards that
    is planned and how far that is.
    Raises: as find_woods and estimate; as woodref.piece.cutting_plan.plan_of.
    """
    woods = find_woods(piece, reference.wood)
    finish = finish_line(reference, piece)
    prices = in_currency(prices, piece.currency) if prices else None
    plan = plan_of(reference, piece, woods, prices, in_hand, report)
    piece, graded = by_grade(reference, piece)
    found = estimate(piece, woods, dressed_thicknesses(reference), prices, finish, plan)
    lively = most_mobile_part(found.parts)
    ids = [i for wood in woods.values() for i in wood.species_ids]
    recorded = recorded_notices(cautions_for(reference, ids))
    lift = _lifting(found.masses, lifting_limit(reference))
    return replace(
        found,
        spans=spans_of(piece, woods),
        fixings=fixings_of(piece, woods),
        crate=_crate(reference, piece, found.masses.packed),
        delivery=delivery_of(piece, lively, finish.finish if finish else None) if lively else None,
        notices=(*recorded, *lift, *found.notices),
        remarks=(*found.remarks, *graded),
        boards_in_hand=sum(board.quantity for _, board in in_hand),
    )


def estimate(
    piece: Piece,
    woods: Mapping[str, Wood],
    sizes: Sequence[DressedSize],
    prices: PriceList | None = None,
    finish: FinishLine | None = None,
    plan: BuyingPlan | None = None,
) -> Estimate:
    """Weight, lumber, cost and movement of a piece, without cautions from the reference.

    Parameters: piece; woods by the species names of its parts; sizes the standard nominal
    thicknesses; prices, None where there is no list; finish that is put on; plan of boards, in
    place of a waste factor.
    Returns: Estimate. A missing density, shrinkage or price is said and left out of totals.
    Raises: InputError, naming file and part, for a part that no stock reaches, and where
    piece and price list name different currencies.
    Source: weight FPL-GTR-282 (2021), Eq. 4-14; movement Eq. 4-9; spread
    woodref.formulas.spread; board feet woodref.formulas.lumber.
    """
    prices = in_currency(prices, piece.currency) if prices else None
    stocks = {p.name: _stock(piece, p, sizes) for p in piece.parts if p.sheet is None}
    lumber = _lumber(piece, woods, stocks, prices)
    if plan:
        # What is bought, and its cost, stand in the plan: never a waste factor beside it.
        lumber = {
            name: replace(line, price=None, cost=None, unpriced="") for name, line in lumber.items()
        }
    sheets = _sheets(piece)
    conditions = {name: air.moisture_pct for name, air in airs(piece).items()}
    conditions["settled"] = settled_pct(piece)
    masses = masses_of(piece, woods, conditions, finish.mass_kg if finish else 0.0)
    parts = tuple(
        sheet_part(part, sheets[part.sheet.name], masses.parts[part.name])
        if part.sheet
        else lumber_part(
            piece,
            part,
            woods[part.species],
            stocks[part.name],
            lumber[part.name],
            masses.parts.get(part.name),
            masses.unweighed.get(part.name, ""),
        )
        for part in piece.parts
    )
    boards = tuple(dict.fromkeys(lumber.values()))
    lines: list[LumberLine | SheetLine] = [*boards, *sheets.values()]
    no_price = [line.unpriced for line in lines if line.unpriced]
    no_price += plan.unpriced if plan else ()
    no_price += [f"{i.name}: no price" for i in piece.items if not i.price]
    figures = _figures(parts, masses.densities)
    return Estimate(
        piece=piece,
        currency=prices.currency if prices else piece.currency,
        parts=parts,
        mass_kg=masses.whole,
        settled_pct=conditions["settled"],
        masses=masses,
        lumber=boards,
        sheets=tuple(sheets.values()),
        unweighed=tuple(f"{p.part.name}: {p.unweighed}" for p in parts if p.unweighed),
        unpriced=tuple(dict.fromkeys(no_price)),
        notices=general_notices(bool(sheets)),
        assumptions=assumptions(piece, (value for _, value in figures)),
        remarks=(*_remarks(piece, parts, woods), *_price_remark(prices)),
        figures=figures,
        finish=finish,
        plan=plan,
    )


def _lifting(masses: Masses, limit: LiftingLimit | None) -> tuple[Notice, ...]:
    """A caution about the heaviest lift of a piece, which may be a part of it."""
    heaviest = masses.heaviest_lift
    if heaviest is None:
        return ()
    name, mass = heaviest
    rest = "The piece" if len(masses.lifts) == 1 else "What is left of the piece"
    what = rest if name == WHOLE else f"The heaviest lift, {name},"
    return lifting_notice(mass, limit, what)


def _crate(reference: Reference, piece: Piece, packed_kg: Range) -> Crate | None:
    """The crate around a piece, None where the file says nothing of shipping."""
    plan = piece.shipping
    if plan is None or not packed_kg.expected:
        return None
    try:
        return crate(
            plan.size_mm, packed_kg, plan.packing, shipping_facts(reference), plan.divisors
        )
    except InputError as error:
        raise InputError(f"{piece.file}: shipping: {error}") from None


def _price_remark(prices: PriceList | None) -> tuple[str, ...]:
    """Which price list serves."""
    return (f"Prices: {prices.file}",) if prices else ()


def _stock(piece: Piece, part: Part, sizes: Sequence[DressedSize]) -> PartStock:
    try:
        return stock_for(part, sizes)
    except InputError as error:
        raise InputError(f"{piece.file}: {part.place}: {error}") from None


def _lumber(
    piece: Piece,
    woods: Mapping[str, Wood],
    stocks: Mapping[str, PartStock],
    prices: PriceList | None,
) -> dict[str, LumberLine]:
    """The lumber bought for each part, by its name; parts of one wood and stock share it."""
    groups: dict[tuple[str, float], list[Part]] = defaultdict(list)
    for part in piece.parts:
        if part.sheet is None:
            size = round(stocks[part.name].nominal.size_mm, 1)
            groups[woods[part.species].species_id, size].append(part)
    found: dict[str, LumberLine] = {}
    for group in groups.values():
        wood, nominal = woods[group[0].species], stocks[group[0].name].nominal
        line = lumber_line(
            wood.common_name,
            frozenset(wood.species_ids),
            nominal,
            group,
            piece.waste,
            prices,
            piece.grade,
        )
        found |= {part.name: line for part in group}
    return found


def _sheets(piece: Piece) -> dict[str, SheetLine]:
    """The sheet goods bought, by name."""
    used = {part.sheet.name: part.sheet for part in piece.parts if part.sheet}
    return {
        name: sheet_line(sheet, [p for p in piece.parts if p.sheet == sheet], piece.sheet_waste)
        for name, sheet in used.items()
    }


def _remarks(
    piece: Piece, parts: Sequence[PartEstimate], woods: Mapping[str, Wood]
) -> tuple[str, ...]:
    """What the maker wrote, and what is particular to a wood or a part."""
    found = [piece.note] if piece.note else []
    found += [f"{wood.common_name}: {wood.note}" for wood in woods.values() if wood.note]
    for p in parts:
        if p.part.note:
            found.append(f"{p.part.name}: {p.part.note}")
        if p.stock and p.stock.note:
            found.append(f"{p.part.name}: {p.stock.note}")
        if p.unmoved:
            found.append(f"{p.part.name}: movement is not known: {p.unmoved}")
        if p.wood and p.part.staves == 1 and p.part.width_mm > WIDE_BOARD_MM:
            found.append(
                f"{p.part.name}: counted as one board, wider than most; "
                "if it is glued up, write staves = their number"
            )
        if p.wood and p.movements and not p.movements[0].basis.by_shrinkage:
            found.append(f"{p.wood.common_name} moves by the {p.movements[0].basis.method}")
        found += [f"{p.part.name}: {note}" for m in p.movements for note in m.notes]
    return tuple(dict.fromkeys(found))


def _figures(
    parts: Sequence[PartEstimate], densities: Mapping[str, DensityEstimate]
) -> tuple[tuple[Wood, Value], ...]:
    """Every printed figure used, once, wood by wood."""
    found: dict[tuple[str, str, str], tuple[Wood, Value]] = {}
    for p in parts:
        if p.wood is None:
            continue
        density = densities.get(p.part.species)
        values = list(density.values) if density else []
        if p.movements:
            basis = p.movements[0].basis
            values += [basis.tangential, basis.radial]
        for value in values:
            key = (p.wood.species_id, value.property_id, value.condition)
            found.setdefault(key, (p.wood, value))
    return tuple(found.values())


def resolver(reference: Reference) -> Callable[[str], frozenset[str]]:
    """From a name in a price list to the identifiers of the woods it stands for.

    The function returned raises as Reference.wood.
    """

    @cache
    def ids_of(name: str) -> frozenset[str]:
        rows = reference.name_rows(name)
        ids = frozenset(row["species_id"] for row in rows)
        if len(ids) == 1 or (rows and rows[0]["name_kind"] == "group"):
            return ids  # without reading the values of the wood
        return frozenset(reference.wood(name).species_ids)

    return ids_of
