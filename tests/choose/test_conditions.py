"""Conditions of a user's own on the woods to rank: SQL that is an answer, or refused in a line."""

from __future__ import annotations

import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st

from woodref.choose.profile import parse_profile
from woodref.choose.rank import rank
from woodref.errors import InputError, NoDataError
from woodref.reference import query
from woodref.reference.library import Reference

HARD = parse_profile(
    """
title = "Peg"
purpose = "A peg."
[[criterion]]
column = "side_hardness_n"
direction = "higher"
weight = 1
why = "x"
poor = 2000
good = 7000
""",
    "p.toml",
    "p",
)


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


@pytest.mark.parametrize(
    ("where", "words"),
    [
        ("side_hardnes_n > 3", "no column 'side_hardnes_n'; nearest: side_hardness_n"),
        ("seasonal_change > 3", "nearest: seasonal_change"),
        ("side_hardness_n", "is no yes or no but double"),
        ("true) or (true", "syntax error"),
        ("true; drop table candidates", "the condition"),
        ("true order by 1", "the condition"),
        ("true, false", "the condition"),
        ("count(*) > 1", "aggregates"),
        ("side_hardness_n > 'hard'", "the condition"),
        ("side_hardness_n >> 3", "the condition"),
        ("  ", "is empty"),
        ("exists(select 1 from read_text('/etc/hostname'))", "no file and no address"),
        ("exists(select 1 from '/etc/hostname')", "the condition"),
        ("exists(select 1 from spceies)", "nearest: species"),
        ("'a' = getenv('HOME')", "the condition"),
        ("side_hardness_n > ?", "the condition"),
    ],
)
def test_a_condition_that_is_none_is_told_in_a_line(
    reference: Reference, where: str, words: str
) -> None:
    with pytest.raises(InputError) as error:
        rank(reference, HARD, where=where)
    assert words in str(error.value)
    assert "\n" not in str(error.value)


def test_conditions_may_ask_other_tables(reference: Reference) -> None:
    found = rank(
        reference,
        HARD,
        where="species_id in (select species_id from ratings where class = 'SR') -- a remark",
    )
    assert {w.figures["pore_arrangement"] for w in found.woods} == {"SR"}


@FEW
@given(st.text(max_size=30))
def test_any_text_as_condition_is_an_answer_or_one_line(text: str) -> None:
    try:
        found = rank(Reference(own=False), HARD, where=text)
    except (InputError, NoDataError) as error:
        told = str(error)
    else:
        told = found.woods[0].common_name
    assert len(told.split("\n")) == 1


def test_a_condition_that_takes_too_much_is_stopped(reference: Reference, monkeypatch) -> None:
    monkeypatch.setattr(query, "MOST_SECONDS", 0.2)
    endless = "(select count(*) from range(200000000000) a, range(9) b where a.range < b.range) > 7"
    with pytest.raises(InputError, match=r"^the condition .* took more than 0\.2 seconds"):
        rank(reference, HARD, where=endless)
    monkeypatch.setattr(query, "MOST_SECONDS", 60.0)
    monkeypatch.setattr(query, "MOST_MEMORY", "60MB")
    with pytest.raises(InputError, match="needs more than 60MB of memory"):
        rank(reference, HARD, where="(select len(list(range)) from range(200000000)) > 7")


def test_a_condition_that_cannot_be_told_of_a_later_wood_is_one_line(reference: Reference) -> None:
    where = "case when common_name = 'teak' then cast(common_name as double) else 1 end > 0"
    with pytest.raises(InputError, match=r"^the condition .*Conversion Error") as caught:
        rank(reference, HARD, where=where)
    assert "\n" not in str(caught.value)
