"""A whole piece, on woods written out here."""

import math

import pytest
from small_woods import BARE, WOODS, estimated, ids_of, wood

from woodref.board.weight import density_of
from woodref.errors import InputError
from woodref.formulas.spread import Z90
from woodref.lumber.prices import parse_prices
from woodref.note import Note
from woodref.piece.notices import lifting_notice
from woodref.piece.piece import parse_piece
from woodref.quantity import Range
from woodref.reference.trade import LiftingLimit

HEAD = """
name = "test piece"
units = "si"
[build]
moisture_pct = 7
[use]
driest = { moisture_pct = 5 }
wettest = { moisture_pct = 11 }
"""


def part(name="top", species="sugar maple", length=1000, width=965, thickness=20, **more):
    lines = {"length": length, "width": width, "thickness": thickness, **more}
    return (
        f'[[parts]]\nname = "{name}"\nspecies = "{species}"\n'
        + "".join(f"{k} = {v!r}\n" for k, v in lines.items())
    ).replace("'", '"')


PLY = """
[[sheets]]
name = "ply"
thickness = 10
density = 600
[[parts]]
name = "bottom"
sheet = "ply"
length = 1000
width = 500
"""


def of(text, prices=None):
    return estimated(parse_piece(HEAD + text, "x.toml"), prices)


def codes(notes):
    return [note.code for note in notes]


def test_assumptions_say_how_surely_they_are_known():
    known = {note.code: note.basis for note in of(part()).assumptions}
    assert known["likely-range"] == "editorial"
    assert known["waste"] == "common_practice"
    assert known["stock"] == "common_practice"
    assert "board-feet" not in known  # it is a metric piece
    assert known["fiber-saturation"] == ""
    given = of(part() + "[waste]\nlumber_pct = 10\n")
    assert {note.code: note.basis for note in given.assumptions}["waste"] == ""


def test_coefficients_of_variation_say_that_they_were_read():
    cv = [n for n in of(part()).assumptions if n.code == "coefficient-of-variation"]
    assert {("specific gravity" in n.text, n.basis) for n in cv} == {
        (True, "checked"),
        (False, "checked"),
    }


@pytest.mark.parametrize(("cut", "after"), [("flat", 978.8), ("rift", 975.0), ("quarter", 971.4)])
def test_movement_of_a_known_top(cut, after):
    # Sugar maple, 965 mm, 7 to 11 %: shrinkages of FPL-GTR-282 (2021), Table 4-3, Eq. 4-9.
    _, wettest, _ = of(part(cut=cut)).parts[0].movements
    assert wettest.after_mm == pytest.approx(after, abs=0.05)


def test_the_swing_in_use_is_the_difference_of_both_ends():
    dry, wet, swing = of(part()).parts[0].movements
    assert swing.change_mm == pytest.approx(wet.after_mm - dry.after_mm)
    assert dry.change_mm < 0 < wet.change_mm


def test_a_panel_of_staves_moves_as_much_and_spreads_less():
    one = of(part(staves=1)).parts[0].movements[1]
    four = of(part(staves=4)).parts[0].movements[1]
    assert four.after_mm == one.after_mm
    spread = (four.likely_mm.high - four.likely_mm.low) / (one.likely_mm.high - one.likely_mm.low)
    # Mean of n equally correlated boards: sqrt((1 + (n - 1) r) / n), r = 0.5.
    assert spread == pytest.approx(math.sqrt((1 + 3 * 0.5) / 4), rel=0.01)


def test_weight_is_density_times_volume_and_keeps_its_ovendry_mass():
    found = of(part(width=400, quantity=2))
    mass = found.mass_kg
    density = density_of(WOODS["sugar maple"], 7.0).density_kg_m3
    assert mass["build"].expected == pytest.approx(density * 2 * 1.0 * 0.4 * 0.02)
    for name, moisture in (("driest", 5), ("wettest", 11)):
        assert mass[name].expected / (100 + moisture) == pytest.approx(mass["build"].expected / 107)


def test_spread_of_the_total():
    # Boards of one wood correlate by 0.5, different woods are independent; CV of density 10 %.
    found = of(part("a", "white oak", width=200, quantity=2) + part("b", "black walnut", width=200))
    oak = density_of(WOODS["white oak"], 7.0)
    walnut = density_of(WOODS["black walnut"], 7.0)
    volume = 1.0 * 0.2 * 0.02
    sd_oak, sd_walnut = oak.sd_kg_m3 * volume, walnut.sd_kg_m3 * volume
    sd = math.sqrt((2 + 2 * 0.5) * sd_oak**2 + sd_walnut**2)
    total = found.mass_kg["build"]
    assert (total.high - total.low) / 2 == pytest.approx(Z90 * sd)
    assert total.expected == pytest.approx((2 * oak.density_kg_m3 + walnut.density_kg_m3) * volume)


def test_sheet_goods_have_no_spread_do_not_move_and_keep_their_weight():
    found = of(PLY)
    assert found.leading is None
    assert found.board_feet == 0
    for mass in found.mass_kg.values():
        assert (mass.low, mass.expected, mass.high) == pytest.approx((3.0, 3.0, 3.0))
    assert "sheet-goods" in codes(found.assumptions)


def test_a_missing_price_is_said_and_left_out():
    prices = parse_prices(
        "species,thickness,price,per,currency\nwhite oak,any,10,board foot,EUR\n", "p.csv", ids_of
    )
    found = of(part("a", "white oak", width=200) + part("b", width=200) + PLY, prices)
    assert found.currency == "EUR"
    assert found.unpriced == ("p.csv has no sugar maple 4/4", "no price for ply")
    a, b, bottom = found.parts
    assert found.priced_cost.expected == pytest.approx(a.board_feet * 1.25 * 10)
    assert (found.priced_cost.low, found.priced_cost.high) == pytest.approx(
        (a.board_feet * 1.2 * 10, a.board_feet * 1.3 * 10)
    )
    assert (b.cost, bottom.cost) == (None, None)
    assert found.cost is None  # half of the lumber has no price: the rest is no cost
    assert of(part()).cost is None


def test_the_parts_share_what_is_bought():
    prices = parse_prices(
        "species,thickness,price,per,low,high\nwhite oak,4/4,10,board foot,9,12\n", "p.csv", ids_of
    )
    found = of(
        part("a", "white oak", width=200) + part("b", "white oak", width=77, quantity=3), prices
    )
    assert len(found.lumber) == 1
    for end in ("low", "expected", "high"):
        shares = sum(getattr(p.cost, end) for p in found.parts)
        assert shares == pytest.approx(getattr(found.cost, end))


def test_a_wood_without_figures_is_said_and_left_out():
    found = of(part("a", BARE.common_name, width=200) + part("b", width=200))
    a, b = found.parts
    assert a.mass_kg is None
    assert found.mass_kg["build"] == b.mass_kg["build"]
    assert found.unweighed[0].startswith("a: no table holds a density of bare wood")
    unmoved = (
        "a: movement is not known: no table holds radial and tangential shrinkage of bare wood"
    )
    assert any(n.text.startswith(unmoved) for n in found.remarks if n.code == "unmoved")


def test_figures_used_are_listed_once_with_their_basis():
    found = of(part("a", "recalled wood", width=200) + part("b", "recalled wood", width=300))
    used = [(w.common_name, v.property_id, v.basis) for w, v in found.figures]
    assert len(used) == len(set(used)) == 4
    assert {basis for _, _, basis in used} == {"unchecked"}


@pytest.mark.parametrize(
    ("species", "says"),
    [
        ("wite oak", "no wood is called 'wite oak'; nearest: white oak"),
        ("oak", "'oak' is sold as several woods; choose one: white oak, red oak"),
    ],
)
def test_a_species_that_is_unknown_or_ambiguous_names_the_part(species, says):
    with pytest.raises(InputError) as caught:
        of(part("seat", species))
    assert str(caught.value).startswith(f'x.toml: parts[1] "seat": species: {says}')


def test_a_part_too_thick_for_any_stock_names_the_part():
    with pytest.raises(InputError, match=r'x\.toml: parts\[1\] "post": thickness: no standard'):
        of(part("post", thickness=120, width=120))
    assert of(part("post", thickness=120, width=120, stock="125 mm")).board_feet > 0


def test_a_wide_single_board_is_remarked():
    assert codes(of(part()).remarks) == ["wide-board"]
    assert not of(part(staves=6)).remarks


def test_what_the_maker_noted_is_kept():
    noted = of(part(staves=6, note="two good faces"))
    assert Note("part", "top: two good faces") in noted.remarks


def test_a_wood_that_moves_by_change_per_percent_says_so(monkeypatch):
    # D2 = D1 (1 + c (M2 - M1) / 100), as printed with such figures.
    moving = {"change_per_pct_radial": 0.2, "change_per_pct_tangential": 0.3}
    monkeypatch.setitem(WOODS, "per cent wood", wood("per cent wood", moving))
    found = of(part(species="per cent wood", staves=6))
    assert found.parts[0].movements[1].change_mm == pytest.approx(965 * 0.3 * 4 / 100)
    assert any("change per 1 % moisture content as printed" in n.text for n in found.remarks)


def test_lifting_is_cautioned_by_the_likely_weight():
    # NIOSH Publication 94-110: load constant 23 kg (51 lb).
    limit = LiftingLimit(23.0, "NIOSH", "checked")
    assert lifting_notice(Range(20, 18, 22), limit) == ()
    (may,) = lifting_notice(Range(20, 16, 24), limit)
    assert "may weigh more than 23 kg, the most" in may.said("si")
    assert "may weigh more than 51 lb, the most" in may.said("us")
    assert "piece weighs more than" in lifting_notice(Range(30, 25, 35), limit)[0].text
