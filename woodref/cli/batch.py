"""The command about a catalog of many boards: batch."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, Annotated, Any

import typer

from woodref.cli.options import (
    Cut,
    Force,
    Format,
    Save,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
    source_of,
)
from woodref.cli.output import checked_save, emit

if TYPE_CHECKING:
    from woodref.catalog.watch import Progress

#: Between two lines of progress [s].
_PROGRESS_SECONDS = 0.2


class _Ticker:
    """Rows done on a terminal, in one line that is wiped at the end; nothing elsewhere."""

    def __init__(self) -> None:
        self.shown = sys.stderr.isatty()
        self.last, self.width = 0.0, 0

    def __call__(self, progress: Progress) -> None:
        now = monotonic()
        if not self.shown or now - self.last < _PROGRESS_SECONDS:
            return
        self.last = now
        rate = progress.done / max(progress.seconds, 0.001)
        text = f"{progress.done:,} of {progress.rows:,} rows, {rate:,.0f} rows a second"
        sys.stderr.write("\r" + text.ljust(self.width))
        sys.stderr.flush()
        self.width = len(text)

    def end(self) -> None:
        """Wipe the line."""
        if self.width:
            sys.stderr.write("\r" + " " * self.width + "\r")
            sys.stderr.flush()


def _stop(*_: Any) -> None:
    raise KeyboardInterrupt


def batch_command(
    context: typer.Context,
    file: Annotated[
        Path, typer.Argument(help="Parts: .parquet, .csv or .jsonl, or a folder of them.")
    ],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="What to write: .parquet or .csv; nothing without."),
    ] = None,
    want: Annotated[
        str,
        typer.Option(help="Answers, of weight, volume, board_feet, movement, cost and shipping."),
    ] = "",
    columns: Annotated[
        str, typer.Option(help="Headings of your own: wood=Species,length=Long side.")
    ] = "",
    unit: Annotated[
        str, typer.Option(help="Unit of bare sizes: in, ft, mm, cm or m. Default as --units.")
    ] = "",
    percent: Annotated[
        str, typer.Option("--moisture", help="Moisture content of rows that name none.")
    ] = "8",
    to: Annotated[
        str, typer.Option("--to", help="Moisture content to move to, where rows name none.")
    ] = "",
    place: Annotated[
        str, typer.Option(help="Town to move through the year of, in place of --to.")
    ] = "",
    setting: Annotated[str, typer.Option(help="Kind of room in that town.")] = "",
    cut: Cut = "flat",
    prices: Annotated[Path | None, typer.Option(help="Price list.")] = None,
    price_lists: Annotated[
        str, typer.Option(help="Lists that the column price_list names: north=n.csv,south=s.csv.")
    ] = "",
    padding: Annotated[str, typer.Option(help="Room on each side in a carton, for shipping.")] = "",
    ranges: Annotated[
        bool, typer.Option("--ranges", help="Add where 9 boards in 10 fall, as columns.")
    ] = False,
    memory: Annotated[
        str, typer.Option(help="Most memory to use: 2GB. The rest goes to disk.")
    ] = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """Weight, board feet, movement, cost of a catalog of parts.

    Rows that cannot be computed go to OUTPUT.rejects.csv, each with its reason.
    """
    from woodref.answers.batch import batch_answer
    from woodref.catalog.request import Request, parse_columns, parse_price_lists, parse_want
    from woodref.catalog.run import compute_files
    from woodref.written import parse_length

    lists = parse_price_lists(price_lists) if price_lists else {}
    checked_save(save, force, prices, *lists.values())
    request = Request(
        want=parse_want(want) if want else (),
        columns=parse_columns(columns) if columns else {},
        units=units,
        unit=unit,
        cut=cut or "flat",
        moisture_pct=moisture(percent, units),
        to_moisture_pct=moisture(to, units) if to else None,
        # A town of the configuration gives way to a moisture content that is asked for.
        place="" if to and source_of(context, "place") != "COMMANDLINE" else place,
        setting=setting,
        prices=prices,
        price_lists=lists,
        padding_mm=parse_length(padding, length_unit(units)) if padding else None,
        ranges=ranges,
        memory=memory,
    )
    ticker = _Ticker()
    before = signal.signal(signal.SIGTERM, _stop)
    try:
        summary = compute_files(reference(), file, output, request, force, ticker)
    finally:
        ticker.end()
        signal.signal(signal.SIGTERM, before)
    emit(batch_answer(summary, units), units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "batch",
        epilog=example(
            "woodref batch parts.csv -o answers.parquet --want weight,board_feet",
            "woodref batch parts.parquet -o answers.csv --to 12 --ranges",
            "woodref batch parts/ -o answers.parquet --place Duluth --prices prices.csv",
        ),
    )(batch_command)
