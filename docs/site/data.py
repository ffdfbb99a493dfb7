"""The data, page by page: every table with how full it is and from where to where it goes."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import duckdb

from docs.site.links import for_site
from docs.site.page import ROOT, Page, blocks, link, menu, plain, read, table

_FILE = "docs/data-dictionary.md"
_FOLDER = ROOT / "datasets" / "reference"


@cache
def descriptor() -> dict[str, Any]:
    """The description of the data package."""
    described: dict[str, Any] = json.loads(read("datasets/reference/datapackage.json"))
    return described


def query(sql: str, parameters: list[Any] | None = None) -> list[tuple[Any, ...]]:
    """Rows of the published tables, each called by its name in braces."""
    tables = {r["name"]: f"'{_FOLDER / r['path']}'" for r in descriptor()["resources"]}
    filled = re.sub(r"\{(\w+)\}", lambda m: tables[m[1]], sql)
    return _connection().execute(filled, parameters or []).fetchall()


@cache
def _connection() -> duckdb.DuckDBPyConnection:
    return duckdb.connect()


def table_path(name: str) -> str:
    """Where the page of a table stands."""
    return f"data/tables/{name}.md"


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:,.6g}"


def _ranges(resource: dict[str, Any]) -> tuple[int, dict[str, tuple[int, str, str]]]:
    """Rows of a table; by column how many are filled, and of numbers the smallest and largest."""
    fields = resource["schema"]["fields"]
    asked = ["count(*)"]
    for f in fields:
        name = f'"{f["name"]}"'
        numeric = f["type"] in ("number", "integer")
        asked += [f"count({name})"]
        asked += [f"min({name})", f"max({name})"] if numeric else ["null", "null"]
    rows, *rest = query(f"select {', '.join(asked)} from {{{resource['name']}}}")[0]
    return rows, {
        f["name"]: (rest[3 * i], _number(rest[3 * i + 1]), _number(rest[3 * i + 2]))
        for i, f in enumerate(fields)
    }


def _limits(field: dict[str, Any]) -> str:
    limits = field.get("constraints", {})
    said = [" / ".join(limits["enum"])] if "enum" in limits else []
    said += [
        word for key, word in (("required", "required"), ("unique", "unique")) if limits.get(key)
    ]
    return ", ".join(said)


def _keys(schema: dict[str, Any]) -> str:
    key = ", ".join(f"`{k}`" for k in schema.get("primaryKey", []))
    refers = "; ".join(
        f"`{', '.join(k['fields'])}` refers to "
        + link(k["reference"]["resource"], table_path(k["reference"]["resource"]))
        for k in schema.get("foreignKeys", [])
        if k["reference"]["resource"]
    )
    return ". ".join(x for x in (f"Key: {key}" if key else "", refers) if x)


def _table_page(resource: dict[str, Any]) -> str:
    rows, ranges = _ranges(resource)
    fields = [
        (
            f"`{f['name']}`",
            plain(f["description"]),
            plain(f.get("unit", f["type"])),
            f"{ranges[f['name']][0]:,}",
            " to ".join(x for x in ranges[f["name"]][1:] if x),
            plain(_limits(f)),
        )
        for f in resource["schema"]["fields"]
    ]
    heads = ("column", "what it holds", "unit or type", "filled", "range", "limits")
    return blocks(
        f"# {plain(resource['title'])}",
        f"Table `{resource['name']}`, {rows:,} rows. {plain(resource['description'])}",
        _keys(resource["schema"]),
        table(heads, fields, right=(3,)),
        "Values are SI, moisture content is in percent of ovendry mass. Nothing here is a "
        "structural design value; local codes and licensed practice decide. "
        f"All tables: {link('the data', 'data/index.md')}.",
    )


def _rows(name: str) -> int:
    counted: int = query(f"select count(*) from {{{name}}}")[0][0]
    return counted


def _index() -> str:
    text = for_site(read(_FILE), _FILE)
    rest = text[text.index("## Properties\n") : text.index("## Publications\n")]
    rows = [
        (
            link(r["title"], table_path(r["name"])),
            f"`{r['name']}`",
            f"{_rows(r['name']):,}",
            plain(r["description"]),
        )
        for r in descriptor()["resources"]
    ]
    return blocks(
        "# The data",
        f"Reference dataset {descriptor()['version']}: figures of woods as printed, each with the "
        "publication, table and page it stands in, and how it is known. The tables are Parquet "
        "files in `datasets/reference/`, described by `datapackage.json`, an open standard "
        "(Frictionless Data Package v2); anything that reads Parquet reads them.",
        f"How good they are: {link('quality of the data', 'data/quality.md')}. Who published them: "
        f"{link('publications', 'data/publications/index.md')}. What you may do with them: "
        f"{link('license', 'data/license.md')}.",
        "## Tables",
        table(("table", "name", "rows", "what it holds"), rows, right=(2,)),
        rest,
        menu(["data/publications/index.md", "data/quality.md", "data/license.md"]),
        menu(table_path(r["name"]) for r in descriptor()["resources"]),
    )


def pages() -> Iterator[Page]:
    """What the data is, and a page a table."""
    yield Page("data/index.md", _index)
    for resource in descriptor()["resources"]:
        path = table_path(resource["name"])
        yield Page(path, lambda resource=resource: _table_page(resource))  # type: ignore[misc]
