"""The table [finish] of a piece: what is put on, how much of it, what it costs."""

from __future__ import annotations

import re

from woodref.errors import UnitsError
from woodref.quantity import Range
from woodref.record import record
from woodref.toml_reader import TomlTable
from woodref.units import L_PER_GALLON, L_PER_QUART, M2_PER_FT2, either_unit

_PRICES = ("price_per_l", "price_per_quart", "price_per_gallon")
#: Keys of the table [finish].
FINISH = ("name", "coats", "one_face", "area", "coverage", "dry_g_m2", *_PRICES)
_LITERS = {
    "price_per_l": 1.0,
    "price_per_quart": L_PER_QUART,
    "price_per_gallon": L_PER_GALLON,
}
_M2 = {"m2": 1.0, "ft2": M2_PER_FT2}
_L = {
    "l": 1.0,
    "liter": 1.0,
    "quart": L_PER_QUART,
    "gallon": L_PER_GALLON,
    "gal": L_PER_GALLON,
}
_AREA = re.compile(r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*(m2|ft2|m²|ft²)\s*")
_COVERAGE = re.compile(
    r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*(m2|ft2|m²|ft²)\s*/\s*(l|liter|quart|gallon|gal)\s*",
    re.IGNORECASE,
)


@record
class PieceFinish:
    """The finish of a piece, by its name in the table of finishes.

    ``area_m2`` that is coated, None for all faces of the lumber parts; ``coverage_m2_per_l``
    of one coat and ``price_per_l``, None where not given; ``dry_g_m2`` what one coat leaves
    behind. ``place`` is where it stands in the file.
    """

    name: str
    coats: int
    place: str
    one_face: bool = False
    area_m2: float | None = None
    coverage_m2_per_l: float | None = None
    price_per_l: Range | None = None
    dry_g_m2: float = 0.0


def parse_area(text: str) -> float:
    """An area in m2 from '30 ft2' or '2.8 m2'.

    Raises: InputError for anything else.
    """
    match = _AREA.fullmatch(text)
    if not match or not float(match[1]):
        raise UnitsError(
            lambda u: (
                f"'{text}' is not an area; write for example " + either_unit(u, "30 ft2", "2.8 m2")
            )
        )
    return float(match[1]) * _M2[match[2].replace("²", "2")]


def parse_coverage(text: str) -> float:
    """What a liter covers in one coat [m2/l], from '400 ft2/gallon' or '10 m2/L'.

    Raises: InputError for anything else.
    """
    match = _COVERAGE.fullmatch(text)
    if not match or not float(match[1]):
        raise UnitsError(
            lambda u: (
                f"'{text}' is not a coverage; write for example "
                + either_unit(u, "400 ft2/gallon", "10 m2/L")
            )
        )
    area = float(match[1]) * _M2[match[2].lower().replace("²", "2")]
    return area / _L[match[3].lower()]


def read_finish(table: TomlTable) -> PieceFinish:
    """The finish from the table [finish].

    Raises: InputError naming file, table, key and problem.
    """
    on_the_can = either_unit(table.units, "400 ft2/gallon", "10 m2/L")
    given = [key for key in _PRICES if key in table]
    if len(given) > 1:
        raise table.error(given[1], f"give one price, {given[0]} or {given[1]}")
    if given and "coverage" not in table:
        raise table.error("coverage", f"is missing; it is on the can: {on_the_can}")
    price = None
    if given:
        per, liters = table.figure(given[0], 0.0, 1e6), _LITERS[given[0]]
        price = Range(per.expected / liters, per.low / liters, per.high / liters)
    area = coverage = None
    if "area" in table:
        area_text = table.text("area", either_unit(table.units, '"30 ft2"', '"2.8 m2"'))
        area = table.parsed("area", lambda: parse_area(area_text))
    if "coverage" in table:
        coverage_text = table.text("coverage", f'"{on_the_can}"')
        coverage = table.parsed("coverage", lambda: parse_coverage(coverage_text))
    return PieceFinish(
        name=table.text("name"),
        coats=table.integer("coats", 1, 20) if "coats" in table else 1,
        place=table.place,
        one_face=table.truth("one_face"),
        area_m2=area,
        coverage_m2_per_l=coverage,
        price_per_l=price,
        dry_g_m2=table.number("dry_g_m2", 0.0, 2000.0, "g/m2") if "dry_g_m2" in table else 0.0,
    )
