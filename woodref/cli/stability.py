"""The command that says how stable a wood is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.provenance import (
    based_on,
    basis_notes,
    recalled_line,
    sentence,
    sentences,
    spread_notes,
)
from woodref.answers.render import Answer, Column, Section
from woodref.answers.words import identity, percent_text, room_facts
from woodref.cli.options import (
    Format,
    PlaceOption,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    moisture,
    reference,
    room_asked,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.units import KINDS, MM_PER_FOOT

if TYPE_CHECKING:
    from woodref.board.movement import Stability
    from woodref.climate.rooms import Room
    from woodref.reference.ranks import MovementRank

#: The width a wood's seasonal change is told for: a foot, or 300 mm.
_WIDTH_MM = {"us": MM_PER_FOOT, "si": 300.0}


def _word(rank: MovementRank) -> str:
    """How a wood moves among others, by thirds (our own words)."""
    share = rank.less / rank.woods
    return "moves little" if share < 1 / 3 else "moves a lot" if share > 2 / 3 else "moves as most"


def _ranked(s: Stability) -> str:
    if s.rank is None:
        return (
            "Its rank is not known: no table holds its shrinkage green to ovendry, by which woods "
            "are ranked"
        )
    r = s.rank
    estimated = (
        ", as far as its density tells" if s.flat.basis.tangential.basis == "estimated" else ""
    )
    return (
        f"It {_word(r)}{estimated}: of {r.woods} woods with printed shrinkages {r.less} move less "
        f"along the rings and {r.more} move more"
    )


def _stability_answer(s: Stability, room: Room | None, notes: list[str], units: str) -> Answer:
    flat, quarter = s.flat, s.quarter
    change, used = KINDS["change"].text, (flat.basis.tangential, flat.basis.radial)
    where = f", {room.label}" if room else ""
    width = "a foot" if units == "us" else "300 mm"
    lead = (
        f"{sentence(flat.wood.common_name)}: {width} of width changes by "
        f"{change(flat.change_mm, units)} flat sawn and {change(quarter.change_mm, units)} quarter "
        f"sawn between {percent_text(flat.from_moisture_pct)} and "
        f"{percent_text(flat.to_moisture_pct)}{where}."
    )
    evener = f"; {s.rank.evener} of the {s.rank.woods} are more even" if s.rank else ""
    ratio = (
        f"It moves {s.ratio:.1f} times as much along the rings as across them{evener}: the nearer "
        "to 1, the less it cups."
    )
    columns = [
        Column("cut", "cut"),
        Column("change", "change", "change"),
        Column("change_low", "likely from", "change_end"),
        Column("change_high", "to", "change_end"),
    ]
    rows = [
        {
            "cut": cut,
            "change": m.change_mm,
            "change_low": m.likely_change_mm.low,
            "change_high": m.likely_change_mm.high,
        }
        for cut, m in (("flat", flat), ("quarter", quarter))
    ]
    return Answer(
        headline=[lead, f"{_ranked(s)}.", ratio, *recalled_line(used)],
        facts=[
            (Column("wood", ""), flat.wood.common_name),
            (Column("botanical_name", ""), flat.wood.botanical_name),
            *room_facts(room),
            (Column("from_moisture", "", "percent"), flat.from_moisture_pct),
            (Column("to_moisture", "", "percent"), flat.to_moisture_pct),
            (Column("width", "", "size"), flat.size_mm),
            (Column("tangential_over_radial", "", "ratio"), s.ratio),
            (Column("woods_ranked", "", "count"), s.rank.woods if s.rank else None),
            (Column("woods_moving_less", "", "count"), s.rank.less if s.rank else None),
            (Column("woods_moving_more", "", "count"), s.rank.more if s.rank else None),
            (Column("woods_more_even", "", "count"), s.rank.evener if s.rank else None),
        ],
        sections=[Section("stability", "", columns, rows), based_on(used)],
        notes=[
            *identity(flat.wood),
            *sentences((*flat.notes, *notes)),
            f"Computed from {flat.basis.method}.",
            *basis_notes(used),
            *spread_notes(used),
        ],
    )


def stability_command(
    context: typer.Context,
    species: Species,
    start: Annotated[
        str, typer.Option("--from", help="The drier moisture content: 6, or air 68F,40%.")
    ] = "",
    end: Annotated[str, typer.Option("--to", help="The wetter one; 6 and 10 where none.")] = "",
    place: PlaceOption = "",
    setting: Setting = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """How much a wood moves, and how many other woods move less.

    Between two moisture contents, or the driest and the wettest month of a room.
    """
    from woodref.board.movement import stability_of
    from woodref.climate.part_seasons import DAMPEST_PCT, DRIEST_PCT, USUAL_YEAR

    if bool(start) != bool(end):
        raise InputError("give both --from and --to, or neither")
    room = room_asked(context, place, setting, bool(start))
    if room and start:
        raise InputError("give --from and --to, or a place, not both")
    notes: list[str] = []
    if room:
        from woodref.climate.rooms import LAG

        dry, wet = room.season.driest.emc_pct, room.season.wettest.emc_pct
        notes = [n.text for n in (*room.notes, LAG)]
    elif start:
        dry, wet = sorted((moisture(start, units), moisture(end, units)))
    else:
        dry, wet = DRIEST_PCT, DAMPEST_PCT
        notes = [USUAL_YEAR.text]
    wood = reference().wood(species)
    s = stability_of(reference(), wood, dry, wet, _WIDTH_MM[units])
    emit(_stability_answer(s, room, notes, units), units, style, save)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "stability",
        epilog=example(
            "woodref stability cherry",
            'woodref stability "red oak" --place Savannah --setting heated-house',
        ),
    )(stability_command)
