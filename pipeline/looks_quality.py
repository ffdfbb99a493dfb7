"""The part of QUALITY.md on how woods look, are used and are stocked."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from pipeline.markdown import table as markdown_table
from woodref.reference.bases import BASES
from woodref.reference.look_words import (
    LOOK_CELLS,
    REGIONS,
    STOCK_CLASSES,
    basis_column,
)


def looks_quality(frames: Mapping[str, pd.DataFrame]) -> list[str]:
    """Lines on the cells of looks and the uses by basis, and on what is stocked where.

    Parameters: frames by table name: looks, uses_of_woods, stock.
    """
    looked, uses, stock = frames["looks"], frames["uses_of_woods"], frames["stock"]
    counts = {
        **{cell: looked[basis_column(cell)].value_counts() for cell in LOOK_CELLS},
        "uses_of_woods": uses["basis"].value_counts(),
    }
    bases = [b for b in BASES if any(b in count for count in counts.values())]
    by_region = stock.groupby(["region", "class"]).size()
    return [
        "## Look, working, uses and stock",
        "",
        f"{len(looked)} woods. Cells of `looks` and rows of `uses_of_woods` by how they are known.",
        "",
        *markdown_table(
            ("what", *bases, "all"),
            [
                (name, *(int(count.get(b, 0)) for b in bases), int(count.sum()))
                for name, count in counts.items()
            ],
        ),
        "Woods by how yards stock them: common practice, no source.",
        "",
        *markdown_table(
            ("region", *STOCK_CLASSES),
            [(r, *(int(by_region.get((r, c), 0)) for c in STOCK_CLASSES)) for r in REGIONS],
        ),
    ]
