"""Woods and lumber sizes written out here, so that tests need no dataset.

White oak, black walnut and sugar maple: Wood Handbook FPL-GTR-282 (2021), Tables 4-3 and 5-3
(shrinkage radial, tangential, volumetric in percent; basic specific gravity). Sizes: NHLA
standard thicknesses, rough and surfaced two sides.
"""

from woodref.errors import AmbiguousNameError, UnknownNameError
from woodref.lumber.rough import Allowances
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.piece.estimate import estimate
from woodref.piece.resolve import (
    ResolvedPiece,
    find_woods,
    sheet_waste_of_piece,
    waste_of_piece,
)
from woodref.reference.fiber_saturation import fiber_saturation_of
from woodref.reference.properties import PROPERTIES
from woodref.reference.trade import DressedSize
from woodref.reference.woods import Value, Wood

#: The usual allowances of practice: 1 in, 1/4 in, 1 in, 1/8 in and 3/16 in; the safe length 12 in.
ALLOWANCES = Allowances(25.4, 6.35, 25.4, 3.175, 4.7625, 304.8)
SHRINKAGE = ("shrinkage_radial", "shrinkage_tangential", "shrinkage_volumetric")


def value(property_id, number, basis="checked"):
    p = PROPERTIES[property_id]
    return Value(
        property_id,
        p.columns[0][0],
        number,
        p.si_unit,
        p.cv_pct / 100.0 * number,
        basis,
        "a test",
        str(number),
    )


def wood(name, figures, basis="checked"):
    values = [value(k, v, basis) for k, v in figures.items()]
    return Wood(
        name.replace(" ", "-"),
        name,
        "Arbor exempli",
        "",
        "hardwood",
        "",
        "",
        "partial",
        shrinkage_relation="united-states",
        fiber_saturation=fiber_saturation_of(None, "united-states"),
        values={(v.property_id, v.condition): v for v in values},
    )


def _full(name, radial, tangential, volumetric, basic, basis="checked"):
    figures = dict(zip(SHRINKAGE, (radial, tangential, volumetric), strict=True))
    return wood(name, {**figures, "basic_specific_gravity": basic}, basis)


WHITE_OAK = _full("white oak", 5.6, 10.5, 16.3, 0.60)
BLACK_WALNUT = _full("black walnut", 5.5, 7.8, 12.8, 0.51)
SUGAR_MAPLE = _full("sugar maple", 4.8, 9.9, 14.7, 0.56)
BARE = wood("bare wood", {})
UNCHECKED_WOOD = _full("recalled wood", 5.0, 8.0, 13.0, 0.5, "unchecked")
WOODS = {w.common_name: w for w in (WHITE_OAK, BLACK_WALNUT, SUGAR_MAPLE, BARE, UNCHECKED_WOOD)}

SIZES = tuple(
    DressedSize(f"{quarters}/4", quarters * 6.35, dressed * 25.4, basis, "NHLA")
    for quarters, dressed, basis in (
        (3, 0.5625, "checked"),
        (4, 0.8125, "checked_twice"),
        (5, 1.0625, "checked_twice"),
        (6, 1.3125, "checked"),
        (8, 1.75, "checked_twice"),
        (10, 2.25, "unchecked"),
        (12, 2.75, "checked"),
    )
)


def find(name):
    if name == "oak":
        raise AmbiguousNameError(name, ("white oak", "red oak"))
    if name not in WOODS:
        raise UnknownNameError(name, ("white oak",))
    return WOODS[name]


def ids_of(name):
    return frozenset(find(name).species_ids)


def estimated(piece, prices=None):
    """The estimate of a piece of these woods and sizes, as of one resolved in the dataset."""
    waste, sheet_waste = waste_of_piece(piece), sheet_waste_of_piece(piece)
    woods = find_woods(piece, find)
    return estimate(
        ResolvedPiece(
            piece, woods, ThicknessesSold.only(SIZES), ALLOWANCES, waste, sheet_waste, prices
        )
    )
