"""Woods, their names, and the groups they are sold in."""

from __future__ import annotations

from woodref.reference.bases import BASES, DATA_COVERAGE
from woodref.reference.declared.declaring import (
    BASIS,
    ORIGIN,
    SPECIES_ID,
    SPECIES_KEY,
    Field,
    Table,
    integer,
    number,
    string,
)
from woodref.reference.properties import CONDITIONS, PROPERTIES, wide_columns


def _species_fields() -> tuple[Field, ...]:
    identity = (
        Field(
            "species_id",
            "string",
            SPECIES_ID.description,
            required=True,
            unique=True,
        ),
        string("common_name", "standard commercial name, natural word order", required=True),
        string("botanical_name", "present botanical name or names", required=True),
        string("family", "botanical family"),
        string("kind", "hardwood or softwood", enum=("hardwood", "softwood")),
        string("trade_group", "group of woods the trade sells together"),
        string("origin", "region of origin"),
        string("data_coverage", "how much is known", required=True, enum=tuple(DATA_COVERAGE)),
        string("qualifier", "what sets this wood apart from others of the botanical name"),
        string("note", "what a user of the row must know"),
        string(
            "shrinkage_relation",
            "relation of the table shrinkage_relations that serves where no shrinkage is printed",
            required=True,
        ),
        number(
            "fiber_saturation_pct",
            "fiber saturation point of the wood itself, implied by its printed shrinkage and "
            "dimensional change coefficient (table fiber_saturation); empty where none is: then "
            "30 for woods of North America, 28 for others",
            "%",
        ),
    )
    values = []
    for property_id, condition, column in wide_columns():
        p = PROPERTIES[property_id]
        values.append(
            number(
                column,
                f"preferred value: {p.label}, {CONDITIONS[condition]}; {p.definition}",
                p.si_unit,
                minimum=0.0,
            )
        )
        if column == "basic_specific_gravity":
            values.append(
                string(
                    "basic_specific_gravity_basis",
                    "how that is known; implied where another printed density of the wood was "
                    "turned back to it, see the table implied",
                    enum=tuple(BASES),
                )
            )
    return identity + tuple(values)


SPECIES = Table(
    "species",
    "Woods",
    "One row per wood as traded, with the preferred value of each property. Derived from "
    "measurements, which says where each value comes from.",
    _species_fields(),
    ("species_id",),
)

NAME_KINDS = ("commercial", "botanical", "synonym", "group", "trade")
NAMES = Table(
    "names",
    "Names",
    "Any name a person may type, one row per name and wood it can mean.",
    (
        string("name", "the name as written", required=True),
        string("name_key", "the name folded for look-up", required=True),
        string("species_id", "the wood it can mean", required=True),
        string("name_kind", "commercial, botanical, synonym, group, trade", True, enum=NAME_KINDS),
        Field(
            "ambiguous", "boolean", "true where the name covers several unlike woods", required=True
        ),
        string("note", "what tells the candidates apart, or why this wood answers to the name"),
        integer("position", "order among the woods of one name", required=True, minimum=0),
        BASIS,
        *ORIGIN,
    ),
    ("name_key", "name_kind", "species_id"),
    SPECIES_KEY,
)

GROUPS = Table(
    "groups",
    "Trade groups",
    "Woods sold together under one name, one row per member.",
    (
        string("group_id", "slug of the group name", required=True),
        string("group_name", "name of the group", required=True),
        SPECIES_ID,
        string("note", "where the grouping comes from"),
    ),
    ("group_id", "species_id"),
    SPECIES_KEY,
)
