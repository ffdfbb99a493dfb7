"""What a maker asks of a wood first: the weight of a board, movement through a year, hardness."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

from woodref.board.movement import CUTS, Movement, movement
from woodref.board.weight import BoardWeight, DensityEstimate, density_of, weight_of
from woodref.choose.seasonal_range import SeasonalRange
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.errors import InputError, NoDataError
from woodref.reference.woods import Value, Wood
from woodref.units import MM_PER_INCH

#: Moisture content of a board in a shop [%] (common practice, no source).
SHOP_PCT = 8.0
#: Moisture content densities are compared at [%].
AIR_DRY_PCT = 12.0

T = TypeVar("T")


class UsualBoard(NamedTuple):
    """A board of common size, and the width its movement is told for [mm]."""

    name: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    across: str
    across_mm: float

    @property
    def assumptions(self) -> str:
        """What is assumed of the board and of the year, in a sentence."""
        return (
            f"A board of {self.name} at {SHOP_PCT:g} %, a width of {self.across}, and a year "
            f"between {DRIEST_PCT:g} and {DAMPEST_PCT:g} % moisture content in a heated house "
            "stand for the usual case (common practice, no source)."
        )


USUAL_BOARDS: dict[str, UsualBoard] = {
    "us": UsualBoard(
        "4/4 x 6 in x 8 ft",
        MM_PER_INCH,
        6 * MM_PER_INCH,
        96 * MM_PER_INCH,
        "12 in",
        12 * MM_PER_INCH,
    ),
    "si": UsualBoard("25 x 150 x 2400 mm", 25.0, 150.0, 2400.0, "300 mm", 300.0),
}


class Overview(NamedTuple):
    """The first figures of a wood; None where no table holds what it takes.

    ``weight`` of the usual board; ``flat`` and ``quarter`` the movement across the usual width
    from the driest to the dampest of a year; ``density`` at 12 %; ``hardness`` Janka at 12 %,
    printed or estimated; ``missing`` says what is not known and why.
    """

    wood: Wood
    board: UsualBoard
    weight: BoardWeight | None
    flat: Movement | None
    quarter: Movement | None
    density: DensityEstimate | None
    hardness: Value | None
    missing: tuple[str, ...]

    @property
    def values(self) -> tuple[Value, ...]:
        """The printed figures behind it, each once."""
        used: list[Value] = []
        if self.weight:
            used += self.weight.density.values
        if self.flat:
            used += (self.flat.basis.tangential, self.flat.basis.radial)
        if self.hardness:
            used.append(self.hardness)
        return tuple({(v.property_id, v.condition): v for v in used}.values())


def air_dry_density(wood: Wood) -> DensityEstimate | None:
    """Density at 12 %, None where no table holds what it takes, or the wood cannot hold 12 %."""
    try:
        return density_of(wood, AIR_DRY_PCT)
    except (InputError, NoDataError):
        return None


def overview(wood: Wood, board: UsualBoard, year: SeasonalRange | None = None) -> Overview:
    """Weight of a board, movement through a year and hardness of a wood.

    Parameters: wood; board the size it is told for; year, by default that of a heated house.
    Returns: Overview, with None for what no table holds.
    Source: woodref.board.weight and woodref.board.movement.
    """
    missing: list[str] = []
    between = year or SeasonalRange()

    def known(compute: Callable[[], T]) -> T | None:
        try:
            return compute()
        except (InputError, NoDataError) as error:
            missing.append(str(error))
            return None

    def across(cut: str) -> Movement:
        return movement(wood, board.across_mm, between.driest_pct, between.wettest_pct, CUTS[cut])

    size = (board.length_mm, board.width_mm, board.thickness_mm)
    weight = known(lambda: weight_of(wood, *size, SHOP_PCT))
    flat = known(lambda: across("flat"))
    return Overview(
        wood,
        board,
        weight,
        flat,
        across("quarter") if flat else None,
        air_dry_density(wood) if weight else None,
        wood.known("side_hardness"),
        tuple(missing),
    )
