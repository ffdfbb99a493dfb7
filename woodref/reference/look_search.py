"""Woods by how they look, what they are used for and where yards stock them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from woodref.display import Grid, Shown
from woodref.errors import InputError
from woodref.files import nearest
from woodref.record import record
from woodref.reference.library import Reference, marks
from woodref.reference.look_words import COMMONLY_STOCKED, LOOK_VALUES, REGIONS, STOCK_CLASSES, USES
from woodref.reference.looks import Look, looks_of
from woodref.reference.woods import Wood

#: What is asked for, the words it can be, and the SQL of the cell that is looked at.
_WORDS: dict[str, tuple[tuple[str, ...], str]] = {
    "hue": (LOOK_VALUES["heartwood_hue"], "coalesce(l.sold_as_hue, l.heartwood_hue)"),
    "texture": (LOOK_VALUES["texture"], "l.texture"),
    "pores": (LOOK_VALUES["pores"], "l.pores"),
    "figure": (LOOK_VALUES["figure"], "l.figure"),
}
_LIGHTNESS = "coalesce(l.sold_as_lightness, l.heartwood_lightness)"
_LIGHTEST, _DARKEST = 1.0, 5.0


@record
class Wanted:
    """What a look should be: any of the words of each kind, all of the uses; empty asks nothing.

    ``lightness`` from and to, 1 palest to 5 darkest; ``stocked`` true for woods that most yards
    of ``region`` stock; ``among`` the woods to look at, None for all.
    """

    hue: tuple[str, ...] = ()
    texture: tuple[str, ...] = ()
    pores: tuple[str, ...] = ()
    figure: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()
    lightness: tuple[float, float] | None = None
    stocked: bool = False
    region: str = REGIONS[0]
    among: Collection[str] | None = None

    @property
    def is_empty(self) -> bool:
        """True where nothing is asked."""
        words = (self.hue, self.texture, self.pores, self.figure, self.uses)
        return not any(words) and self.lightness is None and not self.stocked


@record
class Match:
    """A wood that looks as asked."""

    wood: Wood
    look: Look


@record(repr=False)
class Matches(Shown):
    """Woods that look as asked, those that more yards of the region stock first."""

    wanted: Wanted
    woods: tuple[Match, ...]

    def _line(self) -> str:
        return f"{len(self.woods)} woods look as asked"

    def _grid(self) -> Grid:
        region = self.wanted.region
        return Grid(
            ("wood", "hue", "texture", "pores", "figure", region),
            (
                (
                    m.wood.common_name,
                    m.look.seen["hue"].value,
                    *(m.look.value(c) for c in ("texture", "pores", "figure")),
                    m.look.stock.get(region),
                )
                for m in self.woods
            ),
        )


def known_word(what: str, word: str, words: Sequence[str]) -> str:
    """A word as it stands in the table.

    Raises: InputError with the nearest word, or all of them.
    """
    text = " ".join(word.lower().split())
    if text not in words:
        near = nearest(text, words, f"use {', '.join(words)}")
        raise InputError(f"no {what} is called '{word}'; {near}")
    return text


def wanted_look(
    hue: Iterable[str] = (),
    texture: Iterable[str] = (),
    pores: Iterable[str] = (),
    figure: Iterable[str] = (),
    uses: Iterable[str] = (),
    lightness: tuple[float, float] | None = None,
    stocked: bool = False,
    region: str = REGIONS[0],
    among: Collection[str] | None = None,
) -> Wanted:
    """What is asked for, every word checked.

    Raises: InputError with the nearest word for one that is none, and for a lightness out of
    1 to 5 or the wrong way round.
    """
    asked = {"hue": hue, "texture": texture, "pores": pores, "figure": figure}
    checked = {
        what: tuple(known_word(what, w, _WORDS[what][0]) for w in words)
        for what, words in asked.items()
    }
    if lightness is not None and not _LIGHTEST <= lightness[0] <= lightness[1] <= _DARKEST:
        raise InputError("lightness runs from 1, palest, to 5, darkest, the lower end first")
    if region not in REGIONS:
        raise InputError(f"no region is called '{region}'; use {', '.join(REGIONS)}")
    return Wanted(
        **checked,
        uses=tuple(known_word("use", u, USES) for u in uses),
        lightness=lightness,
        stocked=stocked,
        region=region,
        among=among,
    )


def _conditions(wanted: Wanted) -> tuple[list[str], list[object]]:
    """The SQL of what is asked, and its parameters."""
    sql: list[str] = []
    parameters: list[object] = []
    for what, (_, cell) in _WORDS.items():
        words = getattr(wanted, what)
        if words:
            sql.append(f"{cell} in ({marks(words)})")
            parameters += words
    for use in wanted.uses:
        sql.append("l.species_id in (select u.species_id from {uses_of_woods} u where u.use = ?)")
        parameters.append(use)
    if wanted.lightness is not None:
        sql.append(f"{_LIGHTNESS} between ? and ?")
        parameters += wanted.lightness
    if wanted.stocked:
        sql.append(
            "l.species_id in (select s.species_id from {stock} s where s.region = ? "
            "and s.class = ?)"
        )
        parameters += [wanted.region, COMMONLY_STOCKED]
    if wanted.among is not None:
        ids = list(wanted.among)
        sql.append(f"l.species_id in ({marks(ids)})" if ids else "false")
        parameters += ids
    return sql, parameters


def find_by_look(reference: Reference, wanted: Wanted) -> Matches:
    """The woods that look as asked, those that more yards of the region stock first.

    Hue and lightness are those of the wood as it reaches the maker.
    """
    sql, parameters = _conditions(wanted)
    where = f"where {' and '.join(sql)}" if sql else ""
    asked = f"select l.species_id from {{looks}} l {where}"
    looks = looks_of(reference, [r["species_id"] for r in reference.store.rows(asked, parameters)])
    woods = reference.woods(look.species_id for look in looks)
    order = list(STOCK_CLASSES)

    def place(match: Match) -> tuple[int, str]:
        stocked = match.look.stock.get(wanted.region)
        rank = order.index(stocked) if stocked else len(order)
        return rank, match.wood.common_name.lower()

    matches = [Match(woods[k.species_id], k) for k in looks if k.species_id in woods]
    return Matches(wanted, tuple(sorted(matches, key=place)))
