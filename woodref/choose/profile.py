"""What a use asks of a wood: readable TOML profiles, shipped or the user's own.

A profile holds a ``title``, its ``purpose``, one ``[[criterion]]`` or more, and ``[[limit]]``
tables. A user's profile is a file named with its path, or one in the folder ``uses`` beside the
configuration file; there it goes before a shipped one of the same name. docs/profiles.md
explains each key.
"""

from __future__ import annotations

import os
from collections.abc import Collection
from dataclasses import replace
from enum import StrEnum
from pathlib import Path

from woodref.choose.columns import COLUMNS, ChoiceColumn
from woodref.config import config_path
from woodref.display import Shown
from woodref.errors import InputError
from woodref.files import did_you_mean, read_text
from woodref.record import record
from woodref.toml_reader import TomlTable
from woodref.toml_text import parse_toml

DIRECTIONS = ("higher", "lower", "near")
OPERATORS = (">=", "<=", ">", "<", "=", "!=")
#: Operators for text, which is not more or less.
TEXT_OPERATORS = ("=", "!=")
#: Utility of a criterion that no table knows of a wood, where the profile lets it pass.
MIDDLING = 0.5
#: Criteria of a profile, one for each letter of a table.
MOST_CRITERIA = 26
_MOST = 1e9
_TOP_KEYS = ("title", "purpose", "look", "criterion", "limit")
_HEAVIEST = 1000.0


@record
class Criterion:
    """One thing that counts: a column, which way is better, how much it weighs, and why.

    ``poor`` and ``good`` the values of utility 0 and 1, for higher and lower, None
    where the woods themselves set them; ``target`` the best value and ``reach`` how far from it
    utility ends, for near; ``optional`` true where a wood without the figure counts as middling.
    """

    column: ChoiceColumn
    direction: str
    weight: float
    why: str
    poor: float | None = None
    good: float | None = None
    target: float | None = None
    reach: float | None = None
    optional: bool = False


@record
class Limit:
    """One thing a wood must have: column, operator, value, and why."""

    column: ChoiceColumn
    operator: str
    value: float | str | bool
    why: str

    @property
    def text(self) -> str:
        """'side_hardness_n >= 2500'."""
        value = f"{self.value:g}" if isinstance(self.value, float) else str(self.value).lower()
        return f"{self.column.name} {self.operator} {value}"


class LookCounts(StrEnum):
    """What the look of a wood counts for a use, where another takes its place.

    Under a clear finish it decides among woods that serve; outdoors it counts a quarter beside
    the figures; under paint, in hidden parts and in bent work it counts nothing.
    """

    DECIDES = "decides"
    QUARTER = "a quarter"
    NOTHING = "nothing"


@record(repr=False)
class Profile(Shown):
    """What a use asks of a wood; ``file`` is where it stands, ``own`` true for a user's.

    ``look`` what the look counts in place of another wood.
    """

    name: str
    title: str
    purpose: str
    criteria: tuple[Criterion, ...]
    limits: tuple[Limit, ...]
    file: str
    own: bool = False
    look: LookCounts = LookCounts.DECIDES

    @property
    def weights(self) -> tuple[float, ...]:
        """The share of each criterion in the score, together 1."""
        total = sum(c.weight for c in self.criteria)
        return tuple(c.weight / total for c in self.criteria)

    def _line(self) -> str:
        return f"{self.title}, {len(self.criteria)} criteria, {len(self.limits)} limits"


#: Moisture content the ends of a criterion of movement stand for [%]: from 6 to 10.
_USUAL_YEAR_PCT = 4.0


def for_year(profile: Profile, driest_pct: float, wettest_pct: float) -> Profile:
    """The profile with the ends of its movement criteria scaled to a year.

    A profile says what is much and little movement between 6 and 10 %; in a room that goes
    farther every wood moves more, and the woods are told apart as before.

    Parameters: profile; driest_pct, wettest_pct of the year [%].
    """
    factor = (wettest_pct - driest_pct) / _USUAL_YEAR_PCT

    def times(end: float | None) -> float | None:
        return None if end is None else end * factor

    def scaled(c: Criterion) -> Criterion:
        if not c.column.per_width or factor <= 0.0:
            return c
        return replace(
            c,
            poor=times(c.poor),
            good=times(c.good),
            target=times(c.target),
            reach=times(c.reach),
        )

    return replace(profile, criteria=tuple(map(scaled, profile.criteria)))


#: Share of the score that the price takes where a list is given (a judgment of ours).
PRICE_SHARE = 0.2


def weighing_price(profile: Profile, column: ChoiceColumn) -> Profile:
    """The profile with the price as one more criterion, unless it has one.

    Parameters: profile; column the price of the system of units.
    """
    if any(c.column.priced for c in profile.criteria):
        return profile
    total = sum(c.weight for c in profile.criteria)
    price = Criterion(
        column,
        "lower",
        total * PRICE_SHARE / (1.0 - PRICE_SHARE),
        f"What the lumber costs: {100.0 * PRICE_SHARE:.0f} % of the score (a judgment of ours).",
    )
    return replace(profile, criteria=(*profile.criteria, price))


def shipped_folder() -> Path:
    """Folder of the profiles that come with the program."""
    return Path(__file__).resolve().parent.parent / "profiles"


def own_folder() -> Path:
    """Folder of the user's profiles: ``uses`` beside the configuration file."""
    return config_path().parent / "uses"


def _files(folder: Path) -> dict[str, Path]:
    return {p.stem: p for p in sorted(folder.glob("*.toml"))} if folder.is_dir() else {}


def profile_files() -> dict[str, Path]:
    """Every profile by its name, in order; the user's own go before shipped ones."""
    files = _files(shipped_folder()) | _files(own_folder())
    return dict(sorted(files.items()))


def load_profile(use: str) -> Profile:
    """The profile of a use, by its name or the path of its file.

    Parameters: use 'tabletop', 'drawer side' or 'drawer-side', or a path that ends in .toml.
    Raises: InputError for an unknown use, with the nearest; as read_profile.
    """
    text = use.strip()
    if text.lower().endswith(".toml") or "/" in text or "\\" in text:
        return read_profile(Path(os.path.expanduser(text)))
    known = profile_files()
    name = "-".join(text.lower().split()).replace("_", "-")
    if name not in known:
        near = did_you_mean(name, known) if name else f"; use one of {', '.join(known)}"
        raise InputError(f"no use is called '{text}'{near} (woodref uses lists them)")
    return read_profile(known[name])


def every_profile() -> dict[str, Profile | InputError]:
    """Every profile by its name, in order; of one that cannot be used, why."""
    profiles: dict[str, Profile | InputError] = {}
    for name, path in profile_files().items():
        try:
            profiles[name] = read_profile(path)
        except InputError as error:
            profiles[name] = error
    return profiles


def read_profile(path: Path) -> Profile:
    """The profile in a TOML file, named for the file.

    Raises: InputError, one line naming the file, the table, the key and a way out.
    """
    return parse_profile(read_text(path, "profile"), str(path), path.stem)


def parse_profile(text: str, file: str, name: str) -> Profile:
    """The profile in TOML text; ``file`` is the name used in messages.

    Raises: as read_profile.
    """
    top = TomlTable(parse_toml(text, file), file, "", _TOP_KEYS)
    title, purpose = top.text("title", '"Tabletop"'), top.text("purpose")
    criteria = tuple(_criterion(t) for t in top.tables("criterion", _CRITERION_KEYS))
    limits = tuple(_limit(t) for t in top.tables("limit", _LIMIT_KEYS))
    if not criteria:
        raise top.error("criterion", "is missing; a profile needs one [[criterion]] or more")
    if len(criteria) > MOST_CRITERIA:
        raise top.error("criterion", f"{len(criteria)} are too many; {MOST_CRITERIA} at most")
    if not any(c.weight for c in criteria):
        raise top.error("criterion", "every weight is 0, so no wood is better than another")
    names = [c.column.name for c in criteria]
    twice = next((n for n in names if names.count(n) > 1), "")
    if twice:
        raise top.error("criterion", f"the column '{twice}' is there twice; add up the weights")
    own = Path(file).parent.resolve() != shipped_folder()
    look = top.choice("look", [x.value for x in LookCounts]) if "look" in top else ""
    counts = LookCounts(look) if look else LookCounts.DECIDES
    return Profile(name, title, purpose, criteria, limits, file, own, counts)


_CRITERION_KEYS = (
    *("column", "direction", "weight", "why"),
    *("poor", "good", "target", "reach", "optional"),
)
_LIMIT_KEYS = ("column", "operator", "value", "why")


def _column(table: TomlTable, known: Collection[str]) -> ChoiceColumn:
    name = table.text("column", '"side_hardness_n"')
    if name not in COLUMNS:
        raise table.error("column", f"no column is called '{name}'{did_you_mean(name, known)}")
    return COLUMNS[name]


def _criterion(table: TomlTable) -> Criterion:
    ordered = [c.name for c in COLUMNS.values() if c.is_ordered]
    column = _column(table, ordered)
    if not column.is_ordered:
        raise table.error("column", f"{column.name} is text, which is not more or less")
    direction = table.choice("direction", DIRECTIONS)
    numbers = {
        key: table.number(key, -_MOST, _MOST)
        for key in ("poor", "good", "target", "reach")
        if key in table
    }
    optional = table.data.get("optional", False)
    if not isinstance(optional, bool):
        raise table.error("optional", "must be true or false")
    _check_scale(table, direction, numbers)
    return Criterion(
        column,
        direction,
        table.number("weight", 0.0, _HEAVIEST),
        table.text("why"),
        **numbers,
        optional=optional,
    )


def _check_scale(table: TomlTable, direction: str, numbers: dict[str, float]) -> None:
    """The keys that give the utility of a value fit the direction and each other."""
    wanted = ("target", "reach") if direction == "near" else ("poor", "good")
    for key in numbers:
        if key not in wanted:
            raise table.error(key, f'has no place beside direction = "{direction}"')
    if direction == "near":
        table.number("target", -_MOST, _MOST)
        if table.number("reach", 0.0, _MOST) == 0.0:
            raise table.error("reach", "must be above 0: how far from the target worth ends")
        return
    if len(numbers) == 1:
        missing = next(k for k in wanted if k not in numbers)
        raise table.error(missing, "is missing; give both poor and good, or neither")
    if numbers and (numbers["poor"] < numbers["good"]) != (direction == "higher"):
        raise table.error(
            "good",
            f"{numbers['good']:g} must be {'above' if direction == 'higher' else 'below'} "
            f"poor {numbers['poor']:g}, as {direction} is better",
        )
    if numbers and numbers["poor"] == numbers["good"]:
        raise table.error("good", "is the same as poor")


def _limit(table: TomlTable) -> Limit:
    column = _column(table, COLUMNS)
    operator = table.choice("operator", OPERATORS)
    if column.type != "number" and operator not in TEXT_OPERATORS:
        raise table.error("operator", f"{column.name} is not more or less; use = or !=")
    value: float | str | bool
    if column.type == "boolean":
        value = table.data.get("value") is True
        if not isinstance(table.data.get("value"), bool):
            raise table.error("value", "must be true or false")
    elif column.type == "number":
        value = table.number("value", -_MOST, _MOST)
    else:
        value = table.text("value")
    return Limit(column, operator, value, table.text("why"))
