"""A page for every public name of the library, its text read from the docstring by Sphinx."""

from __future__ import annotations

import inspect
from collections.abc import Iterator

import woodref
from docs.site.links import for_site
from docs.site.page import Page, blocks, link, menu, plain, read, table

_FILE = "docs/python.md"


def _path(name: str) -> str:
    return f"python/{name}.{'md' if _kind(name) == 'data' else 'rst'}"


def _kind(name: str) -> str:
    """'function', 'class', 'exception' or 'data', as Sphinx calls it."""
    what = getattr(woodref, name)
    if inspect.isclass(what):
        return "exception" if issubclass(what, Exception) else "class"
    return "function" if inspect.isfunction(what) else "data"


def _first_line(name: str) -> str:
    """The first line of its docstring; of a value, which has none, what it is."""
    if _kind(name) == "data":
        return _DATA[name]
    return (inspect.getdoc(getattr(woodref, name)) or "").partition("\n")[0]


#: What the public values are.
_DATA = {
    "PROPERTIES": "What is measured: each property with its label, units and limits, by its name.",
    "data_version": "Version of the reference dataset.",
}
_HEADS = {
    "function": "Functions",
    "class": "Classes",
    "exception": "Errors",
    "data": "Values",
}


def _lists() -> str:
    parts = []
    for kind, head in _HEADS.items():
        names = [n for n in woodref.__all__ if _kind(n) == kind]
        rows = [(link(n, _path(n)), plain(_first_line(n))) for n in names]
        parts += [f"### {head}", table(("name", "what it does"), rows)]
    return blocks(*parts)


def _index() -> str:
    text, _, every = for_site(read(_FILE), _FILE).partition("## Every function\n")
    after = every.rpartition("```\n")[2]
    return blocks(text, "## Every name", _lists(), after, menu(map(_path, woodref.__all__)))


def _name_page(name: str) -> str:
    kind = _kind(name)
    if kind == "data":
        title = f"# woodref.{plain(name)}"
        value = getattr(woodref, name)
        shown = plain(value) if isinstance(value, str) else _properties()
        return blocks(title, plain(_DATA[name]), shown)
    members = "   :members:\n" if kind == "class" else ""
    title = f"woodref.{name}"
    return blocks(f"{title}\n{'=' * len(title)}", f".. auto{kind}:: woodref.{name}\n{members}")


def _properties() -> str:
    rows = [
        (f"`{p}`", plain(x.label), plain(x.si_unit), plain(x.us_unit), plain(x.definition))
        for p, x in woodref.PROPERTIES.items()
    ]
    return table(("property", "label", "SI unit", "US unit", "definition"), rows)


def pages() -> Iterator[Page]:
    """The page on Python, and one for each public name."""
    yield Page("python/index.md", _index)
    for name in woodref.__all__:
        yield Page(_path(name), lambda name=name: _name_page(name))  # type: ignore[misc]
