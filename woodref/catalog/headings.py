"""Which column of a catalog is which, by its heading."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from woodref.catalog.request import SIZES, Given, Request
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.lumber.cut_list_heading import HEADINGS, heading_of

#: Words of a cut list that may number the rows of a catalog in place of counting boards.
_DOUBTFUL = ("no", "number", "count")
#: Other words for a column.
_WORDS = {
    **dict.fromkeys(("wood", "species", *HEADINGS["species"]), Given.WOOD),
    **{w: Given.QUANTITY for w in HEADINGS["quantity"] if w not in _DOUBTFUL},
    "moisture pct": Given.MOISTURE,
    "moisture content": Given.MOISTURE,
    "from moisture": Given.MOISTURE,
    "from moisture pct": Given.MOISTURE,
    "to moisture": Given.TO_MOISTURE,
    "to moisture pct": Given.TO_MOISTURE,
    "town": Given.PLACE,
}


class Headings(NamedTuple):
    """The heading of each column, and the unit of bare numbers in each column of sizes."""

    columns: Mapping[Given, str]
    units: Mapping[Given, str]


def headings_of(headings: Iterable[str], request: Request, file: str) -> Headings:
    """The columns of a catalog.

    Parameters: headings as written; request; file, its name in messages.
    Raises: InputError where two headings mean one column, a heading that is asked for is not
    there, and a heading names another unit than the request.
    """
    columns: dict[Given, str] = {}
    units: dict[Given, str] = {}
    written = list(headings)
    named = {heading: column for column, heading in request.columns.items()}
    for asked, heading in request.columns.items():
        if heading not in written:
            raise InputError(
                f"{file}: has no column '{heading}' for {asked}{did_you_mean(heading, written)}"
            )
    for heading in written:
        known, unit = _meant(heading)
        column = named.get(heading, known)
        if column is None or (column in request.columns and heading not in named):
            continue
        if column in columns:
            raise InputError(
                f"{file}: columns '{columns[column]}' and '{heading}' both mean {column}; "
                f"name one: --columns {column}={heading}"
            )
        columns[column] = heading
        if column in SIZES:
            if unit and request.unit and unit != request.unit:
                raise InputError(
                    f"{file}: column '{heading}' is in {unit}, and --unit says {request.unit}"
                )
            units[column] = unit or request.bare_unit
    return Headings(columns, units)


def _meant(heading: str) -> tuple[Given | None, str]:
    """The column a heading means, None for one of the catalog's own, and the unit it names."""
    plain = heading.replace("_", " ").strip().lower()
    if plain in _WORDS:
        return _WORDS[plain], ""
    known = heading_of([plain])
    name = known.columns[0]
    if name in ("length", "width", "thickness"):
        unit = known.units.get(name, "")
        return Given(name), "in" if unit.startswith("in") else unit
    key = plain.replace(" ", "_")
    return (Given(key) if key in set(Given) else None), ""
