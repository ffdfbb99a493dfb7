"""A small program of a user, for a checker of types; it is never run."""

from pathlib import Path
from typing import assert_type

import numpy as np
import pandas as pd
from matplotlib.figure import Figure

import woodref
from woodref import charts
from woodref.arrays import Floats
from woodref.board.array_results import DensityArrays, MovementArrays, WeightArrays
from woodref.board.movement import Movement
from woodref.board.weight import BoardWeight, DensityEstimate

# Woods.
maple = woodref.wood("sugar maple")
assert_type(maple, woodref.Wood)
assert_type(maple.value("side_hardness"), woodref.Value | None)
pink: list[str] = [m.wood.common_name for m in woodref.find_by_look(hue="pink").woods]
look = woodref.look(woodref.wood("walnut", region="Europe"))
hue: str | float | None = look.value("heartwood_hue") if look else None
names: list[str] = [candidate.name for candidate in woodref.find("rosewood").near]
used: list[bool] = [figure.preferred for figure in woodref.printed(maple)]
scales: list[str] = [rating.scale for rating in woodref.ratings("cherry")]
texts: list[str] = [caution.text for caution in woodref.cautions("cherry")]
labels: list[str] = [row.label for row in woodref.compare(maple, "teak").rows]
ratio: float = woodref.stability("teak").ratio

# Choosing.
score: float = woodref.rank("tabletop").woods[0].score
distance: float = woodref.substitute("teak", "tabletop").woods[0].distance
purposes: list[str] = [use.purpose for use in woodref.uses().values()]

# Boards, one or many.
sizes = np.linspace(50.0, 300.0, 6)
whole = np.arange(1, 7)
shelf = woodref.Span(900.0, 250.0, 19.0)
assert_type(woodref.movement("teak", 300, 6, 10), Movement)
assert_type(woodref.movement(maple, 300.0, 6, 10, "rift", 3).after_mm, float)
assert_type(woodref.movement("teak", sizes, 6, 10), MovementArrays)
assert_type(woodref.movement(["teak", "jarrah"], 300, 6, 10, ["flat", "rift"]), MovementArrays)
assert_type(woodref.movement("teak", [50, 60], 6, 10).change_mm, Floats)
assert_type(woodref.movement("teak", whole, 6, 10).likely_mm.low, Floats)
assert_type(woodref.movement("teak", sizes, 6, 10).to_frame(), pd.DataFrame)
assert_type(woodref.movement("teak", pd.Series([50.0, 60.0]), 6, 10), MovementArrays)
assert_type(woodref.size_for("teak", 300, 6, 10).size_mm, float)
assert_type(woodref.density("teak"), DensityEstimate)
assert_type(woodref.density("teak", 8).density_kg_m3, float)
assert_type(woodref.density("teak", sizes), DensityArrays)
assert_type(woodref.density(pd.Series(["teak", "jarrah"])).density_kg_m3, Floats)
assert_type(woodref.weight("teak", 900, 250, 19), BoardWeight)
assert_type(woodref.weight("teak", 900, 250, 19, quantity=3).total_kg.high, float)
assert_type(woodref.weight("teak", sizes, 250, 19, quantity=whole), WeightArrays)
width: float = woodref.panel("teak", [woodref.Stave(100.0)], 7, 11).after_mm
cup: float = woodref.section("teak", 200, 25, 12, 6, 50.0).cupped.cup_mm.expected
sag: float = woodref.deflection("teak", shelf, limit="L/240").later_mm[-1].high

# Joints.
spare: list[float] = [c.spare_mm for c in woodref.fixing("teak", "button", 7, 6, 10, gap=6).checks]
pulls: float = woodref.fastener("teak", nail="8d", through_mm=19).gravity.likely.high
opens: float = woodref.joint("teak", "miter", 75.0, 8, 6, 10).states[1].offset.high
moves: float = woodref.gluing("teak", 100.0, 7, 6, 10).travel.most.high

# Air, rooms and time.
assert_type(woodref.emc(20, 50), float)
assert_type(woodref.emc(20, sizes), Floats)
assert_type(woodref.humidity_for(8, 20), float)
assert_type(woodref.humidity_for([8.0], 20), Floats)
assert_type(woodref.moisture(wet_kg=2.0, dry_kg=1.8), float)
house = woodref.season("Duluth", "heated house", humidifier_pct=30.0)
driest: float = house.season.driest.emc_pct
latitude: float = woodref.place("Duluth").latitude
wettest: float = woodref.own_season(winter=(20, 30), summer=(24, 60)).wettest.emc_pct
widths: list[float] = [
    month.size_mm.expected
    for month in woodref.through_year(house, lambda pct: woodref.movement("teak", 300, 8, pct))
]
made: float = woodref.lag("teak", 20, 6, 10, [7.0]).mean_share[0].expected
swing: float = woodref.lag_year("teak", 20, house).years[0].swing_pct
days: float = woodref.acclimate("teak", 25, room=house, month="May").mean_days.high
delivered: float = woodref.delivery("teak", 20, 7, house, 5).swing_mm.expected
coats: list[int] = [row.coats for row in woodref.finishes()]

# Lumber, pieces, shipping.
feet: float = woodref.tally(["4/4 x 6 x 8ft ash"]).total.board_feet
parts = [woodref.CutPart("rail", 1200.0, 60.0, 20.0, "ash", 6)]
plan = woodref.buy(parts, yard=woodref.Yard((140.0,), (2500.0,)), allowances=None)
complete: bool = plan.complete
bench = woodref.estimate(Path("bench.toml"), place="Duluth")
in_ash = woodref.replace_woods("bench.toml", {"oak": "ash"})
built: float = bench.mass_kg["build"].expected
html: str = woodref.page(bench, "shop")
start: str = woodref.template("piece")
board = woodref.WoodPart("shelf", maple, woodref.Shape("box", 900, 250, 19))
loaded = woodref.load([board], [woodref.Item("screws", 0.01, 20)])
gross: float = woodref.crate((900, 250, 800), loaded.shipped_kg, woodref.Packing(25.0)).volume_m3

# Catalogs.
done = woodref.batch(pd.DataFrame({"wood": ["teak"]}), want="movement", to_moisture_pct=12)
woodref.coefficients(["teak"])
assert_type(done.frame(), pd.DataFrame)
rejected: int = done.summary.rejected

# Data.
assert_type(woodref.tables(), dict[str, str])
assert_type(woodref.table("species"), pd.DataFrame)
assert_type(woodref.sql("from sources"), pd.DataFrame)
assert_type(woodref.own_figures(), pd.DataFrame)
meanings: list[str] = [word.meaning for word in woodref.words("MC")]
licenses: list[str] = [source.license for source in woodref.sources()]
kept: int = woodref.own_add("mine.csv", "prices", "a yard").kept
removed: int = woodref.own_remove("m1")
heavy: float | None = woodref.own_weigh("teak", 900, 150, 25, 2.2, 8).lighter_share
units: list[str] = [known.si_unit for known in woodref.PROPERTIES.values()]
library: woodref.Reference = woodref.Reference(own=False)
versions: tuple[str, str] = (woodref.__version__, woodref.data_version)

# Pictures.
assert_type(charts.hardness_density(woodref.compare(maple, "teak"), units="si"), Figure)
saved: Path = charts.save(charts.seasonal_moisture(house.label, house.season), "year.svg")
