"""A whole piece of furniture: what it weighs, what its lumber costs, how its parts move."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from woodref.board.movement import Movement
from woodref.board.weight import DensityEstimate
from woodref.cutting.model import Progress
from woodref.display import Grid, Shown, ranged
from woodref.lumber.buying import BuyingPlan
from woodref.lumber.multiples import Multiple
from woodref.lumber.prices import PriceList
from woodref.lumber.purchase import Purchase
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.note import Note
from woodref.piece.assumptions import assumptions
from woodref.piece.buy import buy
from woodref.piece.cost import LumberLine, SheetLine
from woodref.piece.finish_and_hardware import FinishLine, finish_line, item_cost
from woodref.piece.in_use import FixingResult, SpanResult, in_use, most_mobile_part
from woodref.piece.move import move
from woodref.piece.notices import general_notices
from woodref.piece.pack import Carton, pack
from woodref.piece.part_estimate import PartEstimate, part_estimates
from woodref.piece.piece import Piece
from woodref.piece.quote import Quote, quote
from woodref.piece.ready import BoardReady, ready_boards
from woodref.piece.remarks import remarks
from woodref.piece.resolve import ResolvedPiece, resolve
from woodref.piece.weigh import Masses, weigh
from woodref.quantity import Range, total
from woodref.record import record
from woodref.reference.cautions import Notice
from woodref.reference.library import Reference
from woodref.reference.looks import Look
from woodref.reference.woods import Value, Wood
from woodref.shipping.crate import Crate

if TYPE_CHECKING:
    from woodref.drying.delivery import Delivery


#: Share of the volume of the lumber that may be without a price for the rest to be called a cost.
UNPRICED_LIMIT = 0.1


@record(repr=False)
class Estimate(Shown):
    """A piece estimated: parts, totals, what to buy, cautions, assumptions and figures used.

    ``spans`` say how its spans sag, ``fixings`` what they need so that it can move,
    ``delivery`` what its most mobile part does month by month after delivery, None where the
    piece names no room it lives in.

    ``multiples`` are blanks that hold several short parts; ``cartons`` what it is packed in, where
    it names several; ``boards`` in hand, whether they are ready for its room, where they say how
    wet they are; ``looks`` how its woods look, of those that have one.

    Totals hold the parts that are known; ``unweighed`` and ``unpriced`` say what is left out.
    """

    piece: Piece
    currency: str
    parts: tuple[PartEstimate, ...]
    masses: Masses
    finish: FinishLine | None
    plan: BuyingPlan | None
    lumber: tuple[LumberLine, ...]
    sheets: tuple[SheetLine, ...]
    unweighed: tuple[str, ...]
    unpriced: tuple[str, ...]
    spans: tuple[SpanResult, ...]
    fixings: tuple[FixingResult, ...]
    delivery: Delivery | None
    crate: Crate | None
    notices: tuple[Notice, ...]
    assumptions: tuple[Note, ...]
    remarks: tuple[Note, ...]
    figures: tuple[tuple[Wood, Value], ...]
    boards: tuple[BoardReady, ...] = ()
    cartons: tuple[Carton, ...] = ()
    multiples: tuple[Multiple, ...] = ()
    looks: tuple[Look, ...] = ()

    @property
    def mass_kg(self) -> Mapping[str, Range]:
        """Mass of the piece at the build, at its driest and wettest, and when settled [kg]."""
        return self.masses.whole

    @property
    def unpriced_woods(self) -> tuple[int, int]:
        """How many woods that are bought have no price, and how many are bought."""
        bought = self._bought
        return len({x.wood for x in bought if x.cost is None}), len({x.wood for x in bought})

    @property
    def cost(self) -> Range | None:
        """Cost of the piece, None where nothing is priced, or too much of its lumber is not.

        That is more than UNPRICED_LIMIT of the volume of what is bought.
        """
        bought = self._bought
        whole = sum(x.buy_volume_m3.expected for x in bought)
        without = sum(x.buy_volume_m3.expected for x in bought if x.cost is None)
        return self.priced_cost if without <= UNPRICED_LIMIT * whole else None

    @property
    def _bought(self) -> Sequence[LumberLine | Purchase]:
        return self.lumber if self.plan is None else self.plan.purchases

    @property
    def priced_cost(self) -> Range | None:
        """Cost of all that is priced, whatever is left out; None where nothing is."""
        lines: list[LumberLine | SheetLine | FinishLine] = [*self.lumber, *self.sheets]
        lines += [self.finish] if self.finish else []
        costs = [line.cost for line in lines if line.cost]
        costs += [self.plan.cost] if self.plan and self.plan.cost else []
        costs += [cost for item in self.piece.items if (cost := item_cost(item))]
        return total(costs) if costs else None

    @property
    def price_dates(self) -> tuple[str, ...]:
        """Dates of the prices of its lumber, YYYY-MM-DD, the oldest first."""
        prices = [line.price for line in self.lumber if line.price]
        prices += [price for p in (self.plan.purchases if self.plan else ()) for price in p.prices]
        return tuple(sorted({price.date for price in prices if price.date}))

    @property
    def quote(self) -> Quote | None:
        """What the shop asks for it, None where its file has no [quote]."""
        if self.piece.quote is None:
            return None
        cost = self.priced_cost
        unpriced = self.finish is not None and self.finish.cost is None
        without = (*self.unpriced, *(("the finish: no price",) if unpriced else ()))
        return quote(self.piece.quote, cost.expected if cost else 0.0, without)

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
    def leading(self) -> tuple[PartEstimate, Movement] | None:
        """The part that moves most, and its movement to design for; None where none moves.

        From the driest to the wettest of its year: as its thickness and its finish let it move
        where ``delivery`` knows, else as bare thin wood does. Its ends are over boards.
        """
        mobile = most_mobile_part(self.parts)
        if mobile is None:
            return None
        return mobile, self.delivery.movement if self.delivery else mobile.movements[-1]

    def _line(self) -> str:
        cost = f", {ranged(self.cost, self.currency)}" if self.cost else ""
        mass = ranged(self.mass_kg["build"], "kg")
        return f"{self.piece.name}, {len(self.parts)} parts, {mass}{cost}"

    def _grid(self) -> Grid:
        return Grid(
            ("part", "quantity", "material", "mass [kg]", "low", "high", "cost"),
            (
                (
                    p.part.name,
                    p.part.quantity,
                    p.material,
                    *(p.mass_kg["build"] if p.mass_kg else (None,) * 3),
                    p.cost.expected if p.cost else None,
                )
                for p in self.parts
            ),
        )


def estimate_piece(
    reference: Reference,
    piece: Piece,
    prices: PriceList | None = None,
    boards: Sequence[WrittenBoard] = (),
    report: Callable[[str, Progress], None] | None = None,
) -> Estimate:
    """Estimate a piece with the woods, sizes and cautions of the reference library.

    Parameters: piece; prices, None where there is no list; boards on hand, for a piece that
    is cut from boards; report called with the lot of boards that is planned and how far that is.
    Raises: as woodref.piece.resolve.resolve and estimate.
    """
    return estimate(resolve(reference, piece, prices, boards), report)


def estimate(
    resolved: ResolvedPiece, report: Callable[[str, Progress], None] | None = None
) -> Estimate:
    """Weight, movement, lumber, cost, use and packing of a piece whose names are looked up.

    Parameters: resolved; report as estimate_piece.
    Returns: Estimate. A missing density, shrinkage or price is said and left out of totals.
    Raises: InputError, naming file and table, for a part that no stock reaches, a span, a
    fixing or a crate that cannot be.
    Source: weight FPL-GTR-282 (2021), Eq. 4-14; movement Eq. 4-9; spread
    woodref.formulas.spread; board feet woodref.formulas.lumber.
    """
    piece = resolved.piece
    finish = finish_line(piece, resolved.finish)
    masses = weigh(resolved, finish.mass_kg if finish else 0.0)
    movements = move(resolved)
    bought = buy(resolved, report)
    parts = part_estimates(resolved, masses, movements, bought)
    use = in_use(resolved, parts)
    packed = pack(resolved, masses)
    figures = _figures(parts, masses.densities)
    no_price = (*bought.unpriced, *(f"{i.name}: no price" for i in piece.items if not i.price))
    return Estimate(
        piece=piece,
        currency=resolved.currency,
        parts=parts,
        masses=masses,
        finish=finish,
        plan=bought.plan,
        lumber=bought.lumber_lines,
        sheets=tuple(bought.sheets.values()),
        unweighed=tuple(f"{p.part.name}: {p.unweighed}" for p in parts if p.unweighed),
        unpriced=tuple(dict.fromkeys(no_price)),
        spans=use.spans,
        fixings=use.fixings,
        delivery=use.delivery,
        crate=packed.crate,
        notices=(*resolved.cautions, *packed.cautions, *general_notices(bool(bought.sheets))),
        assumptions=assumptions(resolved, (value for _, value in figures)),
        remarks=remarks(resolved, parts, bought),
        figures=figures,
        cartons=packed.cartons,
        multiples=bought.multiples,
        boards=ready_boards(piece, resolved.woods, resolved.boards),
        looks=resolved.looks,
    )


def _figures(
    parts: Sequence[PartEstimate], densities: Mapping[str, DensityEstimate]
) -> tuple[tuple[Wood, Value], ...]:
    """Every printed figure used, once, wood by wood."""
    figures: dict[tuple[str, str, str], tuple[Wood, Value]] = {}
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
            figures.setdefault(key, (p.wood, value))
    return tuple(figures.values())
