"""What a wood must pass: the limits of a use and what the user asks for, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from woodref.board.movement import CUTS, movement
from woodref.board.weight import density_of
from woodref.choose.columns import CHANGE_WIDTH_MM, COLUMNS, ChoiceColumn
from woodref.choose.overview import AIR_DRY_PCT
from woodref.errors import InputError, NoDataError
from woodref.formulas.spread import Difference, chance_greater, difference
from woodref.record import record
from woodref.reference.store import literal

if TYPE_CHECKING:
    from woodref.choose.profile import Limit
    from woodref.choose.seasonal_range import SeasonalRange
    from woodref.reference.condition import Clause
    from woodref.reference.woods import Wood

#: Words that compare a wood with another: column, and which way.
COMPARATIVES: dict[str, tuple[str, str]] = {
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


@record
class Filter:
    """One thing a wood must pass: a limit of a profile, or what the user asks.

    ``text`` what it is in the answer; ``sql`` the condition over the candidates; ``column``,
    ``operator`` and ``value`` where it is a comparison, so that a nearest miss can be told;
    ``than`` the wood it is measured by, ``sd`` the spread of that wood's figure; ``why`` its
    reason where a profile gives one; ``needs`` a column it looks at without comparing;
    ``nearest`` SQL by which the nearest miss is found where it is no comparison.
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
    nearest: str = ""

    @property
    def needed(self) -> str:
        """The column a wood must have to be judged by it, '' where none is named."""
        return self.column.name if self.column else self.needs

    def clearly_passed(self, figures: Mapping[str, Any], sds: Mapping[str, float]) -> bool:
        """True where single boards of a wood clearly differ from the value, by DIFFERENCE_RULE.

        Parameters: figures of the wood and their standard deviations, by the names of the
        columns.
        """
        if self.column is None:
            return True
        name = self.column.name
        chance = chance_greater(figures[name], sds.get(name, 0.0), self.value, self.sd)
        return difference(chance) is Difference.CLEAR


def _compared(column: ChoiceColumn, operator: str, value: float, text: str) -> Filter:
    sql = f"({column.name} {operator} {value!r})"
    return Filter(text, sql, column, operator, value)


def of_limit(limit: Limit) -> Filter:
    """A limit of a profile."""
    column, value = limit.column, limit.value
    if isinstance(value, bool):
        return Filter(limit.text, f"({column.name} {limit.operator} {value})", why=limit.why)
    if isinstance(value, str):
        sql = f"(lower({column.name}) {limit.operator} lower({literal(value)}))"
        return Filter(limit.text, sql, why=limit.why)
    return replace(_compared(column, limit.operator, value, limit.text), why=limit.why)


def of_comparison(part: Clause) -> Filter:
    """One comparison of a condition."""
    return _compared(COLUMNS[part.column], part.operator, part.value, part.text)


def of_kind(kind: str) -> Filter:
    """Hardwoods or softwoods alone."""
    return Filter(f"{kind}s", f"(kind = {literal(kind)})")


def of_origin(origin: str) -> Filter:
    """Woods whose origin holds a word, or lies in one of REGIONS.

    Raises: InputError for an empty one.
    """
    word = " ".join(origin.split())
    if not word:
        raise InputError(f"the origin is empty; write for example {', '.join(REGIONS)}")
    words = REGIONS.get(word.lower(), (word.lower(),))
    held = " or ".join(f"contains(lower(origin), {literal(w)})" for w in words)
    return Filter(f"from {word}", f"({held})", needs="origin")


def uncontrolled() -> Filter:
    """Woods without a recorded trade control."""
    return Filter("without a recorded trade control", "(not controlled)")


#: Shades by the lightness they lie between, 1 palest to 5 darkest (our judgment).
SHADES: dict[str, tuple[float, float]] = {
    "pale": (1.0, 2.0),
    "medium": (2.0, 3.0),
    "dark": (3.0, 5.0),
}


def of_shade(shade: str) -> Filter:
    """Woods of a shade, a key of SHADES, as they reach the maker."""
    low, high = SHADES[shade]
    return Filter(
        shade,
        f"(lightness between {low!r} and {high!r})",
        needs="lightness",
        nearest=f"least(abs(lightness - {low!r}), abs(lightness - {high!r}))",
    )


def no_allergen() -> Filter:
    """Woods whose dust no document of ours names for allergy, asthma or dermatitis."""
    return Filter("dust not named for allergy", "(not allergen)")


def of_most(most: float, units: str, currency: str, thickness: str) -> Filter:
    """Woods that cost no more than so much a board foot in 'us', a cubic meter in 'si'.

    Parameters: most in the currency of the list; units; currency and thickness for the answer.
    Raises: as of_price.
    """
    per, column = ("a board foot", "price_per_board_foot")
    if units == "si":
        per, column = ("a cubic meter", "price_per_m3")
    money = " ".join(x for x in (f"{most:,.2f}", currency) if x)
    return of_price(column, most, f"at most {money} {per} in {thickness}")


def of_price(column: str, most: float, text: str) -> Filter:
    """Woods that cost no more than so much a board foot, or a cubic meter.

    Parameters: column one of PRICED; most in the currency of the list; text for the answer.
    Raises: InputError for a price that is none.
    """
    if not 0.0 < most < 1e9:
        raise InputError(f"a price is above 0, not {most:g}")
    return _compared(COLUMNS[column], "<=", most, text)


def compared_with(word: str, wood: Wood, seasonal_range: SeasonalRange) -> Filter:
    """Woods harder, stiffer, steadier or lighter than another, by the expected figures.

    Parameters: word a key of COMPARATIVES; wood, or trade group; seasonal_range the year of
    'steadier'.
    Raises: NoDataError where no table holds the figure of the wood.
    """
    name, operator = COMPARATIVES[word]
    value, sd = _figure(word, wood, seasonal_range)
    text = f"{word} than {wood.common_name}"
    return replace(_compared(COLUMNS[name], operator, value, text), than=wood.common_name, sd=sd)


def _figure(word: str, wood: Wood, seasonal_range: SeasonalRange) -> tuple[float, float]:
    """(value, spread between boards) of the figure a wood is measured by."""
    if word == "steadier":
        span = (seasonal_range.driest_pct, seasonal_range.wettest_pct)
        m = movement(wood, CHANGE_WIDTH_MM, *span, CUTS["flat"])
        return m.change_mm, m.basis.cv(CUTS["flat"]) * abs(m.change_mm)
    if word == "lighter":
        d = density_of(wood, AIR_DRY_PCT)
        return d.density_kg_m3, d.sd_kg_m3
    value = wood.known("side_hardness" if word == "harder" else "modulus_of_elasticity")
    if value is None:
        label = COLUMNS[COMPARATIVES[word][0]].label
        raise NoDataError(f"no table holds the {label} of {wood.common_name} to measure others by")
    return value.value, value.sd or 0.0


def asked(
    kind: str = "",
    origin: str = "",
    without_control: bool = False,
    without_allergen: bool = False,
    shade: str = "",
) -> list[Filter]:
    """The filters of what a user asks of any wood, in order.

    Parameters: kind 'hardwood' or 'softwood', origin as of_origin, '' for any; without_control
    true for woods without a recorded trade control; without_allergen for those whose dust no
    document names for allergy; shade a key of SHADES, '' for any.
    Raises: as of_origin.
    """
    return [
        *([of_kind(kind)] if kind else []),
        *([of_origin(origin)] if origin else []),
        *([uncontrolled()] if without_control else []),
        *([no_allergen()] if without_allergen else []),
        *([of_shade(shade)] if shade else []),
    ]


def nearest_sql(failed: Filter) -> str:
    """What to order woods by that fail a filter, the nearest miss first."""
    if failed.nearest:
        return f"{failed.nearest}, score desc nulls last, common_name"
    if failed.column is None:
        return "score desc nulls last, common_name"
    return f"abs({failed.column.name} - {failed.value!r}), score desc nulls last, common_name"
