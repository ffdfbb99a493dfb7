"""What uses answers, and the words for what a use asks of a wood."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from string import ascii_lowercase
from typing import TYPE_CHECKING

from woodref.answers import property_text
from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.screen import brief
from woodref.answers.shop_words import shown
from woodref.choose.columns import CHANGE_WIDTH_MM, COLUMNS, ChoiceColumn
from woodref.errors import InputError
from woodref.units import KINDS, MM_PER_FOOT

if TYPE_CHECKING:
    from woodref.choose.filters import Filter
    from woodref.choose.profile import Criterion, Profile
    from woodref.choose.screening import FilterCount

#: What the criteria of a use are called by in tables.
LETTERS = ascii_lowercase


def label_of(column: ChoiceColumn, units: str) -> str:
    """The label of a column in a system of units."""
    return column.label_us if units == "us" and column.label_us else column.label


def figure_text(column: ChoiceColumn, value: float | None, units: str) -> str:
    """A figure as people read it, '' where it is not known."""
    if value is None:
        return ""
    if column.type == "boolean":
        return "yes" if value else "no"
    if column.classes:
        return column.words(value) or f"{value:g}"
    return KINDS[column.kind].text(_in_units(column, value, units), units)


def shop_text(column: ChoiceColumn, value: float | None, units: str) -> str:
    """A figure as a shop reads it: a change in fractions of an inch, '' where it is not known."""
    if value is None or column.classes or not column.kind.startswith("change"):
        return figure_text(column, value, units)
    return shown(column.kind, _in_units(column, value, units), units)


def short_text(column: ChoiceColumn, value: float | None, units: str) -> str:
    """A figure for a table whose legend has the unit: '944' for '944 lbf'."""
    text = figure_text(column, value, units)
    if column.classes:
        return text.removeprefix(f"{column.lead} ")
    return text.removesuffix(_unit(column, units))


def legend_of(column: ChoiceColumn, units: str) -> str:
    """The label of a column with its unit: 'side hardness, lbf'."""
    return ", ".join(x for x in (label_of(column, units), _unit(column, units)) if x)


def _in_units(column: ChoiceColumn, value: float, units: str) -> float:
    """The value, for a foot of width in place of 300 mm in the US system."""
    per_foot = units == "us" and column.per_width
    return value * MM_PER_FOOT / CHANGE_WIDTH_MM if per_foot else value


def _unit(column: ChoiceColumn, units: str) -> str:
    """The unit a figure is printed with: 'lbf', 'in', '' for none."""
    return "" if not column.kind or column.classes else KINDS[column.kind].label(units)


def unit_text(column: ChoiceColumn, units: str) -> str:
    """The unit of a column: 'lbf', 'in per 12 in', '' for none."""
    width = "12 in" if units == "us" else "300 mm"
    unit = _unit(column, units)
    return f"{unit} per {width}" if column.per_width else unit


def exact(column: ChoiceColumn, value: float | None, units: str) -> float | None:
    """A figure for programs, in the unit of unit_text; a printed one as show tells it."""
    if value is None or not column.kind or column.classes:
        return value
    if column.property_id:
        return property_text.exact(column.property_id, value, units)
    return KINDS[column.kind].number(_in_units(column, value, units), units)


def _ends(c: Criterion, poor: float | None, good: float | None, units: str) -> tuple[str, str]:
    """(where it gets no points, where it gets all), in words."""
    column = c.column
    if c.target is not None and c.reach is not None:
        low, high = (figure_text(column, c.target + d, units) for d in (-c.reach, c.reach))
        return f"{low} and {high}", figure_text(column, c.target, units)
    return figure_text(column, poor, units), figure_text(column, good, units)


def criteria_section(
    criteria: Sequence[tuple[Criterion, float, float | None, float | None]],
    units: str,
    letters: Sequence[str] = LETTERS,
) -> Section:
    """What counts: criterion, weight, both ends of its scale, and why.

    Parameters: criteria; units 'us' or 'si'; letters they go by in the tables beside it.
    """
    columns = [
        Column("criterion", ""),
        Column("letter", " "),
        Column("label", "criterion"),
        Column("direction", "better"),
        Column("weight", "weight", "share"),
        Column("no_points_at", "no points at"),
        Column("full_points_at", "full points at"),
        Column("optional", ""),
        Column("why", "why"),
    ]
    rows = []
    for letter, (c, share, poor, good) in zip(letters, criteria, strict=False):
        nothing, everything = _ends(c, poor, good, units)
        rows.append(
            {
                "letter": letter,
                "criterion": c.column.name,
                "label": legend_of(c.column, units),
                "direction": c.direction,
                "weight": 100.0 * share,
                "no_points_at": nothing or "the poorest 5 %",
                "full_points_at": everything or "the best 5 %",
                "optional": c.optional,
                "why": c.why,
            }
        )
    return Section("criteria", "What counts", columns, rows)


_WORDS = {">=": "at least", "<=": "at most", ">": "above", "<": "below", "=": "", "!=": "not"}


def limit_text(limit: Filter, units: str) -> str:
    """A limit of a profile in words, 'side hardness at least 562 lbf'; others as they are."""
    if not limit.why or limit.column is None:
        return limit.text
    figure = figure_text(limit.column, limit.value, units)
    parts = (label_of(limit.column, units), _WORDS[limit.operator], figure)
    return " ".join(p for p in parts if p)


def filters_section(
    title: str, counts: Sequence[FilterCount], text_of: Callable[[Filter], str]
) -> Section:
    """The limits in order: what each rules out of the woods left, and what it leaves.

    Parameters: title of the table; counts; text_of a limit in words.
    """
    columns = [
        Column("limit", "limit"),
        Column("ruled_out", "ruled out", "count"),
        Column("woods_left", "left", "count"),
        Column("why", "why"),
    ]
    rows = (
        (text_of(c.filter), c.removed, c.remaining, c.filter.why or "asked for") for c in counts
    )
    return Section.of("limits", title, columns, rows)


def uses_answer() -> Answer:
    """Every use there is, the user's own marked."""
    from woodref.choose.profile import every_profile, own_folder

    rows: list[dict[str, object]] = []
    told: list[dict[str, object]] = []
    wrong: list[Heed] = []
    for name, profile in every_profile().items():
        if isinstance(profile, InputError):  # one of the user's own; the others are told too
            rows.append({"use": name, "purpose": f"cannot be used: {profile}", "own": True})
            told.append({"use": name, "purpose": "cannot be used, see below"})
            wrong.append(Heed(f"{name}: {profile}."))
        else:
            rows.append({"use": name, "purpose": profile.purpose, "own": profile.own})
            told.append(rows[-1])
    lead = (
        f"{len(rows)} uses; woodref uses NAME shows what one asks of a wood, woodref rank "
        "--for NAME ranks the woods."
    )
    columns = [Column("use", "use"), Column("purpose", "what for")]
    return Answer(
        headline=[lead],
        screen=brief([lead], [Section("uses", "", columns, told)], wrong),
        sections=[
            Section(
                "uses",
                "",
                [*columns, Column("own", "")],
                rows,
            )
        ],
        facts=[(Column("own_folder", ""), str(own_folder()))],
        notes=[
            "A use of your own is a TOML file in the folder uses beside your configuration file "
            "(woodref --help says where that is), or one named by its path; woodref uses NAME "
            "--text prints one to start from.",
        ],
    )


def use_answer(profile: Profile, units: str, people: bool) -> Answer:
    """What one use asks of a wood, and why."""
    from woodref.choose.filters import of_limit

    criteria = [
        (c, share, c.poor, c.good)
        for c, share in zip(profile.criteria, profile.weights, strict=True)
    ]
    return Answer(
        headline=[f"{profile.title}: {profile.purpose}"],
        facts=[
            (Column("use", ""), profile.name),
            (Column("use_title", ""), profile.title),
            (Column("own", ""), profile.own),
        ],
        sections=[
            criteria_section(criteria, units),
            Section.of(
                "limits",
                "What a wood must pass",
                [Column("limit", "limit"), Column("why", "why")],
                (
                    (limit_text(of_limit(x), units) if people else x.text, x.why)
                    for x in profile.limits
                ),
            ),
        ],
        notes=[
            f"File: {'your own ' + profile.file if profile.own else 'shipped'}; woodref uses "
            f"{profile.name} --text prints it, to copy and change.",
            "Weights and ends are a judgment of ours: common practice, no source.",
        ],
    )


def columns_answer() -> Answer:
    """Every column a wood can be chosen by."""
    return Answer(
        headline=[f"{len(COLUMNS)} columns for --where and for profiles; values are SI."],
        sections=[
            Section.of(
                "columns",
                "",
                [Column("column", "column"), Column("type", "type"), Column("meaning", "meaning")],
                ((c.name, c.type, c.description) for c in COLUMNS.values()),
            )
        ],
    )
