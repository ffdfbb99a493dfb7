"""What every column of every source table with measured numbers holds."""

from __future__ import annotations

from dataclasses import dataclass, replace

from woodref.reference.properties import PROPERTIES


@dataclass(frozen=True)
class PrintedColumn:
    """One column of printed numbers.

    ``property_id`` may be '' where the row decides (specific gravity by condition, density
    by definition); ``condition`` '' takes the row's. SI value = printed * factor; ``unit`` ''
    and ``factor`` 0 are those of the row, from its column unit_printed and ROW_UNITS.
    ``rounding`` is the step of the last printed digit [printed unit]; 0 reads it from the
    decimals of each cell.
    """

    property_id: str
    unit: str
    factor: float
    rounding: float
    condition: str = ""


@dataclass(frozen=True)
class MeasurementTable:
    """A source table of measured numbers: how its rows are named and what its columns hold.

    ``identity`` and ``provenance`` columns say which wood and where in print; every other
    column is in ``cells``. ``system`` parts the two printings of one table ('si', 'us'),
    ``counterpart`` names the other printing. ``repeats`` is true where the table only repeats
    values of another: it corroborates, and is preferred only where the other is silent.
    ``grown_in`` is the country of all its samples, for woods that the tables of the United
    States print as well.
    """

    name: str
    name_column: str
    identity: tuple[str, ...]
    provenance: tuple[str, ...]
    cells: dict[str, PrintedColumn]
    counterpart: str = ""
    repeats: bool = False
    grown_in: str = ""


_MPA_FROM_KPA = 0.001
#: Printed units of rows that say their own, as a factor to SI; kgf/mm2 by standard gravity.
ROW_UNITS = {"N/mm2": 1.0, "not printed (kgf/mm2 by size)": 9.80665}


def _us(property_id: str, unit: str, rounding: float, condition: str = "") -> PrintedColumn:
    """A column in the US customary unit of its property, ``unit`` as printed."""
    return PrintedColumn(property_id, unit, PROPERTIES[property_id].factor, rounding, condition)


_PRINT = ("edition", "table", "page", "basis", "note")

_SI_STRENGTH = {
    "specific_gravity": PrintedColumn("", "1", 1.0, 0.01),
    "mor_kpa": PrintedColumn("modulus_of_rupture", "kPa", _MPA_FROM_KPA, 1000.0),
    "moe_mpa": PrintedColumn("modulus_of_elasticity", "MPa", 1.0, 100.0),
    "work_to_max_load_kj_m3": PrintedColumn("work_to_maximum_load", "kJ/m3", 1.0, 1.0),
    "impact_bending_mm": PrintedColumn("impact_bending", "mm", 1.0, 10.0),
    "compression_parallel_kpa": PrintedColumn("compression_parallel", "kPa", _MPA_FROM_KPA, 100.0),
    "compression_perpendicular_kpa": PrintedColumn(
        "compression_perpendicular", "kPa", _MPA_FROM_KPA, 100.0
    ),
    "shear_parallel_kpa": PrintedColumn("shear_parallel", "kPa", _MPA_FROM_KPA, 100.0),
    "tension_perpendicular_kpa": PrintedColumn(
        "tension_perpendicular", "kPa", _MPA_FROM_KPA, 100.0
    ),
    "side_hardness_n": PrintedColumn("side_hardness", "N", 1.0, 100.0),
}
_US_STRENGTH = {
    "specific_gravity": PrintedColumn("", "1", 1.0, 0.01),
    "mor_psi": _us("modulus_of_rupture", "lbf/in2", 100.0),
    "moe_million_psi": _us("modulus_of_elasticity", "10^6 lbf/in2", 0.01),
    "work_to_max_load_in_lbf_in3": _us("work_to_maximum_load", "in-lbf/in3", 0.1),
    "impact_bending_in": _us("impact_bending", "in", 1.0),
    "compression_parallel_psi": _us("compression_parallel", "lbf/in2", 10.0),
    "compression_perpendicular_psi": _us("compression_perpendicular", "lbf/in2", 10.0),
    "shear_parallel_psi": _us("shear_parallel", "lbf/in2", 10.0),
    "tension_perpendicular_psi": _us("tension_perpendicular", "lbf/in2", 10.0),
    "side_hardness_lbf": _us("side_hardness", "lbf", 10.0),
}
_IMPORTED_COLUMNS = (
    "specific_gravity",
    "mor",
    "moe",
    "work",
    "compression_parallel",
    "shear",
    "side_hardness",
)


_CANADIAN_COLUMNS = (
    "specific_gravity",
    "mor",
    "moe",
    "compression_parallel",
    "compression_perpendicular",
    "shear",
)


def _canadian(cells: dict[str, PrintedColumn]) -> dict[str, PrintedColumn]:
    """The columns that Table 5-4 shares with Table 5-3."""
    return {k: v for k, v in cells.items() if k.startswith(_CANADIAN_COLUMNS)}


def _imported(cells: dict[str, PrintedColumn]) -> dict[str, PrintedColumn]:
    """The columns that Table 5-5 shares with Table 5-3."""
    return {k: v for k, v in cells.items() if k.startswith(_IMPORTED_COLUMNS)}


def _shrinkage(direction: str, column: str) -> dict[str, PrintedColumn]:
    return {column: PrintedColumn(f"shrinkage_{direction}", "%", 1.0, 0.1, "range")}


_SHRINKAGE = {
    **_shrinkage("radial", "radial_pct"),
    **_shrinkage("tangential", "tangential_pct"),
    **_shrinkage("volumetric", "volumetric_pct"),
}
_SHRINKAGE_LONG = {
    **_shrinkage("radial", "radial_shrinkage_pct"),
    **_shrinkage("tangential", "tangential_shrinkage_pct"),
    **_shrinkage("volumetric", "volumetric_shrinkage_pct"),
}
_OPEN_PAPERS = {
    "density_kg_m3": PrintedColumn("", "kg/m3", 1.0, 0.0),
    **{k: PrintedColumn(v.property_id, "%", 1.0, 0.0, "range") for k, v in _SHRINKAGE_LONG.items()},
    "radial_pct_per_pct_mc": PrintedColumn("change_per_pct_radial", "% per %", 1.0, 0.0, "range"),
    "tangential_pct_per_pct_mc": PrintedColumn(
        "change_per_pct_tangential", "% per %", 1.0, 0.0, "range"
    ),
    "mor_mpa": PrintedColumn("modulus_of_rupture", "MPa", 1.0, 0.0),
    "moe_mpa": PrintedColumn("modulus_of_elasticity", "MPa", 1.0, 0.0),
    "compression_parallel_mpa": PrintedColumn("compression_parallel", "MPa", 1.0, 0.0),
    "janka_side_n": PrintedColumn("side_hardness", "N", 1.0, 0.0),
    "brinell_mpa": PrintedColumn("brinell_hardness", "MPa", 1.0, 0.0),
}
_PAPER_COLUMNS = (
    "publication",
    "authors",
    "year",
    "license",
    "identifier",
    "table",
    "page",
    "density_definition",
    "density_sd_or_cv",
    "basis",
    "note",
)


def _strength(
    name: str, counterpart: str, cells: dict[str, PrintedColumn], imported: bool
) -> MeasurementTable:
    identity = (
        ("name", "botanical", "condition", "sample_origin")
        if imported
        else ("kind", "group", "name", "botanical", "condition")
    )
    return MeasurementTable(name, "name", identity, _PRINT, cells, counterpart)


def _of_canada(name: str, counterpart: str, cells: dict[str, PrintedColumn]) -> MeasurementTable:
    return replace(_strength(name, counterpart, cells, False), grown_in="Canada")


MEASUREMENT_TABLES: dict[str, MeasurementTable] = {
    t.name: t
    for t in (
        _strength("strength_us_hardwoods_si", "strength_us_hardwoods_us", _SI_STRENGTH, False),
        _strength("strength_us_hardwoods_us", "strength_us_hardwoods_si", _US_STRENGTH, False),
        _strength("strength_us_softwoods_si", "strength_us_softwoods_us", _SI_STRENGTH, False),
        _strength("strength_us_softwoods_us", "strength_us_softwoods_si", _US_STRENGTH, False),
        _of_canada("strength_canadian_si", "strength_canadian_us", _canadian(_SI_STRENGTH)),
        _of_canada("strength_canadian_us", "strength_canadian_si", _canadian(_US_STRENGTH)),
        _strength("strength_imported_si", "strength_imported_us", _imported(_SI_STRENGTH), True),
        _strength("strength_imported_us", "strength_imported_si", _imported(_US_STRENGTH), True),
        MeasurementTable(
            "shrinkage_domestic", "name", ("kind", "group", "name", "botanical"), _PRINT, _SHRINKAGE
        ),
        MeasurementTable(
            "shrinkage_imported", "name", ("name", "botanical", "sample_origin"), _PRINT, _SHRINKAGE
        ),
        MeasurementTable(
            "foreign_woods_other_reports",
            "trade_name",
            (
                "trade_name",
                "botanical",
                "sample_origin",
                "condition",
                "test_standard",
                "sheet_source_no",
            ),
            (
                "publication",
                "edition",
                "table",
                "page",
                "specific_gravity_basis",
                "units",
                "basis",
                "note",
            ),
            {
                "specific_gravity": PrintedColumn("", "1", 1.0, 0.01),
                "mor": _us("modulus_of_rupture", "lbf/in2", 10.0),
                "moe": PrintedColumn(
                    "modulus_of_elasticity",
                    "10^3 lbf/in2",
                    PROPERTIES["modulus_of_elasticity"].factor / 1000.0,
                    10.0,
                ),
                "compression_parallel": _us("compression_parallel", "lbf/in2", 10.0),
                "shear_parallel": _us("shear_parallel", "lbf/in2", 10.0),
                "side_hardness": _us("side_hardness", "lbf", 10.0),
                **_SHRINKAGE_LONG,
                # Two columns hold the ends of one printed range; see measurements.ranges.
                "specific_gravity_low": PrintedColumn("", "1", 1.0, 0.01),
                "specific_gravity_high": PrintedColumn("", "1", 1.0, 0.01),
                "sheet_hardness_green_low": _us("side_hardness", "lbf", 10.0, "green"),
                "sheet_hardness_green_high": _us("side_hardness", "lbf", 10.0, "green"),
                "sheet_hardness_dry_low": _us("side_hardness", "lbf", 10.0, "12pct"),
                "sheet_hardness_dry_high": _us("side_hardness", "lbf", 10.0, "12pct"),
            },
        ),
        MeasurementTable(
            "european_woods",
            "trade_name",
            ("trade_name", "botanical", "region", "n", "condition_mc_pct"),
            _PAPER_COLUMNS,
            _OPEN_PAPERS,
        ),
        MeasurementTable(
            "asia_pacific_woods",
            "trade_name",
            ("trade_name", "botanical", "region", "n", "condition_mc_pct"),
            _PAPER_COLUMNS,
            _OPEN_PAPERS,
        ),
        MeasurementTable(
            "brinell_flooring",
            "trade_name",
            ("trade_name", "botanical", "condition_mc_pct", "unit_printed"),
            _PRINT,
            {
                # A mean with the ends of its spread; see measurements.means.
                c: PrintedColumn("brinell_hardness", "", 0.0, 0.0)
                for c in ("brinell", "brinell_low", "brinell_high")
            },
        ),
        MeasurementTable(
            "fia_reference_species",
            "name",
            ("fia_species_code", "name", "botanical", "kind"),
            (*_PRINT, "basis_12pct"),
            {
                "basic_specific_gravity": PrintedColumn(
                    "basic_specific_gravity", "1", 1.0, 0.01, "green"
                ),
                "specific_gravity_12pct": PrintedColumn(
                    "specific_gravity_12pct", "1", 1.0, 0.01, "12pct"
                ),
                "green_moisture_content_stemwood_pct": PrintedColumn(
                    "green_moisture_content_stemwood", "%", 1.0, 0.0, "green"
                ),
            },
            repeats=True,
        ),
        MeasurementTable(
            "dimensional_change_coefficients",
            "name",
            ("kind", "name", "botanical"),
            _PRINT,
            {
                "cr_per_pct": PrintedColumn(
                    "dimensional_change_coefficient_radial", "per %", 1.0, 0.00001, "range"
                ),
                "ct_per_pct": PrintedColumn(
                    "dimensional_change_coefficient_tangential", "per %", 1.0, 0.00001, "range"
                ),
            },
        ),
        MeasurementTable(
            "green_moisture_content",
            "name",
            ("kind", "group", "name", "botanical"),
            _PRINT,
            {
                "heartwood_mc_pct": PrintedColumn(
                    "green_moisture_content_heartwood", "%", 1.0, 1.0, "green"
                ),
                "sapwood_mc_pct": PrintedColumn(
                    "green_moisture_content_sapwood", "%", 1.0, 1.0, "green"
                ),
            },
        ),
        MeasurementTable(
            "intersection_moisture_content",
            "name",
            ("kind", "name", "botanical"),
            _PRINT,
            {
                "intersection_mc_pct": PrintedColumn(
                    "intersection_moisture_content", "%", 1.0, 1.0, "range"
                ),
            },
        ),
        MeasurementTable(
            "finishing",
            "name",
            ("name", "botanical", "kind"),
            _PRINT,
            {
                "specific_gravity_green": PrintedColumn(
                    "basic_specific_gravity", "1", 1.0, 0.01, "green"
                ),
                "specific_gravity_12pct": PrintedColumn(
                    "specific_gravity_12pct", "1", 1.0, 0.01, "12pct"
                ),
                "tangential_shrinkage_pct": PrintedColumn(
                    "shrinkage_tangential", "%", 1.0, 0.0, "range"
                ),
                "radial_shrinkage_pct": PrintedColumn("shrinkage_radial", "%", 1.0, 0.0, "range"),
            },
            repeats=True,
        ),
    )
}
#: Columns of finishing.csv that are ratings, not measurements.
RATING_COLUMNS = {
    "finishing": (
        "paintability_latex",
        "earlywood_latewood_transition",
        "latewood_over_one_third_of_ring",
        "heartwood_color",
        "pore_class",
    )
}
