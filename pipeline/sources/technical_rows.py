"""Rows of the technical tables that are shaped anew: ranges, fractions, two printings, lists."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from pipeline.sources.auxiliary_tables import PRINT
from pipeline.sources.cells import number, source_id_of
from woodref.reference.properties import PROPERTIES

Row = dict[str, Any]
_N = r"(\d+(?:\.\d+)?(?:e-?\d+)?)"
_RANGE = re.compile(rf"^{_N}(?:-| to ){_N}$")
_LEAST = re.compile(rf"^(?:at least {_N}|{_N} or more)$")
_MOST = re.compile(rf"^(?:up to {_N}|below {_N}|not over {_N}|{_N} or less)$")
_FRACTION = re.compile(r"^(?:(\d+)-)?(\d+/\d+)$")
_MM_PER_INCH = 25.4
_KPA_PER_LB_FT2 = 0.04788025898
_MPA_PER_PSI = 0.006894757293


def printed_number(text: str) -> float | None:
    """A printed number, '1/6' and '2-1/2' among them; None where it is neither."""
    fraction = _FRACTION.match(text)
    if fraction:
        return float(int(fraction[1] or 0) + Fraction(fraction[2]))
    return number(text)


def printed_range(text: str) -> tuple[float, float] | None:
    """The ends of a printed range '6-8' or '1e3 to 1e4'; None where it is none, or runs down."""
    ends = _RANGE.match(text)
    if not ends or float(ends[1]) > float(ends[2]):
        return None
    return float(ends[1]), float(ends[2])


def printed_ends(text: str) -> tuple[float | None, float | None]:
    """The ends a cell prints: both of a range, or one alone ('at least 10', 'up to 90')."""
    both = printed_range(text)
    if both:
        return both

    def alone(pattern: re.Pattern[str]) -> float | None:
        match = pattern.match(text)
        return next((float(g) for g in match.groups() if g), None) if match else None

    return alone(_LEAST), alone(_MOST)


def _print_of(row: Mapping[str, Any], origins: Mapping[str, Any]) -> Row:
    """Where a row stands in print and in its file."""
    return {
        **{target: row[column] for column, target in PRINT.items()},
        "source_id": source_id_of(row, origins, "edition"),
        **{k: row[k] for k in ("source_table", "source_line")},
    }


def fact(row: Mapping[str, Any], subject: str, origins: Mapping[str, Any]) -> Row:
    """One fact of a text; its number or the ends of its range beside the words printed."""
    low, high = printed_ends(row["value"])
    return {
        "subject": subject,
        **{k: row[k] for k in ("topic", "item", "unit")},
        "value": printed_number(row["value"].removeprefix("about ")),
        "value_low": low,
        "value_high": high,
        "printed_value": row["value"],
        **_print_of(row, origins),
    }


def beam_constant(row: Mapping[str, Any], origins: Mapping[str, Any]) -> Row:
    """The constants of one load and support, fractions as numbers."""
    return {
        **{k: row[k] for k in ("load", "support", "deflection_at")},
        **{k: printed_number(row[k]) for k in ("kb", "ks")},
        **{f"printed_{k}": row[k] for k in ("kb", "ks")},
        **_print_of(row, origins),
    }


def shelf_length(row: Mapping[str, Any], origins: Mapping[str, Any]) -> Row:
    """A printed longest shelf, in SI beside the inch-pound figures printed."""
    psi, load, longest = (float(row[k]) for k in ("moe_psi", "load_lb_ft2", "longest_in"))
    thickness = printed_number(row["thickness_in"])
    return {
        "material": row["material"],
        "modulus_of_elasticity_mpa": psi * _MPA_PER_PSI,
        "thickness_mm": None if thickness is None else thickness * _MM_PER_INCH,
        "load_kpa": load * _KPA_PER_LB_FT2,
        "longest_mm": longest * _MM_PER_INCH,
        "modulus_of_elasticity_psi": psi,
        "printed_thickness_in": row["thickness_in"],
        "load_lb_ft2": load,
        "longest_in": longest,
        **_print_of(row, origins),
    }


def slope(row: Mapping[str, Any], origins: Mapping[str, Any]) -> Row:
    """The strength left at one slope of grain; 'straight' is a slope of 0."""
    text = row["maximum_slope"]
    percents = [k for k in row if k.endswith("_pct")]
    return {
        "maximum_slope": text,
        "slope": 0.0 if text == "straight" else 1.0 / float(text.removeprefix("1 in ")),
        **{k: float(row[k]) for k in percents},
        **_print_of(row, origins),
    }


def lag_screw_factor(row: Mapping[str, Any], origins: Mapping[str, Any]) -> Row:
    """A factor on the load; a printed increase in percent becomes one."""
    printed = float(row["printed"])
    return {
        **{k: row[k] for k in ("adjustment", "argument", "argument_unit", "printed_unit")},
        "argument_value": float(row["argument_value"]),
        "printed_argument_in": row["argument_in"],
        "factor": printed if row["printed_unit"] == "factor" else 1.0 + printed / 100.0,
        "printed_value": row["printed"],
        **_print_of(row, origins),
    }


#: Columns of the table of lateral coefficients: fastener, exponent of the diameter, equation,
#: and what load it is.
_LATERAL = {
    "nails": ("nail", 1.5, "8-2 (lateral)", "at a slip of 0.38 mm"),
    "screws": ("wood screw", 2.0, "8-13", "proportional limit"),
    "lag": ("lag screw", 2.0, "8-15", "proportional limit, parallel to the grain"),
}


def fastener_loads(
    equations: Iterable[Mapping[str, Any]],
    lateral: Iterable[Mapping[str, Any]],
    origins: Mapping[str, Any],
) -> list[Row]:
    """The printed equations, then the coefficients of lateral load by specific gravity."""
    exponents = ("specific_gravity_exponent", "diameter_exponent", "length_exponent")
    words = ("equation", "fastener", "load", "wood", "unit", "formula", "load_is")
    rows = [
        {
            **{k: r[k] for k in words},
            **{k: number(r[k]) for k in ("k_metric", "k_inch_pound", *exponents)},
            **_print_of(r, origins),
            "source_column": "k_metric; k_inch_pound",
        }
        for r in equations
    ]
    for r in lateral:
        for name, (fastener, exponent, equation, load_is) in _LATERAL.items():
            columns = (f"{name}_k_metric", f"{name}_k_inch_pound")
            rows.append(
                {
                    "fastener": fastener,
                    "load": "lateral",
                    "wood": r["kind"],
                    "specific_gravity_min": float(r["specific_gravity_min"]),
                    "specific_gravity_max": float(r["specific_gravity_max"]),
                    "k_metric": float(r[columns[0]]),
                    "k_inch_pound": float(r[columns[1]]),
                    "unit": "N",
                    "diameter_exponent": exponent,
                    "formula": f"K D^{exponent:g}",
                    "load_is": load_is,
                    "equation": equation,
                    **_print_of(r, origins),
                    "source_column": "; ".join(columns),
                }
            )
    return rows


#: Property of a panel: metric column and unit, SI unit and factor, inch-pound column and unit.
_PANEL = {
    "specific_gravity": ("specific_gravity", "1", "1", 1.0, "", ""),
    "modulus_of_elasticity": (
        "moe_gpa",
        "GPa",
        "MPa",
        1000.0,
        "moe_million_psi",
        "10^6 lbf/in2",
    ),
    "modulus_of_rupture": ("mor_mpa", "MPa", "MPa", 1.0, "mor_psi", "lbf/in2"),
    "tensile_stress": (
        "tensile_stress_mpa",
        "MPa",
        "MPa",
        1.0,
        "tensile_stress_psi",
        "lbf/in2",
    ),
    "internal_bond": ("internal_bond_mpa", "MPa", "MPa", 1.0, "internal_bond_psi", "lbf/in2"),
}


def panel(row: Mapping[str, Any], origins: Mapping[str, Any]) -> list[Row]:
    """One row per property a panel was measured for, both printings in it."""
    rows = []
    for name, (column, unit, si_unit, factor, us_column, us_unit) in _PANEL.items():
        text = row[column]
        if not text:
            continue
        ends = printed_range(text)
        value = sum(ends) / 2.0 if ends else float(text)
        rows.append(
            {
                "material": row["material"],
                "detail": row["detail"],
                "property": name,
                "value": value * factor,
                "value_low": ends[0] * factor if ends else None,
                "value_high": ends[1] * factor if ends else None,
                "unit": si_unit,
                "printed_value": text,
                "printed_unit": unit,
                "printed_value_us": row[us_column] if us_column else None,
                "printed_unit_us": us_unit if us_column and row[us_column] else None,
                "moisture_content_pct": number(row["moisture_content_pct"]),
                **_print_of(row, origins),
                "source_column": f"{column}; {us_column}" if us_column else column,
            }
        )
    return rows


#: Printed unit -> the factor to the SI unit of the property.
_TO_SI = {
    "kPa": 0.001,
    "MPa": 1.0,
    "kJ/m3": 1.0,
    "mm": 1.0,
    "N": 1.0,
}
#: Units whose factor is that of the property in the US system.
_US = ("lbf/in2", "in-lbf/in3", "in.", "lbf")


def specific_gravity_function(
    row: Mapping[str, Any], property_id: str, origins: Mapping[str, Any]
) -> Row:
    """A printed function; without its exponent the coefficient stands only as printed.

    Raises: KeyError for a unit of a usable function that is not known.
    """
    exponent = number(row["exponent"])
    coefficient = None
    if exponent is not None:
        us = row["unit"].removeprefix("million ")
        factor = PROPERTIES[property_id].factor if us in _US else _TO_SI[row["unit"]]
        coefficient = float(row["coefficient"]) * factor
    return {
        **{k: row[k] for k in ("property", "condition", "kind")},
        "property_id": property_id,
        "coefficient": coefficient,
        "exponent": exponent,
        "printed_coefficient": row["coefficient"],
        "printed_unit": row["unit"],
        **_print_of(row, origins),
    }


def of_wood(
    row: Mapping[str, Any], species_id: str, for_group: bool, origins: Mapping[str, Any]
) -> Row:
    """A row of numbers of one wood; its numbers under the names of their columns."""
    named = ("name", "botanical", "kind", "schedule", "step", "source_table", "source_line", *PRINT)
    return {
        "species_id": species_id,
        "for_group": for_group,
        "printed_name": row["name"],
        "printed_botanical": row["botanical"],
        **{k: row[k] for k in ("kind", "schedule", "step") if k in row},
        **{k: number(v) for k, v in row.items() if k not in named},
        **_print_of(row, origins),
    }
