"""The first steps in order: read, normalize, reconcile; all tables as typed frames."""

from __future__ import annotations

import sys

import pandas as pd

from pipeline.accuracy import accuracy_table
from pipeline.compiled import with_uncertainty
from pipeline.cross_validation import handbook_gravities
from pipeline.fiber_saturation import fiber_saturation_table, point_of_each
from pipeline.identify import build_registry
from pipeline.implied import (
    gravity_spreads,
    implied_table,
    preferred_figures,
    shrinkages_of,
)
from pipeline.means import means_of_woods, with_means
from pipeline.measurements import measurements
from pipeline.names import names_table
from pipeline.publications import source_ids, sources_table
from pipeline.read import read_origins
from pipeline.reconcile import corroborate, disagreements, prefer, unit_counterparts
from pipeline.relations import relation_of, relations_table
from pipeline.sanity import outside_limits, plausibility_flags
from pipeline.schemas import shaped
from pipeline.sources.auxiliary_tables import auxiliary_tables
from pipeline.sources.cautions import cautions
from pipeline.sources.climate import climate
from pipeline.sources.looks import called, listed_names, looks, plain_common_names
from pipeline.sources.ratings import ratings
from pipeline.sources.technical_tables import technical_tables
from pipeline.sources.world import world
from pipeline.species import groups_table, properties_table, rejected_attributes, species_table
from pipeline.strengths import estimates_table, functions_table, off_the_functions
from woodref.reference.bases import CORROBORATED
from woodref.reference.fields import TABLES

#: Columns the steps work with that are not published.
_INTERNAL = ("botanical", "repeats", "counterpart_table", "wood_kind")


def say(step: str, text: str) -> None:
    """One line of progress on stderr."""
    print(f"{step:<10} {text}", file=sys.stderr, flush=True)


def _with_flags(densities: pd.DataFrame) -> pd.DataFrame:
    """The compiled densities with the columns the reconciliation works with.

    They are judged by the limits of physical sense alone: the other rules would measure the
    tables they are drawn from by their own shadow.
    """
    out = densities.assign(
        unit_counterpart_id="",
        plausibility_flag="",
        sample="",
        grown_in="",
        test_standard="",
        counterpart_table="",
        wood_kind="",
    )
    reasons = dict(outside_limits(list(out.itertuples(index=False))))
    return out.assign(plausibility_flag=out["measurement_id"].map(lambda i: reasons.get(i, "")))


def assemble() -> dict[str, pd.DataFrame]:
    """All tables of the dataset as typed frames, in the order of fields.TABLES.

    Raises: ValueError, KeyError for a source table the declarations do not fit.
    """
    origins = read_origins()
    registry = build_registry()
    say("read", f"{len(origins['tables'])} source tables, {len(registry.woods)} woods")
    cells, rejected = measurements(registry, source_ids(origins))
    say("normalize", f"{len(cells)} printed numbers, {len(rejected)} cells set aside")
    own, own_rejected = auxiliary_tables(origins, registry)
    rated, ratings_rejected = ratings(registry, origins)
    warned = cautions(registry, origins)
    weather = climate(origins)
    technical, technical_rejected = technical_tables(origins, registry, weather.places)
    sources = pd.concat([sources_table(origins), warned.sources], ignore_index=True)

    cells["unit_counterpart_id"] = unit_counterparts(cells)
    cells["wood_kind"] = cells["species_id"].map(lambda s: registry.woods[s]["kind"])
    cells = corroborate(cells)
    cells["plausibility_flag"] = plausibility_flags(cells)
    means = means_of_woods(cells)
    cells = with_means(cells, means)
    named = cells
    more = world(registry, origins)
    say("world", f"{len(more.measurements)} densities, {len(more.woods)} more woods")
    compiled = with_uncertainty(more.measurements, handbook_gravities(cells), more.density)
    cells = prefer(pd.concat([cells, _with_flags(compiled)], ignore_index=True), sources)
    differing = disagreements(cells, sources)
    say(
        "reconcile",
        f"{int(cells['preferred'].sum())} preferred, "
        f"{int(cells['plausibility_flag'].ne('').sum())} outside physical sense, "
        f"{int(cells['basis'].eq(CORROBORATED).sum())} corroborated, "
        f"{len(differing)} disagreements",
    )
    names = pd.concat([names_table(registry, named), more.names]).drop_duplicates(
        ["name_key", "name_kind", "species_id"]
    )
    registry.woods.update({k: v for k, v in more.woods.items() if k not in registry.woods})
    looked = looks(registry, origins)
    common = plain_common_names(looked.tables["looks"], names, registry.woods)
    names = pd.concat([names, listed_names(looked.tables["looks"], names, common)])
    for species_id, name in common.items():
        registry.woods[species_id] = registry.woods[species_id] | {"common_name": name}
    meant = called(names, looked.tables["looks"], origins)
    say("looks", f"{len(looked.tables['looks'])} woods, {len(looked.tables['uses_of_woods'])} uses")
    origin = {i: relation_of(wood["origin"]) for i, wood in registry.woods.items()}
    points = fiber_saturation_table(cells)
    point_of = point_of_each(points, origin)
    relations = relations_table(cells, point_of)
    implied = implied_table(cells, origin, relations, point_of)
    species = species_table(registry, cells, implied, points)
    figures = preferred_figures(cells)
    shrinkages = shrinkages_of(species, relations, implied, figures)
    off = off_the_functions(cells, species, technical["specific_gravity_functions"], shrinkages)
    functions = functions_table(technical["specific_gravity_functions"], off)
    chosen = {str(s) for t in ("looks", "stock") for s in looked.tables[t]["species_id"]}
    spreads = gravity_spreads(implied, figures)
    frames = {
        "species": species,
        "estimates": estimates_table(cells, species, functions, shrinkages, spreads, chosen),
        "names": names,
        "groups": groups_table(registry, cells),
        "properties": properties_table(means),
        "measurements": cells.drop(columns=list(_INTERNAL)),
        "density": more.density,
        "fiber_saturation": points,
        "implied": implied,
        "shrinkage_relations": relations,
        "strength_functions": functions,
        "accuracy": accuracy_table(cells, more.density, off, point_of),
        "ratings": rated,
        "sources": sources.sort_values("source_id"),
        "cautions": warned.cautions,
        "rejected": pd.concat(
            [
                rejected,
                own_rejected,
                technical_rejected,
                ratings_rejected,
                warned.rejected,
                more.rejected,
                rejected_attributes(registry),
                looked.rejected,
                meant.rejected,
            ],
            ignore_index=True,
        ),
        "disagreements": differing,
        "places": weather.places,
        "climate": weather.climate,
        **looked.tables,
        **meant.tables,
        **own,
        **technical,
    }
    return {name: shaped(frames[name], table) for name, table in TABLES.items()}
