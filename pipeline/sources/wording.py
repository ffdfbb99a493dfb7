"""Cautions as plain English sentences of our own, made from the recorded cells."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from woodref.reference.bases import UNCHECKED, in_words

CHECK = "check the current listing"

#: Recorded effect -> what it means to a maker. The first pattern that fits counts.
_EFFECTS: tuple[tuple[str, str], ...] = (
    (
        r"^carcinogen \(as hardwood dust\)$",
        "is on the list of hardwoods whose dust can cause cancer of the nose and sinuses",
    ),
    (r"^carcinogen \((.*)\)$", r"can cause cancer (\1)"),
    (r"^carcinogen$", "can cause cancer"),
    (r"^nasopharyngeal cancer$", "is linked to cancer of the nose and throat"),
    (
        r"^unspecified \(.*\)$",
        "is named among woods with effects on health; which effect is not said",
    ),
    (r"^direct toxin$", "is poisonous"),
    (r"^possible sensitizer(.*)$", r"may cause allergy\1"),
    (r"^sensitizer(.*)$", r"can cause allergy\1"),
    (r"^(.*) sensitizer(.*)$", r"can cause allergy (\1)\2"),
    (r"^irritant(.*)$", r"irritates\1"),
    (r"^possible irritant$", "may irritate"),
    (r"^asthma-causing agent$", "can cause asthma"),
    (r"^pneumonitis or alveolitis$", "can inflame the lungs"),
    (r"^extrinsic allergic alveolitis$", "can cause allergic inflammation of the lungs"),
    (r"^splinters (.*)$", r"splinters \1"),
    (r"^exposure limit$", "has an exposure limit"),
    (r"^(.*)$", r"\1 reported"),
)
_REPORTED = " reported"
#: Severities that say only that there is none.
_NO_SEVERITY = re.compile(
    r"listed in Table 2|implicated with effects|symptoms listed, no grade|on the list of hardwoods"
)
_LEAVES = "from leaves or bark, not wood"


def _american(text: str) -> str:
    """US spelling of recorded words."""
    return text.replace("sensitis", "sensitiz")


def effect_phrase(effect: str) -> str:
    """One recorded effect in plain words: 'irritant (skin)' is 'irritates (skin)'."""
    for pattern, words in _EFFECTS:
        match = re.match(pattern, effect)
        if match:
            return match.expand(words)
    return effect


def _effects(effect: str) -> str:
    """All effects of a cell in plain words, the places they act on behind them."""
    # a semicolon within parentheses belongs to its effect
    parts = [p.strip() for p in re.split(r";(?![^()]*\))", effect)]
    sites = [p.removeprefix("sites: ") for p in parts if p.startswith("sites: ")]
    phrases = [
        effect_phrase(p) for p in parts if p and not p.startswith("sites: ") and p != _LEAVES
    ]
    told = [p for p in dict.fromkeys(phrases) if not p.endswith(_REPORTED)]
    reported = [p.removesuffix(_REPORTED) for p in dict.fromkeys(phrases) if p.endswith(_REPORTED)]
    if reported:
        told.append(f"{', '.join(reported)}{_REPORTED}")
    text = ", ".join(told)
    return f"{text} ({', '.join(sites)})" if sites else text


def dust_text(row: Mapping[str, Any]) -> str:
    """The caution of one row of hazards.csv as a sentence that names its document.

    Parameters: row with name, effect, severity, source and basis.
    """
    name = row["name"][:1].upper() + row["name"][1:]
    severity = row["severity"].replace("no potency printed; ", "").replace("(scale + to", "(of")
    said = "" if not severity or _NO_SEVERITY.search(severity) else f"; {severity}"
    effects = _effects(row["effect"])
    if _LEAVES in row["effect"]:
        sentence = f"{name}: {effects}, from its leaves or bark, not from the wood or its dust"
    else:
        sentence = f"{name}: {effects}"
    by = "recalled, not seen in print, from" if row["basis"] == UNCHECKED else "according to"
    return _american(f"{sentence}{said}; {by} {row['source']}.")


def trade_text(
    row: Mapping[str, Any],
    listing: str,
    population: str = "",
    not_from: str = "",
    sold_as: str = "",
) -> str:
    """The caution of one row of trade_regulation.csv; ends with the advice to check.

    Parameters: row of the file; listing, its name; population, the populations it is
    limited to; not_from, the recorded origin of a wood that lies outside of them; sold_as,
    the wood that is sold from this and other species.
    """
    annotation = f", {row['annotation']}" if row["annotation"] else ""
    limited = f", {population} only" if population else ""
    products = (row["products_covered"] or "not recorded").replace(";", ",")
    furniture = row["finished_furniture_covered"] or "not recorded"
    effective = f"in force since {row['effective']}" if row["effective"] else "date not recorded"
    recalled = row["basis"] == UNCHECKED
    known = "recalled, not seen in print" if recalled else in_words(row["basis"])
    member = f" One of the species sold as {sold_as}." if sold_as else ""
    outside = (
        f" The origin recorded for this wood ({not_from}) lies outside the listed populations."
        if not_from
        else ""
    )
    return (
        f"{row['botanical']}: {listing}{annotation}{limited}. Covers {products}; finished "
        f"furniture: {furniture}; {effective}. Source: {row['source']} ({known}).{member}{outside} "
        f"Rules change: {CHECK}"
    )
