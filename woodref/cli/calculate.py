"""Commands that compute: movement."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.cli.options import Format, Style, Units, UnitSystem, length_unit, moisture, reference
from woodref.cli.render import Answer, Column, Section, emit
from woodref.estimate.stability import CUTS, movement, ring_angle
from woodref.formulas.spread import RULE
from woodref.units import KINDS, parse_length

Species = Annotated[str, typer.Argument(help="The wood, by any of its names.")]


def movement_command(
    species: Species,
    width: Annotated[str, typer.Option("--width", help="Width across the face.")],
    start: Annotated[str, typer.Option("--from", help="Moisture content now: 7, or air 68F,40%.")],
    end: Annotated[str, typer.Option("--to", help="Moisture content then.")],
    cut: Annotated[str, typer.Option("--cut", help="flat, rift, quarter, or a ring angle.")] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Width of a board after its moisture content changed.

    Example: woodref movement "sugar maple" --width 965mm --from 7 --to 11 --units si
    """
    wood = reference().wood(species)
    size = parse_length(width, length_unit(units))
    first, second = moisture(start, units), moisture(end, units)
    cuts = {cut: ring_angle(cut)} if cut else dict(CUTS)
    found = {name: movement(wood, size, first, second, angle) for name, angle in cuts.items()}
    lead = next(iter(found.values()))
    size_text, change_text = KINDS["size"].text, KINDS["change"].text
    answer = Answer(
        headline=[
            f"{wood.common_name}, {next(iter(found))} sawn: {size_text(size, units.value)} at "
            f"{first:.1f} % is {size_text(lead.after_mm, units.value)} at {second:.1f} %, "
            f"a change of {change_text(lead.change_mm, units.value)}."
        ],
        sections=[
            Section(
                "movement",
                "",
                [
                    Column("cut", "cut"),
                    Column("after", "width then", "size"),
                    Column("change", "change", "change"),
                    Column("change_low", "likely from", "change"),
                    Column("change_high", "to", "change"),
                ],
                [
                    {
                        "cut": name,
                        "after": m.after_mm,
                        "change": m.change_mm,
                        "change_low": m.change_low_mm,
                        "change_high": m.change_high_mm,
                    }
                    for name, m in found.items()
                ],
            )
        ],
        notes=[
            *lead.notes,
            f"Computed from {lead.basis.method}.",
            *(
                f"{v.property_id}: {v.printed}, {v.source} [{v.basis}]"
                for v in (lead.basis.tangential, lead.basis.radial)
            ),
            RULE[0].upper() + RULE[1:] + ".",
        ],
    )
    emit(answer, units.value, style.value)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("movement")(movement_command)
