"""The page docs/json.md, made from what every command really prints as JSON.

What each name means stands in docs/json-names.toml, by command; where it is printed, under which
name in either system of units, and its unit are read off the answers. ``make docs`` writes the
page; a test fails where a name is printed and not described, or described and never printed.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import shlex
import tempfile
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

ROOT = Path(__file__).resolve().parent.parent
NAMES = ROOT / "docs" / "json-names.toml"
PAGE = ROOT / "docs" / "json.md"
#: What is asked of each command, so that it prints every name it has.
QUESTIONS: dict[str, list[str]] = {
    "estimate": [
        *(
            f"estimate datasets/demo/{name}.toml"
            for name in ("wall-shelf", "sideboard", "trestle-table", "drawer-chest", "turned-stool")
        ),
        "estimate datasets/demo/hall-bench.toml --explain",
        'estimate datasets/demo/sideboard.toml --with "white oak=American beech"',
    ],
    "buy": [
        'buy datasets/demo/shelf-parts.csv --board "5/4 x 5in x 6ft black cherry" '
        "--yard-widths 6in --yard-lengths 8ft --prices datasets/demo/yard-prices.csv",
        "buy datasets/demo/turned-stool.toml",
        'buy datasets/demo/shelf-parts.csv --board "5/4 x 5in x 6ft black cherry" '
        '--board "4/4 x 6in x 8ft x 9 black cherry"',
    ],
    "crate": ["crate --length 1m --depth 500mm --height 600mm --weight 20kg"],
    "find": ["find meranti", "find asj", "find --hue pink"],
    "show": ["show sapele --sources", "show hickory", "show 'white ash' --sources"],
    "compare": ["compare 'black cherry' 'black walnut' hickory"],
    "stability": ["stability 'black cherry'", "stability 'black cherry' --place Duluth"],
    "rank": [
        "rank --for tabletop --prices datasets/demo/yard-prices.csv --rows 3",
        "rank --for tabletop --piece datasets/demo/sideboard.toml --part top",
        "rank --for shelf --place Duluth --rows 2 --region 'North America'",
    ],
    "substitute": [
        "substitute 'white oak' --with teak --prices datasets/demo/yard-prices.csv",
        'substitute "white oak" --for tabletop --prices datasets/demo/yard-prices.csv --rows 3',
        "substitute 'eastern white pine' --for shelf --place Duluth --rows 2 "
        "--region 'North America'",
        'substitute "white oak" --for tabletop --rows 1 --piece datasets/demo/sideboard.toml '
        "--part top",
    ],
    "uses": ["uses", "uses shelf", "uses --columns"],
    "movement": [
        "movement 'black cherry' --width 8in --from 7 --to 9 --explain",
        "movement 'black cherry' --width 8in --from 7 --place Duluth",
    ],
    "weight": [
        "weight 'black cherry' --length 2.4m --width 200mm --thickness 27mm --quantity 3",
        "weight 'black cherry' --shape 'tapered leg' --length 28in --width 2in --thickness 2in "
        "--end-width 1in --end-thickness 1in",
        "weight 'black cherry' --shape ring --width 20in --inner 12in --thickness 1in",
    ],
    "density": ["density 'black cherry'"],
    "panel": [
        "panel 'black cherry' --stave 5in --from 7 --to 9",
        "panel 'black cherry' --stave 5in --thickness 1in --from 7 --to 9",
        "panel 'black cherry' --width 20in --from 7 --place Duluth",
    ],
    "section": [
        "section 'black cherry' --pith-distance 3in --from 12 --to 6 --width 8in --thickness 1in",
        "section 'black cherry' --pith-distance 3in --from 12 --to 6 --width 4in --thickness 1in "
        "--boards 3",
        "section 'black cherry' --pith-distance 3in --from 12 --to 6 --diameter 2in",
        "section 'black cherry' --diameter 2in --pith-distance 2in --place Duluth",
    ],
    "fixing": [
        "fixing 'black cherry' --kind floating-panel --width 14in --gap 3/16in",
        "fixing 'black cherry' --kind drawer-front --width 6in --place Duluth",
    ],
    "fastener": [
        "fastener 'white oak' --screw '#8' --into 1in --through 3/4in",
        "fastener 'black cherry' --lag 5/16in --into 2in --end-grain",
    ],
    "gluing": ["gluing 'black cherry' --length 4in"],
    "joint": [
        "joint 'black cherry' --kind miter --width 3in --explain",
        "joint 'black cherry' --kind miter --width 3in --other 'white ash'",
        "joint 'black cherry' --kind tenon --width 6in --place Duluth",
        "joint 'black cherry' --kind veneer --width 1in --core 'white ash'",
    ],
    "deflection": [
        "deflection 'black cherry' --span 36in --width 10in --thickness 3/4in --load books"
    ],
    "batch": [
        "batch datasets/demo/invented-catalog.csv --unit in --prices datasets/demo/yard-prices.csv"
    ],
    "tally": ['tally --board "4/4 x 6 x 8ft ash"'],
    "emc": ["emc 68F 40%", "emc 68F --keep 8"],
    "moisture": [
        "moisture --wet 412g --dry 371g",
        "moisture --meter 11 --temperature 45F",
    ],
    "acclimate": [
        'acclimate "hard maple" --thickness 8/4',
        'acclimate "hard maple" --thickness 4/4 --place Duluth --month May',
    ],
    "lag": [
        "lag 'black cherry' --thickness 3/4in --finish shellac --width 16in",
        "lag 'black cherry' --thickness 20mm --place Duluth",
    ],
    "finishes": ["finishes"],
    "place": ["place Duluth", "place Denver", "place --at 46.8,-92.1"],
    "season": ["season Duluth", "season --winter 66F,30% --summer 76F,60%"],
    "delivery": ["delivery 'black cherry' --thickness 3/4in --built 7 --place Duluth"],
    "own add": ["own add OWN.csv --kind measurements --origin 'an invented table'"],
    "own weigh": [
        "own weigh 'white ash' --length 4ft --width 6in --thickness 1in --weight 9lb --moisture 8",
        "own weigh 'white ash' --length 4ft --width 6in --thickness 1in --weight 8.8lb "
        "--moisture 8 --keep --origin 'an invented board'",
    ],
    "own list": ["own list"],
    "words": ["words", "words fsp"],
    "sources": ["sources", "sources wood-handbook-2021"],
    "sql": ["sql 'select 1 as one'"],
}
#: Commands that print no JSON, and why.
SILENT = {
    "begin": "asks, and writes a piece file",
    "own remove": "says in a line what it took out",
    "report": "writes a page for a browser",
    "template": "writes a file to fill in",
}
#: Names of the user's own making.
_OPEN = {"sql": {"one"}}
_UNITS = {
    **{"pct": "%", "deg": "degrees", "ft3": "ft3", "m3": "m3", "ft2": "ft2", "m2": "m2"},
    **{"lb_ft3": "lb/ft3", "kg_m3": "kg/m3", "million_psi": "million psi", "mpa": "MPa"},
    **{"n": "N", "lbf": "lbf", "lb": "lb", "kg": "kg", "mm": "mm", "in": "in", "f": "F"},
    **{"c": "C", "g": "g", "qt": "qt", "l": "L", "km": "km", "m": "m", "in3": "in3"},
    **{"cm3": "cm3", "board_feet": "board feet", "days": "days", "n_m": "N/m"},
    "lbf_ft": "lbf/ft",
}


class Printed(NamedTuple):
    """A name as it is printed: in US units, in SI, and the lists it stands in ('' for the top)."""

    us: str
    si: str
    places: tuple[str, ...]

    @property
    def stem(self) -> str:
        """The name without the unit, where the unit follows --units."""
        if self.us == self.si:
            return self.us
        parts = [a for a, b in zip(self.us.split("_"), self.si.split("_"), strict=False) if a == b]
        return "_".join(parts)

    @property
    def unit(self) -> str:
        """The unit in words, in SI and in US units; '' for none."""
        if self.us != self.si:
            ends = [n.removeprefix(self.stem).strip("_") for n in (self.si, self.us)]
            return ", ".join(_UNITS[e] for e in ends)
        for words in (2, 1):
            end = "_".join(self.us.split("_")[-words:])
            if end in _UNITS and end != self.us and end not in ("days", "board_feet"):
                return _UNITS[end]
        return ""


def _asked(question: str, units: str, own: Path) -> Any:
    """What a command prints as JSON, run in the root of the project without user defaults.

    Own figures are kept under ``own``, those of each system of units apart.
    """
    from woodref.cli.main import run

    out = io.StringIO()
    with (
        mock.patch.dict(os.environ, {"WOODREF_DATA": str(own / units)}),
        contextlib.chdir(ROOT),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(io.StringIO()) as errors,
    ):
        code = run([*shlex.split(question), "--units", units, "--format", "json"])
    if code:
        raise ValueError(f"{question}: {errors.getvalue().strip()}")
    return json.loads(out.getvalue())


def _pairs(us: Any, si: Any, place: str) -> Iterator[tuple[str, str, str]]:
    if isinstance(us, dict):
        for (a, left), (b, right) in zip(us.items(), si.items(), strict=True):
            yield a, b, place
            yield from _pairs(left, right, a)
    elif isinstance(us, list):
        for left, right in zip(us, si, strict=True):
            yield from _pairs(left, right, place)


@cache
def printed() -> dict[str, tuple[Printed, ...]]:
    """The names each command prints, in the order they come.

    Own tables are added before a wood is shown, so that figures of one's own are printed too.
    """
    kept = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    answers: dict[str, tuple[Printed, ...]] = {}
    with tempfile.TemporaryDirectory() as folder:
        mine = Path(folder) / "measurements.csv"
        template = ROOT / "woodref" / "templates" / "measurements.csv"
        mine.write_text(template.read_text(encoding="utf-8"), encoding="utf-8")
        for command in sorted(QUESTIONS, key=lambda c: not c.startswith("own")):
            own = Path(folder) / ("own" if command.startswith(("own", "show")) else "none")
            kept |= {"WOODREF_CONFIG": os.devnull, "COLUMNS": "80", "WOODREF_CACHE": folder}
            places: dict[tuple[str, str], dict[str, None]] = {}
            with mock.patch.dict(os.environ, kept, clear=True):
                for question in QUESTIONS[command]:
                    text = question.replace("OWN.csv", str(mine))
                    for us, si, place in _pairs(*(_asked(text, u, own) for u in ("us", "si")), ""):
                        places.setdefault((us, si), {})[place] = None
            answers[command] = tuple(Printed(*key, tuple(at)) for key, at in places.items())
    return answers


def described() -> tuple[dict[str, str], dict[str, dict[str, str]]]:
    """What each name means in every command, and what it means in one command alone."""
    from woodref.reference.bases import BASES, DATA_COVERAGE

    text = NAMES.read_text(encoding="utf-8")
    for word, values in (("{bases}", BASES), ("{coverage}", DATA_COVERAGE)):
        text = text.replace(word, ", ".join(f"`{v}`" for v in values))
    said = tomllib.loads(text)
    return said["names"], said.get("in", {})


def _ends(command: str) -> dict[str, str]:
    """The names that are an end of a range and need no words of their own, with its name."""
    names, alone = described()
    stems = {p.stem for p in printed()[command]}
    ends = {}
    for stem in stems - set(names) - set(alone.get(command, {})):
        for end in ("_low", "_high"):
            for cut in (stem.removesuffix(end), stem.replace(f"{end}_", "_")):
                if cut != stem and cut in stems:
                    ends[stem] = cut
    return ends


def faults() -> list[str]:
    """Names printed and not described, and descriptions of what is not printed."""
    names, alone = described()
    wrong = [f"{c}: no such command" for c in alone if c not in QUESTIONS]
    seen: set[str] = set()
    for command, keys in printed().items():
        there = {p.stem for p in keys} - _OPEN.get(command, set()) - set(_ends(command))
        own = alone.get(command, {})
        seen |= there - set(own)
        wrong += [f"{command}: {n} is not described" for n in sorted(there - set(own) - set(names))]
        wrong += [f"{command}: {n} is not printed" for n in sorted(set(own) - there)]
        wrong += [f"{command}: {n} says what [names] says" for n in own if own[n] == names.get(n)]
    return [*wrong, *(f"{n} is not printed" for n in sorted(set(names) - seen))]


def _rows(command: str) -> Iterator[str]:
    """A line for each name of a command; the ends of a range stand beside its name."""
    names, alone = described()
    what = names | alone.get(command, {})
    ends = _ends(command)
    told = _OPEN.get(command, set()) | set(ends)
    for p in printed()[command]:
        if p.stem in told:
            continue
        shown = ", ".join(f"`{k}`" for k in dict.fromkeys((p.si, p.us)))
        range_ = [e for e in ("_low", "_high") if p.stem in _bases_of(e, ends)]
        more = f" with {', '.join(f'`{e}`' for e in range_)}" if range_ else ""
        where = ", ".join(f"`{at}`" if at else "top" for at in p.places)
        yield f"| {shown}{more} | {p.unit} | {where} | {what[p.stem]} |"


def _bases_of(end: str, ends: dict[str, str]) -> set[str]:
    return {base for stem, base in ends.items() if end in stem}


def page() -> str:
    """The text of the page."""
    lines = [_INTRO]
    for command in QUESTIONS:
        lines += [
            "",
            f"## {command}",
            "",
            "| name | unit | in | what |",
            "| --- | --- | --- | --- |",
        ]
        lines += _rows(command)
    return "\n".join([*lines, "", _SQL]) + "\n"


_INTRO = """\
# What a program reads: JSON and CSV

`--format json` prints one object; `--format csv` prints its main table with the same names in
the first line. Names are stable, and a quantity has one name in every command. A name that ends in
a unit holds a number in that unit, and the ending follows `--units`: `after_mm` with `si` is
`after_in` with `us`. A number that is not known is `null` (an empty cell). Exit codes: 0 done, 1
could not answer, 2 wrong use; a message goes to stderr, one line.

This page is made from what the commands print; the column *in* names the list a name stands in,
*top* being the object itself. Names with `_low` and `_high`, before the unit, are the ends of the
likely range, where 9 boards in 10 fall; of costs, prices and amounts to buy they are the ends that
waste and prices give. Where *what* begins with *list*, the name holds a list of
objects. Rows of a file that cannot be read stand in FILE.rejects.csv, with `line` and `reason`
before their cells."""
_SQL = """\
`rows` of `sql`: one object for each row, named as in the query; values are SI, as stored. A name
that comes twice gets a number, `a` and `a_2`. The columns of the tables stand in the data
dictionary."""
