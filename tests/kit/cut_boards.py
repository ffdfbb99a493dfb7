"""Cutting plans looked at from outside: what a plan must hold, and the best of tiny ones."""

from collections import Counter
from functools import cache
from itertools import combinations

import pytest

from woodref.cutting.model import blank_positions

TINY = 1e-6


def check_plan(plan, cuts=2):
    """Nothing overlaps or sticks out, the saw has its kerf, nothing is lost, stock suffices."""
    out = Counter(i for board in plan.boards for i in board.blanks)
    for i, blank in enumerate(plan.blanks):
        assert out[i] + plan.left[i] == blank.quantity
    used = Counter(board.stock for board in plan.boards)
    for s, stock in enumerate(plan.stock):
        assert stock.quantity is None or used[s] <= stock.quantity
    for board in plan.boards:
        assert board.blanks
        if cuts == 2:
            assert all(len(piece) == 1 for strip in board.strips for piece in strip.pieces)
        _check_board(plan, board)


def _check_board(plan, board):
    stock, kerf = plan.stock[board.stock], plan.kerf_mm
    boxes = [
        # The length of a blank always lies along the board: the grain is never turned.
        (p.along_mm, p.along_mm + b.length_mm, p.across_mm, p.across_mm + b.width_mm)
        for p in blank_positions(plan, board)
        for b in [plan.blanks[p.blank]]
    ]
    for left, right, low, high in boxes:
        assert left >= 0.0
        assert low >= 0.0
        assert right <= stock.length_mm + TINY
        assert high <= stock.width_mm + TINY
    for a, b in combinations(boxes, 2):
        apart = max(b[0] - a[1], a[0] - b[1], b[2] - a[3], a[2] - b[3])
        assert apart >= kerf - TINY
    # The first cuts go right through: bands lie side by side, all blanks inside their band.
    room = stock.width_mm if board.rip_first else stock.length_mm
    end = -kerf
    for strip in board.strips:
        assert strip.start_mm >= end + kerf - TINY
        sizes = [
            sum(
                plan.blanks[i].width_mm if board.rip_first else plan.blanks[i].length_mm
                for i in piece
            )
            + kerf * (len(piece) - 1)
            for piece in strip.pieces
        ]
        assert strip.size_mm == pytest.approx(max(sizes), abs=TINY)
        end = strip.start_mm + strip.size_mm
    assert end <= room + TINY
    _check_cuts(boxes, kerf)


def _check_cuts(boxes, kerf):
    """Cuts that go right through part all blanks, one after the other."""
    if len(boxes) == 1:
        return
    for low, high in ((0, 1), (2, 3)):
        order = sorted(boxes, key=lambda box: box[low])
        reach = order[0][high]
        for k in range(1, len(order)):
            if order[k][low] >= reach + kerf - TINY:
                _check_cuts(order[:k], kerf)
                _check_cuts(order[k:], kerf)
                return
            reach = max(reach, order[k][high])
    raise AssertionError("no cut parts these blanks")


def _divisions(items):
    """All ways to divide items into groups."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for division in _divisions(rest):
        yield [[first], *division]
        for k in range(len(division)):
            yield [*division[:k], [first, *division[k]], *division[k + 1 :]]


def _in_bands(sizes, room_along, room_across, kerf):
    """Whether (along, across) sizes fit bands: crosscut along, ripped across, trimmed."""
    for division in _divisions(sizes):
        along = sum(max(a for a, _ in strip) + kerf for strip in division) - kerf
        across = max(sum(b + kerf for _, b in strip) - kerf for strip in division)
        if along <= room_along + TINY and across <= room_across + TINY:
            return True
    return False


def fewest_boards(sizes, length, width, kerf):
    """The least number of equal boards for a few blanks (length, width), by trying everything."""

    @cache
    def fits(group):
        one = [sizes[i] for i in group]
        turned = [(b, a) for a, b in one]
        return _in_bands(one, length, width, kerf) or _in_bands(turned, width, length, kerf)

    counts = [
        len(division)
        for division in _divisions(list(range(len(sizes))))
        if all(fits(tuple(group)) for group in division)
    ]
    return min(counts, default=None)
