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

NORTH_AMERICA = "North America"
EUROPE = "Europe"
AUSTRALIA_NZ = "Australia and New Zealand"
#: Regions of the trade.
REGIONS = (NORTH_AMERICA, EUROPE, AUSTRALIA_NZ)

COMMONLY_STOCKED = "commonly stocked"
#: How a wood is stocked in a region, the most usual first, and what that means.
STOCK_CLASSES: dict[str, str] = {
    COMMONLY_STOCKED: "most hardwood yards; lumber and decking yards for softwoods and decking",
    "specialty": "dealers in rare woods, local mills, veneer or slab dealers, one part of the "
    "region",
    "seldom": "now and then",
    "not in trade": "not sold there",
}

HUES = (
    "white",
    "cream",
    "yellow",
    "orange",
    "pink",
    "red",
    "reddish brown",
    "light brown",
    "brown",
    "golden brown",
    "grayish brown",
    "dark brown",
    "olive",
    "gray",
    "purple",
    "black",
)
USES = (
    "fine furniture",
    "furniture",
    "cabinets",
    "flooring",
    "millwork",
    "joinery",
    "veneer",
    "turnery",
    "bent work",
    "boats",
    "tool handles",
    "musical instruments",
    "outdoor furniture",
    "decking",
    "boxes and crates",
    "construction",
    "carving",
    "drawer sides",
    "kitchen ware",
    "toys",
)
_LEVELS = ("low", "medium", "high")
_EASE = ("easy", "moderate", "difficult")
#: The words of each column of looks.
LOOK_VALUES: dict[str, tuple[str, ...]] = {
    "heartwood_hue": HUES,
    "sold_as_hue": HUES,
    "sapwood": ("white", "cream", "yellow", "pinkish", "light brown", "gray", "not distinct"),
    "heart_sap_contrast": ("none", "slight", "marked"),
    "figure": (
        "none",
        "growth rings plain",
        "flecked rays",
        "ribbon",
        "marbled",
        "mottled",
        "curly common",
    ),
    "texture": ("fine", "medium", "coarse", "uneven"),
    "pores": ("none", "diffuse", "semi-ring", "ring"),
    "pore_size": ("fine", "medium", "large"),
    "grain": ("straight", "interlocked", "irregular", "wavy"),
    "luster": _LEVELS,
    "odor": (
        "none",
        "bitter",
        "camphor",
        "cedar",
        "leather",
        "peppery",
        "resinous",
        "rose",
        "sour",
        "spicy",
        "sweet",
        "unpleasant",
        "vanilla",
        "wintergreen",
    ),
    "color_with_age": ("stable", "darkens", "lightens", "reddens", "browns"),
    "oily_or_resinous": ("no", "oily", "resinous", "gum"),
    "blunting": _LEVELS,
    "workability": _EASE,
    "dries": _EASE,
}
#: Each cell of looks: the column, and what it holds.
LOOK_CELLS: dict[str, str] = {
    "heartwood_hue": "hue of the heartwood, planed and under a clear finish, in its first months "
    "of room light; typical, not a test of identity",
    "heartwood_lightness": "its lightness from 1 palest to 5 darkest in steps of a half: 1 holly, "
    "2 red alder, 3 cherry, 4 black walnut, 5 ebony",
    "sold_as_hue": "hue of the wood as it reaches the maker, where that is sapwood or mixed; goes "
    "before the heartwood for look",
    "sold_as_lightness": "lightness of the wood as it reaches the maker, 1 to 5",
    "sapwood": "color of the sapwood",
    "heart_sap_contrast": "how sharply heartwood and sapwood part",
    "figure": "what is noticed first in ordinary stock; flecked rays on the quarter, ribbon the "
    "stripe of interlocked grain, marbled darker streaks",
    "texture": "texture; uneven for softwood with hard bands of late wood",
    "pores": "arrangement of the pores, none in softwoods",
    "pore_size": "diameter of the widest pores: fine to 100 um, medium to 200, large over 200",
    "grain": "direction of the grain, the usual one",
    "luster": "luster",
    "odor": "odor of the dry wood as it is worked",
    "color_with_age": "where the color goes in light; browns is toward brown",
    "oily_or_resinous": "oil, resin or gum in the wood",
    "blunting": "how fast it dulls edges",
    "workability": "how it works, where print says so; blunting is apart",
    "dries": "how it dries, where print says so",
    "availability_note": "what the handbook says of its supply in 2010",
}
#: Cells that are always our own judgment: no table prints them.
JUDGED = ("heartwood_lightness", "sold_as_hue", "sold_as_lightness")
_CELL_BASES = (CHECKED, SECOND_HAND, EDITORIAL, UNCHECKED)


def basis_column(cell: str) -> str:
    """The column that says how a cell of looks is known: 'texture_basis' for 'texture'."""
    return f"{cell}_basis"


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
