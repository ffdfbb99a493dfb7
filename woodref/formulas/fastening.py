"""What nails, screws and lag screws hold in wood: average loads of tests, no design values.

Every load is that of clear, sound wood in a test of minutes. Source: Wood Handbook,
FPL-GTR-282 (2021), chapter 8; constants for mm and N.
"""

from __future__ import annotations

from woodref.formulas.declaration import HANDBOOK, formula
from woodref.formulas.engine import Q

#: Root diameter of a wood screw over that of its shank, about (p. 8-10).
ROOT_SHARE = 2.0 / 3.0
#: Slip of a nail at the lateral load of print (p. 8-6) [mm].
NAIL_SLIP_MM = 0.38
#: Share of the average maximum load for a load that stays, printed of nails (p. 8-6).
LONG_TIME_SHARE = 1.0 / 6.0


@formula("54.12 G^2.5 D L", ("G", "D", "L"), HANDBOOK, "8-1")
def nail_withdrawal(specific_gravity: Q, diameter_mm: Q, penetration_mm: Q) -> Q:
    """Compute the average maximum load that pulls a common wire nail out of side grain.

    Parameters
    ----------
    specific_gravity : Q
        G, ovendry mass over volume at 12 % moisture content [1], 0.29 to 0.74 tested.
    diameter_mm : Q
        Shank D [mm].
    penetration_mm : Q
        Depth L in the wood that holds the point [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    Average of tests of clear, seasoned wood [1]_; no allowable load. After changes of moisture
    content it may fall to a quarter.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-1, p. 8-2.
    """
    return 54.12 * specific_gravity**2.5 * diameter_mm * penetration_mm


@formula("77.57 G2 D L", ("G", "D", "L"), HANDBOOK, "8-2")
def annular_nail_withdrawal(ovendry_specific_gravity: Q, diameter_mm: Q, penetration_mm: Q) -> Q:
    """Compute the average maximum load that pulls an annularly threaded nail out of side grain.

    Parameters
    ----------
    ovendry_specific_gravity : Q
        G, ovendry mass over ovendry volume [1].
    diameter_mm : Q
        Shank D [mm].
    penetration_mm : Q
        Depth L of the thread in the wood that holds the point [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    Average of tests [1]_; no allowable load. The edition of 2010 prints 73.11.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-2, p. 8-4.
    """
    return 77.57 * ovendry_specific_gravity**2 * diameter_mm * penetration_mm


@formula("108.25 G2 D L", ("G", "D", "L"), HANDBOOK, "8-10")
def screw_withdrawal(specific_gravity: Q, diameter_mm: Q, penetration_mm: Q) -> Q:
    """Compute the average maximum load that pulls a wood screw out of side grain.

    Parameters
    ----------
    specific_gravity : Q
        G, ovendry mass over volume at 12 % moisture content [1].
    diameter_mm : Q
        Shank D [mm].
    penetration_mm : Q
        Depth L of the thread in the wood that holds the point [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    Average of tests that last 5 to 10 minutes [1]_, the pilot hole about 70 % of the root
    in softwoods and 90 % in hardwoods; no allowable load.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-10, p. 8-10.
    """
    return 108.25 * specific_gravity**2 * diameter_mm * penetration_mm


@formula("125.4 G^1.5 D^0.75 L", ("G", "D", "L"), HANDBOOK, "8-14")
def lag_withdrawal(specific_gravity: Q, diameter_mm: Q, penetration_mm: Q) -> Q:
    """Compute the average maximum load that pulls a lag screw out of side grain.

    Parameters
    ----------
    specific_gravity : Q
        G, ovendry mass over volume at 12 % moisture content [1].
    diameter_mm : Q
        Shank D [mm].
    penetration_mm : Q
        Depth L of the thread in the wood that holds the point [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    Average of tests [1]_; no allowable load.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-14, p. 8-12.
    """
    return 125.4 * specific_gravity**1.5 * diameter_mm**0.75 * penetration_mm


@formula("K D^1.5", ("K", "D"), HANDBOOK, "8-2")
def nail_lateral(coefficient: Q, diameter_mm: Q) -> Q:
    """Compute the load across a nail in side grain at a slip of 0.38 mm.

    Parameters
    ----------
    coefficient : Q
        K of Table 8-4, by the specific gravity of the wood [N/mm1.5].
    diameter_mm : Q
        Shank D [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    For a nail 10 D deep in dense wood, 14 D in light wood [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-2 (of lateral
       loads) and Table 8-4, p. 8-6.
    """
    return coefficient * diameter_mm**1.5


@formula("K D2", ("K", "D"), HANDBOOK, "8-13")
def screw_lateral(coefficient: Q, diameter_mm: Q) -> Q:
    """Compute the load across a wood screw in side grain at its proportional limit.

    Parameters
    ----------
    coefficient : Q
        K of Table 8-4, by the specific gravity of the wood [N/mm2].
    diameter_mm : Q
        Shank D [mm].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    At a slip of 0.18 to 0.25 mm, for a screw 7 D deep [1]_; the load that breaks it is about
    4 times as high.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 8-13 and Table
       8-4, p. 8-6, 8-11.
    """
    return coefficient * diameter_mm**2


@formula("K D2 f", ("K", "D", "f"), "FPL-GTR-190 (2010)", "8-15")
def lag_lateral(coefficient: Q, diameter_mm: Q, factor: Q) -> Q:
    """Compute the load across a lag screw in side grain at its proportional limit.

    Parameters
    ----------
    coefficient : Q
        K of Table 8-4, by the specific gravity of the wood [N/mm2].
    diameter_mm : Q
        Shank D [mm].
    factor : Q
        That of the thickness of the side member, Table 8-10, for a load along the grain [1]; times
        that of the shank, Table 8-11, for a load across it.

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    The factor along the grain is 1 where the side member is 3.5 shanks thick [1]_; with a metal
    plate in its place 25 % more.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 8-15, Tables 8-4,
       8-10 and 8-11, p. 8-13.
    """
    return coefficient * diameter_mm**2 * factor


@formula("2 / 3 D p / 100", ("D", "p"), HANDBOOK)
def screw_pilot_hole(shank_mm: Q, root_share_pct: Q) -> Q:
    """Compute the pilot hole of the thread of a wood screw.

    Parameters
    ----------
    shank_mm : Q
        Shank D [mm].
    root_share_pct : Q
        Hole over root diameter p [%]: about 70 in softwoods, 90 in hardwoods.

    Returns
    -------
    Q
        Diameter of the hole [mm].

    Notes
    -----
    The root of a wood screw is about two-thirds of its shank [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), p. 8-10, 8-11.
    """
    return ROOT_SHARE * shank_mm * root_share_pct / 100.0


@formula("F / 6", ("F",), HANDBOOK)
def long_time_load(average_maximum_n: Q) -> Q:
    """Compute the share of the average maximum load for a load that stays.

    Parameters
    ----------
    average_maximum_n : Q
        Average maximum load F of tests [N].

    Returns
    -------
    Q
        Load [N].

    Notes
    -----
    One sixth, printed of nails [1]_; for screws and lag screws our extension. No design value.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), p. 8-6.
    """
    return average_maximum_n * LONG_TIME_SHARE
