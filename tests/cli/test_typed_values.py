"""Values a person types: fractions for percents, several mistakes of one file, a shared town."""

import pytest

PIECE = """
name = "stool"
units = "si"
[build]
moisture_pct = 8
[use]
place = "Duluth"
setting = "barn"
[[parts]]
name = "seat"
species = "white oak"
length = 0
width = 320
thickness = 22
"""


HEAD = "species,property,value,unit,moisture_content_pct"


def refused(result):
    assert (result.code, result.out) == (2, "")
    return result.err.splitlines()


def test_a_fraction_is_asked_about(woodref):
    (told,) = refused(woodref("emc", "68F", "0.4"))
    assert told == ("woodref: a relative humidity of 0.4 may mean 0.4 % or 40 %; write 40% or 0.4%")
    assert woodref("emc", "68F", "0.4%").code == 0
    asked = ("movement", "cherry", "--width", "5in", "--to", "10", "--from")
    for text in ("0.08", "68F,0.4"):
        assert "may mean" in refused(woodref(*asked, text))[0]


def test_the_mistakes_of_a_piece_come_at_once_a_line_each(woodref, tmp_path):
    path = tmp_path / "stool.toml"
    path.write_text(PIECE)
    setting, length = refused(woodref("estimate", path))
    assert setting.startswith(f"woodref: {path}: use: setting: 'barn' is no setting; use outdoors")
    assert {"unheated-shop", "heated-house"} <= set(setting.replace(",", "").split())
    assert length == (
        f'woodref: {path}: parts[1] "seat": length: 0 is 0 mm; must be above 0 and at most 20000 mm'
    )


def test_a_town_whose_name_others_share_is_asked_about(woodref):
    (told,) = refused(woodref("place", "Santa Fe"))
    assert "write 'Santa Fe, Argentina'; Santa Fe, New Mexico has no record here: give " in told
    assert woodref("place", "Santa Fe, Argentina").code == 0


def test_a_size_without_quotes_is_told_with_them(woodref, tmp_path):
    path = tmp_path / "stool.toml"
    path.write_text(PIECE.replace("length = 0", "length = 19-1/2"))
    assert refused(woodref("estimate", path)) == [
        f'woodref: {path}: line 12: length: 19-1/2 needs quotes; write length = "19-1/2"'
    ]


@pytest.mark.parametrize(("kind", "text"), [
    ("measurements", f"{HEAD}\nteak,density_at_test_moisture,640,kg/m3,0.12\n"),
    ("places", "place,month,temperature,humidity_pct\nHere,winter,10C,0.4\nHere,summer,20C,60\n"),
])  # fmt: skip
def test_a_fraction_in_a_table_is_rejected_with_what_to_write(woodref, tmp_path, kind, text):
    path = tmp_path / "mine.csv"
    path.write_text(text)
    found = woodref("own", "add", path, "--kind", kind, "--origin", "bench")
    assert (found.code, found.out) == (1, "")
    assert " may mean 0." in found.err.splitlines()[0]
