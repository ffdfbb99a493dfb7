from cut_boards import check_plan
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st

from woodref.cutting.model import Blank, StockBoard, blank_positions
from woodref.cutting.pack import pack
from woodref.cutting.problem import Problem
from woodref.cutting.search import Search
from woodref.cutting.work import Effort
from woodref.lumber.cutting_instructions import cut_words

LITTLE = Effort(20_000_000, 5)


@SOME
@given(
    st.lists(
        st.tuples(st.integers(10, 90), st.integers(10, 45), st.integers(1, 4)),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from([0.0, 3.0]),
    st.sampled_from(["boards", "wood"]),
)
def test_a_plan_with_a_third_cut_can_be_cut_and_found_again(listed, kerf, aim):
    blanks = [Blank(f"part {k}", a, b, n) for k, (a, b, n) in enumerate(listed)]
    stock = [StockBoard("large", 100.0, 50.0), StockBoard("small", 95.0, 48.0)]
    problem = Problem(blanks, stock, kerf, aim, third_cut=True)
    plan = Search(problem, 0, LITTLE, None).run()
    check_plan(plan, cuts=3)
    assert plan.complete
    assert plan.bound_m2 <= plan.stock_m2 + 1e-9
    assert plan.bound_boards <= len(plan.boards)
    assert Search(problem, 0, LITTLE, None).run() == plan


def test_the_third_cut_is_told_and_drawn():
    """A door rail beside two stiles one behind another, which only a third cut parts."""
    blanks = [Blank("wide", 500.0, 100.0), Blank("short", 247.0, 47.0, 2)]
    board = StockBoard("board", 500.0, 150.0)
    plan = pack(blanks, [board], 3.0, third_cut=True)
    check_plan(plan, cuts=3)
    (cut,) = plan.boards
    places = sorted((p.along_mm, p.across_mm) for p in blank_positions(plan, cut))
    words = cut_words(plan, cut, "si")
    assert len(places) == 3
    assert "crosscut into" in words or cut.rip_first
    assert len(pack(blanks, [board], 3.0).boards) == 1 if cut.rip_first else 2
