"""Commands about woods: find, show, compare."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, Any

import typer

from woodref.cli.options import (
    Force,
    Format,
    Plot,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    reference,
    stock_region,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError, NoDataError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.charts.figure import Figure
    from woodref.choose.compare import Comparison
    from woodref.reference.look_search import Wanted

_PEOPLE = (Style.table, Style.markdown)


def _words(what: str, help_text: str) -> Any:
    """A repeatable option of find."""
    return typer.Option(f"--{what}", metavar="WORD", help=help_text)


def _lightness(text: str) -> tuple[float, float] | None:
    """From and to of a lightness: '3' or '2.5-3.5'; None for ''.

    Raises: InputError for anything else.
    """
    if not text:
        return None
    low, _, high = text.partition("-")
    try:
        return float(low), float(high or low)
    except ValueError:
        raise InputError(f"lightness cannot be '{text}'; write 3, or 2.5-3.5") from None


def find_command(
    name: Annotated[
        str, typer.Argument(help="A name, a part of one, or a misspelt one.", show_default=False)
    ] = "",
    hue: Annotated[
        list[str] | None, _words("hue", "Its hue as it reaches you, such as reddish brown.")
    ] = None,
    lightness: Annotated[
        str, typer.Option("--lightness", help="1 palest to 5 darkest: 3, or 2.5-3.5.")
    ] = "",
    texture: Annotated[
        list[str] | None, _words("texture", "fine, medium, coarse or uneven.")
    ] = None,
    pores: Annotated[list[str] | None, _words("pores", "none, diffuse, semi-ring or ring.")] = None,
    figure: Annotated[
        list[str] | None, _words("figure", "Its figure, such as flecked rays or ribbon.")
    ] = None,
    use: Annotated[
        list[str] | None, _words("use", "What it is used for, such as flooring; all of several.")
    ] = None,
    stocked: Annotated[
        bool,
        typer.Option("--stocked", help="Woods that most yards of the --region stock."),
    ] = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Which woods a name can mean, or look as asked.

    An option of the look may be repeated: any of its words will do.
    """
    from woodref.errors import PanelNameError, UnknownNameError
    from woodref.reference.look_search import wanted_look
    from woodref.reference.panel_names import panel_of
    from woodref.reference.search import find

    wanted = wanted_look(
        hue or (),
        texture or (),
        pores or (),
        figure or (),
        use or (),
        _lightness(lightness),
        stocked,
        stock_region(),
    )
    if not name and wanted.is_empty:
        raise InputError("find needs a name or a look; for example: woodref find --hue red")
    if not wanted.is_empty:
        _find_by_look(name, wanted, units, style)
        return
    from woodref.answers.find import find_answer

    matches = find(reference(), name)
    if not (matches.exact or matches.containing):
        if panel_of(name):
            raise PanelNameError(name)
        if not matches.near:
            raise UnknownNameError(name)
    emit(find_answer(matches, units, style in _PEOPLE), units, style)


def _find_by_look(name: str, wanted: Wanted, units: UnitSystem, style: Style) -> None:
    """Print the woods that look as asked, of those a name can mean where there is one."""
    from dataclasses import replace

    from woodref.answers.find_look import by_look_answer
    from woodref.reference.look_search import find_by_look
    from woodref.reference.search import find

    if name:
        named = find(reference(), name)
        ids = [c.wood.species_id for c in (*named.exact, *named.containing)]
        wanted = replace(wanted, among=ids)
    matches = find_by_look(reference(), wanted)
    if not matches.woods:
        raise NoDataError("no wood of the table looks as asked; ask for less of it")
    emit(by_look_answer(matches, units, style in _PEOPLE), units, style)


def show_command(
    species: Species,
    sources: Annotated[
        bool,
        typer.Option("--sources", help="Say where each number stands, and what else is printed."),
    ] = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Everything about a wood on one page.

    Weight of a board, movement through a year, hardness and cautions first; then names,
    printed figures and ratings.
    """
    from woodref.answers.show_page import page_of, show_answer

    emit(
        show_answer(page_of(reference(), species, units), units, sources, style in _PEOPLE),
        units,
        style,
    )


class Chart(StrEnum):
    """What a picture of woods shows."""

    side_by_side = "side-by-side"
    hardness_weight = "hardness-weight"


def _drawn(
    chart: Chart,
    comparison: Comparison,
    properties: Sequence[str] | None,
    units: str,
) -> Figure:
    if chart is Chart.side_by_side:
        from woodref.charts.dumbbell import dumbbells

        return dumbbells(comparison, properties, units)
    from woodref.charts.scatter import DENSITY, HARDNESS, hardness_density
    from woodref.choose.background import hardness_and_density
    from woodref.choose.compare import compare

    both = compare(comparison.woods, comparison.board, [DENSITY, HARDNESS])
    chosen = [i for w in comparison.woods for i in w.species_ids]
    return hardness_density(both, hardness_and_density(reference(), chosen), units)


def compare_command(
    species: Annotated[list[str], typer.Argument(help="Two woods or more, by any names.")],
    wanted: Annotated[
        list[str] | None,
        typer.Option("--property", help="A figure to compare, for example hardness; repeatable."),
    ] = None,
    plot: Plot = "",
    force: Force = False,
    chart: Annotated[
        Chart | None,
        typer.Option("--chart", help="What --plot shows: figures, or hardness against weight."),
    ] = None,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Compare woods, and see if single boards show it.

    The first wood is set against each of the others. --plot draws the figures, or with
    --chart hardness-weight hardness against weight.
    """
    from woodref.answers.compare import compare_answer, figures_asked
    from woodref.choose.compare import compare
    from woodref.choose.overview import USUAL_BOARDS

    if len(species) < 2:
        raise InputError(
            'compare takes two woods or more; for example: woodref compare hickory "hard maple"'
        )
    if chart and not plot:
        raise InputError(f"--chart goes with --plot, for example --plot {chart}.svg")
    checked_plot(plot, force)
    properties = figures_asked(wanted) if wanted else None
    woods = [reference().wood(name) for name in species]
    comparison = compare(woods, USUAL_BOARDS[units], properties)
    answer = compare_answer(comparison, units, properties, style in _PEOPLE)
    emit_with_plot(
        answer,
        units,
        style,
        plot,
        lambda: _drawn(chart or Chart.side_by_side, comparison, properties, units),
        force=force,
    )


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "find",
        epilog=example(
            "woodref find rosewood",
            "woodref find oak",
            "woodref find --hue cream --pores diffuse --stocked",
        ),
    )(find_command)
    app.command(
        "show", epilog=example('woodref show "white oak"', "woodref show teak --sources --units si")
    )(show_command)
    app.command(
        "compare",
        epilog=example(
            'woodref compare hickory "hard maple"',
            'woodref compare "European oak" "European beech" --units si',
            "woodref compare cherry walnut --property hardness --property movement",
            "woodref compare cherry walnut teak --plot woods.svg --chart hardness-weight",
        ),
    )(compare_command)
