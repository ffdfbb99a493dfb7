"""A figure as an output of a notebook, with words for those who cannot see it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.charts.figure import PNG_SCALE, png_bytes
from woodref.record import record

if TYPE_CHECKING:
    from matplotlib.figure import Figure


@record
class Picture:
    """A picture a notebook shows: the bytes of a PNG file, and ``words`` in place of it."""

    png: bytes
    words: str

    def __repr__(self) -> str:
        """The words, where no picture can be shown."""
        return self.words

    def _repr_mimebundle_(self, **_: object) -> tuple[dict[str, Any], dict[str, Any]]:
        """Data and metadata as notebooks ask for them; as wide as the chart, not as its pixels."""
        width = int.from_bytes(self.png[16:20]) // PNG_SCALE
        return (
            {"image/png": self.png, "text/plain": self.words},
            {"image/png": {"alt": self.words, "width": width}},
        )


def picture(figure: Figure, words: str = "") -> Picture:
    """A figure as the last line of a cell of a notebook.

    Parameters: figure; words that stand for it where it cannot be seen, by default its title.
    """
    return Picture(png_bytes(figure), words or " ".join(figure.get_suptitle().split()))
