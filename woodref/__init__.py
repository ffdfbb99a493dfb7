"""Wood properties for furniture makers, each number with its spread and its source.

    import woodref

    oak = woodref.wood("white oak")
    hardness = oak.value("side_hardness")         # Value: 6000 N, sd, basis, source
    woodref.movement(oak, 300, 6, 10).change_mm   # flat sawn, with its likely range
    woodref.find("rosewood").exact                # the woods sold under the name
    woodref.compare("hickory", "hard maple").row("side_hardness").contrasts
    woodref.rank("tabletop").woods[0].score       # the best wood for a use, and why
    woodref.table("species")                      # a table of the dataset, as a frame

Everything is SI: mm, kg, kg/m3, N, MPa, degC, moisture content in percent. woodref.PROPERTIES
lists what is measured. Errors are those of woodref.errors, each a line that says what is wrong
and the nearest valid choice. A name is imported when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from woodref.api.air import emc, humidity_for, moisture
    from woodref.api.batch import Batch, batch, coefficients
    from woodref.api.beams import deflection
    from woodref.api.boards import density, movement, panel, section, size_for, weight
    from woodref.api.choosing import rank, substitute, uses
    from woodref.api.data import sources, sql, table, tables, words
    from woodref.api.drying import acclimate, delivery, finishes, lag, lag_year
    from woodref.api.joints import fastener, fixing, gluing, joint
    from woodref.api.lumber import buy, tally
    from woodref.api.own import own_add, own_figures, own_remove, own_weigh
    from woodref.api.pieces import crate, estimate, load, page, replace_woods, template
    from woodref.api.rooms import own_season, place, season, through_year
    from woodref.api.woods import (
        cautions,
        compare,
        find,
        find_by_look,
        look,
        printed,
        ratings,
        stability,
        wood,
    )
    from woodref.board.panel import Stave
    from woodref.board.shapes import Shape
    from woodref.board.span import Span
    from woodref.errors import (
        AmbiguousNameError,
        InputError,
        NoDataError,
        RegionalNameError,
        UnknownNameError,
        WoodrefError,
    )
    from woodref.lumber.cut_list import CutPart
    from woodref.lumber.rough import Allowances
    from woodref.lumber.yard import Yard
    from woodref.reference.library import Reference
    from woodref.reference.properties import PROPERTIES, Property
    from woodref.reference.woods import Value, Wood
    from woodref.shipping.crate import Packing
    from woodref.shipping.load import Item, WoodPart

    __version__: str
    data_version: str

__all__ = [
    "PROPERTIES",
    "Allowances",
    "AmbiguousNameError",
    "Batch",
    "CutPart",
    "InputError",
    "Item",
    "NoDataError",
    "Packing",
    "Property",
    "Reference",
    "RegionalNameError",
    "Shape",
    "Span",
    "Stave",
    "UnknownNameError",
    "Value",
    "Wood",
    "WoodPart",
    "WoodrefError",
    "Yard",
    "acclimate",
    "batch",
    "buy",
    "cautions",
    "coefficients",
    "compare",
    "crate",
    "data_version",
    "deflection",
    "delivery",
    "density",
    "emc",
    "estimate",
    "fastener",
    "find",
    "find_by_look",
    "finishes",
    "fixing",
    "gluing",
    "humidity_for",
    "joint",
    "lag",
    "lag_year",
    "load",
    "look",
    "moisture",
    "movement",
    "own_add",
    "own_figures",
    "own_remove",
    "own_season",
    "own_weigh",
    "page",
    "panel",
    "place",
    "printed",
    "rank",
    "ratings",
    "replace_woods",
    "season",
    "section",
    "size_for",
    "sources",
    "sql",
    "stability",
    "substitute",
    "table",
    "tables",
    "tally",
    "template",
    "through_year",
    "uses",
    "weight",
    "wood",
    "words",
]

#: The public names of each module.
_NAMES = {
    "api.air": ("emc", "humidity_for", "moisture"),
    "api.batch": ("Batch", "batch", "coefficients"),
    "api.beams": ("deflection",),
    "api.boards": ("density", "movement", "panel", "section", "size_for", "weight"),
    "api.choosing": ("rank", "substitute", "uses"),
    "api.data": ("sources", "sql", "table", "tables", "words"),
    "api.drying": ("acclimate", "delivery", "finishes", "lag", "lag_year"),
    "api.joints": ("fastener", "fixing", "gluing", "joint"),
    "api.lumber": ("buy", "tally"),
    "api.own": ("own_add", "own_figures", "own_remove", "own_weigh"),
    "api.pieces": ("crate", "estimate", "load", "page", "replace_woods", "template"),
    "api.rooms": ("own_season", "place", "season", "through_year"),
    "api.woods": (
        "cautions",
        "compare",
        "find",
        "find_by_look",
        "look",
        "printed",
        "ratings",
        "stability",
        "wood",
    ),
    "board.panel": ("Stave",),
    "board.shapes": ("Shape",),
    "board.span": ("Span",),
    "errors": (
        "AmbiguousNameError",
        "InputError",
        "NoDataError",
        "RegionalNameError",
        "UnknownNameError",
        "WoodrefError",
    ),
    "lumber.cut_list": ("CutPart",),
    "lumber.rough": ("Allowances",),
    "lumber.yard": ("Yard",),
    "reference.library": ("Reference",),
    "reference.properties": ("PROPERTIES", "Property"),
    "reference.woods": ("Value", "Wood"),
    "shipping.crate": ("Packing",),
    "shipping.load": ("Item", "WoodPart"),
}
_HOMES = {name: module for module, names in _NAMES.items() for name in names}


if not TYPE_CHECKING:  # a checker of types knows the names above, and only those

    def __getattr__(name: str) -> object:
        if name in _HOMES:
            return getattr(import_module(f"woodref.{_HOMES[name]}"), name)
        if name == "__version__":
            from importlib.metadata import version

            return version("woodref")
        if name == "data_version":
            from woodref.reference.fields import DATASET_VERSION

            return DATASET_VERSION
        raise AttributeError(f"module 'woodref' has no attribute '{name}'")


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__, "__version__"})
