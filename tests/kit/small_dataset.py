"""A dataset of three woods, typed as the real one, for tests of the last steps."""

from __future__ import annotations

from pathlib import Path

import pandas as pd

from pipeline.publish import ordered
from pipeline.schemas import shaped
from woodref.reference.fields import TABLES

_PLACE = {"source_table": "some.csv", "basis": "checked", "source_id": "handbook"}


def _measurement(wood: str, line: int, value: float, preferred: bool, doubt: str = "") -> dict:
    return {
        **_PLACE,
        "measurement_id": f"some.csv:{line}:radial",
        "species_id": wood,
        "property_id": "shrinkage_radial",
        "condition": "range",
        "value": value,
        "printed_value": f"{value:g}",
        "printed_unit": "%",
        "preferred": preferred,
        "preference": "only value" if preferred else "other preferred",
        "plausibility_flag": doubt,
        "source_line": line,
        "source_column": "radial",
    }


def small_frames() -> dict[str, pd.DataFrame]:
    """Three woods, four measurements, a disagreement, a rejected cell and a publication."""
    raw = {
        "species": [
            {
                "species_id": w,
                "common_name": w,
                "botanical_name": w,
                "data_coverage": t,
                "shrinkage_relation": "other",
            }
            for w, t in (("ash", "partial"), ("beech", "partial"), ("cedar", "no data"))
        ],
        "measurements": [
            _measurement("beech", 4, 5.5, True),
            _measurement("ash", 2, 4.9, True),
            _measurement("ash", 3, 9.9, False, "radial above tangential"),
        ],
        "sources": [
            {
                "source_id": "handbook",
                "title": "A handbook",
                "short": "Handbook (1999)",
                "year": year,
                "license": "public domain",
                "how": "read",
                "rank": rank,
            }
            | more
            for rank, year, more in (
                (1, 1999, {}),
                (2, None, {"source_id": "leaflet", "title": "A leaflet", "url": "https://a.org/"}),
            )
        ],
        "rejected": [
            {
                "source_table": "some.csv",
                "source_line": 5,
                "source_column": "radial",
                "printed_value": "n/a",
                "reason": "not a number",
            }
        ],
        "disagreements": [
            {
                "species_id": "ash",
                "property_id": "shrinkage_radial",
                "condition": "range",
                "preferred_id": "some.csv:2:radial",
                "preferred_value": 4.9,
                "preferred_from": "Handbook (1999)",
                "other_id": "some.csv:3:radial",
                "other_value": 9.9,
                "other_from": "Handbook (1999)",
                "difference_pct": 102.04,
                "between": "series",
            }
        ],
    }
    frames = {}
    for name, rows in raw.items():
        frames[name] = ordered(name, shaped(pd.DataFrame(rows), TABLES[name]))
    return frames


def folder_bytes(folder: Path) -> dict[str, bytes]:
    """The bytes of every file of a folder."""
    return {p.name: p.read_bytes() for p in sorted(folder.iterdir())}
