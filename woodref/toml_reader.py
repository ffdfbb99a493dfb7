"""Strict reading of a TOML file: every mistake names the file, the table, the key and a way out."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Collection
from pathlib import Path
from typing import Any, TypeVar

from woodref.errors import InputError
from woodref.files import did_you_mean, read_text
from woodref.quantity import Range, exactly
from woodref.units import parse_density, parse_length

T = TypeVar("T")


def load_toml(path: Path, what: str) -> dict[str, Any]:
    """The tables of a TOML file.

    Raises: InputError as read_text, and for malformed TOML with line and column.
    """
    return parse_toml(read_text(path, what), str(path))


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """The tables of TOML text; ``file`` is the name used in messages.

    Raises: InputError for malformed TOML with line and column.
    """
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise InputError(f"{file}: is not valid TOML: nested too deep") from None
    except ValueError as error:  # a TOMLDecodeError, or a number too long to read
        problem = str(error).splitlines()[0]
        raise InputError(f"{file}: is not valid TOML: {problem}") from None


class TomlTable:
    """One table of a file, read key by key.

    Parameters: data the table; file and place for messages, place '' for the top of the
    file; keys the keys it may hold.
    Raises: InputError for a key it may not hold, with the nearest one.
    """

    def __init__(self, data: dict[str, Any], file: str, place: str, keys: Collection[str]) -> None:
        self.data, self.file, self.place = data, file, place
        for key in data:
            if key not in keys:
                raise self.error(key, f"unknown key{did_you_mean(key, keys)}")

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
            raise self.error(key, f"is missing; write for example {key} = {example}")
        return self.data[key]

    def text(self, key: str, example: str = '"..."') -> str:
        """A text that is not blank."""
        value = self._required(key, example)
        if not isinstance(value, str) or not value.strip():
            raise self.error(key, f"must be text in quotes, not {_shown(value)}")
        return _one_line(value)

    def choice(self, key: str, choices: Collection[str]) -> str:
        """One of a few words."""
        value = self.text(key, f'"{next(iter(choices))}"')
        if value not in choices:
            raise self.error(key, f"'{value}' is not known{did_you_mean(value, choices)}")
        return value

    def number(self, key: str, low: float, high: float, unit: str = "") -> float:
        """A number from low to high."""
        return self._number(key, self._required(key, f"{low:g}"), low, high, unit)

    def _number(self, key: str, value: Any, low: float, high: float, unit: str) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.error(key, f"must be a number, not {_shown(value)}")
        if not low <= value <= high:  # also false for nan
            unit = f" {unit}" if unit else ""
            raise self.error(key, f"{_shown(value)} is outside {low:g} to {high:g}{unit}")
        return float(value)

    def integer(self, key: str, low: int, high: int) -> int:
        """A whole number from low to high."""
        value = self._required(key, str(low))
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.error(key, f"must be a whole number, not {_shown(value)}")
        if not low <= value <= high:
            raise self.error(key, f"{_shown(value)} is outside {low} to {high}")
        return value

    def length(self, key: str, default_unit: str, most_mm: float) -> float:
        """A length in mm, above zero: a text in shop notation or a number in the default unit."""
        value = self._required(key, '"47-1/4 in"')
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self.error(key, f"must be a length, not {_shown(value)}")
        if not isinstance(value, str) and not abs(value) < 1e9:  # nan and infinity too
            raise self.error(key, f"a length cannot be {_shown(value)}")
        mm = self.parsed(key, lambda: parse_length(value, default_unit))
        if not 0.0 < mm <= most_mm:
            raise self.error(
                key, f"{_shown(value)} is {mm:g} mm; must be above 0 and at most {most_mm:g} mm"
            )
        return mm

    def lengths(self, key: str, default_unit: str, most_mm: float) -> tuple[float, ...]:
        """A list of lengths in mm, each as length reads it."""
        values = self._required(key, '["6 in", "8 in"]')
        if not isinstance(values, list) or not values:
            raise self.error(key, f"must be a list of lengths, not {_shown(values)}")
        return tuple(
            TomlTable({key: v}, self.file, self.place, (key,)).length(key, default_unit, most_mm)
            for v in values
        )

    def truth(self, key: str) -> bool:
        """True or false; false where the key is missing."""
        value = self.data.get(key, False)
        if not isinstance(value, bool):
            raise self.error(key, f"must be true or false, not {_shown(value)}")
        return value

    def density(self, key: str, units: str, most_kg_m3: float) -> float:
        """A density in kg/m3 from 10: a text with its unit or a number in the units of the file."""
        value = self._required(key, '"36 lb/ft3"')
        if not isinstance(value, str):
            value = self._number(key, value, 0.0, 1e6, "")
        unit = "" if isinstance(value, str) else "lb/ft3" if units == "us" else "kg/m3"
        density = self.parsed(key, lambda: parse_density(value, unit))
        if not 10.0 <= density <= most_kg_m3:
            raise self.error(
                key, f"{density:g} kg/m3 is outside 10 to {most_kg_m3:g} kg/m3; check the unit"
            )
        return density

    def figure(self, key: str, low: float, high: float, unit: str = "") -> Range:
        """A number, or a table of expected, low and high."""
        value = self._required(key, f"{low:g}")
        if not isinstance(value, dict):
            number = self._number(key, value, low, high, unit)
            return exactly(number)
        table = TomlTable(value, self.file, _join(self.place, key), ("expected", "low", "high"))
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
        return TomlTable(value, self.file, _join(self.place, key), keys)

    def tables(self, key: str, keys: Collection[str]) -> list[TomlTable]:
        """A list of tables, [[key]]; empty where the key is missing.

        A table is called key[n] "name", counted from 1 as people do.
        """
        value = self.data.get(key, [])
        if not isinstance(value, list) or not all(isinstance(v, dict) for v in value):
            raise self.error(key, f"must be a list of tables, each under [[{key}]]")
        tables = []
        for n, v in enumerate(value, 1):
            name = v.get("name")
            label = f' "{_one_line(name)}"' if isinstance(name, str) and name.strip() else ""
            tables.append(TomlTable(v, self.file, f"{_join(self.place, key)}[{n}]{label}", keys))
        return tables

    def parsed(self, key: str, parse: Callable[[], T]) -> T:
        """What ``parse`` returns; its InputError gets file, place and key in front."""
        try:
            return parse()
        except InputError as error:
            raise self.error(key, str(error)) from None


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
