"""Table 5-11 of the Wood Handbook FPL-GTR-282 (2021) against the strengths of Table 5-3.

The functions were fitted to the woods of that table: over all woods they must neither lie above
nor below them, and single woods scatter about them as boards of one specific gravity do.
"""

from statistics import fmean, pstdev

import numpy as np
import pytest
from checked import checked

import woodref

FUNCTIONS = woodref.sql(
    "select property_id, condition, kind, coefficient, exponent, printed_table, printed_unit "
    "from specific_gravity_functions where exponent is not null"
)
GRAVITY = {"green": "basic_specific_gravity", "12pct": "specific_gravity_12pct"}


@pytest.fixture(scope="module")
def strengths():
    return woodref.sql(
        "select a.property_id, a.condition, s.kind, a.value, g.property_id as gravity_id, "
        "g.value as gravity from measurements a join species s using (species_id) "
        "join measurements g on g.species_id = a.species_id and g.condition = a.condition "
        "where a.preferred and g.preferred and a.printed_table like '5-3%' "
        "and g.property_id like '%specific_gravity%'"
    )


def test_only_the_edition_with_exponents_is_computed_from():
    assert len(FUNCTIONS) == 72
    assert (FUNCTIONS["exponent"] > 0.5).all()


@pytest.mark.parametrize(
    "f", list(FUNCTIONS.itertuples()), ids=lambda f: f"{f.Index}-{f.property_id}"
)
def test_bias_and_spread_over_the_woods(f, strengths):
    rows = strengths[
        (strengths["property_id"] == f.property_id)
        & (strengths["condition"] == f.condition)
        & (strengths["kind"] == f.kind)
        & (strengths["gravity_id"] == GRAVITY[f.condition])
    ]
    assert len(rows) >= 30
    computed = f.coefficient * rows["gravity"] ** f.exponent
    checked(computed, rows["value"])
    off = np.log(rows["value"] / computed)
    assert abs(fmean(off)) < 0.03
    assert 0.05 < pstdev(off) < 0.30


def test_the_two_printings_give_the_same_values():
    """Metric and inch-pound functions at specific gravities 0.35 and 0.65: within 3 %."""
    keys = ["property_id", "condition", "kind"]
    si, us = (
        FUNCTIONS[FUNCTIONS["printed_table"] == t].set_index(keys) for t in ("5-11a", "5-11b")
    )
    assert len(si) == len(us) == 36
    for gravity in (0.35, 0.65):
        a = si["coefficient"] * gravity ** si["exponent"]
        b = us["coefficient"] * gravity ** us["exponent"]
        checked(a, b)
        assert (a / b - 1.0).abs().max() < 0.03
