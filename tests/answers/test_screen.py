"""The short form of an answer: folded to one screen, and left out where another form is asked."""

import json

from hypothesis import given
from hypothesis import strategies as st

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.render import SCREEN_HEIGHT, SCREEN_WIDTH, as_screen, render
from woodref.answers.screen import first_screen
from woodref.answers.words import likely_columns

_WORDS = st.lists(st.text("abcdefgh", min_size=1, max_size=12), min_size=1, max_size=60)


def _answer(text="All of it."):
    section = Section.of("woods", "", [Column("wood", "wood")], [("cherry",)])
    return Answer([text], sections=[section], screen=Answer(["Short."], notes=["More: --full."]))


def test_the_short_form_is_for_a_table_alone():
    answer = _answer()
    assert render(answer, "us", "table", full=False) == "Short.\n\nMore: --full."
    assert "All of it." in render(answer, "us", "table")
    assert json.loads(render(answer, "us", "json", full=False))["answer"] == ["All of it."]
    assert "All of it." in render(answer, "us", "markdown", full=False)


def test_an_answer_without_a_short_form_is_printed_whole():
    assert "cherry" in render(Answer(["a"], sections=_answer().sections), "us", "table", full=False)


@given(_WORDS)
def test_no_line_is_wider_than_a_screen_and_no_word_is_lost(words):
    text = as_screen(Answer([" ".join(words)], notes=[" ".join(words)]), "us")
    assert all(len(line) <= 80 for line in text.splitlines())
    assert text.split() == words * 2


_CELLS = st.lists(st.text("abcdefgh ", min_size=1, max_size=60), min_size=1, max_size=9)


@given(_WORDS, st.lists(_CELLS, max_size=5), _WORDS, st.integers(1, 60))
def test_a_made_screen_fits_and_cuts_no_word(lead, tables, notes, rows):
    sections = [
        Section.of(
            f"table_{n}",
            "Table",
            [Column(f"c{i}", f"head {i}") for i in range(len(cells))],
            [cells] * rows,
        )
        for n, cells in enumerate(tables)
    ]
    answer = Answer([" ".join(lead)], sections=sections, notes=notes)
    text = as_screen(first_screen(answer, "us"), "us")
    assert len(text.splitlines()) <= SCREEN_HEIGHT
    assert all(len(line) <= SCREEN_WIDTH for line in text.splitlines())
    whole = render(answer, "us", "table").split()
    added = ["and", "more:", "--full", "More:", "--full.", *map(str, range(61))]
    assert set(text.split()) <= {*whole, *added}


def _weighed(**more):
    columns = [*likely_columns("mass", "weight", "mass"), Column("basis", "basis")]
    row = (15.0, 12.0, 18.0, "unchecked")
    return Answer(["It weighs."], sections=[Section.of("weights", "", columns, [row])], **more)


def test_a_range_stands_in_the_cell_of_its_figure_and_a_basis_as_a_mark():
    text = as_screen(first_screen(_weighed(), "us"), "us")
    assert "33.1 lb* (26 to 40)" in text
    assert "* unchecked, from memory." in text
    assert "basis" not in text


def test_what_needs_attention_stays_and_what_is_left_out_is_said_with_the_way_to_it():
    method = "Computed from density."
    text = as_screen(first_screen(_weighed(notes=[method, Heed("Lift with two.")]), "us"), "us")
    assert "Lift with two." in text
    assert method not in text
    assert text.endswith("More: --full.")
    ways = as_screen(first_screen(_weighed(notes=[method]), "us", ["--explain"]), "us")
    assert ways.endswith("More: --full, --explain.")


def test_an_answer_that_fits_whole_does_not_tell_of_more():
    assert "--full" not in as_screen(first_screen(Answer(["Short."]), "us"), "us")


def test_a_terminal_has_the_answer_bold_and_a_mark_before_what_needs_attention():
    screen = Answer(["Yes.", Heed("Too heavy.")], notes=["More: --full."])
    assert as_screen(screen, "us") == "Yes.\nToo heavy.\n\nMore: --full."
    styled = as_screen(screen, "us", styled=True)
    assert styled == "\x1b[1mYes.\x1b[0m\n\x1b[1m! Too heavy.\x1b[0m\n\nMore: --full."
