"""Cutting rough blanks out of boards: the rules of cutting, and the call that finds a plan.

A board is cut in two stages that a shop can make: crosscut into sections and each section
ripped into blanks, or ripped into strips and each strip crosscut; a blank smaller than its
section or strip is trimmed. Grain runs along the length, so nothing is turned. A quick
randomized filling comes first; then boards of the plan are emptied and filled again, and a
linear-programming solver chooses the best set among all boards ever filled and gives a lower
bound that no layout can beat.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from time import monotonic

from woodref.cutting.model import Blank, CutPlan, Progress, StockBoard
from woodref.errors import InputError

#: What a plan makes least: the number of boards, or the wood in them.
AIMS = ("boards", "wood")
#: Usual limit of the search [s].
SECONDS = 10.0
_BLANKS_LIMIT = 2000


def _check(blanks: Sequence[Blank], stock: Sequence[StockBoard], kerf_mm: float) -> None:
    if not blanks:
        raise InputError("there is nothing to cut; name a part")
    if not 0.0 <= kerf_mm <= 20.0:
        raise InputError(f"a saw kerf is 0 to 20 mm, not {kerf_mm:g}")
    things: list[Blank | StockBoard] = [*blanks, *stock]
    for thing in things:
        if not (0.0 < thing.length_mm <= 20_000.0 and 0.0 < thing.width_mm <= 5_000.0):
            raise InputError(
                f"{thing.name}: {thing.length_mm:g} x {thing.width_mm:g} mm is no size to cut; "
                "lengths go to 20000 mm, widths to 5000 mm"
            )
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
    seconds: float = SECONDS,
    seed: int = 0,
    report: Callable[[Progress], None] | None = None,
) -> CutPlan:
    """A plan that cuts blanks out of boards, with a lower bound.

    Parameters: blanks with rough sizes; stock with usable sizes; kerf_mm of the saw [mm];
    aim 'boards' (fewest boards, then least wood) or 'wood' (least wood, then fewest boards);
    seconds after which the search ends at the latest; seed of its random choices; report
    called with the progress from time to time.
    Returns: CutPlan. An interrupt (KeyboardInterrupt) ends the search with the best plan so far,
    the quick first one at the least.
    Raises: InputError for impossible sizes.
    Source: two-stage guillotine patterns after Gilmore and Gomory (1965); sequential filling
    with corrected values after Mukhacheva; bound: see woodref.cutting.lower_bound.
    """
    _check(blanks, stock, kerf_mm)
    if aim not in AIMS:
        raise InputError(f"a plan aims at fewest {' or least '.join(AIMS)}, not '{aim}'")
    from woodref.cutting.search import Search  # loads numpy, which no look-up needs

    return Search(blanks, stock, kerf_mm, aim, seed, monotonic() + 0.97 * seconds, report).run()
