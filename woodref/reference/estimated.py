"""What no table prints of a wood: what its other figures imply, and estimates.

Implied from printed figures of the same wood: basic specific gravity from another density,
volumetric shrinkage from two gravities. Estimated: shrinkage from density, density from the
genus.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot
from typing import Any

from woodref.formulas.density import basic_specific_gravity_from, volumetric_shrinkage
from woodref.reference.bases import ESTIMATED, IMPLIED, READ, in_words
from woodref.reference.densities import (
    OTHER_DENSITIES,
    Printed,
    basic_by_line,
    implied_shrinkage,
    line_sd,
    shrinkage_by_line,
    stand_ins,
)
from woodref.reference.properties import PROPERTIES
from woodref.reference.store import Store
from woodref.reference.woods import SpreadParts, Value, Wood

_CONDITION = "range"
#: Coefficient of variation between the species of a genus above which the genus says too
#: little of a species for one number [%].
GENUS_LIMIT_PCT = 15.0
_LEAST_SPECIES = 2


def has_density(wood: Wood) -> bool:
    """True where a table holds a density or specific gravity of the wood that can be used."""
    return any("gravity" in p or "density" in p for p, _ in wood.values)


def printed_shrinkage(wood: Wood) -> float | None:
    """Volumetric shrinkage in print [%]: the wood's own, else from radial and tangential."""
    own = wood.value("shrinkage_volumetric")
    if own:
        return own.value
    pair = printed_pair(wood)
    return float(volumetric_shrinkage(*(v.value for v in pair))) if pair else None


def printed_pair(wood: Wood) -> tuple[Value, Value] | None:
    """Radial and tangential shrinkage in print, None where either is missing."""
    radial, tangential = wood.value("shrinkage_radial"), wood.value("shrinkage_tangential")
    return (radial, tangential) if radial and tangential else None


def needs_estimates(wood: Wood) -> bool:
    """True where no table prints the basic specific gravity of a wood, or how much it shrinks."""
    pair = wood.value("shrinkage_radial") and wood.value("shrinkage_tangential")
    return not (wood.value("basic_specific_gravity") and pair)


def density_figures(wood: Wood) -> tuple[list[Value], list[Printed]]:
    """The printed densities of a wood that are no basic gravity, and what is needed of them.

    The mean of a group whose members were tested at moisture contents of their own is none.
    """
    values = [
        v
        for p, moisture_pct in OTHER_DENSITIES.items()
        if (v := wood.value(p)) and not (moisture_pct is None and v.members > 1)
    ]
    return values, [
        Printed(v.property_id, v.value, v.moisture_content_pct, v.sample) for v in values
    ]


def implied_gravity(wood: Wood, relation: Mapping[str, Any]) -> Value | None:
    """Basic specific gravity turned back from another printed density of the wood.

    Parameters: wood; relation the row of shrinkage_relations for a wood without shrinkage.
    Returns: the value with basis 'implied', None where no density of known moisture is printed.
    Source: FPL-GTR-282 (2021), Eq. 4-9 to 4-14, pp. 4-10 to 4-12.
    """
    values, figures = density_figures(wood)
    found = stand_ins(figures)
    if not found:
        return None
    best, used = found[0], values[found[0].which]
    total_pct, point = printed_shrinkage(wood), wood.fiber_saturation.pct
    if total_pct is None:
        basic = basic_by_line(best.gravity, best.moisture_pct, relation, point)
    else:
        basic = float(
            basic_specific_gravity_from(best.gravity, best.moisture_pct, total_pct, point)
        )
    p = PROPERTIES["basic_specific_gravity"]
    parts = used.known_parts.scaled(basic / used.value)
    return Value(
        property_id=p.property_id,
        condition="green",
        value=basic,
        unit=p.si_unit,
        sd=parts.sd,
        spread_parts=parts,
        basis=IMPLIED,
        source=f"{PROPERTIES[used.property_id].label} in {used.source}",
        printed=f"from {PROPERTIES[used.property_id].label} {used.printed}",
        sample=used.sample,
        note="computed from another printed density of this wood",
        source_id=used.source_id,
    )


def _value(
    property_id: str, value: float, parts: SpreadParts, basis: str, source: str, printed: str
) -> Value:
    return Value(
        property_id=property_id,
        condition=_CONDITION,
        value=value,
        unit=PROPERTIES[property_id].si_unit,
        sd=parts.sd,
        spread_parts=parts,
        basis=basis,
        source=source,
        printed=printed,
        note="an estimate, not a measurement of this wood",
    )


def implied_volumetric(wood: Wood, relation: Mapping[str, Any]) -> Value | None:
    """Volumetric shrinkage that basic and 12 % specific gravity imply together.

    Parameters: as implied_gravity.
    Returns: the value with basis 'implied', None where print does not tell both gravities, or
    the estimate from density says more.
    Source: woodref.reference.densities.implied_shrinkage.
    """
    basic, dry = wood.value("basic_specific_gravity"), wood.value("specific_gravity_12pct")
    if basic is None or dry is None:
        return None
    implied = implied_shrinkage(basic.value, dry.value, relation, wood.fiber_saturation.pct)
    if implied is None:
        return None
    between_boards = (PROPERTIES["shrinkage_volumetric"].cv_pct or 0.0) / 100.0
    return _value(
        "shrinkage_volumetric",
        implied.volumetric_pct,
        SpreadParts(between_boards * implied.volumetric_pct, estimate=implied.sd_pct),
        IMPLIED,
        "; ".join(dict.fromkeys((basic.source, dry.source))),
        f"from specific gravity {basic.value:.2f} green and {dry.value:.2f} at 12 %",
    )


def estimated_volumetric(gravity: Value, relation: Mapping[str, Any]) -> Value:
    """Volumetric shrinkage by the line fitted to the woods of a group of regions.

    The standard deviation joins that of the line in its density class and of the gravity;
    boards differ in shrinkage as they do where it is printed.

    Parameters: gravity the basic specific gravity of the wood; relation a row of the table
    shrinkage_relations.
    Source: the method of the relation; bias and spread stand in QUALITY.md.
    """
    volumetric = shrinkage_by_line(gravity.value, relation)
    slope = relation["slope_pct"] if gravity.value < relation["greatest_gravity"] else 0.0
    between_boards = (PROPERTIES["shrinkage_volumetric"].cv_pct or 0.0) / 100.0 * volumetric
    of_line = hypot(line_sd(gravity.value, relation), slope * (gravity.sd or 0.0))
    mark = "" if gravity.basis in READ else f" [{in_words(gravity.basis)}]"
    return _value(
        "shrinkage_volumetric",
        volumetric,
        SpreadParts(between_boards, estimate=of_line),
        ESTIMATED,
        f"estimated: {relation['method']}; basic specific gravity from {gravity.source}",
        f"from basic specific gravity {gravity.value:.2f}{mark}",
    )


def estimated_shrinkage(
    gravity: Value, relation: Mapping[str, Any], implied: Value | None = None
) -> dict[tuple[str, str], Value]:
    """Volumetric, tangential and radial shrinkage of a wood without them in print.

    Volumetric shrinkage is the implied one, else by the fitted line; tangential and radial are
    shares of it. Their standard deviation joins that of the share.

    Parameters: gravity the basic specific gravity of the wood; relation a row of the table
    shrinkage_relations; implied the volumetric shrinkage its gravities imply, where they do.
    Returns: values by (property, condition), basis 'estimated', or 'implied' for a volumetric
    shrinkage that is.
    """
    whole = implied or estimated_volumetric(gravity, relation)
    return {(whole.property_id, whole.condition): whole} | shares_of_volumetric(whole, relation)


def shares_of_volumetric(whole: Value, relation: Mapping[str, Any]) -> dict[tuple[str, str], Value]:
    """Tangential and radial shrinkage as the usual shares of the volumetric one.

    Parameters: whole the volumetric shrinkage, printed, implied or estimated; relation a row of
    the table shrinkage_relations.
    Returns: values by (property, condition), basis 'estimated'.
    """
    out = {}
    for direction in ("tangential", "radial"):
        share, share_sd = relation[f"{direction}_share"], relation[f"{direction}_share_sd"]
        property_id, parts = f"shrinkage_{direction}", whole.known_parts.scaled(share)
        out[property_id, _CONDITION] = _value(
            property_id,
            share * whole.value,
            parts._replace(estimate=hypot(parts.estimate, share_sd * whole.value)),
            ESTIMATED,
            whole.source
            if whole.basis == ESTIMATED
            else f"estimated: {share:.2f} of the volumetric shrinkage; {whole.source}",
            f"{share:.2f} of the volumetric shrinkage {whole.printed}",
        )
    return out


def implied_and_estimated(wood: Wood, relation: Mapping[str, Any]) -> dict[tuple[str, str], Value]:
    """What print does not tell of a wood with a density: implied gravity, and shrinkages.

    Parameters: wood with a density in print; relation the row of shrinkage_relations for it.
    """
    out: dict[tuple[str, str], Value] = {}
    gravity = wood.value("basic_specific_gravity")
    if gravity is None:
        gravity = implied_gravity(wood, relation)
        if gravity is None:
            return out
        out[gravity.property_id, gravity.condition] = gravity
    volumetric = wood.value("shrinkage_volumetric")
    if volumetric and printed_pair(wood) is None:
        out |= shares_of_volumetric(volumetric, relation)
    elif printed_shrinkage(wood) is None:
        out |= estimated_shrinkage(gravity, relation, implied_volumetric(wood, relation))
    return out


def genus_density(wood: Wood, store: Store) -> Value | None:
    """Basic specific gravity of the species of a wood's genus: mean, spread and ends.

    The spread joins that between species with that between boards of one. ``cv_pct`` of the
    value is that between species and boards; the note says how many species.

    Parameters: wood whose own density no table holds; store of the dataset.
    Returns: the value with basis 'estimated', None where fewer than two species are known.
    """
    genus = wood.botanical_name.split()[0]
    rows = store.rows("select * from {ready_genera} where genus = ?", [genus])
    if not rows or rows[0]["species"] < _LEAST_SPECIES:
        return None
    row = rows[0]
    p = PROPERTIES["basic_specific_gravity"]
    between_boards = (p.cv_pct or 0.0) / 100.0 * row["mean"]
    return Value(
        property_id=p.property_id,
        condition="green",
        value=row["mean"],
        unit=p.si_unit,
        sd=hypot(row["sd"], between_boards),
        spread_parts=SpreadParts(between_boards, estimate=row["sd"]),
        basis=ESTIMATED,
        source=f"the {row['species']} species of {genus} in the tables",
        printed=f"{row['low']:.2f} to {row['high']:.2f} in {row['species']} species of {genus}",
        printed_low=row["low"],
        printed_high=row["high"],
        between_sd=row["sd"],
        members=row["species"],
        note="of the genus, not of this wood",
    )
