"""What weight and movement of a wood are computed with: one row per wood, in one query.

A catalog of millions of boards joins its rows to these. They are the figures a look-up of one
wood uses, chosen in the same order.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import duckdb

from woodref.board.movement_basis import MovementMethod, movement_basis
from woodref.board.weight import density_of, wood_shrinkage
from woodref.choose.gathered import (
    GATHERED_FROM,
    chosen_movement_sql,
    figures_sql,
    make_figures,
    movement_figures_sql,
    own_values_of,
)
from woodref.errors import NoDataError
from woodref.formulas.density import (
    basic_specific_gravity_from,
    basic_specific_gravity_from_general,
    volumetric_shrinkage_general,
)
from woodref.record import record
from woodref.reference.bases import BASES, ESTIMATED, IMPLIED, OWN, weakest
from woodref.reference.fiber_saturation import SD_PCT
from woodref.reference.library import Reference
from woodref.reference.query import locked_connection
from woodref.reference.woods import Wood

_column = duckdb.ColumnExpression


@record
class Coefficients:
    """What weight and movement of a wood are computed with, None for what is not known.

    Weight: ``basic_specific_gravity`` [1], ``volumetric_pct`` shrinkage [%] spread over
    ``fiber_saturation_pct`` [%], ``gravity_cv`` between single boards [1].
    Movement: ``by_change``, whether the two figures are changes per 1 % [%/%] in place of
    shrinkages [%]; ``tangential``, ``radial`` with their standard deviations;
    ``tangential_per_pct``, ``radial_per_pct`` the coefficients that govern from 6 to 14 % [1/%];
    ``point_cv`` of the fiber saturation point, 0 for a change per 1 % [1].
    ``density_basis``, ``movement_basis`` the weakest basis of the figures of either, and
    ``movement_method`` a value of MovementMethod.
    """

    species_id: str
    common_name: str
    kind: str
    fiber_saturation_pct: float
    basic_specific_gravity: float | None = None
    volumetric_pct: float | None = None
    gravity_cv: float | None = None
    density_basis: str | None = None
    movement_method: str | None = None
    by_change: bool | None = None
    tangential: float | None = None
    radial: float | None = None
    tangential_sd: float | None = None
    radial_sd: float | None = None
    tangential_per_pct: float | None = None
    radial_per_pct: float | None = None
    point_cv: float | None = None
    movement_basis: str | None = None


def coefficients(
    reference: Reference, species_ids: Iterable[str] | None = None
) -> dict[str, Coefficients]:
    """The coefficients of woods by species_id, own figures before printed ones.

    Parameters: reference; species_ids, all woods of the library where none are named.
    """
    own = own_values_of(reference) if reference.uses_own else {}
    connection = locked_connection(
        reference.store.folder,
        lambda prepared: make_figures(prepared, own),
        tables=GATHERED_FROM,
    )
    try:
        where, named = "", []
        if species_ids is not None:
            where, named = "where species_id in (select unnest(?::varchar[]))", [list(species_ids)]
        rows = connection.execute(_coefficients_sql(where), named).fetchall()
    finally:
        connection.close()
    known = {row[0]: Coefficients(*row) for row in rows}
    # The few woods without a density of their own have that of their genus, or none.
    blank = [i for i, c in known.items() if c.basic_specific_gravity is None]
    return known | {i: coefficients_of(w) for i, w in reference.woods(blank).items()}


def coefficients_of(wood: Wood) -> Coefficients:
    """The coefficients of one wood, or of the mean of a group, from its look-up."""
    known = Coefficients(wood.species_id, wood.common_name, wood.kind, wood.fiber_saturation.pct)
    try:
        dry = density_of(wood, 0.0)
    except NoDataError:
        pass
    else:
        total, basic = wood_shrinkage(wood).total_pct, dry.basic_specific_gravity
        known = replace(
            known,
            basic_specific_gravity=basic,
            volumetric_pct=float(volumetric_shrinkage_general(basic)) if total is None else total,
            gravity_cv=dry.sd_kg_m3 / dry.density_kg_m3,
            density_basis=dry.basis,
        )
    try:
        moves = movement_basis(wood)
    except NoDataError:
        return known
    tangential, radial = moves.tangential_coefficient, moves.radial_coefficient
    return replace(
        known,
        movement_method=moves.method.value,
        by_change=not moves.by_shrinkage,
        tangential=moves.tangential.value,
        radial=moves.radial.value,
        tangential_sd=moves.tangential.sd or 0.0,
        radial_sd=moves.radial.sd or 0.0,
        tangential_per_pct=tangential.value if tangential else None,
        radial_per_pct=radial.value if radial else None,
        point_cv=moves.fiber_saturation.cv if moves.by_shrinkage else 0.0,
        movement_basis=weakest(v.basis for v in moves.values),
    )


def _weakest_sql(*bases: str) -> str:
    """The weakest of some bases as SQL, those that are null left out."""
    order = "[" + ", ".join(f"'{b}'" for b in BASES) + "]"
    places = ", ".join(f"list_position({order}, {b})" for b in bases)
    return f"{order}[greatest({places})]"


def _coefficients_sql(where: str) -> str:
    point, volume = _column("point"), _column("volume")
    at = (_column("gravity_at"), _column("gravity_moisture"))
    basic = (
        f"coalesce({basic_specific_gravity_from(*at, volume, point)}, "
        f"{basic_specific_gravity_from_general(*at, point)}, gravity)"
    )
    general = volumetric_shrinkage_general(_column("basic"))
    method = MovementMethod
    printed = {
        method.SHRINKAGE: "shrinkage_{}_pct",
        method.CHANGE_PER_PCT: "change_per_pct_{}_pct_per_pct",
        method.COEFFICIENT: "dimensional_change_coefficient_{}_per_pct",
    }
    moving = {
        d: "case method "
        + " ".join(f"when '{m.value}' then bases['{c.format(d)}']" for m, c in printed.items())
        + f" when '{method.ESTIMATED.value}' then '{ESTIMATED}' end"
        for d in ("tangential", "radial")
    }
    of_governing = [
        f"case when {d}_per_pct is not null "
        f"then bases['dimensional_change_coefficient_{d}_per_pct'] end"
        for d in ("tangential", "radial")
    ]
    of_shrinkage = (
        "case when shrinkage_volumetric_pct is not null then bases['shrinkage_volumetric_pct'] "
        "when pair_t is not null then null "
        f"when implied_volumetric is not null then '{IMPLIED}' "
        f"when volume is not null then '{ESTIMATED}' end"
    )
    of_pair = [
        "case when shrinkage_volumetric_pct is null and pair_t is not null "
        f"then bases['shrinkage_{d}_pct'] end"
        for d in ("tangential", "radial")
    ]
    of_gravity = (
        f"case when own_gravity is not null then '{OWN}' "
        f"when gravity_basis = '{IMPLIED}' then coalesce(from_basis, gravity_basis) "
        "else gravity_basis end"
    )
    return f"""
    with {figures_sql()},
    gathered as (
        select s.*, bases, gravity_basis, own_gravity, from_basis, implied_volumetric,
            shrinkage_volumetric_pct, {movement_figures_sql()}
        from (select species_id, common_name, kind, fiber_saturation_pct, shrinkage_relation
            from species {where}) s
        left join wide using (species_id)
        left join shrinkage_relations on relation_id = s.shrinkage_relation
        left join own_densities using (species_id)
        left join turned_back using (species_id)
        left join implied_shrinkage using (species_id)),
    weighed as (
        select *, {basic} as basic, governing_t as tangential_per_pct,
            governing_r as radial_per_pct
        from (select *, {chosen_movement_sql()} from gathered))
    select species_id, common_name, coalesce(kind, ''), point, basic,
        case when basic is not null then coalesce(volume, {general}) end,
        case when basic is not null then coalesce(gravity_cv, 0.0) end,
        case when basic is not null then {_weakest_sql(of_gravity, of_shrinkage, *of_pair)} end,
        method, method = '{method.CHANGE_PER_PCT.value}',
        moving_t, moving_r,
        case when method is not null then coalesce(moving_t_sd, 0.0) end,
        case when method is not null then coalesce(moving_r_sd, 0.0) end,
        tangential_per_pct, radial_per_pct,
        case when method = '{method.CHANGE_PER_PCT.value}' then 0.0
        when method is not null then {SD_PCT!r} / point end,
        case when method is not null then {_weakest_sql(*moving.values(), *of_governing)} end
    from weighed order by species_id
    """
