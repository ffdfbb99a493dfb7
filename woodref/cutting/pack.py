"""Cutting rough blanks out of boards: the rules of cutting, and the call that finds a plan.

A board is cut in two stages that a shop can make: crosscut into sections and each section
ripped into blanks, or ripped into strips and each strip crosscut; a blank smaller than its
section or strip is trimmed. Where a third cut is allowed, what the second leaves may be parted
once more, the way of the first. Grain runs along the length, so nothing is turned. A quick
filling comes first; then a linear program prices the blanks, boards are filled for these prices,
and a lower bound comes of it; then boards of the plan are emptied and filled again, and a solver
chooses the best set among all boards ever filled. How long that goes on is counted in steps, never
in seconds: the same blanks, boards and effort give the same plan.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from woodref.cutting.model import Blank, CutPlan, Progress, StockBoard
from woodref.cutting.work import EFFORTS
from woodref.errors import InputError, UnitsError
from woodref.units import sizes_told

#: What a plan makes least: the number of boards, or the wood in them.
AIMS = ("boards", "wood")
#: The usual effort of a search.
USUAL = "usual"
#: Counted up with every change that gives other plans, so that none kept before is taken.
ALGORITHM = 3
_BLANKS_LIMIT = 20_000
#: The widest cut of a saw [mm].
MOST_KERF_MM = 20.0
#: The largest board that is cut [mm].
_LONGEST_MM, _WIDEST_MM = 20_000.0, 5_000.0


def _check(blanks: Sequence[Blank], stock: Sequence[StockBoard], kerf_mm: float) -> None:
    if not blanks:
        raise InputError("there is nothing to cut; name a part")
    if not 0.0 <= kerf_mm <= MOST_KERF_MM:
        raise UnitsError(sizes_told("a saw kerf is 0 to {}, not {}", MOST_KERF_MM, kerf_mm))
    things: list[Blank | StockBoard] = [*blanks, *stock]
    for thing in things:
        if not (0.0 < thing.length_mm <= _LONGEST_MM and 0.0 < thing.width_mm <= _WIDEST_MM):
            text = "{} x {} is no size to cut; lengths go to {}, widths to {}"
            sizes = (thing.length_mm, thing.width_mm, _LONGEST_MM, _WIDEST_MM)
            raise UnitsError(sizes_told(text, *sizes)).headed(f"{thing.name}: ")
        if thing.quantity is not None and thing.quantity < 0:
            raise InputError(f"{thing.name}: a quantity cannot be {thing.quantity}")
    many = sum(b.quantity for b in blanks)
    if many > _BLANKS_LIMIT:
        raise InputError(f"{many} blanks are more than the {_BLANKS_LIMIT} a plan can hold")


def pack(
    blanks: Sequence[Blank],
    stock: Sequence[StockBoard],
    kerf_mm: float,
    aim: str = "boards",
    effort: str = USUAL,
    seed: int = 0,
    report: Callable[[Progress], None] | None = None,
    third_cut: bool = False,
) -> CutPlan:
    """A plan that cuts blanks out of boards, with a lower bound.

    Parameters: blanks with rough sizes; stock with usable sizes; kerf_mm of the saw [mm];
    aim 'boards' (fewest boards, then least wood) or 'wood' (least wood, then fewest boards);
    effort 'quick', 'usual' or 'long', after how many steps the search ends at the latest; seed
    of its random choices; report called with the progress from time to time; third_cut, whether
    what the second cut leaves may be parted once more.
    Returns: CutPlan. An interrupt (KeyboardInterrupt) ends the search with the best plan so far,
    the quick first one at the least.
    Raises: InputError for impossible sizes, another aim or effort.
    Source: two-stage guillotine patterns and their prices after Gilmore and Gomory (1965);
    sequential filling with corrected values after Mukhacheva; bounds: see
    woodref.cutting.columns and woodref.cutting.lower_bound.
    """
    _check(blanks, stock, kerf_mm)
    if aim not in AIMS:
        raise InputError(f"a plan aims at fewest {' or least '.join(AIMS)}, not '{aim}'")
    if effort not in EFFORTS:
        raise InputError(f"the effort of a search is {', '.join(EFFORTS)}, not '{effort}'")
    # These load numpy, which no look-up needs.
    from woodref.cutting.problem import Problem
    from woodref.cutting.search import Search

    problem = Problem(blanks, stock, kerf_mm, aim, third_cut)
    return Search(problem, seed, EFFORTS[effort], report).run()
