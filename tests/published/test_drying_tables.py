"""Tables 13-3, 13-4 and 5-12 of the Wood Handbook FPL-GTR-190 (2010), by way of its equations."""

from statistics import fmean

import pytest
from checked import checked

import woodref
from woodref.formulas.air import saturation_vapor_pressure
from woodref.formulas.moisture import equilibrium_moisture_content


def test_the_kiln_schedule_keeps_the_equation():
    """Within half a percent: humidity is printed whole, which alone makes 0.2 % near 80 %."""
    steps = woodref.table("kiln_schedules")
    assert len(steps) == 10
    off = [
        equilibrium_moisture_content(r.dry_bulb_c, r.relative_humidity_pct) - r.emc_pct
        for r in steps.itertuples()
    ]
    checked(off, [0.0] * len(off), "% MC")
    assert max(map(abs, off)) < 0.5
    assert abs(fmean(off)) < 0.15


@pytest.mark.parametrize(("outdoors_c", "mean", "most"), [(10.0, 0.1, 0.6), (20.0, 0.1, 0.5)])
def test_a_warmer_storage_room_holds_the_moisture_content(outdoors_c, mean, most):
    """The air keeps its vapor and is warmed by what the table says: wood comes to what it says.

    The table does not name the outdoor temperature it was made for; 10 to 20 C fit best.
    """
    rows = woodref.table("storage_heating").dropna(subset=["warmer_by_c"])
    assert len(rows) == 30
    off = []
    for r in rows.itertuples():
        indoors = outdoors_c + r.warmer_by_c
        humidity = (
            r.outside_relative_humidity_pct
            * saturation_vapor_pressure(outdoors_c)
            / saturation_vapor_pressure(indoors)
        )
        off.append(equilibrium_moisture_content(indoors, humidity) - r.wood_moisture_pct)
    checked(off, [0.0] * len(off), "% MC")
    assert abs(fmean(off)) < mean
    assert max(map(abs, off)) < most


def test_slope_of_grain_weakens_step_by_step():
    """Table 5-12, p. 5-31, lies between two interaction curves.

    Hankinson's formula with exponents 2 and 1.5 and a strength across the grain of 10 and 4 %
    of that along it; these constants of bending are from memory.
    """
    rows = woodref.table("slope_of_grain").sort_values("slope")
    for column in ("modulus_of_rupture_pct", "impact_bending_pct", "compression_parallel_pct"):
        assert rows[column].is_monotonic_decreasing
    for r in rows.itertuples():
        angle_sin2 = r.slope**2 / (1.0 + r.slope**2)
        strong, weak = (
            100.0 * q / (q * (1.0 - angle_sin2) ** (n / 2) + angle_sin2 ** (n / 2))
            for q, n in ((0.10, 2.0), (0.04, 1.5))
        )
        assert weak - 0.5 <= r.modulus_of_rupture_pct <= strong + 0.5
