"""All woods at once, as the background of a picture of a few."""

from __future__ import annotations

from collections.abc import Collection

from woodref.choose.candidates import TABLE, candidates_connection
from woodref.reference.library import Reference


def hardness_and_density(
    reference: Reference, without: Collection[str] = ()
) -> tuple[tuple[float, float], ...]:
    """Density at 12 % [kg/m3] and side hardness at 12 % [N] of every wood that has both.

    Parameters: reference library; without, species_id of woods left out.
    Returns: pairs, in the order of density.
    """
    with candidates_connection(reference) as connection:
        rows = connection.execute(
            f"select species_id, density_kg_m3, side_hardness_n from {TABLE} "
            "where density_kg_m3 is not null and side_hardness_n is not null "
            "order by density_kg_m3, side_hardness_n, species_id"
        ).fetchall()
    return tuple((float(d), float(h)) for i, d, h in rows if i not in without)
