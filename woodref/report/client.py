"""The page a maker gives to the client: what the piece is, what it weighs, how to live with it."""

from __future__ import annotations

from collections.abc import Iterator

from woodref.answers.piece_extras import NEVER
from woodref.report.blocks import (
    block,
    cautions_block,
    cost,
    fixings_block,
    outside,
    sources_block,
    weight,
    weight_block,
    woods_block,
    year_block,
)
from woodref.report.care import care_lines, span_words
from woodref.report.markup import Markup, bullets, element, joined, name
from woodref.report.tables import facts
from woodref.report.view import View
from woodref.units import KINDS

#: Cautions that are for the shop alone.
_SHOP_ONLY = frozenset({"tools", "sheet goods"})


def summary(view: View) -> Markup:
    """The piece at a glance."""
    estimate = view.estimate
    woods = joined((name(w.common_name) for w in view.woods), ", ")
    settled = estimate.mass_kg["settled"].expected
    return facts(
        [
            ("Woods", woods),
            ("Outside", outside(view)),
            ("Weight", weight(view)),
            (
                "Once settled in its room",
                f"about {KINDS['mass'].text(settled, view.units)}" if settled else "",
            ),
            ("Finish", estimate.finish.finish.label if estimate.finish else ""),
            ("Materials", cost(view) if view.costs else ""),
        ]
    )


def care_block(view: View) -> Markup:
    """How to live with the piece."""
    spans = span_words(view.estimate, view.units)
    return block(
        "Care",
        bullets(care_lines(view.estimate, view.units)),
        element("h3", "What it carries") if spans else "",
        bullets(spans),
        element("p", NEVER, class_="note") if spans else "",
    )


def client_blocks(view: View) -> Iterator[Markup]:
    """The blocks of the page, in order."""
    yield summary(view)
    yield care_block(view)
    yield year_block(view, table_too=False)
    yield woods_block(view)
    if view.sizes:
        yield fixings_block(view)
    yield weight_block(view)
    notices = [n for n in view.estimate.notices if n.kind not in _SHOP_ONLY]
    dust = [n for n in notices if n.kind == "dust"]
    yield cautions_block([n for n in notices if n not in dust], dust)
    yield sources_block(view)
