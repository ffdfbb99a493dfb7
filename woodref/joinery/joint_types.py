"""The kinds of joints whose parts move against each other, and what a person says of one."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.files import did_you_mean
from woodref.joinery.fixing_rules import BREADBOARD_GLUE, GLUED_LIMIT_MM
from woodref.joinery.fixing_types import FIXINGS, fixed_line
from woodref.joinery.miter import SQUARE_DEG, OtherMember, checked_corner
from woodref.note import Note
from woodref.quantity import check_glued
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.woods import Wood
from woodref.units import sizes_told

_WIDEST_MM = 5_000.0


class JointKind(StrEnum):
    """The joints whose movement is told."""

    MITER = "miter"
    TENON = "tenon"
    DOWEL = "dowel"
    VENEER = "veneer"
    BREADBOARD = "breadboard"


class Way(StrEnum):
    """How the parts stand to each other, beside how they were fitted."""

    STILL = "as fitted"
    OPEN_INSIDE = "open inside"
    OPEN_OUTSIDE = "open outside"
    WIDER = "wider"
    NARROWER = "narrower"
    FARTHER = "farther"
    NEARER = "nearer"
    PROUD = "proud"
    BELOW = "below"
    END_OUT = "end stands out"
    PANEL_OUT = "panel stands out"


class JointType(NamedTuple):
    """One kind: how it stands above and below zero, what the trade does, where it is fixed.

    ``fixed_share`` of the width, from the edge: 0.5 the middle, 0 that edge itself, None where
    nothing is fixed; ``fixed_where`` the same in words. ``practices`` are topic and words of rules
    of practice that hold numbers.
    """

    above: Way
    below: Way
    rules: tuple[Note, ...]
    fixed_share: float | None = None
    fixed_where: str = ""
    practices: tuple[tuple[str, str], ...] = ()


def _rule(code: str, text: str) -> Note:
    return Note(code, f"{text} (common practice, no source)", COMMON_PRACTICE)


JOINTS: dict[JointKind, JointType] = {
    JointKind.MITER: JointType(
        Way.OPEN_INSIDE,
        Way.OPEN_OUTSIDE,
        (
            Note(
                "miter-square",
                "the corner is held at its angle, square where none is given; the second member "
                "is like this one in what is not given; what glue, spline or keys hold back is "
                "left as strain in the corner",
            ),
            _rule(
                "miter-narrow",
                "miter narrow members, let a spline or keys hold the corner, and choose the "
                "quartered stock; a wide member goes with a cope, or with a mortise and tenon",
            ),
        ),
    ),
    JointKind.TENON: JointType(
        Way.WIDER,
        Way.NARROWER,
        (
            Note(
                "tenon-stile",
                "the stile does not change along its grain, and the rail across its own does",
            ),
            _rule(
                "tenon-haunch",
                "glue the part of a wide tenon whose edge must stay flush; divide the rest or let "
                "it run as a haunch, dry, with a peg in a long hole of the tenon",
            ),
        ),
        0.0,
        "the tenon is glued at one edge",
    ),
    JointKind.DOWEL: JointType(
        Way.FARTHER,
        Way.NEARER,
        (
            Note("dowel-mate", "the part it is joined to does not change along its own grain"),
            _rule(
                "dowel-middle",
                "fix the middle dowel or screw; the outer ones stand dry in holes that are long "
                "along the movement",
            ),
        ),
        0.5,
        "the dowel or screw in the middle is the fixed one",
        FIXINGS["slotted-hole"].rules,
    ),
    JointKind.VENEER: JointType(
        Way.PROUD,
        Way.BELOW,
        (
            _rule(
                "veneer-balanced",
                "veneer both faces alike, in wood, thickness, grain and glue: one face alone "
                "bows the panel",
            ),
            _rule(
                "strip-rested",
                "let the strip rest in air like that of its room before it is planed flush; veneer "
                "that runs over the strip shows its line",
            ),
        ),
    ),
    JointKind.BREADBOARD: JointType(
        Way.END_OUT,
        Way.PANEL_OUT,
        (
            BREADBOARD_GLUE,
            _rule(
                "breadboard-flush",
                "cut the end flush at the middle of the seasons, or leave it proud where it must "
                "never show short",
            ),
        ),
        0.5,
        "the end is fixed in the middle of the panel",
    ),
}
#: A core whose thickness no figure is given for.
_STEADY_CORE = Note(
    "core-steady",
    "the core is taken to keep its thickness; plywood and fiberboard swell across theirs too, by "
    "what no table here says: for a core of solid wood give --core",
)


@record
class JointSpec:
    """A joint as it is asked about.

    ``width_mm`` across the grain of what moves: of the frame member, of the rail, between the
    outer dowels, of the panel at a breadboard end; of an edge strip the thickness of its panel.
    ``distance_mm`` from what is fixed to the point that goes farthest; ``staves`` the width is
    glued of.
    ``glued_mm`` of a tenon that may be glued, None of the other kinds. ``core`` of solid wood
    under an edge strip, None for one that keeps its thickness; ``other`` member of a mitered
    corner, None of the other kinds.
    """

    kind: JointKind
    width_mm: float
    distance_mm: float
    ring_angle_deg: float = 0.0
    staves: int = 1
    units: str = "us"
    glued_mm: float | None = None
    core: Wood | None = None
    core_ring_angle_deg: float = 0.0
    assumed: tuple[Note, ...] = ()
    other: OtherMember | None = None

    @property
    def boards(self) -> int:
        """Boards glued side by side over the distance."""
        return max(1, int(self.staves * self.distance_mm / self.width_mm + 1e-9))

    @property
    def loose_mm(self) -> float:
        """Width of a tenon that is left dry [mm], 0 of the other kinds."""
        return 0.0 if self.glued_mm is None else self.width_mm - self.glued_mm


def known_joint(text: str) -> JointKind:
    """A kind of joint by its name.

    Raises: InputError with the nearest one.
    """
    name = text.strip().lower()
    if name not in {*JointKind}:
        raise InputError(f"'{text}' is not a kind of joint{did_you_mean(name, [*JointKind])}")
    return JointKind(name)


def _line(kind: JointKind, width_mm: float, fixed: str, units: str) -> float:
    """Where the joint is fixed, from an edge [mm]; 0 where the kind has no such place.

    Raises: InputError.
    """
    share = JOINTS[kind].fixed_share
    if share is None:
        if fixed:
            raise InputError(f"--fixed does not go with the kind {kind}")
        return 0.0
    if not fixed:
        return share * width_mm
    line = fixed_line(fixed, "in" if units == "us" else "mm")
    line = 0.5 * width_mm if line is None else line
    if not 0.0 <= line <= width_mm:
        raise UnitsError(
            sizes_told(
                "the place where it is fixed, {} from the edge, lies outside the width of {}",
                line,
                width_mm,
            )
        )
    return line


def joint_spec(
    kind: JointKind,
    width_mm: float,
    *,
    fixed: str = "",
    ring_angle_deg: float = 0.0,
    staves: int = 1,
    core: Wood | None = None,
    core_ring_angle_deg: float = 0.0,
    other: Wood | None = None,
    other_width_mm: float | None = None,
    other_ring_angle_deg: float | None = None,
    corner_deg: float | None = None,
    units: str = "us",
) -> JointSpec:
    """A joint from what a person says.

    Parameters: kind; width_mm as JointSpec [mm]; fixed 'center', 'edge' or a length from an edge,
    '' for what the kind does: a tenon is glued at an edge, dowels and breadboard ends are fixed in
    the middle; ring_angle_deg of the width to the rings [degree]; staves the width is glued of;
    core wood of a solid core under an edge strip, and its ring angle across the panel's thickness;
    other wood, width [mm] and ring angle [degree] of the second member of a miter, each that of the
    first where None, and corner_deg between the two [degree], square where None;
    units 'us' or 'si', of the sizes to make.
    Raises: InputError, one line.
    """
    if not 0.0 < width_mm <= _WIDEST_MM:
        raise UnitsError(sizes_told("width: {} is not above 0 and up to {}", width_mm, _WIDEST_MM))
    check_glued(staves)
    if core is not None and kind is not JointKind.VENEER:
        raise InputError(f"--core does not go with the kind {kind}; it goes with veneer")
    unlike = (other, other_width_mm, other_ring_angle_deg, corner_deg)
    if kind is not JointKind.MITER and any(given is not None for given in unlike):
        raise InputError(f"another member and a corner go with miter, not with the kind {kind}")
    line = _line(kind, width_mm, fixed, units)
    glued = None
    if kind is JointKind.TENON:
        glued = min(width_mm, GLUED_LIMIT_MM[units])
        # What is glued holds still about its own middle.
        line = min(max(line, glued / 2.0), width_mm - glued / 2.0)
    distance = max(line, width_mm - line)
    assumed = []
    if kind is JointKind.VENEER and core is None:
        assumed.append(_STEADY_CORE)
    if JOINTS[kind].fixed_where and not fixed and (glued is None or glued < width_mm):
        assumed.append(Note("assumed-fixed-line", JOINTS[kind].fixed_where))
    return JointSpec(
        kind,
        width_mm,
        distance,
        ring_angle_deg,
        staves,
        units,
        glued,
        core,
        core_ring_angle_deg,
        tuple(assumed),
        _other_member(width_mm, ring_angle_deg, unlike) if kind is JointKind.MITER else None,
    )


def _other_member(
    width_mm: float,
    ring_angle_deg: float,
    given: tuple[Wood | None, float | None, float | None, float | None],
) -> OtherMember:
    """The second member of a miter, like the first in what is not given."""
    wood, width, angle, corner = given
    if width is not None and not 0.0 < width <= _WIDEST_MM:
        raise UnitsError(sizes_told("width: {} is not above 0 and up to {}", width, _WIDEST_MM))
    member = OtherMember(
        width_mm if width is None else width,
        wood,
        ring_angle_deg if angle is None else angle,
        SQUARE_DEG if corner is None else corner,
    )
    return checked_corner(width_mm, member)
