"""Short parts cut in multiples: nothing lost, no blank too short to machine that need not be."""

from dataclasses import replace

import pytest
from cut_boards import check_plan
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from small_woods import ALLOWANCES, SIZES, WHITE_OAK, WOODS

from woodref.lumber.buying import buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.cutting_instructions import cut_words
from woodref.lumber.multiples import end_to_end, multiples_of, split
from woodref.lumber.tally import parse_board
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.lumber.yard import Yard
from woodref.quantity import Range

INCH, FOOT = 25.4, 304.8
WASTE = Range(25.0, 20.0, 30.0)


def block(length_in=2.5, quantity=4, **more):
    return CutPart(
        "tenon block", length_in * INCH, 2 * INCH, 0.75 * INCH, "white oak", quantity, **more
    )


def plan(parts, boards=(), allowances=ALLOWANCES, **more):
    made = buying_plan(
        parts,
        WOODS,
        ThicknessesSold.only(SIZES),
        allowances,
        WASTE,
        [(WHITE_OAK, parse_board(text)) for text in boards],
        effort="quick",
        **more,
    )
    for lot in made.lots:
        check_plan(lot.plan)
    return made


@given(
    pieces=st.integers(1, 1000),
    piece=st.floats(5.0, 2_000.0),
    kerf=st.floats(0.0, 10.0),
    safe=st.floats(0.0, 1_000.0),
)
def test_every_piece_is_in_a_blank_and_every_blank_reaches_the_safe_length(
    pieces, piece, kerf, safe
):
    kinds = split(pieces, piece, kerf, safe)
    assert sum(n * blanks for n, blanks in kinds) == pieces
    assert all(n >= 1 and blanks >= 1 for n, blanks in kinds)
    lengths = [end_to_end(n, piece, kerf) for n, _ in kinds]
    whole = end_to_end(pieces, piece, kerf)
    # As short as it must be: all pieces together do not reach the safe length.
    assert min(lengths) >= min(safe, whole) - 1e-3
    if piece >= safe:
        assert kinds == [(1, pieces)]
    # No longer than need be: half of the longest would not be safe, unless pieces are odd ones.
    assert max(n for n, _ in kinds) - min(n for n, _ in kinds) <= 1


@given(
    pieces=st.integers(1, 200),
    piece=st.floats(20.0, 300.0),
    most=st.floats(20.0, 900.0),
)
def test_blanks_are_no_longer_than_the_boards_give(pieces, piece, most):
    kinds = split(pieces, piece, 3.0, 304.8, most)
    assert sum(n * blanks for n, blanks in kinds) == pieces
    if piece <= most:
        assert max(end_to_end(n, piece, 3.0) for n, _ in kinds) <= most + 1e-9


def test_four_tenon_blocks_come_from_one_blank():
    # 2-1/2 in and 1 in of allowance each, three cuts of 1/8 in between: 14-3/8 in.
    (blank,) = multiples_of(block(), ALLOWANCES)
    assert (blank.pieces, blank.blanks) == (4, 1)
    assert blank.length_mm / INCH == pytest.approx(14.375)
    made = plan([block()], ["4/4 x 3 x 2ft"])
    assert made.complete
    assert [(m.pieces, m.blanks) for m in made.multiples] == [(4, 1)]
    (lot,) = made.lots
    assert (lot.pieces_cut, lot.pieces_left) == (4, 0)
    words = cut_words(lot.plan, lot.plan.boards[0], "us")
    assert words in (
        "crosscut 14-3/8 in: tenon block (4 end to end) 2-1/4 in",
        "rip 2-1/4 in: tenon block (4 end to end) 14-3/8 in",
    )


def test_nine_are_shared_evenly():
    kinds = [(m.pieces, m.blanks) for m in multiples_of(block(quantity=9), ALLOWANCES)]
    assert kinds == [(5, 1), (4, 1)]


def test_none_are_cut_together_where_that_is_switched_off():
    off = replace(ALLOWANCES, safe_length_mm=0.0)
    assert [(m.pieces, m.blanks) for m in multiples_of(block(), off)] == [(1, 4)]
    assert plan([block()], ["4/4 x 3 x 2ft"], off).multiples == ()


def test_of_an_amount_to_buy_the_blanks_are_told_too():
    made = plan([block(quantity=9)])
    assert [(m.pieces, m.blanks) for m in made.multiples] == [(5, 1), (4, 1)]
    (bought,) = made.purchases
    # Finished faces: nine of 2 in x 2-1/2 in, and a fourth for waste.
    assert bought.board_feet.expected == pytest.approx(9 * 2 * 2.5 / 144 * 1.25)


@FEW
@given(
    quantities=st.lists(st.integers(1, 12), min_size=1, max_size=3),
    lengths=st.lists(st.floats(1.0, 20.0), min_size=3, max_size=3),
    boards=st.integers(0, 2),
    yard=st.booleans(),
)
def test_of_every_part_all_pieces_are_cut_or_short(quantities, lengths, boards, yard):
    parts = [
        replace(block(length, n), name=f"part {k}")
        for k, (n, length) in enumerate(zip(quantities, lengths, strict=False))
    ]
    in_hand = [f"4/4 x 3 x 3ft x {boards}"] if boards else []
    made = plan(parts, in_hand, yard=Yard((6 * INCH,), (8 * FOOT,)) if yard else None)
    cut = {p.name: 0 for p in parts}
    bought = {p.name: 0 for p in parts}
    for lot in made.lots:
        for board in lot.plan.boards:
            for i in board.blanks:
                count = bought if lot.bought else cut
                count[lot.parts[i].name] += lot.plan.blanks[i].pieces
    short = {u.part.name: u.quantity for u in made.uncut}
    for part in parts:
        assert cut[part.name] + short.get(part.name, 0) == part.quantity
        if yard:
            assert bought[part.name] == short.get(part.name, 0)
    told = sum(lot.pieces_cut for lot in made.lots if not lot.bought)
    assert told + sum(u.quantity for u in made.uncut) == made.blanks
