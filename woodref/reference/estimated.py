"""What no table prints of a wood: shrinkage from its density, density from its genus."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt
from typing import Any

from woodref.reference.bases import ESTIMATED, READ, in_words
from woodref.reference.properties import PROPERTIES
from woodref.reference.store import Store
from woodref.reference.woods import Value, Wood

_CONDITION = "range"
#: Coefficient of variation between the species of a genus above which the genus says too
#: little of a species for one number [%].
GENUS_LIMIT_PCT = 15.0
_LEAST_SPECIES = 2


def has_density(wood: Wood) -> bool:
    """True where a table holds a density or specific gravity of the wood that can be used."""
    return any("gravity" in p or "density" in p for p, _ in wood.values)


def needs_estimates(wood: Wood) -> bool:
    """True where a wood has neither both shrinkages nor both changes per 1 % in print."""
    return not any(
        wood.value(f"{kind}_radial") and wood.value(f"{kind}_tangential")
        for kind in ("shrinkage", "change_per_pct")
    )


def _value(property_id: str, value: float, sd: float, source: str, printed: str) -> Value:
    return Value(
        property_id=property_id,
        condition=_CONDITION,
        value=value,
        unit=PROPERTIES[property_id].si_unit,
        sd=sd,
        basis=ESTIMATED,
        source=source,
        printed=printed,
        note="an estimate, not a measurement of this wood",
    )


def estimated_shrinkage(
    gravity: Value, relation: Mapping[str, Any]
) -> dict[tuple[str, str], Value]:
    """Volumetric, tangential and radial shrinkage from basic specific gravity, with spread.

    Volumetric shrinkage is ``intercept + slope Gb``; tangential and radial are shares of it.
    The standard deviation joins that of the relation, of the gravity and of the share.

    Parameters: gravity the basic specific gravity of the wood; relation a row of the table
    shrinkage_relations.
    Returns: values by (property, condition), basis 'estimated'.
    Source: the method of the relation; bias and spread stand in QUALITY.md.
    """
    volumetric = relation["intercept_pct"] + relation["slope_pct"] * gravity.value
    sd = sqrt(relation["residual_sd_pct"] ** 2 + (relation["slope_pct"] * (gravity.sd or 0.0)) ** 2)
    source = f"estimated: {relation['method']}; basic specific gravity from {gravity.source}"
    mark = "" if gravity.basis in READ else f" [{in_words(gravity.basis)}]"
    printed = f"from basic specific gravity {gravity.value:.2f}{mark}"
    out = {
        ("shrinkage_volumetric", _CONDITION): _value(
            "shrinkage_volumetric", volumetric, sd, source, printed
        )
    }
    for direction in ("tangential", "radial"):
        share, share_sd = relation[f"{direction}_share"], relation[f"{direction}_share_sd"]
        property_id = f"shrinkage_{direction}"
        out[property_id, _CONDITION] = _value(
            property_id,
            share * volumetric,
            sqrt((share * sd) ** 2 + (share_sd * volumetric) ** 2),
            source,
            f"{share:.2f} of the volumetric shrinkage {printed}",
        )
    return out


def genus_density(wood: Wood, store: Store) -> Value | None:
    """Basic specific gravity of the species of a wood's genus: mean, spread and ends.

    The spread joins that between species with that between boards of one. ``cv_pct`` of the
    value is that between species and boards; the note says how many species.

    Parameters: wood whose own density no table holds; store of the dataset.
    Returns: the value with basis 'estimated', None where fewer than two species are known.
    """
    genus = wood.botanical_name.split()[0]
    row = store.rows(
        "select count(*) as species, avg(basic_specific_gravity) as mean, "
        "stddev_samp(basic_specific_gravity) as sd, min(basic_specific_gravity) as low, "
        "max(basic_specific_gravity) as high from {species} "
        "where botanical_name like ? and basic_specific_gravity is not null",
        [f"{genus} %"],
    )[0]
    if row["species"] < _LEAST_SPECIES:
        return None
    p = PROPERTIES["basic_specific_gravity"]
    between_boards = (p.cv_pct or 0.0) / 100.0 * row["mean"]
    return Value(
        property_id=p.property_id,
        condition="green",
        value=row["mean"],
        unit=p.si_unit,
        sd=sqrt(row["sd"] ** 2 + between_boards**2),
        basis=ESTIMATED,
        source=f"the {row['species']} species of {genus} in the tables",
        printed=f"{row['low']:.2f} to {row['high']:.2f} in {row['species']} species of {genus}",
        printed_low=row["low"],
        printed_high=row["high"],
        between_sd=row["sd"],
        members=row["species"],
        note="of the genus, not of this wood",
    )
