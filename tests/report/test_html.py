"""The page of a piece: what stands on it, for whom, and that no word becomes more than a word."""

import re

import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from page_kit import Page
from pieces import NAMES, NASTY, demo, named

from woodref.errors import InputError
from woodref.report import report_html
from woodref.report.html import files
from woodref.report.markup import Markup, cleaned, element, escaped

PAGES = [
    (name, who, units) for name in NAMES for who in ("client", "shop") for units in ("us", "si")
]
PLAIN = tuple(f"plain {i}" for i in range(len(NASTY)))


@pytest.fixture(params=PAGES, ids="-".join)
def page(request):
    name, who, units = request.param
    return Page(report_html(demo(name), who, units))


def test_a_page_is_whole_and_needs_nothing_else(page):
    assert page.problems == []
    tags = {tag for tag, _ in page.tags}
    assert tags.isdisjoint({"script", "iframe", "img", "object", "embed", "form", "base", "image"})
    handlers = [a for _, names in page.tags for a in names if a.startswith("on")]
    assert handlers == []
    links = [a[k] for _, a in page.attributes for k in ("href", "src", "xlink:href") if k in a]
    assert links
    assert [x for x in links if not x.startswith(("#", "data:"))] == []
    assert page.comments == []


def test_a_page_can_be_read_aloud(page):
    assert page.of("html")[0]["lang"] == "en"
    assert page.headings[0] == 1
    assert page.headings.count(1) == 1
    assert all(b - a <= 1 for a, b in zip(page.headings, page.headings[1:], strict=False))
    assert {a.get("scope") for a in page.of("th")} == {"col", "row"}
    ids = [a["id"] for _, a in page.attributes if "id" in a]
    assert len(ids) == len(set(ids))
    for svg in page.of("svg"):
        told = svg.get("aria-labelledby", "").split()
        assert svg.get("aria-hidden") == "true" or (svg["role"] == "img" and told)
        assert set(told) <= set(ids)


def test_what_is_referred_to_is_there(page):
    ids = {a["id"] for _, a in page.attributes if "id" in a}
    used = {m for _, a in page.attributes for v in a.values() if v for m in _refs(v)}
    assert used <= ids


def _refs(value):
    found = re.findall(r"^#([\w-]+)$|url\(#([\w-]+)\)", value)
    return [one or two for one, two in found]


@pytest.mark.parametrize("name", NAMES)
def test_a_page_is_the_same_for_the_same_piece(name):
    assert report_html(demo(name), "shop", "si") == report_html(demo(name), "shop", "si")


@pytest.mark.parametrize("name", NAMES)
def test_the_client_sees_neither_costs_nor_sizes_unless_asked(name):
    found = demo(name)
    plain, priced = (Page(report_html(found, "client", costs=c)).text for c in (None, True))
    total = f"{found.cost.expected:,.2f}"
    assert total not in plain
    assert total in priced
    assert "To buy" not in priced
    whole = report_html(found, "client", sizes=True)
    assert "Sizes to make" not in plain
    assert ("Sizes to make" in whole) == any(r.fixing and r.fixing.needs for r in found.fixings)


@pytest.mark.parametrize("name", NAMES)
def test_the_shop_sees_every_part_size_and_cost(name):
    found = demo(name)
    text = Page(report_html(found, "shop", found.piece.units)).text
    for heading in ("Cut list", "To buy", "Woods", "Cautions", "Assumptions and sources"):
        assert heading in text
    for p in found.parts:
        assert p.part.name in text
    for r in found.fixings:
        for need in r.fixing.needs if r.fixing else ():
            assert need.what in text
    assert f"{found.cost.expected:,.2f}" in text
    hidden = Page(report_html(found, "shop", costs=False)).text
    assert f"{found.cost.expected:,.2f}" not in hidden
    assert "not priced because" not in hidden
    lines = [f"{line.cost.expected:,.2f}" for line in (*found.lumber, *found.sheets) if line.cost]
    assert lines
    assert [x for x in lines if x in hidden] == []


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("who", ["client", "shop"])
def test_cautions_assumptions_and_sources_stand_on_both_pages(name, who):
    found = demo(name)
    text = Page(report_html(found, who)).text
    shop_alone = {"tools", "sheet goods"}
    for notice in found.notices:
        there = cleaned(notice.text).strip() in text
        assert there == (who == "shop" or notice.kind not in shop_alone)
    for assumed in found.assumptions:
        assert " ".join(assumed.text[1:].split()) in text
    for wood, value in found.figures:
        assert wood.botanical_name in text
        assert value.source in text
    assert "structural design value" in text


def test_what_was_recalled_is_marked_to_the_end():
    found = named([*PLAIN])
    value = next(v for _, v in found.figures)
    assert "[unchecked]" in Page(report_html(demo("sideboard"), "client")).text
    assert value.basis in Page(report_html(found, "shop")).text


def test_units_are_those_asked_for():
    found = demo("hall-bench")
    us, si = (Page(report_html(found, "shop", units)).text for units in ("us", "si"))
    assert "14-1/2 in" in us
    assert "368.3 mm" in si
    # Hardness is told, and its source quoted, as printed in newtons.
    assert " lb" not in si.replace("51 lb", "").replace("lb/ft3", "")
    woods = {p.wood.common_name: p.wood for p in found.parts if p.wood}
    quoted = [w.value("side_hardness").in_units("si").printed for w in woods.values()]
    assert {printed.partition(" ")[2] for printed in quoted} == {"N"}
    assert all(printed in si for printed in quoted)


@pytest.mark.parametrize(("units", "printed"), [("us", "1,320 lbf"), ("si", "5,900 N")])
def test_the_printed_hardness_of_the_units_is_shown(units, printed):
    # White ash, Wood Handbook FPL-GTR-190 (2010), Tables 5-3a and 5-3b: 5,900 N, 1,320 lbf.
    assert printed in Page(report_html(demo("hall-bench"), "client", units)).text


def test_the_year_is_drawn_where_there_is_a_room_and_told_in_a_table_elsewhere():
    with_room, without = (report_html(demo(n), "client") for n in ("sideboard", "hall-bench"))
    assert 'aria-labelledby="year-title year-desc"' in with_room
    assert "room of the fixing" not in Page(with_room).text  # its letters are shapes
    assert "buttons under the top let it move" in Page(with_room).text
    assert "year-title" not in without
    assert 'class="bar"' in without


def test_a_joint_that_does_not_hold_is_not_called_good_on_the_page():
    good, bad = (Page(report_html(demo(n), "client")).text for n in ("sideboard", "trestle-table"))
    assert "leave the wood room" in good
    assert "leave the wood room" not in bad
    assert "too long" in Page(report_html(demo("trestle-table"), "shop")).text


@pytest.mark.parametrize(
    ("who", "units", "said"),
    [("cleint", "us", "did you mean 'client'"), ("shop", "metric", "a unit is us or si")],
)
def test_another_reader_or_unit_is_an_error_of_one_line(who, units, said):
    with pytest.raises(InputError, match=re.escape(said)) as caught:
        report_html(demo("hall-bench"), who, units)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("who", ["client", "shop"])
def test_words_that_look_like_markup_stay_words(who):
    words = [f"{i} {w}" for i, w in enumerate(NASTY)]
    nasty, plain = (
        Page(report_html(named(w), who, costs=True, sizes=True)) for w in (words, PLAIN)
    )
    assert nasty.problems == []
    assert nasty.tags == plain.tags
    for word in words[:8]:
        assert " ".join(cleaned(word).split()) in nasty.text


LETTERS = st.text(
    st.one_of(
        st.sampled_from(
            "<>&\"'/=;:-!#[]{}()%$`\\ \t\n\x00\x0b\x1f\x7f\x9f\u202e\u2066\u200f\ufdd0"
        ),
        st.characters(exclude_categories=["Cs"]),
    ),
    max_size=12,
)


@FEW
@given(
    st.lists(LETTERS, min_size=len(PLAIN), max_size=len(PLAIN)), st.sampled_from(["client", "shop"])
)
def test_no_word_of_a_piece_changes_what_a_page_is_made_of(words, who):
    told = [f"w{i} {w} e" for i, w in enumerate(words)]
    found, plain = (named(w, room=False) for w in (told, PLAIN))
    page, other = (Page(report_html(f, who, costs=True, sizes=True)) for f in (found, plain))
    assert page.problems == []
    assert page.tags == other.tags
    text = page.text
    for i in (0, 2, 3, 4, 7):
        assert " ".join(cleaned(told[i]).split()) in text


@given(st.text())
def test_text_in_an_element_is_read_back_as_it_was(text):
    page = Page(element("p", text, title=text))
    assert [tag for tag, _ in page.tags] == ["p"]
    assert "".join(page.texts) == cleaned(text)
    assert page.of("p")[0].get("title", "") == cleaned(text)
    assert escaped(escaped(text)) == escaped(text)


def test_markup_is_not_escaped_twice_and_text_never_taken_for_it():
    inner = element("b", "a & b")
    assert element("p", inner, " < c") == "<p><b>a &amp; b</b> &lt; c</p>"
    assert isinstance(inner, Markup)
    assert not isinstance(inner + "<i>", Markup)


def _luminance(color):
    parts = [int(color[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    linear = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ground", ["#ffffff", "wash"])
def test_letters_stand_out_as_the_guidelines_ask(ground):
    """Contrast of text at least 4.5 : 1 (WCAG 2.2, success criterion 1.4.3, level AA)."""
    style = (files("woodref") / "templates" / "report.css").read_text(encoding="utf-8")
    colors = dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", style))
    below = _luminance(colors.get(ground, ground))
    for name in ("ink", "quiet", "wood"):
        assert (below + 0.05) / (_luminance(colors[name]) + 0.05) >= 4.5


def test_nothing_is_as_wide_as_a_fixed_number_of_pixels():
    style = (files("woodref") / "templates" / "report.css").read_text(encoding="utf-8")
    assert re.findall(r"width:[^;]*px", style) == []
    assert "@page" in style


def test_the_cartons_of_a_piece_stand_on_its_pages_and_a_still_room_has_no_months():
    for who in ("client", "shop"):
        text = Page(report_html(demo("drawer-chest"), who)).text
        assert "three drawers" in text
        assert "expected at about 20-1/8 in all year" in text
        assert "narrowest in" not in text.partition("Through the year")[2].partition("Woods")[0]
