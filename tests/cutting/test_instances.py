"""Plans and bounds against the best values known of instances of the research literature.

The instances stand beside the project, not in it, each with its source in ``cite``; all of them are
planned by benchmarks/packing.py. Here are some that take a moment.
"""

import json
import os
from pathlib import Path

import pytest
from cut_boards import check_plan

from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack
from woodref.cutting.problem import Problem
from woodref.cutting.search import Search
from woodref.cutting.work import Effort

ROOT = Path(__file__).parents[2]
FILE = (
    Path(os.environ.get("WOODREF_CUTTING", ROOT.parent / "shared" / "cutting")) / "instances.json"
)

pytestmark = pytest.mark.skipif(
    not FILE.exists(), reason="the academic cutting instances are not beside the project"
)


def instance(name):
    """Blanks, boards, aim and the values known of an instance."""
    rows = json.loads(FILE.read_text(encoding="utf-8"))
    row = next(r for r in rows if r["name"] == name)
    blanks = [Blank(f"part {k}", a, b, n) for k, (a, b, n) in enumerate(row["blanks"])]
    stock = [StockBoard(f"{a} x {b}", a, b) for a, b in row["stock"]]
    return blanks, stock, row["aim"], row["best_known"]


@pytest.mark.parametrize("name", ["u120_01", "u120_05", "u500_01"])
def test_lengths_take_one_more_at_most_and_the_bound_holds(name):
    blanks, stock, aim, known = instance(name)
    plan = pack(blanks, stock, 0.0, aim)
    check_plan(plan)
    best = known["optimum"]["value"]
    assert plan.bound_boards <= best <= len(plan.boards) <= best + 1


@pytest.mark.parametrize("name", ["cintra2008/gcut2d", "cintra2008/gcut10d"])
def test_boards_of_several_sizes_come_near_the_bound(name):
    """Against a plan whose first cut goes one way alone: ours may go either way."""
    blanks, stock, aim, known = instance(name)
    plan = pack(blanks, stock, 0.0, aim)
    check_plan(plan)
    best = known["2nho_cost"]["value"] * 1e-6
    assert plan.bound_m2 <= plan.stock_m2 <= min(best, 1.005 * plan.bound_m2)


@pytest.mark.parametrize(
    "name",
    [
        *("alvarez2002/ATP34", "alvarez2002/ATP48", "cung2000/CHL7", "tschoke1995/STS4"),
        *("cintra2008_1bintype/gcut2d", "berkey1987/Class_02.2bp_100_1", "hifi1997a/HH"),
    ],
)
def test_three_cuts_do_with_the_boards_known(name):
    blanks, stock, aim, known = instance(name)
    plan = pack(blanks, stock, 0.0, aim, third_cut=True)
    check_plan(plan, cuts=3)
    best = next(v["value"] for k, v in known.items() if k in ("3nho", "3hvo", "3hao"))
    assert plan.bound_boards <= best
    assert len(plan.boards) <= best


@pytest.mark.parametrize("name", ["hopper2000/n2a-e", "hopper2000/t1a-e", "oliveira1990/OF2"])
def test_a_bound_is_not_above_what_is_known_of_freer_cuts(name):
    blanks, stock, aim, known = instance(name)
    plan = Search(Problem(blanks, stock, 0.0, aim, third_cut=True), 0, Effort(10**8, 5), None).run()
    check_plan(plan, cuts=3)
    assert plan.bound_boards <= min(v["value"] for v in known.values()) <= len(plan.boards)
