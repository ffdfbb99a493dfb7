"""What is asked of a catalog: the answers wanted, and what holds where its rows are silent."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import field
from enum import StrEnum
from pathlib import Path

from woodref.board.movement import checked_moisture, ring_angle
from woodref.errors import InputError, UnitsError
from woodref.files import did_you_mean
from woodref.record import record
from woodref.units import sizes_told


class Want(StrEnum):
    """An answer of a catalog."""

    WEIGHT = "weight"
    VOLUME = "volume"
    BOARD_FEET = "board_feet"
    MOVEMENT = "movement"
    COST = "cost"
    SHIPPING = "shipping"


class Given(StrEnum):
    """A column that a catalog can have."""

    WOOD = "wood"
    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"
    STOCK = "stock"
    QUANTITY = "quantity"
    CUT = "cut"
    MOISTURE = "moisture"
    TO_MOISTURE = "to_moisture"
    PLACE = "place"
    SETTING = "setting"
    PRICE_LIST = "price_list"


#: Columns whose cells are lengths, and those whose cells are numbers.
SIZES = (Given.LENGTH, Given.WIDTH, Given.THICKNESS)
NUMBERS = (Given.QUANTITY, Given.MOISTURE, Given.TO_MOISTURE)
#: The answers that need all three sizes; movement needs a width alone.
_OF_BOARDS = frozenset(Want) - {Want.MOVEMENT}
_MEMORY = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?)\s*(MB|GB)\s*", re.IGNORECASE)
#: Units of bare sizes.
UNITS = ("in", "ft", "mm", "cm", "m")


@record
class Request:
    """What is wanted of a catalog, and what holds for rows that do not say.

    ``want`` the answers, empty for those that what is given allows. ``columns`` the heading of a
    column where it is not found by its name. ``units`` 'us' or 'si' of the answers; ``unit`` of
    bare sizes, '' for inches or millimeters as ``units`` says. ``moisture_pct`` of the sizes and
    of the weight [%], ``to_moisture_pct`` where the width moves to; in place of that a ``place``
    and a ``setting``, whose year the width goes through. ``prices`` a price list, for rows that
    name none of ``price_lists``, which are by the name that stands in the catalog; ``padding_mm``
    of a carton, None for the usual one. ``memory`` '2 GB' caps what is held in memory.
    """

    want: tuple[Want, ...] = ()
    columns: Mapping[Given, str] = field(default_factory=dict)
    units: str = "us"
    unit: str = ""
    cut: str = "flat"
    moisture_pct: float = 8.0
    to_moisture_pct: float | None = None
    place: str = ""
    setting: str = ""
    prices: Path | None = None
    price_lists: Mapping[str, Path] = field(default_factory=dict)
    padding_mm: float | None = None
    ranges: bool = False
    memory: str = ""

    def check(self) -> None:
        """Raise InputError where what is asked cannot be."""
        ring_angle(self.cut)
        checked_moisture("the first", self.moisture_pct)
        if self.to_moisture_pct is not None:
            checked_moisture("the second", self.to_moisture_pct)
        if self.to_moisture_pct is not None and self.place:
            raise InputError("give a moisture content to move to, or a place, not both")
        if self.unit and self.unit not in UNITS:
            raise InputError(
                f"'{self.unit}' is not a unit of bare sizes; use one of {', '.join(UNITS)}"
            )
        if self.memory and not _MEMORY.fullmatch(self.memory):
            raise InputError(f"'{self.memory}' is not an amount of memory; write 2GB or 500MB")
        if self.padding_mm is not None and not 0.0 <= self.padding_mm < 1000.0:
            raise UnitsError(sizes_told("padding is from 0 to below {}", 1000.0))

    @property
    def bare_unit(self) -> str:
        """The unit of a bare size."""
        return self.unit or ("in" if self.units == "us" else "mm")


def parse_want(text: str | Iterable[str]) -> tuple[Want, ...]:
    """The answers of 'weight,board_feet', each once, in the order of Want.

    Raises: InputError for another word.
    """
    words = text.split(",") if isinstance(text, str) else list(text)
    chosen = set()
    for word in words:
        key = "_".join(word.lower().replace("-", " ").replace("_", " ").split())
        if key not in set(Want):
            raise InputError(f"'{word}' is no answer of a catalog{did_you_mean(key, list(Want))}")
        chosen.add(Want(key))
    return tuple(w for w in Want if w in chosen)


def parse_columns(text: str) -> dict[Given, str]:
    """Headings of columns from 'wood=Species,length=Long side'.

    Raises: InputError for another form, and for a column that a catalog does not have.
    """
    columns: dict[Given, str] = {}
    for pair in text.split(","):
        name, equals, heading = (x.strip() for x in pair.partition("="))
        if not (equals and heading):
            raise InputError(f"'{pair.strip()}' names no column; write wood=Species,length=L")
        columns[given(name)] = heading
    return columns


def parse_price_lists(text: str) -> dict[str, Path]:
    """Price lists by their names from 'north=north.csv,south=lists/south.csv'.

    Raises: InputError for another form, and for a name that stands twice.
    """
    lists: dict[str, Path] = {}
    for pair in text.split(","):
        name, equals, file = (x.strip() for x in pair.partition("="))
        if not (equals and name and file):
            raise InputError(f"'{pair.strip()}' names no price list; write north=north.csv")
        if name in lists:
            raise InputError(f"two price lists are called '{name}'")
        lists[name] = Path(file)
    return lists


def given(name: str) -> Given:
    """The column of a name.

    Raises: InputError with the nearest one.
    """
    key = name.lower().replace(" ", "_").replace("-", "_")
    if key not in set(Given):
        raise InputError(f"a catalog has no column '{name}'{did_you_mean(key, list(Given))}")
    return Given(key)


def needed_sizes(want: Iterable[Want]) -> tuple[Given, ...]:
    """The sizes that answers need."""
    return SIZES if _OF_BOARDS & set(want) else (Given.WIDTH,)
