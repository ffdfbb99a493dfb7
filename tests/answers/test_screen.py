"""The short form of an answer: folded to one screen, and left out where another form is asked."""

import json

from hypothesis import given
from hypothesis import strategies as st

from woodref.answers.render import Answer, Column, Section, as_screen, render

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
