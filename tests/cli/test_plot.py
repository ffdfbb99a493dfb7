"""--plot: the answer as ever, a picture beside it, one line where it cannot be drawn."""

import json
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "datasets" / "demo"

PNG = b"\x89PNG\r\n\x1a\n"
FIVE = ("compare", "black cherry", "black walnut", "white oak", "hard maple", "white ash")
OAK = ("movement", "red oak")
HOUSE = ("--place", "Savannah", "--setting", "heated-house")
END = ("section", "red oak", "--pith-distance", "50mm", "--from", "12", "--to", "6")
PLOTS = {
    "compare": FIVE,
    "hardness": (*FIVE, "--chart", "hardness-weight"),
    "movement": (*OAK, "--width", "965mm", *HOUSE),
    "thickness": (*OAK, "--thickness", "8/4", "--cut", "30", "--from", "8", *HOUSE),
    "season": ("season", "Duluth", "--setting", "unheated-shop"),
    "own season": ("season", "--winter", "20C,30%", "--summer", "24C,60%"),
    "section": (*END, "--width", "254mm", "--thickness", "25mm"),
    "round": (*END, "--diameter", "40mm"),
    "boards": (*END, "--width", "100mm", "--thickness", "22mm", "--boards", "5"),
    "panel": ("panel", "black cherry", "--width", "560mm", "--from", "7", "--to", "11"),
    "fixing": (
        *(
            "fixing",
            "black cherry",
            "--kind",
            "floating-panel",
            "--width",
            "14in",
            "--gap",
            "3/16in",
        ),
        *("--month", "February", "--place", "Columbus, Ohio"),
    ),
    "rank": ("rank", "--for", "tabletop"),
    "substitute": ("substitute", "black walnut", "--for", "tabletop"),
    "three best": (
        *("substitute", "white ash", "--for", "tabletop", "--rows", "4"),
        *("--chart", "side-by-side"),
    ),
    "panel year": ("panel", "black cherry", "--width", "560mm", "--from", "7", *HOUSE),
    "joint": ("joint", "black cherry", "--kind", "miter", "--width", "75mm", *HOUSE),
    "gluing": ("gluing", "black cherry", "--length", "60mm", *HOUSE),
    "deflection": (
        *("deflection", "black cherry", "--span", "900mm", "--width", "250mm"),
        *("--thickness", "19mm", "--load", "books"),
    ),
    "lag": ("lag", "white ash", "--thickness", "19mm", "--finish", "urethane varnish"),
    "delivery": ("delivery", "white ash", "--thickness", "19mm", "--built", "8", *HOUSE),
    "estimate": ("estimate", DEMO / "turned-stool.toml"),
    "buy": ("buy", DEMO / "shelf-parts.csv", "--board", "4/4 x 6in x 9ft x 9 black cherry"),
}


#: Each picture in one kind of file; tests/charts draws them in both systems of units.
KINDS = [("us", "svg"), ("si", "png")]


@pytest.mark.parametrize(
    ("arguments", "units", "ending"),
    [(asked, *KINDS[n % 2]) for n, asked in enumerate(PLOTS.values())],
    ids=PLOTS,
)
def test_the_answer_is_the_same_and_the_picture_is_named(
    woodref, tmp_path, arguments, units, ending
):
    path = tmp_path / f"chart.{ending}"
    words = [*arguments, "--units", units, "--format", "json"]
    drawn = woodref(*words, "--plot", path)
    assert (drawn.code, drawn.err) == (0, f"woodref: drawn to {path}\n")
    plain = woodref(*(w for w in words if w not in ("--chart", "hardness-weight", "side-by-side")))
    assert json.loads(drawn.out) == json.loads(plain.out)
    # The ending of the name says which kind of picture.
    if ending == "png":
        assert path.read_bytes().startswith(PNG)
    else:
        svg = path.read_text(encoding="utf-8")
        assert svg.startswith("<?xml")
        assert svg.rstrip().endswith("</svg>")


BAD = {
    "chart.gif": "a chart is .svg or .png, and this name ends in '.gif'",
    "chart": "a chart is .svg or .png, and this name has no ending",
    "none/chart.svg": "does not exist; make it first",
}


@pytest.mark.parametrize(
    ("arguments", "name"),
    [*((a, "chart.gif") for a in PLOTS.values()), *((PLOTS["season"], n) for n in BAD)],
    ids=[*PLOTS, *BAD],
)
def test_a_file_that_cannot_be_drawn_to_is_one_line(woodref, tmp_path, arguments, name):
    before = sorted(tmp_path.rglob("*"))
    found = woodref(*arguments, "--plot", tmp_path / name)
    assert (found.code, found.out) == (2, "")
    assert BAD[name] in found.err
    assert found.err.count("\n") == 1
    assert sorted(tmp_path.rglob("*")) == before


def test_a_chart_without_a_file_says_what_is_missing(woodref):
    found = woodref(*FIVE, "--chart", "hardness-weight")
    assert (found.code, found.out) == (2, "")
    assert "--chart goes with --plot, for example --plot hardness-weight.svg" in found.err


def test_a_wood_set_beside_one_has_no_order_to_draw(woodref, tmp_path):
    found = woodref(
        *("substitute", "white oak", "--with", "European oak", "--plot", tmp_path / "x.svg")
    )
    assert (found.code, found.out) == (2, "")
    assert "--plot goes with a choice among woods: leave it out with --with" in found.err


def test_the_year_needs_a_room(woodref, tmp_path):
    path = tmp_path / "year.svg"
    found = woodref(*OAK, "--width", "38in", "--from", "7", "--to", "11", "--plot", path)
    assert (found.code, found.out) == (2, "")
    assert "--plot draws the year of a room: add --place and --setting" in found.err
    assert not path.exists()


def test_a_picture_that_cannot_be_made_leaves_no_answer_and_no_file(woodref, tmp_path):
    path = tmp_path / "chart.svg"
    found = woodref(
        *("compare", "Alnus japonica", "Alnus ferruginea"),
        *("--plot", path, "--chart", "hardness-weight"),
    )
    assert (found.code, found.out) == (1, "")
    assert "side hardness in no table" in found.err
    assert not path.exists()


def test_the_way_to_a_picture_is_found_from_help(woodref):
    text = " ".join(woodref("compare", "--help").out.split())
    assert "hardness against weight" in text
    assert "--plot FILE" in text
    assert "pictures" in " ".join(woodref("--help").out.split())
