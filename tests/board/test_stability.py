"""How stable a wood is among others."""

import pytest
from small_woods import WHITE_OAK, wood

from woodref.board.movement import movement
from woodref.board.stability import MovesAmong, Stability, stability_of
from woodref.reference.library import Reference
from woodref.reference.percentiles import MovementPercentile


def test_stability_and_rank():
    reference = Reference()
    s = stability_of(reference, WHITE_OAK, 6.0, 10.0, 300.0)
    assert s.flat.change_mm == movement(WHITE_OAK, 300.0, 6.0, 10.0).change_mm
    assert s.quarter.change_mm == movement(WHITE_OAK, 300.0, 6.0, 10.0, 90.0).change_mm
    assert s.ratio == pytest.approx(10.5 / 5.6)
    printed = reference.store.rows(
        "select shrinkage_tangential_pct as t, shrinkage_radial_pct as r from {species} "
        "where shrinkage_tangential_pct is not null and shrinkage_radial_pct is not null"
    )
    assert s.rank.woods == len(printed) > 150
    assert s.rank.less == sum(row["t"] < 10.5 for row in printed)
    assert s.rank.more == sum(row["t"] > 10.5 for row in printed)
    assert s.rank.evener == sum(row["t"] / row["r"] < 10.5 / 5.6 for row in printed)


def test_no_rank_by_a_change_per_percent():
    figures = {"change_per_pct_radial": 0.2, "change_per_pct_tangential": 0.4}
    s = stability_of(Reference(), wood("other", figures), 6.0, 10.0, 300.0)
    assert (s.rank, s.third, s.ratio) == (None, None, 2.0)


@pytest.mark.parametrize(
    ("less", "third"),
    [
        (0, MovesAmong.LITTLE),
        (99, MovesAmong.LITTLE),
        (100, MovesAmong.AS_MOST),
        (200, MovesAmong.AS_MOST),
        (201, MovesAmong.A_LOT),
    ],
)
def test_woods_are_told_apart_by_thirds(less, third):
    m = movement(WHITE_OAK, 300.0, 6.0, 10.0)
    assert Stability(m, m, 1.0, MovementPercentile(300, less, 299 - less, 0)).third is third
