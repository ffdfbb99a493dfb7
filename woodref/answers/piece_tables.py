"""The tables of an estimate.

For programs every table is complete, with the same keys for every piece; for people the
parts stand in two narrow tables with a line of totals, each moves in one row, and empty
columns are left out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.blanks import multiple_section, turning_section
from woodref.answers.piece_extras import (
    delivery_section,
    finish_section,
    limit_section,
    span_section,
)
from woodref.answers.piece_fixings import check_section, fixing_section, need_section
from woodref.answers.piece_shipping import (
    carton_section,
    charge_section,
    crate_section,
    item_section,
    lift_section,
)
from woodref.answers.provenance import figure_row
from woodref.answers.quote import quote_section
from woodref.answers.ready import ready_sections
from woodref.answers.words import likely_columns, range_columns, range_row
from woodref.piece.estimate import Estimate
from woodref.piece.moisture_table import PieceAir
from woodref.piece.parts_table import Sheet
from woodref.quantity import total

if TYPE_CHECKING:
    pass

#: The spans of a movement, in the order an estimate gives them.
SPANS = (("build", "driest"), ("build", "wettest"), ("driest", "wettest"))


def total_section(estimate: Estimate) -> Section:
    """The weight of the piece at the build, settled, and at either end of the year."""
    conditions = {**estimate.piece.conditions, "settled": PieceAir(estimate.piece.settled_pct)}
    rows = [
        {
            "stage": name,
            "moisture": air.moisture_pct,
            "temperature": air.temperature_c,
            "humidity": air.humidity_pct,
            **range_row("mass", estimate.mass_kg[name]),
        }
        for name, air in conditions.items()
    ]
    columns = [
        Column("stage", "at"),
        Column("moisture", "moisture content", "percent"),
        Column("temperature", "air", "temperature"),
        Column("humidity", "humidity", "percent"),
        *range_columns("mass", "weight", "mass"),
    ]
    return Section("total_mass", "Weight of the piece", columns, rows)


SIZES = [
    Column("part", "part"),
    Column("quantity", "no.", "count"),
    Column("material", "of"),
    Column("length", "length", "size"),
    Column("width", "width", "size"),
    Column("thickness", "thick", "size"),
    Column("cut", "cut"),
    Column("staves", "staves", "count"),
    Column("stock", "stock"),
    Column("board_feet", "board feet", "board_feet"),
    Column("volume", "volume", "solid"),
]
_AT_BUILD = [
    *range_columns("mass", "weight", "mass"),
    *range_columns("cost", "cost", "money"),
    Column("unweighed", "no weight because"),
    Column("unpriced", "not priced because"),
]
_IN_USE = [
    *range_columns("mass_settled", "settled", "mass"),
    *range_columns("mass_driest", "driest", "mass"),
    *range_columns("mass_wettest", "wettest", "mass"),
]


def part_rows(estimate: Estimate) -> list[dict[str, Any]]:
    """A row for each part, with all that is known of it."""
    rows = []
    for p in estimate.parts:
        row = {
            "part": p.part.name,
            "quantity": p.part.quantity,
            "material": p.material,
            "length": p.part.length_mm,
            "width": p.part.width_mm,
            "thickness": p.part.thickness_mm,
            "cut": p.part.cut if p.wood else None,
            "staves": p.part.staves if p.wood else None,
            "stock": p.stock.nominal.label if p.stock else None,
            "board_feet": p.board_feet,
            "volume": p.part.volume_m3,
            **range_row("cost", p.cost),
            "unweighed": p.unweighed or None,
            "unpriced": p.unpriced or None,
        }
        for name, mass in (p.mass_kg or {}).items():
            row |= range_row("mass" if name == "build" else f"mass_{name}", mass)
        rows.append(row)
    return rows


def _total_row(estimate: Estimate) -> dict[str, Any]:
    row = {
        "part": "total",
        "board_feet": estimate.board_feet,
        "volume": estimate.volume_m3,
        **range_row("cost", estimate.cost),
    }
    for name, mass in estimate.mass_kg.items():
        row |= range_row("mass" if name == "build" else f"mass_{name}", mass)
    return row


def _part_sections(estimate: Estimate, for_people: bool) -> list[Section]:
    """The parts: one complete table for programs, two narrow ones for people."""
    rows = part_rows(estimate)
    if not for_people:
        return [Section("parts", "Parts", [*SIZES, *_AT_BUILD, *_IN_USE], rows)]
    money = f" ({estimate.currency})" if estimate.currency else ""
    rows.append(_total_row(estimate))
    return [
        Section("parts", "Parts, finished sizes", SIZES, rows),
        Section(
            "part_totals",
            f"Weight at the build and cost{money}, by part",
            [SIZES[0], *_AT_BUILD],
            rows,
        ),
    ]


def _filled(section: Section) -> Section:
    """The section without the columns that no row fills."""
    columns = [c for c in section.columns if any(r.get(c.key) is not None for r in section.rows)]
    return section._replace(columns=columns)


def _movement_section(estimate: Estimate) -> Section:
    return Section.of(
        "movement",
        "Movement in width of one piece of each part",
        [
            Column("part", "part"),
            Column("from", "from"),
            Column("to", "to"),
            Column("from_moisture", "moisture", "percent"),
            Column("to_moisture", "to", "percent"),
            Column("after", "width then", "size"),
            *likely_columns("change", "change", "change"),
            Column("thickness_after", "", "size"),
            Column("thickness_change", "thickness", "change_end"),
        ],
        (
            (
                p.part.name,
                *span,
                move.from_moisture_pct,
                move.to_moisture_pct,
                move.after_mm,
                *move.likely_change_mm,
                thickness.after_mm if thickness else None,
                thickness.change_mm if thickness else None,
            )
            for p in estimate.parts
            for span, move, thickness in zip(
                SPANS, p.movements, p.thicknesses or (None,) * 3, strict=False
            )
        ),
    )


def _year_section(estimate: Estimate) -> Section:
    """One row for each part: its width each way from the build, and through the year."""
    rows = []
    for p in estimate.parts:
        if p.movements:
            dry, wet, swing = p.movements
            rows.append(
                {
                    "part": p.part.name,
                    "width": p.part.width_mm,
                    "driest": dry.change_mm,
                    "wettest": wet.change_mm,
                    "swing": swing.change_mm,
                    "low": swing.likely_change_mm.low,
                    "high": swing.likely_change_mm.high,
                    "thickness": p.thicknesses[2].change_mm if p.thicknesses else None,
                }
            )
    at = [f"{air.moisture_pct:.1f} %" for air in estimate.piece.conditions.values()]
    columns = [
        Column("part", "part"),
        Column("width", "width", "size"),
        Column("driest", f"at the driest, {at[1]}", "change_end"),
        Column("wettest", f"at the wettest, {at[2]}", "change_end"),
        Column("swing", "through the year", "change"),
        Column("low", "likely from", "change_end"),
        Column("high", "to", "change_end"),
        Column("thickness", "its thickness", "change_end"),
    ]
    return Section("movement", f"Change since the build, {at[0]}, of one piece", columns, rows)


def in_units(section: Section, units: str, for_people: bool) -> Section:
    """A table of lumber, for people without board feet where they are no unit of theirs.

    Parameters: section; units 'us' or 'si'; for_people.
    """
    if not for_people or units == "us":
        return section
    metric = [c for c in section.columns if "board_feet" not in c.key]
    return section._replace(columns=metric)


def lumber_section(estimate: Estimate, units: str, for_people: bool) -> Section:
    """The lumber to buy by wood and stock, for people with its total, in board feet or m3."""
    rows = []
    for line in estimate.lumber:
        price = line.price
        rows.append(
            {
                "wood": line.wood,
                "stock": line.nominal.label,
                "board_feet": line.net_board_feet,
                # With a plan of boards the tables of the plan say what to buy.
                **range_row("buy_board_feet", None if estimate.plan else line.buy_board_feet),
                "volume": line.net_volume_m3,
                **range_row("buy_volume", None if estimate.plan else line.buy_volume_m3),
                **range_row("price", price.price if price else None),
                "price_per": price.per if price else None,
                **range_row("cost", line.cost),
                "unpriced": line.unpriced or None,
            }
        )
    if for_people and len(rows) > 1:
        rows.append(
            {
                "wood": "total",
                "board_feet": estimate.board_feet,
                **range_row("buy_board_feet", estimate.buy_board_feet),
                "volume": sum(line.net_volume_m3 for line in estimate.lumber),
                **range_row("buy_volume", total([line.buy_volume_m3 for line in estimate.lumber])),
                **range_row("cost", estimate.lumber_cost),
            }
        )
    columns = [
        Column("wood", "wood"),
        Column("stock", "stock"),
        Column("board_feet", "board feet", "board_feet"),
        *range_columns("buy_board_feet", "to buy", "board_feet"),
        Column("volume", "volume", "solid"),
        *range_columns("buy_volume", "to buy", "solid"),
        *(
            [Column("price", "price", "money")]
            if for_people
            else range_columns("price", "price", "money")
        ),
        Column("price_per", "per"),
        *range_columns("cost", "cost", "money"),
        Column("unpriced", "not priced because"),
    ]
    section = Section("lumber", "Lumber to buy, waste included", columns, rows)
    if for_people and units == "us":
        return section._replace(columns=[c for c in columns if "volume" not in c.key])
    return in_units(section, units, for_people)


def _density(sheet: Sheet) -> tuple[float, float | None, float | None]:
    """The density of sheet goods, and its ends where it has any."""
    density = sheet.density
    ends = (density.low, density.high) if density.is_range else (None, None)
    return density.expected, *ends


def sheet_section(estimate: Estimate) -> Section:
    """The sheet goods to buy."""
    return Section.of(
        "sheet_goods",
        "Sheet goods to buy, waste included",
        [
            Column("sheet", "sheet"),
            Column("thickness", "thick", "size"),
            *range_columns("density", "density", "density"),
            Column("density_basis", "density is"),
            Column("area", "area", "area"),
            Column("buy_area", "to buy", "area"),
            Column("sheets", "sheets", "count"),
            *range_columns("cost", "cost", "money"),
            Column("unpriced", "not priced because"),
        ],
        (
            (
                line.sheet.name,
                line.sheet.thickness_mm,
                *_density(line.sheet),
                line.sheet.density_basis,
                line.net_area_m2,
                line.buy_area_m2.expected,
                line.sheets.expected if line.sheets else None,
                *(line.cost or (None,) * 3),
                line.unpriced or None,
            )
            for line in estimate.sheets
        ),
    )


def _based_on(estimate: Estimate) -> Section:
    return Section.of(
        "based_on",
        "Based on",
        [
            Column("wood", "wood"),
            Column("figure", "figure"),
            Column("printed", "printed"),
            Column("basis", "basis"),
            Column("source", "source"),
        ],
        ((wood.common_name, *figure_row(value)) for wood, value in estimate.figures),
    )


def blank_sections(estimate: Estimate) -> list[Section]:
    """Blanks that are not one board for one part: of several short parts, of glued turnings."""
    return [multiple_section(estimate.multiples), turning_section(p.part for p in estimate.parts)]


def _bought_sections(estimate: Estimate, units: str, for_people: bool) -> list[Section]:
    """The lumber: what to buy with a waste factor, or boards by a plan; for programs both."""
    from woodref.answers.buying import plan_sections

    lumber = lumber_section(estimate, units, for_people)
    if estimate.plan is None:
        return [*blank_sections(estimate), lumber]
    plan = plan_sections(estimate.plan, units)
    return plan if for_people else [lumber, *plan]


def sections_of(estimate: Estimate, units: str, for_people: bool) -> list[Section]:
    """The tables of an estimate: totals, parts, movement, what to buy, figures used."""
    sections = [
        total_section(estimate),
        *(in_units(s, units, for_people) for s in _part_sections(estimate, for_people)),
        _year_section(estimate) if for_people else _movement_section(estimate),
        delivery_section(estimate),
        span_section(estimate, units, for_people),
        limit_section(estimate),
        fixing_section(estimate),
        need_section(estimate),
        check_section(estimate, for_people),
        *_bought_sections(estimate, units, for_people),
        *ready_sections(estimate.boards),
        sheet_section(estimate),
        finish_section(estimate),
        item_section(estimate),
        lift_section(estimate),
        crate_section(estimate),
        carton_section(estimate),
        charge_section(estimate),
        quote_section(estimate, for_people),
        _based_on(estimate),
    ]
    return [_filled(s) for s in sections] if for_people else sections
