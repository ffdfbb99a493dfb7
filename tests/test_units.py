from math import copysign, inf, nan, nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError, UnitsError
from woodref.units import (
    BOARD_FOOT_M3,
    KINDS,
    fixed,
    fraction_of_inch,
    impossible_size,
    in_both,
    quantity_told,
    size_told,
    sizes_told,
)
from woodref.written import (
    length_unit,
    maybe_fraction,
    parse_density,
    parse_length,
    parse_load,
    parse_mass,
    parse_modulus,
    parse_percent,
    parse_temperature,
    parse_thickness,
    quarters,
)

# The inch is 25.4 mm and the pound 0.45359237 kg exactly: international yard and pound
# agreement (1959), NIST Special Publication 811, appendix B.


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1200 mm", 1200.0),
        ("1.2m", 1200.0),
        ("120cm", 1200.0),
        ('47-1/4"', 47.25 * 25.4),
        ("47 1/4 in", 47.25 * 25.4),
        ("47 - 1 / 4 in", 47.25 * 25.4),
        ("47¼ in", 47.25 * 25.4),
        ("47¼”", 47.25 * 25.4),
        ("3 ft 11 1/4 in", 47.25 * 25.4),
        ("3ft11.25in", 47.25 * 25.4),
        ("5'6\"", 66 * 25.4),
        ("5’ 6″", 66 * 25.4),
        ("5 FEET 6 Inches", 66 * 25.4),
        ("7/8 in", 22.225),
        ("7⁄8 in", 22.225),
        (".5in", 12.7),
        ("2.in", 50.8),
        ("0", 0.0),
        (12, 12.0),
        (2.5, 2.5),
    ],
)
def test_lengths_as_a_shop_writes_them(text, expected):
    assert parse_length(text) == pytest.approx(expected, rel=1e-12)


def test_bare_length_takes_the_default_unit():
    assert parse_length("7/8", "in") == pytest.approx(22.225)
    assert parse_length(7, "in") == pytest.approx(177.8)


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "x", "12 furlongs", "1/0", "1//2", "3 in 4", "1e3", "inf", "nan", "1,5 m"),
        *("in", "-3 in", "−3 in", "3 in -1/2", "٣ in", "9" * 400, "1" * 79 + "/1", "--"),
        *("½½ in", "3 4 5 in", "3 4 in"),
    ],
)
def test_what_is_no_length_is_one_line(text):
    with pytest.raises(InputError) as caught:
        parse_length(text)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 220


@pytest.mark.parametrize("number", [-1, -0.5, inf, -inf, nan, True])
def test_numbers_that_are_no_length_or_mass(number):
    with pytest.raises(InputError):
        parse_length(number)
    with pytest.raises(InputError):
        parse_mass(number)


def test_a_wrong_unit_is_named_with_the_right_ones():
    with pytest.raises(InputError, match=r"'furlongs'.*use one of mm, cm, m$"):
        parse_length("12 furlongs")
    with pytest.raises(InputError, match=r"'furlongs'.*use one of mm, cm, m, in, inch"):
        parse_length("12 furlongs", "in")
    with pytest.raises(InputError, match=r"'stone'.*use one of kg, g$"):
        parse_mass("12 stone")
    with pytest.raises(InputError, match=r"'stone'.*kg, g, lb"):
        parse_mass("12 stone", "lb")


def parsed_or_refused(parse, text):
    """The value, or None where it was refused in one line."""
    try:
        return parse(text)
    except InputError as error:
        message = str(error)
    assert message
    assert "\n" not in message
    return None


@given(st.text(max_size=40))
def test_any_text_is_a_length_or_an_input_error(text):
    for parse in (parse_length, parse_thickness, parse_mass):
        value = parsed_or_refused(parse, text)
        assert value is None or 0.0 <= value < inf


@given(st.text(alphabet="0123456789 -/.'\"inftmc½", max_size=20))
def test_text_that_looks_like_a_length(text):
    value = parsed_or_refused(parse_length, text)
    assert value is None or 0.0 <= value < inf


@given(st.integers(0, 5000), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fraction_printed_is_read_back(whole, part, denominator):
    inches = whole + (part % denominator) / denominator
    text = fraction_of_inch(inches, 64)
    assert parse_length(f"{text} in") == pytest.approx(inches * 25.4, rel=1e-12, abs=1e-12)


@given(st.floats(0, 1000), st.sampled_from([16, 32, 64]))
def test_fraction_is_the_nearest_or_the_next_one_up(inches, denominator):
    near = parse_length(f"{fraction_of_inch(inches, denominator)} in") / 25.4
    assert abs(near - inches) <= 0.5 / denominator + 1e-9
    above = parse_length(f"{fraction_of_inch(inches, denominator, up=True)} in") / 25.4
    assert -1e-9 <= above - inches + 1e-9 <= 1.0 / denominator + 2e-9


@pytest.mark.parametrize(
    ("inches", "text"),
    [(38.53, "38-17/32"), (0.0, "0"), (0.999, "1"), (-0.26, "-1/4"), (-0.001, "0"), (1.5, "1-1/2")],
)
def test_fractions(inches, text):
    assert fraction_of_inch(inches) == text


def test_rough_thickness_counts_quarters_of_an_inch_in_either_system():
    # NHLA rules: 4/4 rough is 1 inch.
    for unit in ("in", "mm"):
        assert parse_thickness("4/4", unit) == pytest.approx(25.4)
        assert parse_thickness(" 5 / 4 ", unit) == pytest.approx(31.75)
        assert parse_thickness("16/4", unit) == pytest.approx(101.6)
    assert parse_thickness("27", "mm") == 27.0
    assert parse_thickness("3/4 in", "mm") == pytest.approx(19.05)
    assert quarters("0/4") is None
    assert quarters("1-1/4") is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [("412 g", 0.412), ("3.1 kg", 3.1), ("2 lb 4 oz", 2.25 * 0.45359237), ("2lbs", 0.90718474)],
)
def test_masses(text, expected):
    assert parse_mass(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "default", "expected"),
    [
        ("68F", "C", 20.0),
        ("68 °F", "C", 20.0),
        ("68 degrees f", "C", 20.0),
        ("20C", "F", 20.0),
        ("-40", "F", -40.0),
        ("−40 C", "F", -40.0),
        ("212", "F", 100.0),
        (20, "C", 20.0),
        (2.5, "C", 2.5),
    ],
)
def test_temperatures(text, default, expected):
    assert parse_temperature(text, default) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("text", ["", "warm", "68K", "-300C", "1e3", "9" * 400, "68F,40%", "nan"])
def test_what_is_no_temperature(text):
    with pytest.raises(InputError):
        parse_temperature(text)


@given(st.text(max_size=30))
def test_any_text_is_a_temperature_and_a_percentage_or_an_input_error(text):
    for parse in (parse_temperature, parse_percent):
        value = parsed_or_refused(parse, text)
        assert value is None or -273.16 < value < inf


@pytest.mark.parametrize("text", ["", "%", "-1", "nan", "inf", "8 9", "eight"])
def test_what_is_no_percentage(text):
    with pytest.raises(InputError):
        parse_percent(text)


@pytest.mark.parametrize("text", ["0.4", ".08", "0.999"])
def test_a_percentage_that_may_be_a_fraction_is_asked_about(text):
    value = float(text)
    with pytest.raises(InputError, match=f"may mean {value:g} % or {100 * value:g} %; write "):
        parse_percent(text)
    assert parse_percent(f"{text}%") == value


def test_a_mistake_is_told_in_both_systems_of_units_or_in_one():
    with pytest.raises(UnitsError) as caught:
        parse_density("heavy")
    assert str(caught.value).endswith("write for example 36 lb/ft3 or 580 kg/m3")
    assert caught.value.told("si").endswith("write for example 580 kg/m3")
    assert caught.value.told("us").endswith("write for example 36 lb/ft3")
    assert InputError("as it is").told("us") == "as it is"


@pytest.mark.parametrize(
    ("mm", "us", "si"),
    [
        (19.05, "3/4 in", "19.05 mm"),
        (228.6, "9 in", "228.6 mm"),
        (13.096_875, "33/64 in", "13.1 mm"),
        (20_000.0, "787.4 in", "20000 mm"),
    ],
)
def test_a_size_of_a_message(mm, us, si):
    assert (size_told(mm, "us"), size_told(mm, "si"), size_told(mm)) == (us, si, f"{us} ({si})")


def test_percentages():
    assert parse_percent("8") == parse_percent("8%") == parse_percent(" 8 % ") == 8.0


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_kind_prints_its_unit_once(name, units):
    kind = KINDS[name]
    text = kind.text(123.456, units)
    label = kind.label(units)
    assert text.count(label) >= 1 if label else text
    assert text == text.strip()
    assert kind.text(-0.0, units) in (kind.text(0.0, units), kind.text(-1e-12, units))


@pytest.mark.parametrize(
    ("name", "si", "us_number", "us_text", "si_text"),
    [
        ("size", 978.8, 38.5354, "38-17/32 in", "978.8 mm"),
        ("size_up", 978.81, 38.5358, "38-9/16 in", "978.9 mm"),
        ("size_up", 25.4, 1.0, "1 in", "25.4 mm"),
        ("change", 13.79, 0.5429, "0.543 in (about 35/64)", "13.79 mm"),
        ("change", 0.05, 0.002, "0.002 in", "0.05 mm"),
        ("volume", BOARD_FOOT_M3 * 6.67, 6.67, "6.67 board feet", "0.0157 m3"),
        ("mass", 10.0, 22.05, "22.0 lb", "10.0 kg"),
        ("density", 640.74, 40.0, "40.0 lb/ft3", "641 kg/m3"),
        ("force", 6449.9, 1450.0, "1,450 lbf", "6,450 N"),
        ("temperature", 20.0, 68.0, "68 F", "20.0 C"),
        ("size", 300.0, 11.811, "11-13/16 in", "300 mm"),
        ("tool", 12.827, 0.505, "33/64 in", "12.8 mm"),
        ("reach", 304.8, 12.0, "12 in", "300 mm"),
        ("reach", 300.0, 11.811, "11 in", "300 mm"),
        ("reach", 299.999_999_999, 11.811, "11 in", "300 mm"),
    ],
)
def test_kinds_convert_and_print(name, si, us_number, us_text, si_text):
    kind = KINDS[name]
    assert kind.number(si, "us") == us_number
    assert kind.text(si, "us") == us_text
    assert kind.text(si, "si") == si_text


def test_fixed_never_prints_minus_nothing():
    assert fixed(-0.04, 1) == "0.0"
    assert fixed(-0.05001, 1) == "-0.1"
    assert fixed(1234.5, 1) == "1,234.5"


@pytest.mark.parametrize(
    ("text", "kg_m3"),
    [
        ("36 lb/ft3", 36 * 0.45359237 / 0.3048**3),
        ("580 kg/m3", 580.0),
        ("580kg/m³", 580.0),
        (".58 g/cm3", 580.0),
    ],
)
def test_densities_as_they_are_written(text, kg_m3):
    assert parse_density(text) == pytest.approx(kg_m3)
    assert parse_density(kg_m3) == pytest.approx(kg_m3)


def test_a_bare_density_needs_its_unit():
    assert (
        parse_density("36", "lb/ft3") == parse_density("36 lb/ft3") == parse_density(36, "lb/ft3")
    )
    for text in ("36", "36 lb", "heavy", "-5 kg/m3", ""):
        with pytest.raises(InputError, match="is not a density"):
            parse_density(text)


@given(st.integers(-(10**6), 10**6), st.integers(0, 3))
def test_the_last_bit_of_a_sum_does_not_tip_a_value_that_lies_halfway(n, decimals):
    half = (n + 0.5) / 10**decimals
    texts = {fixed(nextafter(half, to), decimals) for to in (-inf, half, inf)}
    assert len(texts) == 1


@pytest.mark.parametrize(
    ("text", "mpa"),
    [
        ("1.8 million psi", 12410.6),
        ("950,000 psi", 6550.0),
        ("7.5 GPa", 7500.0),
        ("8000MPa", 8000.0),
    ],
)
def test_a_modulus_is_read_in_its_units(text, mpa):
    assert parse_modulus(text) == pytest.approx(mpa, abs=0.1)


@pytest.mark.parametrize("text", ["", "1.8", "psi", "2 GPA psi", "-3 MPa", "1.8 million"])
def test_what_is_no_modulus_is_refused(text):
    with pytest.raises(InputError, match="is not a modulus of elasticity"):
        parse_modulus(text)


@given(st.floats(1.0, 9000.0), st.sampled_from(("us", "si")))
def test_a_reach_is_never_told_longer_than_it_is(length_mm, units):
    told = float(KINDS["reach"].text(length_mm, units).split()[0].replace(",", ""))
    told_mm = told * 25.4 if units == "us" else told
    assert told_mm <= length_mm + 1e-6
    assert length_mm - told_mm < 25.4 + 1e-6


@pytest.mark.parametrize(
    ("kind", "value", "told"),
    [
        ("mass", 21.6, "47.6 lb (21.6 kg)"),
        ("size", 300.0, "11-13/16 in (300 mm)"),
        ("change_end", 3.0, "0.118 in (3.00 mm)"),
    ],
)
def test_a_quantity_for_both_systems(kind, value, told):
    assert in_both(kind, value) == told


@pytest.mark.parametrize("text", ["6in6in6in", "6 in 2 ft", "3 mm 2 mm", "1m 1m"])
def test_parts_of_a_length_go_from_large_to_small(text):
    with pytest.raises(InputError, match="is not a length"):
        parse_length(text, "in")


def test_the_words_of_a_system_of_units():
    assert [length_unit(u) for u in ("us", "si")] == ["in", "mm"]
    assert [KINDS["size"].suffix(u) for u in ("us", "si")] == ["in", "mm"]
    assert [quantity_told("temperature", 20.0, u) for u in ("us", "si")] == ["68 F", "20 C"]
    assert quantity_told("temperature", 20.0) == "68 F (20 C)"
    assert quantity_told("mass", 123_456.0) == "272200 lb (123500 kg)"


def test_sizes_of_a_message_are_told_each():
    told = sizes_told("{} is more than {}", 50.8, 25.4)
    assert [told(u) for u in ("us", "si")] == [
        "2 in is more than 1 in",
        "50.8 mm is more than 25.4 mm",
    ]


@pytest.mark.parametrize(
    ("size_mm", "units", "told"),
    [
        (None, "us", "width must be above 0 and below 328 ft, not none"),
        (0.0, "si", "width must be above 0 and below 100 m, not 0 mm"),
        (
            254_000.0,
            "",
            "width must be above 0 and below 328 ft or 100 m, not 10000 in (254000 mm)",
        ),
    ],
)
def test_an_impossible_size_is_told_with_what_is_possible(size_mm, units, told):
    assert impossible_size("width", size_mm)(units) == told


@pytest.mark.parametrize(
    ("parse", "us", "si"),
    [
        (lambda: parse_temperature("warm"), "68F", "20C"),
        (lambda: parse_density("heavy"), "36 lb/ft3", "580 kg/m3"),
        (lambda: parse_modulus("stiff"), "1.2 million psi", "8000 MPa"),
        (lambda: parse_load("much", False), "50 lb", "200 N"),
        (lambda: parse_load("much", True), "20 lb/ft", "300 N/m"),
        (lambda: parse_load("5 lb/ft", False), "50 lb", "200 N"),
        (lambda: parse_load("5 lb", True), "20 lb/ft", "300 N/m"),
        (lambda: parse_load("5 stone", False), "50 lb", "200 N"),
        (lambda: parse_load("5 lb/mile", True), "20 lb/ft", "300 N/m"),
    ],
)
def test_an_example_is_that_of_the_units_asked_for(parse, us, si):
    with pytest.raises(UnitsError, match="write for example") as caught:
        parse()
    assert caught.value.told("us").endswith(f"; write for example {us}")
    assert caught.value.told("si").endswith(f"; write for example {si}")


@pytest.mark.parametrize(
    ("parse", "said"),
    [
        (
            lambda: parse_length("x", "in"),
            "'x' is not a length; write for example 47-1/4\" or 3 ft 11 1/4 in",
        ),
        (
            lambda: parse_length("x", "mm"),
            "'x' is not a length; write for example 1200 mm or 1.2 m",
        ),
        (lambda: parse_mass("x", "lb"), "'x' is not a mass; write for example 8.5 lb or 2 lb 4 oz"),
        (lambda: parse_mass("x", "kg"), "'x' is not a mass; write for example 412 g or 3.1 kg"),
        (lambda: parse_length("-3 in"), "a length cannot be negative: '-3 in'"),
        (lambda: parse_length(-3), "a length cannot be -3"),
        (lambda: parse_mass(-3), "a mass cannot be -3"),
        (lambda: parse_mass(1e12), "a mass cannot be 1000000000000.0"),
        (lambda: parse_density(-3), "a density cannot be -3"),
        (lambda: parse_length("0.009 mm"), "a length of 0.009 mm is finer than wood is measured"),
        (lambda: parse_length(0.001), "a length of 0.001 is finer than wood is measured"),
        (
            lambda: parse_temperature("warm"),
            "'warm' is not a temperature; write for example 68F or 20C",
        ),
        (lambda: parse_length("1001 m"), "a length of 1001 m is longer than any piece"),
        (lambda: parse_percent("eight"), "'eight' is not a percentage; write for example 8 or 8%"),
        (lambda: parse_percent("-1"), "a percentage cannot be negative: '-1'"),
        (
            lambda: parse_percent(0.4),
            "a percentage of 0.4 may mean 0.4 % or 40 %; write 40% or 0.4%",
        ),
        (lambda: parse_temperature("\n-274 C"), "-274 C is below absolute zero"),
        (
            lambda: parse_load("1001 kN", False),
            "a load of '1001 kN' is more than any furniture bears",
        ),
    ],
)
def test_what_is_wrong_is_said(parse, said):
    with pytest.raises(InputError) as caught:
        parse()
    assert str(caught.value) == said


def test_what_lies_at_an_end_is_taken():
    assert [parse_length(t) for t in ("0.01 mm", "1000 m")] == [0.01, 1e6]
    assert parse_temperature("-273.15 C") == -273.15
    assert parse_load("1000 kN", False) == 1e6
    assert [parse_percent(t) for t in ("0", "1", "0%")] == [0.0, 1.0, 0.0]
    assert [maybe_fraction(x) for x in (0.0, 0.4, 1.0)] == [False, True, False]
    assert quarters("1/4") == 1
    assert parse_length("7mm".rjust(80, "0")) == 7.0
    assert [parse_mass(m) for m in (0, 0.5)] == [0.0, 0.5]
    with pytest.raises(InputError, match="is not a mass"):
        parse_mass("1000000000000")


def test_nothing_has_no_sign():
    parsed = (parse_length(-0.0), parse_mass(-0.0), parse_temperature("-0"), parse_percent("-0"))
    assert [copysign(1.0, x) for x in parsed] == [1.0] * 4


def test_a_bare_number_is_metric_where_nothing_is_said():
    assert parse_temperature("20") == 20.0
    assert (parse_thickness("20"), parse_length("20"), parse_mass("20")) == (20.0, 20.0, 20.0)
    assert parse_thickness(20) == 20.0
    assert parse_thickness("20", "in") == parse_length(20, "in") == 508.0
    assert parse_mass(5, "lb") == parse_mass("5 lb")


@pytest.mark.parametrize(("length", "end"), [(80, "x' is not"), (81, "x...' is not")])
def test_a_long_text_is_cut_in_a_message(length, end):
    with pytest.raises(InputError, match=f"^'x{{80}}{end[1:]}"):
        parse_length("x" * length)
