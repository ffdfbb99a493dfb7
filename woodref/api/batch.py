"""A catalog of many boards at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TypeAlias

from woodref.api.shared import reference
from woodref.catalog.names import coefficients_table
from woodref.catalog.request import Request, given, parse_want
from woodref.catalog.run import BatchSummary, compute_files, compute_table
from woodref.errors import InputError
from woodref.record import record

if TYPE_CHECKING:
    import duckdb
    import pandas
    import pyarrow


class ArrowStream(Protocol):
    """Whatever hands its columns over as an Arrow stream, as a frame of Polars does."""

    def __arrow_c_stream__(self, requested_schema: object = None) -> object:
        """Return the stream."""


#: What a catalog can be.
Catalog: TypeAlias = (
    "str | Path | pyarrow.Table | pandas.DataFrame | duckdb.DuckDBPyRelation | ArrowStream"
)
_UNITS = ("si", "us")


@record
class Batch:
    """A computed catalog.

    ``answers`` the rows that could be computed, with the columns of the catalog before the
    answers, and ``rejects`` the others, each with its row, the first being 1, column, value and
    reason; both None where they were written to files. ``summary`` counts them.
    """

    summary: BatchSummary
    answers: pyarrow.Table | None = None
    rejects: pyarrow.Table | None = None

    def frame(self) -> pandas.DataFrame:
        """Return the answers as a pandas frame.

        Raises
        ------
        InputError
            Where they were written to a file.
        """
        if self.answers is None:
            raise InputError(f"the answers are in {self.summary.output}")
        frame: pandas.DataFrame = self.answers.to_pandas()
        return frame


def batch(
    parts: Catalog,
    output: str | Path | None = None,
    *,
    want: str | Iterable[str] = (),
    columns: Mapping[str, str] | None = None,
    units: str = "si",
    unit: str = "",
    moisture_pct: float = 8.0,
    to_moisture_pct: float | None = None,
    place: str = "",
    setting: str = "",
    cut: str = "flat",
    prices: str | Path | None = None,
    price_lists: Mapping[str, str | Path] | None = None,
    padding_mm: float | None = None,
    ranges: bool = False,
    memory: str = "",
    overwrite: bool = False,
) -> Batch:
    """Compute weight, board feet, movement, cost and shipping of every row of a catalog.

    Parameters
    ----------
    parts : str, Path, or table
        A Parquet, CSV or JSON Lines file, or a folder of such; or an Arrow table, a pandas or
        Polars frame, a DuckDB relation, or whatever gives an Arrow stream. Columns wood, length,
        width, thickness, and where you have them stock, quantity, cut, moisture, to_moisture,
        place, setting, price_list; sizes are numbers, or text such as '19-1/2', '3 ft 2 in'
        and '4/4'.
    output : str or Path, optional
        A file .parquet or .csv to write, for catalogs in files; without it the answers are
        returned.
    want : str or iterable of str, optional
        Of weight, volume, board_feet, movement, cost and shipping; by default weight and volume,
        movement where the rows say where the wood goes, and cost where there is a price list.
    columns : mapping of str to str, optional
        Your heading by the name of the column: ``{"wood": "Species"}``.
    units : str, optional
        'si' or 'us': the units of the answers, and of bare sizes.
    unit : str, optional
        Unit of bare sizes: in, ft, mm, cm or m.
    moisture_pct : float, optional
        Moisture content of the sizes and of the weight, for rows that name none [%].
    to_moisture_pct : float, optional
        Moisture content that the width moves to, for rows that name none [%].
    place, setting : str, optional
        In place of that a town and a kind of room, through whose year the width moves.
    cut : str, optional
        'flat', 'rift', 'quarter' or a ring angle [degree], for rows that name none.
    prices : str or Path, optional
        A price list; by default the shop's own.
    price_lists : mapping of str to str or Path, optional
        Price lists by the name that a column price_list has in each row.
    padding_mm : float, optional
        Room on each side in a carton [mm].
    ranges : bool, optional
        Add the ends of the likely ranges as columns.
    memory : str, optional
        Most memory to use, '2GB'; the rest goes to disk.
    overwrite : bool, optional
        Replace an output that exists.

    Returns
    -------
    Batch
        The answers and the rejected rows, or where they were written, and counts.

    Raises
    ------
    InputError
        Where the catalog or the request cannot be used.

    Notes
    -----
    A row holds what :func:`woodref.weight`, :func:`woodref.movement` and a look-up of its wood
    give, by the same formulas, computed in DuckDB. Board feet are the face of a part times its
    rough stock, as in an estimate; no waste is added.

    Examples
    --------
    >>> import pandas, woodref
    >>> parts = pandas.DataFrame({"wood": ["cherry"], "length": [500.0], "width": [100.0],
    ...                           "thickness": [20.0]})
    >>> round(float(woodref.batch(parts).frame()["mass_kg"][0]), 2)
    0.55
    """
    if units not in _UNITS:
        raise InputError(f"units are 'si' or 'us', not '{units}'")
    request = Request(
        want=parse_want(want) if want else (),
        columns={given(name): heading for name, heading in (columns or {}).items()},
        units=units,
        unit=unit,
        cut=cut,
        moisture_pct=moisture_pct,
        to_moisture_pct=to_moisture_pct,
        place=place,
        setting=setting,
        prices=Path(prices) if prices else None,
        price_lists={name: Path(file) for name, file in (price_lists or {}).items()},
        padding_mm=padding_mm,
        ranges=ranges,
        memory=memory,
    )
    if isinstance(parts, str | Path):
        if output:
            return Batch(compute_files(reference(), Path(parts), Path(output), request, overwrite))
        answers, rejects, summary = compute_table(reference(), Path(parts), request)
    elif output:
        raise InputError("an output is for catalogs in files; a table gives a table")
    else:
        answers, rejects, summary = compute_table(reference(), _arrow(parts), request)
    return Batch(summary, answers, rejects)


def coefficients(names: Iterable[str] | None = None) -> pyarrow.Table:
    """Give the coefficients that density and movement of woods are computed with, as a table.

    Parameters
    ----------
    names : iterable of str, optional
        Names of woods; every wood without them.

    Returns
    -------
    pyarrow.Table
        A row for each name: ``species_id``, ``fiber_saturation_pct`` [%], ``middle_m3_per_kg``
        and ``m3_per_kg_per_pct`` for the macro density_by_coefficients; ``tangential_level``,
        ``tangential_slope``, ``tangential_bend_at_6``, ``_14`` and ``_saturation``, the same of
        ``radial``, and ``moves_to_pct`` for share_by_coefficients; the figures they are made of,
        their standard deviations, and the weakest basis of either. Your own figures go before
        printed ones. Null is what is not known.

    Raises
    ------
    InputError
        For a name that means no wood, or several.

    Notes
    -----
    The formulas that take them stand in ``woodref sql --macros``: for a DuckDB session, a
    database or a cluster of your own.

    Examples
    --------
    >>> import woodref
    >>> table = woodref.coefficients(["white oak"])
    >>> round(table["fiber_saturation_pct"][0].as_py())
    30
    """
    return coefficients_table(reference(), None if names is None else list(names))


def _arrow(parts: Catalog) -> pyarrow.Table:
    """Whatever holds columns as an Arrow table."""
    import pyarrow

    if isinstance(parts, pyarrow.Table):
        return parts
    package = type(parts).__module__.partition(".")[0]
    if package == "pandas":
        return pyarrow.Table.from_pandas(parts, preserve_index=False)
    if hasattr(parts, "to_arrow_table"):
        return parts.to_arrow_table()
    if not hasattr(parts, "__arrow_c_stream__"):
        raise InputError(
            f"a catalog is a file, an Arrow table, a frame or a relation, not {type(parts)}"
        )
    return pyarrow.table(parts)
