"""What comes closest to a wood for a use, in work and in look, and what changes with it.

In work: woodref.choose.distance. In look: woodref.choose.look. Both are the same from either wood.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt
from typing import Any

import duckdb

from woodref.choose.candidates import candidates_connection
from woodref.choose.changes import Change, Verdict, changes_between
from woodref.choose.columns import PRICED
from woodref.choose.distance import Axis, axes_of, check_known, judged_sql, target_of
from woodref.choose.filters import Filter, of_limit
from woodref.choose.look import Likeness, Look, likeness, look_distance, looks_of, merged
from woodref.choose.prices import check_prices
from woodref.choose.profile import Profile
from woodref.choose.screening import (
    FilterCount,
    Screening,
    Unranked,
    check_limit,
    rows_of,
)
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.shared_names import SharedName, shared_names
from woodref.choose.wood_table import WoodTable
from woodref.display import Grid, Shown, number
from woodref.errors import NoDataError
from woodref.reference.library import Reference
from woodref.reference.woods import Wood

#: Woods shown where nobody says how many, and the most that can be asked for.
USUAL_LIMIT, MOST = 8, 100
#: What a wholly different look counts beside the work [standard deviations of a property]
#: (a judgment of ours: as if every property were so far off).
LOOK_WEIGHT = 1.0
DISTANCE_RULE = (
    "apart in work: standard deviations of single boards of all woods, over the criteria of the "
    "use by their weights, one where a figure is not known; in look: 0 alike to 1 unlike, what "
    "is not known as middling; together as the two sides of a right angle, a wholly different "
    "look counted as one standard deviation (our judgment)"
)


@dataclass(frozen=True, repr=False)
class Substitute(Shown):
    """A wood that may take the place of another.

    ``in_work`` and ``in_look`` how far apart, ``distance`` both together; ``figures`` its
    columns; ``also`` other woods of its trade group that would come near; ``lacking`` the
    criteria that could not be compared.
    """

    species_id: str
    common_name: str
    botanical_name: str
    trade_group: str
    distance: float
    in_work: float
    in_look: float
    look: tuple[Likeness, ...]
    changes: tuple[Change, ...]
    weight_change_pct: float | None
    price_change_pct: float | None
    control: str
    figures: dict[str, Any]
    lacking: tuple[str, ...]
    also: tuple[str, ...] = ()
    names: tuple[SharedName, ...] = ()

    def _line(self) -> str:
        return f"{self.common_name}, apart {number(self.distance)}"

    def verdicts(self, verdict: Verdict) -> tuple[Change, ...]:
        """The changes of one verdict."""
        return tuple(c for c in self.changes if c.verdict == verdict)


@dataclass(frozen=True, repr=False)
class Substitutes(WoodTable):
    """The woods closest to one, nearest first.

    ``own_group`` those of its own trade group, which yards often sell with it; ``fails`` the
    limits the first wood itself does not meet; ``figures`` of the first wood; ``unranked``
    woods of which too little is known; ``filter_counts`` what each filter removes.

    A frame (``to_frame``) has the woods nearest first, then those of its own trade group, each
    with ``wood``, ``botanical_name``, ``species_id``, ``trade_group``, ``own_group``,
    ``distance``, ``in_work``, ``in_look``, ``weight_change_pct``, ``price_change_pct``, prices
    and ``trade_control``; then of each criterion the value under the name of its column and the
    verdict, of each feature of its look the class and the similarity.
    """

    wood: Wood
    profile: Profile
    seasonal_range: SeasonalRange
    axes: tuple[Axis, ...]
    look: Look
    look_counts: bool
    figures: dict[str, Any]
    fails: tuple[str, ...]
    passed: int
    considered: int
    woods: tuple[Substitute, ...]
    own_group: tuple[Substitute, ...]
    unranked: tuple[Unranked, ...]
    filter_counts: tuple[FilterCount, ...]

    def _line(self) -> str:
        near = ", ".join(w.common_name for w in (*self.woods, *self.own_group)[:3])
        return f"in place of {self.wood.common_name}, {self.profile.title}: {near}"

    def _grid(self) -> Grid:
        return Grid(
            ("wood", "botanical name", "distance", "in work", "in look"),
            (
                (w.common_name, w.botanical_name, w.distance, w.in_work, w.in_look)
                for w in (*self.woods, *self.own_group)
            ),
        )

    def _records(self) -> list[dict[str, Any]]:
        return [
            {
                "wood": s.common_name,
                "botanical_name": s.botanical_name,
                "species_id": s.species_id,
                "trade_group": s.trade_group,
                "own_group": own_group,
                "distance": s.distance,
                "in_work": s.in_work,
                "in_look": s.in_look,
                "weight_change_pct": s.weight_change_pct,
                "price_change_pct": s.price_change_pct,
                "trade_control": s.control,
                **{name: s.figures[name] for name in PRICED},
                **{c.criterion.column.name: c.after for c in s.changes},
                **{f"{c.criterion.column.name}_verdict": c.verdict.value for c in s.changes},
                **{x.feature: x.after for x in s.look},
                **{f"{x.feature}_similarity": x.verdict.value for x in s.look},
            }
            for own_group, woods in ((False, self.woods), (True, self.own_group))
            for s in woods
        ]


def substitutes(
    reference: Reference,
    wood: Wood,
    profile: Profile,
    seasonal_range: SeasonalRange | None = None,
    filters: Sequence[Filter] = (),
    limit: int = USUAL_LIMIT,
    look_counts: bool = True,
    prices_per_m3: Mapping[str, float] | None = None,
) -> Substitutes:
    """The woods that come closest to one for a use, in work and in look.

    Of several woods of one trade group the closest is shown, and names the others.

    Parameters: reference library; wood, or trade group, to be replaced; profile of the use;
    seasonal_range, the year; filters beside the limits of the profile; limit on the woods
    returned; look_counts false to go by the work alone; prices_per_m3 by species_id
    (woodref.choose.prices).
    Returns: Substitutes.
    Raises: InputError for a limit out of range, or prices asked for without a list; NoDataError
    where too little is known of the wood, or no other passes: which filter emptied the list and
    the nearest miss.
    """
    year, prices = seasonal_range or SeasonalRange(), prices_per_m3 or {}
    check_limit(limit, MOST)
    every = [*(of_limit(x) for x in profile.limits), *filters]
    check_prices((one.needed for one in every), prices)
    connection = candidates_connection(reference, year, prices)
    try:
        axes, target = _compared_by(connection, wood, profile)
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
        looks = looks_of(reference, [*wood.species_ids, *(r["species_id"] for r in rows)])
        look = merged(looks[i] for i in wood.species_ids if i in looks)
        near = [
            _substitute(row, likeness(look, looks[row["species_id"]]), axes, target, look_counts)
            for row in rows
        ]
        near.sort(key=_nearest_first)
        own = _own_groups(reference, wood)
        others = _one_of_each_group([s for s in near if s.trade_group not in own])[:limit]
        names = shared_names(reference, wood, [s.species_id for s in others])
        return Substitutes(
            wood=wood,
            profile=profile,
            seasonal_range=year,
            axes=axes,
            look=look,
            look_counts=look_counts,
            figures=target,
            fails=tuple(one.text for one in screening.failing("is_first")),
            passed=len(rows),
            considered=screening.considered,
            woods=tuple(replace(s, names=names.get(s.species_id, ())) for s in others),
            own_group=tuple(s for s in near if s.trade_group in own)[:limit],
            unranked=unranked,
            filter_counts=counts,
        )
    finally:
        connection.close()


def work_distances(
    reference: Reference, wood: Wood, profile: Profile, seasonal_range: SeasonalRange | None = None
) -> dict[str, float]:
    """How far every wood is from one in work, by species_id, itself included.

    Woods of which too little is known are not in it; limits are not asked.
    Raises: NoDataError where too little is known of the wood.
    Source: woodref.choose.distance.
    """
    connection = candidates_connection(reference, seasonal_range)
    try:
        axes, target = _compared_by(connection, wood, profile)
        judged = judged_sql(axes, target, wood)
        rows = rows_of(connection, f"select * from ({judged}) where in_work is not null")
        return {r["species_id"]: r["in_work"] for r in rows}
    finally:
        connection.close()


def _compared_by(
    connection: duckdb.DuckDBPyConnection, wood: Wood, profile: Profile
) -> tuple[tuple[Axis, ...], dict[str, Any]]:
    """What woods are compared by, and the figures of the first wood."""
    axes = axes_of(connection, profile)
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
    row: dict[str, Any],
    look: tuple[Likeness, ...],
    axes: Sequence[Axis],
    target: dict[str, Any],
    look_counts: bool,
) -> Substitute:
    in_look = look_distance(look)
    weight = LOOK_WEIGHT if look_counts else 0.0
    return Substitute(
        species_id=row["species_id"],
        common_name=row["common_name"],
        botanical_name=row["botanical_name"],
        trade_group=row["trade_group"] or "",
        distance=sqrt(row["in_work"] ** 2 + (weight * in_look) ** 2),
        in_work=row["in_work"],
        in_look=in_look,
        look=look,
        changes=changes_between(axes, target, row),
        weight_change_pct=_pct(target["density_kg_m3"], row["density_kg_m3"]),
        price_change_pct=_pct(target["price_per_m3"], row["price_per_m3"]),
        control=row["control"],
        figures=row,
        lacking=tuple(row["lacking"]),
    )


def _own_groups(reference: Reference, wood: Wood) -> set[str]:
    members = reference.woods(wood.species_ids).values()
    return {w.trade_group for w in members if w.trade_group}


def _one_of_each_group(near: Sequence[Substitute]) -> list[Substitute]:
    """One of each trade group, with the names of the others; woods of none as they are."""
    groups: dict[str, list[Substitute]] = {}
    for s in near:
        groups.setdefault(s.trade_group or s.species_id, []).append(s)
    nearest = []
    for group in groups.values():
        # What the price list has can be bought; else the nearest stands for the group.
        chosen = next((s for s in group if s.figures["price_per_m3"] is not None), group[0])
        nearest.append(replace(chosen, also=tuple(s.common_name for s in group if s is not chosen)))
    return sorted(nearest, key=_nearest_first)


def _nearest_first(s: Substitute) -> tuple[float, str]:
    return s.distance, s.common_name
