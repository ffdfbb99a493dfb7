"""The answer of find by look: woods that look as asked, and where yards stock them."""

from __future__ import annotations

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.find import hardness_cells
from woodref.answers.property_text import footnotes, mark_of
from woodref.reference.look_search import Match, Matches, Wanted
from woodref.reference.looks import Cell

#: The most woods printed for people; programs get all of them.
_MOST = 40
#: Cells of the look that are told, and the names they have in an answer.
_CELLS = {"texture": "texture", "pores": "pores", "figure": "wood_figure"}


def _asked(wanted: Wanted) -> str:
    """What was asked for, in words."""
    parts = [
        *(
            f"{what} {' or '.join(words)}"
            for what in ("hue", *_CELLS)
            if (words := getattr(wanted, what))
        ),
        *(["lightness {:g} to {:g}".format(*wanted.lightness)] if wanted.lightness else []),
        *([f"used for {' and '.join(wanted.uses)}"] if wanted.uses else []),
        *([f"commonly stocked in {wanted.region}"] if wanted.stocked else []),
    ]
    return ", ".join(parts)


def _text(cell: Cell | None) -> str:
    return "" if cell is None else f"{cell.value}{mark_of(cell.basis)}"


def _row(match: Match, wanted: Wanted, units: str) -> dict[str, object]:
    wood, look = match.wood, match.look
    cells = {**look.seen, **{key: look.cells.get(name) for name, key in _CELLS.items()}}
    return {
        "wood": wood.common_name,
        "botanical_name": wood.botanical_name,
        "species_id": wood.species_id,
        "kind": wood.kind,
        **{name: cell.value if cell else None for name, cell in cells.items()},
        **{f"{name}_basis": cell.basis if cell else None for name, cell in cells.items()},
        **{f"{name}_text": _text(cell) for name, cell in cells.items()},
        "stock_class": look.stock.get(wanted.region),
        **hardness_cells(wood, units),
    }


def _columns(for_people: bool, region: str) -> list[Column]:
    names = [Column("wood", "wood"), Column("botanical_name", "botanical name")]
    cells = ("hue", "lightness", *_CELLS.values())
    if for_people:
        return [
            *names,
            *(Column(f"{k}_text", head) for head, k in {"hue": "hue", **_CELLS}.items()),
            Column("stock_class", region),
            Column("hardness_text", "hardness"),
        ]
    return [
        *names,
        *(Column(c, "") for c in ("species_id", "kind")),
        *(Column(key, "") for c in cells for key in (c, f"{c}_basis")),
        Column("stock_class", ""),
        Column("side_hardness", "", "force"),
        Column("side_hardness_basis", ""),
    ]


def by_look_answer(matches: Matches, units: str, for_people: bool = True) -> Answer:
    """Woods that look as asked, as an answer.

    Parameters: matches; units; for_people false for the complete list.
    """
    wanted, woods = matches.wanted, matches.woods
    shown = woods[:_MOST] if for_people else woods
    rows = [_row(m, wanted, units) for m in shown]
    count = f"{len(woods)} wood{'' if len(woods) == 1 else 's'}"
    more = (
        f"; the first {len(shown)} here, --format json tells all" if len(shown) < len(woods) else ""
    )
    texts = [str(v) for r in rows for k, v in r.items() if k.endswith("_text")]
    return Answer(
        headline=[f"{count}: {_asked(wanted)}{more}."],
        facts=[(Column("region", ""), wanted.region)],
        sections=[
            Section("by_look", "", _columns(for_people, wanted.region), rows),
        ],
        notes=[
            "The look is typical of a wood, not a test of identity: boards of one wood vary.",
            "Hue is that of the wood as it reaches the maker, which is our judgment where that is "
            "sapwood or mixed. What yards stock is common practice, no source.",
            "Hardness is Janka's at 12 %. woodref show NAME tells where all of it comes from.",
            *footnotes(texts),
        ],
        main="by_look",
    )
