"""A figure is one style, one size, the same bytes, and a whole file or none."""

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import matplotlib
import pytest

from woodref.charts.figure import (
    COLORS,
    HATCHES,
    MARKERS,
    new_figure,
    plot_path,
    png_bytes,
    save,
    style,
    svg_text,
)
from woodref.charts.notebook import picture
from woodref.errors import InputError, WoodrefError

ROOT = Path(__file__).resolve().parents[2]
SVG = "{http://www.w3.org/2000/svg}"
PNG = b"\x89PNG\r\n\x1a\n"


def drawn(label="width (mm)"):
    with style():
        figure, axes = new_figure("A title", "what it holds for", note="Source: none")
        axes.plot([1, 2, 3], [2, 1, 4], marker=MARKERS[0], label="one")
        axes.set_xlabel("month")
        axes.set_ylabel(label)
    return figure


def png_size(data):
    return int.from_bytes(data[16:20]), int.from_bytes(data[20:24])


def test_a_png_has_two_pixels_for_each_of_an_svg(tmp_path):
    data = save(drawn(), tmp_path / "a.png").read_bytes()
    assert data.startswith(PNG)
    assert png_size(data) == (1600, 1000)
    # CSS: 1 pt is 96/72 px.
    assert 'width="600pt" height="375pt"' in save(drawn(), tmp_path / "a.SVG").read_text()


@pytest.mark.parametrize("kind", ["svg", "png"])
def test_the_same_figure_is_the_same_bytes_and_another_is_not(tmp_path, kind):
    one, two, other = (
        save(drawn(label), tmp_path / f"{i}.{kind}").read_bytes()
        for i, label in enumerate(("width (mm)", "width (mm)", "width (in)"))
    )
    assert one == two != other
    if kind == "png":
        assert png_bytes(drawn()) == one


def test_everything_stands_where_matplotlib_puts_it_in_an_svg():
    """svg_text lays a figure out once, and leaves it to be laid out again when it changes."""
    figure, other = drawn(), drawn()
    engine = figure.get_layout_engine()
    text = svg_text(figure)
    with style():
        other.savefig(BytesIO(), format="svg")
    assert figure.axes[0].get_position().bounds == other.axes[0].get_position().bounds
    assert figure.get_layout_engine() is engine
    figure.axes[0].set_ylabel("one line\nand another")
    assert svg_text(figure) != text
    assert figure.axes[0].get_position().x0 > other.axes[0].get_position().x0


def test_an_svg_is_the_same_in_another_process_and_holds_no_date():
    code = (
        "import hashlib, sys; sys.path.insert(0, 'tests/charts'); import test_figure as t; "
        "from woodref.charts.figure import svg_text; "
        "print(hashlib.sha256(svg_text(t.drawn()).encode()).hexdigest())"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": "."},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
    text = svg_text(drawn())
    assert "dc:date" not in text
    assert "<title>A title</title>" in text
    assert "atplotlib v" not in text


def test_letters_of_an_svg_are_text_and_it_says_what_it_shows():
    root = ElementTree.fromstring(svg_text(drawn("width <mm> & more")))
    told = {t.text for t in root.iter(f"{SVG}text")}
    assert {"A title", "what it holds for", "month", "width <mm> & more", "Source: none"} <= told
    assert root.find(f"{SVG}title").text == "A title"
    described = "A title. what it holds for. across: month. up: width <mm> & more. Source: none"
    assert root.find(f"{SVG}desc").text == described
    # A reader without the font sees one of much the same width.
    fonts = {t.get("style").partition("font-family: ")[2] for t in root.iter(f"{SVG}text")}
    assert all(f.startswith("'DejaVu Sans', Verdana, sans-serif") for f in fonts)


def test_a_notebook_shows_a_figure_at_its_own_width_with_words_for_it():
    data, metadata = picture(drawn(), "a line that rises")._repr_mimebundle_()
    assert png_size(data["image/png"]) == (1600, 1000)
    assert metadata == {"image/png": {"alt": "a line that rises", "width": 800}}
    assert repr(picture(drawn())) == data["text/plain"].replace("a line that rises", "A title")


def test_the_settings_of_the_user_change_nothing_and_are_left_alone():
    plain = svg_text(drawn())
    with matplotlib.rc_context({"font.size": 30, "axes.facecolor": "red", "axes.grid": False}):
        assert svg_text(drawn()) == plain
        assert matplotlib.rcParams["font.size"] == 30


def test_drawing_leaves_no_window_and_no_list_of_figures():
    code = (
        "import sys; sys.path.insert(0, 'tests/charts'); import test_figure as t; t.drawn(); "
        "print('matplotlib.pyplot' in sys.modules)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": "."},
    )
    assert run.stdout.strip() == "False"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("chart.jpg", r"chart\.jpg: a chart is \.svg or \.png, and this name ends in '\.jpg'"),
        ("chart", r"chart: a chart is \.svg or \.png, and this name has no ending"),
        (".svg", r"this name has no ending"),
        ("none/chart.svg", r"the folder .*none does not exist; make it first"),
        ("folder.svg", r"folder\.svg: is a folder; name a file in it"),
    ],
)
def test_a_name_that_cannot_be_drawn_to_is_one_line(tmp_path, name, said):
    (tmp_path / "folder.svg").mkdir()
    before = sorted(tmp_path.rglob("*"))
    for action in (plot_path, lambda p: save(drawn(), p)):
        with pytest.raises(InputError, match=said) as caught:
            action(tmp_path / name)
        assert "\n" not in str(caught.value)
    assert sorted(tmp_path.rglob("*")) == before


def test_a_refused_write_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "x.svg"
    path.write_text("old")

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("woodref.files.os.replace", refuse)
    with pytest.raises(WoodrefError, match="cannot be written: no space left on device"):
        save(drawn(), path, overwrite=True)
    assert path.read_text() == "old"
    with pytest.raises(InputError, match="exists already"):
        save(drawn(), path)
    assert list(tmp_path.iterdir()) == [path]


def luminance(color):
    parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def test_colors_stand_out_from_white_and_are_never_alone():
    # W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.11: 3 to 1.
    assert all(1.05 / (luminance(c) + 0.05) >= 3.0 for c in COLORS)
    assert len(set(MARKERS)) == len(set(HATCHES)) == len(COLORS)
