"""The first screen of rank: the order, what makes it, and the first three in words."""

from __future__ import annotations

from string import ascii_lowercase
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.choice_words import allergy_line, strengths, words_of
from woodref.answers.property_text import marks_of
from woodref.answers.provenance import sentence
from woodref.answers.render import SCREEN_WIDTH
from woodref.answers.shop_words import legend
from woodref.answers.uses import shop_text, short_text
from woodref.choose.columns import price_column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.answers.choice_questions import Asked
    from woodref.choose.rank import Contribution, RankedWood, Ranking
    from woodref.choose.scoring import Scale

#: Woods of the table, criteria of it with a column of their own, woods told in words.
_ROWS, _COLUMNS, _TOLD = 7, 3, 3
#: Longest and shortest bar of a score of 100 [characters].
_BAR, _SHORTEST = 20, 8
_USUAL = ("density_kg_m3", "modulus_of_elasticity_mpa")
_PRICES = ("price_per_board_foot", "price_per_m3")


def _told_first(scale: Scale) -> tuple[float, bool]:
    """What counts most before the rest; of what counts alike, weight and stiffness first."""
    return -scale.share, scale.criterion.column.name not in _USUAL


def letters_of(scales: Sequence[Scale]) -> tuple[str, ...]:
    """A letter for each criterion: the first of its head that is free, else of the alphabet."""
    taken: list[str] = []
    for scale in scales:
        head = words_of(scale.criterion.column).head
        wanted = [*(x for x in head if x.isalpha()), *ascii_lowercase]
        taken.append(next(x for x in wanted if x not in taken))
    return tuple(taken)


def bar_of(contributions: Sequence[Contribution], letters: Sequence[str], longest: int) -> str:
    """A score as a bar of the letters of its criteria, each as long as its points."""
    text, points = "", 0.0
    for letter, c in zip(letters, contributions, strict=True):
        points += c.points
        text += letter * (round(points * longest / 100.0) - len(text))
    return text


def _cell(w: RankedWood, c: Contribution, asked: Asked, units: str) -> str:
    column = c.scale.criterion.column
    value = asked.figure(w, c, units)
    # A share and a class have a legend of their own in the whole; sizes keep their unit here.
    text = (short_text if column.classes else shop_text)(column, value, units)
    return f"{text.strip()}{marks_of(c.marked)}" if text else "?"


def _table(
    ranking: Ranking,
    shown: Sequence[RankedWood],
    letters: Sequence[str],
    asked: Asked,
    units: str,
) -> Section:
    """The woods with the figures that count most, as many as leave the bar its room."""
    weighed = sorted(range(len(ranking.scales)), key=lambda n: _told_first(ranking.scales[n]))
    names = [s.criterion.column.name for s in ranking.scales]
    # A price takes the place of a column.
    most = _COLUMNS - 1 if asked.prices else _COLUMNS
    for count in range(most, 0, -1):
        chosen = sorted([n for n in weighed if names[n] not in _PRICES][:count])
        columns, rows = _columns(ranking, shown, chosen, asked, units)
        used = sum(
            max(len(c.head), *(len(c.text(r.get(c.key), units)) for r in rows)) + 2
            for c in columns
            if c.key != "bar"
        )
        if SCREEN_WIDTH - used - 2 >= _SHORTEST:
            break
    longest = min(_BAR, max(_SHORTEST, SCREEN_WIDTH - used - 2))
    for w, row in zip(shown, rows, strict=True):
        row["bar"] = bar_of(w.contributions, letters, longest)
    return Section("ranking", "", columns, rows)


def _columns(
    ranking: Ranking,
    shown: Sequence[RankedWood],
    chosen: Sequence[int],
    asked: Asked,
    units: str,
) -> tuple[list[Column], list[dict[str, Any]]]:
    """The columns of the table and its rows, for some of the criteria."""
    heads = {n: words_of(ranking.scales[n].criterion.column).head for n in chosen}
    several = len({w.tier for w in shown}) > 1
    columns = [
        Column("rank", "#", "count"),
        Column("wood", "wood"),
        *(Column(f"figure_{n}", heads[n]) for n in chosen),
        *([Column("price", "price")] if asked.prices else []),
        Column("score", "of 100", "count"),
        Column("bar", "made of"),
        *([Column("stock", "stock")] if several else []),
    ]
    rows: list[dict[str, Any]] = []
    for w in shown:
        cost = w.figures[price_column(units)]
        rows.append(
            {
                "rank": w.position,
                "wood": w.name,
                **{f"figure_{n}": _cell(w, w.contributions[n], asked, units) for n in chosen},
                "price": "" if cost is None else f"{cost:,.2f}",
                "score": w.score,
                "stock": "dealers" if w.stock == "specialty" and w.tier else "",
            }
        )
    return columns, rows


def rank_screen(ranking: Ranking, asked: Asked, lead: list[str], units: str) -> Answer:
    """The short form of a ranking.

    Parameters: ranking; asked; lead its first lines; units 'us' or 'si'.
    """
    letters = letters_of(ranking.scales)
    shown = ranking.woods[:_ROWS]
    table = _table(ranking, shown, letters, asked, units)
    bar = ", ".join(
        f"{letter} {words_of(s.criterion.column).head}"
        for letter, s in zip(letters, ranking.scales, strict=True)
    )
    told = [f"{sentence(w.name)}: {strengths(w.contributions)}." for w in shown[:_TOLD]]
    papers = [f"{w.name} ({w.figures['control']})" for w in shown if w.figures["control"]]
    cells = (str(v) for row in table.rows for v in row.values())
    return Answer(
        headline=lead,
        sections=[table],
        notes=[
            *told,
            *allergy_line([w.name for w in shown if w.figures["allergen"]]),
            *([f"Trade papers: {', '.join(papers)}."] if papers else []),
            " ".join([f"Bar: {bar}.", *legend(cells)]),
            "All woods, limits and sources: --full. Yours: woodref show NAME.",
        ],
    )
