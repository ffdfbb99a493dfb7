"""Every row of a catalog holds what the library says of its board."""

import pandas
import pytest

import woodref
from woodref.board.movement import movement, ring_angle, seasonal_movement
from woodref.board.weight import weight_of
from woodref.catalog.request import Request, Want
from woodref.catalog.run import compute_table
from woodref.climate.rooms import room_of
from woodref.formulas.lumber import board_feet
from woodref.lumber.prices import parse_prices, resolver
from woodref.lumber.yard import thicknesses_sold
from woodref.reference.shipping import shipping_facts
from woodref.shipping.crate import USUAL_PADDING_MM, Packing, crate
from woodref.written import parse_length, parse_thickness

#: Woods of every way a movement is computed: shrinkage, change per 1 %, coefficients, estimate;
#: with a gravity printed, turned back and of the genus; and the mean of a group.
WOODS = (
    *("black cherry", "sugar maple", "white oak group", "eucalyptus-regnans", "Prunus serotina"),
    *("acer-platanoides", "abies-fraseri", "maclura-pomifera", "eastern white pine", "teak"),
)
#: An implied gravity is published to four digits.
NEAR = 1e-3
PRICES = """species,thickness,price,per,low,high
sugar maple,4/4,6.8,board foot,6.2,7.5
sugar maple,5/4,7.4,board foot,,
black cherry,any,2000,m3,1900,2200
"""


def names(reference):
    rows = reference.store.rows(
        "select species_id, common_name from {species} where species_id in "
        "('eucalyptus-regnans', 'acer-platanoides', 'abies-fraseri', 'maclura-pomifera')"
    )
    common = {r["species_id"]: r["common_name"] for r in rows}
    return [common.get(name, name) for name in WOODS]


@pytest.fixture(scope="module")
def parts(reference):
    sizes = [
        ("19-1/2", "7 1/4", "3/4", 2, "flat", 8.0, 12.0),
        ("6'2\"", "3.5", "4/4", 1, "quarter", 6.0, 11.5),
        ("500 mm", "4-1/8in", "8/4", 7, "30", 12.0, 5.0),
        ("48", "6", "1-1/4", 3, "rift", 9.5, 15.0),
    ]
    columns = ("length", "width", "thickness", "quantity", "cut", "moisture", "to_moisture")
    rows = [
        {"wood": name, **dict(zip(columns, size, strict=True))}
        for name in names(reference)
        for size in sizes
    ]
    return pandas.DataFrame(rows)


@pytest.fixture(scope="module")
def answers(reference, parts):
    import pyarrow

    request = Request(
        want=(Want.WEIGHT, Want.VOLUME, Want.BOARD_FEET, Want.MOVEMENT, Want.SHIPPING),
        units="si",
        unit="in",
        ranges=True,
    )
    table = pyarrow.Table.from_pandas(parts, preserve_index=False)
    found, rejects, summary = compute_table(reference, table, request)
    assert summary.rejected == rejects.num_rows == 0
    assert found.num_rows == len(parts)
    return found.to_pylist()


def sizes(row):
    length, width = (parse_length(row[n], "in") for n in ("length", "width"))
    return length, width, parse_thickness(row["thickness"], "in")


def test_rows_keep_their_order(parts, answers):
    assert [r["wood"] for r in answers] == list(parts["wood"])
    assert [r["length"] for r in answers] == list(parts["length"])


def test_weights_are_those_of_the_library(reference, answers):
    for row in answers:
        known = weight_of(
            reference.wood(row["wood"]), *sizes(row), row["moisture"], row["quantity"]
        )
        for name, mass in (("mass", known.mass_kg), ("total_mass", known.total_kg)):
            told = [row[f"{name}_kg"], row[f"{name}_low_kg"], row[f"{name}_high_kg"]]
            assert told == pytest.approx(list(mass), rel=NEAR), row
        assert row["mass_basis"] == known.density.basis
        assert row["volume_m3"] == pytest.approx(known.volume_m3 * row["quantity"])


def test_movements_are_those_of_the_library(reference, answers):
    compared = 0
    for row in answers:
        wood = reference.wood(row["wood"])
        if row["width_change_mm"] is None:
            assert row["unanswered"] == "movement"
            with pytest.raises(woodref.NoDataError):
                movement(wood, 100.0, 8.0, 12.0)
            continue
        angle = ring_angle(row["cut"])
        known = movement(wood, sizes(row)[1], row["moisture"], row["to_moisture"], angle)
        ends = [row[f"width_change{e}_mm"] for e in ("", "_low", "_high")]
        assert ends == pytest.approx(list(known.likely_change_mm), rel=NEAR), row
        compared += 1
    assert compared > 30


def test_cartons_are_those_of_the_library(reference, answers):
    facts = shipping_facts(reference)
    for row in answers:
        board = weight_of(reference.wood(row["wood"]), *sizes(row), row["moisture"])
        packed = crate(sizes(row), board.mass_kg, Packing(USUAL_PADDING_MM), facts)
        first = packed.dimensional[0]
        assert row["dimensional_mass_kg"] == pytest.approx(first.dimensional_kg)
        for name, known in (("gross", packed.gross_kg), ("chargeable", first.chargeable_kg)):
            told = [row[f"{name}_mass{e}_kg"] for e in ("", "_low", "_high")]
            assert told == pytest.approx(list(known), rel=NEAR)
        assert row["freight_class"] == packed.freight.name
        assert row["over_parcel_limit"] == bool(packed.over)


def test_a_place_moves_the_width_through_its_year(reference):
    frame = pandas.DataFrame(
        {
            "wood": ["sugar maple", "eucalyptus-regnans", "teak", "teak"],
            "width": [300.0, 120.0, 200.0, 200.0],
            "place": ["Duluth", "Phoenix, Arizona", "Duluth", "no such town"],
        }
    )
    frame.loc[1, "wood"] = names(reference)[3]
    found = woodref.batch(frame, want="movement", moisture_pct=9.0)
    rows = found.answers.to_pylist()
    assert len(rows) == 3
    for row in rows:
        design = room_of(reference, row["place"]).season.design_pct
        wood = reference.wood(row["wood"])
        known = seasonal_movement(wood, row["width"], 9.0, design.low, design.high)
        assert row["width_change_mm"] == pytest.approx(known.change_mm, rel=NEAR)
        assert row["from_moisture_pct"] == design.low
        assert row["to_moisture_pct"] == design.high
    (reject,) = found.rejects.to_pylist()
    assert (reject["row"], reject["column"]) == (4, "place")
    assert "no such town" in reject["reason"]


def test_stock_and_cost_are_those_of_an_estimate(reference, tmp_path):
    file = tmp_path / "prices.csv"
    file.write_text(PRICES)
    prices = parse_prices(PRICES, "prices", resolver(reference))
    frame = pandas.DataFrame(
        {
            "wood": ["sugar maple", "sugar maple", "black cherry", "teak", "sugar maple"],
            "length": [48.0] * 5,
            "width": [6.0] * 5,
            "thickness": ["3/4", "7/8", "1", "3/4", "4/4"],
            "stock": [None, None, None, None, "5/4"],
            "quantity": [1, 2, 3, 4, 5],
        }
    )
    found = woodref.batch(frame, want="board_feet,cost", units="us", prices=file, ranges=True)
    rows = found.answers.to_pylist()
    for row in rows:
        wood = reference.wood(row["wood"])
        sold = thicknesses_sold(reference, [wood], prices, "us", 25.4 / 8.0)
        chosen = sold.choose(wood, parse_thickness(row["thickness"], "in"))
        rough = row["thickness"] == "4/4"
        if row["stock"] is None and not rough:
            assert row["rough_stock"] == chosen.nominal
            feet = board_feet(chosen.rough_mm / 25.4, 6.0, 4.0) * row["quantity"]
            assert row["board_feet"] == pytest.approx(feet)
    assert rows[0]["cost"] == pytest.approx(2.0 * 6.8)
    assert [rows[0]["cost_low"], rows[0]["cost_high"]] == pytest.approx([12.4, 15.0])
    assert rows[3]["cost"] is None
    assert rows[3]["unanswered"] == "cost"
    assert rows[4]["board_feet"] == pytest.approx(5 * 2.5)
    assert [r["rough_stock"] for r in rows[3:]] == ["4/4", "5/4"]


def test_each_row_is_priced_by_the_list_it_names(tmp_path):
    lists = {}
    for name, price in (("north", 6.0), ("south", 9.0)):
        lists[name] = tmp_path / f"{name}.csv"
        lists[name].write_text(
            f"species,thickness,price,per\nblack cherry,4/4,{price},board foot\n"
        )
    frame = pandas.DataFrame(
        {"wood": ["black cherry"] * 4, "length": [48.0] * 4, "width": [6.0] * 4}
        | {"thickness": [0.75] * 4, "price_list": ["north", " south", "", "east"]}
    )
    asked = {"want": "cost", "units": "us", "price_lists": lists}
    done = woodref.batch(frame, **asked)
    costs = [r["cost"] for r in done.answers.to_pylist()]
    assert costs == [pytest.approx(12.0), pytest.approx(18.0), None]
    (reject,) = done.rejects.to_pylist()
    assert (reject["row"], reject["column"], reject["value"]) == (4, "price_list", "east")
    usual = woodref.batch(frame, **asked, prices=lists["north"])
    costs = [r["cost"] for r in usual.answers.to_pylist()]
    assert costs == pytest.approx([12.0, 18.0, 12.0])
    lists["south"].write_text(
        "species,thickness,price,per,currency\nblack cherry,4/4,9,board foot,CAD\n"
    )
    lists["north"].write_text(
        "species,thickness,price,per,currency\nblack cherry,4/4,9,board foot,USD\n"
    )
    with pytest.raises(woodref.InputError, match="are in CAD and USD"):
        woodref.batch(frame, **asked)
