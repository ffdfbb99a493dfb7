"""Run the examples in the Markdown pages and put their output of today under them.

    python docs/refresh.py            rewrite the pages (make docs)
    python docs/refresh.py --check    name the pages that are out of date, change nothing

A page marks what is generated with comments that Markdown does not show:

    <!-- run: woodref emc 68F 40% -->           the fenced block below holds the output
    <!-- run, first 3 lines: woodref ... -->    the same, cut after so many lines
    <!-- run, from "Ratings", first 3 lines: woodref ... -->    the same, from that line on
    <!-- run, answer: woodref ... -->           the same, as far as the first blank line
    <!-- run: python -->                        output of the Python block above the comment
    <!-- insert: woodref sources ... -->        Markdown printed by the program, in place,
    <!-- end insert -->                         up to this comment
    <!-- draw: woodref ... --plot docs/pictures/x.svg -->   the picture, kept in that file

docs/json.md has no marks: all of it is generated, by docs/json_page.py.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import os
import re
import shlex
import sys
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple
from unittest import mock

ROOT = Path(__file__).resolve().parent.parent
JSON_PAGE = ROOT / "docs" / "json.md"
PAGES = (
    ROOT / "README.md",
    ROOT / "DEVELOPERS.md",
    ROOT / "datasets" / "LICENSE.md",
    *sorted(set((ROOT / "docs").glob("*.md")) - {JSON_PAGE}),
)
#: Width at which help is folded.
_COLUMNS = "80"
_RUN = re.compile(
    r'^<!-- run(?:, from "(?P<start>[^"]+)")?(?:, first (?P<lines>\d+) lines?)?'
    r"(?P<answer>, answer)?: (?P<command>.+?) -->\n"
    r"```text\n(?P<body>.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
_INSERT = re.compile(
    r"^<!-- insert: (?P<command>.+?) -->\n(?P<body>.*?)^<!-- end insert -->$",
    re.MULTILINE | re.DOTALL,
)
_DRAW = re.compile(
    r"^<!-- draw: (?P<command>woodref .+? --plot (?P<file>docs/pictures/[a-z-]+\.svg)\b.*?) -->$",
    re.MULTILINE,
)
_MARK = re.compile(r"^<!-- (?:run|insert)\b.*-->$", re.MULTILINE)
_PYTHON = re.compile(r"^```python\n(?P<code>.*?)^```$", re.MULTILINE | re.DOTALL)


class Example(NamedTuple):
    """A marked place: what it runs, what stands there, and where (start and end of the body)."""

    command: str
    body: str
    span: tuple[int, int]
    fenced: bool = True
    start: str = ""
    lines: int | None = None
    answer: bool = False
    code: str = ""


def examples(text: str) -> Iterator[Example]:
    """The marked places of a page, in order.

    Raises: ValueError for a mark without its block, and for a Python run without code above.
    """
    found = sorted([*_RUN.finditer(text), *_INSERT.finditer(text)], key=lambda m: m.start())
    starts = {m.start() for m in found}
    for mark in _MARK.finditer(text):
        if mark.start() not in starts:
            raise ValueError(f"no block to fill below {mark[0]}")
    for match in found:
        fenced = match.re is _RUN
        code = ""
        if match["command"] == "python":
            above = list(_PYTHON.finditer(text, 0, match.start()))
            if not above:
                raise ValueError("no Python block above <!-- run: python -->")
            code = above[-1]["code"]
        example = Example(match["command"], match["body"], match.span("body"), fenced, code=code)
        if fenced:
            lines = int(match["lines"]) if match["lines"] else None
            example = example._replace(
                start=match["start"] or "", lines=lines, answer=bool(match["answer"])
            )
        yield example


@cache
def printed_by(command: str) -> str:
    """What a command prints, run in the root of the project without user defaults.

    Pages that show the same command have it run once.

    Raises: ValueError for anything but a call of woodref that answers.
    """
    out, errors = _output_of(command)
    if errors:
        raise ValueError(f"{command}: {errors}")
    return out


def drawings(text: str) -> dict[str, str]:
    """The pictures of a page: the file of each, and the command that draws it."""
    return {m["file"]: m["command"] for m in _DRAW.finditer(text)}


def drawn_by(file: str, command: str) -> str:
    """The text of the picture a command draws, leaving the file it names alone."""
    with tempfile.TemporaryDirectory() as folder:
        aside = Path(folder) / "picture.svg"
        _output_of(command.replace(file, shlex.quote(str(aside))))
        return aside.read_text(encoding="utf-8")


def _output_of(command: str) -> tuple[str, str]:
    """What a command prints on stdout and stderr; ValueError where it fails."""
    from woodref.cli.main import run

    program, *arguments = shlex.split(command)
    if program != "woodref":
        raise ValueError(f"only woodref is run in a page, not {command}")
    kept = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    kept |= {"WOODREF_CONFIG": os.devnull, "WOODREF_NO_OWN": "1", "COLUMNS": _COLUMNS}
    kept["WOODREF_CACHE"] = os.devnull  # nothing kept from before
    out, errors = io.StringIO(), io.StringIO()
    with (
        mock.patch.dict(os.environ, kept, clear=True),
        contextlib.chdir(ROOT),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(errors),
    ):
        code = run(arguments)
    if code:
        raise ValueError(f"{command}: {errors.getvalue().strip()}")
    return out.getvalue(), errors.getvalue().strip()


def printed_by_python(code: str) -> str:
    """What a block of Python prints."""
    out = io.StringIO()
    with contextlib.chdir(ROOT), contextlib.redirect_stdout(out):
        exec(compile(code, "example", "exec"), {"__name__": "example"})
    return out.getvalue()


def body_of(example: Example) -> str:
    """What should stand at a marked place."""
    if example.code:
        return printed_by_python(example.code)
    out = printed_by(example.command)
    if not example.fenced:
        return f"\n{out.strip()}\n\n"
    shown = out.rstrip("\n").split("\n")
    before = []
    if example.answer and "" in shown:
        shown = [*shown[: shown.index("")], "..."]
    if example.start:
        first = next((n for n, x in enumerate(shown) if x.startswith(example.start)), None)
        if first is None:
            raise ValueError(f"{example.command} prints no line that begins {example.start!r}")
        before, shown = ["..."], shown[first:]
    if example.lines is not None and len(shown) > example.lines:
        shown = [*shown[: example.lines], "..."]
    return "\n".join([f"$ {example.command}", *before, *shown]) + "\n"


def refreshed(text: str) -> str:
    """The page with every marked place brought up to date."""
    parts, position = [], 0
    for example in examples(text):
        start, end = example.span
        parts += [text[position:start], body_of(example)]
        position = end
    return "".join([*parts, text[position:]])


def _wanted() -> Iterator[tuple[Path, str]]:
    """Every generated file and the text it should have."""
    import json_page  # beside this file, which is run as a program

    for page in PAGES:
        text = page.read_text(encoding="utf-8")
        yield page, refreshed(text)
        yield from ((ROOT / file, drawn_by(file, c)) for file, c in drawings(text).items())
    yield JSON_PAGE, json_page.page()


def main() -> int:
    """Rewrite or check the pages; 1 where a check finds one out of date."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="change nothing, name stale pages")
    check = parser.parse_args().check
    stale = 0
    for path, new in _wanted():
        if path.is_file() and path.read_text(encoding="utf-8") == new:
            continue
        stale += 1
        print(f"{path.relative_to(ROOT)} {'is out of date' if check else 'renewed'}")
        if not check:
            path.parent.mkdir(exist_ok=True)
            path.write_text(new, encoding="utf-8")
    return int(check and stale > 0)


if __name__ == "__main__":
    sys.exit(main())
