"""Finishes by name, and the coats that were tested."""

import pytest

from woodref.errors import InputError
from woodref.reference.finishes import (
    checked_coats,
    coats_of,
    finish_names,
    finish_of,
    finish_rows,
    usual_coats,
)
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def rows():
    return finish_rows(Reference())


@pytest.mark.parametrize(
    ("typed", "finish"),
    [
        ("Linseed oil", "Linseed oil"),
        ("LINSEED OIL", "Linseed oil"),
        ("urethane varnish", "Urethane varnish (oil-modified)"),
        ("Urethane varnish (oil-modified)", "Urethane varnish (oil-modified)"),
        ("lacquer", "Nitrocellulose lacquer"),
        ("two component epoxy", "Epoxy finish, clear (two components)"),
        ("nothing", ""),
        ("None", ""),
        ("bare", ""),
    ],
)
def test_a_name(rows, typed, finish):
    assert finish_of(rows, typed) == finish


def test_every_printed_name_finds_itself(rows):
    names = finish_names(rows)
    assert len(names) == 32
    assert [finish_of(rows, n) for n in names] == list(names)


def test_a_slip_gets_the_nearest(rows):
    with pytest.raises(InputError, match="no finish is called 'shelac'; nearest: Shellac"):
        finish_of(rows, "shelac")
    with pytest.raises(InputError, match="no finish is called 'qqqq'; woodref finishes lists"):
        finish_of(rows, "qqqq")


def test_a_word_of_several_lists_them(rows):
    with pytest.raises(InputError, match=r"choose one: Spar varnish \(soya alkyd\); Urethane"):
        finish_of(rows, "varnish")


def test_coats(rows):
    assert coats_of(rows, "Shellac") == (1, 2, 3, 4, 5, 6)
    assert usual_coats(rows, "Shellac") == 2
    assert usual_coats(rows, "Paraffin wax, dipped") == 1
    assert checked_coats(rows, "Shellac", 4) == 4
    with pytest.raises(InputError, match=r"tested with 1, 2, 3 coats, not 9; nearest: 3"):
        checked_coats(rows, "Linseed oil", 9)
    with pytest.raises(InputError, match=r"tested with 1 coat, not 2; nearest: 1"):
        checked_coats(rows, "Paraffin wax, dipped", 2)
