"""The public functions of the package."""

from pathlib import Path

import pandas
import pytest

import woodref

DEMO = Path(__file__).resolve().parents[1] / "datasets" / "demo"


def test_sources():
    handbook = next(s for s in woodref.sources() if s.source_id == "wood-handbook-2021")
    assert 0 < handbook.preferred < handbook.measurements == sum(handbook.bases.values())


def test_tables():
    assert woodref.tables()["sources"] == "One row per publication."
    sources = woodref.table("sources")
    assert isinstance(sources, pandas.DataFrame)
    assert woodref.table("sources", as_arrow=True).num_rows == len(sources)
    assert woodref.sql("select count(*) as n from sources")["n"].tolist() == [len(sources)]
    assert woodref.sql("from sources", as_arrow=True).num_rows == len(sources)


def test_a_value_says_unit_range_and_source():
    value = woodref.wood("white oak").value("side_hardness")
    # Wood Handbook FPL-GTR-190 (2010), Table 5-3b: 1,360 lbf, of 4.448222 N each (NIST SP 811).
    assert (value.value, value.unit) == (pytest.approx(1360 * 4.448222, rel=1e-6), "N")
    assert value.likely[0] < value.value < value.likely[1]
    assert "Wood Handbook" in value.source
    assert value.basis in ("checked", "checked_twice")


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
    assert [s.expected for s in sag.later_mm] == pytest.approx([1.5 * by_hand, 2 * by_hand])
    books = woodref.deflection("white oak", woodref.Span(900.0, 250.0, 19.0), load="books")
    assert books.span.uniform_n_m == pytest.approx(50 * 4.4482216 / 0.3048**2 * 0.25)


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
    assert near.cupped.side == "bark"
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
    assert found.woods[0].looks_alike
    assert found.look.value("pores") == "ring"
    yard = woodref.substitute("white oak", "tabletop", yard=["white ash", "red maple"])
    assert [s.common_name for s in yard.woods] == ["white ash"]  # red maple is too soft


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
        (lambda: woodref.rank("tabletop", region="Asia"), "no region is called 'Asia'"),
        (lambda: woodref.rank("tabletop", yard=[]), "the yard is empty"),
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
        effort="quick",
    )
    # Two of 1220 mm and a kerf in 2460 mm, two of 65 mm and a kerf in 140 or 160 mm.
    assert [(u.part.name, u.quantity) for u in plan.uncut] == [("rail", 2)]
    assert [p.boards for p in plan.purchases] == [((140.0, 2500.0, 1),)]
    assert plan.unpriced == ("no price list",)


def test_air_moves_wood_and_back():
    # FPL-GTR-190 (2010), Table 4-2: 9.2 % at 21.1 degC (70 degF) and 50 %.
    assert woodref.emc(21.1, 50.0) == pytest.approx(9.2, abs=0.1)
    assert woodref.humidity_for(woodref.emc(21.1, 50.0), 21.1) == pytest.approx(50.0)


def test_moisture_of_a_sample_and_of_a_reading():
    assert woodref.moisture(wet_kg=0.412, dry_kg=0.371) == pytest.approx(100 * 41 / 371)
    # FPL-GTR-190 (2010), p. 13-3: 0.5 % for each 10 degF below the calibration.
    assert woodref.moisture(meter_pct=11, temperature_c=(50 - 32) / 1.8) == pytest.approx(12.0)


def test_a_season_is_that_of_a_place_and_a_setting():
    house = woodref.season("Duluth", "heated house")
    held = woodref.season("Duluth", "heated house", humidifier_pct=35.0)
    assert house.season.driest.emc_pct < held.season.driest.emc_pct
    assert woodref.place("Duluth") == house.place
    assert woodref.place("46.8,-92.1").label == house.place.label
    year = woodref.own_season(winter=(20.0, 30.0), summer=(24.0, 60.0))
    assert year.driest.emc_pct == pytest.approx(woodref.emc(20.0, 30.0))
    assert year.wettest.emc_pct == pytest.approx(woodref.emc(24.0, 60.0))


def test_own_months_are_read(tmp_path):
    rows = "".join(f"{m},10,50\n" for m in range(1, 13))
    (tmp_path / "air.csv").write_text(f"month,temperature,humidity_pct\n{rows}", encoding="utf-8")
    year = woodref.own_season(months=tmp_path / "air.csv")
    assert [m.emc_pct for m in year.months] == pytest.approx([woodref.emc(10.0, 50.0)] * 12)


def test_stock_rests_and_a_piece_is_delivered():
    house = woodref.season("Duluth", "heated house")
    warm = woodref.acclimate("cherry", 25.0, 9.0, room=house, month="January")
    assert warm.to_pct == house.season.months[0].emc_pct
    assert woodref.acclimate("cherry", 25.0, 9.0, room=house).to_pct == pytest.approx(
        house.season.mean_emc_pct
    )
    assert woodref.acclimate("cherry", 25.0, 12.0, 7.0).mean_days.expected > 7.0
    delivered = woodref.delivery("cherry", 20.0, 7.0, house, "March")
    assert [m.month for m in delivered.months][:2] == [3, 4]
    slow = woodref.delivery("cherry", 20.0, 7.0, house, 3, finish="urethane varnish", coats=3)
    assert slow.swing_mm.expected < delivered.swing_mm.expected


def test_a_year_of_lag():
    lag = woodref.lag_year("cherry", 20.0, finishes=["urethane varnish"], width_mm=300.0)
    bare, slow = lag.made
    assert slow.expected < bare.expected
    assert lag.movement.change_mm == pytest.approx(
        woodref.movement("cherry", 300.0, 6.0, 10.0).change_mm
    )
    house = woodref.season("Duluth", "heated house")
    assert woodref.lag_year("cherry", 20.0, house).from_pct == house.season.design_pct.low
    assert {f.finish for f in woodref.finishes()} >= {lag.finishes[1].name}


def test_a_joint_across_the_grain():
    short, long = (woodref.gluing("cherry", mm, 8, 6, 10) for mm in (20.0, 200.0))
    assert (short.verdict, long.verdict) == ("short enough", "too long")
    assert short.travel == woodref.fixing("cherry", "glued", 8, 6, 10, distance_mm=20.0).travel


def test_a_joint_opens_by_what_its_wood_moves():
    panel = woodref.joint("cherry", "breadboard", 600.0, 8, 6, 10, fixed="edge")
    shrunk = woodref.movement("cherry", 600.0, 8, 6)
    assert panel.states[1].offset.expected == pytest.approx(600.0 - shrunk.after_mm)
    strip = woodref.joint("cherry", "veneer", 20.0, 8, 6, 10, core="white ash", core_cut="quarter")
    ash, cherry = (woodref.movement(w, 20.0, 8, 6).after_mm for w in ("white ash", "cherry"))
    assert strip.states[1].offset.expected == pytest.approx((cherry - ash) / 2.0)
    assert "<Joint: veneer, black cherry: at the driest" in repr(strip)


def test_a_pile_is_counted(tmp_path):
    # NHLA rules: 6 in. x 8 ft is 4 ft2 of surface, in 4/4 4 board feet.
    boards = ["4/4 x 6 x 8ft x 3 red oak", "8/4 x 6 x 8ft red oak"]
    pile = woodref.tally(boards)
    assert [lot.board_feet for lot in pile.lots] == [12.0, 8.0]
    assert pile.total.board_feet == 20.0
    file = tmp_path / "pile.csv"
    file.write_text("thickness,width,length,species\n4/4,6,8ft,ash\n", encoding="utf-8")
    assert woodref.tally(file).total.board_feet == 4.0
    with file.open("a", encoding="utf-8") as more:
        more.write("4/4,wide,8ft,ash\n4/4,wide,8ft,ash\n")
    with pytest.raises(woodref.InputError, match=r"line 3: .*'wide'.* \(and 1 more\)"):
        woodref.tally(file)


def test_a_wood_beside_all_others():
    cherry = woodref.stability("cherry")
    assert cherry.flat.change_mm == pytest.approx(woodref.movement("cherry", 300, 6, 10).change_mm)
    assert cherry.rank.less + cherry.rank.more < cherry.rank.woods
    # Wood Handbook FPL-GTR-190 (2010), Table 14-1, p. 14-5.
    assert any(r.rating == "Moderately resistant" for r in woodref.ratings("cherry"))
    assert woodref.cautions("cherry")[0].kind == "dust"
    assert {"tabletop", "shelf"} <= set(woodref.uses())
    assert woodref.uses()["shelf"] == woodref.rank("shelf").profile


def test_a_piece_is_estimated_and_put_on_a_page(tmp_path):
    bench = woodref.estimate(DEMO / "hall-bench.toml")
    assert bench.cost is not None
    dry = woodref.estimate(DEMO / "hall-bench.toml", place="Duluth", setting="heated house")
    assert dry.piece.room.place == woodref.place("Duluth")
    page = woodref.page(bench, "shop", "si")
    assert "Hall bench (invented)" in page
    assert page != woodref.page(bench)
    priced = woodref.estimate(DEMO / "hall-bench.toml", prices=DEMO / "yard-prices.csv")
    assert priced.cost != bench.cost
    (tmp_path / "mine.toml").write_text(woodref.template(), encoding="utf-8")
    assert woodref.estimate(tmp_path / "mine.toml").parts


def test_a_piece_is_cut_from_boards(tmp_path):
    for name in ("sideboard.toml", "sideboard-prices.csv", "sideboard-boards.csv"):
        (tmp_path / name).write_bytes((DEMO / name).read_bytes())
    assert woodref.estimate(tmp_path / "sideboard.toml").plan.boards_on_hand > 0
    with (tmp_path / "sideboard-boards.csv").open("a", encoding="utf-8") as more:
        more.write("wide\n")
    with pytest.raises(woodref.InputError, match=r"sideboard-boards.csv, line \d+"):
        woodref.estimate(tmp_path / "sideboard.toml")


def test_figures_of_your_own(tmp_path, monkeypatch):
    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "own"))
    printed = woodref.density("white oak")
    size = (1219.0, 152.0, 25.4)
    assert len(woodref.own_figures()) == 0
    board = woodref.own_weigh("white oak", *size, 3.6, 8.0, "the shop")
    assert board.density_kg_m3 == pytest.approx(3.6 / (1.219 * 0.152 * 0.0254))
    own = woodref.density("white oak")
    assert own.density_kg_m3 > printed.density_kg_m3
    again = woodref.own_weigh("white oak", *size, 3.6, 8.0)
    assert again.published.density_kg_m3 == board.published.density_kg_m3
    assert set(woodref.own_figures()["batch"]) == {"m1"}
    assert woodref.own_remove("m1") == 2
    assert woodref.density("white oak").density_kg_m3 == printed.density_kg_m3
    file = tmp_path / "prices.csv"
    file.write_text(woodref.template("prices"), encoding="utf-8")
    taken = woodref.own_add(file, "prices", "a yard")
    assert taken.kept == len(woodref.own_figures("prices")) > 0


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: woodref.own_figures("price"), "did you mean 'prices'"),
        (lambda: woodref.own_remove("m9"), "no table of your own is called 'm9'"),
        (lambda: woodref.template("pieces"), "did you mean 'piece'"),
        (lambda: woodref.table("specie"), "did you mean 'species'"),
        (lambda: woodref.tally([]), "no board to count"),
        (lambda: woodref.moisture(wet_kg=1.0), "give wet_kg and dry_kg"),
        (lambda: woodref.moisture(wet_kg=1.0, dry_kg=0.0), "more than 0 when dry"),
        (lambda: woodref.moisture(wet_kg=1.0, dry_kg=2.0), "exchanged"),
        (lambda: woodref.moisture(meter_pct=40, temperature_c=20), "from 6 to 30 %"),
        (lambda: woodref.moisture(meter_pct=6, temperature_c=200), "less than nothing"),
        (lambda: woodref.acclimate("teak", 20, month="May"), "needs the room"),
        (lambda: woodref.own_season(winter=(20, 30)), "give winter and summer"),
        (lambda: woodref.season("Dulut"), "Duluth"),
        (lambda: woodref.season("Duluth", "heated hous"), "nearest: heated-house"),
        (lambda: woodref.wood("teak").value("hardness"), "did you mean 'side_hardness'"),
        (lambda: woodref.compare("teak", "ash", properties=["hardness"]), "'side_hardness'"),
    ],
)
def test_what_cannot_be_answered_says_what_would(call, message):
    with pytest.raises(woodref.InputError, match=message):
        call()


def test_woods_are_filtered_as_at_the_command_line():
    every = woodref.rank("tabletop", limit=500)
    names = [n for w in every.woods for n in (w.common_name, *w.also)]
    some = woodref.rank(
        "tabletop",
        kind="hardwood",
        origin="North America",
        exclude_controlled=True,
        harder_than="cherry",
        steadier_than="sugar maple",
        room=woodref.season("Duluth"),
        limit=500,
    )
    assert 0 < some.passed < every.passed
    assert {n for w in some.woods for n in (w.common_name, *w.also)} <= set(names)
    assert some.seasonal_range.driest_pct == woodref.season("Duluth").season.design_pct.low
    lists = DEMO / "yard-prices.csv"
    cheap = woodref.rank("tabletop", prices=lists, max_price_per_m3=3000.0)
    assert cheap.passed < every.passed
    dear = woodref.rank("tabletop", prices=lists, max_price_per_m3=1e6)
    assert cheap.passed <= dear.passed
    replacement = woodref.substitute("cherry", "tabletop", kind="hardwood", ignore_look=True)
    assert replacement.look_counts == "nothing"
    with pytest.raises(woodref.InputError, match="has no price by amount for"):
        woodref.rank("tabletop", prices=lists, thickness="201 mm")


def test_a_size_through_the_year():
    house = woodref.season("Duluth")
    year = woodref.through_year(house, lambda pct: woodref.movement("teak", 300, 8, pct))
    assert [m.moisture_pct for m in year] == [m.emc_pct for m in house.season.months]
    assert year == woodref.through_year(
        house.season, lambda pct: woodref.movement("teak", 300, 8, pct)
    )
    driest = min(year, key=lambda m: m.size_mm.expected)
    assert driest.month == house.season.driest.month
