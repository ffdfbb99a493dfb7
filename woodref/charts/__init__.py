"""Every picture by one import: each takes results of the library and gives a figure to save.

    import woodref
    from woodref import charts

    woods = woodref.compare("cherry", "hard maple", properties=["density", "side_hardness"])
    charts.save(charts.hardness_density(woods, units="si"), "woods.svg")

A picture is imported when it is first used; this is the only room that draws.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from woodref.charts.after_delivery import delivered
    from woodref.charts.beside_first import best_beside
    from woodref.charts.board_layout import buying_layout, layout
    from woodref.charts.dumbbell import dumbbells
    from woodref.charts.figure import new_figure, png_bytes, save, style, svg_text
    from woodref.charts.fixing_room import fixing_year
    from woodref.charts.lagging import lag_through_year
    from woodref.charts.look_work import look_against_work
    from woodref.charts.notebook import picture
    from woodref.charts.offset_year import joint_year
    from woodref.charts.outline import (
        board_before_and_after,
        end_before_and_after,
        panel_before_and_after,
        round_before_and_after,
    )
    from woodref.charts.ranking import rank_bars
    from woodref.charts.room_year import board_year
    from woodref.charts.sag import sagged
    from woodref.charts.scatter import hardness_density
    from woodref.charts.staves import panel_year, staves_before_and_after
    from woodref.charts.weights import weight_by_part
    from woodref.charts.width_year import CutThroughYear, usual_year
    from woodref.charts.year import Level, YearLine, seasonal_moisture, seasonal_width

__all__ = [
    "CutThroughYear",
    "Level",
    "YearLine",
    "best_beside",
    "board_before_and_after",
    "board_year",
    "buying_layout",
    "delivered",
    "dumbbells",
    "end_before_and_after",
    "fixing_year",
    "hardness_density",
    "joint_year",
    "lag_through_year",
    "layout",
    "look_against_work",
    "new_figure",
    "panel_before_and_after",
    "panel_year",
    "picture",
    "png_bytes",
    "rank_bars",
    "round_before_and_after",
    "sagged",
    "save",
    "seasonal_moisture",
    "seasonal_width",
    "staves_before_and_after",
    "style",
    "svg_text",
    "usual_year",
    "weight_by_part",
]

#: The public names of each module.
_NAMES = {
    "after_delivery": ("delivered",),
    "beside_first": ("best_beside",),
    "board_layout": ("buying_layout", "layout"),
    "dumbbell": ("dumbbells",),
    "figure": ("new_figure", "png_bytes", "save", "style", "svg_text"),
    "fixing_room": ("fixing_year",),
    "lagging": ("lag_through_year",),
    "look_work": ("look_against_work",),
    "notebook": ("picture",),
    "offset_year": ("joint_year",),
    "outline": (
        "board_before_and_after",
        "end_before_and_after",
        "panel_before_and_after",
        "round_before_and_after",
    ),
    "ranking": ("rank_bars",),
    "room_year": ("board_year",),
    "sag": ("sagged",),
    "scatter": ("hardness_density",),
    "staves": ("panel_year", "staves_before_and_after"),
    "width_year": ("CutThroughYear", "usual_year"),
    "weights": ("weight_by_part",),
    "year": ("Level", "YearLine", "seasonal_moisture", "seasonal_width"),
}
_HOMES = {name: module for module, names in _NAMES.items() for name in names}


if not TYPE_CHECKING:  # a checker of types knows the names above, and only those

    def __getattr__(name: str) -> object:
        if name not in _HOMES:
            raise AttributeError(f"module 'woodref.charts' has no attribute '{name}'")
        return getattr(import_module(f"woodref.charts.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
