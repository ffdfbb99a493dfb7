"""Woods ranked for a use: who passes, in which order, why, and whether the order means anything."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import duckdb

from woodref.choose.candidates import TABLE, candidates_connection
from woodref.choose.columns import COLUMNS, PRICED
from woodref.choose.compare import Contrast
from woodref.choose.hurdles import Hurdle, nearest_sql, of_comparison, of_limit
from woodref.choose.profile import Profile
from woodref.choose.scoring import Scale, scales_of, scored_sql
from woodref.choose.situation import Situation
from woodref.errors import InputError, NoDataError
from woodref.files import one_line
from woodref.formulas.spread import chance_greater, difference
from woodref.reference.condition import check_condition, parts_of
from woodref.reference.library import Reference

#: Woods shown where nobody says how many, and the most that can be asked for.
USUAL_LIMIT, MOST = 20, 1000
#: Woods named in a message that could pass but for a figure.
_NAMED = 3
#: Woods of which every figure is known that the use and the hurdles need.
_KNOWN = "len(lacking) = 0"
#: What a use may need of a wood for woods to be ranked of which a density is all that is known.
_DENSITY_ALONE = {"density_kg_m3", "basic_specific_gravity"}


@dataclass(frozen=True)
class Contribution:
    """What one criterion brings to the score of a wood.

    ``value`` in the unit of the column, None where no table holds it and the criterion counts
    as middling; ``worth`` from 0 to 1; ``points`` of the score; ``recalled`` true where the
    value rests on memory.
    """

    scale: Scale
    value: float | None
    worth: float
    points: float
    recalled: bool

    @property
    def column(self) -> str:
        """The name of its column."""
        return self.scale.criterion.column.name


@dataclass(frozen=True)
class RankedWood:
    """A wood that passes, with its score [0 to 100] and how it came about.

    ``against_best`` the best wood's score against this one, on single boards: clear, slight
    or within natural spread; None for the best itself. ``figures`` the columns asked about.
    """

    position: int
    species_id: str
    common_name: str
    botanical_name: str
    trade_group: str
    score: float
    score_sd: float
    against_best: Contrast | None
    contributions: tuple[Contribution, ...]
    figures: dict[str, Any]

    @property
    def is_tie(self) -> bool:
        """True where single boards do not show that the best is better."""
        return self.against_best is not None and "within" in self.against_best.verdict

    @property
    def recalled(self) -> bool:
        """True where a figure of its score rests on memory."""
        return any(c.recalled for c in self.contributions)


@dataclass(frozen=True)
class MissingWood:
    """A wood that fails nothing but lacks a figure; ``columns`` names what is missing."""

    species_id: str
    common_name: str
    columns: tuple[str, ...]


@dataclass(frozen=True)
class Stop:
    """How many woods a hurdle stops, of those that come so far, in order."""

    hurdle: Hurdle
    stopped: int
    left: int


@dataclass(frozen=True)
class Ranking:
    """The woods that pass, best first.

    ``passed`` how many do; ``woods`` the first of them; ``missing`` those that lack a figure;
    ``stops`` what each hurdle stops; ``considered`` how many woods there are; ``little_known``
    how many were left out because a density, or less, is all that is known of them.
    """

    profile: Profile
    situation: Situation
    scales: tuple[Scale, ...]
    passed: int
    woods: tuple[RankedWood, ...]
    missing: tuple[MissingWood, ...]
    stops: tuple[Stop, ...]
    considered: int
    little_known: int

    @property
    def ties(self) -> tuple[RankedWood, ...]:
        """Shown woods that the best does not beat on single boards."""
        return tuple(w for w in self.woods if w.is_tie)


def rank(
    reference: Reference,
    profile: Profile,
    situation: Situation | None = None,
    hurdles: Sequence[Hurdle] = (),
    where: str = "",
    limit: int = USUAL_LIMIT,
) -> Ranking:
    """Woods ranked for a use.

    A difference in score is told by woodref.formulas.spread.DIFFERENCE_RULE, on single boards.
    Woods of which a density is all that is known are left out, unless the use needs no more.

    Parameters: reference library; profile of the use; situation, the year and the prices;
    hurdles beside the limits of the profile (woodref.choose.hurdles); where, a boolean
    expression of DuckDB over woodref.choose.columns.COLUMNS; limit on the woods returned.
    Returns: Ranking.
    Raises: InputError for a condition that is none, or a use that needs prices where there are
    none; NoDataError where no wood passes: which hurdle emptied the list, and the nearest miss.
    """
    asked = situation or Situation()
    if not 1 <= limit <= MOST:
        raise InputError(f"the number of woods to show is 1 to {MOST}, not {limit}")
    _check_prices(profile, hurdles, where, asked)
    connection = candidates_connection(reference, asked)
    try:
        every = [*(of_limit(x) for x in profile.limits), *hurdles]
        if where:
            check_condition(connection, TABLE, where, COLUMNS)
            parts = parts_of(where)
            every += [of_comparison(p) for p in parts] or [Hurdle(one_line(where, 120), "(asked)")]
        return _ranked(connection, profile, asked, every, where, limit)
    finally:
        connection.close()


def _check_prices(
    profile: Profile, hurdles: Sequence[Hurdle], where: str, situation: Situation
) -> None:
    names = [c.column.name for c in profile.criteria] + [x.column.name for x in profile.limits]
    names += [h.needed for h in hurdles]
    if not situation.prices and any(c in names or c in where for c in PRICED):
        raise InputError("prices are counted, and there are none; name a list: --prices FILE")


def _needed(profile: Profile, hurdles: Sequence[Hurdle]) -> list[str]:
    """The columns a wood must have to be ranked."""
    wanted = [c.column.name for c in profile.criteria if not c.optional]
    return list(dict.fromkeys([*wanted, *(h.needed for h in hurdles if h.needed)]))


def _ranked(
    connection: duckdb.DuckDBPyConnection,
    profile: Profile,
    situation: Situation,
    hurdles: Sequence[Hurdle],
    where: str,
    limit: int,
) -> Ranking:
    needed = _needed(profile, hurdles)
    known = "tier in ('full', 'partial')"
    measured = {c for c in needed if COLUMNS[c].type == "number"} - set(PRICED)
    if measured and measured <= _DENSITY_ALONE:
        known = "tier <> 'no data'"
    woods = connection.table(TABLE)
    asked = duckdb.SQLExpression(where or "true").alias("asked")
    woods.select(duckdb.StarExpression(), asked).filter(known).create_view("pool")
    total = _count(connection, TABLE)
    scales = scales_of(connection, profile, "pool")
    lacking = ", ".join(f"case when {c} is null then '{c}' end" for c in needed)
    passes = ", ".join(f"{h.sql} as h{n}" for n, h in enumerate(hurdles))
    connection.execute(
        f"create temp table judged as select *{', ' if passes else ''}{passes}, "
        f"list_filter([{lacking}], lambda x: x is not null) as lacking "
        f"from ({scored_sql(scales, 'pool')})"
    )
    stops = _stops(connection, hurdles)
    everything = " and ".join(["score is not null", *(f"h{n}" for n in range(len(hurdles)))])
    passed = _count(connection, "judged", everything)
    missing = _missing(connection, hurdles)
    considered = _count(connection, "judged")
    if not passed:
        raise NoDataError(_why_empty(connection, profile, hurdles, stops, missing))
    rows = _dicts(
        connection,
        f"select * from judged where {everything} order by score desc, common_name limit {limit}",
    )
    found = tuple(_wood(n, row, rows[0], scales) for n, row in enumerate(rows, 1))
    return Ranking(
        profile,
        situation,
        scales,
        passed,
        found,
        missing,
        stops,
        considered,
        total - considered,
    )


def _count(connection: duckdb.DuckDBPyConnection, table: str, condition: str = "true") -> int:
    row = connection.execute(f"select count(*) from {table} where {condition}").fetchall()[0]
    return int(row[0])


def _dicts(connection: duckdb.DuckDBPyConnection, query: str) -> list[dict[str, Any]]:
    cursor = connection.execute(query)
    names = [c[0] for c in cursor.description or ()]
    return [dict(zip(names, row, strict=True)) for row in cursor.fetchall()]


def _stops(connection: duckdb.DuckDBPyConnection, hurdles: Sequence[Hurdle]) -> tuple[Stop, ...]:
    """What each hurdle stops of the woods, all figures known, that those before it let through."""
    before, found = _count(connection, "judged", _KNOWN), []
    for n, hurdle in enumerate(hurdles):
        let = " and ".join([_KNOWN, *(f"h{i}" for i in range(n + 1))])
        left = _count(connection, "judged", let)
        found.append(Stop(hurdle, before - left, left))
        before = left
    return tuple(found)


def _missing(
    connection: duckdb.DuckDBPyConnection, hurdles: Sequence[Hurdle]
) -> tuple[MissingWood, ...]:
    """Woods no hurdle stops for sure, but of which a figure is not known."""
    through = [f"h{n} is distinct from false" for n in range(len(hurdles))]
    unknown = " or ".join(["len(lacking) > 0", *(f"h{n} is null" for n in range(len(hurdles)))])
    rows = connection.execute(
        f"select species_id, common_name, lacking from judged "
        f"where {' and '.join(['true', *through])} and ({unknown}) order by common_name"
    ).fetchall()
    return tuple(MissingWood(i, name, tuple(columns)) for i, name, columns in rows)


def _wood(
    position: int, row: dict[str, Any], best: dict[str, Any], scales: Sequence[Scale]
) -> RankedWood:
    contrast = None
    if position > 1:
        chance = chance_greater(best["score"], best["score_sd"], row["score"], row["score_sd"])
        ratio = best["score"] / row["score"] if row["score"] else float("inf")
        contrast = Contrast(ratio, chance, difference(chance))
    recalled = set(row["recalled"])
    parts = []
    for n, scale in enumerate(scales):
        column = scale.criterion.column
        rests_on = column.rests_on(lambda name: row[name] is not None) & recalled
        parts.append(
            Contribution(
                scale,
                row[f"v{n}"],
                row[f"w{n}"],
                100.0 * scale.share * row[f"w{n}"],
                row[f"v{n}"] is not None and bool(rests_on),
            )
        )
    return RankedWood(
        position,
        row["species_id"],
        row["common_name"],
        row["botanical_name"],
        row["trade_group"] or "",
        row["score"],
        row["score_sd"],
        contrast,
        tuple(parts),
        {name: row[name] for name in COLUMNS},
    )


def _why_empty(
    connection: duckdb.DuckDBPyConnection,
    profile: Profile,
    hurdles: Sequence[Hurdle],
    stops: Sequence[Stop],
    missing: Sequence[MissingWood],
) -> str:
    """One line: which hurdle let no wood through, and the wood that came nearest."""
    title = profile.title.lower()
    emptied = next((n for n, s in enumerate(stops) if not s.left), None)
    if emptied is None or not (stops[emptied].stopped):
        labels = dict.fromkeys(COLUMNS[c].label for m in missing for c in m.columns)
        lacks = f", which lack {' or '.join(labels)}" if labels else ""
        return f"no wood can be ranked for {title}: {len(missing)} could pass{lacks}"
    hurdle = hurdles[emptied]
    # Best a wood that passes all the rest; else one that passes what comes before.
    for others in (set(range(len(hurdles))) - {emptied}, set(range(emptied))):
        passed = " and ".join([_KNOWN, *(f"h{n}" for n in sorted(others))])
        rows = _dicts(
            connection,
            f"select * from judged where {passed} order by {nearest_sql(hurdle)} limit 1",
        )
        if rows:
            break
    else:
        return f"no wood passes for {title}: '{hurdle.text}' is not known of any"
    near, column = rows[0], hurdle.column
    could = ""
    if missing:
        names = ", ".join(m.common_name for m in missing[:_NAMED])
        more = f" and {len(missing) - _NAMED} more" if len(missing) > _NAMED else ""
        could = f"; no table holds all figures of {names}{more}, which could pass"
    return (
        f"no wood passes for {title}: '{hurdle.text}' stops the last {stops[emptied].stopped}; "
        + (
            f"nearest miss: {near['common_name']} ({column.name} {near[column.name]:.6g})"
            if column
            else f"the best without it is {near['common_name']}"
        )
        + could
    )
