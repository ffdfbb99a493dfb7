"""Short heads of what woods are chosen by, and what is said of one beside another."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from woodref.choose.changes import Verdict

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.choose.buyable import Buyable
    from woodref.choose.changes import Change
    from woodref.choose.columns import ChoiceColumn
    from woodref.choose.rank import Contribution


class Words(NamedTuple):
    """How a column is told: head of a table, one with less and with more, less and more than.

    ``less`` and ``more`` have a slot where 'slightly' stands.
    """

    head: str
    low: str
    high: str
    less: str
    more: str


#: The words of columns that uses ask about; others go by their label.
_WORDS: dict[str, Words] = {
    "seasonal_change_mm_per_300mm": Words(
        "moves", "moves little", "moves much", "{}steadier", "moves {}more"
    ),
    "seasonal_change_quarter_mm_per_300mm": Words(
        "moves, qtr",
        "moves little on the quarter",
        "moves much on the quarter",
        "{}steadier on the quarter",
        "moves {}more on the quarter",
    ),
    "tangential_over_radial": Words(
        "evenness", "moves evenly", "apt to cup", "cups {}less", "cups {}more"
    ),
    "side_hardness_n": Words("hardness", "soft", "hard", "{}softer", "{}harder"),
    "density_kg_m3": Words("weight", "light", "heavy", "{}lighter", "{}heavier"),
    "modulus_of_elasticity_mpa": Words("stiffness", "limber", "stiff", "{}less stiff", "{}stiffer"),
    "modulus_of_rupture_mpa": Words("bending", "weak", "strong", "{}weaker", "{}stronger"),
    "work_to_maximum_load_kj_m3": Words(
        "toughness", "brittle", "tough", "{}less tough", "{}tougher"
    ),
    "bonding_class": Words(
        "gluing", "hard to glue", "glues well", "{}harder to glue", "glues {}better"
    ),
    "planing_pct": Words("planing", "tears", "planes clean", "planes {}worse", "planes {}cleaner"),
    "turning_pct": Words(
        "turning", "turns badly", "turns clean", "turns {}worse", "turns {}cleaner"
    ),
    "sanding_pct": Words("sanding", "sands badly", "sands well", "sands {}worse", "sands {}better"),
    "screwing_pct": Words("screwing", "splits", "takes screws", "splits {}more", "splits {}less"),
    "steam_bending_pct": Words(
        "bends", "breaks in bending", "bends well", "bends {}worse", "bends {}better"
    ),
    "decay_resistance_class": Words(
        "decay", "rots soon", "resists decay", "rots {}sooner", "resists decay {}better"
    ),
    "paintability_class": Words(
        "painting", "holds paint", "sheds paint", "holds paint {}better", "holds paint {}worse"
    ),
    "price_per_board_foot": Words("price", "cheap", "dear", "{}cheaper", "{}dearer"),
    "price_per_m3": Words("price", "cheap", "dear", "{}cheaper", "{}dearer"),
}
#: Share of full points from which a figure is a strength, and below which it is a weakness.
_STRONG, _WEAK = 0.7, 0.3
#: Strengths and weaknesses named of a wood.
_NAMED = 3


def words_of(column: ChoiceColumn) -> Words:
    """The words of a column."""
    label = column.label
    return _WORDS.get(
        column.name,
        Words(label, f"low {label}", f"high {label}", f"{{}}less {label}", f"{{}}more {label}"),
    )


def listed_and(words: Sequence[str]) -> str:
    """'a, b and c'."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def strengths(contributions: Sequence[Contribution]) -> str:
    """'moves little, hard; but heavy': what a wood is good and poor at for a use."""
    told = sorted((c for c in contributions if c.value is not None), key=lambda c: -c.scale.share)
    good = [_told(c, True) for c in told if c.utility >= _STRONG][:_NAMED]
    poor = [_told(c, False) for c in told if c.utility <= _WEAK][:_NAMED]
    parts = [", ".join(good), f"but {', '.join(poor)}" if good and poor else ", ".join(poor)]
    return "; ".join(p for p in parts if p) or "middling in all that counts"


def _told(c: Contribution, good: bool) -> str:
    words, direction = words_of(c.scale.criterion.column), c.scale.criterion.direction
    if direction == "near":
        return f"{words.head} {'right' if good else 'off'}"
    return words.high if (direction == "higher") == good else words.low


def beside(changes: Sequence[Change]) -> str:
    """'steadier and harder; softer ...': what serves better and worse than the first wood."""
    parts = []
    for verdict in (Verdict.BETTER, Verdict.WORSE):
        told = [_changed(c) for c in changes if c.verdict is verdict][:_NAMED]
        if told:
            parts.append(listed_and(told))
    return "; but ".join(parts) if len(parts) > 1 else next(iter(parts), "no clear difference")


def _changed(c: Change) -> str:
    words = words_of(c.criterion.column)
    more = (c.after or 0.0) > (c.before or 0.0)
    return (words.more if more else words.less).format("" if c.clear else "slightly ")


def woods_words(buyable: Buyable | None, kind: str) -> str:
    """'hardwoods stocked in Europe': which woods were looked at."""
    woods = f"{kind}s" if kind in ("hardwood", "softwood") else "woods"
    return f"all {woods} known" if buyable is None else f"{woods} {buyable.place}"


def gates_words(buyable: Buyable | None, kind: str) -> str:
    """As woods_words, with the way to the rest: '(--all-woods for the rest)'."""
    return woods_words(buyable, kind) + (" (--all-woods for the rest)" if buyable else "")


def allergy_line(names: Sequence[str]) -> list[str]:
    """The woods whose dust a document names for allergy; that of any wood harms."""
    return [f"Dust named for allergy: {', '.join(names)}; a mask with any wood."] if names else []
