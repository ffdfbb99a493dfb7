"""A registry of a few woods, and the sum of cells, shared by the tests of the readers."""

from __future__ import annotations

from dataclasses import dataclass, field

import pandas as pd

_WOODS = {
    # species_id: (common name, botanical name, kind, trade group, origin)
    "quercus-alba": ("white oak", "Quercus alba", "hardwood", "", "eastern North America"),
    "quercus-rubra": ("red oak", "Quercus rubra", "hardwood", "", "eastern North America"),
    "quercus-robur": ("European oak", "Quercus robur", "hardwood", "", "Europe"),
    "sequoia-old-growth": ("old-growth redwood", "Sequoia sempervirens", "softwood", "", "X"),
    "sequoia-young-growth": ("young-growth redwood", "Sequoia sempervirens", "softwood", "", "X"),
    "shorea-spp-balau": ("balau", "Shorea spp.", "hardwood", "balau group", "Southeast Asia"),
    "shorea-spp-light": ("light red meranti", "Shorea spp.", "hardwood", "", "Southeast Asia"),
    "khaya-spp": ("African mahogany", "Khaya spp.", "hardwood", "", "tropical Africa"),
    "thuja-plicata": ("western redcedar", "Thuja plicata", "softwood", "", "California"),
    "celtis-occidentalis": ("hackberry", "Celtis occidentalis", "hardwood", "", "United States"),
    "celtis-laevigata": ("sugarberry", "Celtis laevigata", "hardwood", "", "United States"),
    "taxus-chinensis": ("yew", "Taxus chinensis var. mairei", "softwood", "", "China"),
}


@dataclass
class SmallRegistry:
    """A registry with the same questions as the real one."""

    woods: dict[str, dict[str, str]] = field(
        default_factory=lambda: {
            wood: dict(
                zip(
                    ("common_name", "botanical_name", "kind", "trade_group", "origin"),
                    row,
                    strict=True,
                )
            )
            for wood, row in _WOODS.items()
        }
    )
    groups: dict[str, list[str]] = field(default_factory=lambda: {"red oak": ["quercus-rubra"]})

    def woods_for(self, botanical: str, name: str = "", kind: str = "") -> list[str]:
        """Exact botanical names and whole genera."""
        genus, _, rest = botanical.partition(" ")
        return [
            wood
            for wood, row in self.woods.items()
            if row["botanical_name"] == botanical
            or (rest == "spp." and row["botanical_name"].split()[0] == genus)
        ]


def lost_cells(
    raw: pd.DataFrame, columns: list[str], arrived: pd.DataFrame, rejected: pd.DataFrame
) -> set[tuple[int, str]]:
    """(line, column) of printed cells that are neither in a table nor rejected."""
    file = raw["source_table"].iloc[0]
    printed = {(r["source_line"], c) for r in raw.to_dict("records") for c in columns if r[c] != ""}
    mine = rejected[rejected["source_table"] == file]
    found = set(zip(mine["source_line"], mine["source_column"], strict=True))
    here = arrived[arrived["source_table"] == file]
    if "source_column" in here:
        found |= set(zip(here["source_line"], here["source_column"], strict=True))
    else:
        found |= {(line, c) for line in here["source_line"] for c in columns}
    return printed - found
