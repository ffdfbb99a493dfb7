"""Joints that let wood move, and what holds them."""

from __future__ import annotations

from woodref.api.shared import reference, wood_of
from woodref.board.movement import ring_angle
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.joinery.clearance import Fixing, fixing_of
from woodref.joinery.fastener import named
from woodref.joinery.fixing_types import SIZE_KEYS, Sizes, fixing_spec, known_kind
from woodref.joinery.holding import Holding, holding
from woodref.joinery.joint_types import joint_spec, known_joint
from woodref.joinery.joints import Joint, joint_of
from woodref.joinery.travel import MoistureRange
from woodref.reference.fasteners import fastener_tables
from woodref.reference.woods import Wood


def fixing(
    name: Wood | str,
    kind: str,
    build_pct: float,
    driest_pct: float,
    wettest_pct: float,
    *,
    width_mm: float | None = None,
    distance_mm: float | None = None,
    fixed: str = "",
    at_mm: float | None = None,
    cut: str | float = "flat",
    staves: int = 1,
    units: str = "si",
    **sizes_mm: float,
) -> Fixing:
    """Compute what a fixing needs so that the wood can move, and whether given sizes let it.

    Parameters
    ----------
    name : Wood or str
        The wood that moves.
    kind : str
        'round-hole', 'slotted-hole', 'button', 'breadboard', 'floating-panel',
        'drawer-bottom', 'drawer-front' or 'glued'.
    build_pct, driest_pct, wettest_pct : float
        Moisture contents when it is fitted and in the driest and wettest of its life [%],
        0 to 30.
    width_mm : float, optional
        Width of the part across the grain [mm].
    distance_mm : float, optional
        In place of the width, the distance from where the part is fastened for good [mm].
    fixed : str, optional
        Where the part is fastened for good: 'center', 'edge' or a length from an edge.
    at_mm : float, optional
        Of the fixing from that edge [mm].
    cut : str or float, optional
        As for :func:`woodref.movement`.
    staves : int, optional
        Boards the part is glued of.
    units : str, optional
        'us' or 'si', the bits and steps that sizes are rounded up to.
    **sizes_mm : float
        What is there or planned, as the fields of ``woodref.joinery.fixing_types.Sizes``:
        screw, peg, hole, slot, washer, recess, gap, groove, tongue, engage, spare [mm].

    Returns
    -------
    Fixing
        ``travel``, ``needs``, ``checks`` and ``verdict``.

    Raises
    ------
    InputError
        For an unknown kind or size, and as :func:`woodref.movement`.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.
    """
    for key in sizes_mm:
        if key not in SIZE_KEYS:
            raise InputError(f"no size of a fixing is called '{key}'{did_you_mean(key, SIZE_KEYS)}")
    spec = fixing_spec(
        known_kind(kind),
        width_mm=width_mm,
        distance_mm=distance_mm,
        fixed=fixed,
        at_mm=at_mm,
        sizes=Sizes(**sizes_mm),
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        units=units,
    )
    return fixing_of(spec, wood_of(name), MoistureRange(build_pct, driest_pct, wettest_pct))


def gluing(
    name: Wood | str,
    length_mm: float,
    build_pct: float,
    driest_pct: float,
    wettest_pct: float,
    *,
    cut: str | float = "flat",
    staves: int = 1,
    units: str = "si",
) -> Fixing:
    """Judge if a batten or a joint across the grain may be glued over a length.

    Parameters
    ----------
    name : Wood or str
        The wood that is held fast: the grain of what holds it lies the other way.
    length_mm : float
        Length of the joint across the grain of that wood [mm].
    build_pct, driest_pct, wettest_pct : float
        Moisture contents when it is glued and in the driest and wettest of its life [%],
        0 to 30.
    cut : str or float, optional
        As for :func:`woodref.movement`.
    staves : int, optional
        Boards the part is glued of.
    units : str, optional
        'us' or 'si', the steps that sizes are rounded to.

    Returns
    -------
    Fixing
        ``checks`` and ``verdict``.

    Raises
    ------
    InputError, NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.fixing`.
    """
    return fixing(
        name,
        "glued",
        build_pct,
        driest_pct,
        wettest_pct,
        distance_mm=length_mm,
        cut=cut,
        staves=staves,
        units=units,
    )


def joint(
    name: Wood | str,
    kind: str,
    width_mm: float,
    build_pct: float,
    driest_pct: float,
    wettest_pct: float,
    *,
    fixed: str = "",
    core: Wood | str | None = None,
    core_cut: str | float = "flat",
    cut: str | float = "flat",
    staves: int = 1,
    other: Wood | str | None = None,
    other_width_mm: float | None = None,
    other_cut: str | float | None = None,
    corner_deg: float | None = None,
    units: str = "si",
) -> Joint:
    """Compute how the parts of a joint move against each other, and the room to leave.

    Parameters
    ----------
    name : Wood or str
        The wood that moves.
    kind : str
        'miter', 'tenon', 'dowel', 'veneer' (an edge strip on a panel) or 'breadboard'.
    width_mm : float
        Across the grain of what moves: of the mitered member, of the rail, between the outer
        dowels, of the panel at a breadboard end; of an edge strip the thickness of its panel [mm].
    build_pct, driest_pct, wettest_pct : float
        Moisture contents when it is fitted and in the driest and wettest of its life [%],
        0 to 30.
    fixed : str, optional
        Where it is glued or held: 'center', 'edge' or a length from an edge; by default a tenon
        at an edge, dowels and breadboard ends in the center.
    core : Wood or str, optional
        Wood of a solid core under an edge strip; without one the core keeps its thickness.
    core_cut : str or float, optional
        Cut of that core, as for :func:`woodref.movement`.
    cut : str or float, optional
        As for :func:`woodref.movement`.
    staves : int, optional
        Boards the width is glued of.
    other : Wood or str, optional
        Wood of the second member of a miter; without one that of the first, as its width and cut.
    other_width_mm : float, optional
        Width of the second member [mm].
    other_cut : str or float, optional
        Cut of the second member.
    corner_deg : float, optional
        Angle between the members of a miter [degree], 20 to 170; 90 without one.
    units : str, optional
        'us' or 'si', the steps that sizes are rounded up to.

    Returns
    -------
    Joint
        ``states`` when fitted, at the driest and at the wettest, each with its ``offset`` [mm]
        and the ``way`` it goes; ``needs``, the sizes to make.

    Raises
    ------
    InputError
        For an unknown kind, a size that cannot be, and as :func:`woodref.movement`.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.movement`.

    Notes
    -----
    Movement as :func:`woodref.movement`; what follows from it is plane geometry, the rules of the
    kinds are common practice, no source. Racking, tipping and strength are not covered.
    """
    spec = joint_spec(
        known_joint(kind),
        width_mm,
        fixed=fixed,
        ring_angle_deg=ring_angle(cut),
        staves=staves,
        core=None if core is None else wood_of(core),
        core_ring_angle_deg=90.0 - ring_angle(core_cut),
        other=None if other is None else wood_of(other),
        other_width_mm=other_width_mm,
        other_ring_angle_deg=None if other_cut is None else ring_angle(other_cut),
        corner_deg=corner_deg,
        units=units,
    )
    return joint_of(spec, wood_of(name), MoistureRange(build_pct, driest_pct, wettest_pct))


def fastener(
    name: Wood | str,
    *,
    screw: str = "",
    nail: str = "",
    lag: str = "",
    into_mm: float | None = None,
    through_mm: float | None = None,
    end_grain: bool = False,
) -> Holding:
    """Compute what a screw, nail or lag screw holds, its pilot hole and its distances.

    Parameters
    ----------
    name : Wood or str
        The wood that holds the point.
    screw, nail, lag : str, optional
        One of the three: a screw by its gauge or shank ('#8', '4 mm'), a nail by its pennyweight
        ('8d', '8d box', '8d ring') or shank, a lag screw by its shank; a bare shank is in mm.
    into_mm : float, optional
        How deep the thread, or the nail, is in that wood [mm]; of a nail of known length what the
        piece it goes through leaves of it.
    through_mm : float, optional
        Thickness of the piece it goes through first [mm].
    end_grain : bool, optional
        Whether it is driven along the grain.

    Returns
    -------
    Holding
        ``withdrawal`` and ``sideways`` [N], holes and distances [mm].

    Raises
    ------
    InputError
        For none or several of the three, and for a size that cannot be.
    NoDataError, UnknownNameError, AmbiguousNameError
        As :func:`woodref.density`.

    Notes
    -----
    Averages of tests of clear wood, Wood Handbook FPL-GTR-282 (2021), chapter 8; never a
    structural value.
    """
    tables = fastener_tables(reference())
    driven = named(screw, nail, lag, tables.sizes, "mm")
    return holding(wood_of(name), driven, tables, into_mm, through_mm, end_grain)
