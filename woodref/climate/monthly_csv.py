"""The user's own monthly air as a CSV file: month, temperature, relative humidity.

Columns, in any order: ``month`` (1 to 12, or a name such as Jan), ``temperature`` (68F, 20C,
or a bare number), ``humidity_pct``. Lines that begin with # are remarks.
"""

from __future__ import annotations

from pathlib import Path

from woodref.climate.seasons import checked_months, month_number
from woodref.errors import InputError
from woodref.files import csv_rows, did_you_mean, read_text
from woodref.reference.places import Weather
from woodref.written import parse_percent, parse_temperature

COLUMNS = ("month", "temperature", "humidity_pct")


def read_months(path: Path, default_unit: str) -> tuple[Weather, ...]:
    """The twelve months of a CSV file.

    Parameters: path; default_unit of a bare temperature, 'C' or 'F'.
    Raises: InputError, one line naming file, line, column and problem.
    """
    return parse_months(
        read_text(path, "file of months", most_lines=1_000), str(path), default_unit
    )


def parse_months(text: str, file: str, default_unit: str) -> tuple[Weather, ...]:
    """The twelve months in CSV text; ``file`` is the name used in messages.

    Raises: as read_months.
    """
    rows = [(line, [" ".join(c.split()) for c in cells]) for line, cells in csv_rows(text, file)]
    if not rows:
        raise InputError(f"{file}: has no header; write {','.join(COLUMNS)}")
    first, cells = rows[0]
    header = [c.lower() for c in cells]
    for column in header:
        if column not in COLUMNS:
            raise InputError(
                f"{file}: line {first}: unknown column '{column}'{did_you_mean(column, COLUMNS)}"
            )
    for column in COLUMNS:
        if header.count(column) != 1:
            raise InputError(f"{file}: line {first}: needs the column {column} once")
    return checked_months(
        [_month(file, line, cells, header, default_unit) for line, cells in rows[1:]], file
    )


def _month(file: str, number: int, cells: list[str], header: list[str], unit: str) -> Weather:
    if len(cells) != len(header):
        raise InputError(
            f"{file}: line {number}: has {len(cells)} cells, the header {len(header)}; decimals "
            "take a point"
        )
    row = dict(zip(header, cells, strict=True))
    column = "month"
    try:
        month = month_number(row["month"])
        column = "temperature"
        celsius = parse_temperature(row["temperature"], unit)
        column = "humidity_pct"
        return Weather(month, celsius, parse_percent(row["humidity_pct"], "relative humidity"))
    except InputError as error:
        raise error.headed(f"{file}: line {number}: {column}: ") from None
