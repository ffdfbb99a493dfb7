"""Board measure: how lumber is tallied and sold, in inches, feet and board feet.

Source: NHLA Rules for the Measurement and Inspection of Hardwood and Cypress; Wood Handbook
chapter 6.
"""

from __future__ import annotations

from woodref.formulas.declaration import formula
from woodref.formulas.engine import Q, floor, larger

#: Volume of a board foot, 144 cubic inches [m3].
BOARD_FOOT_M3 = 0.002359737216
#: Rounding slack, so that 3048 mm counts as 10 whole feet.
_SLACK = 1e-9


@formula(
    "thickness (at least 1 in) x width [in] x length [ft] / 12",
    ("thickness (at least 1 in)", "width [in]", "length [ft]"),
    "the grading rules (unchecked)",
    **{"thickness (at least 1 in)": lambda thickness, _width, _length: larger(thickness, 1.0)},
)
def board_feet(thickness_in: Q, width_in: Q, length_ft: Q) -> Q:
    """Board feet of a board of any size, without rounding.

    Lumber under 4/4 is counted as 4/4.

    Parameters: thickness_in [in] and width_in [in], rough for hardwood and nominal for
    softwood; length_ft [ft].
    Returns: board feet.
    Source: Wood Handbook chapter 6; NHLA rules (the count of under 1 in as 1 in unchecked).
    """
    return larger(thickness_in, 1.0) * width_in * length_ft / 12.0


def surface_measure(width_in: Q, length_ft: Q) -> Q:
    """Surface measure of a board in whole square feet.

    Width in inches times length in whole feet, over 12, to the nearest whole square foot.
    A part of a foot in length is dropped and an exact half is rounded up (both common
    practice, no source; graders may count halves up and down in turn).

    Parameters: width_in [in]; length_ft [ft].
    Returns: surface measure [ft2], a whole number.
    Source: NHLA Rules, surface measure.
    """
    return floor(width_in * floor(length_ft + _SLACK) / 12.0 + 0.5 + _SLACK)


def board_feet_of_surface(surface_measure_ft2: Q, thickness_in: Q) -> Q:
    """Board feet from surface measure, as a pile of hardwood is tallied; not rounded.

    Parameters: surface_measure_ft2 [ft2]; thickness_in rough thickness [in].
    Returns: board feet; under 4/4 counted as 4/4.
    Source: NHLA Rules (the count of under 1 in as 1 in unchecked).
    """
    return surface_measure_ft2 * larger(thickness_in, 1.0)


def board_feet_of_volume(volume_m3: Q) -> Q:
    """Board feet of a volume: 144 cubic inches each, no rule for thin stock.

    Parameters: volume_m3 [m3]. Returns: board feet.
    Source: definition, Wood Handbook chapter 6; PS 20; NHLA rules.
    """
    return volume_m3 / BOARD_FOOT_M3


def volume_of_board_feet(board_feet: Q) -> Q:
    """Volume of a number of board feet: board_feet_of_volume turned round.

    Parameters: board_feet. Returns: volume [m3].
    Source: definition, Wood Handbook chapter 6; PS 20; NHLA rules.
    """
    return board_feet * BOARD_FOOT_M3
