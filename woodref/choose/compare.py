"""Woods side by side: what each figure is, how far apart, and whether single boards show it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import inf
from typing import Any

from woodref.board.movement import Movement
from woodref.choose.overview import AIR_DRY_PCT, SHOP_PCT, Overview, UsualBoard, overview
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.wood_table import WoodTable
from woodref.display import Grid
from woodref.formulas.spread import Z90, Difference, chance_greater, difference
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.bases import ESTIMATED, weakest
from woodref.reference.properties import PROPERTIES
from woodref.reference.strengths import ESTIMATED_PROPERTIES
from woodref.reference.woods import Value, Wood
from woodref.units import KINDS, Kind

#: Properties that say something of a wood in use, in the order of the table.
COMPARED: tuple[str, ...] = (
    "side_hardness",
    "brinell_hardness",
    "basic_specific_gravity",
    "shrinkage_radial",
    "shrinkage_tangential",
    "shrinkage_volumetric",
    "modulus_of_elasticity",
    "modulus_of_rupture",
    "work_to_maximum_load",
    "impact_bending",
    "compression_parallel",
    "compression_perpendicular",
    "shear_parallel",
    "tension_perpendicular",
)
#: Keys of the figures that are computed, not printed.
COMPUTED: tuple[str, ...] = ("board_mass", "movement_flat", "movement_quarter", "density")


@record
class ComparedValue:
    """One figure of one wood, SI, with its spread between boards and the likely range.

    ``sd`` and ``likely`` are None where no spread is known.
    """

    value: float
    sd: float | None
    likely: Range | None
    basis: str
    source: str
    values: tuple[Value, ...]


@record
class Contrast:
    """The first wood against another: ratio of the figures, and what single boards show.

    ``chance`` that a single board of the first exceeds a single board of the other, None
    where no spread is known; ``verdict`` what that shows, None likewise.
    """

    ratio: float
    chance: float | None
    verdict: Difference | None


@record
class Row:
    """One figure of all woods.

    ``property_id`` is empty for a computed figure, whose ``kind`` (woodref.units.KINDS) says
    how it prints; ``condition`` is the moisture condition, the same for all: figures of
    unlike conditions are never set side by side. ``contrasts`` are of the first wood
    against each other one.
    """

    key: str
    label: str
    cells: tuple[ComparedValue | None, ...]
    property_id: str = ""
    condition: str = ""
    kind: str = ""

    def cells_in(self, units: str) -> tuple[ComparedValue | None, ...]:
        """The figures as print gives them in a system of units, computed ones as they are.

        Parameters: units 'us' or 'si'.
        """
        if self.kind:
            return self.cells
        return tuple(c and compared_value(c.values[0].in_units(units)) for c in self.cells)

    @property
    def contrasts(self) -> tuple[Contrast | None, ...]:
        """The first wood against each of the others."""
        first, *others = self.cells
        return tuple(_contrast(first, other) for other in others)

    def record(self, i: int) -> dict[str, float | str | None]:
        """Value, likely range and difference of the i-th wood, by the names of columns."""
        cell, unit = self.cells[i], self.unit_suffix
        contrast = self.contrasts[i - 1] if i else None
        return {
            f"{self.key}{unit}": cell.value if cell else None,
            f"{self.key}_low{unit}": cell.likely.low if cell and cell.likely else None,
            f"{self.key}_high{unit}": cell.likely.high if cell and cell.likely else None,
            f"{self.key}_difference": (
                contrast.verdict.value if contrast and contrast.verdict else None
            ),
        }

    @property
    def _unit(self) -> Kind:
        return KINDS[self.kind or PROPERTIES[self.property_id].kind]

    @property
    def si_unit(self) -> str:
        """The SI unit as printed, '' for a ratio."""
        return self._unit.label("si")

    @property
    def unit_suffix(self) -> str:
        """The SI unit as names of columns end in it: '_n', '' for a ratio."""
        suffix = self._unit.suffix("si")
        return f"_{suffix}" if suffix else ""


@record(repr=False)
class Comparison(WoodTable):
    """Woods side by side: ``rows`` of figures, the computed ones first.

    A frame (``to_frame``) has for each wood ``wood``, ``botanical_name`` and ``species_id``;
    then of each row the value and the ends of the likely range of single boards, as
    ``side_hardness_n``, ``side_hardness_low_n`` and ``side_hardness_high_n``, and
    ``side_hardness_difference``, what boards show of the first wood against this one.
    """

    woods: tuple[Wood, ...]
    board: UsualBoard
    overviews: tuple[Overview, ...]
    rows: tuple[Row, ...]

    def row(self, key: str) -> Row | None:
        """The row of a key, None where no wood has the figure."""
        return next((r for r in self.rows if r.key == key), None)

    def _line(self) -> str:
        return f"{', '.join(w.common_name for w in self.woods)}; {len(self.rows)} figures"

    def _grid(self) -> Grid:
        return Grid(
            ("figure", "condition", "unit", *(w.common_name for w in self.woods)),
            (
                (
                    row.label,
                    row.condition,
                    row.si_unit,
                    *(c.value if c else None for c in row.cells),
                )
                for row in self.rows
            ),
        )

    def _records(self) -> list[dict[str, Any]]:
        return [
            {
                "wood": wood.common_name,
                "botanical_name": wood.botanical_name,
                "species_id": wood.species_id,
                **{name: x for r in self.rows for name, x in r.record(i).items()},
            }
            for i, wood in enumerate(self.woods)
        ]


def _contrast(first: ComparedValue | None, other: ComparedValue | None) -> Contrast | None:
    if first is None or other is None:
        return None
    ratio = first.value / other.value if other.value else inf
    if first.sd is None or other.sd is None:
        return Contrast(ratio, None, None)
    chance = chance_greater(first.value, first.sd, other.value, other.sd)
    return Contrast(ratio, chance, difference(chance))


def compared_value(value: Value) -> ComparedValue:
    """A printed figure as one of a comparison."""
    likely = Range(value.value, *value.likely) if value.likely else None
    return ComparedValue(value.value, value.sd, likely, value.basis, value.source, (value,))


def _computed(likely: Range, sd: float, used: Sequence[Value]) -> ComparedValue:
    sources = "; ".join(dict.fromkeys(v.source for v in used))
    basis = weakest(v.basis for v in used)
    return ComparedValue(likely.expected, sd, likely, basis, sources, tuple(used))


def _weight_cell(g: Overview) -> ComparedValue | None:
    w = g.weight
    return _computed(w.mass_kg, w.sd_kg, w.density.values) if w else None


def _density_cell(g: Overview) -> ComparedValue | None:
    d = g.density
    if d is None:
        return None
    return _computed(d.likely_kg_m3, d.sd_kg_m3, d.values)


def _movement_cell(m: Movement | None) -> ComparedValue | None:
    if m is None:
        return None
    change = m.likely_change_mm
    return _computed(change, (change.high - change.low) / (2.0 * Z90), m.basis.values)


_Compute = Callable[[Overview], ComparedValue | None]


def _computed_rows(overviews: Sequence[Overview], board: UsualBoard) -> list[Row]:
    figures: tuple[tuple[str, str, str, _Compute], ...] = (
        ("board_mass", f"weight of {board.name} at {SHOP_PCT:g} %", "mass", _weight_cell),
        (
            "movement_flat",
            f"movement of {board.across} flat sawn",
            "change_end",
            lambda g: _movement_cell(g.flat),
        ),
        (
            "movement_quarter",
            f"movement of {board.across} quarter sawn",
            "change_end",
            lambda g: _movement_cell(g.quarter),
        ),
        ("density", f"density at {AIR_DRY_PCT:g} %", "density", _density_cell),
    )
    return [
        Row(key, label, tuple(compute(g) for g in overviews), kind=kind)
        for key, label, kind, compute in figures
    ]


def usual_condition(property_id: str) -> str:
    """The moisture condition a property is usually given for."""
    return PROPERTIES[property_id].columns[0][0]


def _conditions(woods: Sequence[Wood], property_id: str, green: bool) -> list[str]:
    """The usual condition, and those of a wood that lacks the usual.

    Parameters: green true where a green figure may stand for a wood without another.
    """
    usual = usual_condition(property_id)
    conditions = [
        condition
        for wood in woods
        for p, condition in wood.values
        if p == property_id
        and (
            condition == usual
            or ((p, usual) not in wood.values and (green or condition != "green"))
        )
    ]
    if any(_estimated(wood, property_id, usual) for wood in woods):
        conditions.append(usual)
    return sorted(dict.fromkeys(conditions), key=lambda c: c != usual)


def _estimated(wood: Wood, property_id: str, condition: str) -> Value | None:
    """The estimate of hardness, stiffness or strength where no table prints one."""
    value = wood.estimates.get((property_id, condition))
    if value is None or property_id not in ESTIMATED_PROPERTIES or value.basis != ESTIMATED:
        return None
    return value


def _cell(wood: Wood, property_id: str, condition: str) -> ComparedValue | None:
    value = wood.values.get((property_id, condition)) or _estimated(wood, property_id, condition)
    return compared_value(value) if value else None


def compare(
    woods: Sequence[Wood],
    board: UsualBoard,
    properties: Iterable[str] | None = None,
    year: SeasonalRange | None = None,
) -> Comparison:
    """Woods side by side.

    A difference is told by woodref.formulas.spread.DIFFERENCE_RULE. Janka and Brinell
    hardness, and figures of unlike moisture condition, stand in rows of their own.

    Parameters: woods, or trade groups; board the size weight and movement are told for;
    properties the rows wanted, each a property_id or one of COMPUTED; by default COMPUTED and
    COMPARED; year of the movement, by default that of a heated house.
    Returns: Comparison with a row for each figure that at least one wood has.
    Raises: KeyError for a property that does not exist.
    """
    overviews = tuple(overview(w, board, year) for w in woods)
    wanted = list(dict.fromkeys(COMPARED if properties is None else properties))
    rows = _computed_rows(overviews, board)
    if properties is not None:
        rows = [r for r in rows if r.key in wanted]
    keys = [r.key for r in rows]
    for property_id in (p for p in wanted if p not in keys and p not in COMPUTED):
        for condition in _conditions(woods, property_id, properties is not None):
            rows.append(
                Row(
                    property_id
                    if condition == usual_condition(property_id)
                    else f"{property_id}_{condition}",
                    PROPERTIES[property_id].label,
                    tuple(_cell(w, property_id, condition) for w in woods),
                    property_id,
                    condition,
                )
            )
    rows = [r for r in rows if any(c is not None for c in r.cells)]
    return Comparison(tuple(woods), board, overviews, tuple(rows))
