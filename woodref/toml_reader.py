"""Strict reading of a TOML file: every mistake names the file, the table, the key and a way out."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Any, TypeVar

from woodref.errors import InputError, ManyMistakesError
from woodref.files import closest, did_you_mean
from woodref.quantity import Range, exactly
from woodref.units import KINDS, either_unit, size_told
from woodref.written import maybe_fraction, parse_density, parse_length

T = TypeVar("T")
#: The unit of a number that may not be a fraction of one.
PERCENT = "%"


#: Mistakes of a file that are told at once.
MOST_TOLD = 10


class _GatheredError(InputError):
    """A mistake that is among those gathered already."""


class Mistakes:
    """The mistakes of a file, gathered so that a person can mend them in one go."""

    def __init__(self) -> None:
        self.errors: list[InputError] = []

    def add(self, error: InputError) -> None:
        """Gather a mistake, once."""
        if not isinstance(error, _GatheredError):
            self.errors.append(error)

    def read(self, read: Callable[[], T]) -> T | None:
        """What is read; None where a mistake was made in it.

        A mistake that may follow from another in the same place is not told.
        """
        before = len(self.errors)
        try:
            result = read()
        except InputError as error:
            if len(self.errors) == before:
                self.add(error)
            return None
        return result if len(self.errors) == before else None

    @property
    def many(self) -> bool:
        """True where there are as many as are told."""
        return len(self.errors) >= MOST_TOLD

    def refuse(self, all_seen: bool = True) -> None:
        """Raise what was gathered: the mistake itself, or ManyMistakesError for several.

        Parameters: all_seen, false where nobody looked for more.
        """
        if len(self.errors) == 1:
            raise self.errors[0]
        if self.errors:
            more = len(self.errors[MOST_TOLD:]) if all_seen else None
            raise ManyMistakesError(self.errors[:MOST_TOLD], more)


class TomlTable:
    """One table of a file, read key by key.

    Parameters: data the table; file and place for messages, place '' for the top of the
    file; keys the keys it may hold; units 'us' or 'si' of messages; mistakes, where they are
    gathered: a value at fault is told there, and one that might stand in its place returned.
    Raises: InputError for a key it may not hold, with the nearest one.
    """

    def __init__(
        self,
        data: dict[str, Any],
        file: str,
        place: str,
        keys: Collection[str],
        units: str = "us",
        mistakes: Mistakes | None = None,
    ) -> None:
        self.data, self.file, self.place, self.units = data, file, place, units
        self.mistakes = mistakes
        self._meant: set[str | None] = set()
        for key in data:
            if key in keys:
                continue
            if mistakes and mistakes.many:  # it is counted, and not told
                mistakes.add(self.error(key, "unknown key"))
                continue
            self.tell(self.error(key, f"unknown key{did_you_mean(key, keys)}"))
            self._meant.add(closest(key, keys))

    def misspelt(self, key: str) -> bool:
        """True where an unknown key seems to stand for this one, which is then not missing too."""
        return key not in self.data and key in self._meant

    def tell(self, error: InputError) -> None:
        """Gather a mistake, or raise it where none are gathered."""
        if self.mistakes is None:
            raise error
        self.mistakes.add(error)

    def _or(self, instead: T, read: Callable[[], T]) -> T:
        """What is read; where mistakes are gathered, what might stand in place of one."""
        try:
            return read()
        except InputError as error:
            self.tell(error)
            return instead

    def error(self, key: str, problem: str) -> InputError:
        """The error for a key: 'file: parts[2] "seat": width: problem'."""
        return InputError(
            ": ".join(_one_line(x) for x in (self.file, self.place, key, problem) if x)
        )

    def __contains__(self, key: str) -> bool:
        """True where the table has the key."""
        return key in self.data

    def _required(self, key: str, example: str) -> Any:
        if key not in self.data:
            if self.misspelt(key):
                raise _GatheredError(key)
            raise self.error(key, f"is missing; write for example {key} = {example}")
        return self.data[key]

    def text(self, key: str, example: str = '"..."') -> str:
        """A text that is not blank."""
        return self._or("", lambda: self._text(key, example))

    def _text(self, key: str, example: str) -> str:
        value = self._required(key, example)
        if not isinstance(value, str) or not value.strip():
            raise self.error(key, f"must be text in quotes, not {_shown(value)}")
        return _one_line(value)

    def choice(self, key: str, choices: Collection[str]) -> str:
        """One of a few words."""
        return self._or(next(iter(choices)), lambda: self._choice(key, choices))

    def _choice(self, key: str, choices: Collection[str]) -> str:
        value = self._text(key, f'"{next(iter(choices))}"')
        if value not in choices:
            raise self.error(key, f"'{value}' is not known{did_you_mean(value, choices)}")
        return value

    def number(self, key: str, low: float, high: float, unit: str = "") -> float:
        """A number from low to high."""
        return self._or(
            low, lambda: self._number(key, self._required(key, f"{low:g}"), low, high, unit)
        )

    def _number(self, key: str, value: Any, low: float, high: float, unit: str) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.error(key, f"must be a number, not {_shown(value)}")
        if not low <= value <= high:  # also false for nan
            unit = f" {unit}" if unit else ""
            raise self.error(key, f"{_shown(value)} is outside {low:g} to {high:g}{unit}")
        if unit == PERCENT and maybe_fraction(value):
            raise self.error(
                key,
                f"{value:g} may mean {value:g} % or {100.0 * value:g} %; write {100.0 * value:g}",
            )
        return float(value) + 0.0  # no nothing below nothing

    def integer(self, key: str, low: int, high: int) -> int:
        """A whole number from low to high."""
        return self._or(low, lambda: self._integer(key, low, high))

    def _integer(self, key: str, low: int, high: int) -> int:
        value = self._required(key, str(low))
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.error(key, f"must be a whole number, not {_shown(value)}")
        if not low <= value <= high:
            raise self.error(key, f"{_shown(value)} is outside {low} to {high}")
        return value

    def length(self, key: str, default_unit: str, most_mm: float) -> float:
        """A length in mm, above zero: a text in shop notation or a number in the default unit."""
        return self._or(most_mm, lambda: self._length(key, default_unit, most_mm))

    def _length(self, key: str, default_unit: str, most_mm: float) -> float:
        value = self._required(key, either_unit(self.units, '"47-1/4 in"', '"1200 mm"'))
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self.error(key, f"must be a length, not {_shown(value)}")
        if not isinstance(value, str) and not abs(value) < 1e9:  # nan and infinity too
            raise self.error(key, f"a length cannot be {_shown(value)}")
        mm = self._parsed(key, lambda: parse_length(value, default_unit))
        if not 0.0 < mm <= most_mm:
            size, most = (size_told(x, self.units) for x in (mm, most_mm))
            raise self.error(key, f"{_shown(value)} is {size}; must be above 0 and at most {most}")
        return mm

    def lengths(self, key: str, default_unit: str, most_mm: float) -> tuple[float, ...]:
        """A list of lengths in mm, each as length reads it."""
        return self._or((), lambda: self._lengths(key, default_unit, most_mm))

    def _lengths(self, key: str, default_unit: str, most_mm: float) -> tuple[float, ...]:
        example = either_unit(self.units, '["6 in", "8 in"]', '["150 mm", "200 mm"]')
        values = self._required(key, example)
        if not isinstance(values, list) or not values:
            raise self.error(key, f"must be a list of lengths, not {_shown(values)}")
        return tuple(
            self._part({key: v}, self.place, (key,)).length(key, default_unit, most_mm)
            for v in values
        )

    def truth(self, key: str) -> bool:
        """True or false; false where the key is missing."""
        value = self.data.get(key, False)
        if not isinstance(value, bool):
            self.tell(self.error(key, f"must be true or false, not {_shown(value)}"))
            return False
        return value

    def density(self, key: str, most_kg_m3: float) -> float:
        """A density in kg/m3 from 10: a text with its unit or a number in the units of the file."""
        return self._or(10.0, lambda: self._density(key, most_kg_m3))

    def _density(self, key: str, most_kg_m3: float) -> float:
        value = self._required(key, either_unit(self.units, '"36 lb/ft3"', '"580 kg/m3"'))
        if not isinstance(value, str):
            value = self._number(key, value, 0.0, 1e6, "")
        unit = "" if isinstance(value, str) else either_unit(self.units, "lb/ft3", "kg/m3")
        density = self._parsed(key, lambda: parse_density(value, unit))
        if not 10.0 <= density <= most_kg_m3:
            given, low, high = (
                KINDS["density"].text(x, self.units) for x in (density, 10.0, most_kg_m3)
            )
            raise self.error(key, f"{given} is outside {low} to {high}; check the unit")
        return density

    def figure(self, key: str, low: float, high: float, unit: str = "") -> Range:
        """A number, or a table of expected, low and high."""
        return self._or(exactly(low), lambda: self._figure(key, low, high, unit))

    def _figure(self, key: str, low: float, high: float, unit: str) -> Range:
        value = self._required(key, f"{low:g}")
        if not isinstance(value, dict):
            number = self._number(key, value, low, high, unit)
            return exactly(number)
        table = self._part(value, _join(self.place, key), ("expected", "low", "high"))
        expected = table.number("expected", low, high, unit)
        lowest = table.number("low", low, high, unit) if "low" in table else expected
        highest = table.number("high", low, high, unit) if "high" in table else expected
        if not lowest <= expected <= highest:
            raise self.error(
                key, f"low {lowest:g}, expected {expected:g}, high {highest:g} must not fall"
            )
        return Range(expected, lowest, highest)

    def table(self, key: str, keys: Collection[str]) -> TomlTable:
        """A table under a key."""
        value = self._required(key, "{ ... }")
        if not isinstance(value, dict):
            raise self.error(key, f"must be a table [{_join(self.place, key)}]")
        return self._part(value, _join(self.place, key), keys)

    def _part(self, data: dict[str, Any], place: str, keys: Collection[str]) -> TomlTable:
        """A table inside this one."""
        return TomlTable(data, self.file, place, keys, self.units, self.mistakes)

    def tables(self, key: str, keys: Collection[str]) -> list[TomlTable]:
        """A list of tables, [[key]]; empty where the key is missing.

        A table is called key[n] "name", counted from 1 as people do.
        """
        value = self.data.get(key, [])
        if not isinstance(value, list) or not all(isinstance(v, dict) for v in value):
            self.tell(self.error(key, f"must be a list of tables, each under [[{key}]]"))
            return []
        tables = []
        for n, v in enumerate(value, 1):
            name = v.get("name")
            label = f' "{_one_line(name)}"' if isinstance(name, str) and name.strip() else ""
            tables.append(self._part(v, f"{_join(self.place, key)}[{n}]{label}", keys))
        return tables

    def parsed(self, key: str, parse: Callable[[], T]) -> T:
        """What ``parse`` returns; its InputError gets file, place and key in front."""
        try:
            return self._parsed(key, parse)
        except InputError as error:
            self.tell(error)
            raise _GatheredError(key) from None

    def _parsed(self, key: str, parse: Callable[[], T]) -> T:
        try:
            return parse()
        except InputError as error:
            raise self.error(key, error.told(self.units)) from None


def _join(place: str, key: str) -> str:
    return f"{place}.{key}" if place else key


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _shown(value: Any) -> str:
    """A value as TOML writes it, cut to a readable length."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number that large"
    text = f'"{_one_line(value)}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else text[:57] + '..."'
