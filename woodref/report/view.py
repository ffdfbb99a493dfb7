"""What a page is made from: an estimate, for whom, in which units, with what on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from datetime import date

from woodref.answers.property_text import ROUGH_MARK, UNCHECKED_MARK, marks
from woodref.piece.estimate import Estimate
from woodref.piece.maker_table import Maker
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE, ESTIMATED, SECOND_HAND, UNCHECKED
from woodref.reference.woods import Value, Wood

#: Who a page is for.
AUDIENCES = ("client", "shop")
#: Marks by how a figure is known, and what each says at the end of a page.
_MARKS = {
    UNCHECKED: UNCHECKED_MARK,
    SECOND_HAND: ROUGH_MARK,
    ESTIMATED: ROUGH_MARK,
    COMMON_PRACTICE: ROUGH_MARK,
}
_LEGEND = {
    ROUGH_MARK: "~ estimated, second-hand or common practice",
    UNCHECKED_MARK: "* rests on a recalled figure that was not checked in print",
}


@record
class View:
    """An estimate to be shown.

    ``costs``, whether the shop's page tells what things cost; ``price``, whether the client's
    page gives the price of the quote; ``sources``, whether a last page says what it rests on;
    ``day`` written on the page; ``logo`` of the maker as an address that holds the picture.
    ``used`` gathers the marks that are on the page.
    """

    estimate: Estimate
    audience: str
    units: str
    costs: bool = True
    price: bool = False
    sources: bool = False
    maker: Maker | None = None
    logo: str = ""
    day: date | None = None
    used: set[str] = field(default_factory=set)

    @property
    def woods(self) -> list[Wood]:
        """The woods of the piece, in the order of its parts."""
        return list({p.wood.species_id: p.wood for p in self.estimate.parts if p.wood}.values())

    def mark(self, bases: Iterable[str], values: Iterable[Value] = ()) -> str:
        """The marks of what is known in these ways, noted for the end of the page."""
        given = {_MARKS[b] for b in bases if b in _MARKS} | set(marks(*values))
        self.used.update(given)
        return "".join(mark for mark in _LEGEND if mark in given)

    @property
    def legend(self) -> str:
        """What the marks used so far mean, in one line."""
        told = "; ".join(text for mark, text in _LEGEND.items() if mark in self.used)
        return f"{told}." if told else ""
