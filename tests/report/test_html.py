"""The page of a piece: what stands on it, for whom, and that no word becomes more than a word."""

import re
from dataclasses import replace
from datetime import date

import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from page_kit import Page
from pieces import NAMES, NASTY, demo, named

from woodref.answers.shop_words import change_text, size_text
from woodref.errors import InputError, NoDataError
from woodref.piece.maker_table import Maker
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
    assert tags.isdisjoint({"script", "iframe", "object", "embed", "form", "base", "image"})
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
    assert {a.get("scope") for a in page.of("th")} <= {"col", "row"}
    ids = [a["id"] for _, a in page.attributes if "id" in a]
    assert len(ids) == len(set(ids))
    for svg in page.of("svg"):
        assert svg.get("aria-hidden") == "true" or (svg["role"] == "img" and svg["aria-label"])
    for box in page.of("div"):
        if box.get("class") == "wide":
            assert (box["role"], box["tabindex"]) == ("region", "0")
            assert box["aria-label"]


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


def seen(name, who="client", units="us", **asked):
    """The page of a demo piece, read back."""
    return Page(report_html(demo(name), who, units, **asked))


@pytest.mark.parametrize("name", NAMES)
def test_the_client_reads_no_cost_no_size_of_a_joint_and_no_word_of_the_workshop(name):
    found, text = demo(name), seen(name).text
    assert f"{found.cost.expected:,.2f}" not in text
    for word in ("To buy", "Joinery", "PPQ", "Lacey", "cancer", "[memory]", "[unchecked]", "dust"):
        assert word not in text
    for heading in ("Woods", "Through the year", "Care"):
        assert heading in text
    assert "structural design value" in text


@pytest.mark.parametrize("name", NAMES)
def test_care_is_four_lines(name):
    care = report_html(demo(name)).partition("<h2>Care</h2>")[2].partition("</ul>")[0]
    heads = re.findall(r"<li><b>([^<]+)</b>", care)
    assert heads == ["Air.", "Heat and sun.", "Damp.", "Lifting."]


@pytest.mark.parametrize("name", NAMES)
def test_the_client_reads_one_movement_and_the_size_of_the_piece_itself(name):
    estimate = demo(name)
    text, units = seen(name, units=estimate.piece.units).text, estimate.piece.units
    part, move = estimate.leading
    figure = change_text(move.likely_change_mm.expected, units)
    sentence = text.partition("Through the year")[2].partition("Care")[0]
    assert part.part.name in sentence
    assert sentence.count(figure) == 1
    assert re.findall(r"changes its width by ([^*]+?)\*? over", sentence) == [figure]
    size = " ".join(f"{size_text(mm, units)}" for mm in estimate.piece.size_mm)
    told = re.search(r"Size (.+?) long ?, (.+?) deep ?, (.+?) high", text)
    assert " ".join(told.groups()) == size
    if estimate.crate:
        assert size_text(estimate.crate.size_mm[0], units) not in text


def test_the_size_as_packed_is_no_size_of_the_piece():
    # The trestle table is shipped flat, 240 mm high; it stands 740 mm high.
    text = seen("trestle-table", units="si").text
    assert "740 mm high" in text
    assert "240 mm" not in text


def test_the_client_is_given_one_price_and_only_where_it_is_asked_for():
    told = demo("sideboard").quote
    plain, priced = seen("sideboard").text, seen("sideboard", price=True).text
    total = f"{told.total:,.2f} USD"
    assert total not in plain
    assert priced.count(total) == 1
    assert f"deposit {told.deposit:,.2f} USD" in priced
    assert "March 31, 2025" in priced
    lines = [f"{line.amount:,.2f}" for line in told.lines]
    assert [x for x in lines if x in priced] == []


def test_the_shop_reads_every_line_of_the_quote():
    told = demo("sideboard").quote
    text = seen("sideboard", "shop").text
    assert all(f"{line.amount:,.2f}" in text for line in told.lines)
    assert f"{told.total:,.2f}" in text
    hidden = seen("sideboard", "shop", costs=False).text
    assert f"{told.total:,.2f}" not in hidden


def test_a_price_that_leaves_something_out_is_none():
    estimate = demo("sideboard")
    with pytest.raises(InputError, match=r"needs a table \[quote\]"):
        report_html(demo("hall-bench"), price=True)
    left = replace(estimate, unpriced=("hinge: no price",))
    with pytest.raises(NoDataError, match="hinge"):
        report_html(left, price=True)


@pytest.mark.parametrize("name", NAMES)
def test_the_shop_sees_every_part_size_and_cost(name):
    found = demo(name)
    text = seen(name, "shop", found.piece.units).text
    for heading in ("Cut list", "To buy", "Cautions"):
        assert heading in text
    for p in found.parts:
        assert p.part.name in text
    for r in found.fixings:
        for need in r.fixing.needs if r.fixing else ():
            assert need.what in text
    hidden = seen(name, "shop", costs=False).text
    assert "not priced because" not in hidden
    lines = [f"{line.cost.expected:,.2f}" for line in (*found.lumber, *found.sheets) if line.cost]
    assert lines
    assert [x for x in lines if x in hidden] == []
    assert "Dust." in text


@pytest.mark.parametrize(
    ("name", "attention"),
    [
        ("sideboard", ["32 of 44 blanks", "leg 2 of 4", "too wet"]),
        ("trestle-table", ["Batten glued on instead (top): too long"]),
        ("hall-bench", []),
    ],
)
def test_what_needs_attention_stands_before_the_cut_list(name, attention):
    lead = seen(name, "shop").text.partition("Cut list")[0]
    assert ("Look at first" in lead) == bool(attention)
    assert ("Checked and ok" in lead) != bool(attention)
    assert [x for x in attention if x not in lead] == []


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("who", ["client", "shop"])
def test_sources_and_assumptions_stand_on_a_page_of_their_own_where_asked(name, who):
    found = demo(name)
    plain, whole = seen(name, who).text, seen(name, who, sources=True).text
    for assumed in found.assumptions:
        said = " ".join(assumed.said("us")[1:].split())
        assert said in whole
        assert said not in plain
    for _, value in found.figures:
        assert value.source in whole
    for notice in found.notices if who == "shop" else ():
        assert cleaned(notice.said("us")).strip()[1:] in whole


def test_what_was_recalled_is_marked_and_the_mark_is_told():
    text = seen("sideboard").text
    assert re.search(r"115 lb\* \(\d+ to \d+\)", text)  # a shelf of glass of a usual density
    assert "* rests on a recalled figure" in text
    assert "~ estimated, second-hand or common practice" in text
    assert "*" not in Page(report_html(named([*PLAIN]), "shop")).text


def test_units_are_those_asked_for():
    us, si = (seen("hall-bench", who, units) for units in ("us", "si") for who in ("shop",))
    assert "14-1/2 in" in us.text
    assert "368.3 mm" in si.text
    metric = seen("hall-bench", "client", "si").text.replace("birch plywood, 1/2 in", "")
    assert not re.search(r"\d in\b", metric)
    assert not re.search(r"\d mm\b", seen("hall-bench", "client", "us").text)


@pytest.mark.parametrize(("units", "printed"), [("us", "1,320 lbf"), ("si", "5,900 N")])
def test_the_printed_hardness_of_the_units_is_shown(units, printed):
    # White ash, Wood Handbook FPL-GTR-190 (2010), Tables 5-3a and 5-3b: 5,900 N, 1,320 lbf.
    assert printed in seen("hall-bench", "shop", units, sources=True).text


def test_the_picture_says_what_it_shows():
    for name, said in (("sideboard", "narrowest about February"), ("hall-bench", "over the year.")):
        labels = [svg["aria-label"] for svg in seen(name).of("svg")]
        assert any(said in label for label in labels)
    assert "Outside to scale: 60 in long" in seen("sideboard").of("svg")[0]["aria-label"]


def test_a_piece_without_a_size_shows_its_largest_part():
    bare = replace(demo("hall-bench"), piece=replace(demo("hall-bench").piece, size_mm=None))
    page = Page(report_html(bare))
    assert "Largest part, to scale: seat" in page.text
    assert "seat to scale: 50 in long, 14-1/2 in wide" in page.of("svg")[0]["aria-label"]


def test_outlines_are_to_scale():
    # The sideboard is 60 in long and 34-7/8 in high.
    page = report_html(demo("sideboard"))
    front = re.search(r'class="wood"[^>]*width="([\d.]+)" height="([\d.]+)"', page)
    assert float(front[1]) / float(front[2]) == pytest.approx(60 / 34.875, rel=1e-3)


def test_a_joint_that_does_not_hold_is_not_called_good_on_the_page():
    good, bad = (seen(n).text for n in ("sideboard", "trestle-table"))
    assert "leave the wood room" in good
    assert "leave the wood room" not in bad


def test_the_maker_of_the_piece_goes_before_that_of_the_configuration(tmp_path):
    logo = tmp_path / "mark.svg"
    logo.write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    maker = Maker("Another <shop>", "Elsewhere", logo)
    other = seen("hall-bench", maker=maker, day=date(2026, 1, 31))
    assert "Another <shop> Elsewhere January 31, 2026" in other.text
    assert other.of("img")[0]["src"].startswith("data:image/svg+xml;base64,")
    own = seen("sideboard", maker=maker).text
    assert "Planing Mill Row Furniture (invented)" in own
    assert "Another" not in own
    assert seen("hall-bench", units="si", day=date(2026, 1, 31)).text.count("31 January 2026") == 1


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("none.svg", None, "there is no such logo"),
        ("mark.png", b"no picture", "neither a PNG nor an SVG"),
        ("mark.svg", b"x" * 600_000, "is larger than 0.5 MB, not a logo"),
        ("mark.gif", b"GIF89a", "neither a PNG nor an SVG"),
    ],
)
def test_a_logo_that_is_no_picture_is_an_error_that_names_it(tmp_path, name, data, said):
    path = tmp_path / name
    if data is not None:
        path.write_bytes(data)
    with pytest.raises(InputError, match=said) as caught:
        report_html(demo("hall-bench"), maker=Maker("a shop", logo=path))
    assert name in str(caught.value)


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
    nasty, plain = (Page(report_html(named(w), who, sources=True)) for w in (words, PLAIN))
    assert nasty.problems == []
    assert nasty.tags == plain.tags
    for word in words[:8] if who == "shop" else words[:5]:
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
    page, other = (Page(report_html(f, who, sources=True)) for f in (found, plain))
    assert page.problems == []
    assert page.tags == other.tags
    text = page.text
    for i in (0, 2, 3, 4, *([7] if who == "shop" else [])):
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
    for name in ("ink", "quiet", "wood", "warn"):
        assert (below + 0.05) / (_luminance(colors[name]) + 0.05) >= 4.5


def test_nothing_is_as_wide_as_a_fixed_number_of_pixels():
    style = (files("woodref") / "templates" / "report.css").read_text(encoding="utf-8")
    assert re.findall(r"[^-]width:[^;]*\dpx", style) == []
    assert "@page" in style
