"""The blocks of a page: what is unchecked says so there too."""

import pytest

from woodref.reference.bases import CHECKED, UNCHECKED
from woodref.reference.cautions import Notice
from woodref.report.blocks import notice_lines


@pytest.mark.parametrize(("basis", "marked"), [(UNCHECKED, True), (CHECKED, False)])
def test_an_unchecked_caution_says_so(basis, marked):
    (line,) = notice_lines([Notice("dust", "Sand outdoors.", (), basis)])
    assert str(line).startswith("<b>Dust.</b> Sand outdoors.")
    assert ("[unchecked]" in str(line)) == marked
