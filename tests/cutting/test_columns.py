"""The linear program over filled boards: its bound, its boards, and whole boards out of it."""

from collections import Counter
from itertools import product
from math import ceil

import numpy as np
import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from woodref.cutting.columns import fair, relaxed, rounded
from woodref.cutting.fill import Room, best_bands, fill
from woodref.cutting.lower_bound import face_bound, next_sum
from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack
from woodref.cutting.problem import Problem
from woodref.cutting.search import Search
from woodref.cutting.third_cut import best_bands_thrice, fill_thrice
from woodref.cutting.work import Effort, Work

MANY = 10**10


def patterns(lengths, most):
    """Every way to cut a length into some of the lengths, as counts."""
    return [
        p
        for p in product(*(range(most // x + 1) for x in lengths))
        if any(p) and sum(n * x for n, x in zip(p, lengths, strict=True)) <= most
    ]


def lengths_only(lengths, counts, most):
    blanks = [Blank(f"{x}", x, 50.0, n) for x, n in zip(lengths, counts, strict=True)]
    return Problem(blanks, [StockBoard("strip", most, 50.0)], 0.0, "boards", third_cut=False)


length_lists = st.lists(
    st.tuples(st.integers(20, 60), st.integers(1, 9)),
    min_size=1,
    max_size=4,
    unique_by=lambda x: x[0],
)


@SOME
@given(length_lists)
def test_lengths_are_priced_as_in_the_program_of_all_patterns(listed):
    """Against the program that lists all patterns, with fractions and in whole numbers."""
    lengths, counts = zip(*listed, strict=True)
    every = np.array(patterns(lengths, 100)).T
    ones = np.ones(every.shape[1])
    exact = linprog(ones, A_ub=-every, b_ub=-np.array(counts)).fun
    whole = milp(
        ones,
        constraints=LinearConstraint(every, lb=np.array(counts)),
        integrality=ones,
        bounds=Bounds(0, np.inf),
    ).fun
    problem = lengths_only(lengths, counts, 100.0)
    priced = relaxed(problem, problem.wanted, problem.available, [], Work(MANY))
    # Patterns with more of a length than there is are left out, which may raise the bound.
    assert ceil(exact - 1e-6) <= ceil(priced.bound - 1e-6)
    assert priced.bound <= whole + 1e-6
    plan = Search(problem, 0, Effort(100_000_000, 20), None).run()
    assert plan.bound_boards <= round(whole) <= len(plan.boards) <= round(whole) + 1


@pytest.mark.parametrize("third_cut", [False, True])
def test_a_bound_is_that_of_the_cuts_allowed(third_cut):
    """By hand: 40 x 30 holds a 40 x 10 above a 20 x 20 beside two of 20 x 10, which two cuts reach
    only with the small ones in a band of their own: 10 + 20 + 10 > 30.
    """
    blanks = [Blank("a", 40.0, 10.0), Blank("b", 20.0, 20.0), Blank("c", 20.0, 10.0, 2)]
    plan = pack(blanks, [StockBoard("board", 40.0, 30.0)], 0.0, third_cut=third_cut)
    assert len(plan.boards) == (1 if third_cut else 2)
    assert 1 <= plan.bound_boards <= len(plan.boards)


def test_whole_boards_come_out_of_fractions():
    problem = lengths_only((45, 36, 31, 14), (97, 610, 395, 211), 100.0)
    first = relaxed(problem, problem.wanted, problem.available, [], Work(MANY))
    boards, left, _ = rounded(problem, problem.wanted, first, Work(MANY))
    # Gilmore and Gomory's example as Chvatal's Linear Programming (1983) prints it, chapter 13:
    # 452.25 rolls, 453 whole ones (from memory).
    assert first.cost == pytest.approx(452.25)
    assert not left
    assert len(boards) == 453
    assert Counter(i for b in boards for i in b.kinds) == problem.wanted


def test_prices_are_made_fair_to_every_board():
    # Two sizes without a limit, one of them worth twice its cost: all prices are halved.
    assert fair([2.0, 1.0], [1.0, 1.0], [float("inf")] * 2, 10.0) == pytest.approx(5.0)
    # Of one there are two boards: their excess is taken off, which is better here.
    assert fair([2.0, 1.0], [1.0, 1.0], [2.0, float("inf")], 10.0) == pytest.approx(8.0)
    assert fair([0.5, 1.0], [1.0, 1.0], [float("inf")] * 2, 10.0) == pytest.approx(10.0)


def test_boards_that_run_short_are_priced_out():
    blanks = [Blank("part", 50.0, 50.0, 5)]
    stock = [StockBoard("few", 100.0, 50.0, 1), StockBoard("many", 60.0, 50.0)]
    problem = Problem(blanks, stock, 0.0, "wood", third_cut=False)
    priced = relaxed(problem, problem.wanted, problem.available, [], Work(MANY))
    # By hand: one board of two blanks, three of one; the bound halves nothing here.
    assert priced.bound == pytest.approx(1 * 0.005 + 3 * 0.003)


sizes = st.lists(st.tuples(st.integers(2, 12), st.integers(2, 12)), min_size=1, max_size=5)


@SOME
@given(sizes, st.lists(st.floats(0.1, 9.0), min_size=5, max_size=5))
def test_no_filling_is_worth_more_than_the_best_bands(listed, worths):
    rng = np.random.default_rng(1)
    across, along = zip(*listed, strict=True)
    room = Room(across, along, 17, 19)
    value = dict(enumerate(worths[: len(listed)]))
    counts = dict.fromkeys(value, 2)

    def worth(bands):
        return sum(value[i] for band in bands for piece in band for i in piece)

    most, bands = best_bands(room, value, counts, Work(MANY))
    filled = fill(room, value, counts, rng, 0.0, Work(MANY))
    assert worth(filled) <= most + 1e-9
    assert worth(bands) == pytest.approx(most)
    more, _ = best_bands_thrice(room, value, counts, Work(MANY))
    thrice = fill_thrice(room, value, counts, rng, 0.0, Work(MANY))
    assert worth(thrice) <= more + 1e-9
    assert most <= more + 1e-9
    for got in (filled, thrice):
        cut = Counter(i for band in got for piece in band for i in piece)
        assert all(cut[i] <= 2 for i in cut)


def test_several_sizes_take_no_more_wood_than_they_must():
    """A greedy filling takes the large board, which holds three and wastes a fourth."""
    blanks = [Blank("part", 100.0, 100.0, 12)]
    stock = [StockBoard("large", 390.0, 100.0), StockBoard("small", 200.0, 100.0)]
    plan = pack(blanks, stock, 0.0, "wood")
    assert {plan.stock[b.stock].name for b in plan.boards} == {"small"}
    assert plan.proven


@pytest.mark.parametrize(
    ("areas", "least", "sum_"),
    [
        ((0.4, 0.5), 0.6, 0.8),
        ((0.4, 0.5), 0.4, 0.4),
        ((0.36,), 0.37, 0.72),
        ((0.3, 0.7), 0.95, 1.0),
    ],
)
def test_the_least_wood_is_that_of_whole_boards(areas, least, sum_):
    assert next_sum(areas, least) == pytest.approx(sum_)


def test_the_faces_bound_takes_the_cheapest_boards_there_are():
    stock = [StockBoard("gone", 100.0, 100.0, 0), StockBoard("board", 50.0, 100.0)]
    problem = Problem([Blank("part", 50.0, 100.0, 3)], stock, 0.0, "boards", third_cut=False)
    assert face_bound(problem, problem.wanted) == pytest.approx(3.0)
