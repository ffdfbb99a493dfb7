"""The drawings of a cutting plan: every blank is named on its board, and places are true."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from page_kit import Page
from pieces import demo

from woodref.answers.shop_words import bare_size
from woodref.cutting.model import blank_positions
from woodref.report import report_html
from woodref.report.blank_labels import LETTER, LETTERS, LINE, label


@pytest.fixture(scope="module")
def plan():
    return demo("sideboard").plan


@pytest.fixture(scope="module")
def drawn():
    """The drawings of the shop's page, in order."""
    page = report_html(demo("sideboard"), "shop")
    return re.findall(r'<svg viewBox="([^"]+)" class="cuts".*?</svg>', page), [
        m[0] for m in re.finditer(r'<svg viewBox="[^"]+" class="cuts".*?</svg>', page)
    ]


def test_every_board_is_drawn_and_every_blank_named_on_it(plan, drawn):
    boards = [(lot, board) for lot in plan.lots for board in lot.plan.boards]
    assert len(drawn[1]) == len(boards)
    for (lot, board), svg in zip(boards, drawn[1], strict=True):
        told = " ".join(re.findall(r">([^<>]+)<", svg))
        for i in board.blanks:
            assert lot.plan.blanks[i].name in told
        assert svg.count('class="blank"') == len(board.blanks)
        assert not re.search(r"> *\d+ *</tspan>", svg)  # no key of numbers


def test_places_are_measured_from_the_end_of_the_board_as_sold(plan, drawn):
    lot = plan.lots[0]
    board = lot.plan.boards[0]
    sold, usable = lot.sizes[board.stock][1], lot.plan.stock[board.stock].length_mm
    trim = (sold - usable) / 2
    assert trim == pytest.approx(25.4)  # 1 in off each end, common practice, no source
    for place in blank_positions(lot.plan, board):
        start = place.along_mm + trim
        end = start + lot.plan.blanks[place.blank].length_mm
        assert f"{bare_size(start, 'us')} to {bare_size(end, 'us')}" in drawn[1][0]
        assert end <= sold - trim + 0.01


def test_letters_print_at_nine_points_or_more():
    # A4 is 210 mm wide, its margins 13 mm each; a drawing is 1002 units wide; 1 pt is 1/72 in.
    assert LETTERS / 1002 * (210 - 26) / 25.4 * 72 >= 9.0


def test_boards_cut_alike_are_told_once_in_words_and_drawn_each(plan):
    text = Page(report_html(demo("sideboard"), "shop")).text
    boards = sum(len(lot.plan.boards) for lot in plan.lots)
    assert f"Board {boards}" in text
    assert f"Board {boards + 1}" not in text
    assert "2 boards 4/4 white oak 7 in x 120 in, cut alike" in text


WORDS = st.text(st.sampled_from("abcdefgh "), min_size=1, max_size=30).map(
    lambda t: " ".join(t.split()) or "a"
)


@given(WORDS, st.floats(1, 1000), st.floats(1, 400))
def test_a_label_stays_inside_its_blank(name, wide, high):
    told = label(name, "2-1/2 wide", "1", "57-1/2", wide, high)
    if told is None:
        return
    along, across = (high, wide) if told.upright else (wide, high)
    assert max(map(len, told.lines)) * LETTER <= along
    assert (LETTERS if len(told.lines) == 1 else LINE * len(told.lines)) <= across
    assert " ".join(told.lines).startswith(name.split()[0])


@pytest.mark.parametrize(
    ("wide", "high", "lines"),
    [
        (400, 60, ("door rail", "2-1/2 wide, 1 to 14")),
        (120, 70, ("door rail", "2-1/2 wide", "1 to 14")),
        (110, 42, ("door rail", "1 to 14")),
        (30, 400, ("door rail, 2-1/2 wide, 1 to 14",)),
        (20, 20, None),
    ],
)
def test_the_fullest_label_that_fits_is_taken(wide, high, lines):
    told = label("door rail", "2-1/2 wide", "1", "14", wide, high)
    assert (told.lines if told else None) == lines
