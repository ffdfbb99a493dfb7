"""The library in a few functions: names or woods in, figures with range and source out.

Everything is SI: mm, kg, kg/m3, N, MPa, degC, moisture content in percent. Errors are those
of woodref.errors, each a line that says what is wrong and the nearest valid choice.

    >>> import woodref
    >>> woodref.wood("sugar maple").value("side_hardness").value
    6400.0
    >>> round(woodref.movement("sugar maple", 965, 7, 11).after_mm, 1)
    978.8
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING

from woodref.board import deflection as bending
from woodref.board import movement as stability
from woodref.board.deflection import Deflection, Span
from woodref.board.movement import Movement, PanelMovement, Stave, ring_angle
from woodref.board.weight import BoardWeight, DensityEstimate, density_of, weight_of
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.printed import Printed, printed_figures
from woodref.reference.shipping import Divisor, shipping_facts
from woodref.reference.woods import Wood
from woodref.shipping import crate as packed
from woodref.shipping import load as laden
from woodref.shipping.crate import Crate, Packing
from woodref.shipping.load import Item, Load, WoodPart

if TYPE_CHECKING:
    from woodref.board.cross_section import CrossSection
    from woodref.choose.compare import Comparison
    from woodref.choose.rank import Ranking
    from woodref.choose.substitute import Substitutes
    from woodref.drying.lag import LagStep
    from woodref.joinery.clearance import Fixing
    from woodref.lumber.buying import BuyingPlan, Yard
    from woodref.lumber.cut_list import CutPart
    from woodref.lumber.rough import Allowances
    from woodref.reference.search import Found


@cache
def _reference() -> Reference:
    """The packaged dataset, opened once per process, at the first look-up."""
    return Reference()


def wood(name: str) -> Wood:
    """The wood, or trade group, that goes by a name.

    Parameters: name common name in either word order, botanical name, synonym, trade group or
    trade name; case, hyphens, accents and plurals do not matter.
    Returns: Wood, whose ``value(property_id)`` gives a Value with unit, spread, basis and source.
    Raises: UnknownNameError with the nearest names; AmbiguousNameError with the candidates.
    """
    return _reference().wood(name)


def _wood(name: Wood | str) -> Wood:
    return name if isinstance(name, Wood) else wood(name)


def find(name: str) -> Found:
    """The woods a name can mean, those whose names hold it, and the nearest names.

    Parameters: name, a part of one, or a misspelt one.
    Returns: Found, empty where nothing comes near.
    """
    from woodref.reference import search

    return search.find(_reference(), name)


def printed(name: Wood | str) -> tuple[Printed, ...]:
    """Every printed figure of a wood, or of the members of a group: used, not used, in doubt.

    Raises: as wood.
    """
    return printed_figures(_reference(), _wood(name).species_ids)


def compare(*names: Wood | str, properties: Iterable[str] | None = None) -> Comparison:
    """Woods side by side: ratios, and whether single boards show the difference.

    Parameters: names two woods or more, the first set against each other one; properties the
    rows wanted, keys of PROPERTIES or of woodref.choose.compare.COMPUTED, by default the usual.
    Returns: Comparison of SI figures, for a board of 25 x 150 x 2400 mm.
    Raises: InputError for fewer than two woods or an unknown property; as wood.
    """
    from woodref.choose import compare as side_by_side
    from woodref.choose.glance import USUAL_BOARDS
    from woodref.errors import InputError
    from woodref.reference.properties import PROPERTIES

    if len(names) < 2:
        raise InputError("compare takes two woods or more")
    wanted = None if properties is None else list(properties)
    for key in wanted or ():
        if key not in PROPERTIES and key not in side_by_side.COMPUTED:
            raise InputError(f"no property is called '{key}'; woodref.PROPERTIES lists them")
    return side_by_side.compare([_wood(n) for n in names], USUAL_BOARDS["si"], wanted)


def movement(
    name: Wood | str,
    size_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    cut: str | float = "flat",
    boards: int = 1,
) -> Movement:
    """Size of a board after its moisture content changed, with the likely range.

    Parameters: name of the wood; size_mm width across the face at ``from_moisture_pct`` [mm];
    from_moisture_pct, to_moisture_pct [%], 0 to 30; cut 'flat', 'rift', 'quarter' or the ring
    angle [degree]; boards number of equal boards side by side.
    Returns: Movement; sizes [mm], ``basis`` the printed figures with their sources.
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.movement.movement.
    """
    angle = ring_angle(cut)
    return stability.movement(
        _wood(name), size_mm, from_moisture_pct, to_moisture_pct, angle, boards
    )


def size_for(
    name: Wood | str,
    wanted_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    cut: str | float = "flat",
) -> Movement:
    """The inverse of movement: ``size_mm`` to cut now for ``wanted_mm`` later.

    Parameters, errors and source: as movement.
    """
    angle = ring_angle(cut)
    return stability.size_for(_wood(name), wanted_mm, from_moisture_pct, to_moisture_pct, angle)


def density(name: Wood | str, moisture_pct: float = 12.0) -> DensityEstimate:
    """Density of a wood with its water [kg/m3], with the likely range of single boards.

    Parameters: name; moisture_pct [%].
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.weight.density_of.
    """
    return density_of(_wood(name), moisture_pct)


def weight(
    name: Wood | str,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    moisture_pct: float = 8.0,
    quantity: int = 1,
) -> BoardWeight:
    """Mass of boards of one size [kg], each and together, with the likely ranges.

    Parameters: name; length_mm, width_mm, thickness_mm at ``moisture_pct`` [mm]; moisture_pct
    [%]; quantity of boards.
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.weight.weight_of.
    """
    return weight_of(_wood(name), length_mm, width_mm, thickness_mm, moisture_pct, quantity)


def rank(
    use: str,
    where: str = "",
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 20,
) -> Ranking:
    """Woods ranked for a use, best first, each with what makes its score.

    Parameters: use 'tabletop', 'outdoor bench' or the path of a profile, a TOML file; where a
    condition in SQL over the columns of woodref.choose.columns.COLUMNS; driest_pct, wettest_pct
    of the year, for movement [%]; limit on the woods returned.
    Returns: Ranking; ``woods`` the first of those that pass, ``missing`` those that lack a figure.
    Raises: InputError; NoDataError where no wood passes, with the nearest miss.
    Source: see woodref.choose.rank.rank, which takes prices and other woods to compare with too.
    """
    from woodref.choose import rank as ranking
    from woodref.choose.profile import load_profile
    from woodref.choose.situation import Situation

    situation = Situation(driest_pct, wettest_pct)
    return ranking.rank(_reference(), load_profile(use), situation, where=where, limit=limit)


def substitutes(
    name: Wood | str,
    use: str,
    driest_pct: float = 6.0,
    wettest_pct: float = 10.0,
    limit: int = 8,
) -> Substitutes:
    """The woods that come closest to one for a use, in work and in look, nearest first.

    Parameters: name of the wood to be replaced; use 'tabletop' or the path of a profile;
    driest_pct, wettest_pct of the year, for movement [%]; limit on the woods returned.
    Returns: Substitutes; ``woods`` of other trade groups, ``own_group`` of its own, ``left``
    those of which too little is known.
    Raises: InputError; NoDataError where too little is known or nothing passes; as wood.
    Source: see woodref.choose.substitute.substitutes, which takes prices and hurdles too.
    """
    from woodref.choose import substitute
    from woodref.choose.profile import load_profile
    from woodref.choose.situation import Situation

    situation = Situation(driest_pct, wettest_pct)
    profile = load_profile(use)
    return substitute.substitutes(_reference(), _wood(name), profile, situation, limit=limit)


def deflection(name: Wood | str, span: Span, moisture_pct: float = 8.0) -> Deflection:
    """The sag of a shelf, rail or top [mm], now and after years; never a structural value.

    Parameters: name; span, a woodref.Span of sizes [mm], support and loads [N/m, N];
    moisture_pct in use [%].
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.deflection.deflection.
    """
    return bending.deflection(_wood(name), span, moisture_pct)


def load(
    parts: Sequence[WoodPart],
    items: Sequence[Item] = (),
    build_pct: float = 8.0,
    settled_pct: float = 8.0,
) -> Load:
    """What a piece weighs shipped and settled [kg], by part, in all and by lift, with ranges.

    Parameters: parts, woodref.WoodPart of a Wood and a woodref.Shape; items, woodref.Item of
    what keeps its weight; build_pct and settled_pct moisture contents [%].
    Raises: InputError, NoDataError.
    Source: see woodref.shipping.load.load.
    """
    return laden.load(parts, items, build_pct, settled_pct)


def crate(
    size_mm: tuple[float, float, float],
    mass_kg: Range | float,
    packing: Packing,
    divisors: Sequence[Divisor] = (),
) -> Crate:
    """The crate or carton around a piece: size, gross weight, freight class, who can lift it.

    Parameters: size_mm length, depth and height of the piece [mm]; mass_kg what it weighs, such
    as ``load(...).shipped_kg``; packing, a woodref.Packing; divisors of dimensional weight, by
    default the usual ones.
    Raises: InputError.
    Source: see woodref.shipping.crate.crate.
    """
    weight_kg = mass_kg if isinstance(mass_kg, Range) else Range(mass_kg, mass_kg, mass_kg)
    return packed.crate(size_mm, weight_kg, packing, shipping_facts(_reference()), divisors)


def buying_plan(
    parts: Sequence[CutPart],
    boards: Sequence[str] = (),
    yard: Yard | None = None,
    prices: str | Path | None = None,
    grade: str = "",
    allowances: Allowances | None = None,
    seconds: float = 10.0,
    units: str = "si",
) -> BuyingPlan:
    """Cut parts from boards in hand; what to buy for the rest, and its cost.

    Parameters: parts, woodref.CutPart of finished sizes [mm]; boards in hand as a yard writes
    them, '4/4 x 6 x 8ft x 2 cherry' or in 'si' '27 x 160 x 2400 x 2 beech'; yard, a
    woodref.Yard of the sizes to buy, without which only an amount is told; prices, the file of
    a price list; grade to buy; allowances, by default those of common practice; seconds for the
    search at most; units of bare numbers and of messages.
    Returns: BuyingPlan with ``lots``, ``uncut``, ``purchases`` and ``cost``.
    Raises: InputError; as wood.
    Source: see woodref.lumber.buying.buying_plan and woodref.cutting.pack.pack.
    """
    from woodref.lumber.buying import buying_plan as plan
    from woodref.lumber.prices import read_prices
    from woodref.lumber.rough import usual
    from woodref.lumber.tally import parse_board
    from woodref.piece.estimate import resolver
    from woodref.reference.trade import dressed_thicknesses

    practice = usual(_reference())
    low, high = practice.waste.low, practice.waste.high
    hand = [parse_board(text, units) for text in boards]
    return plan(
        parts,
        {p.species: wood(p.species) for p in parts},
        dressed_thicknesses(_reference()),
        allowances or practice.allowances,
        Range((low + high) / 2.0, low, high),
        [(wood(board.species), board) for board in hand],
        yard,
        read_prices(Path(prices), resolver(_reference())) if prices else None,
        grade,
        seconds,
        units=units,
    )


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
    """What a fixing needs so that the wood can move, and whether given sizes let it.

    Parameters: name of the wood that moves; kind 'round-hole', 'slotted-hole', 'button',
    'breadboard', 'floating-panel', 'drawer-bottom', 'drawer-front' or 'glued'; build_pct,
    driest_pct, wettest_pct [%], 0 to 30; width_mm of the part across the grain, or distance_mm
    from the held line [mm]; fixed 'center', 'edge' or a length from an edge; at_mm of the
    fixing from that edge [mm]; cut; staves the part is glued of; units 'us' or 'si' of the bits
    and steps sizes are rounded up to; sizes_mm what is there or planned, as the fields of
    woodref.joinery.fixing_types.Sizes: screw, peg, hole, slot, washer, recess, gap, groove,
    tongue, engage, spare [mm].
    Returns: Fixing, with ``travel``, ``needs``, ``checks`` and ``verdict``.
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.joinery.clearance.fixing_of.
    """
    from woodref.errors import InputError
    from woodref.files import did_you_mean
    from woodref.joinery.clearance import fixing_of
    from woodref.joinery.fixing_types import SIZE_KEYS, Sizes, fixing_spec, known_kind
    from woodref.joinery.travel import MoistureRange

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
    return fixing_of(spec, _wood(name), MoistureRange(build_pct, driest_pct, wettest_pct))


def panel(
    name: Wood | str,
    staves: Sequence[Stave],
    from_moisture_pct: float,
    to_moisture_pct: float,
    thickness_mm: float | None = None,
) -> PanelMovement:
    """The width of a glued-up panel after its moisture content changed: it is its staves.

    Parameters: name of the wood; staves, woodref.Stave of a width at ``from_moisture_pct`` [mm]
    and a ring angle [degree], 0 flat; from_moisture_pct, to_moisture_pct [%], 0 to 30;
    thickness_mm as built, for its change and the steps at the joints [mm].
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.movement.panel_movement.
    """
    built = () if thickness_mm is None else (thickness_mm,) * len(staves)
    return stability.panel_movement(_wood(name), staves, from_moisture_pct, to_moisture_pct, built)


def section(
    name: Wood | str,
    width_mm: float,
    thickness_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    pith_distance_mm: float = inf,
    side: str = "below",
    offset_mm: float = 0.0,
) -> CrossSection:
    """The end of a board cut anywhere in the log, after its moisture content changed.

    Parameters: name of the wood; width_mm, thickness_mm at ``from_moisture_pct`` [mm];
    from_moisture_pct, to_moisture_pct [%], 0 to 30; pith_distance_mm from the face of ``side``
    ('below', 'above', 'left', 'right') to the pith [mm], straight rings where nothing is said;
    offset_mm of the pith off the middle line, to the right or up [mm].
    Returns: Section, with ``faces``, ``cupped``, ``outline`` [mm].
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.board.cross_section.board_section.
    """
    from woodref.board.cross_section import board_section
    from woodref.board.outline import pith_beside

    pith = pith_beside(side, pith_distance_mm, offset_mm, width_mm, thickness_mm)
    return board_section(
        _wood(name), width_mm, thickness_mm, pith, from_moisture_pct, to_moisture_pct
    )


def lag(
    name: Wood | str,
    thickness_mm: float,
    from_moisture_pct: float,
    to_moisture_pct: float,
    days: Sequence[float],
    finish: str = "bare",
    coats: int | None = None,
) -> LagStep:
    """How much of its movement a board has made, some days after the air changed for good.

    Parameters: name of the wood; thickness_mm [mm]; from_moisture_pct of the board,
    to_moisture_pct it comes to in the new air [%], 0 to 30; days, rising; finish of the table
    (woodref finishes), coats by default those nearest to two that were tested.
    Returns: LagStep, shares of the whole change, with their spread.
    Raises: InputError, NoDataError; as wood.
    Source: see woodref.drying.lag.lag_step.
    """
    from woodref.drying.lag import board_of, finish_on, lag_step
    from woodref.reference.finishes import coats_of, finish_of, finish_rows

    rows = finish_rows(_reference())
    tested = coats_of(rows, finish_of(rows, finish)) or (0,)
    chosen = finish_on(
        rows, finish, min(tested, key=lambda c: abs(c - 2)) if coats is None else coats
    )
    board = board_of(_wood(name), thickness_mm)
    return lag_step(board, [chosen], from_moisture_pct, to_moisture_pct, days)[0]
