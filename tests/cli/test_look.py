"""Looks in show and find, and the region of a plain name, as a maker types them."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")


def data(woodref, *arguments):
    result = woodref(*arguments, "--format", "json")
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


def test_the_first_screen_tells_look_working_uses_and_stock(woodref):
    lines = woodref("show", "cherry").out.splitlines()[:24]
    look = next(line for line in lines if line.startswith("Look (typical, not a test of identity)"))
    assert "reddish brown heartwood" in look
    text = " ".join(lines)
    assert "reddens with light*" in look
    assert "Structure: fine texture, diffuse-porous, straight grain." in lines
    assert "Used for: furniture, veneer" in text
    assert "Yards (common practice): commonly stocked in North America" in text
    told = lines[lines.index(look) : lines.index("Cautions") - 1]
    assert all(len(line) <= 120 for line in told)


def test_json_says_how_each_cell_is_known(woodref):
    found = data(woodref, "show", "cherry")
    cells = {r["characteristic"]: (r["look_value"], r["basis"]) for r in found["look_cells"]}
    assert cells["texture"] == ("fine", "checked")
    assert cells["heartwood_lightness"] == (3.0, "editorial")
    assert found["used_for"][0] == {"use": "furniture", "basis": "checked"}
    assert {r["region"]: r["stock_class"] for r in found["stocked"]}["Europe"] == "commonly stocked"


def test_find_by_look(woodref):
    out = woodref("find", "--hue", "reddish brown", "--pores", "diffuse", "--stocked").out
    assert out.startswith("3 woods: hue reddish brown, pores diffuse, commonly stocked in North")
    assert "black cherry" in out
    assert "* unchecked, from memory and not seen in print." in out
    found = data(woodref, "find", "--hue", "pink", "--lightness", "2-2.5", "--units", "si")
    assert found["region"] == "Europe"
    assert {r["hue"] for r in found["by_look"]} == {"pink"}
    assert all(2 <= r["lightness"] <= 2.5 for r in found["by_look"])


def test_find_by_name_and_look(woodref):
    found = data(woodref, "find", "oak", "--use", "flooring", "--region", "Europe", "--stocked")
    woods = {r["wood"] for r in found["by_look"]}
    assert "European oak" in woods
    assert all(r["stock_class"] == "commonly stocked" for r in found["by_look"])


@pytest.mark.parametrize(
    ("arguments", "code", "message"),
    [
        (["find"], 2, "find needs a name or a look"),
        (["find", "--hue", "pinkk"], 2, "no hue is called 'pinkk'; nearest: pink"),
        (["find", "--use", "turnry"], 2, "nearest: turnery"),
        (["find", "--lightness", "pale"], 2, "lightness cannot be 'pale'; write 3, or 2.5-3.5"),
        (["find", "--hue", "black", "--texture", "uneven"], 1, "no wood of the table looks"),
        (["show", "teak", "--region", "Euope"], 2, "did you mean 'Europe'?"),
        (["show", "teak", "--region"], 2, "--region"),
    ],
)
def test_slips_are_one_line(woodref, arguments, code, message):
    result = woodref(*arguments)
    assert (result.code, result.out) == (code, "")
    assert result.err.count("\n") == 1
    assert message in result.err


def test_us_units_mean_the_yards_of_north_america(woodref):
    assert woodref("show", "walnut").out.startswith("Black walnut (Juglans nigra)")
    assert woodref("show", "red oak").out.startswith("Northern red oak (Quercus rubra)")
    assert 'for their mean: "red oak group"' in " ".join(woodref("show", "red oak").out.split())


def test_si_units_refuse_a_name_that_differs_with_both_commands(woodref):
    result = woodref("show", "walnut", "--units", "si")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        "woodref: 'walnut' is black walnut in North America and European walnut in Europe; type "
        'woodref show walnut --units si --region "North America", or '
        "woodref show walnut --units si --region Europe\n"
    )
    typed = woodref("show", "walnut", "--units", "si", "--region", "Europe")
    assert typed.out.startswith("European walnut (Juglans regia)")


def test_the_region_from_option_environment_and_file(woodref, monkeypatch, tmp_path):
    assert woodref("--region", "europe", "show", "walnut").out.startswith("European walnut")
    assert woodref("show", "walnut", "--region=Europe").out.startswith("European walnut")
    file = tmp_path / "config.toml"
    file.write_text('region = "Europe"\n')
    monkeypatch.setenv("WOODREF_CONFIG", str(file))
    assert woodref("show", "walnut").out.startswith("European walnut")
    monkeypatch.setenv("WOODREF_REGION", "North America")
    assert woodref("show", "walnut").out.startswith("Black walnut")
    assert woodref("show", "walnut", "--region", "Europe").out.startswith("European walnut")


def test_units_of_the_file_say_whose_yards(woodref, monkeypatch, tmp_path):
    file = tmp_path / "config.toml"
    file.write_text('units = "si"\n')
    monkeypatch.setenv("WOODREF_CONFIG", str(file))
    assert woodref("density", "cherry").code == 2
    assert woodref("density", "cherry", "--units", "us").out.startswith("Black cherry")


def test_find_tells_what_a_plain_name_means_by_region(woodref):
    for units in ("us", "si"):
        found = data(woodref, "find", "walnut", "--units", units)
        meaning = "black walnut in North America, European walnut in Europe"
        assert found["plain_meaning"] == meaning
    assert data(woodref, "find", "cocobolo")["plain_meaning"] == ""


def test_a_price_of_a_group_holds_for_the_wood_a_plain_name_means(woodref, tmp_path):
    prices = tmp_path / "prices.csv"
    prices.write_text("species,thickness,price,per,currency\nhard maple,4/4,7,board foot,USD\n")
    ranked = data(woodref, "rank", "--for", "tabletop", "--prices", prices, "--max-price", "9")
    (line,) = ranked["ranking"]
    assert (line["wood"], line["sold_as"]) == ("sugar maple", "hard maple")
    assert line["also"] == ["black maple"]
