"""Many boards at once give what each gives alone."""

from dataclasses import replace

import numpy as np
import pandas
import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import WHITE_OAK, wood

import woodref
from woodref.board.arrays import densities, movements, weights
from woodref.formulas.density import greatest_density
from woodref.reference.library import Reference

LIBRARY = Reference()
#: Of every way to figures: shrinkage, a change per 1 %, estimates from density, a group, density
#: at the moisture content of the test, volumetric shrinkage of the two directions or in general.
NAMES = [
    *("sugar maple", "hoop pine", "Abarema jupunba", "red oak group"),
    *("European birch", "kauri", "ailanthus"),
]
WOODS = {name: LIBRARY.wood(name) for name in (*NAMES, "teak", "jarrah")}
MOISTURE = st.floats(0.0, 30.0)
CUTS = st.sampled_from(["flat", "rift", "quarter", "15", "72.5"])
MOVES = st.lists(
    st.tuples(
        st.sampled_from(NAMES).map(WOODS.get),
        st.floats(0.1, 5000.0),
        MOISTURE,
        MOISTURE,
        CUTS,
        st.integers(1, 40),
    ),
    min_size=1,
    max_size=12,
)
BOARDS = st.lists(
    st.tuples(
        st.sampled_from(NAMES).map(WOODS.get),
        st.floats(1.0, 20_000.0),
        st.floats(1.0, 5000.0),
        st.floats(1.0, 500.0),
        st.floats(0.0, 60.0),
        st.integers(1, 200),
    ),
    min_size=1,
    max_size=12,
)
NEAR = {"rel": 1e-9, "abs": 1e-9}


def ends(likely):
    """Expected, low and high of a range or of arrays of them."""
    return np.array(list(likely))


@given(MOVES)
def test_movements_are_those_of_each_board(rows):
    columns = [list(column) for column in zip(*rows, strict=True)]
    many = woodref.movement(*columns)
    single = [woodref.movement(*row) for row in rows]
    assert (
        pytest.approx(np.array([ends(m.likely_mm) for m in single]), **NEAR)
        == ends(many.likely_mm).T
    )
    assert many.change_mm == pytest.approx([m.change_mm for m in single], **NEAR)
    assert (
        pytest.approx(np.array([ends(m.likely_change_mm) for m in single]), **NEAR)
        == ends(many.likely_change_mm).T
    )
    assert many.ring_angle_deg.tolist() == [m.ring_angle_deg for m in single]
    assert [b.radial for b in many.basis] == [m.basis.radial for m in single]
    assert many.notes.tolist() == [m.notes for m in single]
    assert [w.species_id for w in many.wood] == [m.wood.species_id for m in single]


@given(BOARDS)
def test_weights_and_densities_are_those_of_each_board(rows):
    columns = [list(column) for column in zip(*rows, strict=True)]
    many = woodref.weight(*columns)
    single = [woodref.weight(*row) for row in rows]
    for name in ("mass_kg", "total_kg"):
        assert (
            pytest.approx(np.array([ends(getattr(w, name)) for w in single]), **NEAR)
            == ends(getattr(many, name)).T
        )
    for name in ("volume_m3", "sd_kg", "total_sd_kg"):
        assert getattr(many, name) == pytest.approx([getattr(w, name) for w in single], **NEAR)
    density = woodref.density(columns[0], columns[4])
    for name in ("density_kg_m3", "sd_kg_m3", "basic_specific_gravity"):
        expected = [getattr(w.density, name) for w in single]
        assert getattr(many.density, name) == pytest.approx(expected, **NEAR)
        assert getattr(density, name) == pytest.approx(expected, **NEAR)
    assert (
        pytest.approx(np.array([ends(w.density.likely_kg_m3) for w in single]), **NEAR)
        == ends(density.likely_kg_m3).T
    )
    for name in ("values", "density_from", "shrinkage_from", "notes", "basis"):
        assert getattr(density, name).tolist() == [getattr(w.density, name) for w in single]


@given(st.lists(st.tuples(st.floats(-1.0, 93.0), st.floats(0.0, 99.9)), min_size=1, max_size=12))
def test_air_and_back_are_those_of_each(rows):
    temperatures, humidities = (list(column) for column in zip(*rows, strict=True))
    many = woodref.emc(temperatures, humidities)
    assert many == pytest.approx([woodref.emc(*row) for row in rows], **NEAR)
    back = woodref.humidity_for(many, temperatures)
    assert back == pytest.approx(humidities, abs=1e-6)


def test_a_single_wood_and_a_single_size_stand_for_all():
    sizes = np.linspace(50.0, 500.0, 6).reshape(2, 3)
    grid = woodref.movement("sugar maple", sizes, 6, 10)
    assert grid.shape == (2, 3)
    assert len(grid) == 2
    alone = woodref.movement("sugar maple", 230.0, 6, 10)
    assert grid.after_mm[0, 2] == pytest.approx(alone.after_mm)
    pairs = woodref.density([["sugar maple"], ["teak"]], [6.0, 12.0, 20.0])
    assert pairs.shape == (2, 3)
    assert pairs.basis.shape == (2, 3)
    assert pairs.density_kg_m3[1, 2] == pytest.approx(woodref.density("teak", 20).density_kg_m3)


def test_names_in_rows_and_columns_keep_their_places():
    names = [["sugar maple", "teak"], ["teak", "jarrah"]]
    alone = [[woodref.density(name, 12.0).density_kg_m3 for name in row] for row in names]
    for given_names in (names, np.array(names)):
        assert woodref.density(given_names, 12.0).density_kg_m3.tolist() == alone
        assert woodref.density(given_names, [[12.0]]).density_kg_m3.tolist() == alone


def test_no_board_of_an_array_weighs_more_than_wood_can():
    """Of a wood that is nearly as dense as its cell walls the likely range ends there."""
    dense = wood("dense wood", {"basic_specific_gravity": 1.3, "shrinkage_volumetric": 12.0})
    many = woodref.weight([dense], [1000.0], 100.0, 20.0, 0.0, [3])
    alone = woodref.weight(dense, 1000.0, 100.0, 20.0, 0.0, 3)
    most = greatest_density(0.0) * alone.volume_m3
    assert (alone.mass_kg.high, alone.total_kg.high) == pytest.approx((most, 3.0 * most))
    assert many.mass_kg.high.tolist() == pytest.approx([alone.mass_kg.high])
    assert many.total_kg.high.tolist() == pytest.approx([alone.total_kg.high])
    assert many.density.likely_kg_m3.high.tolist() == pytest.approx([greatest_density(0.0)])


def test_many_changes_of_one_cut():
    many = woodref.movement("teak", 300.0, [6.0, 7.0], [10.0, 11.0], "rift")
    alone = [woodref.movement("teak", 300.0, m, m + 4.0, "rift").after_mm for m in (6.0, 7.0)]
    assert many.after_mm.tolist() == pytest.approx(alone)


def test_each_distinct_name_is_looked_up_once():
    asked = []

    def find(name):
        asked.append(name)
        return WOODS[name]

    names = ["teak", "jarrah"] * 500
    movements(find, names, 100.0, 6.0, 10.0)
    densities(find, names, 8.0)
    weights(find, names, 100.0, 100.0, 20.0, 8.0)
    assert asked == ["teak", "jarrah"] * 3
    movements(find, "teak", [100.0] * 9, 6.0, 10.0)
    assert asked[6:] == ["teak"]


def test_woods_looked_up_already_are_taken_as_they_are():
    woods = [WOODS["teak"], WOODS["jarrah"], WOODS["teak"]]
    by_wood, by_name = woodref.density(woods), woodref.density(["teak", "jarrah", "teak"])
    assert by_wood.density_kg_m3.tolist() == by_name.density_kg_m3.tolist()


def test_woods_and_cuts_in_a_series_may_be_of_any_kind():
    woods = pandas.Series([WOODS["teak"], WOODS["jarrah"]])
    cuts = pandas.Series(["flat", 30.0], dtype=object)
    many = woodref.movement(woods, 100.0, 6.0, 10.0, cuts)
    alone = [woodref.movement(n, 100.0, 6.0, 10.0, c) for n, c in zip(woods, cuts, strict=True)]
    assert many.after_mm.tolist() == pytest.approx([m.after_mm for m in alone])


def test_cuts_may_be_texts_of_any_length():
    cuts = np.array(["flat", "quarter"], dtype=np.dtypes.StringDType())
    assert woodref.movement("teak", 100.0, 6.0, 10.0, cuts).ring_angle_deg.tolist() == [0.0, 90.0]


def test_figures_without_a_spread_are_those_of_each_board():
    values = {key: replace(v, sd=None) for key, v in WHITE_OAK.values.items()}
    even = replace(WHITE_OAK, values=values)
    many = woodref.movement([even, even], 100.0, 6.0, 10.0, [0.0, 90.0])
    alone = [woodref.movement(even, 100.0, 6.0, 10.0, a) for a in (0.0, 90.0)]
    expected = np.array([ends(m.likely_mm) for m in alone])
    assert pytest.approx(expected) == ends(many.likely_mm).T


def test_at_fiber_saturation_itself_nothing_is_said_of_a_green_volume():
    for name in ("teak", "sugar maple"):
        point = WOODS[name].fiber_saturation.pct
        for pct in (point, point + 0.1):
            assert woodref.density([name], pct).notes[0] == woodref.density(name, pct).notes


def test_single_values_of_numpy_are_single():
    plain = woodref.movement("teak", 300.0, 6.0, 10.0, 45.0, 3)
    of_numpy = woodref.movement(
        np.str_("teak"), np.array(300.0), np.float32(6.0), np.int64(10), np.float64(45), np.int64(3)
    )
    assert repr(of_numpy) == repr(plain)
    assert isinstance(woodref.emc(np.array(20.0), np.float64(50.0)), float)


def test_frames_keep_the_index_of_the_series():
    boards = pandas.DataFrame(
        {"wood": ["teak", "sugar maple"], "length": [900.0, 1200.0], "n": [2, 4]},
        index=["shelf", "rail"],
    )
    weights = woodref.weight(boards.wood, boards.length, 100.0, 20.0, quantity=boards.n)
    frame = weights.to_frame()
    assert frame.index.tolist() == ["shelf", "rail"]
    assert weights.density.to_frame().index.tolist() == ["shelf", "rail"]
    assert frame.loc["rail", "total_kg"] == pytest.approx(
        woodref.weight("sugar maple", 1200, 100, 20, quantity=4).total_kg.expected
    )
    moved = woodref.movement(boards.wood, 100.0, 6.0, 10.0).to_frame()
    assert {"wood", "after_mm", "low_mm", "high_mm", "change_mm", "basis"} <= set(moved.columns)
    assert moved.index.tolist() == ["shelf", "rail"]
    assert woodref.density(boards.wood).to_frame().index.tolist() == ["shelf", "rail"]
    assert woodref.density(["teak", "jarrah"]).to_frame()["basis"].tolist() == [
        woodref.density(n).basis for n in ("teak", "jarrah")
    ]
    grid = woodref.density([["teak"], ["jarrah"]], [6.0, 12.0]).to_frame()
    assert grid["wood"].tolist() == ["teak", "teak", "jarrah", "jarrah"]
    assert "<table" in weights._repr_html_()
    assert repr(weights).startswith("<WeightArrays: 2 of length_mm")


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: woodref.movement("teak", [300, -1], 6, 10),
            r"not -0.03937 in \(-1 mm\) \(element 1\)",
        ),
        (lambda: woodref.movement("teak", [300, np.nan], 6, 10), r"not nan in .* \(element 1\)"),
        (lambda: woodref.movement("teak", 300, [6, 35], 10), r"the first .* 35 % .*element 1"),
        (lambda: woodref.movement("teak", 300, 6, [-1, 6]), r"the second .* -1 % .*element 0"),
        (lambda: woodref.movement("teak", [1, 2], 6, 10, [91, 0]), r"not 91 \(element 0\)"),
        (lambda: woodref.movement("teak", [1, 2], 6, 10, ["flat", "plain"]), "'plain'"),
        (lambda: woodref.movement(["teak"], 1, 6, 10, object()), r"^cut takes numbers, not <obj"),
        (
            lambda: woodref.movement(["teak"], 1, 6, 10, [[1, 2], [3]]),
            r"^cut takes numbers, not \[",
        ),
        (lambda: woodref.movement(["teak"], 1, 6, 10, {"rift": 1}), r"^names are needed, not {"),
        (lambda: woodref.density([["teak", "jarrah"], ["teak"]]), r"^names are needed, not \["),
        (lambda: woodref.movement("teak", [1], 6, 10, boards=[0]), r"not 0 \(element 0\)"),
        (lambda: woodref.movement("teak", 1, 6, 10, boards=0), "1 board or more, not 0"),
        (lambda: woodref.movement("teak", [1], 6, 10, boards=1.5), "whole number"),
        (lambda: woodref.movement("teak", ["3"], 6, 10), r"size takes numbers, not \['3'\]"),
        (lambda: woodref.movement("teak", [1, 2], [6, 7, 8], 10), "arrays of one shape"),
        (lambda: woodref.movement(["teak", "teek"], 300, 6, 10), "no wood is called 'teek'"),
        (lambda: woodref.movement(["teak", np.nan], 300, 6, 10), "a name is needed, not nan"),
        (lambda: woodref.movement(["teak", None], 300, 6, 10), "a name is needed, not nan"),
        (lambda: woodref.density("teak", [6, 500]), r"not 500 % \(element 1\)"),
        (lambda: woodref.density("teak", [[6, -1]]), r"not -1 % \(element 0, 1\)"),
        (lambda: woodref.weight("teak", [9, 0], 9, 9), r"length must be above 0 .*element 1"),
        (lambda: woodref.weight("teak", [9, 8], 9, 9, 999), r"at most .*element 0"),
        (lambda: woodref.weight("teak", [9], 9, 9, quantity=[0.5]), "quantity is a whole number"),
        (lambda: woodref.emc([20, 20], [30, 100]), r"not 100; .*element 1"),
        (lambda: woodref.emc([20, 99], 30), r"outside 30 to 200 F .*element 1"),
        (lambda: woodref.humidity_for([8, 80], 20), r"no air keeps wood at 80 %.*element 1"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(call, message):
    with pytest.raises(woodref.InputError, match=message):
        call()


def test_series_of_different_indexes_are_refused():
    left, right = pandas.Series([20.0, 21.0]), pandas.Series([40.0, 50.0], index=[1, 0])
    with pytest.raises(woodref.InputError, match="different indexes"):
        woodref.emc(left, right)


def test_a_wood_without_figures_is_no_data():
    with pytest.raises(woodref.NoDataError):
        woodref.movement(["teak", "swamp tupelo"], 300, 6, 10)
    with pytest.raises(woodref.NoDataError, match="density of koa"):
        woodref.weight(["teak", "koa"], 300, 100, 20)


def test_no_boards_are_no_boards():
    assert woodref.movement([], [], [], []).likely_mm.expected.shape == (0,)
    assert woodref.weight([], [], [], [], []).mass_kg.expected.shape == (0,)
