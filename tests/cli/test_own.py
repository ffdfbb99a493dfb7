"""Own figures at the command line."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

HEAD = "species,property,value,unit\n"


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "boards.csv"
    path.write_text(HEAD + "teak,side_hardness,1100,lbf\nteak,side_hardness,lots,lbf\n")
    return path


def test_add_names_bad_rows_and_keeps_them(woodref, table):
    result = woodref("own", "add", table, "--kind", "measurements", "--origin", "bench")
    assert result.code == 0
    assert result.out.startswith("1 of 2 rows kept as m1. The other 1 stand")
    assert result.err == f"woodref: {table}: line 3, value 'lots': is not a number\n"
    assert table.with_name("boards.rejects.csv").is_file()


def test_json_of_add_list_and_weigh(woodref, table):
    def keys(*words):
        return set(json.loads(woodref("own", *words, "--format", "json").out))

    common = {"answer", "units", "notes"}
    added = keys("add", table, "--kind", "measurements", "--origin", "bench")
    assert added == common | {"batch", "rows_read", "rows_kept", "rows_rejected", "rejects_file"}
    assert keys("list") == common | {"tables"}
    weighed = keys(
        "weigh",
        "teak",
        "--length",
        "48in",
        "--width",
        "6in",
        "--thickness",
        "1in",
        "--weight",
        "7 lb",
        "--moisture",
        "8",
    )
    assert weighed == common | {
        "species_id",
        "density_lb_ft3",
        "basic_specific_gravity",
        "published_density_lb_ft3",
        "published_density_low_lb_ft3",
        "published_density_high_lb_ft3",
        "heavier_than_share",
        "beside_published",
        "batch",
    }


def test_a_wood_shows_the_shops_own_and_leaves_it_out(woodref, table, monkeypatch):
    woodref("own", "add", table, "--kind", "measurements", "--origin", "bench")
    from woodref.cli.options import opened

    opened.cache_clear()
    assert "1,100 lbf" in woodref("show", "teak").out
    opened.cache_clear()
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    without = woodref("show", "teak", "--no-own")
    assert without.code == 0
    assert "1,000 lbf" in without.out
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    opened.cache_clear()


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["own", "remove", "m9"], "no table of your own is called 'm9'; nothing of your own"),
        (["own", "add", "nowhere.csv", "--kind", "prices", "--origin", "x"], "no such table"),
        (["own", "add", "x.csv", "--kind", "boards", "--origin", "x"], "--kind cannot be 'boards'"),
        (["own", "weigh", "teak"], "is missing"),
    ],
)
def test_mistakes_are_one_line(woodref, words, message):
    result = woodref(*words)
    assert result.code == 2
    assert message in result.err
    assert result.err.count("\n") == 1


WEIGH = ["own", "weigh", "white oak", "--length", "48in", "--width", "6in"]
WEIGH += ["--thickness", "1in", "--weight", "10 lb", "--moisture", "8"]


def test_a_second_board_is_set_against_print_as_the_first(woodref, monkeypatch):
    from woodref.cli.options import opened

    first = woodref(*WEIGH, "--keep", "--origin", "bench")
    opened.cache_clear()
    second = woodref(*WEIGH)
    opened.cache_clear()
    assert "It is heavier than 99 of 100 boards; usual is 45.9 lb/ft3 (37 to 55)." in first.out
    assert second.out == first.out.replace(
        "Kept as m1; it goes before the printed figure from now on.\n", ""
    )


@pytest.mark.parametrize(("terminal", "lines"), [(True, 21), (False, 30)])
def test_bad_rows_are_named_all_or_the_first_on_a_terminal(
    woodref, tmp_path, monkeypatch, terminal, lines
):
    path = tmp_path / "boards.csv"
    path.write_text(HEAD + "teak,side_hardness,1100,lbf\n" + "teak,side_hardness,lots,lbf\n" * 30)
    monkeypatch.setattr("sys.stderr.isatty", lambda: terminal)
    result = woodref("own", "add", path, "--kind", "measurements", "--origin", "bench")
    assert result.err.count("\n") == lines
    assert ("and 10 more rows" in result.err) == terminal
    assert len(path.with_name("boards.rejects.csv").read_text().splitlines()) == 31


def test_every_row_bad_is_no_success(woodref, tmp_path):
    path = tmp_path / "bad.csv"
    path.write_text(HEAD + "teak,side_hardness,lots,lbf\n")
    result = woodref("own", "add", path, "--kind", "measurements", "--origin", "bench")
    assert result.code == 1
    assert "none of 1 rows can be used" in result.err


@pytest.mark.parametrize("kind", ["measurements", "places", "prices", "yard"])
def test_a_template_can_be_added_as_it_is(woodref, tmp_path, kind):
    path = tmp_path / f"{kind}.csv"
    assert woodref("template", kind, "-o", path).code == 0
    result = woodref("own", "add", path, "--kind", kind, "--origin", "template")
    assert (result.code, result.err) == (0, "")


def test_an_own_place_has_a_year(woodref, tmp_path):
    path = tmp_path / "places.csv"
    woodref("template", "places", "-o", path)
    woodref("own", "add", path, "--kind", "places", "--origin", "logger")
    from woodref.cli.options import opened

    opened.cache_clear()
    result = woodref("season", "quiet valley", "--setting", "heated-house")
    assert result.code == 0
    assert result.out.startswith("Quiet Valley, heated house: design for wood from")
    place = json.loads(woodref("place", "quiet valley", "--format", "json").out)
    assert (place["latitude"], place["station"]) == (None, None)
    opened.cache_clear()


def test_an_estimate_without_a_price_list_takes_the_own_one(woodref, tmp_path):
    piece = tmp_path / "piece.toml"
    woodref("template", "piece", "-o", piece)
    piece.write_text(
        "\n".join(line for line in piece.read_text().splitlines() if not line.startswith("prices"))
    )
    prices = tmp_path / "own.csv"
    prices.write_text(
        "species,thickness,price,per,currency\n"
        + "".join(
            f"{w},any,9.00,board foot,USD\n"
            for w in ("white oak", "sugar maple", "white ash", "black cherry", "black walnut")
        )
    )
    without = woodref("estimate", piece)
    woodref("own", "add", prices, "--kind", "prices", "--origin", "yard")
    own = woodref("estimate", piece)
    assert own.code == 0
    assert own.out != without.out
    assert "your own prices" in own.out


def test_a_damaged_table_is_told_in_a_line_and_can_be_left_out(woodref, table, tmp_path):
    woodref("own", "add", table, "--kind", "measurements", "--origin", "bench")
    (file,) = (tmp_path / "own" / "measurements-3.parquet").iterdir()
    content = bytearray(file.read_bytes())
    content[len(content) // 2] ^= 1
    file.write_bytes(content)
    for words in (["show", "teak"], ["own", "list"], ["own", "remove", "m1"]):
        result = woodref(*words)
        assert (result.code, result.out, result.err.count("\n")) == (1, "", 1)
        assert result.err.startswith(f"woodref: {file}: your own figures are damaged: ")
        assert "move the file away" in result.err
    assert "own figures" not in woodref("show", "teak", "--no-own").out
