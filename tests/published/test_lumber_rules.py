"""Board measure and dressed sizes against the rules they come from.

- NHLA Rules for the Measurement and Inspection of Hardwood and Cypress.
- Voluntary Product Standard PS 20, American Softwood Lumber Standard.
- Wood Handbook chapter 6.
Figures as transcribed in lumber_sizes.csv; the basis of each stands in the row.
"""

from fractions import Fraction

import pytest
from printed_tables import printed

from woodref.formulas.lumber import (
    board_feet,
    board_feet_of_surface,
    board_feet_of_volume,
    surface_measure,
    volume_of_board_feet,
)
from woodref.formulas.shrinkage import shrinkage_to
from woodref.lumber.waste import graded_waste
from woodref.reference.library import Reference
from woodref.reference.trade import grades

ROWS = printed("lumber_sizes.csv")
SOFTWOODS = [r for r in ROWS if r["system"].startswith("softwood") and r["dressed_in"]]
S2S = [r for r in ROWS if r["system"] == "hardwood S2S thickness"]
GRADES = {r["nominal"]: r for r in ROWS if r["system"] == "NHLA hardwood grade"}


def inches(text):
    """'1-1/4' or '4/4' as inches."""
    return float(sum(Fraction(part) for part in text.split("-")))


def test_board_foot_is_144_cubic_inches():
    """Definition row: 144 cubic inches, 1/12 cubic foot, 0.00235974 m3."""
    assert board_feet(1.0, 12.0, 1.0) == 1.0
    assert volume_of_board_feet(1.0) == pytest.approx(0.00235974, abs=5e-9)
    assert board_feet_of_volume(0.3048**3) == pytest.approx(12.0)


def test_surface_measure_by_the_printed_rule():
    """Width in inches x length in whole feet / 12, to the nearest whole square foot."""
    row = next(r for r in ROWS if r["system"] == "surface measure")
    assert "rounded to nearest whole square foot" in row["note"]
    assert surface_measure(8.0, 10.0) == 7.0  # 6.67
    assert surface_measure(6.5, 8.0) == 4.0  # 4.33
    assert surface_measure(12.0, 8.0) == 8.0
    assert board_feet_of_surface(7.0, 1.25) == 8.75


def test_thin_stock_counts_as_one_inch():
    """The definition row has it from memory."""
    row = next(r for r in ROWS if r["system"] == "board-foot definition")
    assert "under 1 in thick is counted as 1 in (from memory)" in row["note"]
    assert board_feet(0.5, 8.0, 12.0) == board_feet(1.0, 8.0, 12.0) == 8.0


@pytest.mark.parametrize("row", SOFTWOODS, ids=lambda r: f"{r['system']} {r['nominal']}")
def test_ps_20_sizes(row):
    """Dressed below nominal, green above dry; widths from 8 in give up 3/4 in, below 1/2 in."""
    nominal, dry = inches(row["nominal"]), float(row["dressed_in"])
    assert dry < float(row["dressed_green_in"]) < nominal
    if row["system"].endswith("width"):
        assert nominal - dry == (0.75 if nominal >= 8.0 else 0.5)


def test_ps_20_green_and_dry_widths_are_one_board():
    """Dry is 19 % or less: the ratio lies in the shrinkage of softwoods to 19 and to 12 %.

    Shrinkage: Wood Handbook FPL-GTR-190 (2010), Table 4-3, through Eq. 4-9.
    """
    woods = [r for r in printed("shrinkage_domestic.csv") if r["kind"] == "softwood"]
    least = min(shrinkage_to(float(r["radial_pct"]), 19.0) for r in woods)
    most = max(shrinkage_to(float(r["tangential_pct"]), 12.0) for r in woods)
    wide = [r for r in SOFTWOODS if r["system"].endswith("width") and inches(r["nominal"]) >= 5]
    assert len(wide) == 17
    for row in wide:
        green, dry = float(row["dressed_green_in"]), float(row["dressed_in"])
        assert least < 100.0 * (green - dry) / green < most


@pytest.mark.parametrize("row", S2S, ids=lambda r: r["nominal"])
def test_nhla_surfaced_thickness(row):
    """3/16 in off rough up to 6/4, 1/4 in from 7/4; rough is the nominal thickness."""
    rough = float(row["rough_in"])
    assert rough == inches(row["nominal"])
    assert rough - float(row["dressed_in"]) == (0.1875 if rough <= 1.5 else 0.25)


@pytest.mark.parametrize(
    ("grade", "width_in", "length_ft", "twelfths"),
    [
        ("FAS", 6, 8, 10),
        ("Selects", 4, 6, 10),
        ("No. 1 Common", 3, 4, 8),
        ("No. 2A Common", 3, 4, 6),
        ("No. 3A Common", 3, 4, 4),
        ("No. 3B Common", 3, 4, 3),
    ],
)
def test_nhla_grades(grade, width_in, length_ft, twelfths):
    """Least board and least clear face of the NHLA grading rules, in twelfths of the face."""
    row = GRADES[grade]
    found = next(g for g in grades(Reference()) if g.name == grade)
    assert (float(row["min_width_in"]), float(row["min_length_ft"])) == (width_in, length_ft)
    assert found.min_width_mm == pytest.approx(width_in * 25.4)
    assert found.min_length_mm == pytest.approx(length_ft * 304.8)
    assert found.clear_face_pct == pytest.approx(100.0 * twelfths / 12.0, abs=5e-4)
    # A board that yields so much must be larger by its inverse: 12 twelfths over those.
    assert graded_waste(found.clear_face_pct) == pytest.approx(
        100.0 * (12.0 / twelfths - 1.0), abs=5e-3
    )
