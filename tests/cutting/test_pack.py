import random
import signal
import threading
from collections import Counter
from itertools import product

import numpy as np
import pytest
from cut_boards import check_plan, fewest_boards
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from woodref.cutting.grid import MOST_STEPS, steps_of
from woodref.cutting.lower_bound import bound_of
from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack
from woodref.cutting.problem import Problem
from woodref.cutting.work import Work
from woodref.errors import InputError

BOARD = StockBoard("board", 2400.0, 150.0)
KERF = 3.0

sizes = st.tuples(st.floats(30.0, 2600.0), st.floats(10.0, 170.0))
blank_lists = st.lists(
    st.builds(lambda s, n: (s, n), sizes, st.integers(0, 4)), min_size=1, max_size=6
)
stocks = st.lists(
    st.tuples(st.floats(200.0, 3000.0), st.floats(40.0, 250.0), st.none() | st.integers(0, 3)),
    min_size=1,
    max_size=4,
)


def blanks_of(listed):
    return [Blank(f"part {k}", a, b, n) for k, ((a, b), n) in enumerate(listed)]


@SOME
@given(blank_lists, stocks, st.floats(0.0, 6.0), st.sampled_from(["boards", "wood"]))
def test_a_plan_can_be_cut_and_loses_nothing(listed, boards, kerf, aim):
    stock = [StockBoard(f"board {k}", a, b, n) for k, (a, b, n) in enumerate(boards)]
    plan = pack(blanks_of(listed), stock, kerf, aim, "quick")
    check_plan(plan)
    for i, blank in enumerate(plan.blanks):
        fits = any(blank.length_mm <= s.length_mm and blank.width_mm <= s.width_mm for s in stock)
        # Sizes within a step of a board may be taken for too large, never the other way.
        assert fits or i in plan.too_large
        if i in plan.too_large:
            assert plan.left[i] == blank.quantity
    if all(s.quantity is None for s in stock):
        assert all(not n or i in plan.too_large for i, n in enumerate(plan.left))
    if plan.complete:
        assert plan.bound_boards <= len(plan.boards)
        assert plan.bound_m2 <= plan.stock_m2 + 1e-9
        assert not plan.short
        assert 0.0 <= plan.offcut_pct < 100.0


@SOME
@given(
    st.lists(st.tuples(st.integers(10, 40), st.integers(3, 10)), min_size=1, max_size=5),
    st.sampled_from([0, 1]),
)
def test_tiny_plans_against_trying_everything(listed, kerf):
    best = fewest_boards(listed, 40, 10, kerf)
    blanks = [Blank(f"part {k}", a, b) for k, (a, b) in enumerate(listed)]
    board = StockBoard("board", 40.0, 10.0)
    plan = pack(blanks, [board], float(kerf), effort="quick")
    check_plan(plan)
    assert plan.bound_boards <= best <= len(plan.boards)
    assert ceil_of(any_cut_bound(blanks, [board], float(kerf))) <= best


def any_cut_bound(blanks, stock, kerf, aim="boards"):
    """The bound of any layout, in boards or m2."""
    problem = Problem(blanks, stock, kerf, aim, third_cut=True)
    return bound_of(problem, {i: b.quantity for i, b in enumerate(blanks)}, Work(10**9))


def ceil_of(x):
    return int(np.ceil(x - 1e-6))


@pytest.mark.parametrize("seed", range(6))
def test_tiny_plans_are_the_best(seed):
    rng = random.Random(seed)
    listed = [(rng.randint(10, 40), rng.randint(3, 10)) for _ in range(6)]
    blanks = [Blank(f"part {k}", a, b) for k, (a, b) in enumerate(listed)]
    plan = pack(blanks, [StockBoard("board", 40.0, 10.0)], 1.0, seed=seed)
    assert len(plan.boards) == fewest_boards(listed, 40, 10, 1)


def test_strips_of_one_width_are_a_cutting_stock_problem():
    """Blanks as wide as the board, against the exact model of the solver itself."""
    lengths, counts = (1100.0, 700.0, 450.0), (4, 5, 6)
    most = [int((2400.0 + KERF) // (x + KERF)) for x in lengths]
    patterns = [
        p
        for p in product(*(range(m + 1) for m in most))
        if any(p) and sum(n * (x + KERF) for n, x in zip(p, lengths, strict=True)) <= 2400.0 + KERF
    ]
    exact = milp(
        np.ones(len(patterns)),
        constraints=LinearConstraint(np.array(patterns).T, lb=np.array(counts)),
        integrality=np.ones(len(patterns)),
        bounds=Bounds(0, np.inf),
    )
    blanks = [Blank(f"{x:g}", x, 150.0, n) for x, n in zip(lengths, counts, strict=True)]
    plan = pack(blanks, [BOARD], KERF)
    check_plan(plan)
    assert len(plan.boards) == round(exact.fun)
    assert plan.bound_boards <= round(exact.fun)


def full_boards(seed, boards):
    """The blanks of boards cut up without waste, and so the least number of boards."""
    rng = random.Random(seed)
    cut = Counter()
    for _ in range(boards):
        left = 2400
        while left > 0:
            length = rng.randint(300, 900)
            if left - length - 3 < 300:
                length = left
            widths = rng.choice([(150,), (72, 75), (47, 50, 47), (60, 87)])
            cut.update((length, width) for width in widths)
            left -= length + 3
    return [Blank(f"{a} x {b}", float(a), float(b), n) for (a, b), n in sorted(cut.items())]


@pytest.mark.parametrize("seed", range(4))
def test_the_bound_is_not_above_a_known_optimum(seed):
    blanks = full_boards(seed, 4)
    for stock, aim, cost in (
        (BOARD, "boards", 1.0),
        (StockBoard("board", 2400.0, 150.0, 4), "boards", 1.0),
        (BOARD, "wood", BOARD.area_m2),
    ):
        bound = any_cut_bound(blanks, [stock], KERF, aim)
        assert bound <= 4.0 * cost * (1.0 + 1e-9)
        # Without waste the bound is the optimum itself.
        assert bound == pytest.approx(4.0 * cost, rel=1e-4)


@pytest.mark.parametrize("seed", range(3))
def test_a_quick_search_is_not_far_from_a_known_optimum(seed):
    plan = pack(full_boards(seed, 5), [BOARD], KERF, effort="quick", seed=seed)
    check_plan(plan)
    assert plan.complete
    assert plan.bound_boards == 5
    assert 5 <= len(plan.boards) <= 7
    assert plan.gap_boards == len(plan.boards) - 5


def test_boards_in_hand_that_cannot_do_are_proven_short():
    plan = pack([Blank("part", 1100.0, 70.0, 9)], [StockBoard("b", 2400.0, 150.0, 2)], KERF)
    check_plan(plan)
    assert plan.short
    assert sum(plan.left) == 1
    assert plan.gap_boards is None
    assert not plan.proven


def test_a_fourth_of_a_board_each_is_proven_at_once():
    plan = pack([Blank("part", 1198.5, 73.5, 8)], [BOARD], KERF)
    assert len(plan.boards) == plan.bound_boards == 2
    assert plan.proven
    assert plan.gap_boards == 0
    # What is lost is the saw kerf alone.
    assert plan.offcut_pct == pytest.approx(100.0 * (1 - 4 * 1198.5 * 73.5 / (2400 * 150)))


def test_ripping_first_wins_where_it_wins():
    """Two long strips beside three short ones that no crosscut could divide."""
    blanks = [Blank("long", 2400.0, 70.0), Blank("short", 798.0, 77.0, 3)]
    plan = pack(blanks, [BOARD], KERF)
    check_plan(plan)
    assert [b.rip_first for b in plan.boards] == [True]


def test_crosscutting_first_is_preferred_where_both_ways_do():
    plan = pack([Blank("part", 1198.0, 150.0, 6)], [BOARD], KERF)
    assert [b.rip_first for b in plan.boards] == [False] * 3


def test_wood_is_spared_where_that_is_the_aim():
    stock = [StockBoard("large", 3000.0, 200.0), StockBoard("small", 1000.0, 100.0)]
    blanks = [Blank("part", 1000.0, 100.0, 2)]
    wood = pack(blanks, stock, KERF, "wood")
    assert {wood.stock[b.stock].name for b in wood.boards} == {"small"}
    assert wood.stock_m2 == pytest.approx(wood.bound_m2) == pytest.approx(0.2)
    assert wood.proven
    boards = pack(blanks, [StockBoard("large", 2100.0, 200.0), stock[1]], KERF, "boards")
    assert len(boards.boards) == 1


@pytest.mark.parametrize("stock", [[], [StockBoard("gone", 2400.0, 150.0, 0)]])
def test_no_boards_leave_everything(stock):
    plan = pack([Blank("part", 100.0, 50.0, 3)], stock, KERF)
    assert plan.left == (3,)
    assert plan.too_large == (() if stock else (0,))
    assert plan.boards == ()
    assert plan.offcut_pct == 0.0


def test_the_same_question_has_the_same_plan():
    blanks = full_boards(1, 3)
    one, two = (pack(blanks, [BOARD], KERF, seed=5) for _ in range(2))
    assert one.boards == two.boards


@pytest.mark.parametrize(
    ("blanks", "stock", "kerf", "aim", "said"),
    [
        ([], [BOARD], 3.0, "boards", "nothing to cut"),
        ([Blank("a", 1, 1)], [BOARD], 30.0, "boards", "0 to 0.7874 in .20 mm., not 1.181 in"),
        (
            [Blank("a", 0, 1)],
            [BOARD],
            3.0,
            "boards",
            "a: 0 in .0 mm. x 0.03937 in .1 mm. is no size to cut",
        ),
        ([Blank("a", 9, float("nan"))], [BOARD], 3.0, "boards", "is no size to cut"),
        ([Blank("a", 9, 9, -1)], [BOARD], 3.0, "boards", "a quantity cannot be -1"),
        ([Blank("a", 9, 9, 30000)], [BOARD], 3.0, "boards", "30000 blanks are more than"),
        ([Blank("a", 9, 9)], [BOARD], 3.0, "cost", "fewest boards or least wood, not 'cost'"),
    ],
)
def test_impossible_wishes_are_one_line(blanks, stock, kerf, aim, said):
    with pytest.raises(InputError, match=said) as caught:
        pack(blanks, stock, kerf, aim)
    assert "\n" not in str(caught.value)


def test_a_long_list_of_many_kinds_ends_with_every_blank():
    rng = random.Random(1)
    blanks = [Blank(f"p{k}", rng.uniform(150, 1500), rng.uniform(30, 140)) for k in range(600)]
    stock = [StockBoard(f"b{k}", 2400.0 + 300 * k, 150.0 + 10 * k) for k in range(6)]
    plan = pack(blanks, stock, KERF, "wood", "quick")
    check_plan(plan)
    assert plan.complete
    assert plan.bound_m2 <= plan.stock_m2
    assert plan.offcut_pct < 30.0


def test_an_interrupt_keeps_the_best_plan_so_far():
    blanks = full_boards(3, 8)
    seen = []

    def stop(progress):
        seen.append(progress)
        if len(seen) == 3:
            raise KeyboardInterrupt

    plan = pack(blanks, [BOARD], KERF, report=stop)
    check_plan(plan)
    assert plan.interrupted
    assert plan.complete
    assert len(plan.boards) == seen[-1].boards >= 8
    assert seen[-1].left == 0


@pytest.fixture
def interruptible():
    """The usual answer to an interrupt, which a shell turns off for what it runs behind."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("interruptible")
def test_an_interrupt_from_the_keyboard_ends_a_long_search_soon():
    timer = threading.Timer(0.5, signal.raise_signal, [signal.SIGINT])
    timer.start()
    plan = pack(full_boards(2, 10), [BOARD], KERF)
    timer.join()
    check_plan(plan)
    assert plan.interrupted
    assert plan.complete


def test_an_interrupt_before_the_first_plan_still_gives_one(monkeypatch):
    from woodref.cutting import search as packing_search

    real, calls = packing_search.Search._fill_boards, []

    def first_time(self, *given):
        calls.append(1)
        if len(calls) == 1:
            raise KeyboardInterrupt
        return real(self, *given)

    monkeypatch.setattr(packing_search.Search, "_fill_boards", first_time)
    plan = pack(full_boards(3, 2), [BOARD], KERF)
    check_plan(plan)
    assert plan.interrupted
    assert plan.complete


@given(
    st.lists(st.floats(1.0, 5000.0), min_size=1, max_size=8),
    st.lists(st.floats(1.0, 6000.0), min_size=1, max_size=4),
    st.floats(0.0, 10.0),
)
def test_steps_never_let_through_what_does_not_fit(blanks, boards, kerf):
    tight = steps_of(blanks, boards, kerf)
    loose = steps_of(blanks, boards, kerf, loose=True)
    assert max(tight.boards) <= MOST_STEPS
    for size, board, k, s in (
        (a, b, k, s) for k, a in enumerate(blanks) for s, b in enumerate(boards)
    ):
        if tight.blanks[k] <= tight.boards[s]:
            assert size <= board + 1e-6
        if size <= board:
            assert loose.blanks[k] <= max(1, loose.boards[s])
