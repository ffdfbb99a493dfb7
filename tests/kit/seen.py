"""What is seen of a figure: its texts, where they stand, and whether one lies on another."""

from itertools import combinations
from unittest.mock import patch

from matplotlib.text import Annotation, Text

#: Boxes of text hold a little air; so much may be shared before letters touch [px].
TOUCH_PX = 1.0


def texts(figure):
    """(text, box) of every text that is drawn, in pixels."""
    drawn = {}

    def draw(artist, renderer, *args, **kwargs):
        if artist.get_visible() and artist.get_text().strip():
            if isinstance(artist, Annotation):
                artist.update_positions(renderer)
            drawn[artist] = Text.get_window_extent(artist, renderer)

    with patch.object(Text, "draw", draw), patch.object(Annotation, "draw", draw):
        figure.draw_without_rendering()
    return [(artist.get_text(), box) for artist, box in drawn.items()]


def words(figure):
    """Every text that is seen."""
    return [text for text, _ in texts(figure)]


def overlaps(seen):
    """Pairs of texts that lie on one another."""
    return [
        (one, two)
        for (one, a), (two, b) in combinations(seen, 2)
        if min(a.x1, b.x1) - max(a.x0, b.x0) > TOUCH_PX
        and min(a.y1, b.y1) - max(a.y0, b.y0) > TOUCH_PX
    ]


def outside(figure, seen):
    """Texts that run off the picture."""
    width, height = figure.get_size_inches() * figure.dpi
    return [
        text
        for text, box in seen
        if box.x0 < -TOUCH_PX
        or box.y0 < -TOUCH_PX
        or box.x1 > width + TOUCH_PX
        or box.y1 > height + TOUCH_PX
    ]


def assert_readable(figure):
    """Every axes that is seen has labels, no text lies on another, none runs off the picture.

    Returns: every text that is seen.
    """
    seen = texts(figure)
    laid_over, lost = overlaps(seen), outside(figure, seen)
    assert not laid_over, laid_over
    assert not lost, lost
    for axes in (a for a in figure.axes if a.axison):
        assert axes.get_xlabel()
        assert axes.get_ylabel() or axes.get_yticklabels()
    return [text for text, _ in seen]
