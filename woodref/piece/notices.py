"""What an estimate warns of, and what it takes for granted."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.lumber.waste import WasteOrigin
from woodref.piece.cost import METHOD
from woodref.piece.resolve import ResolvedPiece
from woodref.quantity import Range
from woodref.reference.cautions import Notice
from woodref.reference.properties import PROPERTIES
from woodref.reference.trade import LiftingLimit
from woodref.reference.woods import Value
from woodref.shipping.load import WEIGHT_RULE
from woodref.units import LB_TO_KG


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
        "scope",
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
    return (
        Notice(
            "lifting",
            f"{what} {verb} more than {limit.mass_kg:g} kg ({limit.mass_kg / LB_TO_KG:.0f} "
            "lb), the most for one person in an ideal lift: plan for two people or a lift "
            "truck.",
            (limit.source,),
            limit.basis,
        ),
    )


def _variation(figures: Iterable[Value]) -> list[str]:
    """The coefficients of variation behind the likely ranges, and where they come from."""
    labels: dict[tuple[float, str], list[str]] = {}
    for value in figures:
        p = PROPERTIES[value.property_id]
        # The volumetric shrinkage enters a density without a spread of its own.
        if p.cv_pct is not None and p.property_id != "shrinkage_volumetric":
            labels.setdefault((p.cv_pct, p.cv_basis), []).append(p.label)
    return [
        f"Coefficient of variation {cv:g} % of {', '.join(dict.fromkeys(found))}: {basis}."
        for (cv, basis), found in labels.items()
    ]


def assumptions(resolved: ResolvedPiece, figures: Iterable[Value]) -> tuple[str, ...]:
    """What the estimate of a piece takes for granted; ``figures`` the printed values it uses."""
    piece = resolved.piece
    assumed = [
        "Sizes are finished sizes at the moisture content of the build.",
        f"{WEIGHT_RULE[0].upper()}{WEIGHT_RULE[1:]}.",
        *_variation(figures),
        f"Fiber saturation at {FIBER_SATURATION_PCT:g} % moisture content; shrinkage along a "
        "straight line below it, with the exact geometry, not a coefficient; no movement along "
        "the grain.",
        "A part without a cut is flat sawn, the cut that moves most; a part without staves is "
        "one board.",
        "A mass at another moisture content keeps its ovendry mass.",
        f"{METHOD[0].upper()}{METHOD[1:]}.",
        _waste(resolved),
        "Glue is not counted, nor hardware and finish that the file does not name.",
    ]
    if any(part.sheet for part in piece.parts):
        assumed.append(
            "Sheet goods: your own density and price, without spread; they do not move and "
            "keep their weight; whole sheets by area alone, without a cutting plan."
        )
    if any(air.temperature_c is not None for air in piece.conditions.values()):
        assumed.append(
            "Moisture content from temperature and humidity: wood left there for good, "
            "FPL-GTR-282 (2021), Eq. 4-5, one curve for all woods."
        )
    assumed += [f"{note[0].upper()}{note[1:]}." for note in piece.use_notes]
    return tuple(assumed)


def _waste(resolved: ResolvedPiece) -> str:
    shown = []
    kinds = [("lumber", resolved.waste)]
    if any(part.sheet for part in resolved.piece.parts):
        kinds.append(("sheet goods", resolved.sheet_waste))
    for name, waste in kinds:
        pct = waste.pct
        ends = f" ({pct.low:.4g} to {pct.high:.4g} %)" if pct.is_range else ""
        usual = waste.origin is WasteOrigin.PRACTICE
        whose = " by default, common practice, no source" if usual else ""
        shown.append(f"{name} {pct.expected:.4g} %{ends}{whose}")
    return f"Waste added to the finished amount: {'; '.join(shown)}."
