"""Woods put through filters: who passes, what each filter removes, and why nobody is left.

One engine under woodref.choose.rank and woodref.choose.substitute: each gives it a query of
the woods with a ``score`` (the higher the better) and the figures each wood lacks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import duckdb

from woodref.choose.filters import Filter, nearest_sql
from woodref.errors import InputError
from woodref.record import record
from woodref.reference.store import dict_rows

#: SQL for woods of which print has more than a density.
MEASURED = "data_coverage in ('full', 'partial')"
#: SQL for woods of which enough is known to be chosen by more than their density: printed, or
#: estimated for the woods whose stock and look are told.
WELL_KNOWN = f"({MEASURED} or stock is not null)"


@record
class FilterCount:
    """How many woods a filter removes of those the filters before it let through.

    ``remaining`` how many are left after it.
    """

    filter: Filter
    removed: int
    remaining: int


@record
class Unranked:
    """A wood no filter removes for sure, but of which a figure is not known.

    ``missing_columns`` no table fills; ``unjudged`` the texts of filters that name no column
    and cannot be judged.
    """

    species_id: str
    common_name: str
    missing_columns: tuple[str, ...]
    unjudged: tuple[str, ...] = ()


@record
class Emptied:
    """The filter that let no wood through, and the wood that came nearest to passing it.

    ``nearest`` the columns of that wood, None where the filter is not known of any.
    """

    count: FilterCount
    nearest: dict[str, Any] | None

    def text(self, first: str) -> str:
        """What happened, in a line.

        Parameters: first, what the wood is called that leads without the filter: 'best'.
        """
        one = self.count.filter
        if self.nearest is None:
            return f"'{one.text}' is not known of any"
        name, column = self.nearest["common_name"], one.column
        miss = (
            f"nearest miss: {name} ({column.name} {self.nearest[column.name]:.6g})"
            if column
            else f"the {first} without it is {name}"
        )
        return f"'{one.text}' stops the last {self.count.removed}; {miss}"


def rows_of(connection: duckdb.DuckDBPyConnection, query: str) -> list[dict[str, Any]]:
    """The rows of a query as dicts by column."""
    return dict_rows(connection.execute(query))


def check_limit(limit: int, most: int) -> None:
    """See that a number of woods to show is one.

    Raises: InputError.
    """
    if not 1 <= limit <= most:
        raise InputError(f"the number of woods to show is 1 to {most}, not {limit}")


class Screening:
    """Woods of a query, each judged by every filter.

    Woods count where ``among`` holds. They are known where ``known`` does, which is true or
    false of every wood; what is not known is not ranked. Both are SQL over the query.
    """

    def __init__(
        self,
        connection: duckdb.DuckDBPyConnection,
        query: str,
        filters: Sequence[Filter],
        known: str,
        among: str = "true",
    ) -> None:
        """Judge the woods of a query.

        Parameters: connection of woodref.choose.candidates; query with ``species_id``,
        ``common_name``, ``score``, ``lacking`` (a list of columns) and the columns of the
        filters; filters in order; known, among.
        """
        self._connection = connection
        self._among = among
        self._known = known
        self.filters = tuple(filters)
        passes = "".join(f", {one.sql} as {self._passes(n)}" for n, one in enumerate(filters))
        connection.execute(f"create temp table judged as select *{passes} from ({query})")

    @staticmethod
    def _passes(n: int) -> str:
        """The column that holds whether a wood passes the n-th filter; null where not known."""
        return f"passes_{n}"

    def _through(self, filters: Iterable[int]) -> str:
        """SQL for known woods that pass some filters."""
        return " and ".join([self._among, self._known, *map(self._passes, filters)])

    def count(self, condition: str) -> int:
        """How many woods a condition, SQL over the query, holds for."""
        query = f"select count(*) from judged where {condition}"
        return int(self._connection.execute(query).fetchall()[0][0])

    @property
    def considered(self) -> int:
        """How many woods there are."""
        return self.count(self._among)

    @property
    def passed(self) -> int:
        """How many woods are known and pass every filter."""
        return self.count(self._through(range(len(self.filters))))

    def rows(self, limit: int | None = None) -> list[dict[str, Any]]:
        """The woods that pass every filter, best score first, then by name."""
        most = "" if limit is None else f"limit {limit}"
        through = self._through(range(len(self.filters)))
        return rows_of(
            self._connection,
            f"select * from judged where {through} order by score desc, common_name {most}",
        )

    def _counts(self, conditions: Sequence[str]) -> tuple[int, ...]:
        """How many woods each of some conditions holds for."""
        told = ", ".join(f"count(*) filter (where {c})" for c in conditions)
        return tuple(self._connection.execute(f"select {told} from judged").fetchall()[0])

    def failing(self, condition: str) -> tuple[Filter, ...]:
        """The filters that a wood a condition holds for does not pass."""
        if not self.filters:
            return ()
        each = [f"{condition} and {self._passes(n)} is false" for n in range(len(self.filters))]
        counts = self._counts(each)
        return tuple(one for one, n in zip(self.filters, counts, strict=True) if n)

    def filter_counts(self) -> tuple[FilterCount, ...]:
        """What each filter removes of the known woods, in order."""
        through = [self._through(range(n)) for n in range(len(self.filters) + 1)]
        left = self._counts(through)
        return tuple(
            FilterCount(one, before - remaining, remaining)
            for one, before, remaining in zip(self.filters, left, left[1:], strict=False)
        )

    def unranked(self) -> tuple[Unranked, ...]:
        """Woods no filter removes for sure, of which a figure is not known, by name."""
        every = [self._passes(n) for n in range(len(self.filters))]
        kept = " and ".join([self._among, *(f"{p} is distinct from false" for p in every)])
        unsure = " or ".join([f"not ({self._known})", *(f"{p} is null" for p in every)])
        columns = ", ".join(["species_id", "common_name", "lacking", *every])
        rows = rows_of(
            self._connection,
            f"select {columns}, {self._known} as is_known from judged "
            f"where {kept} and ({unsure}) order by common_name",
        )
        return tuple(
            Unranked(row["species_id"], row["common_name"], *self._missing(row)) for row in rows
        )

    def _missing(self, row: dict[str, Any]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """The columns a wood lacks, and the filters without a column it cannot be judged by."""
        open_ = [one for n, one in enumerate(self.filters) if row[self._passes(n)] is None]
        lacking = [] if row["is_known"] else row["lacking"]
        columns = dict.fromkeys([*lacking, *(one.needed for one in open_ if one.needed)])
        return tuple(columns), tuple(one.text for one in open_ if not one.needed)

    def emptied(self, counts: Sequence[FilterCount], must_fail: bool) -> Emptied | None:
        """The filter that let no wood through, None where there is none.

        Parameters: counts as filter_counts gives them; must_fail true where a wood of which
        the filter cannot be judged is no miss.
        """
        last = next((n for n, count in enumerate(counts) if not count.remaining), None)
        if last is None:
            return None
        fails = [f"not {self._passes(last)}"] if must_fail else []
        # Best a wood that passes all the rest; else one that passes what comes before.
        for others in (set(range(len(self.filters))) - {last}, set(range(last))):
            missed = " and ".join([self._through(sorted(others)), *fails])
            nearest = rows_of(
                self._connection,
                f"select * from judged where {missed} "
                f"order by {nearest_sql(self.filters[last])} limit 1",
            )
            if nearest:
                return Emptied(counts[last], nearest[0])
        return Emptied(counts[last], None)
