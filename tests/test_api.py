"""The public functions of the package."""

import ast
import doctest
import pkgutil
import subprocess
import sys
from importlib import import_module
from importlib.metadata import version
from pathlib import Path

import pandas
import pytest

import woodref
from woodref import api
from woodref.reference.fields import DATASET_VERSION

LIGHT = """
import sys, woodref
before = set(sys.modules)
assert not any(m.startswith("woodref.") for m in before), sorted(before)
assert not {"duckdb", "typer", "pandas", "numpy", "rapidfuzz"} & before
woodref.emc(20.0, 50.0)
assert "duckdb" not in sys.modules
woodref.movement("sugar maple", 300, 6, 10)
woodref.compare("white oak", "teak")
assert "duckdb" in sys.modules
heavy = {"typer", "pandas", "numpy", "pyarrow", "pydantic", "rapidfuzz", "rich"}
assert not heavy & set(sys.modules), heavy & set(sys.modules)
"""


def test_importing_is_light_and_a_look_up_loads_the_database_alone():
    process = subprocess.run(
        [sys.executable, "-c", LIGHT], check=False, capture_output=True, text=True
    )
    assert process.returncode == 0, process.stderr


MODULES = [import_module(f"woodref.api.{m.name}") for m in pkgutil.iter_modules(api.__path__)]


def test_the_examples_in_the_documentation_hold():
    results = [doctest.testmod(module) for module in MODULES]
    assert sum(r.attempted for r in results) > 2
    assert sum(r.failed for r in results) == 0


def test_every_public_name_is_there_and_documented():
    assert set(woodref.__all__) <= set(dir(woodref))
    for name in woodref.__all__:
        assert getattr(woodref, name).__doc__, name
    with pytest.raises(AttributeError, match="no attribute 'hardnes'"):
        _ = woodref.hardnes


def test_a_checker_of_types_sees_every_name_where_it_lives():
    tree = ast.parse(Path(woodref.__file__).read_text(encoding="utf-8"))
    seen = {
        alias.name: node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module.startswith("woodref.")
        for alias in node.names
    }
    del seen["DATASET_VERSION"]
    assert seen == {name: f"woodref.{home}" for name, home in woodref._HOMES.items()}
    assert {*seen, "data_version"} == set(woodref.__all__)
    # A room of that name would stand in the way of the function once it is imported.
    rooms = {m.name for m in pkgutil.iter_modules(woodref.__path__)}
    assert rooms.isdisjoint(woodref.__all__)


def test_versions():
    assert woodref.__version__ == version("woodref")
    assert woodref.data_version == DATASET_VERSION


def test_tables():
    assert woodref.tables()["sources"] == "One row per publication."
    sources = woodref.table("sources")
    assert isinstance(sources, pandas.DataFrame)
    assert woodref.table("sources", as_arrow=True).num_rows == len(sources)
    assert woodref.sql("select count(*) as n from sources")["n"].tolist() == [len(sources)]
    assert woodref.sql("from sources", as_arrow=True).num_rows == len(sources)


def test_a_value_says_unit_range_and_source():
    value = woodref.wood("white oak").value("side_hardness")
    # Wood Handbook FPL-GTR-190 (2010), Table 5-3a: 6,000 N.
    assert (value.value, value.unit) == (6000.0, "N")
    assert value.likely[0] < 6000.0 < value.likely[1]
    assert "Wood Handbook" in value.source
    assert value.basis in ("seen", "seen2")


def test_woods_by_name_or_looked_up():
    maple = woodref.wood("sugar maple")
    by_name, by_wood = woodref.density("sugar maple"), woodref.density(maple)
    assert by_name.density_kg_m3 == by_wood.density_kg_m3
    assert woodref.weight(maple, 2400, 150, 25).mass_kg.expected == pytest.approx(
        woodref.density(maple, 8).density_kg_m3 * 2.4 * 0.15 * 0.025
    )


def test_movement_of_the_published_example():
    # Sugar maple, 965 mm from 7 to 11 %: Wood Handbook, Table 4-3 and Eq. 4-9.
    for cut, after in (("flat", 978.8), ("rift", 975.0), ("quarter", 971.4), (90, 971.4)):
        assert woodref.movement("sugar maple", 965, 7, 11, cut).after_mm == pytest.approx(
            after, abs=0.05
        )
    back = woodref.size_for("sugar maple", 978.8, 7, 11)
    assert back.size_mm == pytest.approx(965, abs=0.05)


def test_a_shelf_sags_as_beam_theory_says():
    shelf = woodref.Span(900.0, 250.0, 19.0, uniform_n_m=300.0, own_weight=False)
    sag = woodref.deflection("white oak", shelf, 12.0)
    # Elementary beam theory, 5 w L^4 / 384 E I; E: Wood Handbook FPL-GTR-190, Table 5-3a.
    modulus = woodref.wood("white oak").value("modulus_of_elasticity").value
    by_hand = 5 * 0.3 * 900.0**4 / (384 * modulus * 250.0 * 19.0**3 / 12)
    assert sag.now_mm.expected == pytest.approx(by_hand, rel=1e-9)
    assert sag.later_mm.expected == pytest.approx(2 * by_hand)


def test_a_piece_is_weighed_and_crated():
    oak = woodref.wood("white oak")
    shelf = woodref.WoodPart("shelf", oak, woodref.Shape("box", 900, 250, 19), 3)
    found = woodref.load([shelf], [woodref.Item("screws", 0.01, 20)])
    boards = woodref.weight(oak, 900, 250, 19, 8.0, 3)
    assert found.shipped_kg.expected == pytest.approx(boards.total_kg.expected + 0.2)
    packed = woodref.crate((900, 250, 800), found.shipped_kg, woodref.Packing(25.0))
    assert packed.size_mm == (950.0, 300.0, 850.0)
    assert packed.gross_kg.low > found.shipped_kg.low
    assert woodref.crate((900, 250, 800), 20.0, woodref.Packing(25.0, mass_kg=2.0)).gross_kg == (
        type(found.shipped_kg)(22.0, 22.0, 22.0)
    )


def test_a_fixing_needs_the_movement_of_its_distance():
    panel = woodref.fixing("cherry", "floating-panel", 6.3, 6.0, 11.0, width_mm=355.6, gap=4.8)
    half = woodref.movement("cherry", 177.8, 6.3, 11.0)
    assert panel.travel.away.expected == pytest.approx(half.change_mm)
    assert panel.verdict == "holds"
    quarter = woodref.fixing("cherry", "glued", 8, 6, 10, distance_mm=60, cut="quarter", units="us")
    assert quarter.verdict == "short enough"


def test_a_panel_is_its_staves():
    staves = [woodref.Stave(120.0), woodref.Stave(100.0, 90.0)]
    found = woodref.panel("cherry", staves, 7.0, 11.0, thickness_mm=20.0)
    flat, quarter = (
        woodref.movement("cherry", 120, 7, 11),
        woodref.movement("cherry", 100, 7, 11, "quarter"),
    )
    assert found.change_mm == pytest.approx(flat.change_mm + quarter.change_mm)
    # The thickness of a flat sawn stave is quarter sawn, and the other way round.
    assert found.step_mm == pytest.approx(
        (flat.change_mm / 120 - quarter.change_mm / 100) * 20.0, abs=1e-9
    )


def test_the_end_of_a_board_with_straight_rings_is_its_movement():
    found = woodref.section("cherry", 200, 25, 12, 6)
    assert found.faces["top"].after_mm == pytest.approx(
        woodref.movement("cherry", 200, 12, 6).after_mm
    )
    near = woodref.section("cherry", 200, 25, 12, 6, pith_distance_mm=50.0)
    assert near.cupped.side == "bark side"
    assert near.cupped.cup_mm.expected > 0.2 > found.cupped.cup_mm.expected


def test_a_finish_slows_a_board():
    bare = woodref.lag("cherry", 20.0, 6.0, 12.0, [7.0, 30.0])
    slow = woodref.lag("cherry", 20.0, 6.0, 12.0, [7.0, 30.0], finish="urethane varnish")
    assert 0.0 < bare.mean_share[0].expected < bare.mean_share[1].expected <= 1.0
    assert slow.mean_share[1].expected < bare.mean_share[1].expected


def test_find_and_printed():
    assert woodref.find("mahogany").ambiguous
    figures = woodref.printed("white oak")
    assert sum(p.preferred for p in figures) == len(woodref.wood("white oak").values)


def test_rank():
    found = woodref.rank("tabletop", where="kind = 'softwood'", limit=3)
    assert len(found.woods) == 3
    assert found.woods[0].score >= found.woods[1].score
    assert woodref.rank("shelf", wettest_pct=14.0).seasonal_range.wettest_pct == 14.0


def test_substitute():
    found = woodref.substitute("white oak", "tabletop", limit=3)
    assert len(found.woods) == 3
    assert found.woods[0].distance <= found.woods[1].distance
    assert found.look.rings == "ring porous"


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: woodref.compare("teak"), "two woods or more"),
        (lambda: woodref.compare("teak", "ash wood", properties=["side_hardness"]), "ash"),
        (lambda: woodref.compare("teak", "teak", properties=["looks"]), "'looks'"),
        (lambda: woodref.movement("teak", 300, 6, 10, "plain"), "'plain'"),
        (lambda: woodref.fixing("teak", "buton", 8, 6, 10, width_mm=300), "'button'"),
        (lambda: woodref.fixing("teak", "button", 8, 6, 10, width_mm=300, gab=2), "'gap'"),
        (lambda: woodref.substitute("teak", "tabel"), "did you mean 'tabletop'"),
        (lambda: woodref.section("teak", 200, 25, 12, 6, 50, "under"), "no side 'under'"),
        (lambda: woodref.lag("teak", 20, 6, 12, [7], "urethan varnish"), "no finish is called"),
        (lambda: woodref.panel("teak", [], 6, 12), "needs a stave"),
        (lambda: woodref.rank("tabel"), "did you mean 'tabletop'"),
        (lambda: woodref.rank("shelf", where="hardness > 3"), "no column 'hardness'"),
    ],
)
def test_a_wrong_question_is_an_input_error(call, message):
    with pytest.raises(woodref.InputError, match=message):
        call()


def test_boards_in_hand_and_to_buy():
    rails = woodref.CutPart("rail", 1200.0, 60.0, 20.0, "European beech", 6)
    tight = woodref.Allowances(20.0, 5.0, 20.0, 3.0, 5.0)
    plan = woodref.buy(
        [rails],
        ["27 x 160 x 2500 European beech"],
        woodref.Yard((140.0,), (2500.0,)),
        allowances=tight,
        seconds=1.0,
    )
    # Two of 1220 mm and a kerf in 2460 mm, two of 65 mm and a kerf in 140 or 160 mm.
    assert [(u.part.name, u.quantity) for u in plan.uncut] == [("rail", 2)]
    assert [p.boards for p in plan.purchases] == [((140.0, 2500.0, 1),)]
    assert plan.unpriced == ("no price list",)
