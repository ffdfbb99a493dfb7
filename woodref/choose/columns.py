"""Every column a wood can be chosen by: one catalogue for profiles, limits and conditions.

The columns of the species table come from woodref.reference.fields; those computed here and
the printed classes turned into numbers are declared below. woodref.choose.candidates fills
them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from math import hypot
from typing import Any, NamedTuple

from woodref.record import record
from woodref.reference.declared.woods import SPECIES
from woodref.reference.fiber_saturation import GENERAL_PCT, SD_PCT
from woodref.reference.properties import CONDITIONS, PROPERTIES, wide_columns

#: Width the seasonal change of a wood is told for [mm].
CHANGE_WIDTH_MM = 300.0


#: Groups of columns of which the first that is known whole is used.
Alternatives = tuple[tuple[str, ...], ...]


class Marked(NamedTuple):
    """Whether a figure rests on a recalled one; on one estimated, second hand or of a range."""

    unchecked: bool = False
    rough: bool = False

    @classmethod
    def of(cls, marked: Iterable[Marked]) -> Marked:
        """How sure a figure is that rests on several."""
        every = tuple(marked)
        return cls(any(m.unchecked for m in every), any(m.rough for m in every))


@record
class ChoiceColumn:
    """One column: its name, unit included, type (number, text, boolean), label and meaning.

    ``kind`` how a number prints (woodref.units.KINDS); ``cv_pct`` coefficient of variation
    between the boards of a wood, None where none is known; ``inputs`` what it is
    computed from, of each group of alternatives the first that is known whole; ``scale`` the
    first words of the scale of a printed class, ``classes`` what each printed class counts as,
    ``lead`` the word every class begins with, ``worst`` 'max' or 'min', whichever class is the
    poorer.

    ``label_us`` the label in US units where it holds a length; ``per_width`` true for a change
    of CHANGE_WIDTH_MM in SI, of a foot in US units; ``priced`` true where it takes a price
    list; ``lack`` what a table would have to hold where that is not the column itself.

    ``property_id`` and ``condition`` of a printed property, '' for any other column.
    """

    name: str
    type: str
    label: str
    description: str
    kind: str = ""
    cv_pct: float | None = None
    inputs: tuple[Alternatives, ...] = ()
    scale: str = ""
    classes: Mapping[str, float] = field(default_factory=dict)
    lead: str = ""
    worst: str = "min"
    label_us: str = ""
    per_width: bool = False
    priced: bool = False
    lack: str = ""
    property_id: str = ""
    condition: str = ""

    @property
    def of_species(self) -> bool:
        """True for a column of the species table."""
        return self.name in SPECIES.columns

    @property
    def is_measured(self) -> bool:
        """True for a measured property; false for classes, shares of pieces and truths."""
        return self.type == "number" and not self.scale

    @property
    def is_share(self) -> bool:
        """True for a share of pieces, of which no spread is printed."""
        return bool(self.scale) and not self.classes

    @property
    def is_ordered(self) -> bool:
        """True where more and less make sense: a number, or yes and no."""
        return self.type != "text"

    def rests_on(self, known: Callable[[str], bool]) -> frozenset[str]:
        """Itself and the columns it is computed from, for a wood of which some are known.

        Parameters: known, whether a column of the species table is.
        """
        used = {self.name}
        for alternatives in self.inputs:
            used.update(next((a for a in alternatives if all(map(known, a))), ()))
        return frozenset(used)

    def marked(self, row: Mapping[str, Any]) -> Marked:
        """How sure the column is of a wood, by what it rests on.

        Parameters: row of the table of candidates.
        """
        rests_on = self.rests_on(lambda name: row[name] is not None)
        return Marked(*(bool(rests_on & set(row[key] or ())) for key in Marked._fields))

    def words(self, value: object) -> str:
        """The printed class a number stands for, '' where the column is no class."""
        return next((c for c, n in self.classes.items() if n == value), "")


_SHRINKAGES = ("shrinkage_tangential_pct", "shrinkage_radial_pct")
_CHANGES = ("change_per_pct_tangential_pct_per_pct", "change_per_pct_radial_pct_per_pct")
_COEFFICIENTS = (
    "dimensional_change_coefficient_tangential_per_pct",
    "dimensional_change_coefficient_radial_per_pct",
)


def _printed() -> list[ChoiceColumn]:
    """The columns of the species table."""
    properties = {column: (PROPERTIES[p], c) for p, c, column in wide_columns()}
    columns = []
    for f in SPECIES.fields:
        if f.name not in properties and f.type == "number":
            label = f.name.removesuffix("_pct").replace("_", " ")
            columns.append(ChoiceColumn(f.name, "number", label, f.description, "percent"))
            continue
        if f.name not in properties:
            columns.append(ChoiceColumn(f.name, "text", f.name.replace("_", " "), f.description))
            continue
        p, condition = properties[f.name]
        usual = condition == p.columns[0][0]
        columns.append(
            ChoiceColumn(
                f.name,
                "number",
                p.label if usual else f"{p.label}, {CONDITIONS[condition].partition(':')[0]}",
                f.description,
                p.kind,
                p.cv_pct,
                property_id=p.property_id,
                condition=condition,
            )
        )
    return columns


def _share(name: str, label: str, scale: str) -> ChoiceColumn:
    return ChoiceColumn(
        f"{name}_pct",
        "number",
        label,
        f"{scale}, FPL-GTR-113 (1999) Table 3-8 (unchecked)",
        "share",
        scale=f"{scale}, FPL-GTR-113",
    )


#: Coefficients of variation of movement between the boards of a wood: that of the shrinkage and
#: that of the fiber saturation point it is spread over; of a ratio, that of two shrinkages [%].
_MOVES_CV_PCT = hypot(15.0, 100.0 * SD_PCT / GENERAL_PCT["other"])
_RATIO_CV_PCT = hypot(15.0, 15.0)

_COMPUTED = [
    ChoiceColumn(
        "seasonal_change_mm_per_300mm",
        "number",
        "change across 300 mm, flat sawn",
        "change of 300 mm of width, flat sawn, between the driest and the wettest month of the "
        "place and setting, else between 6 and 10 % moisture content; by shrinkage estimated from "
        "density where none is printed",
        "change_end",
        _MOVES_CV_PCT,
        ((_SHRINKAGES, _CHANGES, _COEFFICIENTS),),
        label_us="change across 12 in, flat sawn",
        per_width=True,
        lack="shrinkage",
    ),
    ChoiceColumn(
        "seasonal_change_quarter_mm_per_300mm",
        "number",
        "change across 300 mm, quarter sawn",
        "the same, quarter sawn",
        "change_end",
        _MOVES_CV_PCT,
        ((_SHRINKAGES, _CHANGES, _COEFFICIENTS),),
        label_us="change across 12 in, quarter sawn",
        per_width=True,
        lack="shrinkage",
    ),
    ChoiceColumn(
        "tangential_over_radial",
        "number",
        "tangential over radial",
        "movement along the rings over that across them; the nearer to 1, the less it cups",
        "tenths",
        _RATIO_CV_PCT,
        ((_SHRINKAGES, _CHANGES, _COEFFICIENTS),),
        lack="shrinkage",
    ),
    ChoiceColumn(
        "density_kg_m3",
        "number",
        "density at 12 %",
        "density at 12 % moisture content, from basic specific gravity and shrinkage, else as "
        "printed",
        "density",
        10.0,
        (
            (
                ("basic_specific_gravity",),
                ("specific_gravity_12pct",),
                ("density_12pct_kg_m3",),
                ("density_air_dry_kg_m3",),
            ),
            (("shrinkage_volumetric_pct",), _SHRINKAGES),
        ),
    ),
    ChoiceColumn(
        "price_per_board_foot",
        "number",
        "price a board foot",
        "price of a board foot in the thickness asked for, in the currency of the price list",
        "money",
        priced=True,
        lack="a price",
    ),
    ChoiceColumn(
        "price_per_m3",
        "number",
        "price a cubic meter",
        "the same for a cubic meter",
        "money",
        priced=True,
        lack="a price",
    ),
    ChoiceColumn(
        "controlled",
        "boolean",
        "trade control",
        "true where a trade control is recorded for the wood; rules change, check the list",
    ),
    ChoiceColumn("control", "text", "trade control", "the listing recorded, empty for none"),
    ChoiceColumn(
        "stock",
        "text",
        "stock",
        "how yards of the region stock it: commonly stocked, specialty, seldom, not in trade; "
        "common practice",
    ),
    ChoiceColumn(
        "hue", "text", "hue", "hue of the wood as sold, brown or another word; typical, no test"
    ),
    ChoiceColumn(
        "lightness",
        "number",
        "lightness",
        "lightness of the wood as sold, 1 palest to 5 darkest; our judgment",
        "tenths",
    ),
    ChoiceColumn(
        "allergen",
        "boolean",
        "dust named for allergy",
        "true where a document names its dust a sensitizer, or for asthma, allergy or dermatitis; "
        "false says only that none of ours does",
    ),
]

_RATED = [
    ChoiceColumn(
        "decay_resistance_class",
        "number",
        "decay resistance",
        "decay resistance of heartwood, 1 slightly or nonresistant to 4 very resistant, "
        "FPL-GTR-190 (2010) Table 14-1",
        "count",
        scale="decay resistance of heartwood, four classes, FPL-GTR-190",
        classes={
            "Slightly or nonresistant": 1,
            "Moderately resistant": 2,
            "Resistant": 3,
            "Very resistant": 4,
        },
    ),
    ChoiceColumn(
        "decay_resistance_three_class",
        "number",
        "decay resistance, three classes",
        "decay resistance of heartwood, 1 slightly or nonresistant to 3 resistant or very "
        "resistant, FPL-0153 (1967), woods of the United States alone",
        "count",
        scale="decay resistance of heartwood, three classes, FPL-0153",
        classes={
            "Slightly or nonresistant": 1,
            "Moderately resistant": 2,
            "Resistant or very resistant": 3,
        },
    ),
    ChoiceColumn(
        "bonding_class",
        "number",
        "ease of bonding",
        "ease of bonding, 1 with difficulty to 4 easily, FPL-GTR-190 (2010) Table 10-1",
        "count",
        scale="ease of bonding, four classes",
        classes={
            "Bond with difficulty": 1,
            "Bond satisfactorily": 2,
            "Bond well": 3,
            "Bond easily": 4,
        },
        lead="Bond",
    ),
    ChoiceColumn(
        "paintability_class",
        "number",
        "paintability",
        "how well it holds latex paint, 1 easiest to 3 hardest, FPL-GTR-190 (2010) Table 16-1",
        "count",
        scale="paintability with latex paint",
        classes={"I": 1, "II": 2, "III": 3},
        worst="max",
    ),
    ChoiceColumn(
        "small_pores",
        "boolean",
        "small pores",
        "true for small pores, false for large ones, FPL-GTR-113 (1999) (unchecked)",
        scale="size of pores",
        classes={"large pores": 0, "small pores": 1},
    ),
    ChoiceColumn(
        "pore_arrangement",
        "text",
        "pores",
        "pore arrangement: D diffuse, SR semi-ring or R ring porous, FPL-GTR-190 (2010) Table 16-1",
        scale="pore arrangement",
    ),
    ChoiceColumn(
        "heartwood_color",
        "text",
        "heartwood",
        "heartwood color, FPL-GTR-190 (2010) Table 16-1",
        scale="heartwood color",
    ),
    _share("planing", "planing", "planing, share of perfect pieces"),
    _share("shaping", "shaping", "shaping, share of good to excellent pieces"),
    _share("turning", "turning", "turning, share of fair to excellent pieces"),
    _share("boring", "boring", "boring, share of good to excellent pieces"),
    _share("mortising", "mortising", "mortising, share of fair to excellent pieces"),
    _share("sanding", "sanding", "sanding, share of good to excellent pieces"),
    _share("steam_bending", "steam bending", "steam bending, share of unbroken pieces"),
    _share("nailing", "nailing", "nailing, share of pieces free from splits"),
    _share("screwing", "screwing", "screwing, share of pieces free from splits"),
]

#: Every column by its name, those of the species table first.
COLUMNS: dict[str, ChoiceColumn] = {c.name: c for c in (*_printed(), *_COMPUTED, *_RATED)}
#: The columns filled from printed classes.
RATED: tuple[ChoiceColumn, ...] = tuple(_RATED)
#: The columns that need a price list.
PRICED: tuple[str, ...] = tuple(c.name for c in COLUMNS.values() if c.priced)


def price_column(units: str) -> str:
    """The name of the price in a system of units: a board foot in 'us', a cubic meter in 'si'."""
    return "price_per_board_foot" if units == "us" else "price_per_m3"


def valued_sql(n: int, column: ChoiceColumn, known: str = "") -> str:
    """SQL of the value of a column as ``v0`` and its spread between single boards as ``s0``.

    Parameters: n the number in either name; column; known a condition the value must meet to be
    known, '> 0', '' for none.
    """
    value = f"{column.name}::double"
    if known:
        value = f"case when {value} {known} then {value} end"
    return f"{value} as v{n}, coalesce(sds['{column.name}'], 0.0) as s{n}"
