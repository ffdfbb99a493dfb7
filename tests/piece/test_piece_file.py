"""The piece file: what is read, and the one line every mistake gets."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.lumber.nominal import parse_nominal
from woodref.piece.piece import parse_piece, piece_from, read_piece
from woodref.piece.resolve import USUAL_WASTE, resolve, waste_of_piece
from woodref.piece.weigh import weigh
from woodref.reference.library import Reference

TOP = """
name = "stool"
units = "us"
[build]
moisture_pct = 7
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 11 }
"""
SEAT = """
[[parts]]
name = "seat"
species = "white oak"
length = "14"
width = "12-1/2"
thickness = "7/8"
"""
SHEET = """
[[sheets]]
name = "ply"
thickness = "1/2"
density = 40
[[parts]]
name = "bottom"
sheet = "ply"
length = 20
width = 10
"""


def complaint(text):
    with pytest.raises(InputError) as caught:
        parse_piece(text, "x.toml")
    message = str(caught.value)
    assert "\n" not in message
    assert message.startswith("x.toml: ")
    return message


def test_sizes_are_read_in_shop_notation_and_numbers_in_the_units_of_the_file():
    part = parse_piece(TOP + SEAT, "x.toml").parts[0]
    assert (part.length_mm, part.width_mm, part.thickness_mm) == pytest.approx(
        (355.6, 317.5, 22.225)
    )
    metric = (
        (TOP + SEAT).replace('"us"', '"si"').replace('"14"', "400").replace('"7/8"', '"7/8 in"')
    )
    part = parse_piece(metric.replace('"12-1/2"', '"1 ft"'), "x.toml").parts[0]
    assert (part.length_mm, part.width_mm, part.thickness_mm) == pytest.approx((400, 304.8, 22.225))


def test_what_is_left_out_has_its_stated_default():
    piece = parse_piece(TOP + SEAT, "x.toml")
    part = piece.parts[0]
    assert (part.quantity, part.staves, part.cut, part.ring_angle_deg) == (1, 1, "flat", 0.0)
    assert part.stock is None
    assert piece.waste is None
    assert waste_of_piece(piece) == USUAL_WASTE


def test_air_becomes_its_equilibrium_moisture_content():
    text = TOP.replace(
        "driest = { moisture_pct = 6 }", 'driest = { temperature = "68 F", humidity_pct = 30 }'
    )
    assert parse_piece(text + SEAT, "x.toml").driest.moisture_pct == pytest.approx(
        equilibrium_moisture_content(20.0, 30.0)
    )


@pytest.mark.parametrize(
    ("written", "degrees"), [('"flat"', 0), ('"rift"', 45), ('"quarter"', 90), ("30", 30)]
)
def test_cut_is_a_word_or_a_ring_angle(written, degrees):
    assert parse_piece(TOP + SEAT + f"cut = {written}", "x").parts[0].ring_angle_deg == degrees


def test_waste_and_prices_take_one_number_or_three():
    text = TOP + "[waste]\nlumber_pct = { expected = 25, low = 20, high = 40 }\nsheet_pct = 12\n"
    piece = parse_piece(text + SEAT, "x")
    assert (piece.waste.low, piece.waste.expected, piece.waste.high) == (20, 25, 40)
    assert (piece.sheet_waste.low, piece.sheet_waste.high) == (12, 12)


def test_sheet_goods_carry_their_own_density():
    part = parse_piece(TOP + SHEET, "x").parts[0]
    assert part.sheet.density_kg_m3 == pytest.approx(640.74, abs=0.01)
    assert part.thickness_mm == pytest.approx(12.7)
    metric = SHEET.replace("density = 40", 'density = "640 kg/m3"')
    assert parse_piece(TOP + metric, "x").parts[0].sheet.density_kg_m3 == 640.0


def test_sheet_goods_of_a_panel_weigh_what_print_says_of_it():
    """Plywood: specific gravity 0.4 to 0.6, Wood Handbook FPL-GTR-190 (2010), Table 12-1."""
    plain = SHEET.replace("density = 40", 'panel = "plywood"')
    resolved = resolve(Reference(own=False), parse_piece(TOP + plain, "x"))
    part = resolved.piece.parts[0]
    assert tuple(part.sheet.density) == pytest.approx((500.0, 400.0, 600.0))
    assert part.sheet.density_basis == "checked"
    whole = weigh(resolved).whole["build"]
    volume = part.volume_m3
    assert tuple(whole) == pytest.approx((500.0 * volume, 400.0 * volume, 600.0 * volume))
    own = resolve(Reference(own=False), parse_piece(TOP + SHEET, "x")).piece.parts[0].sheet
    assert own.density_basis == "given"
    assert not own.density.is_range


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("[use]", "[use", "is not valid TOML"),
        ('units = "us"', "", "units: is missing; write for example"),
        ('units = "us"', 'units = "metric"', "units: 'metric' is not known; use one of us, si"),
        ('name = "stool"', 'name = ""', "name: must be text in quotes"),
        ('name = "stool"', 'nane = "stool"', "nane: unknown key; did you mean 'name'?"),
        ("[build]", "[biuld]", "biuld: unknown key; did you mean 'build'?"),
        ("[[parts]]", "[[part]]", "part: unknown key; did you mean 'parts'?"),
        ("[[parts]]", "[parts]", "parts: must be a list of tables, each under [[parts]]"),
        ("width =", "widht =", "parts[1] \"seat\": widht: unknown key; did you mean 'width'?"),
        ('"12-1/2"', '"12-1/2 furlong"', "parts[1] \"seat\": width: 'furlong' in"),
        ('"12-1/2"', "-3", 'parts[1] "seat": width: '),
        ('"12-1/2"', "0", "must be above 0"),
        ('"12-1/2"', "true", "width: must be a length, not true"),
        ('"12-1/2"', "nan", "width: a length cannot be nan"),
        ('"12-1/2"', "inf", "width: a length cannot be inf"),
        ('"12-1/2"', "9" * 400, "width: a length cannot be a number that large"),
        ('"12-1/2"', '"900 ft"', "must be above 0 and at most"),
        ('"12-1/2"', "1979-05-27", "width: must be a length"),
        ('"7/8"', '"13"', "thickness: 13 in is more than the width of 12-1/2 in"),
        ("moisture_pct = 7", "moisture_pct = -1", "build: moisture_pct: -1 is outside 0 to 30 %"),
        ("moisture_pct = 7", "moisture_pct = 31", "build: moisture_pct: 31 is outside 0 to 30 %"),
        ("moisture_pct = 7", 'moisture_pct = "7 %"', "build: moisture_pct: must be a number"),
        ("moisture_pct = 7", "", "build: moisture_pct: is missing"),
        ("driest = { moisture_pct = 6 }", "", "use: driest: is missing"),
        ("driest = { moisture_pct = 6 }", "driest = 6", "driest: must be a table"),
        ("{ moisture_pct = 6 }", "{ moisture_pct = 12 }", "use: driest: 12.0 % is more than"),
        (
            "{ moisture_pct = 11 }",
            '{ temperature = "70 F", humidity_pct = 130 }',
            "use.wettest: humidity_pct: 130 is outside 0 to 99 %",
        ),
        (
            "{ moisture_pct = 11 }",
            '{ temperature = "300 F", humidity_pct = 50 }',
            "use.wettest: temperature: 300 F is outside 30 F to 200 F",
        ),
        (
            "{ moisture_pct = 11 }",
            '{ temperature = "warm", humidity_pct = 50 }',
            "use.wettest: temperature: 'warm' is not a temperature",
        ),
        (
            "{ moisture_pct = 11 }",
            '{ temperature = "70 F" }',
            "use.wettest: humidity_pct: is missing",
        ),
        (
            "{ moisture_pct = 11 }",
            "{ moisture_pct = 11, humidity_pct = 50 }",
            "humidity_pct: give either moisture_pct or the air",
        ),
        ('species = "white oak"', "", 'parts[1] "seat": species: is missing'),
        ('species = "white oak"', "species = 3", "species: must be text in quotes, not 3"),
    ],
)
def test_a_mistake_is_named_with_its_place_and_a_way_out(old, new, says):
    assert old in TOP + SEAT
    assert says in complaint((TOP + SEAT).replace(old, new, 1))


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("note = 3", "note: must be text in quotes, not 3"),
        ("quantity = 0", "quantity: 0 is outside 1 to 1000"),
        ("quantity = 2.5", "quantity: must be a whole number"),
        ("quantity = true", "quantity: must be a whole number, not true"),
        ("staves = 0", "staves: 0 is outside"),
        ('cut = "quater"', "cut: 'quater' is not known; did you mean 'quarter'?"),
        ("cut = 91", "cut: 91 is outside 0 to 90"),
        ('stock = "5/9x"', "stock: '5/9x' is not a nominal thickness; write for example 4/4"),
        ('stock = "3/4"', "stock: 3/4 is 3/4 in rough, thinner than the part, 7/8 in"),
        ('sheet = "ply"', "a part is of a species or of a sheet, not both"),
        ('name = "seat"', "is not valid TOML"),
        (SEAT, "name: 'seat' is there twice"),
        (
            SHEET.replace('sheet = "ply"', 'sheet = "pyl"'),
            "sheet: 'pyl' is not known; did you mean 'ply'?",
        ),
        (
            SHEET.replace("width = 10", "width = 10\nthickness = 1"),
            "takes no thickness (it stands in",
        ),
        (
            SHEET.replace("width = 10", 'width = 10\ncut = "flat"'),
            "a part of sheet goods takes no cut",
        ),
        (SHEET.replace("= 40", '= "40"'), "density: '40' is not a density"),
        (
            SHEET.replace("= 40", "= 4000"),
            "4,000.0 lb/ft3 is outside 0.6 lb/ft3 to 187.3 lb/ft3",
        ),
        (SHEET.replace("density = 40", ""), "density: is missing"),
        (
            SHEET.replace("= 40", "= 40\nprice_per_sheet = 50\nlength = 96"),
            'sheets[1] "ply": width: is missing',
        ),
        (
            SHEET.replace("= 40", "= 40\nprice_per_ft2 = 2\nprice_per_m2 = 20"),
            "price_per_m2: give one price",
        ),
        (
            SHEET.replace("= 40", "= 40\nprice_per_ft2 = { expected = 2, low = 3 }"),
            "price_per_ft2: low 3, expected 2, high 2 must not fall",
        ),
    ],
)
def test_a_mistake_in_what_is_added_is_named(line, says):
    assert says in complaint(TOP + SEAT + line)


def test_a_piece_without_parts_is_refused():
    assert "parts: the piece has no parts; add" in complaint(TOP)


def test_nesting_without_end_is_not_a_crash():
    assert "is not valid TOML" in complaint("a = " + "[" * 100_000)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda p: None, "there is no such piece file"),
        (lambda p: p.mkdir(), "is a folder, not a piece file"),
        (lambda p: p.write_bytes(b""), "the piece file is empty; woodref template"),
        (lambda p: p.write_bytes(b"\n \n"), "is empty"),
        (lambda p: p.write_bytes(b'name = "x"\n# caf\xe9\n'), "line 2: byte 0xE9 is not UTF-8"),
    ],
)
def test_a_file_that_cannot_be_read_is_named(tmp_path, make, says):
    path = tmp_path / "bench.toml"
    make(path)
    with pytest.raises(InputError) as caught:
        read_piece(path)
    assert str(caught.value).startswith(str(path))
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_missing_file_suggests_its_neighbor(tmp_path):
    (tmp_path / "bench.toml").write_text("x")
    with pytest.raises(InputError, match=r"did you mean 'bench.toml'\?"):
        read_piece(tmp_path / "bnech.toml")


def test_a_byte_order_mark_is_no_matter(tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(TOP + SEAT, encoding="utf-8-sig")
    assert read_piece(path).name == "stool"


@pytest.mark.parametrize(
    ("text", "unit", "mm", "label"),
    [
        ("4/4", "", 25.4, "4/4"),
        ("5/4", "mm", 31.75, "5/4"),
        ("8 / 4", "in", 50.8, "8/4"),
        ("27 mm", "", 27.0, "27 mm"),
        ("27", "mm", 27.0, "27 mm"),
        ('1-1/2"', "", 38.1, "1.5 in"),
        (27, "mm", 27.0, "27 mm"),
    ],
)
def test_nominal_thickness(text, unit, mm, label):
    nominal = parse_nominal(text, unit)
    assert nominal.size_mm == pytest.approx(mm)
    assert nominal.label == label


@pytest.mark.parametrize("text", ["", "27", "thick", "4/", "0/4", "99/4", "-4/4", "1 mile"])
def test_what_is_no_nominal_thickness(text):
    with pytest.raises(InputError, match="is not a nominal thickness; write for example 4/4"):
        parse_nominal(text)


scalars = st.one_of(
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=20),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.text(max_size=5), st.integers(), max_size=2),
)
GOOD = tomllib.loads(TOP + SEAT + SHEET)


def outcome(read, *arguments):
    """What was read, or the one line that refuses it."""
    try:
        return read(*arguments), None
    except InputError as error:
        return None, str(error)


@given(st.data())
def test_any_value_at_any_place_is_read_or_refused_in_one_line(data):
    tables = [GOOD, GOOD["build"], GOOD["use"]["driest"], *GOOD["parts"], *GOOD["sheets"]]
    n = data.draw(st.integers(0, len(tables) - 1))
    extra = ["cut", "stock", "staves", "waste", "a\nb"]
    key = data.draw(st.sampled_from([*tables[n], *extra]))
    value = data.draw(scalars)

    def changed(table):
        if table is tables[n]:
            return {**table, key: value}
        if isinstance(table, dict):
            return {k: changed(v) for k, v in table.items()}
        return [changed(v) for v in table] if isinstance(table, list) else table

    piece, refusal = outcome(piece_from, changed(GOOD), "x.toml")
    if refusal is None:
        assert all(0 < p.volume_m3 < 1e6 for p in piece.parts)
    else:
        assert refusal.startswith("x.toml: ")
        assert len(refusal.splitlines()) == 1


@given(st.text())
def test_text_that_is_no_piece_is_refused_in_one_line(text):
    _, refusal = outcome(parse_piece, text, "x.toml")
    assert refusal is not None
    assert refusal.startswith("x.toml: ")
    assert len(refusal.splitlines()) == 1
