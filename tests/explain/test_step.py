"""A step says what its formula computes: text and numbers, worked out, give the same."""

from math import sqrt

import pytest
from formula_cases import CASES, FORMULAS

from woodref.explain.step import added, cited, n, step, times, total, worked
from woodref.formulas.bending import deflection_uniform, second_moment
from woodref.formulas.declaration import declaration, formula
from woodref.formulas.density import density_at, specific_gravity_at
from woodref.formulas.shrinkage import shrinkage_at_ring_angle, size_by_change_per_pct
from woodref.formulas.spread import cv_of_boards, sd_of_sum


def declared(name):
    try:
        return declaration(FORMULAS[name])
    except KeyError:
        return None


DECLARED = [name for name in FORMULAS if declared(name)]
ROWS = CASES | {
    "spread.cv_of_boards": {"cv": [0.1, 0.2], "boards": [1, 12], "correlation": [0.5, 0.2]}
}


def worked_out(numbers):
    return eval(numbers, {"__builtins__": {}}, {"sqrt": sqrt})


@pytest.mark.parametrize("name", DECLARED)
def test_the_text_of_a_formula_is_what_it_computes(name):
    function = FORMULAS[name]
    assert len(declared(name).symbols) == len(ROWS[name])
    for arguments in zip(*ROWS[name].values(), strict=True):
        found = worked(function, *arguments)
        assert found.value == function(*arguments)
        # Six digits of each number.
        assert worked_out(found.numbers) == pytest.approx(found.value, rel=1e-4)


@pytest.mark.parametrize("name", DECLARED)
def test_its_equations_are_those_its_docstring_cites(name):
    assert [e for e in declared(name).equations if e not in FORMULAS[name].__doc__] == []


def test_numbers_stand_in_the_place_of_their_symbols():
    found = worked(second_moment, 250.0, 19.0)
    assert (found.text, found.numbers) == ("b h3 / 12", "250 * 19 ** 3 / 12")
    assert worked(size_by_change_per_pct, 100.0, 8.0, 6.0, 0.2).numbers == (
        "100 * (1 + 0.2 * (6 - 8) / 100)"
    )
    assert n(-1.5) == "(-1.5)"


def test_an_argument_left_to_its_default_is_written_as_a_number():
    assert worked(specific_gravity_at, 0.6, 8.0, 16.3).text == "Gb / (1 - Sv/100 (1 - M/30))"
    own = worked(specific_gravity_at, 0.6, 8.0, 16.3, 28.0)
    assert own.text == "Gb / (1 - Sv/100 (1 - M/MCfs))"


def test_a_formula_stands_in_another_and_brings_its_equations():
    density = worked(density_at, worked(specific_gravity_at, 0.6, 40.0, 16.3), 40.0)
    shown = step("oak", "density", density, "kg/m3")
    assert shown.formula == "1000 Gb / (1 - Sv/100 (1 - M/30)) (1 + M/100)"
    # No shrinkage above fiber saturation, but all of the water.
    assert shown.numbers == "1000 * 0.6 / (1 - 16.3 / 100 * (1 - 30 / 30)) * (1 + 40 / 100)"
    assert shown.result == pytest.approx(840.0)
    assert shown.source == "FPL-GTR-282 (2021), Eq. 4-9, 4-11 and 4-14"


def test_a_formula_kept_apart_is_told_after_the_one_it_serves():
    names = {"St": "ct", "Sr": "cr"}
    change = worked(shrinkage_at_ring_angle, 0.3, 0.2, 45.0, called=names)
    found = worked(size_by_change_per_pct, 100.0, 8.0, 6.0, change._replace(apart=True))
    shown = step("oak", "width", found, "mm")
    assert shown.formula == "D1 (1 + c (M2 - M1)/100), c = ct cos2 + cr sin2"
    assert worked_out(shown.numbers) == pytest.approx(99.5)


def test_a_product_is_taken_whole_where_another_divides_by_it():
    @formula("a / b", ("a", "b"), "arithmetic")
    def ratio(a, b):
        return a / b

    @formula("a b", ("a", "b"), "arithmetic")
    def product(a, b):
        return a * b

    @formula("a2", ("a",), "arithmetic")
    def square(a):
        return a * a

    two = worked(product, 2.0, 3.0)
    assert worked(ratio, 12.0, two).numbers == "12 / (2 * 3)"
    assert worked(square, two).numbers == "(2 * 3) ** 2"
    assert worked(product, two, 4.0).numbers == "2 * 3 * 4"
    both = added(two, worked(square, 5.0))
    assert worked(product, 2.0, both).numbers == "2 * (2 * 3 + 5 ** 2)"
    assert worked(product, 2.0, both).text == "a (a b + a2)"


def test_sums_and_multiples():
    one = worked(second_moment, 2.0, 3.0)
    three = times(3, one)
    assert (three.text, three.numbers, three.value) == (one.text, "3 * 2 * 3 ** 3 / 12", 13.5)
    assert times(3, one, "boards").text == "boards x b h3 / 12"
    both = total([one, three])
    assert (both.text, both.value) == (one.text, 18.0)
    assert worked_out(both.numbers) == 18.0
    beam = worked(deflection_uniform, 300.0, 900.0, 9000.0, one._replace(apart=True), 5 / 384)
    assert added(beam, beam).where == ("I = b h3 / 12",)
    assert cited(beam) == "elementary beam theory; never a structural value"


def test_a_text_that_cannot_be_read_is_told():
    @formula("a % b", ("a", "b"), "arithmetic")
    def rest(a, b):
        return a % b

    with pytest.raises(ValueError, match="cannot be read from ' % b' on"):
        worked(rest, 5.0, 3.0)


@pytest.mark.parametrize("boards", [1, 2, 40])
def test_the_spread_of_equal_boards_is_that_of_their_sum(boards):
    assert cv_of_boards(0.1, boards) == pytest.approx(sd_of_sum([0.1] * boards) / boards)
