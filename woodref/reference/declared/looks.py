"""How a wood looks, works, is used, is stocked and is called."""

from __future__ import annotations

from dataclasses import replace

from woodref.reference.bases import (
    BASES,
    CHECKED,
    COMMON_PRACTICE,
    EDITORIAL,
    SECOND_HAND,
    UNCHECKED,
)
from woodref.reference.declared.declaring import (
    BASIS,
    ORIGIN,
    PRINT,
    SOURCE_KEY,
    SPECIES_ID,
    SPECIES_KEY,
    Field,
    Table,
    integer,
    number,
    string,
)
from woodref.reference.look_words import (
    LOOK_CELLS,
    LOOK_VALUES,
    REGIONS,
    STOCK_CLASSES,
    USES,
    basis_column,
)

_CELL_BASES = (CHECKED, SECOND_HAND, EDITORIAL, UNCHECKED)


def _cell(name: str) -> Field:
    if name.endswith("_lightness"):
        return number(name, LOOK_CELLS[name], "1 to 5", minimum=1.0, maximum=5.0)
    return string(name, LOOK_CELLS[name], enum=LOOK_VALUES.get(name, ()))


def _cells() -> tuple[Field, ...]:
    """Each cell, and beside it how it is known."""
    return tuple(
        field
        for name in LOOK_CELLS
        for field in (
            _cell(name),
            string(basis_column(name), f"how {name} is known; empty with it", enum=_CELL_BASES),
        )
    )


_SOURCE = (
    string("source", "where the cells that were read stand"),
    string("source_ids", "those publications, see the table sources, parted by semicolons"),
)

LOOKS = Table(
    "looks",
    "Look and working",
    "One row per wood: how it usually looks, works and dries. Beside each cell stands how it is "
    "known: a cell is printed only where that is checked or second_hand.",
    (
        replace(SPECIES_ID, unique=True),
        string("listed_name", "name of the wood in the list, often that of the trade", True),
        *_cells(),
        *_SOURCE,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("species_id",),
    SPECIES_KEY,
)

USES_OF_WOODS = Table(
    "uses_of_woods",
    "Uses of woods",
    "One row per wood and principal use.",
    (
        SPECIES_ID,
        string("use", "what the wood is used for", required=True, enum=USES),
        integer("position", "place in the list of the wood's uses", required=True, minimum=1),
        string("basis", "how the use is known", required=True, enum=tuple(BASES)),
        *_SOURCE,
        *ORIGIN,
    ),
    ("species_id", "use"),
    SPECIES_KEY,
)

STOCK = Table(
    "stock",
    "What yards stock",
    "One row per wood and region: whether makers find it in the trade. Common practice, a "
    "judgment that flattens differences within a region.",
    (
        SPECIES_ID,
        string("region", "region of the trade", required=True, enum=REGIONS),
        string(
            "class",
            "; ".join(f"{c}: {meaning}" for c, meaning in STOCK_CLASSES.items()),
            required=True,
            enum=tuple(STOCK_CLASSES),
        ),
        string("basis", "how the class is known", required=True, enum=(COMMON_PRACTICE,)),
        *ORIGIN,
        string("source_column", "column of that file", required=True),
    ),
    ("species_id", "region"),
    SPECIES_KEY,
)

RESEMBLANCES = Table(
    "resemblances",
    "Printed resemblances",
    "One row per pair of woods that print itself calls alike.",
    (
        SPECIES_ID,
        string("like_species_id", "the wood it is said to be like", required=True),
        string("wood", "its name as printed", required=True),
        string("like", "the other's name as printed", required=True),
        string("what_print_compares", "in what they are alike, in our words", required=True),
        *PRINT,
        *ORIGIN,
    ),
    ("species_id", "like_species_id"),
    (*SPECIES_KEY, ("like_species_id", "species.species_id"), *SOURCE_KEY),
)

PLAIN_NAMES = Table(
    "plain_names",
    "Plain names by region",
    "One row per plain name and region: which wood, or trade group, a yard there means by it. "
    "Without either the name covers several woods, and one must be asked for.",
    (
        string("name", "the name as written", required=True),
        string("name_key", "the name folded for look-up", required=True),
        string("region", "region of the trade", required=True, enum=REGIONS),
        string("means", "name of what it means there; empty where it covers several woods"),
        string("species_id", "the wood it means"),
        string("group_name", "the trade group it means"),
        string("candidates", "names to choose from, parted by semicolons, where none is meant"),
        string("note", "what else is sold under the name, or what it is not"),
        BASIS,
        *ORIGIN,
    ),
    ("name_key", "region"),
)
