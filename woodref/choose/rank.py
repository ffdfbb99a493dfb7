"""Woods ranked for a use: who passes, in which order, why, and whether the order means anything."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import duckdb

from woodref.choose.buyable import Buyable
from woodref.choose.candidates import KNOWN, TABLE, candidates_connection
from woodref.choose.columns import COLUMNS, PRICED, Marked
from woodref.choose.compare import Contrast
from woodref.choose.filters import Filter, of_comparison, of_limit
from woodref.choose.prices import check_prices
from woodref.choose.profile import Profile, for_year
from woodref.choose.ready import WOODS
from woodref.choose.scoring import Scale, scales_of, scored_sql
from woodref.choose.screening import WELL_KNOWN, FilterCount, Screening, Unranked, check_limit
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.wood_table import WoodTable
from woodref.choose.yard_lines import Line, lines_of
from woodref.display import Grid, Shown, number
from woodref.errors import NoDataError
from woodref.files import one_line
from woodref.formulas.spread import Difference, chance_greater, difference
from woodref.record import record
from woodref.reference.condition import checked_condition, parts_of
from woodref.reference.library import Reference

#: Woods shown where nobody says how many, and the most that can be asked for.
USUAL_LIMIT, MOST = 20, 1000
#: Woods named in a message that could pass but for a figure.
_NAMED = 3
#: What a use may need of a wood for woods to be ranked of which a density is all that is known.
_DENSITY_ALONE = {"density_kg_m3", "basic_specific_gravity"}


@record
class Contribution:
    """What one criterion brings to the score of a wood.

    ``value`` in the unit of the column, None where no table holds it and the criterion counts
    as middling; ``utility`` from 0 to 1; ``points`` of the score; ``unchecked`` true where the
    value is recalled, ``estimated`` where no table prints it at 12 %, ``rough`` where it rests on
    a figure that is estimated, second hand or the middle of a printed range.
    """

    scale: Scale
    value: float | None
    utility: float
    points: float
    unchecked: bool
    estimated: bool = False
    rough: bool = False

    @property
    def marked(self) -> Marked:
        """How sure its value is."""
        return Marked(self.unchecked, self.rough)

    @property
    def column(self) -> str:
        """The name of its column."""
        return self.scale.criterion.column.name


@record(repr=False)
class RankedWood(Shown):
    """A wood that passes, with its score [0 to 100] and how it came about.

    ``name`` what a yard sells it as, ``also`` other woods sold so that pass; ``stock`` the class
    of the region, '' where no table tells it, ``tier`` how far it is from the shop
    (woodref.choose.buyable).

    ``against_best`` the best wood's score against this one, on single boards: clear, slight
    or within natural spread; None for the best itself. ``figures`` the columns, and ``sds`` the
    standard deviations of single boards, where they are known, by the names of the columns.
    """

    position: int
    species_id: str
    common_name: str
    botanical_name: str
    trade_group: str
    name: str
    also: tuple[str, ...]
    stock: str
    tier: int
    score: float
    score_sd: float
    against_best: Contrast | None
    contributions: tuple[Contribution, ...]
    figures: dict[str, Any]
    sds: dict[str, float]

    def _line(self) -> str:
        return f"{self.position} {self.name}, {number(self.score)} of 100"

    @property
    def is_tie(self) -> bool:
        """True where single boards do not show that the best is better."""
        return self.against_best is not None and (
            self.against_best.verdict is Difference.WITHIN_SPREAD
        )

    @property
    def is_ahead(self) -> bool:
        """True where it scores more than the first, which can be had more easily."""
        return self.against_best is not None and self.against_best.ratio < 1.0

    @property
    def unchecked(self) -> bool:
        """True where a figure of its score is recalled."""
        return any(c.unchecked for c in self.contributions)

    @property
    def estimated(self) -> bool:
        """True where a figure of its score is one that no table prints at 12 %."""
        return any(c.estimated for c in self.contributions)


@record(repr=False)
class Ranking(WoodTable):
    """The woods that pass, best first; what is commonly stocked before what dealers have.

    ``buyable`` where woods come from, None for any; ``passed`` how many pass; ``lines`` as how
    many things they are sold; ``woods`` the first of them, one of each; ``unranked`` those that
    lack a figure; ``filter_counts`` what each filter removes; ``considered`` how many woods
    there are;
    ``little_known`` how many were left out because a density, or less, is all that is known of
    them.

    A frame (``to_frame``) has for each wood shown ``rank``, ``wood``, ``sold_as``, ``stock``,
    ``botanical_name``, ``species_id``, ``trade_group``, ``score`` and ``score_sd`` [0 to 100],
    ``difference`` and ``chance_best_ahead`` of the best wood's score against it, prices,
    ``trade_control``; then of each criterion the value under the name of its column, and its
    points of the score.
    """

    profile: Profile
    seasonal_range: SeasonalRange
    buyable: Buyable | None
    scales: tuple[Scale, ...]
    passed: int
    lines: int
    woods: tuple[RankedWood, ...]
    unranked: tuple[Unranked, ...]
    filter_counts: tuple[FilterCount, ...]
    considered: int
    little_known: int

    @property
    def ties(self) -> tuple[RankedWood, ...]:
        """Shown woods that the best does not beat on single boards."""
        return tuple(w for w in self.woods if w.is_tie)

    def _line(self) -> str:
        first = f", {self.woods[0].common_name} first" if self.woods else ""
        return f"{self.profile.title}: {self.passed} of {self.considered} woods pass{first}"

    def _grid(self) -> Grid:
        return Grid(
            ("", "wood", "botanical name", "score", "against the best"),
            (
                (
                    w.position,
                    w.name,
                    w.botanical_name,
                    w.score,
                    w.against_best.verdict if w.against_best else "",
                )
                for w in self.woods
            ),
        )

    def _records(self) -> list[dict[str, Any]]:
        return [
            {
                "rank": w.position,
                "wood": w.common_name,
                "sold_as": w.name,
                "stock": w.stock,
                "botanical_name": w.botanical_name,
                "species_id": w.species_id,
                "trade_group": w.trade_group,
                "score": w.score,
                "score_sd": w.score_sd,
                "difference": _difference(w.against_best),
                "chance_best_ahead": w.against_best.chance if w.against_best else None,
                "trade_control": w.figures["control"],
                **{name: w.figures[name] for name in PRICED},
                **{c.column: c.value for c in w.contributions},
                **{f"{c.column}_points": c.points for c in w.contributions},
            }
            for w in self.woods
        ]


def _difference(contrast: Contrast | None) -> str | None:
    return contrast.verdict.value if contrast and contrast.verdict else None


def rank(
    reference: Reference,
    profile: Profile,
    seasonal_range: SeasonalRange | None = None,
    filters: Sequence[Filter] = (),
    where: str = "",
    limit: int = USUAL_LIMIT,
    prices_per_m3: Mapping[str, float] | None = None,
    buyable: Buyable | None = None,
) -> Ranking:
    """Woods ranked for a use.

    A difference in score is told by woodref.formulas.spread.DIFFERENCE_RULE, on single boards.
    Woods of which a density is all that is known are left out, unless the use needs no more.

    Parameters: reference library; profile of the use; seasonal_range, the year; filters beside
    the limits of the profile (woodref.choose.filters); where, a boolean expression of DuckDB
    over woodref.choose.columns.COLUMNS; limit on the woods returned; prices_per_m3 by
    species_id (woodref.choose.prices); buyable, where woods come from, None for every wood known.
    Returns: Ranking.
    Raises: InputError for a condition that is none, or a use that needs prices where there are
    none; NoDataError where no wood passes: which filter emptied the list, and the nearest miss.
    """
    year, prices = seasonal_range or SeasonalRange(), prices_per_m3 or {}
    check_limit(limit, MOST)
    profile = for_year(profile, year.driest_pct, year.wettest_pct)
    used = [c.column.name for c in profile.criteria] + [x.column.name for x in profile.limits]
    used += [*(one.needed for one in filters), *(c for c in PRICED if c in where)]
    check_prices(used, prices)
    # A condition may hold subqueries over the dataset.
    gate = [buyable.filter] if buyable else []
    every = [*(of_limit(x) for x in profile.limits), *gate, *filters]
    alone = not where and _known_enough(_needed(profile, every)) == WELL_KNOWN
    connection = candidates_connection(reference, year, prices, buyable, known_alone=alone)
    try:
        if not where:
            return _ranked(connection, profile, year, buyable, every, where, limit)
        with checked_condition(connection, TABLE, where, COLUMNS):
            parts = parts_of(where, COLUMNS)
            every += [of_comparison(p) for p in parts] or [Filter(one_line(where, 120), "(asked)")]
            return _ranked(connection, profile, year, buyable, every, where, limit)
    finally:
        connection.close()


def _needed(profile: Profile, filters: Sequence[Filter]) -> list[str]:
    """The columns a wood must have to be ranked."""
    wanted = [c.column.name for c in profile.criteria if not c.optional]
    return list(dict.fromkeys([*wanted, *(one.needed for one in filters if one.needed)]))


def _known_enough(needed: Sequence[str]) -> str:
    """SQL for the woods to look at: a density alone does where no more is needed."""
    measured = {c for c in needed if COLUMNS[c].type == "number"} - set(PRICED)
    return "data_coverage <> 'no data'" if measured and measured <= _DENSITY_ALONE else WELL_KNOWN


def _ranked(
    connection: duckdb.DuckDBPyConnection,
    profile: Profile,
    seasonal_range: SeasonalRange,
    buyable: Buyable | None,
    filters: Sequence[Filter],
    where: str,
    limit: int,
) -> Ranking:
    needed = _needed(profile, filters)
    total = int(connection.execute(f"select count(*) from {WOODS}").fetchall()[0][0])
    enough = _known_enough(needed)
    # The condition was parsed as one expression (checked_condition), so that no text ends it.
    connection.execute(
        f"create temp view pool as select *, ({where or 'true'}\n) as asked "
        f"from {KNOWN if enough == WELL_KNOWN else TABLE} where {enough}"
    )
    scales = scales_of(connection, profile, "pool")
    lacking = ", ".join(f"case when {c} is null then '{c}' end" for c in needed)
    scored = (
        f"select *, list_filter([{lacking}], lambda x: x is not null) as lacking "
        f"from ({scored_sql(scales, 'pool')})"
    )
    screening = Screening(connection, scored, filters, known="len(lacking) = 0")
    counts, unranked = screening.filter_counts(), screening.unranked()
    rows = screening.rows()
    if not rows:
        raise NoDataError(_why_empty(screening, profile, counts, unranked))
    considered, lines = screening.considered, lines_of(rows)
    lines.sort(key=lambda x: (x.wood["tier"] if buyable else 0, -x.wood["score"], x.name))
    best = lines[0].wood
    return Ranking(
        profile,
        seasonal_range,
        buyable,
        scales,
        screening.passed,
        len(lines),
        tuple(_wood(n, line, best, scales) for n, line in enumerate(lines[:limit], 1)),
        unranked,
        counts,
        considered,
        total - considered,
    )


def _wood(position: int, line: Line, best: dict[str, Any], scales: Sequence[Scale]) -> RankedWood:
    row, contrast = line.wood, None
    if position > 1:
        chance = chance_greater(best["score"], best["score_sd"], row["score"], row["score_sd"])
        ratio = best["score"] / row["score"] if row["score"] else float("inf")
        contrast = Contrast(ratio, chance, difference(chance))
    estimated = set(row["estimated"])
    parts = []
    for n, scale in enumerate(scales):
        column = scale.criterion.column
        rests_on = column.rests_on(lambda name: row[name] is not None)
        known, marked = row[f"v{n}"] is not None, column.marked(row)
        parts.append(
            Contribution(
                scale,
                row[f"v{n}"],
                row[f"u{n}"],
                100.0 * scale.share * row[f"u{n}"],
                known and marked.unchecked,
                known and bool(rests_on & estimated),
                known and marked.rough,
            )
        )
    return RankedWood(
        position,
        row["species_id"],
        row["common_name"],
        row["botanical_name"],
        row["trade_group"] or "",
        line.name,
        line.others,
        row["stock"] or "",
        row["tier"],
        row["score"],
        row["score_sd"],
        contrast,
        tuple(parts),
        {name: row[name] for name in COLUMNS},
        row["sds"] or {},
    )


def _why_empty(
    screening: Screening,
    profile: Profile,
    counts: Sequence[FilterCount],
    unranked: Sequence[Unranked],
) -> str:
    """One line: which filter let no wood through, and the wood that came nearest."""
    title = profile.title.lower()
    emptied = screening.emptied(counts, must_fail=False)
    if emptied is None or not emptied.count.removed:
        labels = dict.fromkeys(COLUMNS[c].label for m in unranked for c in m.missing_columns)
        lacks = f", which lack {' or '.join(labels)}" if labels else ""
        return f"no wood can be ranked for {title}: {len(unranked)} could pass{lacks}"
    could = ""
    if unranked and emptied.nearest:
        names = ", ".join(m.common_name for m in unranked[:_NAMED])
        more = f" and {len(unranked) - _NAMED} more" if len(unranked) > _NAMED else ""
        could = f"; no table holds all figures of {names}{more}, which could pass"
    return f"no wood passes for {title}: {emptied.text('best')}{could}"
