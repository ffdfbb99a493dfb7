"""woodref: wood properties for furniture makers, each number with its spread and its source.

    import woodref

    oak = woodref.wood("white oak")
    hardness = oak.value("side_hardness")         # Value: 6000 N, sd, basis, source
    woodref.movement(oak, 300, 6, 10).change_mm   # flat sawn, with its likely range
    woodref.find("rosewood").exact                # the woods sold under the name
    woodref.compare("hickory", "hard maple").row("side_hardness").contrasts
    woodref.rank("tabletop").woods[0].score       # the best wood for a use, and why

Everything is SI, moisture content in percent; woodref.PROPERTIES lists what is measured.
A name is imported when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from woodref.api import (
        buying_plan,
        compare,
        crate,
        deflection,
        density,
        find,
        fixing,
        lag,
        load,
        movement,
        panel,
        printed,
        rank,
        section,
        size_for,
        weight,
        wood,
    )
    from woodref.board.deflection import Span
    from woodref.board.movement import Stave
    from woodref.board.shapes import Shape
    from woodref.errors import (
        AmbiguousNameError,
        InputError,
        NoDataError,
        UnknownNameError,
        WoodrefError,
    )
    from woodref.formulas.moisture import (
        equilibrium_moisture_content,
        moisture_content,
        relative_humidity_for,
    )
    from woodref.lumber.buying import Yard
    from woodref.lumber.cut_list import CutPart
    from woodref.lumber.rough import Allowances
    from woodref.reference.library import Reference
    from woodref.reference.properties import PROPERTIES, Property
    from woodref.reference.woods import Value, Wood
    from woodref.shipping.crate import Packing
    from woodref.shipping.load import Item, WoodPart

__all__ = [
    "PROPERTIES",
    "Allowances",
    "AmbiguousNameError",
    "CutPart",
    "InputError",
    "Item",
    "NoDataError",
    "Packing",
    "Property",
    "Reference",
    "Shape",
    "Span",
    "Stave",
    "UnknownNameError",
    "Value",
    "Wood",
    "WoodPart",
    "WoodrefError",
    "Yard",
    "buying_plan",
    "compare",
    "crate",
    "deflection",
    "density",
    "equilibrium_moisture_content",
    "find",
    "fixing",
    "lag",
    "load",
    "moisture_content",
    "movement",
    "panel",
    "printed",
    "rank",
    "relative_humidity_for",
    "section",
    "size_for",
    "substitutes",
    "weight",
    "wood",
]

#: The module each public name lives in.
_HOMES = {
    **dict.fromkeys(
        (
            "buying_plan",
            "compare",
            "crate",
            "deflection",
            "density",
            "find",
            "load",
            "fixing",
            "lag",
            "movement",
            "panel",
            "section",
            "printed",
            "rank",
            "size_for",
            "substitutes",
            "weight",
            "wood",
        ),
        "api",
    ),
    **dict.fromkeys(
        ("AmbiguousNameError", "InputError", "NoDataError", "UnknownNameError", "WoodrefError"),
        "errors",
    ),
    **dict.fromkeys(
        ("equilibrium_moisture_content", "moisture_content", "relative_humidity_for"),
        "formulas.moisture",
    ),
    **dict.fromkeys(("PROPERTIES", "Property"), "reference.properties"),
    **dict.fromkeys(("Value", "Wood"), "reference.woods"),
    "Reference": "reference.library",
    "Span": "board.deflection",
    "Stave": "board.movement",
    "Packing": "shipping.crate",
    "Allowances": "lumber.rough",
    "CutPart": "lumber.cut_list",
    "Yard": "lumber.buying",
    "Shape": "board.shapes",
    **dict.fromkeys(("Item", "WoodPart"), "shipping.load"),
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'woodref' has no attribute '{name}'")
    return getattr(import_module(f"woodref.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *__all__])
