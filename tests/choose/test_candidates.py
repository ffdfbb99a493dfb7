"""The table of woods to choose from holds what the look-ups of single woods say."""

from __future__ import annotations

from math import hypot
from pathlib import Path

import duckdb
import pytest

from woodref.board.movement import movement
from woodref.board.movement_basis import MovementMethod, movement_basis
from woodref.board.weight import density_of
from woodref.choose import ready
from woodref.choose.candidates import KNOWN, TABLE, candidates_connection
from woodref.choose.columns import COLUMNS
from woodref.choose.gathered import make_figures
from woodref.choose.screening import WELL_KNOWN
from woodref.choose.seasonal_range import SeasonalRange
from woodref.errors import NoDataError
from woodref.formulas.density import greatest_density
from woodref.formulas.spread import likely_range
from woodref.own.intake import take_in
from woodref.reference.cautions import ALL_WOODS, cautions_for
from woodref.reference.library import Reference
from woodref.reference.properties import wide_columns
from woodref.reference.query import locked_connection
from woodref.reference.woods import Wood
from woodref.units import BOARD_FOOT_M3

#: Columns that say how a wood is sold.
SOLD = ("tier", "in_yard", "line", "line_name", "is_meant")


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


@pytest.fixture(scope="module")
def connection(reference: Reference) -> duckdb.DuckDBPyConnection:
    prices = {"prunus-serotina": 8.0 / BOARD_FOOT_M3}
    return candidates_connection(reference, SeasonalRange(5.0, 12.0), prices)


def _rows(connection: duckdb.DuckDBPyConnection, query: str) -> list[tuple[object, ...]]:
    return connection.execute(query).fetchall()


def test_one_row_per_wood_and_every_column(connection: duckdb.DuckDBPyConnection) -> None:
    columns = {r[0] for r in _rows(connection, "describe candidates")}
    assert columns == {*COLUMNS, "unchecked", "estimated", "rough", "sds", *SOLD}
    counts = "select count(*), count(distinct species_id), (select count(*) from species)"
    total, distinct, woods = _rows(connection, f"{counts} from candidates")[0]
    assert total == distinct == woods


def test_the_published_tables_are_those_that_are_made(reference: Reference) -> None:
    def make(connection: duckdb.DuckDBPyConnection) -> None:
        ready.make_woods(connection, {})
        ready.make_sold(connection)
        for table in (ready.WOODS, ready.SOLD):
            path = ready.published(reference.folder, table)
            assert path is not None, table
            connection.execute(f"create table ready_{table} as from read_parquet('{path}')")

    with locked_connection(reference.folder, make) as both:
        for table in (ready.WOODS, ready.SOLD):
            count = f"(select count(*) from {table})"
            unlike = (
                f"select {count} - (select count(*) from (from {table} intersect all "
                f"from ready_{table})), {count} - (select count(*) from ready_{table})"
            )
            assert _rows(both, unlike) == [(0, 0)], table


def test_known_woods_are_those_candidates_by_themselves(reference: Reference) -> None:
    year = SeasonalRange(5.0, 12.0)
    query = "select species_id, seasonal_change_mm_per_300mm, tier from {} where {} order by all"
    whole = candidates_connection(reference, year)
    expected = _rows(whole, query.format(TABLE, WELL_KNOWN))
    assert len(expected) > 400
    assert _rows(whole, query.format(KNOWN, "true")) == expected
    # Each has tables of its own, and closes itself alone.
    first, second = (candidates_connection(reference, year, known_alone=True) for _ in range(2))
    first.close()
    assert _rows(second, query.format(KNOWN, "true")) == expected
    second.close()
    little = "species_id = 'abarema-jupunba'"
    assert _rows(whole, query.format(KNOWN, little)) == []
    with candidates_connection(reference, year, also=["abarema-jupunba"]) as named:
        told = _rows(named, query.format(KNOWN, little))
    assert told == _rows(whole, query.format(TABLE, little))


def test_printed_columns_are_those_of_the_species_table(
    connection: duckdb.DuckDBPyConnection,
) -> None:
    for column in ("side_hardness_n", "shrinkage_tangential_pct", "basic_specific_gravity"):
        unlike = _rows(
            connection,
            f"select count(*) from candidates c join species s using (species_id) "
            f"where c.{column} is distinct from s.{column} "
            f"and not list_contains(c.estimated, '{column}')",
        )
        assert unlike == [(0,)], column


def test_estimates_stand_where_no_table_prints_a_figure(
    connection: duckdb.DuckDBPyConnection, reference: Reference
) -> None:
    rows = _rows(
        connection,
        "select species_id, side_hardness_n, modulus_of_elasticity_mpa, estimated "
        "from candidates where len(estimated) > 0 order by species_id",
    )
    assert len(rows) > 250
    woods = reference.woods(r[0] for r in rows)
    columns = ("side_hardness_n", "modulus_of_elasticity_mpa")
    for species_id, *values, estimated in rows:
        for column, value in zip(columns, values, strict=True):
            property_id = column.rpartition("_")[0]
            printed = woods[species_id].value(property_id)
            assert (printed is None) == (column in estimated) or value is None
            if column in estimated:
                look_up = woods[species_id].estimate(property_id)
                assert value == pytest.approx(look_up.value, rel=1e-3), (species_id, column)


def _basis(wood: Wood) -> str:
    try:
        return movement_basis(wood).tangential.basis
    except NoDataError:
        return "none"


def test_movement_and_density_are_those_of_the_look_up(
    connection: duckdb.DuckDBPyConnection, reference: Reference
) -> None:
    found = _rows(
        connection,
        "select species_id, seasonal_change_mm_per_300mm, "
        "seasonal_change_quarter_mm_per_300mm, density_kg_m3 from candidates "
        "where data_coverage in ('full', 'partial')",
    )
    woods = reference.woods(str(r[0]) for r in found)
    compared = 0
    for species_id, flat, quarter, density in found:
        wood = woods[str(species_id)]
        if flat is not None:
            # An implied gravity is published to four digits.
            near = 1e-4 if _basis(wood) == "estimated" else 1e-6
            assert flat == pytest.approx(movement(wood, 300, 5, 12).change_mm, rel=near)
            assert quarter == pytest.approx(movement(wood, 300, 5, 12, 90).change_mm, rel=near)
            compared += 1
        else:
            assert _basis(wood) == "none"
        if density is not None:
            assert density == pytest.approx(density_of(wood, 12).density_kg_m3)
    assert compared > 200


def test_ranges_of_single_boards_are_those_of_the_look_up(
    connection: duckdb.DuckDBPyConnection, reference: Reference
) -> None:
    rows = _rows(
        connection,
        "select species_id, seasonal_change_mm_per_300mm, seasonal_change_quarter_mm_per_300mm, "
        "tangential_over_radial, density_kg_m3, sds from candidates "
        "where data_coverage in ('full', 'partial')",
    )
    woods = reference.woods(str(r[0]) for r in rows)
    compared = dict.fromkeys(MovementMethod, 0)
    for species_id, flat, quarter, even, density, sds in rows:
        wood = woods[str(species_id)]
        if flat is not None:
            for cut, change, angle in (("", flat, 0.0), ("_quarter", quarter, 90.0)):
                m = movement(wood, 300, 5, 12, angle)
                sd = sds[f"seasonal_change{cut}_mm_per_300mm"]
                assert likely_range(change, sd) == pytest.approx(
                    tuple(m.likely_change_mm)[1:], rel=1e-4
                )
            compared[m.basis.method] += 1
            pair = (m.basis.tangential, m.basis.radial)
            assert even == pytest.approx(pair[0].value / pair[1].value, rel=1e-4)
            spread = hypot(*(v.sd / v.value for v in pair))
            assert sds["tangential_over_radial"] == pytest.approx(even * spread, rel=1e-4)
        if density is not None:
            ends = likely_range(density, sds["density_kg_m3"], high=greatest_density(12))
            d = density_of(wood, 12)
            # An implied gravity is published to four digits.
            assert ends == pytest.approx(tuple(d.likely_kg_m3)[1:], rel=5e-4), species_id
    assert compared[MovementMethod.SHRINKAGE] > 200
    assert compared[MovementMethod.CHANGE_PER_PCT] > 0
    assert compared[MovementMethod.COEFFICIENT] > 0


def test_price_control_and_classes(connection: duckdb.DuckDBPyConnection) -> None:
    cherry = _rows(
        connection,
        "select price_per_board_foot, controlled, control, decay_resistance_class, small_pores, "
        "heartwood_color from candidates where species_id = 'prunus-serotina'",
    )[0]
    assert cherry[:5] == (pytest.approx(8.0), False, "", 2, True)
    controlled = _rows(
        connection,
        "select controlled, control from candidates where species_id = 'dalbergia-nigra'",
    )
    assert controlled == [(True, "CITES Appendix I")]
    assert _rows(connection, "select count(price_per_m3) from candidates") == [(1,)]


def test_spread_and_controls_are_those_of_the_look_up(
    connection: duckdb.DuckDBPyConnection, reference: Reference
) -> None:
    ids = [
        r[0]
        for r in _rows(
            connection, "select species_id from species where data_coverage <> 'density only'"
        )
    ]
    woods = reference.woods(str(i) for i in ids)
    names = {column: (p, c) for p, c, column in wide_columns()}
    with locked_connection(prepare=lambda made: make_figures(made, {})) as figures:
        rows = _rows(figures, "select species_id, name, value, sd from figures")
    compared = 0
    for species_id, name, value, sd in rows:
        wood = woods.get(str(species_id))
        if wood is None or (shown := wood.values.get(names[str(name)])) is None:
            continue
        assert (value, sd) == (shown.value, pytest.approx(shown.sd) if shown.sd else shown.sd)
        compared += 1
    assert compared > 4000
    # Listings of other populations are recorded, but not shown for these woods.
    controlled = _rows(connection, "select species_id from candidates where controlled")
    for species_id in woods:
        cautions = cautions_for(reference, [species_id])
        own = [c for c in cautions if c.kind == "trade control" and c.species_id != ALL_WOODS]
        assert ((species_id,) in controlled) == bool(own), species_id


def test_what_rests_on_memory_is_named(connection: duckdb.DuckDBPyConnection) -> None:
    unlike = _rows(
        connection,
        "select count(*) from candidates c where list_contains(unchecked, 'side_hardness_n') "
        "is distinct from exists (select 1 from measurements m where preferred and "
        "m.species_id = c.species_id and property_id = 'side_hardness' and condition = '12pct' "
        "and basis = 'unchecked')",
    )
    assert unlike == [(0,)]
    assert _rows(
        connection,
        "select count(*) from candidates where planing_pct is not null "
        "and not list_contains(unchecked, 'planing_pct')",
    ) == [(0,)]


def test_own_figures_go_before_printed_ones(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    _store_own(tmp_path)
    query = (
        "select side_hardness_n, density_kg_m3, unchecked from candidates "
        "where species_id = 'tectona-grandis'"
    )
    hardness, density, unchecked = _rows(candidates_connection(Reference()), query)[0]
    assert hardness == 4000.0
    assert density == pytest.approx(density_of(Reference().wood("teak"), 12).density_kg_m3)
    assert density == pytest.approx(700.0)
    assert "side_hardness_n" not in unchecked
    # A board weighed at 8 %: one look-up and one ranking, one density, one range.
    density, sd = _rows(
        candidates_connection(Reference()),
        "select density_kg_m3, sds['density_kg_m3'] from candidates "
        "where species_id = 'prunus-serotina'",
    )[0]
    weighed = density_of(Reference().wood("black cherry"), 12)
    assert weighed.values[0].value == 600.0
    assert (density, sd) == pytest.approx((weighed.density_kg_m3, weighed.sd_kg_m3))
    plain = _rows(candidates_connection(Reference(own=False)), query)[0]
    assert plain[0] != 4000.0


def test_the_table_with_own_figures_is_kept_until_any_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("WOODREF_CACHE", str(tmp_path / "cache"))
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    query = "select * from candidates order by species_id"
    kept = tmp_path / "cache" / "woods"

    def rows(own: bool = True) -> str:
        # By text: what is not known is not equal to itself.
        return repr(_rows(candidates_connection(Reference(own=own)), query))

    plain = rows()
    assert not kept.exists()
    _store_own(tmp_path)
    made = rows()
    assert made != plain
    (file,) = kept.iterdir()
    assert rows() == made
    assert rows(own=False) == plain
    # What does not hold what was kept is made anew.
    content = bytearray(file.read_bytes())
    content[len(content) // 2] ^= 1
    file.write_bytes(bytes(content))
    assert rows() == made
    assert file.read_bytes() != bytes(content)
    _store_own(tmp_path, "4100")
    changed = rows()
    assert changed not in (made, plain)
    assert len(list(kept.iterdir())) == 2
    assert rows() == changed


def _store_own(folder: Path, hardness: str = "4000") -> None:
    table = folder / "own.csv"
    table.write_text(
        "species,property,value,unit,condition,moisture_content_pct\n"
        f"teak,side_hardness,{hardness},N,,\nteak,density_12pct,700,kg/m3,,\n"
        "black cherry,density_at_test_moisture,600,kg/m3,,8\n"
    )
    assert take_in(Reference(), table, "measurements", "bench").kept == 3


def test_the_connection_is_locked(connection: duckdb.DuckDBPyConnection) -> None:
    for query in (
        "select * from read_text('/etc/hostname')",
        "set enable_external_access = true",
        "copy candidates to 'x.csv'",
        "attach 'x.db'",
    ):
        with pytest.raises(duckdb.Error):
            connection.execute(query)
