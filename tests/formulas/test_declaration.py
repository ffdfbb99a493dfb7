"""What a formula says of itself."""

import pytest

from woodref.formulas.declaration import HANDBOOK, Declaration, declaration, formula
from woodref.formulas.density import density_at


def test_a_declared_function_stays_as_it_is_and_says_what_was_declared():
    def plain(a, b):
        return a + b

    def twice(a, _b):
        return 2 * a

    declared = formula("a + b", ("a", "b"), "any textbook", "1-2", "1-3", a=twice)(plain)
    assert declared is plain
    assert declaration(plain) == Declaration(
        "a + b", ("a", "b"), "any textbook", ("1-2", "1-3"), {"a": twice}
    )


def test_an_undeclared_function_has_none():
    with pytest.raises(KeyError):
        declaration(print)


def test_a_formula_of_the_handbook():
    told = declaration(density_at)
    assert told.text == "1000 Gx (1 + M/100)"
    assert (told.source, told.equations) == (HANDBOOK, ("4-14",))
