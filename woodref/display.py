"""How a result shows itself in Python: one line where it is printed, a table in a notebook."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from woodref.quantity import Range


class Grid(NamedTuple):
    """A table to show: its headings, and rows of texts and numbers."""

    columns: Sequence[str]
    rows: Iterable[Sequence[object]]


class Shown:
    """A result that prints as one line, and in a notebook as a table where it has one."""

    def _line(self) -> str:
        """The result in one line, without its class, in SI units."""
        raise NotImplementedError

    def _grid(self) -> Grid | None:
        """Its rows, None where the line says all."""
        return None

    def __repr__(self) -> str:
        """The class and the result in a line."""
        return f"<{type(self).__name__}: {self._line()}>"

    def _repr_html_(self) -> str | None:
        grid = self._grid()
        return None if grid is None else html_table(self._line(), grid)


def number(value: float | None) -> str:
    """A number in four digits, '' for none."""
    return "" if value is None else f"{float(f'{value:.4g}'):.12g}"


def likely(value: float | None, low: float | None, high: float | None, unit: str) -> str:
    """'1.53 kg, likely 1.36 to 1.7'; no range where there is none, no unit for a ratio."""
    figure = number(value) if unit in ("", "1") else f"{number(value)} {unit}"
    if low is None or high is None:
        return figure
    return f"{figure}, likely {number(low)} to {number(high)}"


def ranged(figure: Range, unit: str) -> str:
    """A value with its range, as likely."""
    return likely(figure.expected, figure.low, figure.high, unit)


def html_table(caption: str, grid: Grid) -> str:
    """A table for a notebook, every text escaped."""
    from html import escape

    def cells(tag: str, row: Sequence[object]) -> str:
        texts = (number(c) if isinstance(c, float) else "" if c is None else str(c) for c in row)
        return "<tr>" + "".join(f"<{tag}>{escape(text)}</{tag}>" for text in texts) + "</tr>"

    body = "".join(cells("td", row) for row in grid.rows)
    return (
        f"<table><caption>{escape(caption)}</caption>"
        f"<thead>{cells('th', grid.columns)}</thead><tbody>{body}</tbody></table>"
    )
