"""Figures in one style of ours, without global state, and files of them whole or not at all.

Nothing is told by color alone: MARKERS, LINES and HATCHES go with COLORS, and what can be
labeled directly has no legend. The font is the one the drawing package brings along. In SVG
files letters are text that can be searched, copied and read aloud; where the font is not at
hand one of much the same width takes its place. A PNG has two pixels for each of the chart.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape  # nosec B406

from woodref.errors import InputError
from woodref.files import check_target, write_bytes
from woodref.printable import printable

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.axis import Axis
    from matplotlib.figure import Figure as Figure  # noqa: PLC0414 - named here for other rooms

#: Pixels to the inch, so that an SVG is 800 CSS px wide; a PNG has twice as many, so that it
#: stays sharp at that size on a fine screen and on paper.
PIXELS_PER_INCH = 96
PNG_SCALE = 2
#: Size of a chart where nothing else is said [px].
WIDTH_PX, HEIGHT_PX = 800, 500
#: What a chart may be saved as.
SUFFIXES: tuple[str, ...] = (".svg", ".png")

#: Colors for what is told apart, each at least 3 : 1 against white (WCAG 2, for graphics).
COLORS: tuple[str, ...] = (
    *("#0b5fa5", "#c04a00", "#00795a", "#8a3f7f"),
    *("#8a6a00", "#1f7f95", "#a01f2f", "#4a4a4a"),
)
#: Shapes of points, lines and fillings in the same order.
MARKERS: tuple[str, ...] = ("o", "s", "^", "D", "v", "P", "X", "p")
LINES: tuple[str, ...] = ("-", "--", "-.", ":")
HATCHES: tuple[str, ...] = ("", "///", "...", "\\\\\\", "xxx", "---", "ooo", "+++")
#: Ink for text, for what is beside the matter, and for lines of the grid.
INK, QUIET, GRID = "#222222", "#5f5f5f", "#dddddd"
#: Letters [pt] of the title, of text and of small print.
TITLE_PT, TEXT_PT, SMALL_PT = 13.0, 10.0, 8.5

#: The font letters are measured in, and what may take its place in an SVG.
_FONT, _FONTS = "'DejaVu Sans'", "'DejaVu Sans', Verdana, sans-serif"

_STYLE: dict[str, Any] = {
    "font.family": "DejaVu Sans",
    "font.size": TEXT_PT,
    "text.color": INK,
    # A name or a price may hold a dollar sign.
    "text.parse_math": False,
    "axes.labelcolor": INK,
    "axes.edgecolor": QUIET,
    "axes.linewidth": 0.8,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.axisbelow": True,
    "axes.grid": True,
    "axes.unicode_minus": False,
    "grid.color": GRID,
    "grid.linewidth": 0.8,
    "xtick.color": QUIET,
    "ytick.color": QUIET,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "lines.linewidth": 2.0,
    "hatch.linewidth": 0.6,
    "legend.frameon": False,
    "figure.dpi": PIXELS_PER_INCH,
    "savefig.dpi": PIXELS_PER_INCH,
    "svg.fonttype": "none",
    # Identifiers inside an SVG come from this word, not from chance.
    "svg.hashsalt": "woodref",
}


@contextmanager
def style() -> Iterator[None]:
    """Draw in the style of this project, whatever the settings of the user are.

    Everything that makes or changes a figure belongs inside; settings are as before after it.
    """
    import matplotlib

    keep = ("backend", "backend_fallback", "toolbar", "interactive")
    settings: Any = {k: v for k, v in matplotlib.rcParamsDefault.items() if k not in keep}
    settings.update(_STYLE)
    with matplotlib.rc_context(settings):
        yield


#: A last line of fewer letters is a word alone.
_ALONE = 10
#: The spaces between a number and its unit, and in '(1 of 4)', which stay together.
_UNITS = re.compile(r"(?<=\d) (?=(?:%|(?:in|ft|mm|lb|kg)\b|of \d))|(?<=\d of) (?=\d)")


def wrapped(text: str, width_px: float, points: float) -> str:
    """Text in lines that fit a width.

    Parameters: text; width_px [px]; points, the size of its letters [pt].
    """
    # Letters of the font are on average a little narrower than 0.6 of their size, bold ones 0.63.
    wide = 0.63 if points >= TITLE_PT else 0.55
    letters = max(20, int(width_px / (points * PIXELS_PER_INCH / 72.0 * wide)))
    together = _UNITS.sub("\N{NO-BREAK SPACE}", text)
    lines = textwrap.wrap(together, letters, break_long_words=False)
    # A title breaks into lines of much the same length, and nowhere stands a word alone.
    even = points >= TITLE_PT or len(lines[-1] if lines else text) < _ALONE
    while even and len(lines) > 1 and letters > 20:
        letters -= 1
        narrower = textwrap.wrap(together, letters, break_long_words=False)
        if len(narrower) > len(lines):
            break
        lines = narrower
    return "\n".join(lines)


def new_figure(
    title: str,
    subtitle: str = "",
    width_px: int = WIDTH_PX,
    height_px: int = HEIGHT_PX,
    note: str = "",
) -> tuple[Figure, Axes]:
    """An empty chart with its title; call it, and draw, inside ``style()``.

    Parameters: title, one sentence that says what is seen; subtitle, smaller, what it holds
    for; width_px, height_px [px]; note, small print at the bottom, such as sources.
    Returns: the figure, which no global list of figures holds, and its axes.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.layout_engine import ConstrainedLayoutEngine

    margin_px = 12.0
    figure = Figure(
        figsize=(width_px / PIXELS_PER_INCH, height_px / PIXELS_PER_INCH),
        dpi=PIXELS_PER_INCH,
        layout=ConstrainedLayoutEngine(w_pad=margin_px / PIXELS_PER_INCH, h_pad=0.08),
    )
    FigureCanvasAgg(figure)
    room_px = width_px - 2.0 * margin_px
    left = margin_px / width_px
    figure.suptitle(
        wrapped(title, room_px, TITLE_PT), x=left, ha="left", size=TITLE_PT, weight="bold"
    )
    axes = figure.add_subplot()
    if subtitle:
        axes.set_title(
            wrapped(subtitle, room_px * 0.88, TEXT_PT), loc="left", size=TEXT_PT, color=QUIET
        )
    if note:
        figure.supxlabel(
            wrapped(note, room_px, SMALL_PT), x=left, ha="left", size=SMALL_PT, color=QUIET
        )
    return figure, axes


def thousands(axis: Axis, most: int = 8) -> None:
    """Number an axis as everywhere in woodref: 1,500, and no more decimals than its steps need.

    Parameters: axis; most steps it has.
    """
    from matplotlib.ticker import FuncFormatter, MaxNLocator

    axis.set_major_locator(MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]))

    def text(value: float, _: object) -> str:
        plain = f"{value:,.6f}".rstrip("0").rstrip(".")
        return "0" if plain in ("", "-0") else plain

    axis.set_major_formatter(FuncFormatter(text))


def point_style(i: int) -> dict[str, Any]:
    """How the i-th thing told apart is drawn as a point: its shape and its color."""
    return {
        # Beyond the eighth a color comes again, with another shape.
        "marker": MARKERS[(i + i // len(COLORS)) % len(MARKERS)],
        "color": COLORS[i % len(COLORS)],
        "markersize": 8.5,
        "markeredgecolor": "white",
        "markeredgewidth": 0.8,
    }


def tint(color: str, share: float = 0.3) -> str:
    """A color on white, for areas that letters lie on.

    Parameters: color '#rrggbb'; share of it, the rest white.
    """
    parts = (int(color[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(255 - share * (255 - part)):02x}" for part in parts)


def ground() -> dict[str, Any]:
    """White behind letters, for names that lie on lines or dots; the letters stay text."""
    return {
        "boxstyle": "square,pad=0.05",
        "facecolor": "white",
        "edgecolor": "none",
        "alpha": 0.75,
    }


def plot_path(text: str | Path, overwrite: bool = False) -> Path:
    """The file to draw to, before anything is computed.

    Raises: InputError where its name does not end in one of SUFFIXES; as
    woodref.files.check_target.
    """
    path = Path(text)
    if path.suffix.lower() not in SUFFIXES:
        ends = f"ends in '{path.suffix}'" if path.suffix else "has no ending"
        raise InputError(f"{path}: a chart is .svg or .png, and this name {ends}")
    check_target(path, overwrite)
    return path


def description_of(figure: Figure) -> str:
    """What a figure shows, for those who do not see it: its finding first, then what it holds for.

    Its axes and its note follow.
    """
    told = [figure.get_suptitle()]
    for axes in figure.axes:
        across, up = axes.get_xlabel(), axes.get_ylabel()
        told += [axes.get_title(loc="left"), f"across: {across}" if across else ""]
        told.append(f"up: {up}" if up else "")
    parts = (" ".join(x.split()).rstrip(".") for x in (*told, figure.get_supxlabel()))
    return ". ".join(dict.fromkeys(p for p in parts if p))


def _saved(figure: Figure, kind: str, scale: int, named: dict[str, Any]) -> bytes:
    """The figure as a file: the same bytes for the same figure, no date and no version in it."""
    out = BytesIO()
    title = " ".join(figure.get_suptitle().split())
    with style():
        figure.savefig(
            out,
            format=kind,
            dpi=PIXELS_PER_INCH * scale,
            metadata={**named, **({"Title": title} if title else {})},
        )
    return out.getvalue()


#: Places on a sheet in an SVG, and what of a number is finer than a hundredth of a point.
_PLACES = re.compile(r'(?<= )(?:d|x|y|x1|y1|x2|y2)="[^"]*"')
_FINER = re.compile(r"(?<=\.[0-9]{2})[0-9]+")


@contextmanager
def _laid_out(figure: Figure) -> Iterator[None]:
    """The figure with everything in the place it has in an SVG.

    To lay it out while it is written, matplotlib draws all of it twice.
    """
    from matplotlib.backends.backend_svg import FigureCanvasSVG

    canvas, layout_engine = figure.canvas, figure.get_layout_engine()
    try:
        with style():
            if layout_engine is not None:
                FigureCanvasSVG(figure)
                layout_engine.execute(figure)
                figure.set_layout_engine(None)
        yield
    finally:
        figure.set_canvas(canvas)
        figure.set_layout_engine(layout_engine)


def svg_text(figure: Figure) -> str:
    """The figure as the text of an SVG file, the same for the same figure.

    It begins with its title and a description, which a browser reads out.
    """
    with _laid_out(figure):
        text = _saved(figure, "svg", 1, {"Creator": "woodref", "Date": None}).decode("utf-8")
    described = f"<desc>{escape(description_of(figure))}</desc>"
    text = text.replace("</title>", f"</title>\n {described}", 1)
    text = printable(text, "\n\N{NO-BREAK SPACE}")
    text = _PLACES.sub(lambda place: _FINER.sub("", place[0]), text)
    return text.replace(_FONT, _FONTS)


def png_bytes(figure: Figure) -> bytes:
    """The figure as a PNG file, for a notebook or a page, the same for the same figure."""
    return _saved(figure, "png", PNG_SCALE, {"Software": "woodref"})


def save(figure: Figure, path: str | Path, overwrite: bool = False) -> Path:
    """Write a figure as .svg or .png, by the ending of its name.

    Parameters: figure; path; overwrite, whether a file of that name is replaced.
    Returns: the path.
    Raises: InputError as plot_path; WoodrefError where the system refuses to write.
    """
    checked = plot_path(path, overwrite)
    svg = checked.suffix.lower() == ".svg"
    data = svg_text(figure).encode("utf-8") if svg else png_bytes(figure)
    write_bytes(checked, data, overwrite)
    return checked
