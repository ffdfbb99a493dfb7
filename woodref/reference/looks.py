"""How a wood looks, works, is used and is stocked, each cell with how it is known."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from woodref.display import Grid, Shown
from woodref.record import record
from woodref.reference.bases import UNCHECKED, in_words, weakest
from woodref.reference.library import Reference, marks
from woodref.reference.look_words import LOOK_CELLS, REGIONS, STOCK_CLASSES, basis_column

_COLUMNS = [column for cell in LOOK_CELLS for column in (cell, basis_column(cell))]
#: Three tables in one query, which is faster than joining them.
_LOOK_SQL = (
    f"select 'look' as part, species_id, source, note, {', '.join(_COLUMNS)} "
    "from {{looks}} {where} union all by name "
    "select 'use' as part, species_id, use, position, basis from {{uses_of_woods}} {where} "
    "union all by name select 'stock' as part, species_id, region, class from {{stock}} {where}"
)


class Cell(NamedTuple):
    """One cell: its value, several of a group parted by 'or', and how it is known."""

    value: str | float
    basis: str


class Use(NamedTuple):
    """One principal use, and how it is known."""

    use: str
    basis: str


@record(repr=False)
class Look(Shown):
    """How a wood usually looks, works, is used and is stocked: typical, not a test of identity.

    ``cells`` by column of the table looks, filled ones alone; ``stock`` the class by region,
    common practice; ``source`` where the cells that were read stand.
    """

    species_id: str
    cells: Mapping[str, Cell]
    uses: tuple[Use, ...]
    stock: Mapping[str, str]
    source: str = ""
    note: str = ""

    def value(self, cell: str) -> str | float | None:
        """The value of a cell, None where it is empty."""
        return self.cells[cell].value if cell in self.cells else None

    @property
    def seen(self) -> dict[str, Cell]:
        """Hue and lightness of the wood as it reaches the maker: as sold, else its heartwood."""
        return {
            name: self.cells.get(f"sold_as_{name}", self.cells[f"heartwood_{name}"])
            for name in ("hue", "lightness")
        }

    @property
    def unchecked(self) -> bool:
        """True where a cell or a use is recalled and was not seen in print."""
        return UNCHECKED in self.bases

    @property
    def bases(self) -> tuple[str, ...]:
        """How the cells and the uses are known."""
        return (*(c.basis for c in self.cells.values()), *(u.basis for u in self.uses))

    def _line(self) -> str:
        return f"{self.species_id}, {self.seen['hue'].value}, typical"

    def _grid(self) -> Grid:
        return Grid(
            ("what", "is", "basis"),
            ((name, c.value, in_words(c.basis)) for name, c in self.cells.items()),
        )


def _look(rows: Sequence[Mapping[str, Any]]) -> Look:
    """A Look from the rows of one wood: its cells, its uses in order, its stock."""
    row = next(r for r in rows if r["part"] == "look")
    stock = {r["region"]: r["class"] for r in rows if r["part"] == "stock"}
    uses = sorted((r["position"], r["use"], r["basis"]) for r in rows if r["part"] == "use")
    return Look(
        row["species_id"],
        {c: Cell(row[c], row[basis_column(c)]) for c in LOOK_CELLS if row[c] is not None},
        tuple(Use(use, basis) for _, use, basis in uses),
        {r: stock[r] for r in REGIONS if r in stock},
        row["source"] or "",
        row["note"] or "",
    )


def looks_of(reference: Reference, species_ids: Iterable[str]) -> tuple[Look, ...]:
    """The looks of woods, of those that have one, by one query."""
    ids = list(dict.fromkeys(species_ids))
    if not ids:
        return ()
    where = f"where species_id in ({marks(ids)})"
    by_wood: dict[str, list[dict[str, Any]]] = {}
    for row in reference.store.rows(_LOOK_SQL.format(where=where), [*ids, *ids, *ids]):
        by_wood.setdefault(row["species_id"], []).append(row)
    return tuple(_look(by_wood[i]) for i in sorted(by_wood))


def _together(cells: Sequence[Cell]) -> Cell:
    """The cells of the members of a group as one: the values, the most usual first."""
    basis = weakest(c.basis for c in cells)
    values = Counter(c.value for c in cells)
    if len(values) == 1:
        return Cell(cells[0].value, basis)
    if all(isinstance(v, float) for v in values):
        return Cell(sum(float(c.value) for c in cells) / len(cells), basis)
    return Cell(" or ".join(str(v) for v, _ in values.most_common()), basis)


def look_of_group(group_id: str, looks: Sequence[Look]) -> Look | None:
    """The look of a trade group from those of its members; None where none has one.

    Uses are those of half its members at least; stock is the most usual class of any of them.
    """
    if len(looks) < 2:
        return next(iter(looks), None)
    names = [c for c in LOOK_CELLS if any(c in m.cells for m in looks)]
    names = [c for c in names if c != "availability_note"]
    uses = Counter(u.use for m in looks for u in m.uses)
    shared = [use for use, count in uses.most_common() if 2 * count >= len(looks)]
    order = list(STOCK_CLASSES)
    classes = {r: [m.stock[r] for m in looks if r in m.stock] for r in REGIONS}
    return Look(
        group_id,
        {c: _together([m.cells[c] for m in looks if c in m.cells]) for c in names},
        tuple(
            Use(use, weakest(u.basis for m in looks for u in m.uses if u.use == use))
            for use in shared
        ),
        {r: min(found, key=order.index) for r, found in classes.items() if found},
        "; ".join(dict.fromkeys(s for m in looks for s in m.source.split("; ") if s)),
    )


def look_of(reference: Reference, group_id: str, species_ids: Sequence[str]) -> Look | None:
    """The look of a wood, or of a trade group with its members; None where there is none."""
    return look_of_group(group_id, looks_of(reference, species_ids))
