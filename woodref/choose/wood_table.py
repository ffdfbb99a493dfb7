"""A result of several woods, which can be had as a frame."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.display import Shown

if TYPE_CHECKING:
    import pandas


class WoodTable(Shown):
    """A result with one row a wood."""

    def _records(self) -> list[dict[str, Any]]:
        """One dict a wood by column, SI with the unit in the name, the same keys in each."""
        raise NotImplementedError

    def to_frame(self) -> pandas.DataFrame:
        """A frame of one row a wood, in order; SI, the unit in the name of the column.

        Returns: a pandas.DataFrame; the class of the result says which columns.
        """
        import pandas

        return pandas.DataFrame(self._records())
