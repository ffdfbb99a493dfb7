"""How the answers are computed: a written page, and every formula with its source."""

from __future__ import annotations

import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from importlib import import_module
from typing import Any

import woodref.formulas
from docs.site.page import Page, blocks, plain, read, table
from docs.site.written import filled
from woodref.answers.provenance import sentence
from woodref.formulas.declaration import declaration

_FILE = "docs/site/method.md"
#: Modules of the arithmetic itself, which hold no formula of wood.
_TOOLS = {"declaration", "engine"}
_SECTION = re.compile(r"\n\n(?P<title>[A-Z][A-Za-z ]+)\n-+\n")
_EQUATION = re.compile(r"``(.+?)``")
_REFERENCE = re.compile(r"^\.\. \[\d\] (.+(?:\n +.+)*)", re.MULTILINE)


def formulas() -> Iterator[tuple[str, list[tuple[str, Callable[..., Any]]]]]:
    """The modules of formulas by what they are about, each with its public functions."""
    for found in pkgutil.iter_modules(woodref.formulas.__path__):
        if found.name in _TOOLS:
            continue
        module = import_module(f"woodref.formulas.{found.name}")
        functions: list[tuple[str, Callable[..., Any]]] = [
            (name, what)
            for name, what in vars(module).items()
            if inspect.isfunction(what)
            and what.__module__ == module.__name__
            and not name.startswith("_")
        ]
        yield (module.__doc__ or found.name).partition("\n")[0].rstrip("."), functions


def _sections(text: str) -> dict[str, str]:
    parts = _SECTION.split(text)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def _row(name: str, function: Callable[..., Any]) -> tuple[str, str, str]:
    text = inspect.getdoc(function) or ""
    sections = _sections(text)
    notes = " ".join(sections.get("Notes", "").replace(" [1]_", "").split())
    sources = [" ".join(x.split()) for x in _REFERENCE.findall(sections.get("References", ""))]
    told = sentence(text.partition("\n")[0].removeprefix("Compute "))
    source = "; ".join(sources) or notes or _declared_source(function)
    return f"{plain(told)} `{name}`", _equation(function, notes), plain(source)


def _declared_source(function: Callable[..., Any]) -> str:
    with suppress(KeyError):
        return declaration(function).source
    return ""


def _equation(function: Callable[..., Any], notes: str) -> str:
    """A formula as it is written: as declared, with its symbols, else as its notes have it."""
    with suppress(KeyError):
        declared = declaration(function)
        names = zip(declared.symbols, inspect.signature(function).parameters, strict=False)
        return f"`{declared.text}` with {', '.join(f'{plain(a)} `{b}`' for a, b in names)}"
    written = [x for x in _EQUATION.findall(notes) if (" = " in x or "exp(" in x) and "|" not in x]
    return "; ".join(f"`{x}`" for x in written)


def _page() -> str:
    parts = []
    for title, functions in formulas():
        rows = [_row(*f) for f in functions]
        parts += [
            f"### {plain(title)}",
            table(("what", "equation", "source, or what is ours"), rows),
        ]
    return blocks(
        filled(read(_FILE)),
        "## Every formula",
        "Plain arithmetic, in `woodref.formulas`; the word in code is its name there. With "
        "`--explain` a command prints the ones it used, with their numbers.",
        *parts,
    )


def pages() -> Iterator[Page]:
    """The page on method."""
    yield Page("trust/method.md", _page)
