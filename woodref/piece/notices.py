"""What an estimate of a piece warns of."""

from __future__ import annotations

from woodref.quantity import Range
from woodref.reference.cautions import Notice
from woodref.reference.trade import LiftingLimit
from woodref.units import LB_TO_KG

#: The kind of the caution that tells what an estimate is no answer to.
SCOPE = "scope"


def general_notices(sheet_goods: bool) -> tuple[Notice, ...]:
    """Cautions that hold for any piece."""
    tools = Notice(
        "tools",
        "Saws, jointers, planers and routers can maim: keep the guards on, wear eye and ear "
        "protection, follow the instructions of each machine.",
    )
    sheets = Notice(
        "sheet goods",
        "A full sheet is heavy and catches the wind; two people move and cut it, and its edges "
        "and splinters cut hands.",
    )
    scope = Notice(
        SCOPE,
        "Nothing here is a structural design value or shows that a piece is safe to sit, stand "
        "or climb on; local codes, product rules and licensed practice decide.",
    )
    return (tools, *((sheets,) if sheet_goods else ()), scope)


def lifting_notice(
    mass: Range, limit: LiftingLimit | None, what: str = "The piece"
) -> tuple[Notice, ...]:
    """A caution where what is lifted may weigh more than one person should lift.

    Parameters: mass of the heaviest lift with its likely range [kg]; limit of one ideal lift;
    what is lifted.
    """
    if limit is None or mass.high <= limit.mass_kg:
        return ()
    verb = "weighs" if mass.low > limit.mass_kg else "may weigh"
    metric, pounds = (
        f"{what} {verb} more than {most}, the most for one person in an ideal lift: plan for two "
        "people or a lift truck."
        for most in (f"{limit.mass_kg:g} kg", f"{limit.mass_kg / LB_TO_KG:.0f} lb")
    )
    return (Notice("lifting", metric, (limit.source,), limit.basis, pounds),)
