"""The words by which a wood's look, working, uses and stock are told; light to import."""

from __future__ import annotations

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


def basis_column(cell: str) -> str:
    """The column that says how a cell of looks is known: 'texture_basis' for 'texture'."""
    return f"{cell}_basis"
