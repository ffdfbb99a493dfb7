"""Profiles of uses: the shipped ones, a user's own, and every mistake in one line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.choose.columns import COLUMNS, PRICED
from woodref.choose.profile import (
    load_profile,
    own_folder,
    parse_profile,
    profile_files,
    shipped_folder,
)
from woodref.errors import InputError
from woodref.reference.declared.woods import SPECIES

SMALL = """
title = "Peg"
purpose = "A peg."
[[criterion]]
column = "side_hardness_n"
direction = "higher"
weight = 2
why = "It is driven."
[[limit]]
column = "kind"
operator = "="
value = "hardwood"
why = "Softwood splits."
"""


@pytest.fixture(autouse=True)
def _own_configuration(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WOODREF_CONFIG", str(tmp_path / "config.toml"))


def test_every_shipped_profile_says_why() -> None:
    files = profile_files()
    assert {"tabletop", "shelf", "drawer-side", "chopping-board", "outdoor-bench"} <= set(files)
    assert {"chair-leg", "turned-bowl", "painted-frame"} <= set(files)
    for name in files:
        profile = load_profile(name)
        assert not profile.own
        assert profile.purpose.endswith(".")
        assert sum(profile.weights) == pytest.approx(1.0)
        for part in (*profile.criteria, *profile.limits):
            assert part.why.endswith("."), (name, part)
        # A shipped use needs no price list.
        assert not {c.column.name for c in profile.criteria} & set(PRICED)


def test_the_catalogue_holds_every_field_of_a_wood() -> None:
    assert set(SPECIES.columns) <= set(COLUMNS)
    assert all(c.name == name and c.description for name, c in COLUMNS.items())
    assert COLUMNS["decay_resistance_class"].words(4) == "Very resistant"
    assert COLUMNS["side_hardness_n"].cv_pct == 20.0


def test_a_name_of_two_words_and_a_slip() -> None:
    assert load_profile("Drawer side").name == "drawer-side"
    with pytest.raises(InputError, match="'tabeltop'; did you mean 'tabletop'"):
        load_profile("tabeltop")
    with pytest.raises(InputError, match="use one of bent-back"):
        load_profile("  ")


def test_own_profiles_by_path_and_in_the_folder(tmp_path: Path) -> None:
    file = tmp_path / "peg.toml"
    file.write_text(SMALL)
    assert load_profile(str(file)).own
    assert load_profile(str(file)).limits[0].text == "kind = hardwood"
    own_folder().mkdir()
    (own_folder() / "tabletop.toml").write_text(SMALL)
    (own_folder() / "peg.toml").write_text(SMALL)
    assert load_profile("tabletop").title == "Peg"
    assert load_profile("peg").own
    assert profile_files()["shelf"].parent == shipped_folder()
    with pytest.raises(InputError, match=r"no such profile; did you mean 'peg\.toml'"):
        load_profile(str(tmp_path / "pge.toml"))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("side_hardness_n", "side_hardnes_n", "did you mean 'side_hardness_n'"),
        ('column = "side_hardness_n"', 'column = "origin"', "origin is text"),
        ('"higher"', '"highest"', "did you mean 'higher'"),
        ("weight = 2", "weight = -1", "-1 is outside 0 to 1000"),
        ("weight = 2", "weight = nan", "weight: nan is outside"),
        ("weight = 2", "weight = inf", "weight: inf is outside"),
        ("weight = 2", "weight = 0", "every weight is 0"),
        ("weight = 2", "", "weight: is missing"),
        ("weight = 2", 'weight = "2"', "must be a number"),
        ("weight = 2", "weight = true", "must be a number, not true"),
        ("weight = 2", "weigth = 2", "unknown key; did you mean 'weight'"),
        ("weight = 2", "weight = 2\npoor = 1", "good: is missing"),
        ("weight = 2", "weight = 2\npoor = 5\ngood = 1", "good: 1 must be above poor 5"),
        ("weight = 2", "weight = 2\ntarget = 5", "target: has no place beside"),
        ("weight = 2", "weight = 2\noptional = 1", "optional: must be true or false"),
        ('"higher"', '"near"\ntarget = 3\nreach = 0', "reach: must be above 0"),
        ('"higher"', '"near"\nreach = 3', "target: is missing"),
        ('"higher"', '"lower"\npoor = 1\ngood = 1', "good: is the same as poor"),
        ('operator = "="', 'operator = ">"', "kind is not more or less"),
        ('operator = "="', 'operator = "=="', "'==' is not known"),
        ('value = "hardwood"', "value = 3", "must be text"),
        ('value = "hardwood"', "", "value: is missing"),
        ('why = "It is driven."', "", "why: is missing"),
        ('title = "Peg"', "", "title: is missing"),
        ("[[criterion]]", "[[criteria]]", "did you mean 'criterion'"),
        ("[[limit]]", "[[criterion]]", "unknown key"),
        ("weight = 2", "weight = 2 2", "line 7"),
    ],
)
def test_mistakes_are_told_in_one_line(old: str, new: str, message: str) -> None:
    assert old in SMALL
    with pytest.raises(InputError) as error:
        parse_profile(SMALL.replace(old, new), "peg.toml", "peg")
    text = str(error.value)
    assert text.startswith("peg.toml: ")
    assert "\n" not in text
    assert re.search(re.escape(message), text), text


def test_no_criterion_and_the_same_twice() -> None:
    top = 'title = "Peg"\npurpose = "A peg."\n'
    with pytest.raises(InputError, match="criterion: is missing"):
        parse_profile(top, "peg.toml", "peg")
    one = '[[criterion]]\ncolumn = "side_hardness_n"\ndirection = "higher"\nweight = 1\nwhy = "x"\n'
    with pytest.raises(InputError, match="'side_hardness_n' is there twice"):
        parse_profile(top + one + one, "peg.toml", "peg")


def test_too_many_criteria() -> None:
    numbers = [c.name for c in COLUMNS.values() if c.type == "number"][:27]
    criteria = [
        f'[[criterion]]\ncolumn = "{n}"\ndirection = "lower"\nweight = 1\nwhy = "x"'
        for n in numbers
    ]
    top = 'title = "Peg"\npurpose = "A peg."\n'
    assert parse_profile(top + "\n".join(criteria[:26]), "p.toml", "p").criteria
    with pytest.raises(InputError, match="27 are too many; 26 at most"):
        parse_profile(top + "\n".join(criteria), "p.toml", "p")


def test_a_yes_or_no_limit() -> None:
    text = SMALL.replace('column = "kind"', 'column = "controlled"')
    with pytest.raises(InputError, match="value: must be true or false"):
        parse_profile(text, "peg.toml", "peg")
    limit = parse_profile(text.replace('"hardwood"', "false"), "peg.toml", "peg").limits[0]
    assert (limit.value, limit.text) == (False, "controlled = false")


@given(st.text(max_size=200))
def test_any_text_is_a_profile_or_an_input_error(text: str) -> None:
    # Nothing made of one text field is a whole profile.
    with pytest.raises(InputError, match=r"\Ax\.toml: [^\n]*\Z"):
        parse_profile(text, "x.toml", "x")
