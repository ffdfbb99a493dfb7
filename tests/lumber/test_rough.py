"""From finished to rough sizes: the reference tables, and sizes written out here."""

import pytest
from small_woods import SIZES

from woodref.errors import InputError, NoDataError
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.lumber.rough import (
    Allowances,
    check_stock,
    dressed_thickness,
    sawn_thicknesses,
    shortfall,
    size_words,
    softwood_thicknesses,
    softwood_width,
    usual,
)
from woodref.lumber.waste import waste_of_grade
from woodref.reference import trade
from woodref.reference.library import Reference

INCH = 25.4


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_usual_allowances_are_the_low_end_of_common_practice(reference):
    found = usual(reference)
    a = found.allowances
    inches = [x / INCH for x in (a.length_mm, a.width_mm, a.end_trim_mm, a.kerf_mm, a.planing_mm)]
    assert inches == pytest.approx([1.0, 0.25, 1.0, 0.125, 0.1875])
    assert (found.waste.pct.low, found.waste.pct.high) == (20.0, 30.0)
    assert found.waste.basis == "common_practice"


def test_a_dataset_without_the_rules_is_said(reference, monkeypatch):
    monkeypatch.setattr("woodref.lumber.rough.practices", lambda *_: {})
    with pytest.raises(NoDataError, match="lacks the rule of practice"):
        usual(reference)


@pytest.mark.parametrize(
    ("finished", "stock", "words"),
    [
        (0.8125, "4/4", ""),
        (0.875, "4/4", "4/4 dresses to 13/16 in: too thin for 7/8 in"),
        (1.75, "8/4", ""),
        (1.76, "8/4", "8/4 dresses to 1-3/4 in: too thin for 1-3/4 in"),
    ],
)
def test_dressed_sizes_that_fall_short(finished, stock, words):
    short = shortfall(finished * INCH, parse_nominal(stock), SIZES, 0.0)
    assert (short.words("us") if short else "") == words


def test_the_stock_that_would_reach_is_named():
    with pytest.raises(InputError, match=r"too thin for 7/8 in; 5/4 reaches it$"):
        check_stock(0.875 * INCH, parse_nominal("4/4"), SIZES, 0.0)
    with pytest.raises(InputError, match=r"laminate it from thinner stock$"):
        check_stock(4 * INCH, parse_nominal("8/4"), SIZES, 0.0)
    check_stock(0.8125 * INCH, parse_nominal("4/4"), SIZES, 0.0)


def test_sawn_thicknesses_by_table_or_less_the_planing():
    found = sawn_thicknesses([Nominal("52 mm", 52.0), Nominal("4/4", 25.4)], SIZES, 5.0)
    assert [(s.nominal, s.dressed_mm) for s in found] == [
        ("4/4", pytest.approx(0.8125 * INCH)),
        ("52 mm", 47.0),
    ]
    assert found[1].basis == "common_practice"
    assert dressed_thickness(Nominal("4 mm", 4.0), SIZES, 5.0) == 0.0


def test_softwood_is_sold_by_nominal_sizes(reference):
    """Voluntary Product Standard PS 20: 1 in dresses dry to 3/4 in, 2 x 6 to 1-1/2 x 5-1/2."""
    sizes = trade.softwood_sizes(reference)
    thick = {s.nominal: s.dressed_mm / INCH for s in softwood_thicknesses(sizes)}
    assert thick["1 in"] == pytest.approx(0.75)
    assert thick["2 in"] == pytest.approx(1.5)
    assert list(thick.values()) == sorted(thick.values())
    widths = [softwood_width(w * INCH, sizes) / INCH for w in (4, 6, 8, 10)]
    assert widths == pytest.approx([3.5, 5.5, 7.25, 9.25])
    with pytest.raises(InputError, match=r"7-1/2 in is no nominal width of softwood; use one of 2"):
        softwood_width(7.5 * INCH, sizes)


def test_a_grade_tells_the_waste(reference):
    listed = trade.grades(reference)
    waste = waste_of_grade(" fas ", listed)
    fas = waste.grade
    assert (fas.name, fas.min_width_mm / INCH, fas.min_length_mm / 304.8) == (
        "FAS",
        pytest.approx(6.0),
        pytest.approx(8.0),
    )
    assert waste.pct.expected == pytest.approx(20.0, abs=0.01)
    assert waste_of_grade("No. 1 Common", listed).pct.expected == pytest.approx(50.0, abs=0.01)
    assert waste_of_grade("shop", listed) is None


@pytest.mark.parametrize("value", [-1.0, 501.0, float("nan")])
def test_an_allowance_that_cannot_be(value):
    with pytest.raises(InputError, match=r"an allowance for end trim is 0 to 19\.69 in \(500 mm\)"):
        Allowances(0.0, 0.0, value, 3.0, 5.0)


def test_sizes_in_words():
    assert size_words(22.225, "us") == "7/8 in"
    assert size_words(22.225, "si") == "22.2 mm"
