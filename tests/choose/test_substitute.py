"""What comes closest: distances that can be worked out by hand, limits, and trade knowledge."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import hypot, log, sqrt
from statistics import stdev

import pytest

from woodref.choose import filters
from woodref.choose.buyable import Buyable
from woodref.choose.candidates import candidates_connection
from woodref.choose.distance import axes_of, judged_sql, target_of
from woodref.choose.profile import Profile, load_profile, parse_profile
from woodref.choose.screening import rows_of
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.substitute import substitutes
from woodref.choose.substitute_result import Substitutes
from woodref.errors import InputError, NoDataError
from woodref.reference.library import Reference
from woodref.reference.woods import Wood


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


def _names(found: Substitutes) -> list[str]:
    """Every wood told, in order, with those that a wood of its group stands for."""
    return [n for s in found.woods for n in (s.name, s.common_name, *s.also)]


def work_distances(reference: Reference, wood: Wood, profile: Profile) -> dict[str, float]:
    """How far every wood of which enough is known is from one in work, by species_id."""
    connection, year = candidates_connection(reference), SeasonalRange()
    axes = axes_of(connection, profile, year)
    judged = judged_sql(axes, target_of(connection, wood, axes), wood)
    rows = rows_of(connection, f"select * from ({judged}) where in_work is not null")
    return {r["species_id"]: r["in_work"] for r in rows}


def _closest(reference: Reference, name: str, use: str, n: int = 8) -> Substitutes:
    return substitutes(reference, reference.wood(name), load_profile(use), limit=n)


ONE = """
title = "Peg"
purpose = "A peg."
[[criterion]]
column = "side_hardness_n"
direction = "higher"
weight = 1
why = "x"
"""


def test_a_distance_worked_out_by_hand(reference: Reference) -> None:
    rows = (
        candidates_connection(reference)
        .execute("select species_id, side_hardness_n from candidates where side_hardness_n > 0")
        .fetchall()
    )
    hardness = dict(rows)
    sd = hypot(stdev(log(v) for v in hardness.values()), 0.20)  # boards vary by 20 %
    found = work_distances(reference, reference.wood("cherry"), parse_profile(ONE, "p", "p"))
    oak, cherry = hardness["quercus-alba"], hardness["prunus-serotina"]
    assert found["quercus-alba"] == pytest.approx(log(oak / cherry) / sd, rel=1e-9)
    assert found["prunus-serotina"] == 0.0


def test_what_is_not_known_counts_as_one(reference: Reference) -> None:
    two = ONE + ONE.partition("purpose")[2].partition("\n")[2].replace(
        "side_hardness_n", "planing_pct"
    ).replace("weight = 1", "weight = 0.25")
    profile = parse_profile(two, "p", "p")
    alone = work_distances(reference, reference.wood("cherry"), parse_profile(ONE, "p", "p"))
    both = work_distances(reference, reference.wood("cherry"), profile)
    sapele = reference.wood("sapele").species_id  # no table holds how it planes
    assert both[sapele] == pytest.approx(sqrt(0.8 * alone[sapele] ** 2 + 0.2), rel=1e-9)


WOODS = ("cherry", "black walnut", "white oak", "white ash", "teak", "sapele", "yellow birch")


@pytest.mark.parametrize("use", ["tabletop", "chair-leg"])
def test_as_far_there_as_back(reference: Reference, use: str) -> None:
    woods, profile = [reference.wood(name) for name in WOODS], load_profile(use)
    away = {a.species_id: work_distances(reference, a, profile) for a in woods}
    for a, b in combinations(away, 2):
        assert away[a][b] == pytest.approx(away[b][a], abs=1e-9)
        assert away[a][b] > 0.0
    if use == "tabletop":
        known = [a.species_id for a in woods if a.common_name not in ("teak", "sapele")]
        assert {away[a][a] for a in known} == {0.0}  # of these every figure is known


def test_look_and_work_are_two_sides_of_a_right_angle(reference: Reference) -> None:
    for s in _closest(reference, "cherry", "tabletop").woods:
        assert s.look.distance is not None
        assert s.distance == pytest.approx(hypot(s.in_work, s.look.distance))
    found = substitutes(
        reference, reference.wood("cherry"), load_profile("tabletop"), look_counts=False
    )
    assert [s.distance for s in found.woods] == sorted(s.in_work for s in found.woods)


# Trade knowledge: common practice, no source.


@pytest.mark.parametrize(
    ("wood", "use", "expected", "within"),
    [
        ("white oak", "tabletop", "northern red oak", 3),
        ("hard maple", "tabletop", "yellow birch", 3),
        ("hard maple", "chopping-board", "American beech", 8),
        ("ipe", "outdoor-bench", "bulletwood", 10),
        ("teak", "outdoor-bench", "iroko", 10),
        ("hickory", "chair-leg", "white oak", 4),
    ],
)
def test_common_practice_no_source(
    reference: Reference, wood: str, use: str, expected: str, within: int
) -> None:
    assert expected in _names(_closest(reference, wood, use, within))


def test_white_ash_is_near_white_oak_under_a_price_list(reference: Reference) -> None:
    # Common practice, no source: of what a yard of domestic woods has, red oak, hickory and ash.
    woods = ("northern red oak", "white ash", "hickory", "cherry", "hard maple", "yellow birch")
    ids = [i for w in woods for i in reference.wood(w).species_ids]
    found = substitutes(
        reference,
        reference.wood("white oak"),
        load_profile("tabletop"),
        buyable=Buyable(price_list="few"),
        limit=5,
        prices_per_m3=dict.fromkeys(ids, 3000.0),
    )
    assert {"white ash", "northern red oak", "shagbark hickory"} <= set(_names(found))


def test_the_own_group_stands_apart(reference: Reference) -> None:
    # Common practice, no source: white pines stand in for each other.
    found = _closest(reference, "eastern white pine", "shelf", 12)
    assert {"sugar pine", "western white pine"} <= {s.common_name for s in found.own_group}
    assert not {"sugar pine", "western white pine"} & set(_names(found))
    lines = [s.name for s in found.woods]
    assert len(lines) == len(set(lines))


@pytest.mark.parametrize("wood", ["cherry", "black walnut", "white oak", "hard maple", "ipe"])
def test_small_changes_of_the_weights_keep_the_top(reference: Reference, wood: str) -> None:
    use = load_profile("outdoor-bench" if wood == "ipe" else "tabletop")
    first = [s.trade_group or s.common_name for s in _of(reference, wood, use, 5)]
    for n in range(len(use.criteria)):
        for factor in (0.85, 1.15):
            changed = [
                s.trade_group or s.common_name
                for s in _of(reference, wood, _heavier(use, n, factor), 5)
            ]
            assert first[0] in changed[:3]
            assert len(set(first) & set(changed)) >= 3


def _of(reference: Reference, wood: str, use: Profile, limit: int) -> tuple:
    return substitutes(reference, reference.wood(wood), use, limit=limit).woods


def _heavier(profile: Profile, n: int, factor: float) -> Profile:
    criteria = list(profile.criteria)
    criteria[n] = replace(criteria[n], weight=criteria[n].weight * factor)
    return replace(profile, criteria=tuple(criteria))


def test_limits_are_kept_and_the_first_wood_may_fail_them(reference: Reference) -> None:
    found = _closest(reference, "eastern white pine", "tabletop", 30)
    assert found.fails == ("side_hardness_n >= 3000",)
    assert all(s.figures["side_hardness_n"] >= 3000 for s in found.woods)
    without = substitutes(
        reference,
        reference.wood("teak"),
        load_profile("outdoor-bench"),
        filters=[filters.uncontrolled()],
    )
    assert not any(s.control for s in without.woods)


def test_changes_agree_with_the_figures(reference: Reference) -> None:
    found = _closest(reference, "white oak", "tabletop")
    for s in found.woods:
        for c in s.changes:
            if c.verdict in ("better", "worse"):
                higher = c.after > c.before
                assert higher == ((c.verdict == "better") == (c.criterion.direction == "higher"))
        assert {"better", "worse", "same", "unknown"} >= {c.verdict for c in s.changes}
        assert set(s.lacking) == {c.criterion.column.name for c in s.verdicts("unknown")}


def test_weight_and_price_change(reference: Reference) -> None:
    oak, ash = reference.wood("white oak"), reference.wood("white ash")
    prices = {oak.species_id: 4000.0, ash.species_id: 3000.0}
    found = substitutes(
        reference,
        oak,
        load_profile("tabletop"),
        buyable=Buyable(price_list="few"),
        prices_per_m3=prices,
    )
    (only,) = found.woods
    assert only.price_change_pct == pytest.approx(-25.0)
    density = (only.figures["density_kg_m3"], found.figures["density_kg_m3"])
    assert only.weight_change_pct == pytest.approx(100 * (density[0] / density[1] - 1))


def test_trade_names_that_cover_both_come_first(reference: Reference) -> None:
    red = next(
        s
        for s in _closest(reference, "white oak", "tabletop").woods
        if s.trade_group == "red oak group"
    )
    assert red.names[0].covers_both
    assert any(n.name == "red oak" and n.woods > 10 for n in red.names)


def test_too_little_known_is_told_apart(reference: Reference) -> None:
    found = _closest(reference, "cherry", "tabletop", 100)
    left = {x.species_id: x.missing_columns for x in found.unranked}
    assert reference.wood("slash pine").species_id not in left  # its hardness is estimated
    assert left
    assert all(left.values())
    assert not set(left) & {s.species_id for s in found.woods}


CHEAP = filters.of_price("price_per_m3", 9.0, "at most 9")


@pytest.mark.parametrize(
    ("arguments", "error", "message"),
    [
        ({"limit": 0}, InputError, "1 to 100"),
        (
            {"filters": [CHEAP]},
            InputError,
            "--prices FILE",
        ),
        (
            {
                "filters": [CHEAP],
                "prices_per_m3": {"fraxinus-americana": 3000.0},
            },
            NoDataError,
            r"'at most 9' stops the last \d+; nearest miss: white ash \(price_per_m3 3000\)",
        ),
    ],
)
def test_bad_questions(reference: Reference, arguments, error, message) -> None:
    with pytest.raises(error, match=message):
        substitutes(reference, reference.wood("cherry"), load_profile("tabletop"), **arguments)


def test_a_wood_too_little_known_is_no_first_wood(reference: Reference) -> None:
    with pytest.raises(NoDataError, match=r"too little is known of balsa .* steam bending"):
        _closest(reference, "balsa", "bent-back")
