"""Every picture by one import: each takes results of the library and returns a figure to save.

For example:

    from woodref.charts.charts import hardness_density, save
    from woodref import compare

    found = compare("cherry", "hard maple", properties=["density", "side_hardness"])
    save(hardness_density(found, units="si"), "woods.svg")
"""

from __future__ import annotations

from woodref.charts.dumbbell import dumbbells
from woodref.charts.figure import new_figure, png_bytes, save, style, svg_text
from woodref.charts.layout import layout
from woodref.charts.outline import (
    board_before_and_after,
    end_before_and_after,
    panel_before_and_after,
    round_before_and_after,
)
from woodref.charts.scatter import hardness_density
from woodref.charts.staves import staves_before_and_after
from woodref.charts.year import Allowance, Built, YearLine, seasonal_moisture, seasonal_width

__all__ = [
    "Allowance",
    "Built",
    "YearLine",
    "board_before_and_after",
    "dumbbells",
    "end_before_and_after",
    "hardness_density",
    "layout",
    "new_figure",
    "panel_before_and_after",
    "png_bytes",
    "round_before_and_after",
    "save",
    "seasonal_moisture",
    "seasonal_width",
    "staves_before_and_after",
    "style",
    "svg_text",
]
