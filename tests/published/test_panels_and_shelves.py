"""Chapter 12 of the Wood Handbook (2010) in its two units; beams of chapter 9; printed shelves.

Architectural Woodwork Standards, 1st edition (2009), p. 279: twelve longest shelves.
"""

from dataclasses import replace

import pytest
import sympy
from checked import checked

import woodref
from woodref.board.beam_material import BeamMaterial
from woodref.board.deflection import deflection
from woodref.board.span import Span, carrying
from woodref.quantity import exactly
from woodref.reference.library import Reference
from woodref.reference.sag_rules import Carried, sag_rules

PSI = 0.006894757
TO_MPA = {"GPa": 1000.0, "MPa": 1.0, "10^6 lbf/in2": PSI * 1e6, "lbf/in2": PSI}
PANELS = woodref.table("panels")


def ends(text):
    """Ends of a printed range, or a number twice."""
    parts = [float(p) for p in text.split("-")]
    return parts[0], parts[-1]


def test_panels_in_both_units():
    """Within 4 % and the printed digits."""
    both = PANELS.dropna(subset=["printed_value_us"])
    assert len(both) > 120
    for r in both.itertuples():
        for si, us in zip(ends(r.printed_value), ends(r.printed_value_us), strict=True):
            us_mpa = us * TO_MPA[r.printed_unit_us]
            si_mpa = si * TO_MPA[r.printed_unit]
            step = 0.005 * TO_MPA[r.printed_unit] + 0.005 * TO_MPA[r.printed_unit_us]
            assert si_mpa == pytest.approx(us_mpa, rel=0.04, abs=step), r


def test_clear_woods_beside_the_panels_are_those_of_table_5_3():
    """Table 12-1 repeats white oak, red maple, Douglas-fir, western white and longleaf pine."""
    pairs = woodref.sql(
        "select p.detail, p.material, p.value, s.modulus_of_elasticity_mpa as own from panels p "
        "join woods_named w using (source_table, source_line) join species s using (species_id) "
        "where p.material like 'clear wood%' and p.property = 'modulus_of_elasticity'"
    )
    checked(pairs["value"], pairs["own"])
    assert len(pairs) == 5
    assert (pairs["value"] / pairs["own"] - 1.0).abs().max() < 0.01


def test_twelve_printed_shelves():
    """The longest span within the trade limit, elastic, the board taken as weightless: the
    printed one, cut to whole inches or rounded."""
    rules = sag_rules(Reference(own=False))
    named = {40.0: Carried.SHELF, 50.0: Carried.BOOKS}
    shelves = woodref.table("shelf_lengths")
    assert len(shelves) == 12
    for r in shelves.itertuples():
        modulus = exactly(r.modulus_of_elasticity_mpa)
        material = BeamMaterial(r.material, modulus, 500.0, 12.0, False, (), ())
        shelf = Span(r.longest_mm, 300.0, r.thickness_mm, own_weight=False)
        shelf = carrying(shelf, named[r.load_lb_ft2], rules)
        longest = deflection(material, shelf, rules).checks[0].longest_mm
        checked(longest / 25.4, r.longest_in, "in")
        assert -0.1 < longest / 25.4 - r.longest_in < 1.0, r
        for longer, met in ((-2.6, True), (25.4, False)):
            span = replace(shelf, span_mm=r.longest_mm + longer)
            assert deflection(material, span, rules).holds is met


x, a = sympy.symbols("x a", positive=True)


def _bent(moment, conditions):
    """Deflection curve of a beam of EI = 1, length 1, from its bending moment."""
    c1, c2, *unknown = sympy.symbols("c1 c2 m0")
    slope = sympy.integrate(-moment, x) + c1
    curve = sympy.integrate(slope, x) + c2
    known = sympy.solve(conditions(curve, slope), [c1, c2, *unknown], dict=True)
    return curve.subs(known[0])


M0 = sympy.Symbol("m0")
HALF = sympy.Rational(1, 2)
#: load, support, point -> (moment on the part integrated, conditions, where)
BEAMS = {
    ("uniformly distributed", "both simply supported", "midspan"): (
        x / 2 - x**2 / 2,
        lambda y, s: [y.subs(x, 0), y.subs(x, 1)],
        HALF,
    ),
    ("uniformly distributed", "both clamped", "midspan"): (
        x / 2 - x**2 / 2 + M0,
        lambda y, s: [y.subs(x, 0), s.subs(x, 0), s.subs(x, HALF)],
        HALF,
    ),
    ("concentrated at midspan", "both simply supported", "midspan"): (
        x / 2,
        lambda y, s: [y.subs(x, 0), s.subs(x, HALF)],
        HALF,
    ),
    ("concentrated at midspan", "both clamped", "midspan"): (
        x / 2 + M0,
        lambda y, s: [y.subs(x, 0), s.subs(x, 0), s.subs(x, HALF)],
        HALF,
    ),
    ("uniformly distributed", "cantilever, one free, one clamped", "free end"): (
        -(x**2) / 2,
        lambda y, s: [y.subs(x, 1), s.subs(x, 1)],
        0,
    ),
    ("concentrated at free end", "cantilever, one free, one clamped", "free end"): (
        -x,
        lambda y, s: [y.subs(x, 1), s.subs(x, 1)],
        0,
    ),
}
CONSTANTS = woodref.table("beam_constants")


@pytest.mark.parametrize("key", BEAMS, ids=lambda k: f"{k[0]}, {k[1]}")
def test_constants_of_bending_are_those_of_elementary_beams(key):
    moment, conditions, where = BEAMS[key]
    deflection = _bent(moment, conditions).subs(x, where)
    row = CONSTANTS[
        (CONSTANTS["load"] == key[0])
        & (CONSTANTS["support"] == key[1])
        & (CONSTANTS["deflection_at"] == key[2])
    ]
    assert len(row) == 1
    assert row.iloc[0]["kb"] == pytest.approx(float(deflection), rel=1e-9)
    assert sympy.Rational(row.iloc[0]["printed_kb"]) == deflection


def test_loads_at_the_quarter_points():
    """Two loads of W/2 at a quarter of the span: W a (3 L2 - 4 a2)/48 at midspan, a = L/4."""
    quarter = sympy.Rational(1, 4)
    rows = CONSTANTS[CONSTANTS["load"].str.contains("quarter")].set_index("deflection_at")
    middle = quarter * (3 - 4 * quarter**2) / 48
    at_load = quarter**2 * (3 - 4 * quarter) / 12
    assert sympy.Rational(rows.loc["midspan", "printed_kb"]) == middle
    assert sympy.Rational(rows.loc["load point", "printed_kb"]) == at_load
