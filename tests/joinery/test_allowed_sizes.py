"""Between which sizes a part may move before one of its fixings runs out of room."""

import pytest
from small_woods import WHITE_OAK

from woodref.joinery.allowed_sizes import allowed_sizes
from woodref.joinery.clearance import fixing_of
from woodref.joinery.fixing_types import Sizes, fixing_spec
from woodref.joinery.travel import MoistureRange

AIR = MoistureRange(8.0, 6.0, 11.0)


def fixing(kind, **sizes):
    spec = fixing_spec(kind, width_mm=400.0, sizes=Sizes(**sizes), units="si", name=kind)
    return fixing_of(spec, WHITE_OAK, AIR)


def test_a_round_hole_allows_as_much_either_way():
    made = fixing("round-hole", screw=4.0, hole=10.0)
    # 3 mm at half the width, so 6 mm of the whole.
    assert allowed_sizes(made, 400.0) == pytest.approx((394.0, 406.0))


def test_a_gap_bounds_growth_alone():
    low, high = allowed_sizes(fixing("floating-panel", gap=3.0), 400.0)
    assert low is None
    assert high == pytest.approx(406.0)


def test_nothing_given_and_glue_set_no_ends():
    assert allowed_sizes(fixing("round-hole"), 400.0) == (None, None)
    assert allowed_sizes(fixing("glued"), 400.0) == (None, None)
