"""Rows of the published tables, for the checks against print."""

import csv
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def printed(name, folder=ROOT / "datasets" / "sources"):
    """Rows of a CSV file as dicts of text."""
    with (Path(folder) / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def fahrenheit(degrees):
    """Degrees Fahrenheit in Celsius, not rounded."""
    return (float(degrees) - 32.0) / 1.8
