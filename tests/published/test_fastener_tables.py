"""Chapter 8 of the Wood Handbook (2010, 2021): each table in its two systems of units.

The handbook prints no worked number of these equations: that the metric coefficients follow
from the inch-pound ones is what can be checked.
"""

import pytest

import woodref

NEWTON_PER_LB = 4.4482216
MM = 25.4


@pytest.fixture(scope="module")
def loads():
    frame = woodref.table("fastener_loads")
    return frame.fillna({"diameter_exponent": 0.0, "length_exponent": 0.0})


def test_coefficients_of_forces_follow_from_each_other(loads):
    """K in N = K in lb times 4.448 over 25.4 to the powers of the lengths, within 0.2 %.

    The coefficients for nails in the lateral table are rounder in inch-pound: within 0.5 %.
    """
    forces = loads[loads["unit"] == "N"]
    assert len(forces) == 28
    for r in forces.itertuples():
        metric = r.k_inch_pound * NEWTON_PER_LB / MM ** (r.diameter_exponent + r.length_exponent)
        allowed = 0.005 if r.load == "lateral" else 0.002
        assert r.k_metric == pytest.approx(metric, rel=allowed), r.formula


def test_slip_moduli_and_bearing_strength(loads):
    slip = loads[loads["load"] == "slip modulus"]
    assert len(slip) == 2
    for r in slip.itertuples():
        per_mm = r.k_inch_pound * NEWTON_PER_LB / MM / MM**r.diameter_exponent
        assert r.k_metric == pytest.approx(per_mm, rel=0.001)
    bearing = loads[loads["load"] == "bearing strength"].iloc[0]
    assert bearing["k_metric"] == pytest.approx(bearing["k_inch_pound"] * 0.006894757, rel=0.001)


def test_the_editions_of_annular_nails_are_both_there(loads):
    """73.11 in 2010, 77.57 in 2021; neither stands for the other."""
    nails = loads[loads["fastener"] == "annularly threaded nail"]
    assert dict(zip(nails["edition"], nails["k_metric"], strict=True)) == {
        "FPL-GTR-190 (2010)": 73.11,
        "FPL-GTR-282 (2021)": 77.57,
    }


def test_lateral_coefficients_rise_with_specific_gravity(loads):
    lateral = loads[loads["load"] == "lateral"]
    for _, rows in lateral.groupby(["fastener", "wood"]):
        ordered = rows.sort_values("specific_gravity_min")
        assert ordered["k_metric"].is_monotonic_increasing
        assert (
            ordered["specific_gravity_max"].to_numpy()[:-1]
            < ordered["specific_gravity_min"].to_numpy()[1:]
        ).all()


def inches(text):
    """'2-1/2' as 2.5."""
    whole, _, fraction = text.rpartition("-") if "/" in text else (text, "", "")
    top, _, bottom = fraction.partition("/")
    return float(whole or 0) + (float(top) / float(bottom) if bottom else 0.0)


def test_sizes_are_the_same_in_both_units():
    sizes = woodref.table("fasteners")
    assert (abs(sizes["diameter_in"] * MM - sizes["diameter_mm"]) < 0.03).all()
    nails = sizes.dropna(subset=["length_mm"])
    assert len(nails) == 32
    for r in nails.itertuples():
        assert inches(r.printed_length_in) * MM == pytest.approx(r.length_mm, abs=0.06)
    for r in woodref.table("screw_length_limits").itertuples():
        assert inches(r.printed_screw_length_in) * MM == pytest.approx(r.screw_length_mm, abs=0.06)
        assert r.gauge_min < r.gauge_max


def test_gauges_of_screws_step_by_13_thousandths_of_an_inch():
    """Wood screws: shank 0.060 in. plus 0.013 in. a gauge (rule of the gauge, from memory)."""
    screws = woodref.sql("select size, diameter_in from fasteners where kind = 'wood screw shank'")
    for r in screws.itertuples():
        assert r.diameter_in == pytest.approx(0.060 + 0.013 * int(r.size), abs=0.0015)


def test_lag_screw_factors_go_one_way():
    for name, rows in woodref.table("lag_screw_factors").groupby("adjustment"):
        factors = rows.sort_values("argument_value")["factor"]
        falls = name == "lateral load perpendicular to the grain"
        assert factors.is_monotonic_decreasing if falls else factors.is_monotonic_increasing
    shanks = woodref.sql(
        "select argument_value mm, printed_argument_in inch from lag_screw_factors "
        "where printed_argument_in is not null"
    )
    assert len(shanks) == 10
    for r in shanks.itertuples():
        assert inches(r.inch if "/" not in r.inch else f"0-{r.inch}") * MM == pytest.approx(
            r.mm, abs=0.06
        )
