"""The computed columns of the woods to choose from, with the spread of single boards.

Expressions over the gathered columns of woodref.choose.candidates, by the formulas a look-up of
one wood uses.
"""

from __future__ import annotations

from typing import NamedTuple

import duckdb

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
from woodref.formulas.movement import cv_of_size_change, size_across
from woodref.formulas.shrinkage import (
    shrinkage_at_ring_angle,
    shrinkage_of_coefficient,
    size_at,
    size_by_change_per_pct,
)
from woodref.reference.fiber_saturation import SD_PCT
from woodref.units import BOARD_FOOT_M3

#: Columns that only serve to compute others. Those of a pair are null where either is not known;
#: ``_sd`` is the standard deviation of a single board.
HELPERS = (
    *("pair_t", "pair_t_sd", "pair_r", "pair_r_sd"),
    *("change_t", "change_t_sd", "change_r", "change_r_sd"),
    *("only_coefficient_t", "only_coefficient_t_sd"),
    *("only_coefficient_r", "only_coefficient_r_sd"),
    *("share_t", "share_t_sd", "share_r", "share_r_sd", "moves_by_share"),
    *("coefficient_t", "coefficient_r", "point", "volume", "volume_sd", "volume_estimate_sd"),
    *("gravity", "gravity_cv", "gravity_at", "gravity_moisture"),
)
_column = duckdb.ColumnExpression


class Computed(NamedTuple):
    """A column and the standard deviation of a single board, None where none is told."""

    value: duckdb.Expression
    sd: duckdb.Expression | None


class _Pair(NamedTuple):
    """Two figures along and across the rings with their standard deviations."""

    tangential: duckdb.Expression
    radial: duckdb.Expression
    tangential_sd: duckdb.Expression
    radial_sd: duckdb.Expression

    def mixed(self, angle: float) -> duckdb.Expression:
        """The figure across a face at a ring angle."""
        expression: duckdb.Expression = shrinkage_at_ring_angle(self.tangential, self.radial, angle)
        return expression

    def cv(self, angle: float, point_cv: duckdb.Expression | float) -> duckdb.Expression:
        """Coefficient of variation of a change of size across a face."""
        expression: duckdb.Expression = cv_of_size_change(*self, angle, point_cv)
        return expression

    @property
    def ratio(self) -> duckdb.Expression:
        """The first over the second."""
        return self.tangential / self.radial

    @property
    def ratio_cv(self) -> duckdb.Expression:
        """Coefficient of variation of the ratio, the two independent of each other."""
        cvs = (self.tangential_sd / self.tangential, self.radial_sd / self.radial)
        expression: duckdb.Expression = (cvs[0] ** 2 + cvs[1] ** 2) ** 0.5
        return expression


def _pair(name: str) -> _Pair:
    return _Pair(*(_column(f"{name}_{d}") for d in ("t", "r", "t_sd", "r_sd")))


def _first(*expressions: duckdb.Expression) -> duckdb.Expression:
    """The first that is known, as coalesce, which is no function in DuckDB."""
    *others, last = expressions
    for e in reversed(others):
        last = duckdb.CaseExpression(e.isnotnull(), e).otherwise(last)
    return last


def _of_coefficients(point: duckdb.Expression) -> _Pair:
    """The shrinkages that coefficients printed without shrinkages stand for."""
    printed = _pair("only_coefficient")
    totals = [shrinkage_of_coefficient(c, point) for c in (printed.tangential, printed.radial)]
    sds = (
        total * sd / c
        for total, sd, c in zip(
            totals,
            (printed.tangential_sd, printed.radial_sd),
            (printed.tangential, printed.radial),
            strict=True,
        )
    )
    return _Pair(*totals, *sds)


def _changes(seasonal_range: SeasonalRange) -> dict[str, Computed]:
    """Change of CHANGE_WIDTH_MM of width from the driest to the wettest, flat and quarter sawn.

    By shrinkage, with the coefficients where they govern; else by a printed change per 1 %;
    else by coefficients alone; else by shrinkage estimated from density. As
    woodref.board.movement.movement.
    """
    dry, wet = seasonal_range.driest_pct, seasonal_range.wettest_pct
    point = _column("point")
    shrinkages, per_pct = _pair("pair"), _pair("change")
    of_coefficients, estimated = _of_coefficients(point), _pair("share")
    point_cv = SD_PCT / point

    coefficients = (_column("coefficient_t"), _column("coefficient_r"))
    curve = (shrinkages.tangential, shrinkages.radial, point, *coefficients)
    bare = (_column("share_t"), _column("share_r"), point, *coefficients)

    def change(angle: float) -> Computed:
        after = _first(
            size_across(CHANGE_WIDTH_MM, dry, wet, angle, *curve),
            size_by_change_per_pct(CHANGE_WIDTH_MM, dry, wet, per_pct.mixed(angle)),
            size_at(CHANGE_WIDTH_MM, dry, wet, of_coefficients.mixed(angle), point),
            size_across(CHANGE_WIDTH_MM, dry, wet, angle, *bare),
        )
        cv = _first(
            shrinkages.cv(angle, point_cv),
            per_pct.cv(angle, 0.0),
            of_coefficients.cv(angle, point_cv),
            estimated.cv(angle, point_cv),
        )
        moved = after - CHANGE_WIDTH_MM
        return Computed(moved, moved * cv)

    return {
        "seasonal_change_mm_per_300mm": change(0.0),
        "seasonal_change_quarter_mm_per_300mm": change(90.0),
    }


def _evenness() -> Computed:
    """Tangential over radial movement, as woodref.board.stability."""
    pairs = [
        _pair("pair"),
        _pair("change"),
        _of_coefficients(_column("point")),
        _pair("share"),
    ]
    ratio = _first(*(p.ratio for p in pairs))
    return Computed(ratio, ratio * _first(*(p.ratio_cv for p in pairs)))


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


def computed(seasonal_range: SeasonalRange) -> dict[str, Computed]:
    """The computed columns by name.

    Parameters: seasonal_range the moisture contents of the year.
    """
    return {
        **_changes(seasonal_range),
        "tangential_over_radial": _evenness(),
        "density_kg_m3": _density(),
        "price_per_board_foot": Computed(_column("price_per_m3") * BOARD_FOOT_M3, None),
    }
