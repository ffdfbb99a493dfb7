"""The kinds of fixings that let wood move, and what a person says of one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.files import did_you_mean
from woodref.note import Note
from woodref.quantity import check_glued
from woodref.record import record
from woodref.units import MM_PER_INCH, sizes_told
from woodref.written import parse_length

#: Tongue that stays in its groove at the driest: 1/8 in (common practice, no source) [mm].
USUAL_ENGAGEMENT_MM = MM_PER_INCH / 8.0
_WIDEST_MM = 5_000.0
_LARGEST_SIZE_MM = 500.0


class FixingType(NamedTuple):
    """One kind: its words, the sizes it takes, and where its part is fixed where not said.

    ``fixed_share`` of the width, from the edge: 0.5 the middle, 0 that edge itself;
    ``fixed_where`` the same in words. ``rules`` are topic and words of what the trade does;
    ``bites`` True where its screw bites into the part that moves; ``slot_moves`` True where a
    slot lies in that part, and its screw or peg holds still.
    """

    words: str
    sizes: tuple[str, ...]
    fixed_share: float
    fixed_where: str
    rules: tuple[tuple[str, str], ...] = ()
    bites: bool = False
    slot_moves: bool = False

    @property
    def anywhere(self) -> bool:
        """True where the fixing may stand anywhere on the width, and not at its edge alone."""
        return bool({"screw", "peg", "tongue"} & {*self.sizes}) and self.fixed_share > 0.0


_MIDDLE = "in the middle of the width"
FIXINGS: dict[str, FixingType] = {
    "round-hole": FixingType(
        "a screw in a round hole, under a washer",
        ("screw", "hole", "washer", "recess"),
        0.5,
        _MIDDLE,
        (("fastening", "oversize of clearance hole beyond screw shank, fixed batten"),),
        bites=True,
    ),
    "slotted-hole": FixingType(
        "a screw in a slot along the movement",
        ("screw", "slot"),
        0.5,
        _MIDDLE,
        (("fastening", "slot length beyond screw shank, moving end of a batten or cleat"),),
        bites=True,
    ),
    "button": FixingType(
        "a button or clip in a groove of the apron",
        ("gap", "tongue", "groove", "engage", "spare"),
        0.5,
        _MIDDLE,
        (("fastening", "tabletop button gap from apron"),),
    ),
    "breadboard": FixingType(
        "a breadboard end, glued and pegged in the middle alone",
        ("peg", "slot"),
        0.5,
        _MIDDLE,
        slot_moves=True,
    ),
    "floating-panel": FixingType(
        "a panel that floats in the grooves of its frame",
        ("gap", "groove", "engage", "spare"),
        0.5,
        _MIDDLE,
        (
            ("panels", "gap each side for a solid panel in a groove"),
            ("panels", "groove depth for frame and panel"),
        ),
    ),
    "drawer-bottom": FixingType(
        "a drawer bottom held at the front, screwed in a slot at the back",
        ("screw", "slot", "gap", "spare"),
        0.0,
        "at the front edge",
        slot_moves=True,
    ),
    "drawer-front": FixingType(
        "the gap above a drawer front in its opening",
        ("gap", "spare"),
        0.0,
        "at the bottom edge, on which the drawer runs",
        (("fastening", "drawer side clearance, solid wood, total height"),),
    ),
    "glued": FixingType("a joint glued across the grain", (), 0.0, ""),
}


class FixingError(UnitsError):
    """A mistake in what is said of a fixing; ``key`` is the size or word it lies in."""

    def __init__(self, key: str, problem: str | Callable[[str], str]) -> None:
        self.key = key
        super().__init__(problem if callable(problem) else lambda _: problem)


@record
class Sizes:
    """What the shop has or plans [mm], None where not given; named as the keys of a file.

    ``screw`` and ``peg`` diameters of the shank; ``hole`` its diameter, ``slot`` its length;
    ``gap`` left at the build; ``groove`` depth; ``tongue`` of a button, from its shoulder;
    ``engage`` least tongue left in the groove; ``spare`` gap still there at the wettest.
    """

    screw: float | None = None
    peg: float | None = None
    hole: float | None = None
    slot: float | None = None
    washer: float | None = None
    recess: float | None = None
    gap: float | None = None
    groove: float | None = None
    tongue: float | None = None
    engage: float | None = None
    spare: float | None = None

    @property
    def shank(self) -> float | None:
        """Diameter of the screw or the peg."""
        return self.peg if self.screw is None else self.screw

    def given(self) -> dict[str, float]:
        """The sizes that were given, by their keys."""
        sizes = {key: getattr(self, key) for key in SIZE_KEYS}
        return {key: size for key, size in sizes.items() if size is not None}


SIZE_KEYS = tuple(f.name for f in fields(Sizes))


@record
class FixingSpec:
    """A fixing as it is asked about.

    ``distance_mm`` across the grain from where it is fixed, ``boards`` glued over it;
    ``edge_mm`` distance of the farther edge of the part from where it is fixed, None where the
    width is not known; ``assumed`` what was taken for want of a word.
    """

    kind: str
    distance_mm: float
    sizes: Sizes = Sizes()
    ring_angle_deg: float = 0.0
    boards: int = 1
    units: str = "us"
    edge_mm: float | None = None
    name: str = ""
    part: str = ""
    note: str = ""
    assumed: tuple[Note, ...] = ()

    @property
    def words(self) -> str:
        """The kind in words."""
        return FIXINGS[self.kind].words

    @property
    def bites(self) -> bool:
        """True where its screw bites into the part that moves, and not into another."""
        return FIXINGS[self.kind].bites


def known_kind(text: str) -> str:
    """A kind by its name, with hyphens or spaces.

    Raises: FixingError with the nearest one.
    """
    kind = "-".join(text.lower().split())
    if kind not in FIXINGS:
        raise FixingError("kind", f"'{text}' is not a kind of fixing{did_you_mean(kind, FIXINGS)}")
    return kind


def fixed_line(text: str, default_unit: str) -> float | None:
    """The fixed line from an edge [mm]: 'edge' is 0, 'center' None, or a length.

    Raises: FixingError for anything else.
    """
    word = text.strip().lower()
    if word in ("center", "middle"):
        return None
    if word == "edge":
        return 0.0
    try:
        return parse_length(text, default_unit)
    except InputError:
        raise FixingError(
            "fixed",
            f"'{text}' does not say where the part is fixed; write center, edge, or its distance "
            "from an edge",
        ) from None


def checked_sizes(kind: str, sizes: Sizes) -> Sizes:
    """The sizes, where they belong to the kind and can exist together.

    Raises: FixingError naming the size.
    """
    taken = FIXINGS[kind].sizes
    for key, size in sizes.given().items():
        if key not in taken:
            takes = f"it takes {', '.join(taken)}" if taken else "it takes none"
            raise FixingError(key, f"{key} does not go with the kind {kind}; {takes}")
        least = 0.0 if key in ("gap", "engage", "spare") else 1e-3
        if not least <= size <= _LARGEST_SIZE_MM:
            raise FixingError(
                key, sizes_told(f"{key}: {{}} is outside 0 to {{}}", size, _LARGEST_SIZE_MM)
            )
    for small, large, why in (
        ("screw", "hole", "the screw does not go through its hole"),
        ("screw", "slot", "the screw does not go through its slot"),
        ("peg", "slot", "the peg does not go through its slot"),
        ("screw", "washer", "the washer does not go over its screw"),
        ("hole", "washer", "the washer falls through its hole"),
        ("washer", "recess", "the washer does not go into its recess"),
        ("gap", "groove", "the tongue does not reach its groove"),
        ("gap", "tongue", "the tongue does not reach its groove"),
    ):
        a, b = getattr(sizes, small), getattr(sizes, large)
        if a is not None and b is not None and a > b:
            raise FixingError(
                large, sizes_told(f"{why}: {large} {{}} is less than {small} {{}}", b, a)
            )
    return sizes


class _Placed(NamedTuple):
    """Where a fixing stands: from where it is fixed, that as a share of the width; the far edge."""

    distance_mm: float
    share: float
    edge_mm: float | None = None
    assumed: tuple[Note, ...] = ()


def _by_distance(width_mm: float | None, distance_mm: float) -> _Placed:
    if width_mm is not None and distance_mm > width_mm + 1e-6:
        raise FixingError(
            "distance",
            sizes_told(
                "{} from where it is fixed lies outside the part, which is {} wide",
                distance_mm,
                width_mm,
            ),
        )
    return _Placed(distance_mm, distance_mm / width_mm if width_mm else 1.0)


def _by_width(kind: str, width_mm: float, fixed: str, at_mm: float | None, unit: str) -> _Placed:
    known = FIXINGS[kind]
    if at_mm is not None and not known.anywhere:
        raise FixingError(
            "at", f"at does not go with the kind {kind}: what counts is the edge of the part"
        )
    assumed = []
    if known.fixed_where and not fixed:
        assumed.append(Note("assumed-fixed-line", f"the part is held {known.fixed_where}"))
    share = 0.5 if fixed else known.fixed_share
    line = fixed_line(fixed, unit) if fixed else None
    line = width_mm * share if line is None else line
    for key, word, place in (("fixed", "place where it is fixed", line), ("at", "fixing", at_mm)):
        if place is not None and not 0.0 <= place <= width_mm + 1e-6:
            raise FixingError(
                key,
                sizes_told(
                    f"the {word} stands {{}} from the edge, outside the part, which is {{}} wide",
                    place,
                    width_mm,
                ),
            )
    edge = max(line, width_mm - line)
    distance = edge if at_mm is None else abs(at_mm - line)
    if at_mm is None and known.anywhere:
        text = "the fixing stands at the very edge, where it travels most"
        assumed.append(Note("assumed-at-edge", text))
    return _Placed(distance, distance / width_mm, edge, tuple(assumed))


def fixing_spec(
    kind: str,
    *,
    width_mm: float | None = None,
    distance_mm: float | None = None,
    fixed: str = "",
    at_mm: float | None = None,
    sizes: Sizes = Sizes(),
    ring_angle_deg: float = 0.0,
    staves: int = 1,
    units: str = "us",
    name: str = "",
    part: str = "",
    note: str = "",
) -> FixingSpec:
    """A fixing from what a person says: a distance, or the part's width and two places on it.

    Parameters: kind of FIXINGS; width_mm of the part across the grain [mm]; distance_mm from
    the fixed line [mm], in place of fixed line and place; fixed 'center', 'edge' or a length
    from an edge; at_mm of the fixing from that edge, else the farther edge [mm]; sizes;
    ring_angle_deg; staves the part is glued of; units 'us' or 'si', of the sizes to make.
    Raises: FixingError, one line, with the key it lies in.
    """
    checked_sizes(kind, sizes)
    try:
        check_glued(staves)
    except InputError as error:
        raise FixingError("staves", error.told) from None
    for key, size in (("width", width_mm), ("distance", distance_mm)):
        if size is not None and not 0.0 < size <= _WIDEST_MM:
            raise FixingError(
                key, sizes_told(f"{key}: {{}} is not above 0 and up to {{}}", size, _WIDEST_MM)
            )
    if distance_mm is not None:
        if fixed or at_mm is not None:
            raise FixingError(
                "distance",
                "give either the distance, or where it is fixed and where the fixing stands",
            )
        placed = _by_distance(width_mm, distance_mm)
    elif width_mm is not None:
        placed = _by_width(kind, width_mm, fixed, at_mm, "in" if units == "us" else "mm")
    else:
        raise FixingError(
            "width", "give the width of the part, or the distance from where it is fixed"
        )
    if placed.distance_mm <= 0.0:
        raise FixingError(
            "at", "where the part is fixed nothing moves: such a fixing needs no room"
        )
    return FixingSpec(
        kind=kind,
        distance_mm=placed.distance_mm,
        sizes=sizes,
        ring_angle_deg=ring_angle_deg,
        boards=max(1, int(staves * placed.share + 1e-9)),
        units=units,
        edge_mm=placed.edge_mm,
        name=name,
        part=part,
        note=note,
        assumed=placed.assumed,
    )
