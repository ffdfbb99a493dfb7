"""The rows of a catalog with their sizes, moisture contents and coefficients, and what is wrong.

Columns that begin with two underscores are ours. The SQL is what DuckDB and Spark both take.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from woodref.board.movement import CUTS
from woodref.catalog.inputs import Parts, is_text, quoted
from woodref.catalog.lookups import number_sql, percent_sql
from woodref.catalog.names import name_columns
from woodref.catalog.request import SIZES, Given, Request, Want, needed_sizes
from woodref.formulas.folded import tangential_share
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.quantity import MOST_BOARDS
from woodref.reference.store import literal
from woodref.units import MM_PER_FOOT, MM_PER_INCH

_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH, "ft": MM_PER_FOOT}
_INFINITY = "cast('Infinity' as double)"
#: Sizes [mm] and quantities that a board can have, as for a single one.
_MOST_MM = 100_000


def double(value: float) -> str:
    """A number as SQL takes it, all its digits kept."""
    return f"cast({float(value)!r} as double)"


def as_double(cell: str) -> str:
    """A cell that holds a number as one of the usual kind."""
    return f"cast({cell} as double)"


class Check(NamedTuple):
    """What a row may fail: the heading, and in SQL its cell, what must hold, and the reason.

    What must hold fails too where it is null.
    """

    heading: str
    cell: str
    holds: str
    reason: str


class Sized(NamedTuple):
    """The rows of a catalog with sizes, moisture contents and coefficients, and their checks.

    ``through_a_year`` whether the wood goes through the year of a place in place of from its
    moisture content to another; ``has_share`` whether the share of movement along the rings is
    there, and need not be computed from the ring angle.
    """

    sql: str
    checks: list[Check]
    through_a_year: bool
    has_share: bool

    @property
    def good_sql(self) -> str:
        """The rows that fail no check."""
        return f"select * from ({self.sql}) where {' and '.join(c.holds for c in self.checks)}"


def sized_sql(
    parts: Parts, request: Request, want: Iterable[Want], bare: Collection[Given] = ()
) -> Sized:
    """The rows of a catalog, ready to be computed.

    Parameters: parts; request; want; bare, the columns of written sizes whose bare numbers stand
    in no table of texts.
    """
    needed = needed_sizes(want)
    cut = parts.headings.columns.get(Given.CUT)
    columns, joins, checks = _wood(parts)
    if parts.counted:
        checks.insert(0, Check("", "''", "__cells is null", "__cells"))
    for size in SIZES:
        if size in parts.headings.columns:
            _add_size(parts, size, columns, joins, checks if size in needed else [], size in bare)
        else:
            columns.append(f"cast(null as double) as __{size}_mm")
    _add_stock(parts, columns, joins, checks)
    _add_list(parts, columns, joins, checks)
    _add_quantity(parts, columns, checks)
    _add_cut(parts, request, columns, joins, checks)
    _add_moistures(parts, request, columns, joins, checks, list(want))
    return Sized(
        f"select p.*, {', '.join(columns)} from {parts.table} p {' '.join(joins)}",
        checks,
        Given.TO_MOISTURE not in parts.headings.columns and request.to_moisture_pct is None,
        cut is None or is_text(parts, cut),
    )


def stock_keys_sql(parts: Parts, bare: Collection[Given] = ()) -> str:
    """The distinct woods, thicknesses and stocks of a catalog, as ``sized_sql`` reads them.

    Parameters: parts; bare as sized_sql.
    """
    headings = parts.headings.columns
    keys = (Given.WOOD, Given.THICKNESS, Given.STOCK, Given.PRICE_LIST)
    used = [headings[c] for c in keys if c in headings]
    columns = [f"p.{quoted(headings[Given.WOOD])} as __wood"]
    joins: list[str] = []
    checks: list[Check] = []
    _add_size(parts, Given.THICKNESS, columns, joins, checks, Given.THICKNESS in bare)
    _add_stock(parts, columns, joins, checks)
    _add_list(parts, columns, joins, checks)
    listed = ", ".join(quoted(h) for h in used)
    cells = f"(select distinct {listed} from {parts.table})"
    return f"select {', '.join(columns)} from {cells} p {' '.join(joins)}"


def _join(table: str, key: str) -> str:
    """A join to a table of texts, which has a row for every one, the empty one too.

    A row without its other half would come after those of its neighbors that have one.
    """
    return f"left join {table} on {table}.__text = {key}"


def _cell(heading: str) -> str:
    return f"coalesce(cast({quoted(heading)} as string), '')"


def _wood(parts: Parts) -> tuple[list[str], list[str], list[Check]]:
    heading = parts.headings.columns[Given.WOOD]
    name = quoted(heading)
    return (
        [*(f"names.{c}" for c in name_columns()), "names.problem as __problem"],
        [_join("names", f"coalesce(p.{name}, '')")],
        [
            Check(heading, _cell(heading), "__problem = ''", "__problem"),
        ],
    )


def _add_size(
    parts: Parts,
    size: Given,
    columns: list[str],
    joins: list[str],
    checks: list[Check],
    bare: bool,
) -> None:
    heading = parts.headings.columns[size]
    name = quoted(heading)
    factor = double(_MM[parts.headings.units[size]])
    mm = f"__{size}_mm"
    reason = "'is no size'"
    if is_text(parts, heading):
        table = f"text_{size}"
        value, key = f"{table}.mm", f"coalesce(p.{name}, '')"
        if bare:
            number = number_sql(f"p.{name}")
            value = f"coalesce({number} * {factor}, {value})"
            key = f"case when {number} is null then {key} else '' end"
        columns.append(f"{value} as {mm}")
        columns.append(f"{table}.problem as __{size}_problem, {table}.slot as __{size}_slot")
        joins.append(_join(table, key))
        reason = f"coalesce(nullif(__{size}_problem, ''), {reason})"
    else:
        columns.append(f"{as_double(f'p.{name}')} * {factor} as {mm}")
        columns.append(f"cast(null as integer) as __{size}_slot")
    cell = _cell(heading)
    missing = f"case when trim({cell}) = '' then 'is missing' else {reason} end"
    checks.append(Check(heading, cell, f"{mm} is not null", missing))
    checks.append(
        Check(
            heading,
            cell,
            f"({mm} > 0 and {mm} < {_MOST_MM})",
            "'must be above 0 and below 100 m'",
        )
    )


def _add_stock(parts: Parts, columns: list[str], joins: list[str], checks: list[Check]) -> None:
    if _join_named(parts, Given.STOCK, "stock", columns, joins, checks):
        columns.append("text_stock.slot as __stock_slot")
    else:
        columns.append("cast(null as integer) as __stock_slot")


def _add_list(parts: Parts, columns: list[str], joins: list[str], checks: list[Check]) -> None:
    if _join_named(parts, Given.PRICE_LIST, "list", columns, joins, checks):
        columns.append("trim(text_list.__text) as __list")
    else:
        columns.append("'' as __list")


def _join_named(
    parts: Parts,
    column: Given,
    name: str,
    columns: list[str],
    joins: list[str],
    checks: list[Check],
) -> bool:
    """Join the table of the texts of a column, which says what is wrong with each.

    Returns: whether the catalog has the column.
    """
    heading = parts.headings.columns.get(column)
    if heading is None:
        return False
    columns.append(f"text_{name}.problem as __{name}_problem")
    joins.append(_join(f"text_{name}", f"coalesce(p.{quoted(heading)}, '')"))
    checks.append(Check(heading, _cell(heading), f"__{name}_problem = ''", f"__{name}_problem"))
    return True


def _add_quantity(parts: Parts, columns: list[str], checks: list[Check]) -> None:
    heading = parts.headings.columns.get(Given.QUANTITY)
    if heading is None:
        columns.append(f"{double(1.0)} as __quantity")
        return
    cell = f"p.{quoted(heading)}"
    value = number_sql(cell) if is_text(parts, heading) else as_double(cell)
    # An empty cell is one board; a text that is no number is none.
    columns.append(f"{_or_default(parts, heading, double(1.0), value)} as __quantity")
    checks.append(
        Check(
            heading,
            _cell(heading),
            f"(__quantity >= 1 and __quantity <= {MOST_BOARDS} and __quantity = floor(__quantity))",
            f"'is no whole number from 1 to {MOST_BOARDS}'",
        )
    )


def _add_cut(
    parts: Parts, request: Request, columns: list[str], joins: list[str], checks: list[Check]
) -> None:
    heading = parts.headings.columns.get(Given.CUT)
    cut = request.cut.strip().lower()
    default_deg = CUTS[cut] if cut in CUTS else float(cut)
    default = double(default_deg)
    if heading is None:
        share = double(float(tangential_share(default_deg)))
        columns.append(f"{default} as __angle, {share} as __share")
        return
    cell = f"p.{quoted(heading)}"
    if is_text(parts, heading):
        joins.append(_join("cuts", f"coalesce({cell}, '')"))
        columns.append("cuts.angle as __angle, cuts.share as __share")
        columns.append("cuts.problem as __cut_problem")
        checks.append(Check(heading, _cell(heading), "__angle is not null", "__cut_problem"))
    else:
        columns.append(f"coalesce({as_double(cell)}, {default}) as __angle")
        checks.append(
            Check(
                heading,
                _cell(heading),
                "(__angle >= 0 and __angle <= 90)",
                "'is no ring angle from 0 to 90'",
            )
        )


def _or_default(parts: Parts, heading: str, default: str, value: str) -> str:
    """A number of a cell, or what holds where the cell is empty."""
    cell = f"p.{quoted(heading)}"
    if is_text(parts, heading):
        return f"case when trim(coalesce({cell}, '')) = '' then {default} else {value} end"
    return f"coalesce({value}, {default})"


def _percent(parts: Parts, heading: str, default: str) -> str:
    cell = f"p.{quoted(heading)}"
    value = percent_sql(cell) if is_text(parts, heading) else as_double(cell)
    return _or_default(parts, heading, default, value)


def _percent_checks(parts: Parts, heading: str, name: str) -> list[Check]:
    cell = _cell(heading)
    signed = f" and not contains({cell}, '%')" if is_text(parts, heading) else ""
    return [
        Check(
            heading, cell, f"abs({name}) < cast('Infinity' as double)", "'is no moisture content'"
        ),
        Check(heading, cell, f"{name} >= 0", "'a moisture content is 0 or more'"),
        Check(
            heading,
            cell,
            f"not ({name} > 0 and {name} < 1{signed})",
            "'may be a fraction; write 0.5% or 50%'",
        ),
    ]


def _add_moistures(
    parts: Parts,
    request: Request,
    columns: list[str],
    joins: list[str],
    checks: list[Check],
    want: list[Want],
) -> None:
    headings = parts.headings.columns
    at = headings.get(Given.MOISTURE)
    default = double(request.moisture_pct)
    columns.append(f"{_percent(parts, at, default) if at else default} as __moisture")
    where, cell = (at, _cell(at)) if at else (headings[Given.WOOD], _cell(headings[Given.WOOD]))
    if at:
        checks.extend(_percent_checks(parts, at, "__moisture"))
    if {Want.WEIGHT, Want.SHIPPING} & set(want):
        checks.append(
            Check(
                where,
                cell,
                "__moisture <= __most_pct",
                "concat('the wood holds at most ', cast(round(__most_pct) as integer), "
                "' % moisture content')",
            )
        )
    if Want.MOVEMENT not in want:
        return
    limit = f"{FIBER_SATURATION_PCT:g}"
    above = f"'above {limit} % wood does not move'"
    checks.append(Check(where, cell, f"__moisture <= {limit}", above))
    to = headings.get(Given.TO_MOISTURE)
    if to or request.to_moisture_pct is not None:
        fallback = "null" if request.to_moisture_pct is None else double(request.to_moisture_pct)
        value = _percent(parts, to, fallback) if to else fallback
        columns.append(f"__moisture as __start, {as_double(value)} as __end")
        if to:
            checks.extend(_percent_checks(parts, to, "__end"))
            checks.append(Check(to, _cell(to), f"__end <= {limit}", above))
        return
    place, setting = headings.get(Given.PLACE), headings.get(Given.SETTING)
    keys = [
        f"coalesce(nullif(p.{quoted(h)}, ''), {literal(given)})" if h else literal(given)
        for h, given in ((place, request.place), (setting, request.setting))
    ]
    joins.append(f"left join places on places.place = {keys[0]} and places.setting = {keys[1]}")
    columns.append("places.driest as __start, places.wettest as __end")
    columns.append("places.problem as __place_problem")
    shown = place or setting or headings[Given.WOOD]
    checks.append(Check(shown, _cell(shown), "__place_problem = ''", "__place_problem"))


class Failed(NamedTuple):
    """In SQL the number of the first check a row fails, and the column, value and reason of it."""

    number: str
    column: str
    value: str
    reason: str


def failed_sql(checks: Iterable[Check]) -> Failed:
    """What a row fails; column, value and reason where the number is called ``__failed``."""
    listed = list(checks)

    def by_number(texts: Iterable[str]) -> str:
        cases = " ".join(f"when {n} then {text}" for n, text in enumerate(texts))
        return f"case __failed {cases} end"

    cases = " ".join(f"when ({c.holds}) is not true then {n}" for n, c in enumerate(listed))
    return Failed(
        f"case {cases} end",
        by_number(literal(c.heading) for c in listed),
        by_number(c.cell for c in listed),
        by_number(c.reason for c in listed),
    )


def rejects_sql(sized: Sized) -> str:
    """The rows that cannot be computed: file, row, column, value and reason."""
    failed = failed_sql(sized.checks)
    return (
        f'select __file as file, __row as row, {failed.column} as "column", '
        f'{failed.value} as "value", {failed.reason} as reason '
        f"from (select *, {failed.number} as __failed from ({sized.sql})) "
        "where __failed is not null order by __file, __row"
    )
