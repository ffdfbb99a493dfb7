"""The quote of a piece: its lines add up, to the cent, whatever the figures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pieces import demo

from woodref.answers.quote import quote_facts, quote_notes, quote_section
from woodref.errors import InputError, ManyMistakesError
from woodref.piece.piece import parse_piece
from woodref.piece.quote import Charge, quote
from woodref.piece.quote_table import QuoteSpec

MONEY = st.floats(0.0, 50_000.0)
HOURS = st.floats(0.0, 300.0)
PCT = st.floats(0.0, 100.0)
WORKS = st.dictionaries(st.text(min_size=1), HOURS, max_size=4).map(lambda d: tuple(d.items()))
SPECS = st.builds(
    QuoteSpec,
    rate=st.floats(0.0, 400.0),
    hours=WORKS,
    hours_once=WORKS,
    finishing=MONEY,
    overhead_pct=PCT,
    markup_pct=PCT,
    tax_pct=PCT,
    deposit_pct=PCT,
    quantity=st.integers(1, 50),
)
PIECE = """
name = "a box"
units = "us"
[build]
moisture_pct = 7
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 9 }
[[parts]]
name = "side"
species = "sugar maple"
length = "36"
width = "9"
thickness = "3/4"
"""


def cents(amount):
    """An amount as whole cents; fails where it holds a fraction of one."""
    whole = round(amount * 100)
    assert amount == pytest.approx(whole / 100, abs=1e-6)
    return whole


@given(SPECS, MONEY)
def test_the_lines_add_up_to_the_price_and_the_rest_to_the_total(spec, materials):
    told = quote(spec, materials)
    assert sum(cents(line.amount) for line in told.lines) == cents(told.price)
    assert cents(told.price) + cents(told.tax) == cents(told.total)
    assert cents(told.deposit) + cents(told.balance) == cents(told.total)
    assert told.tax == pytest.approx(told.price * spec.tax_pct / 100, abs=0.00501)
    assert told.deposit == pytest.approx(told.total * spec.deposit_pct / 100, abs=0.00501)


@given(SPECS, MONEY)
def test_each_line_is_the_share_or_the_hours_it_names(spec, materials):
    told = quote(spec, materials)
    plain = [x for x in told.lines if x.pct is None]
    by_charge = {x.charge: x.amount for x in told.lines}
    base = sum(x.amount for x in plain)
    overhead = by_charge.get(Charge.OVERHEAD, 0.0)
    assert overhead == pytest.approx(base * spec.overhead_pct / 100, abs=0.00501)
    if Charge.MARKUP in by_charge:
        expected = (base + overhead) * spec.markup_pct / 100
        assert by_charge[Charge.MARKUP] == pytest.approx(expected, abs=0.00501)
    for x in plain:
        if x.hours is not None:
            assert x.amount == pytest.approx(x.hours * spec.rate, abs=0.00501)
    assert by_charge[Charge.MATERIALS] == pytest.approx(materials * spec.quantity, abs=0.00501)


def test_a_quote_worked_by_hand():
    # By hand: 100.00 + 10 h x 50 = 600.00; 10 % 60.00; 5 % of 660 33.00; 693.00;
    # 6 % 41.58; 734.58; half of it 367.29.
    told = quote(
        QuoteSpec(50, (("joinery", 10),), overhead_pct=10, markup_pct=5, tax_pct=6, deposit_pct=50),
        100,
    )
    assert [x.amount for x in told.lines] == [100.0, 500.0, 60.0, 33.0]
    assert (told.price, told.tax, told.total) == (693.0, 41.58, 734.58)
    assert (told.deposit, told.balance) == (367.29, 367.29)


def test_hours_once_do_not_grow_with_the_order():
    def of(n):
        spec = QuoteSpec(40, (("milling", 2),), (("drawing", 3),), finishing=10, quantity=n)
        return quote(spec, 25).price

    assert (of(1), of(4)) == (25 + 80 + 120 + 10, 4 * (25 + 80 + 10) + 120)


def test_half_a_cent_goes_up_and_a_tenth_is_a_tenth():
    told = quote(QuoteSpec(0.1, (("a", 0.05), ("b", 0.15))), 0.285)
    assert [x.amount for x in told.lines] == [0.29, 0.01, 0.02]


@pytest.mark.parametrize("materials", [-1.0, float("nan"), float("inf")])
def test_no_amount_is_refused(materials):
    with pytest.raises(InputError, match="cost of materials"):
        quote(QuoteSpec(10, (("a", 1),)), materials)


def read(table):
    return parse_piece(f"{PIECE}[quote]\n{table}", "box.toml").quote


def test_the_table_is_read():
    spec = read('rate = 60\nhours = { milling = 4, "fitting up" = 2.5 }\ntax_pct = 6.25\n')
    assert spec == QuoteSpec(60, (("milling", 4.0), ("fitting up", 2.5)), tax_pct=6.25)


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ("hours = { a = 1 }", "quote: rate: is missing"),
        ("rate = 60", "quote: hours: is missing"),
        ("rate = 60\nhours = 8", "quote: hours: must be a table"),
        ('rate = 60\nhours = { a = "8" }', "quote.hours: a: must be a number"),
        ("rate = 60\nhours = { a = -1 }", "is outside 0"),
        ("rate = 60\nhours = { a = 1 }\ntax_pct = 0.06", "may mean"),
        ("rate = 60\nhours = { a = 1 }\ndeposit_pct = 120", "is outside 0 to 100"),
        ("rate = 60\nhours = { a = 1 }\nquantity = 0", "is outside 1"),
        ("rate = 60\nhours = { a = 1 }\nmarkup = 10", "did you mean 'markup_pct'"),
    ],
)
def test_a_mistake_names_its_place(table, said):
    with pytest.raises((InputError, ManyMistakesError)) as caught:
        read(table)
    assert said in str(caught.value)


def test_the_quote_of_the_sideboard_rests_on_its_materials():
    piece = demo("sideboard")
    told = piece.quote
    materials = next(x for x in told.lines if x.charge is Charge.MATERIALS)
    assert materials.amount == pytest.approx(piece.priced_cost.expected, abs=0.006)
    assert told.complete
    assert piece.price_dates == ("2025-03-31",)
    rows = quote_section(piece, for_people=False).rows
    assert sum(row["charged"] for row in rows) == pytest.approx(told.price)
    facts = {column.key: value for column, value in quote_facts(piece)}
    assert facts["quote_total"] == told.total
    assert "2025-03-31" in " ".join(quote_notes(piece))


def test_what_has_no_price_stands_beside_the_quote():
    from dataclasses import replace

    piece = demo("sideboard")
    assert demo("hall-bench").quote is None
    left = replace(piece, unpriced=("hinge: no price",))
    assert not left.quote.complete
    assert "hinge" in quote_notes(left)[0]
