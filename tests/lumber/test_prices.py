"""The price list: every row is read whole or reported with line, column, value and reason."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import ids_of

from woodref.errors import InputError
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.prices import check_prices, in_currency, parse_prices, read_prices

HEAD = "species,thickness,price,per,low,high,currency,note\n"
ROW = "white oak,4/4,9.20,board foot,8.50,10.10,USD,invented\n"


def prices_of(text):
    return parse_prices(text, "p.csv", ids_of)


def complaint(text):
    with pytest.raises(InputError) as caught:
        prices_of(text)
    message = str(caught.value)
    assert len(message.splitlines()) == 1
    assert message.startswith("p.csv: ")
    return message


def test_a_row_is_read_whole():
    row = prices_of('# a remark, "with, quotes\n\n' + HEAD + ROW).rows[0]
    assert (row.line, row.species, row.per, row.currency) == (4, "white oak", "board foot", "USD")
    assert (row.price.low, row.price.expected, row.price.high) == (8.5, 9.2, 10.1)
    assert row.nominal.size_mm == 25.4


def test_columns_may_be_in_any_order_and_the_optional_ones_left_out():
    row = prices_of("per,price,species,thickness\nm3,3900,white oak,27 mm\n").rows[0]
    assert (row.per, row.price.low, row.price.high) == ("m3", 3900, 3900)
    assert row.nominal.label == "27 mm"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("# nothing\n", "holds remarks only"),
        (HEAD, "has a heading but no prices"),
        (
            "species;thickness;price;per\nwhite oak;4/4;9;board foot\n",
            "line 1: columns are separated by semicolons",
        ),
        ("species\tthickness\tprice\tper\n", "separated by tabs"),
        ("species,thickness,price\n", "line 1: the column 'per' is missing"),
        ("species,thikness,price,per\n", "unknown column 'thikness'; did you mean 'thickness'?"),
        ("species,species,price,per\n", "the column 'species' is there twice"),
        (
            HEAD + "white oak,4/4,9,20,board foot,,,USD,x\n",
            "has 9 values, the heading 8 columns; a decimal comma",
        ),
        (HEAD + "white oak,4/4\n", "line 2, row: has 2 values, the heading 8 columns"),
        (HEAD + ROW.replace("9.20", '"9,20"'), "line 2, price '9,20': a decimal comma; write 9.20"),
        (HEAD + ROW.replace("9.20", "nine"), "line 2, price 'nine': is not a number"),
        (HEAD + ROW.replace("9.20", ""), "line 2, price: is missing"),
        (HEAD + ROW.replace("9.20", "-9"), "line 2, price '-9': is not a price"),
        (HEAD + ROW.replace("9.20", "nan"), "price 'nan': is not a price"),
        (HEAD + ROW.replace("8.50", "9.50"), "line 2, low '9.50': is on the wrong side of 9.2"),
        (HEAD + ROW.replace("10.10", "1"), "line 2, high '1': is on the wrong side"),
        (HEAD + ROW.replace("4/4", "4-4"), "line 2, thickness '4-4': is not a nominal thickness"),
        (HEAD + ROW.replace("4/4", ""), "line 2, thickness: is missing"),
        (
            HEAD + ROW.replace("board foot", "bord foot"),
            "per 'bord foot': is not known; did you mean 'board foot'?",
        ),
        (
            HEAD + ROW.replace("white oak", "wite oak"),
            "line 2, species: no wood is called 'wite oak'; nearest",
        ),
        (
            HEAD + ROW.replace("white oak", "oak"),
            "line 2, species: 'oak' is sold as several woods; choose one",
        ),
        (HEAD + ROW + ROW, "line 3, species 'white oak': line 2 prices the same wood"),
        (
            HEAD + ROW + ROW.replace("4/4", "8/4").replace("USD", "CAD"),
            "line 3, currency 'CAD': line 2 has 'USD'",
        ),
        (HEAD + 'white oak,"4/4', "not CSV"),
        (
            HEAD + ROW.replace("9.20", "x") + ROW.replace("9.20", "y"),
            "such as 7.40 (and 1 more, line 3)",
        ),
    ],
)
def test_a_mistake_is_named_with_its_place_and_a_way_out(text, says):
    assert says in complaint(text)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda p: None, "there is no such price list"),
        (lambda p: p.mkdir(), "is a folder, not a price list"),
        (lambda p: p.write_bytes(b""), "the price list is empty"),
        (lambda p: p.write_bytes((HEAD + ROW).encode("utf-16")), "is not UTF-8 text"),
        (lambda p: p.write_bytes(HEAD.encode() + b"ch\xeane,4/4,9,m3,,,,\n"), "line 2: byte 0xEA"),
    ],
)
def test_a_file_that_cannot_be_read_is_named(tmp_path, make, says):
    path = tmp_path / "p.csv"
    make(path)
    with pytest.raises(InputError) as caught:
        read_prices(path, ids_of)
    assert str(caught.value).startswith(str(path))
    assert says in str(caught.value)


def test_the_very_wood_goes_before_its_group_and_the_very_thickness_before_any():
    ids = {"red oak": {"a", "b"}, "northern red oak": {"a"}, "southern red oak": {"b"}}
    text = (
        "species,thickness,price,per\n"
        "red oak,4/4,5,board foot\nred oak,any,4,board foot\n"
        "northern red oak,4/4,7,board foot\nnorthern red oak,any,6,board foot\n"
    )
    found = parse_prices(text, "p.csv", lambda name: frozenset(ids[name]))

    def price(woods, thickness):
        return found.find(frozenset(woods), parse_nominal(thickness)).price.expected

    assert price("a", "4/4") == 7
    assert price("a", "25.4 mm") == 7
    assert price("a", "8/4") == 6
    assert price("b", "4/4") == 5
    assert price("ab", "8/4") == 4
    assert found.find(frozenset("abc"), parse_nominal("4/4")) is None


def test_a_piece_in_another_currency_is_refused():
    with pytest.raises(InputError, match=r"p\.csv: prices are in USD, the piece is in EUR"):
        in_currency(prices_of(HEAD + ROW), "EUR")
    assert in_currency(prices_of(HEAD + ROW), "").currency == "USD"


@given(st.text())
def test_any_text_is_a_price_list_or_one_line(text):
    try:
        found = prices_of(text)
    except InputError as error:
        message = str(error)
    else:
        message = ""
        assert found.rows
    assert len(message.splitlines()) <= 1


cells = st.one_of(
    st.sampled_from(["white oak", "oak", "4/4", "any", "9.20", "1e400", "m3", "board foot", ""]),
    st.text(st.characters(codec="utf-8", exclude_characters="#\x00"), max_size=8),
)


@given(st.lists(st.lists(cells, min_size=4, max_size=5), max_size=6))
def test_every_row_is_a_price_or_a_bad_row_never_dropped(rows):
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n", quoting=csv.QUOTE_ALL)
    kept = [[" ".join(c.split()) for c in row] for row in rows]
    kept = [row for row in kept if any(row)]
    writer.writerows(kept)
    good, bad = check_prices("species,thickness,price,per\n" + out.getvalue(), "p.csv", ids_of)
    assert sorted(r.line for r in [*good, *bad]) == [n + 2 for n in range(len(kept))]
