"""The computed columns of the woods to choose from, with the spread of single boards.

Expressions over the gathered columns of woodref.choose.candidates, by the formulas a look-up of
one wood uses.
"""

from __future__ import annotations

from typing import NamedTuple

import duckdb

from woodref.board.movement_basis import MovementMethod
from woodref.choose.columns import CHANGE_WIDTH_MM
from woodref.choose.overview import AIR_DRY_PCT
from woodref.choose.seasonal_range import SeasonalRange
from woodref.formulas.density import (
    basic_specific_gravity_from,
    basic_specific_gravity_from_general,
    density_at,
    specific_gravity_at,
    specific_gravity_at_general,
)
from woodref.formulas.movement import cv_of_size_change
from woodref.formulas.shrinkage import (
    share_of_green_size,
    share_of_green_size_by_coefficient,
    shrinkage_at_ring_angle,
    size_at,
    size_by_change_per_pct,
)
from woodref.reference.fiber_saturation import SD_PCT

#: Columns that only serve to compute others; ``_sd`` is the standard deviation of a single board.
#: Those of the movement are kept with the woods, as it is computed for the year asked for.
OF_MOVEMENT = (
    *("method", "moving_t", "moving_r", "moving_t_sd", "moving_r_sd"),
    *("governing_t", "governing_r", "point"),
)
#: Those of a pair are null where either is not known.
OF_FIGURES = (
    *("pair_t", "pair_t_sd", "pair_r", "pair_r_sd"),
    *("change_t", "change_t_sd", "change_r", "change_r_sd"),
    *("only_coefficient_t", "only_coefficient_t_sd"),
    *("only_coefficient_r", "only_coefficient_r_sd"),
    *("coefficient_t", "coefficient_r"),
    *("share_t", "share_t_sd", "share_r", "share_r_sd", "moves_by_share"),
    *("volume", "volume_sd", "volume_estimate_sd"),
    *("gravity", "gravity_cv", "gravity_at", "gravity_moisture"),
)
#: The ends of a year, as shares_of_green_sql names them.
_ENDS = ("dry", "wet")
#: The columns of shares_of_green_sql.
SHARES = tuple(f"{end}_{d}" for end in _ENDS for d in ("t", "r"))
_column = duckdb.ColumnExpression


class Computed(NamedTuple):
    """A column and the standard deviation of a single board, None where none is told."""

    value: duckdb.Expression
    sd: duckdb.Expression | None


def _first(*expressions: duckdb.Expression) -> duckdb.Expression:
    """The first that is known, as coalesce, which is no function in DuckDB."""
    *others, last = expressions
    for e in reversed(others):
        last = duckdb.CaseExpression(e.isnotnull(), e).otherwise(last)
    return last


def shares_of_green_sql(seasonal_range: SeasonalRange) -> str:
    """The size at the driest and the wettest of the year over the green size, in SQL.

    SHARES, along and across the rings, of the woods that move by shrinkage; columns of their own,
    so that DuckDB plans them once for all cuts.
    """
    columns = []
    year = (seasonal_range.driest_pct, seasonal_range.wettest_pct)
    for name, moisture_pct in zip(_ENDS, year, strict=True):
        for d in ("t", "r"):
            curve = (moisture_pct, _column(f"moving_{d}"), _column("point"))
            governing = _column(f"governing_{d}")
            share = duckdb.CaseExpression(
                governing.isnotnull(), share_of_green_size_by_coefficient(*curve, governing)
            ).otherwise(share_of_green_size(*curve))
            columns.append(f"{share} as {name}_{d}")
    return ", ".join(columns)


def seasonal_changes(seasonal_range: SeasonalRange) -> dict[str, Computed]:
    """Change of CHANGE_WIDTH_MM of width from the driest to the wettest, flat and quarter sawn.

    By what the wood moves by (woodref.choose.gathered.chosen_movement_sql), over its columns and
    those of shares_of_green_sql. As woodref.board.movement.movement.
    """
    year = (seasonal_range.driest_pct, seasonal_range.wettest_pct)
    method, point = _column("method"), _column("point")
    by_change = method == duckdb.ConstantExpression(MovementMethod.CHANGE_PER_PCT.value)
    by_coefficient = method == duckdb.ConstantExpression(MovementMethod.COEFFICIENT.value)
    figures = (_column("moving_t"), _column("moving_r"))
    point_cv = duckdb.CaseExpression(by_change, duckdb.ConstantExpression(0.0)).otherwise(
        SD_PCT / point
    )

    def change(angle: float) -> Computed:
        mixed = shrinkage_at_ring_angle(*figures, angle)
        dry, wet = (
            shrinkage_at_ring_angle(_column(f"{end}_t"), _column(f"{end}_r"), angle)
            for end in _ENDS
        )
        after = (
            duckdb.CaseExpression(by_change, size_by_change_per_pct(CHANGE_WIDTH_MM, *year, mixed))
            .when(by_coefficient, size_at(CHANGE_WIDTH_MM, *year, mixed, point))
            .otherwise(CHANGE_WIDTH_MM * wet / dry)
        )
        moved = after - CHANGE_WIDTH_MM
        cv = cv_of_size_change(
            *figures, _column("moving_t_sd"), _column("moving_r_sd"), angle, point_cv
        )
        return Computed(moved, moved * cv)

    return {
        "seasonal_change_mm_per_300mm": change(0.0),
        "seasonal_change_quarter_mm_per_300mm": change(90.0),
    }


def _evenness() -> Computed:
    """Tangential over radial movement, as woodref.board.stability."""
    figures = (_column("moving_t"), _column("moving_r"))
    cvs = [_column(f"moving_{d}_sd") / f for d, f in zip("tr", figures, strict=True)]
    ratio = figures[0] / figures[1]
    return Computed(ratio, ratio * (cvs[0] ** 2 + cvs[1] ** 2) ** 0.5)


def _density() -> Computed:
    """Density at AIR_DRY_PCT, as woodref.board.weight.density_of."""
    point, volume = _column("point"), _column("volume")
    at = (_column("gravity_at"), _column("gravity_moisture"))
    basic = _first(
        basic_specific_gravity_from(*at, volume, point),
        basic_specific_gravity_from_general(*at, point),
        _column("gravity"),
    )
    density = _first(
        *(
            density_at(gravity, AIR_DRY_PCT)
            for gravity in (
                specific_gravity_at(basic, AIR_DRY_PCT, volume, point),
                specific_gravity_at_general(basic, AIR_DRY_PCT, point),
            )
        )
    )
    return Computed(density, density * _column("gravity_cv"))


def computed_of_wood() -> dict[str, Computed]:
    """The computed columns that hang on the wood alone, by name."""
    return {"tangential_over_radial": _evenness(), "density_kg_m3": _density()}
