"""Movement from 6 to 14 % against the printed coefficients of all woods that have them.

Wood Handbook FPL-GTR-190 (2010), Table 13-5, pp. 13-16 and 13-17, with the shrinkages of Tables
4-3 and 4-4.
"""

import pytest
from checked import checked

import woodref
from woodref.board.movement import movement
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def printed():
    """species_id to the printed coefficients, tangential and radial, that no rule doubts."""
    rows = Reference().store.rows(
        "select species_id, property_id, value from {measurements} "
        "where property_id like 'dimensional_change_coefficient_%' and preferred"
    )
    found = {}
    for r in rows:
        found.setdefault(r["species_id"], {})[r["property_id"].rsplit("_", 1)[1]] = r["value"]
    return {k: (v["tangential"], v["radial"]) for k, v in found.items() if len(v) == 2}


def test_no_wood_moves_by_much_more_or_less_than_printed(printed):
    """Within a tenth for every wood; by shrinkage at 30 % iroko stood at 0.56 of the print."""
    woods = Reference().woods(printed)
    off = {}
    for species_id, wood in woods.items():
        for angle, coefficient in zip((0.0, 90.0), printed[species_id], strict=True):
            # The print is the share of the size at the middle of its range.
            middle = movement(wood, 1000.0, 6.0, 10.0, angle).after_mm
            change = movement(wood, 1000.0, 6.0, 14.0, angle).change_mm / middle / 8.0
            off[wood.common_name, angle] = change / coefficient - 1.0
    checked([1.0 + v for v in off.values()], [1.0] * len(off))
    assert len(off) > 200
    assert max(abs(v) for v in off.values()) < 0.105
    assert sum(abs(v) < 0.02 for v in off.values()) > 0.9 * len(off)


@pytest.mark.parametrize(
    ("name", "inches"),
    [("iroko", 0.197), ("American mahogany", 0.228), ("northern white-cedar", 0.220)],
)
def test_movement_across_12_inches(name, inches):
    """12 in flat sawn from 6 to 14 %: the printed coefficient times 96, Table 13-5."""
    assert woodref.movement(name, 304.8, 6.0, 14.0).change_mm / 25.4 == pytest.approx(
        inches, rel=0.02
    )


def test_woods_of_low_fiber_saturation():
    """Redwood and two cedars: their coefficients were made with 22 %."""
    for name in ("redwood, old growth", "northern white-cedar", "western redcedar"):
        assert woodref.wood(name).fiber_saturation.pct == 22.0
    assert woodref.wood("white oak").fiber_saturation.pct == 30.0
