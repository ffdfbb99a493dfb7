"""What a wood must pass: the limits of a use and what the user asks for, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from woodref.board.movement import CUTS, movement
from woodref.board.weight import density_of
from woodref.choose.columns import CHANGE_WIDTH_MM, COLUMNS, ChoiceColumn
from woodref.choose.glance import AIR_DRY_PCT
from woodref.errors import InputError, NoDataError
from woodref.units import BOARD_FOOT_M3

if TYPE_CHECKING:
    from woodref.choose.profile import Limit
    from woodref.choose.situation import Situation
    from woodref.lumber.nominal import Nominal
    from woodref.lumber.prices import PriceList
    from woodref.reference.condition import Clause
    from woodref.reference.woods import Wood

#: Words for a wood beside another: column, and which way.
BESIDE: dict[str, tuple[str, str]] = {
    "harder": ("side_hardness_n", ">"),
    "stiffer": ("modulus_of_elasticity_mpa", ">"),
    "steadier": ("seasonal_change_mm_per_300mm", "<"),
    "lighter": ("density_kg_m3", "<"),
}


#: Parts of the world by words of the origins recorded; a wood planted elsewhere is of both.
REGIONS: dict[str, tuple[str, ...]] = {
    "north america": (
        *("north america", "northern america", "united states", "lake states", "rocky mountains"),
        *("appalachian", "pacific coast", "northwestern canada", "alaska", "california"),
        *("oregon", "washington", "florida", "georgia"),
    ),
    "central america": ("central america", "tropical america", "mexico", "west indies", "cuba"),
    "south america": (
        *("south america", "tropical america", "guiana", "guyana", "brazil", "amazon"),
        *("bolivia", "argentina", "suriname", "trinidad"),
    ),
    "europe": ("europe", "mediterranean"),
    "africa": ("africa", "madagascar", "liberia", "gabon", "cameroon"),
    "asia": (
        *("asia", "india", "malaysia", "philippines", "indo-malaysian", "japan", "korea"),
        *("china", "myanmar", "indonesia", "andaman", "sri lanka", "thailand"),
    ),
    "oceania": ("oceania", "australia", "new zealand", "pacific islands", "western pacific"),
}


@dataclass(frozen=True)
class Hurdle:
    """One thing a wood must pass.

    ``text`` what it is in the answer; ``sql`` the condition over the candidates; ``column``,
    ``operator`` and ``value`` where it is a comparison, so that a nearest miss can be told;
    ``than`` the wood it is measured by, ``sd`` the spread of that wood's figure; ``why`` its
    reason where a profile gives one; ``needs`` a column it looks at without comparing.
    """

    text: str
    sql: str
    column: ChoiceColumn | None = None
    operator: str = ""
    value: float = 0.0
    than: str = ""
    sd: float = 0.0
    why: str = ""
    needs: str = ""

    @property
    def needed(self) -> str:
        """The column a wood must have to be judged by it, '' where none is named."""
        return self.column.name if self.column else self.needs


def quoted(text: str) -> str:
    """Text as a literal of SQL."""
    return "'" + text.replace("'", "''") + "'"


def _compared(column: ChoiceColumn, operator: str, value: float, text: str) -> Hurdle:
    sql = f"({column.name} {operator} {value!r})"
    return Hurdle(text, sql, column, operator, value)


def of_limit(limit: Limit) -> Hurdle:
    """A limit of a profile."""
    column, value = limit.column, limit.value
    if isinstance(value, bool):
        return Hurdle(limit.text, f"({column.name} {limit.operator} {value})", why=limit.why)
    if isinstance(value, str):
        sql = f"(lower({column.name}) {limit.operator} lower({quoted(value)}))"
        return Hurdle(limit.text, sql, why=limit.why)
    return replace(_compared(column, limit.operator, value, limit.text), why=limit.why)


def of_comparison(part: Clause) -> Hurdle:
    """One comparison of a condition."""
    return _compared(COLUMNS[part.column], part.operator, part.value, part.text)


def of_kind(kind: str) -> Hurdle:
    """Hardwoods or softwoods alone."""
    return Hurdle(f"{kind}s", f"(kind = {quoted(kind)})")


def of_origin(origin: str) -> Hurdle:
    """Woods whose origin holds a word, or lies in one of REGIONS.

    Raises: InputError for an empty one.
    """
    word = " ".join(origin.split())
    if not word:
        raise InputError(f"the origin is empty; write for example {', '.join(REGIONS)}")
    words = REGIONS.get(word.lower(), (word.lower(),))
    held = " or ".join(f"contains(lower(origin), {quoted(w)})" for w in words)
    return Hurdle(f"from {word}", f"({held})", needs="origin")


def uncontrolled() -> Hurdle:
    """Woods without a recorded trade control."""
    return Hurdle("without a recorded trade control", "(not controlled)")


def of_price(column: str, most: float, text: str) -> Hurdle:
    """Woods that cost no more than so much a board foot, or a cubic meter.

    Parameters: column one of PRICED; most in the currency of the list; text for the answer.
    Raises: InputError for a price that is none.
    """
    if not 0.0 < most < 1e9:
        raise InputError(f"a price is above 0, not {most:g}")
    return _compared(COLUMNS[column], "<=", most, text)


def beside(word: str, wood: Wood, situation: Situation, text: str) -> Hurdle:
    """Woods harder, stiffer, steadier or lighter than another, by the expected figures.

    Parameters: word a key of BESIDE; wood, or trade group; situation the year of 'steadier';
    text for the answer, '{}' standing for the other wood's name.
    Raises: NoDataError where no table holds the figure of the wood.
    """
    name, operator = BESIDE[word]
    column = COLUMNS[name]
    value, sd = _figure(word, wood, situation)
    hurdle = _compared(column, operator, value, text.format(wood.common_name))
    return replace(hurdle, than=wood.common_name, sd=sd)


def _figure(word: str, wood: Wood, situation: Situation) -> tuple[float, float]:
    """(value, spread between boards) of the figure a wood is measured by."""
    if word == "steadier":
        span = (situation.driest_pct, situation.wettest_pct)
        m = movement(wood, CHANGE_WIDTH_MM, *span, CUTS["flat"])
        cv = m.basis.tangential.cv_pct or 0.0
        return m.change_mm, cv / 100.0 * abs(m.change_mm)
    if word == "lighter":
        d = density_of(wood, AIR_DRY_PCT)
        return d.density_kg_m3, d.sd_kg_m3
    value = wood.value("side_hardness" if word == "harder" else "modulus_of_elasticity")
    if value is None:
        label = COLUMNS[BESIDE[word][0]].label
        raise NoDataError(f"no table holds the {label} of {wood.common_name} to measure others by")
    return value.value, value.sd or 0.0


def prices_per_m3(prices: PriceList, nominal: Nominal) -> Mapping[str, float]:
    """The price of a cubic meter by species_id, for every wood a list sells by amount.

    Parameters: prices; nominal thickness. A row for the very wood goes before one for a group,
    a row for the thickness before one for any.
    """
    woods = sorted({i for row in prices.rows for i in row.species_ids})
    found = {}
    for species_id in woods:
        price = prices.find(frozenset({species_id}), nominal)
        if price:
            per_m3 = price.price.expected / (BOARD_FOOT_M3 if price.per == "board foot" else 1.0)
            found[species_id] = per_m3
    return found


def nearest_sql(hurdle: Hurdle) -> str:
    """What to order woods by that fail a hurdle, the nearest miss first."""
    if hurdle.column is None:
        return "score desc nulls last, common_name"
    return f"abs({hurdle.column.name} - {hurdle.value!r}), score desc nulls last, common_name"
