"""What a command answers: its lines, and tables of SI values that know of which kind they are.

woodref.answers.render turns it into text, JSON, CSV or Markdown, in either system of units.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import isfinite
from typing import Any, NamedTuple

from woodref.printable import printable
from woodref.units import KINDS

#: The key that stands for the single values of an answer where a table is asked for.
FACTS = "facts"


def _plain(value: Any) -> Any:
    """A value that JSON can hold: text for what is neither number nor truth, null for NaN."""
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, float):
        return value if isfinite(value) else None
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, dict):
        return {str(key): _plain(each) for key, each in value.items()}
    if hasattr(value, "to_integral_value"):  # a Decimal, whose module a look-up does without
        return int(value) if value == value.to_integral_value() else float(value)
    return str(value)


class Column(NamedTuple):
    """One column: ``key`` without unit, heading, and the kind of quantity ('' for text).

    A column without a heading is for programs alone: it stands in JSON and CSV. One that is
    ``aside`` is left out of a first screen.
    """

    key: str
    head: str
    kind: str = ""
    aside: bool = False

    def full_key(self, units: str) -> str:
        """The key with its unit: 'width' of kind size is 'width_mm' or 'width_in'."""
        suffix = KINDS[self.kind].suffix(units) if self.kind else ""
        return f"{self.key}_{suffix}" if suffix else self.key

    def raw(self, value: Any, units: str) -> Any:
        """The value for JSON and CSV: a number in the unit of the key, or the text."""
        if self.kind and isinstance(value, int | float):
            value = KINDS[self.kind].number(float(value), units) if isfinite(value) else None
            return int(value) if self.kind == "count" and value is not None else value
        return _plain(value)

    def text(self, value: Any, units: str) -> str:
        """The value for people."""
        if value is None or (isinstance(value, float) and not isfinite(value)):
            return ""
        if isinstance(value, bool):
            return "yes" if value else "no"
        if self.kind and isinstance(value, int | float):
            return KINDS[self.kind].text(float(value), units)
        if isinstance(value, float):
            return f"{value:.6g}"
        return printable(" ".join(str(value).split()), "")

    @property
    def numeric(self) -> bool:
        """True where the column is set flush right."""
        return bool(self.kind)


class Heed(str):
    """A line that needs attention: it stands on the first screen, and is marked on a terminal."""

    __slots__ = ()


class WholePage(str):
    """A line of the headline that the first screen does without."""

    __slots__ = ()


class Section(NamedTuple):
    """A titled table: ``key`` names it in JSON, '' where it is for people alone.

    ``rest`` is the number of rows that a screen has no room for; one that is ``aside`` says
    what the headline says, and is left out of a first screen.
    """

    key: str
    title: str
    columns: Sequence[Column]
    rows: Sequence[dict[str, Any]]
    rest: int = 0
    aside: bool = False

    @classmethod
    def of(
        cls,
        key: str,
        title: str,
        columns: Sequence[Column],
        rows: Iterable[Sequence[Any]],
        aside: bool = False,
    ) -> Section:
        """A table of rows of values that stand in the order of the columns."""
        keys = [c.key for c in columns]
        told = [dict(zip(keys, row, strict=True)) for row in rows]
        return cls(key, title, columns, told, aside=aside)

    @property
    def headed(self) -> list[Column]:
        """The columns people see."""
        return [c for c in self.columns if c.head]

    def texts(self, units: str) -> tuple[list[str], list[list[str]]]:
        """The headings people see, and the cells below them."""
        headed = self.headed
        heads = [printable(c.head, "") for c in headed]
        return heads, [[c.text(r.get(c.key), units) for c in headed] for r in self.rows]


@dataclass(eq=False)
class Answer:
    """What a command answers: headline lines first, tables under them, notes last.

    ``facts`` are single values for JSON only, as (column, value); ``main`` is the key of
    the section written as CSV, the first one by default, FACTS for the single values; ``names``
    what a name of the question means beside the wood answered for, said in the first line.
    ``screen`` is the short form of it, for one screen of a terminal; None where there is none.
    A short form that is ``open`` is still to be closed with what its marks mean and how to see
    more (woodref.answers.screen).
    """

    headline: list[str] = field(default_factory=list)
    facts: list[tuple[Column, Any]] = field(default_factory=list)
    sections: list[Section] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    main: str = ""
    names: list[str] = field(default_factory=list)
    screen: Answer | None = None
    open: bool = False

    @property
    def lead(self) -> list[str]:
        """The lines of the headline, the first with what a name also means."""
        if not self.headline:
            return []
        return [" ".join([self.headline[0], *self.names]), *self.headline[1:]]
