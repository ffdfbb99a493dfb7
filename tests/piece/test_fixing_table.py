"""[[fixing]] of a piece file: what is read, and the one line every mistake gets."""

import contextlib
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import SUGAR_MAPLE

from woodref.errors import InputError
from woodref.joinery.clearance import fixing_of
from woodref.joinery.fixing_types import FIXINGS
from woodref.joinery.travel import MoistureRange
from woodref.piece.fixing_table import FIXING_KEYS, read_fixing
from woodref.piece.parts_table import Part, Sheet
from woodref.toml_reader import TomlTable

TOP = Part(
    "top", 1, 1500.0, 1066.8, 22.0, "parts[1]", species="sugar maple", ring_angle_deg=30.0, staves=8
)
BACK = Part("back", 1, 900.0, 400.0, 12.0, "parts[2]", sheet=Sheet("ply", 12.0, 600.0))
PARTS = {p.name: p for p in (TOP, BACK)}


def read(text, units="us"):
    data = tomllib.loads(f"[[fixing]]\n{text}")
    (table,) = TomlTable(data, "sideboard.toml", "", ("fixing",)).tables("fixing", FIXING_KEYS)
    return read_fixing(table, units, PARTS)


def test_a_breadboard_end():
    spec = read(
        'name = "outer pegs"\nnote = "both ends"\npart = "top"\nkind = "breadboard"\n'
        'peg = "3/8"\nslot = 0.75\nat = "2-1/2"'
    )
    assert (spec.name, spec.part, spec.kind) == ("outer pegs", "top", "breadboard")
    assert spec.note == "both ends"
    assert spec.sizes.peg == pytest.approx(9.525)
    assert spec.sizes.slot == pytest.approx(19.05)
    assert spec.distance_mm == pytest.approx(1066.8 / 2 - 63.5)
    assert (spec.ring_angle_deg, spec.boards) == (30.0, 3)
    assert fixing_of(spec, SUGAR_MAPLE, MoistureRange(7.0, 6.0, 10.0)).verdict in ("holds",)


def test_screws_gaps_and_metric():
    spec = read(
        'part = "top"\nkind = "round hole"\nscrew = "#8"\nhole = 10\nfixed = "edge"\nat = 300', "si"
    )
    assert spec.name == "a screw in a round hole, under a washer"
    assert spec.sizes.screw == pytest.approx(0.164 * 25.4)
    assert (spec.sizes.hole, spec.distance_mm, spec.units) == (10.0, 300.0, "si")
    panel = read('part = "top"\nkind = "floating-panel"\ngap = 0\nengage = "0 in"')
    assert (panel.sizes.gap, panel.sizes.engage) == (0.0, 0.0)
    line = read('part = "top"\nkind = "button"\nfixed = 10\nat = 2')
    assert line.distance_mm == pytest.approx(8 * 25.4)
    assert read('part = "top"\nkind = "glued"\ndistance = 4').distance_mm == pytest.approx(101.6)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('kind = "button"', "part: is missing"),
        ('part = "tpo"\nkind = "button"', "did you mean 'top'"),
        ('part = "back"\nkind = "button"', "part: 'back' is of sheet goods"),
        ('part = "top"', "kind: is missing"),
        ('part = "top"\nkind = "buton"', "did you mean 'button'"),
        ('part = "top"\nkind = "button"\nscew = 3', "unknown key; did you mean 'screw'"),
        ('part = "top"\nkind = "button"\nscrew = "#8"', "screw: screw does not go with"),
        ('part = "top"\nkind = "round-hole"\nscrew = "#13"', "screw: a #13 screw is in no table"),
        ('part = "top"\nkind = "round-hole"\nscrew = true', "screw: must be text"),
        ('part = "top"\nkind = "round-hole"\nhole = -1', "hole: a length cannot be"),
        ('part = "top"\nkind = "round-hole"\nscrew = "#8"\nhole = "1/8"', "hole: the screw does"),
        (
            'part = "top"\nkind = "button"\nfixed = 50',
            "fixed: the place where it is fixed stands 50 in",
        ),
        ('part = "top"\nkind = "button"\nfixed = "left"', "fixed: 'left' does not say where"),
        ('part = "top"\nkind = "button"\nat = 50', "at: the fixing stands 50 in"),
        ('part = "top"\nkind = "button"\nat = 21', "at: where the part is fixed nothing moves"),
        ('part = "top"\nkind = "button"\ndistance = 43', "distance: 43 in"),
        ('part = "top"\nkind = "button"\ngap = "wide"', "gap: 'wide' is not a length"),
        ('part = "top"\nkind = "button"\ngap = nan', "gap: "),
    ],
)
def test_mistakes_are_one_line(text, words):
    with pytest.raises(InputError) as caught:
        read(text)
    message = str(caught.value)
    assert message.startswith("sideboard.toml: fixing[1]: ")
    assert words in message
    assert "\n" not in message


@given(
    st.sampled_from(sorted(FIXINGS)),
    st.dictionaries(
        st.sampled_from([k for k in FIXING_KEYS if k not in ("name", "note", "part", "kind")]),
        st.one_of(
            st.sampled_from(["1/8 in", "3/4", "20 mm", "center", "edge", "#8", "1 ft"]),
            st.text(max_size=6),
            st.floats(),
            st.integers(-9, 99),
            st.booleans(),
        ),
        max_size=3,
    ),
)
def test_any_table_is_a_fixing_or_an_error_of_one_line(kind, given_sizes):
    data = {"part": "top", "kind": kind, **given_sizes}
    with contextlib.suppress(InputError):
        spec = read_fixing(TomlTable(data, "x.toml", "fixing[1]", FIXING_KEYS), "us", PARTS)
        assert 0.0 < spec.distance_mm <= TOP.width_mm
        fixing_of(spec, SUGAR_MAPLE, MoistureRange(7.0, 6.0, 10.0))
