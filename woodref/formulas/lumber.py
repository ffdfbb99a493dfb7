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
    """Compute the board feet of a board of any size, without rounding.

    Parameters
    ----------
    thickness_in, width_in : Q
        Thickness and width [in], rough for hardwood and nominal for softwood.
    length_ft : Q
        Length [ft].

    Returns
    -------
    Q
        Board feet [144 cubic inches].

    Notes
    -----
    Lumber under 4/4 is counted as 4/4 (NHLA rules, unchecked) [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, chapter 6; NHLA, Rules for the Measurement
       and Inspection of Hardwood and Cypress.
    """
    return larger(thickness_in, 1.0) * width_in * length_ft / 12.0


def surface_measure(width_in: Q, length_ft: Q) -> Q:
    """Compute the surface measure of a board in whole square feet.

    Parameters
    ----------
    width_in : Q
        Width [in].
    length_ft : Q
        Length [ft].

    Returns
    -------
    Q
        Surface measure [ft2], a whole number.

    Notes
    -----
    Width in inches times length in whole feet, over 12, to the nearest whole square foot [1]_. A
    part of a foot in length is dropped and an exact half is rounded up (both common practice, no
    source; graders may count halves up and down in turn).

    References
    ----------
    .. [1] NHLA, Rules for the Measurement and Inspection of Hardwood and Cypress, surface measure.
    """
    return floor(width_in * floor(length_ft + _SLACK) / 12.0 + 0.5 + _SLACK)


def board_feet_of_surface(surface_measure_ft2: Q, thickness_in: Q) -> Q:
    """Compute board feet from surface measure, as a pile of hardwood is tallied.

    Parameters
    ----------
    surface_measure_ft2 : Q
        Surface measure [ft2].
    thickness_in : Q
        Rough thickness [in].

    Returns
    -------
    Q
        Board feet [144 cubic inches], not rounded; under 4/4 counted as 4/4.

    Notes
    -----
    Surface measure times thickness [1]_; the count of under 1 in as 1 in is unchecked.

    References
    ----------
    .. [1] NHLA, Rules for the Measurement and Inspection of Hardwood and Cypress.
    """
    return surface_measure_ft2 * larger(thickness_in, 1.0)


def board_feet_of_volume(volume_m3: Q) -> Q:
    """Compute the board feet of a volume, without a rule for thin stock.

    Parameters
    ----------
    volume_m3 : Q
        Volume [m3].

    Returns
    -------
    Q
        Board feet [144 cubic inches].

    Notes
    -----
    The definition: Wood Handbook, chapter 6; PS 20; NHLA rules.
    """
    return volume_m3 / BOARD_FOOT_M3


def volume_of_board_feet(board_feet: Q) -> Q:
    """Compute the volume of a number of board feet.

    Parameters
    ----------
    board_feet : Q
        Board feet [144 cubic inches].

    Returns
    -------
    Q
        Volume [m3].

    Notes
    -----
    The definition: Wood Handbook, chapter 6; PS 20; NHLA rules.
    """
    return board_feet * BOARD_FOOT_M3
