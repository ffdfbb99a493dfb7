"""One part of a piece: its stock, weight, movement and share of the cost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from woodref.errors import NoDataError
from woodref.estimate.conditions import Air
from woodref.estimate.cost import LumberLine, SheetLine, Stock, part_board_feet, share
from woodref.estimate.piece import Piece
from woodref.estimate.piece_parts import Part
from woodref.estimate.stability import Movement, PanelMovement, movement, panel_year
from woodref.estimate.toml_table import Figure
from woodref.estimate.weight import DensityEstimate, density_of
from woodref.formulas.density import greatest_density
from woodref.formulas.spread import likely_range, sd_of_sum
from woodref.reference.woods import Wood

#: The conditions an estimate is made for, in order.
CONDITIONS = ("build", "driest", "wettest")
#: A single board wider than this is rare enough to remark on [mm] (common practice, no source).
WIDE_BOARD_MM = 305.0


@dataclass(frozen=True)
class PartEstimate:
    """One part, all its pieces together where not said otherwise.

    ``mass_kg`` by condition, None without a density; ``movements`` of the width of one piece,
    build to driest, build to wettest, driest to wettest, empty where it does not move or
    ``unmoved`` says why not known; ``thicknesses`` the same of its thickness; ``cost`` its
    share of what is bought, None with the reason in ``unpriced``.
    """

    part: Part
    wood: Wood | None
    stock: Stock | None
    board_feet: float | None
    mass_kg: Mapping[str, Figure] | None
    movements: tuple[Movement, ...]
    cost: Figure | None
    unweighed: str = ""
    unmoved: str = ""
    unpriced: str = ""
    thicknesses: tuple[Movement, ...] = ()

    @property
    def material(self) -> str:
        """Name of the wood or of the sheet goods."""
        return self.wood.common_name if self.wood else self.part.sheet.name  # type: ignore[union-attr]


def airs(piece: Piece) -> dict[str, Air]:
    """The conditions of a piece by name, in the order of CONDITIONS."""
    return dict(zip(CONDITIONS, (piece.build, piece.driest, piece.wettest), strict=True))


def density_or_reason(wood: Wood, moisture_pct: float) -> DensityEstimate | NoDataError:
    """Density of a wood, or why it is not known."""
    try:
        return density_of(wood, moisture_pct)
    except NoDataError as error:
        return error


def sheet_part(part: Part, line: SheetLine) -> PartEstimate:
    """A part of sheet goods: weight and cost by the user's own figures; it does not move."""
    mass = part.volume_m3 * line.sheet.density_kg_m3
    masses = {name: Figure(mass, mass, mass) for name in CONDITIONS}
    cost = share(line.cost, part.face_m2, line.net_area_m2)
    return PartEstimate(part, None, None, None, masses, (), cost, unpriced=line.unpriced)


def lumber_part(
    piece: Piece,
    part: Part,
    wood: Wood,
    stock: Stock,
    density: DensityEstimate | NoDataError,
    line: LumberLine,
) -> PartEstimate:
    """A part of solid wood; ``line`` is the lumber bought for it and its like."""
    feet = part_board_feet(part, line.nominal)
    masses: dict[str, Figure] | None = None
    unweighed = ""
    if isinstance(density, NoDataError):
        unweighed = str(density)
    else:
        mass = part.volume_m3 * density.density_kg_m3
        sd = sd_of_sum(board_sds(part, density))
        masses = mass_at_conditions(piece, mass, sd, part.volume_m3, 0.0)
    movements: tuple[Movement, ...] = ()
    thicknesses: tuple[Movement, ...] = ()
    unmoved = ""
    try:
        movements = movements_of(piece, part, wood)
        thicknesses = thicknesses_of(piece, part, wood)
    except NoDataError as error:
        unmoved = str(error)
    cost = share(line.cost, feet, line.net_board_feet)
    return PartEstimate(
        part,
        wood,
        stock,
        feet,
        masses,
        movements,
        cost,
        unweighed,
        unmoved,
        line.unpriced,
        thicknesses,
    )


def movements_of(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Width movement of a lumber part: build to driest, build to wettest, driest to wettest.

    Raises: NoDataError where the wood has no shrinkage.
    """
    build, driest, wettest = (air.moisture_pct for air in airs(piece).values())
    if part.panel:
        year = panel_year(wood, part.panel, build, driest, wettest)
        return tuple(_as_one(panel) for panel in year)

    def of(size_mm: float, start: float, end: float) -> Movement:
        return movement(wood, size_mm, start, end, part.ring_angle_deg, part.staves)

    dry = of(part.width_mm, build, driest)
    return dry, of(part.width_mm, build, wettest), of(dry.after_mm, driest, wettest)


def _as_one(panel: PanelMovement) -> Movement:
    """The movement of a whole panel; its ring angle is that of the first stave."""
    return replace(
        panel.staves[0],
        size_mm=panel.size_mm,
        after_mm=panel.after_mm,
        low_mm=panel.low_mm,
        high_mm=panel.high_mm,
    )


def thicknesses_of(piece: Piece, part: Part, wood: Wood) -> tuple[Movement, ...]:
    """Movement of the thickness, as movements_of; where the rings turn most for a panel.

    Rings that meet the face at an angle meet the edge at its complement.
    """
    build, driest, wettest = (air.moisture_pct for air in airs(piece).values())
    angles = [s.ring_angle_deg for s in part.panel] or [part.ring_angle_deg]
    angle = 90.0 - max(angles)
    dry = movement(wood, part.thickness_mm, build, driest, angle)
    return (
        dry,
        movement(wood, part.thickness_mm, build, wettest, angle),
        movement(wood, dry.after_mm, driest, wettest, angle),
    )


def board_sds(part: Part, density: DensityEstimate) -> list[float]:
    """Standard deviation of the mass of each board: a part of n is n boards, a panel its staves."""
    boards = part.quantity * part.staves
    return [part.volume_m3 / boards * density.sd_kg_m3] * boards


def mass_at_conditions(
    piece: Piece, mass: float, sd: float, volume_m3: float, fixed: float
) -> dict[str, Figure]:
    """A mass of wood at the build, and with the water it has at each condition.

    The ovendry mass stays, so the mass goes as 100 + moisture content. ``fixed`` [kg] is
    added without spread and does not change.
    """
    build = piece.build.moisture_pct
    low, high = likely_range(mass, sd, 0.0, greatest_density(build) * volume_m3)
    found = {}
    for name, air in airs(piece).items():
        wet = (100.0 + air.moisture_pct) / (100.0 + build)
        found[name] = Figure(mass * wet + fixed, low * wet + fixed, high * wet + fixed)
    return found
