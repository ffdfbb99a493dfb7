"""Water through a board, step for step: what came of the method when it was held against others.

test_slab.py says that the answers are right, within the error of the method; here they are held to
more digits, with how often the coefficient was asked, so that no step gets lost or longer unseen.
"""

from math import pi, sin

import pytest

from woodref.formulas.slab import diffuse

DAY = 86_400.0
RISING = [6.0 + 0.1 * n for n in range(41)]
#: Start, faces, times, settings; how often asked, means, middles, inflows left and right.
CASES = {
    "even": (
        (12.0, (1e8, 1e8), (0.0, DAY, 30 * DAY, 365 * DAY), {}),
        148,
        (12.0, 11.709771524, 9.665459505, 7.088884618),
        (12.0, 11.947087823, 9.63988318, 6.996193032),
        ((0.0, 0.0), (-0.145114238,) * 2, (-1.167270247,) * 2, (-2.455557691,) * 2),
    ),
    "unequal faces": (
        (12.0, (1e8, 4e8), (5 * DAY, 50 * DAY), {}),
        130,
        (11.23241468, 10.351263682),
        (11.39611564, 10.314389741),
        ((-0.581853745, -0.185731575), (-1.213173868, -0.43556245)),
    ),
    "uneven start": (
        (RISING, (1e8, 1e8), (DAY, 20 * DAY), {}),
        74,
        (8.002978586, 8.632158661),
        (8.010987743, 8.565391097),
        ((0.055846443, -0.052867857), (0.458220712, 0.173937949)),
    ),
    "coarse": (
        (10.0, (2e8, 2e8), (10 * DAY,), {"cells": 11, "tolerance_pct": 0.1}),
        46,
        (9.474149562,),
        (9.518242736,),
        ((-0.262925219,) * 2,),
    ),
    "at rest": ((8.0, (1e8, 1e8), (1.0,), {}), 6, (8.0,), (8.0,), ((0.0, 0.0),)),
}


@pytest.mark.parametrize("name", CASES)
def test_a_year_of_air_is_followed_as_before(name):
    (start, faces, times, settings), count, means, middles, inflows = CASES[name]
    asked = []

    def coefficient(cells, t):
        asked.append(t)
        return [1e-10 * (1.0 + 0.05 * m) for m in cells]

    def air(t):
        return 8.0 + 4.0 * sin(2.0 * pi * t / 3.15e7)

    made = diffuse(start, 0.02, faces, times, coefficient, air, **settings)
    near = {"rel": 1e-7, "abs": 1e-7}
    assert made.mean_pct == pytest.approx(means, **near)
    assert made.middle_pct == pytest.approx(middles, **near)
    for mine, held in zip(made.inflow_pct, inflows, strict=True):
        assert mine == pytest.approx(held, **near)
    assert made.times_s == times
    assert {len(row) for row in made.moisture_pct} == {settings.get("cells", 41)}
    assert len(asked) == count
