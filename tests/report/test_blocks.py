"""The blocks of a page: what is unchecked is marked there too."""

import pytest
from pieces import demo

from woodref.reference.bases import CHECKED, COMMON_PRACTICE, UNCHECKED
from woodref.reference.cautions import Notice
from woodref.report.blocks import notice_lines
from woodref.report.view import View


@pytest.mark.parametrize(
    ("basis", "mark"), [(UNCHECKED, "*"), (COMMON_PRACTICE, "~"), (CHECKED, "")]
)
def test_a_caution_carries_its_mark_and_the_page_says_what_that_means(basis, mark):
    view = View(demo("hall-bench"), "shop", "us")
    (line,) = notice_lines(view, [Notice("dust", "Sand outdoors.", ("a document",), basis)])
    assert str(line) == f"<b>Dust.</b> Sand outdoors.{mark}"
    assert view.legend.startswith(mark)
    assert bool(view.legend) == bool(mark)


def test_documents_are_named_where_sources_are_asked_for():
    view = View(demo("hall-bench"), "shop", "us", sources=True)
    (line,) = notice_lines(view, [Notice("dust", "Sand outdoors.", ("a document",), CHECKED)])
    assert "a document" in line
