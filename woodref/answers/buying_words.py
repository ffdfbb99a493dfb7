"""What a buying plan comes to, in a few words: on its page and above its picture."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from woodref.lumber.buying import BuyingPlan
    from woodref.lumber.lots import LotPlan


def many(n: int, word: str) -> str:
    """'1 board', '9 boards'."""
    return f"{n} {word}" if n == 1 else f"{n} {word}s"


def heading(lot: LotPlan) -> str:
    """What a lot is called: '4/4 white oak, to buy'."""
    return f"{lot.nominal.label} {lot.wood.common_name}, {'to buy' if lot.bought else 'in hand'}"


def short_words(plan: BuyingPlan, most: int) -> str:
    """'top (1 of 4), rail (2 of 8) and 3 more parts': what the boards in hand do not give.

    Parameters: plan; most parts that are named.
    """
    told = [f"{u.part.name} ({u.quantity} of {u.part.pieces})" for u in plan.uncut[:most]]
    more = len(plan.uncut) - most
    also = f" and {many(more, 'more part')}" if more > 0 else ""
    return ", ".join(told) + also


def plan_title(plan: BuyingPlan) -> str:
    """'Your 9 boards give 31 of 48 blanks; still short: top (1 of 4)': what a plan comes to."""
    hand, blanks = plan.boards_on_hand, many(plan.blanks, "blank")
    bought = sum(len(lot.plan.boards) for lot in plan.lots if lot.bought)
    lacking = sum(lot.pieces_left for lot in plan.lots if lot.bought)
    if not hand and not bought:
        return f"No boards to cut up: all {blanks} are still short"
    to_buy = f"{many(bought, 'board')} to buy {_give(bought)}"
    if not hand:
        return f"{to_buy} {f'{plan.blanks - lacking} of' if lacking else 'all'} {blanks}"
    yours = f"Your {many(hand, 'board')} {_give(hand)}"
    if plan.complete:
        used = sum(len(lot.plan.boards) for lot in plan.lots)
        return f"{yours} all {blanks}; {used} {'is' if used == 1 else 'are'} cut"
    some = f"{yours} {plan.blanks - sum(u.quantity for u in plan.uncut)} of {blanks}"
    if bought and not lacking:
        return f"{some}; {to_buy} the rest"
    return f"{some}; still short: {short_words(plan, 3)}"


def _give(boards: int) -> str:
    return "gives" if boards == 1 else "give"
