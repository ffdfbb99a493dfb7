"""TOML files: a value without its quotes, mistakes gathered, messages in the units of the file."""

import pytest

from woodref.errors import InputError, ManyMistakesError
from woodref.toml_reader import PERCENT, Mistakes, TomlTable
from woodref.toml_text import parse_toml


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\nlength = 19-1/2\n", 'line 2: length: 19-1/2 needs quotes; write length = "19-1/2"'),
        ("length = 7/8 # rough", 'line 1: length: 7/8 needs quotes; write length = "7/8"'),
        ('length = 19 1/2"', "line 1: length: 19 1/2\" needs quotes; write length = '19 1/2\"'"),
        ("species = white oak", 'species: white oak needs quotes; write species = "white oak"'),
        ("[a]\nb = { warm = 68F }", 'line 2: warm: 68F needs quotes; write "68F"'),
        ("widths = [5-1/2, 6]", 'line 1: widths: 5-1/2 needs quotes; write "5-1/2"'),
        ("length = 1,200", "length: 1,200 has a comma; decimals take a point, thousands no mark"),
    ],
)
def test_a_value_without_its_quotes_is_told_with_them(text, said):
    with pytest.raises(InputError) as caught:
        parse_toml(text, "x.toml")
    assert str(caught.value).startswith("x.toml: line ")
    assert str(caught.value).endswith(said)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "text", ["a = ", "a = 1\na = 2", 'a = "x', "[b\na = 1/2", 'n = """\na = 1/2\n', "a = [\n"]
)
def test_another_mistake_is_told_as_the_parser_has_it(text):
    with pytest.raises(InputError, match=r"^x\.toml: is not valid TOML: "):
        parse_toml(text, "x.toml")


def gathered(data, read, units="us", keys=("width", "length", "kind", "moisture")):
    mistakes = Mistakes()
    table = TomlTable(data, "x.toml", "part", keys, units, mistakes)
    return mistakes.read(lambda: read(table)), mistakes


def sizes(table):
    return [table.length(key, "mm", 1000.0) for key in ("width", "length")]


def test_the_mistakes_of_a_table_are_gathered():
    found, mistakes = gathered({"width": -5, "length": "long"}, sizes)
    assert found is None
    with pytest.raises(ManyMistakesError) as caught:
        mistakes.refuse()
    width, length = caught.value.lines()
    assert width.startswith("x.toml: part: width: a length cannot be -5")
    assert length.startswith("x.toml: part: length: 'long' is not a length")
    assert str(caught.value) == f"{width}\n{length}"


def test_one_mistake_is_the_mistake_itself():
    _, mistakes = gathered({"width": -5, "length": 7}, sizes)
    with pytest.raises(InputError, match="a length cannot be -5") as caught:
        mistakes.refuse()
    assert not isinstance(caught.value, ManyMistakesError)


def test_a_misspelt_key_is_not_missing_too():
    _, mistakes = gathered({"widht": 5, "length": 7}, sizes)
    assert [str(e) for e in mistakes.errors] == [
        "x.toml: part: widht: unknown key; did you mean 'width'?"
    ]


def test_what_may_follow_from_another_mistake_is_not_told():
    def read(table):
        wide, long = sizes(table)
        if wide > long:
            raise table.error("width", "is more than the length")

    _, mistakes = gathered({"width": "wide", "length": 7}, read)
    assert [str(e) for e in mistakes.errors] == [
        "x.toml: part: width: 'wide' is not a length; write for example 1200 mm or 1.2 m"
    ]
    _, mistakes = gathered({"width": 9, "length": 7}, read)
    assert len(mistakes.errors) == 1


def test_ten_mistakes_are_told_and_the_rest_counted():
    mistakes = Mistakes()
    for n in range(13):
        mistakes.add(InputError(f"mistake {n}"))
    with pytest.raises(ManyMistakesError) as caught:
        mistakes.refuse()
    assert caught.value.lines()[9:] == ("mistake 9", "and 3 more: mend these first")


def test_no_mistake_is_no_error():
    found, mistakes = gathered({"width": 5, "length": 7}, sizes)
    mistakes.refuse()
    assert found == [5.0, 7.0]


@pytest.mark.parametrize("value", [0.08, 0.5])
def test_a_percentage_that_may_be_a_fraction_is_asked_about(value):
    table = TomlTable({"moisture": value}, "x.toml", "", ("moisture",))
    with pytest.raises(InputError, match=f"moisture: {value} may mean .*; write {100 * value:g}$"):
        table.number("moisture", 0.0, 30.0, PERCENT)
    assert table.number("moisture", 0.0, 30.0) == value


@pytest.mark.parametrize(
    ("units", "said"),
    [
        ("us", "width: 2000 is 78.74 in; must be above 0 and at most 39.37 in"),
        ("si", "width: 2000 is 2000 mm; must be above 0 and at most 1000 mm"),
    ],
)
def test_a_message_is_in_the_units_of_the_file(units, said):
    with pytest.raises(InputError, match=said):
        TomlTable({"width": 2000}, "x.toml", "", ("width",), units).length("width", "mm", 1000.0)
