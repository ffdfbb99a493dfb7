"""A weighed board as a density, and where it falls among boards of its kind."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum
from typing import Any

import duckdb

from woodref.board.weight import DensityEstimate, ShrinkageFrom, density_of, wood_shrinkage
from woodref.display import Shown, number
from woodref.errors import InputError, NoDataError, UnitsError
from woodref.formulas.density import specific_gravity_from_density
from woodref.formulas.spread import chance_greater
from woodref.own.storage import add_rows
from woodref.record import record
from woodref.reference.densities import basic_by_line
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Wood
from woodref.units import quantity_told

#: Densities no wood has [kg/m3]: a guard against slips of unit.
_LOW, _HIGH = 60.0, 1600.0
#: Share of boards below which a board is called light, above which heavy.
_LIGHT, _HEAVY = 0.2, 0.8
_AT_TEST = "density_at_test_moisture"


class Heaviness(Enum):
    """A board among boards of its wood; unknown where the tables hold no density."""

    LIGHT = "light"
    USUAL = "usual"
    HEAVY = "heavy"
    UNKNOWN = "unknown"


@record(repr=False)
class WeighedBoard(Shown):
    """A weighed board.

    ``density_kg_m3`` at its moisture content; ``basic_specific_gravity`` worked back from it by
    the shrinkage that ``shrinkage_from`` names; ``relation`` the words of the dataset for the
    relation used in place of the general one, '' where none was;
    ``published`` the density the tables lead to, None where they hold none;
    ``lighter_share`` the share of boards of the wood that are lighter than this one.
    """

    wood: Wood
    volume_m3: float
    mass_kg: float
    moisture_pct: float
    density_kg_m3: float
    basic_specific_gravity: float
    shrinkage_from: ShrinkageFrom
    relation: str
    published: DensityEstimate | None
    lighter_share: float | None

    @property
    def heaviness(self) -> Heaviness:
        """Whether it is light or heavy for its kind."""
        if self.lighter_share is None:
            return Heaviness.UNKNOWN
        if self.lighter_share > _HEAVY:
            return Heaviness.HEAVY
        return Heaviness.LIGHT if self.lighter_share < _LIGHT else Heaviness.USUAL

    def _line(self) -> str:
        at = f"{number(self.density_kg_m3)} kg/m3 at {number(self.moisture_pct)} %"
        return f"{self.wood.common_name}, {at}, {self.heaviness.value} for its kind"


def weigh(
    wood: Wood,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    mass_kg: float,
    moisture_pct: float,
    relation: Mapping[str, Any] | None = None,
    printed: Wood | None = None,
) -> WeighedBoard:
    """Density of a weighed board, its basic specific gravity, and its place among its kind.

    Parameters: wood; length_mm, width_mm, thickness_mm at the stated moisture content [mm];
    mass_kg [kg]; moisture_pct [%]; relation the row of shrinkage_relations for a wood without
    printed shrinkage, else the handbook's general one serves; printed the wood without the
    shop's own figures, to set the board against, by default ``wood``.
    Returns: WeighedBoard.
    Raises: InputError for sizes, a mass or a moisture content that cannot be.
    Source: density is mass over volume; basic specific gravity from FPL-GTR-282 (2021),
    Eq. 4-9, 4-11 and 4-14 turned round; the share of lighter boards from a normal
    distribution with the published coefficient of variation.
    """
    if min(length_mm, width_mm, thickness_mm) <= 0.0 or mass_kg <= 0.0:
        raise InputError("sizes and mass of a weighed board must be above 0")
    if not 0.0 <= moisture_pct <= 200.0:
        raise InputError(f"a moisture content of {moisture_pct:g} % cannot be; it is 0 to 200 %")
    volume = length_mm * width_mm * thickness_mm * 1e-9
    density = mass_kg / volume
    if not _LOW <= density <= _HIGH:
        figures = {"mass": mass_kg, "solid": volume, "density": density}

        def say(units: str) -> str:
            mass, size, heavy = (quantity_told(kind, x, units) for kind, x in figures.items())
            return (
                f"{mass} in {size} is {heavy}, which no wood has; check the units of sizes and mass"
            )

        raise UnitsError(say)
    shrinkage = wood_shrinkage(wood)
    gravity = specific_gravity_from_density(density, moisture_pct)
    basic, by_relation = shrinkage.basic_from(gravity, moisture_pct), ""
    if shrinkage.total_pct is None and relation is not None:
        point = shrinkage.fiber_saturation_pct
        basic = basic_by_line(gravity, moisture_pct, relation, point)
        by_relation = relation["method"]
    try:
        published: DensityEstimate | None = density_of(printed or wood, moisture_pct)
    except NoDataError:
        published = None
    share = None
    if published is not None:
        share = chance_greater(density, 0.0, published.density_kg_m3, published.sd_kg_m3)
    return WeighedBoard(
        wood,
        volume,
        mass_kg,
        moisture_pct,
        density,
        basic,
        shrinkage.origin,
        by_relation,
        published,
        share,
    )


def keep(board: WeighedBoard, origin: str, note: str = "", today: date | None = None) -> str:
    """Store the board among the shop's own measurements.

    Both its basic specific gravity, which serves at any moisture content, and the density it
    was weighed at.

    Returns: the identifier of the batch.
    Raises: InputError without an origin, or for a trade group.
    """
    if not origin.strip():
        raise InputError('say where the figure comes from: --origin "weighed in the shop"')
    if board.wood.is_group:
        raise InputError(f"{board.wood.common_name} is a trade group; name the wood of the board")
    words = f"weighed: {board.mass_kg:.3f} kg, {board.volume_m3:.6f} m3"
    at = f"{board.density_kg_m3:.1f} kg/m3 at {board.moisture_pct:g} %"
    basic, density = board.basic_specific_gravity, board.density_kg_m3
    figures = [
        ("basic_specific_gravity", None, basic, f"{basic:.3f}", "1", f"{words}, {at}"),
        (_AT_TEST, board.moisture_pct, density, f"{density:.1f}", "kg/m3", words),
    ]
    connection = duckdb.connect(":memory:")
    connection.execute(
        "create table weighed (origin varchar, added varchar, file varchar, line bigint, "
        "species_id varchar, species varchar, property_id varchar, condition varchar, "
        "moisture_content_pct double, value double, printed_value varchar, "
        "printed_unit varchar, note varchar)"
    )
    connection.executemany(
        f"insert into weighed values ({', '.join('?' * 13)})",
        [
            (
                " ".join(origin.split()),
                (today or date.today()).isoformat(),
                "weigh",
                line,
                board.wood.species_id,
                board.wood.common_name,
                property_id,
                PROPERTIES[property_id].columns[0][0],
                moisture_pct,
                value,
                printed_value,
                unit,
                "; ".join(n for n in (said, note) if n),
            )
            for line, (property_id, moisture_pct, value, printed_value, unit, said) in enumerate(
                figures, 1
            )
        ],
    )
    return add_rows("measurements", connection, "select * from weighed")
