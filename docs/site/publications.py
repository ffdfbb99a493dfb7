"""A page a publication: what it is, how it was read, and what the data took from it."""

from __future__ import annotations

import tomllib
from collections import defaultdict
from collections.abc import Iterator
from functools import cache

import woodref
from docs.site.data import descriptor, query, table_path
from docs.site.page import Page, blocks, link, plain, read, table
from woodref.reference.bases import BASES, in_words
from woodref.reference.properties import PROPERTIES
from woodref.reference.sources import Source


def publication_path(source_id: str) -> str:
    """Where the page of a publication stands."""
    return f"data/publications/{source_id}.md"


@cache
def publications() -> tuple[Source, ...]:
    """Every publication, in the order of precedence."""
    return tuple(woodref.sources())


@cache
def _files() -> dict[str, list[tuple[str, int]]]:
    """By publication: the files of datasets/sources its rows stand in, and how many there are."""
    rows: dict[str, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for resource in descriptor()["resources"]:
        columns = {f["name"] for f in resource["schema"]["fields"]}
        if {"source_id", "source_table", "source_line"} <= columns:
            counted = query(
                "select source_id, source_table, count(distinct source_line) "
                f"from {{{resource['name']}}} where source_id is not null group by all"
            )
            for source_id, file, count in counted:
                rows[source_id][file] = max(count, rows[source_id][file])
    return {source_id: sorted(files.items()) for source_id, files in rows.items()}


@cache
def _origins() -> dict[str, dict[str, str]]:
    """What is printed in the tables carried over, by the name of the file."""
    tables: dict[str, dict[str, str]] = tomllib.loads(read("datasets/sources/origins.toml"))[
        "tables"
    ]
    return tables


def _carried(source: Source) -> list[tuple[str, ...]]:
    """The tables carried over from a publication."""
    rows: list[tuple[str, ...]] = []
    for file, count in _files().get(source.source_id, ()):
        origin = _origins().get(file.removesuffix(".csv"), {})
        where = [origin.get("printed", ""), f"p. {origin['pages']}" if origin.get("pages") else ""]
        told = ", ".join(x for x in where if x)
        rows.append((f"`{file}`", plain(origin.get("title", "")), plain(told), f"{count:,}"))
    return rows


@cache
def _other_rows() -> dict[str, list[tuple[str, str, int]]]:
    """By publication: table, basis and rows, of the tables that are not measurements."""
    rows: dict[str, list[tuple[str, str, int]]] = defaultdict(list)
    for resource in descriptor()["resources"]:
        columns = {f["name"] for f in resource["schema"]["fields"]}
        name = resource["name"]
        if "source_id" not in columns or name in ("measurements", "sources"):
            continue
        basis = "basis" if "basis" in columns else "''"
        counted = query(
            f"select source_id, {basis} as b, count(*) from {{{name}}} "
            "where source_id is not null group by all order by all"
        )
        for source_id, known, count in counted:
            rows[source_id].append((name, known or "", count))
    return rows


@cache
def _figures() -> dict[str, list[tuple[str, str, str, int, int]]]:
    """By publication: printed table, property, basis, figures, and how many are used."""
    rows = defaultdict(list)
    counted = query(
        "select source_id, coalesce(printed_table, ''), property_id, basis, count(*), "
        "count(*) filter (where preferred) from {measurements} group by all"
    )
    order = list(PROPERTIES)
    for source_id, *rest in sorted(counted, key=lambda r: (r[0], r[1], order.index(r[2]), r[3])):
        rows[source_id].append(tuple(rest))
    return rows


def _bases(source: Source) -> list[tuple[str, str, str]]:
    """How its rows are known: measurements and rows of other tables."""
    other: dict[str, int] = defaultdict(int)
    for _, basis, count in _other_rows()[source.source_id]:
        other[basis] += count
    return [
        (plain(in_words(b)), f"{source.bases.get(b, 0):,}", f"{other.get(b, 0):,}")
        for b in BASES
        if source.bases.get(b) or other.get(b)
    ]


def _facts(source: Source) -> str:
    said = (
        ("title", source.title),
        ("authors", source.authors),
        ("publisher", source.publisher),
        ("report", source.report_number),
        ("year", source.year),
        ("license", source.license),
        ("how it came here", source.how),
        ("where", source.url),
        ("order of precedence", source.rank),
    )
    rows = [(what, plain(is_)) for what, is_ in said if is_]
    return table(("what", "is"), rows)


def _page(source: Source) -> str:
    figures = [
        (
            plain(printed) or "not named",
            plain(PROPERTIES[p].label),
            plain(in_words(basis)),
            f"{n:,}",
            f"{used:,}",
        )
        for printed, p, basis, n, used in _figures().get(source.source_id, ())
    ]
    others = [
        (link(name, table_path(name)), plain(in_words(basis)) if basis else "", f"{n:,}")
        for name, basis, n in _other_rows().get(source.source_id, ())
    ]
    known, carried = _bases(source), _carried(source)
    heads = ("printed table", "figure", "how it is known", "figures", "used")
    return blocks(
        f"# {plain(source.short)}",
        f"{source.measurements:,} printed figures, {source.preferred:,} of them used; "
        f"{sum(n for *_, n in _other_rows().get(source.source_id, ())):,} rows of other tables.",
        _facts(source),
        *(
            ("## How it is known", table(("basis", "figures", "other rows"), known, right=(1, 2)))
            if known
            else ()
        ),
        *(
            (
                "## Tables carried over",
                "Files of `datasets/sources`, a printed row a line.",
                table(("file", "what it holds", "printed in", "rows"), carried, right=(3,)),
            )
            if carried
            else ()
        ),
        *(("## Figures", table(heads, figures, right=(3, 4))) if figures else ()),
        *(
            (
                "## Rows of other tables",
                table(("table", "how it is known", "rows"), others, right=(2,)),
            )
            if others
            else ()
        ),
        f"The words for how a figure is known: {link('basis', 'data/index.md', 'basis')}. "
        f"All publications: {link('the list', 'data/publications/index.md')}. A figure that is "
        "carried over is no structural design value; local codes and licensed practice decide.",
    )


def _index() -> str:
    rows = [
        (
            link(s.short, publication_path(s.source_id)),
            plain(s.license),
            f"{s.measurements:,}",
            f"{s.preferred:,}",
            f"{s.other_rows:,}",
        )
        for s in publications()
    ]
    heads = ("publication", "license", "figures", "used", "other rows")
    return blocks(
        "# Publications",
        f"The {len(rows)} publications, pages and lists that figures and facts come from, in the "
        "order of precedence where several print the same figure of a wood. Each has a page that "
        "says what was taken from it and how surely it was read.",
        table(heads, rows, right=(2, 3, 4)),
    )


def pages() -> Iterator[Page]:
    """The list, and each publication."""
    yield Page("data/publications/index.md", _index)
    for source in publications():
        path = publication_path(source.source_id)
        yield Page(path, lambda source=source: _page(source), listed=False)  # type: ignore[misc]
