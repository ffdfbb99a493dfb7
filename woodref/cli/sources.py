"""Commands about the data: sources, sql."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from woodref.answers.render import Answer, Column, Section
from woodref.cli.options import Format, Style, Units, UnitSystem, example, reference
from woodref.cli.output import emit
from woodref.errors import InputError

#: Sources listed in a message, at most.
_LISTED = 8
_COUNTED = (
    "select s.*, count(m.measurement_id) as measurements, "
    "count(m.measurement_id) filter (where m.preferred) as preferred "
    "from {sources} s left join {measurements} m using (source_id) group by all "
    "order by rank, measurements desc, source_id"
)
_BY_BASIS = (
    "select source_id, basis, count(*) as n from {measurements} group by all order by n desc, basis"
)
_BY_PROPERTY = (
    "select property_id, printed_table, basis, count(*) as measurements, "
    "count(*) filter (where preferred) as preferred from {measurements} "
    "where source_id = ? group by all order by measurements desc, property_id, printed_table, basis"
)


def _other_rows() -> dict[str, int]:
    """How many rows each source gives to tables other than that of the measurements."""
    from woodref.reference.fields import TABLES

    store = reference().store
    tables = [
        f"select source_id from {{{t.name}}}"
        for t in TABLES.values()
        if "source_id" in t.columns
        and t.name not in ("sources", "measurements")
        and (store.folder / f"{t.name}.parquet").is_file()
    ]
    rows = store.rows(
        f"select source_id, count(*) as n from ({' union all '.join(tables)}) group by all"
    )
    return {row["source_id"]: row["n"] for row in rows}


def _one_source(name: str, found: list[dict[str, Any]]) -> dict[str, Any]:
    """The source whose identifier or short citation is the name, or the only one it is part of.

    Raises: InputError with the nearest identifiers.
    """
    key = name.strip().casefold()
    exact = [s for s in found if key in (s["source_id"].casefold(), s["short"].casefold())]
    part = [s for s in found if key in f"{s['source_id']} {s['short']} {s['title']}".casefold()]
    hits = exact or part
    if len(hits) == 1:
        return hits[0]
    if hits and key:
        more = f" and {len(hits) - _LISTED} more" if len(hits) > _LISTED else ""
        raise InputError(
            f"'{name}' is part of {len(hits)} sources; choose one: "
            + ", ".join(s["source_id"] for s in hits[:_LISTED])
            + more
        )
    from difflib import get_close_matches

    near = get_close_matches(name, [s["source_id"] for s in found], 3, 0.3)
    hint = f"nearest: {', '.join(near)}" if near else "woodref sources lists them"
    raise InputError(f"no source is called '{name}'; {hint}")


def _all_sources(found: list[dict[str, Any]], bases: dict[str, str]) -> Answer:
    total = sum(s["measurements"] for s in found)
    return Answer(
        headline=[
            f"{total:,} printed figures from {sum(s['measurements'] > 0 for s in found)} "
            f"publications, {sum(s['preferred'] for s in found):,} of them used; "
            f"{sum(s['measurements'] == 0 for s in found)} more give classes, cautions and rules."
        ],
        sections=[
            Section(
                "sources",
                "",
                [
                    Column("short", "publication"),
                    Column("measurements", "figures", "count"),
                    Column("preferred", "used", "count"),
                    Column("basis", "how known"),
                    Column("other_rows", "other rows", "count"),
                    Column("license", ""),
                    Column("source_id", ""),
                ],
                [
                    {**s, "basis": bases.get(s["source_id"], "")}
                    for s in sorted(found, key=lambda s: s["measurements"] == 0)
                ],
            )
        ],
        notes=[
            "woodref sources NAME tells about one of them, its license too; any part of the name "
            "of the publication will do. A figure marked memory is recalled, "
            "not seen in print."
        ],
    )


def _about(source: dict[str, Any], rows: list[dict[str, Any]]) -> Answer:
    labels = {
        "title": "Title",
        "authors": "Authors",
        "publisher": "Publisher",
        "report_number": "Report number or edition",
        "year": "Year",
        "license": "License",
        "url": "Address",
        "how": "How the figures came here",
    }
    return Answer(
        headline=[
            f"{source['short']}: {source['measurements']:,} figures, "
            f"{source['preferred']:,} of them used; {source['other_rows']:,} other rows."
        ],
        facts=[(Column(key, ""), source[key]) for key in ("source_id", "short", *labels)],
        sections=[
            Section(
                "figures",
                "",
                [
                    Column("property_id", "property"),
                    Column("printed_table", "table"),
                    Column("basis", "basis"),
                    Column("measurements", "figures", "count"),
                    Column("preferred", "used", "count"),
                ],
                rows,
            )
        ],
        notes=[f"{label}: {source[key]}" for key, label in labels.items() if source[key]],
    )


def sources_command(
    name: Annotated[str, typer.Argument(help="A source to tell about; all of them without.")] = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """The publications behind the numbers."""
    store = reference().store
    others = _other_rows()
    found = [{**s, "other_rows": others.get(s["source_id"], 0)} for s in store.rows(_COUNTED)]
    if name:
        source = _one_source(name, found)
        answer = _about(source, store.rows(_BY_PROPERTY, [source["source_id"]]))
    else:
        bases: dict[str, list[str]] = {}
        for row in store.rows(_BY_BASIS):
            bases.setdefault(row["source_id"], []).append(f"{row['basis']} {row['n']}")
        answer = _all_sources(found, {key: ", ".join(words) for key, words in bases.items()})
    emit(answer, units, style)


def sql_command(
    query: Annotated[str, typer.Argument(help="One select statement.")],
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """Ask the tables of the dataset in SQL.

    For reading alone; values are SI, as stored. The tables: species, names, groups,
    properties, measurements, ratings, sources, cautions and others; 'show tables' lists
    them and 'describe species' the columns of one.
    """
    import signal

    from woodref.reference.query import run_query

    # A long query looks at an interrupt late or not at all; there is nothing here to clean up.
    before = signal.signal(signal.SIGINT, signal.SIG_DFL)
    try:
        columns, rows = run_query(query)
    finally:
        signal.signal(signal.SIGINT, before)
    keys = [
        f"{c}_{columns[:i].count(c) + 1}" if c in columns[:i] else c for i, c in enumerate(columns)
    ]
    section = Section(
        "rows",
        "",
        [Column(key, head) for key, head in zip(keys, columns, strict=True)],
        [dict(zip(keys, row, strict=True)) for row in rows],
    )
    emit(Answer(sections=[section], notes=[] if rows else ["No rows."]), units, style)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("sources", epilog=example("woodref sources", "woodref sources wood-handbook-2021"))(
        sources_command
    )
    app.command(
        "sql",
        epilog=example(
            'woodref sql "select common_name, side_hardness_n from species '
            'order by 2 desc limit 5"',
            'woodref sql "describe measurements"',
        ),
    )(sql_command)
