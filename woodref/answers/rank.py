"""What rank and uses answer: the order first, then what made it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.choice_questions import Asked
from woodref.answers.choice_words import gates_words, words_of
from woodref.answers.property_text import footnotes, marks_of
from woodref.answers.provenance import (
    ESTIMATED_NOTE,
    disagreeing_densities,
    sentence,
)
from woodref.answers.rank_screen import bar_of, letters_of, rank_screen
from woodref.answers.uses import (
    criteria_section,
    exact,
    filters_section,
    label_of,
    limit_text,
    short_text,
    unit_text,
)
from woodref.answers.words import percent_text, room_facts
from woodref.choose.columns import COLUMNS, price_column
from woodref.choose.scoring import SCORE_RULE
from woodref.formulas.spread import DIFFERENCE_RULE, Difference

if TYPE_CHECKING:
    from woodref.choose.filters import Filter
    from woodref.choose.rank import RankedWood, Ranking

#: Longest bar of a score of 100 [characters], and woods named in a line of missing ones.
_BAR, _NAMED = 50, 6
#: Figures a wood may lack to be listed by them; those that lack more are told together.
_LACKING, _SEVERAL = 2, "three figures or more"


_STANDINGS = {
    Difference.CLEAR: "clearly behind",
    Difference.SLIGHT: "slightly behind",
    Difference.WITHIN_SPREAD: "a tie",
    None: "a tie",
}


def _standing(wood: RankedWood) -> str:
    if wood.against_best is None:
        return "best"
    standing = _STANDINGS[wood.against_best.verdict]
    return standing.replace("behind", "ahead") if wood.is_ahead else standing


def _control(wood: RankedWood) -> str:
    return ", trade control" if wood.figures["controlled"] else ""


def _headline(ranking: Ranking, asked: Asked) -> list[str]:
    best, *others = ranking.woods
    runners = ", ".join(f"{w.name} ({w.score:.0f}{_control(w)})" for w in others[:4])
    lead = (
        f"{sentence(ranking.profile.title)}, of {gates_words(ranking.buyable, asked.kind)}: "
        f"{best.name} comes first, {best.score:.0f} of 100{_control(best)}"
    )
    lead += f"; then {runners}." if runners else ", and no other wood passes."
    return [lead, _ties_line(ranking, asked)]


def _ties_line(ranking: Ranking, asked: Asked) -> str:
    """How many pass what, and what single boards show of the first place."""
    others, ties = ranking.woods[1:], ranking.ties
    line = f"{ranking.lines} pass"
    given = [
        c.filter.text
        for c in ranking.filter_counts
        if not c.filter.why and (ranking.buyable is None or c.filter != ranking.buyable.filter)
    ]
    line += f" ({'; '.join(given)})" if given else ""
    if ties:
        names = ", ".join(w.name for w in ties[:5])
        more = f" and {len(ties) - 5} more" if len(ties) > 5 else ""
        line += f"; on single boards it is a tie with {names}{more}{_cheapest(ranking, asked)}"
    elif others:
        slight = any(w.against_best and w.against_best.verdict is Difference.SLIGHT for w in others)
        line += f"; on single boards its lead is {'slight' if slight else 'clear'}"
    return f"{line}."


def _cheapest(ranking: Ranking, asked: Asked) -> str:
    """Of the woods in a tie with the first, the one that costs least by the price list."""
    if asked.prices is None:
        return ""
    tied = [w for w in (ranking.woods[0], *ranking.ties) if w.figures["price_per_m3"] is not None]
    cheapest = min(tied, key=lambda w: float(w.figures["price_per_m3"]), default=None)
    return f", of which {cheapest.name} costs least" if cheapest else ""


def _ranking_section(ranking: Ranking, asked: Asked, units: str, people: bool) -> Section:
    """The woods in order, for people with the figures behind the letters of the criteria."""
    if not people:
        keys = ("rank", "wood", "botanical_name", "species_id", "trade_group")
        columns = [
            *(Column(k, "", "count" if k == "rank" else "") for k in keys),
            Column("sold_as", ""),
            Column("also", ""),
            Column("stock_class", ""),
            Column("score", "", "tenths"),
            Column("score_sd", "", "tenths"),
            Column("beside_best", ""),
            Column("chance_best_ahead", "", "ratio"),
            *(Column(k, "", "money") for k in ("price_per_board_foot", "price_per_m3")),
            Column("trade_control", ""),
        ]
        return Section("ranking", "", columns, [_plain_row(w) for w in ranking.woods])
    price = price_column(units)
    columns = [
        Column("rank", "#", "count"),
        Column("wood", "wood"),
        Column("score", "score", "count"),
        Column("beside_best", "beside the best"),
        Column("stock_class", "stock"),
        *(
            Column(f"figure_{c}", f"{c} {words_of(s.criterion.column).head}", "count")
            for c, s in zip(letters_of(ranking.scales), ranking.scales, strict=True)
        ),
    ]
    rows = []
    for w in ranking.woods:
        row = _plain_row(w)
        row["wood"] = w.name
        for letter, c in zip(letters_of(ranking.scales), w.contributions, strict=True):
            text = short_text(c.scale.criterion.column, asked.figure(w, c, units), units)
            row[f"figure_{letter}"] = f"{text.strip()}{marks_of(c.marked)}" if text else "?"
        rows.append(row)
    if asked.prices:
        columns.append(Column(price, "a board foot" if units == "us" else "a cubic meter", "money"))
    if any(r["trade_control"] for r in rows):
        columns.append(Column("trade_control", "trade control"))
    return Section("ranking", "", columns, rows)


def _plain_row(w: RankedWood) -> dict[str, Any]:
    return {
        "rank": w.position,
        "wood": w.common_name,
        "botanical_name": w.botanical_name,
        "species_id": w.species_id,
        "trade_group": w.trade_group,
        "sold_as": w.name,
        "also": list(w.also),
        "stock_class": w.stock or None,
        "score": w.score,
        "score_sd": w.score_sd,
        "beside_best": _standing(w),
        "chance_best_ahead": w.against_best.chance if w.against_best else None,
        "price_per_board_foot": w.figures["price_per_board_foot"],
        "price_per_m3": w.figures["price_per_m3"],
        "trade_control": w.figures["control"],
    }


def _contribution_section(
    ranking: Ranking, asked: Asked, units: str, people: bool, bars: bool
) -> Section:
    """What each criterion brings to each score, for people a line per wood."""
    if people:
        letters = letters_of(ranking.scales)
        columns = [
            Column("wood", "wood"),
            *([Column("bar", "bar")] if bars else []),
            Column("score", "score", "count"),
            *(Column(f"points_{c}", c, "count") for c in letters),
        ]
        rows = [
            {
                "wood": w.name,
                "score": w.score,
                "bar": bar_of(w.contributions, letters, _BAR),
                **{
                    f"points_{letter}": c.points
                    for letter, c in zip(letters, w.contributions, strict=True)
                },
            }
            for w in ranking.woods
        ]
        return Section("contributions", "What each score is made of", columns, rows)
    keys = (
        *("rank", "wood", "criterion", "value", "unit", "utility", "points"),
        *("known", "unchecked", "estimated"),
    )
    kinds = {"rank": "count", "utility": "ratio", "points": "tenths"}
    return Section.of(
        "contributions",
        "",
        [Column(k, "", kinds.get(k, "")) for k in keys],
        (
            (
                w.position,
                w.common_name,
                c.column,
                exact(c.scale.criterion.column, asked.figure(w, c, units), units),
                unit_text(c.scale.criterion.column, units),
                c.utility,
                c.points,
                c.value is not None,
                c.unchecked,
                c.estimated,
            )
            for w in ranking.woods
            for c in w.contributions
        ),
    )


def _limits_section(ranking: Ranking, units: str, people: bool) -> Section:
    def text_of(one: Filter) -> str:
        return limit_text(one, units) if people else one.text

    return filters_section("What a wood must pass", ranking.filter_counts, text_of)


def _lacking(name: str, units: str) -> str:
    """What a table would have to hold for a column."""
    return COLUMNS[name].lack or label_of(COLUMNS[name], units)


def _missing_section(ranking: Ranking, units: str, people: bool) -> Section:
    """Woods that could pass but lack a figure; for people by what they lack."""
    if not people:
        return Section.of(
            "unranked",
            "",
            [Column(k, "") for k in ("wood", "species_id", "missing_columns")],
            ((m.common_name, m.species_id, list(m.missing_columns)) for m in ranking.unranked),
        )
    by_figures: dict[tuple[str, ...], list[str]] = {}
    for m in ranking.unranked:
        figures = tuple(dict.fromkeys(_lacking(c, units) for c in m.missing_columns))
        if len(figures) > _LACKING:
            figures = (_SEVERAL,) * (_LACKING + 1)
        by_figures.setdefault(figures, []).append(m.common_name)
    rows = []
    for figures, names in sorted(by_figures.items(), key=lambda item: (len(item[0]), item[0])):
        more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
        rows.append(
            {
                "missing": "; ".join(dict.fromkeys(figures)) or "what the condition asks",
                "count": len(names),
                "woods": ", ".join(names[:_NAMED]) + more,
            }
        )
    return Section(
        "unranked",
        "Not ranked, as no table holds a figure",
        [Column("missing", "missing"), Column("count", "woods", "count"), Column("woods", "which")],
        rows,
    )


def _not_clearly(ranking: Ranking) -> list[str]:
    """Of woods measured by another: which do not show it on single boards."""
    notes = []
    for one in (count.filter for count in ranking.filter_counts):
        if not one.than:
            continue
        names = [w.common_name for w in ranking.woods if not one.clearly_passed(w.figures, w.sds)]
        if names:
            notes.append(
                f"By the mean {one.text}, but not clearly so on single boards: {', '.join(names)}."
            )
    return notes


def _notes(ranking: Ranking, asked: Asked) -> list[str]:
    dry, wet = ranking.seasonal_range.driest_pct, ranking.seasonal_range.wettest_pct
    year = f"between {percent_text(dry)} and {percent_text(wet)} moisture content"
    if asked.room:
        movement = f"Change of width {year}, {asked.room.label}."
    else:
        movement = (
            f"Change of width {year}, which stand for a year in a heated house (common practice, "
            "no source); name a town with --place."
        )
    notes = [
        f"{ranking.profile.purpose} Profile: {'your own, ' if ranking.profile.own else ''}"
        f"{ranking.profile.name}; its weights are a judgment of ours, common practice, no source; "
        "woodref uses shows it, and how to make your own.",
        f"{sentence(SCORE_RULE)}.",
        f"{sentence(DIFFERENCE_RULE)}; here of the score, its criteria taken as independent.",
        *_not_clearly(ranking),
        movement,
    ]
    if any(s.criterion.column.name == "density_kg_m3" for s in ranking.scales):
        notes += disagreeing_densities(asked.woods.values())
    if any(c.value is None for w in ranking.woods for c in w.contributions):
        notes.append(
            "? is not known of the wood; where the use lets it pass, it counts as middling."
        )
    notes += footnotes(marks_of(c.marked) for w in ranking.woods for c in w.contributions)
    if any(w.estimated for w in ranking.woods):
        notes.append(f"{ESTIMATED_NOTE}.")
    if asked.prices:
        money = f", {asked.prices.currency}" if asked.prices.currency else ""
        notes.append(f"Prices: {asked.prices.file}, {asked.thickness}{money}.")
    notes.append(
        f"{ranking.little_known:,} woods of which a density or less is known are left out."
        if ranking.little_known
        else "Every wood with a density is in."
    )
    notes.append(
        "Trade controls are those recorded here; rules change, so check the current listing, and "
        "an import declaration may be due for any wood. woodref show NAME has the cautions of a "
        "wood, its dust among them."
    )
    return notes


def rank_answer(ranking: Ranking, asked: Asked, units: str, people: bool, bars: bool) -> Answer:
    """The order of the woods, what each score is made of, and what stopped the others.

    Parameters: ranking; asked, what the question held; units 'us' or 'si'; people false for one
    row per fact; bars true for bars beside the points, at a terminal.
    """
    criteria = [(s.criterion, s.share, s.poor, s.good) for s in ranking.scales]
    lead = _headline(ranking, asked)
    buyable = ranking.buyable
    return Answer(
        headline=lead,
        screen=rank_screen(ranking, asked, lead[:2], units),
        facts=[
            (Column("use", ""), ranking.profile.name),
            (Column("use_title", ""), ranking.profile.title),
            (Column("bought_where", ""), buyable.place if buyable else None),
            *room_facts(asked.room),
            (Column("from_moisture", "", "percent"), ranking.seasonal_range.driest_pct),
            (Column("to_moisture", "", "percent"), ranking.seasonal_range.wettest_pct),
            (Column("price_list", ""), asked.prices.file if asked.prices else None),
            (Column("currency", ""), asked.prices.currency if asked.prices else None),
            (Column("stock", ""), asked.thickness if asked.prices else None),
            (Column("passed", "", "count"), ranking.passed),
            (Column("lines_passed", "", "count"), ranking.lines),
            (Column("considered", "", "count"), ranking.considered),
            (Column("little_known", "", "count"), ranking.little_known),
        ],
        sections=[
            _ranking_section(ranking, asked, units, people),
            _contribution_section(ranking, asked, units, people, bars),
            criteria_section(criteria, units, letters_of(ranking.scales)),
            _limits_section(ranking, units, people),
            _missing_section(ranking, units, people),
        ],
        notes=_notes(ranking, asked),
    )
