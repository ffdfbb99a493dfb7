"""What an estimate of a piece takes for granted, each remark with how surely it is known."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.lumber.waste import WasteOrigin
from woodref.note import Note
from woodref.piece.cost import BOARD_FEET_RULE, STOCK_RULE
from woodref.piece.piece import Piece
from woodref.piece.resolve import ResolvedPiece
from woodref.reference.bases import COMMON_PRACTICE, EDITORIAL, UNCHECKED
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value
from woodref.shipping.load import WEIGHT_RULE


def assumptions(resolved: ResolvedPiece, figures: Iterable[Value]) -> tuple[Note, ...]:
    """What the estimate of a piece takes for granted; ``figures`` the printed values it uses."""
    piece = resolved.piece
    assumed = [
        Note("finished-sizes", "sizes are finished sizes at the moisture content of the build"),
        Note("likely-range", WEIGHT_RULE, EDITORIAL),
        *_variation(figures),
        Note(
            "fiber-saturation",
            f"fiber saturation at {FIBER_SATURATION_PCT:g} % moisture content; shrinkage along a "
            "straight line below it, with the exact geometry, not a coefficient; no movement along "
            "the grain",
        ),
        Note(
            "flat-sawn",
            "a part without a cut is flat sawn, the cut that moves most; a part without staves is "
            "one board",
        ),
        Note("ovendry-mass", "a mass at another moisture content keeps its ovendry mass"),
        *([Note("board-feet", BOARD_FEET_RULE, UNCHECKED)] if piece.units == "us" else []),
        Note("stock", STOCK_RULE, COMMON_PRACTICE),
        _waste(resolved),
        Note(
            "not-counted",
            "glue is not counted, nor hardware and finish that the file does not name",
        ),
    ]
    if any(part.sheet for part in piece.parts):
        assumed.append(
            Note(
                "sheet-goods",
                "sheet goods do not move and keep their weight; a density of your own has no "
                "spread; whole sheets by area alone, without a cutting plan",
            )
        )
    assumed += _panels(piece)
    if any(air.temperature_c is not None for air in piece.conditions.values()):
        assumed.append(
            Note(
                "moisture-from-air",
                "moisture content from temperature and humidity: wood left there for good, "
                "FPL-GTR-282 (2021), Eq. 4-5, one curve for all woods",
            )
        )
    return (*assumed, *piece.use_notes)


def _panels(piece: Piece) -> list[Note]:
    """Where the density of sheet goods comes from that is not the user's own."""
    printed = {
        p.sheet.panel: p.sheet.figures
        for p in piece.parts
        if p.sheet and p.sheet.figures and p.sheet.density_kg_m3 is None
    }
    return [
        Note(
            "panel-density",
            f"density of {panel} from its specific gravity as printed, {figures.density_printed}, "
            f"its ends those of the range: {figures.density_source}; print does not say at which "
            "moisture content",
            figures.density_basis,
        )
        for panel, figures in printed.items()
    ]


def _variation(figures: Iterable[Value]) -> list[Note]:
    """The coefficients of variation behind the likely ranges, and where they come from."""
    labels: dict[tuple[float, str, str], list[str]] = {}
    for value in figures:
        p = PROPERTIES[value.property_id]
        # The volumetric shrinkage enters a density without a spread of its own.
        if p.cv_pct is not None and p.property_id != "shrinkage_volumetric":
            labels.setdefault((p.cv_pct, p.cv_basis, p.cv_known), []).append(p.label)
    return [
        Note(
            "coefficient-of-variation",
            f"coefficient of variation {cv:g} % of {', '.join(dict.fromkeys(named))}: {source}",
            known,
        )
        for (cv, source, known), named in labels.items()
    ]


def _waste(resolved: ResolvedPiece) -> Note:
    shown = []
    kinds = [("lumber", resolved.waste)]
    if any(part.sheet for part in resolved.piece.parts):
        kinds.append(("sheet goods", resolved.sheet_waste))
    usual = [waste for _, waste in kinds if waste.origin is WasteOrigin.PRACTICE]
    for name, waste in kinds:
        pct = waste.pct
        ends = f" ({pct.low:.4g} to {pct.high:.4g} %)" if pct.is_range else ""
        whose = " by default, common practice, no source" if waste in usual else ""
        shown.append(f"{name} {pct.expected:.4g} %{ends}{whose}")
    return Note(
        "waste",
        f"waste added to the finished amount: {'; '.join(shown)}",
        usual[0].basis if usual else "",
    )
