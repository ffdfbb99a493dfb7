"""What could take the place of a wood for a use: what can be bought, looks like it, and serves.

Gates first: the limits of the use, hardwood for hardwood, what can be bought
(woodref.choose.buyable), a hardness near the first wood's. Then the order, by how much the look
counts for the use (woodref.choose.profile.LookCounts). In work: woodref.choose.distance; in look:
woodref.choose.look_distance. Both are the same from either wood.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import hypot
from typing import Any

import duckdb

from woodref.choose.buyable import Buyable
from woodref.choose.candidates import candidates_connection
from woodref.choose.changes import changes_between
from woodref.choose.distance import Axis, axes_of, check_known, judged_sql, target_of
from woodref.choose.filters import Filter, of_kind, of_limit
from woodref.choose.look_distance import LOOK_ALIKE, NOT_ALIKE
from woodref.choose.look_pair import LookPair, look_pairs
from woodref.choose.prices import check_prices
from woodref.choose.profile import LookCounts, Profile
from woodref.choose.screening import (
    FilterCount,
    Screening,
    Unranked,
    check_limit,
)
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.shared_names import shared_names
from woodref.choose.substitute_result import Substitute, Substitutes
from woodref.choose.yard_lines import Line, lines_of
from woodref.errors import NoDataError
from woodref.reference.bases import FULL, PARTIAL
from woodref.reference.library import Reference
from woodref.reference.woods import Wood

#: Woods shown where nobody says how many, and the most that can be asked for.
USUAL_LIMIT, MOST = 8, 100
#: Side hardness another wood must have of the first one's, where the use asks for hardness
#: (a judgment of ours).
HARDNESS_SHARE = 0.7
#: What the look counts beside the work.
_LOOK_SHARES = {LookCounts.DECIDES: 1.0, LookCounts.QUARTER: 0.25, LookCounts.NOTHING: 0.0}
#: Distance in look taken for a wood of unknown look, farther than any known one.
_UNKNOWN_LOOK = 3.0
_KINDS = ("hardwood", "softwood")
#: The kind to ask for where hardwood may stand for softwood, and softwood for hardwood.
ANY_KIND = "any"
_HARDNESS = "side_hardness_n"


def substitutes(
    reference: Reference,
    wood: Wood,
    profile: Profile,
    seasonal_range: SeasonalRange | None = None,
    filters: Sequence[Filter] = (),
    limit: int = USUAL_LIMIT,
    look_counts: bool = True,
    prices_per_m3: Mapping[str, float] | None = None,
    buyable: Buyable | None = None,
    kind: str = "",
) -> Substitutes:
    """The woods that could take the place of one for a use.

    Of several woods sold as one thing one is shown, and names the others.

    Parameters: reference library; wood, or trade group, to be replaced; profile of the use;
    seasonal_range, the year; filters beside the limits of the profile; limit on the woods
    returned; look_counts false to go by the work alone, as under paint; prices_per_m3 by
    species_id (woodref.choose.prices), by which woods that look alike are ordered; buyable,
    where woods come from, None for every wood known; kind 'hardwood', 'softwood' or ANY_KIND,
    '' for that of the wood.
    Returns: Substitutes.
    Raises: InputError for a limit out of range, or prices asked for without a list; NoDataError
    where too little is known of the wood, or no other passes: which filter emptied the list and
    the nearest miss.
    """
    year, prices = seasonal_range or SeasonalRange(), prices_per_m3 or {}
    check_limit(limit, MOST)
    counts_look = profile.look if look_counts else LookCounts.NOTHING
    every = _gates(wood, profile, buyable, kind, filters)
    check_prices((one.needed for one in every), prices)
    connection = candidates_connection(
        reference, year, prices, buyable, _little_known(wood), known_alone=True
    )
    try:
        axes, target = _compared_by(connection, wood, profile, year)
        screening = Screening(
            connection,
            judged_sql(axes, target, wood),
            every,
            known="in_work is not null",
            among="not is_first",
        )
        counts, unranked = screening.filter_counts(), screening.unranked()
        rows = screening.rows()
        if not rows:
            raise NoDataError(_why_empty(screening, wood, profile, counts, unranked))
        pairs = look_pairs(reference, wood, [r["species_id"] for r in rows])
        own = _own_groups(reference, wood)
        others = _in_order(
            [
                _substitute(line, pairs, axes, target, counts_look)
                for line in lines_of([r for r in rows if (r["trade_group"] or "") not in own])
            ],
            counts_look,
            bool(prices),
        )
        kin = [
            _substitute(Line([r]), pairs, axes, target, counts_look)
            for r in rows
            if (r["trade_group"] or "") in own
        ]
        shown = others[:limit]
        names = shared_names(reference, wood, [s.species_id for s in shown])
        return Substitutes(
            wood=wood,
            profile=profile,
            seasonal_range=year,
            buyable=buyable,
            axes=axes,
            look=next(iter(pairs.values())).first,
            look_counts=counts_look,
            figures=target,
            fails=tuple(one.text for one in screening.failing("is_first") if one.why),
            passed=len(rows),
            considered=screening.considered,
            woods=tuple(replace(s, names=names.get(s.species_id, ())) for s in shown),
            own_group=tuple(_in_order(kin, counts_look, bool(prices))[:limit]),
            unranked=unranked,
            filter_counts=counts,
            nearest_in_work=min(others, key=lambda s: (s.tier, s.in_work, s.name), default=None),
            nearest_in_look=min(others, key=lambda s: (_apart(s), s.name), default=None),
            printed=tuple(s for s in [*others, *kin] if s.look.printed),
        )
    finally:
        connection.close()


def _gates(
    wood: Wood, profile: Profile, buyable: Buyable | None, kind: str, filters: Sequence[Filter]
) -> list[Filter]:
    """What another wood must pass, in order: the use, the kind, what can be bought, the rest."""
    alike = kind or (wood.kind if wood.kind in _KINDS else ANY_KIND)
    hardness = wood.known("side_hardness")
    asks = {c.column.name for c in profile.criteria} | {x.column.name for x in profile.limits}
    return [
        *(of_limit(x) for x in profile.limits),
        *([of_kind(alike)] if alike in _KINDS else []),
        *([buyable.filter] if buyable else []),
        *(
            [_hard_enough(wood, HARDNESS_SHARE * hardness.value)]
            if hardness and _HARDNESS in asks
            else []
        ),
        *filters,
    ]


def _hard_enough(wood: Wood, least_n: float) -> Filter:
    """Woods about as hard as the first; a wood of unknown hardness passes, and says so."""
    return Filter(
        f"side hardness at least {HARDNESS_SHARE:g} of {wood.common_name}",
        f"({_HARDNESS} is null or {_HARDNESS} >= {least_n!r})",
        nearest=f"abs({_HARDNESS} - {least_n!r})",
    )


def _little_known(wood: Wood) -> tuple[str, ...]:
    """Those of the woods asked about that may be none of the well known ones."""
    woods = wood.members or (wood,)
    return tuple(w.species_id for w in woods if w.data_coverage not in (FULL, PARTIAL))


def _compared_by(
    connection: duckdb.DuckDBPyConnection,
    wood: Wood,
    profile: Profile,
    seasonal_range: SeasonalRange,
) -> tuple[tuple[Axis, ...], dict[str, Any]]:
    """What woods are compared by, and the figures of the first wood."""
    axes = axes_of(connection, profile, seasonal_range)
    target = target_of(connection, wood, axes)
    check_known(axes, target, wood, profile)
    return axes, target


def _why_empty(
    screening: Screening,
    wood: Wood,
    profile: Profile,
    counts: Sequence[FilterCount],
    unranked: Sequence[Unranked],
) -> str:
    """One line: which filter let no wood through, and the wood that came nearest."""
    lead = f"nothing can stand in for {wood.common_name} as {profile.title.lower()}"
    emptied = screening.emptied(counts, must_fail=True)
    if emptied is None:
        return f"{lead}: too little is known of {len(unranked)} other woods"
    return f"{lead}: {emptied.text('closest')}"


def _pct(before: float | None, after: float | None) -> float | None:
    return 100.0 * (after / before - 1.0) if before and after is not None else None


def _substitute(
    line: Line,
    pairs: Mapping[str, LookPair],
    axes: Sequence[Axis],
    target: dict[str, Any],
    look_counts: LookCounts,
) -> Substitute:
    row, look = line.wood, pairs[line.wood["species_id"]]
    in_look = _UNKNOWN_LOOK if look.distance is None else look.distance
    return Substitute(
        species_id=row["species_id"],
        common_name=row["common_name"],
        botanical_name=row["botanical_name"],
        trade_group=row["trade_group"] or "",
        name=line.name,
        stock=row["stock"] or "",
        tier=row["tier"],
        distance=hypot(row["in_work"], _LOOK_SHARES[look_counts] * in_look),
        in_work=row["in_work"],
        look=look,
        changes=changes_between(axes, target, row),
        weight_change_pct=_pct(target["density_kg_m3"], row["density_kg_m3"]),
        price_change_pct=_pct(target["price_per_m3"], row["price_per_m3"]),
        control=row["control"],
        figures=row,
        lacking=tuple(row["lacking"]),
        also=line.others,
    )


def _own_groups(reference: Reference, wood: Wood) -> set[str]:
    members = reference.woods(wood.species_ids).values()
    return {w.trade_group for w in members if w.trade_group}


def _apart(s: Substitute) -> float:
    return _UNKNOWN_LOOK if s.look.distance is None else s.look.distance


#: Classes of look in the order they come in; look-alikes first, an unknown look last.
_CLASSES: dict[str | None, int] = {
    **dict.fromkeys(LOOK_ALIKE, 0),
    "related": 1,
    NOT_ALIKE: 2,
    None: 3,
}


def _in_order(
    woods: Sequence[Substitute], look_counts: LookCounts, priced: bool
) -> list[Substitute]:
    """Woods, the best first.

    Where the look decides: by the class of look, then what is nearest to the shop; woods that
    look alike or are related by price, where prices are known; else by look and work together.
    """
    decides = look_counts is LookCounts.DECIDES

    def key(s: Substitute) -> tuple[float, ...]:
        price = s.figures["price_per_m3"]
        by_price = priced and decides and s.look.band not in (NOT_ALIKE, None)
        cost = (float("inf") if price is None else price) if by_price else 0.0
        return (_CLASSES[s.look.band] if decides else 0, s.tier, cost, s.distance)

    return sorted(woods, key=lambda s: (*key(s), s.common_name))
