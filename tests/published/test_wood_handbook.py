"""Checks against the Wood Handbook (FPL-GTR-190, 2010; FPL-GTR-282, 2021)."""

import pytest

from woodref.board.movement import movement
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def sugar_maple():
    return Reference().wood("sugar maple")


@pytest.mark.parametrize(("angle", "expected"), [(0.0, 978.8), (45.0, 975.0), (90.0, 971.4)])
def test_sugar_maple_top_from_7_to_11_pct(sugar_maple, angle, expected):
    """Table 4-3 shrinkage (9.9 and 4.8 %) through Eq. 4-9, exact geometry."""
    assert movement(sugar_maple, 965.0, 7.0, 11.0, angle).after_mm == pytest.approx(
        expected, abs=0.05
    )
