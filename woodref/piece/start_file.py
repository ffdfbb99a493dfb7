"""Piece files to start from: an example of a kind, or a maker's own parts, with every key shown.

The text lives in woodref/templates/kinds: common.txt explains the keys of each table, the file
of a kind holds its tables. A size stands there in inches and in millimeters, <19-1/2|495>.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.piece.cut_list_piece import tables_of
from woodref.record import record

#: The kinds of pieces to start from.
KINDS = ("table", "cabinet", "bookcase", "bench", "chest", "bed", "frame-and-panel-door")
#: Blocks in the order of the file; those of a kind stand below the common text of the same name.
_BLOCKS = (
    *("head", "build", "use", "waste", "assemblies", "parts", "sheets", "span", "fixing"),
    *("items", "finish", "size", "shipping", "cartons", "buying", "quote", "maker"),
)
_PAIR = re.compile(r"<([^<>|\n]*)\|([^<>|\n]*)>")
#: A key in a remark with what it means, in columns.
_KEY_TOLD = re.compile(r"^(# \w+ = [^#\n]*?) +# ", re.MULTILINE)
#: The town of an example in each system of units.
USUAL_PLACE = {"us": "Columbus, Ohio", "si": "Hamburg"}
_SETTING_KEY = '# setting = "heated-house"     # by the climate if left out'
_PRICES_KEY = '# prices = "prices.csv"    # seen from this file'
_EXAMPLES = (
    "# The tables below are those of an example. Put the names of your parts in, and take the #\n"
    "# from the lines of a table that you use."
)


@record
class Start:
    """What a maker says of a new piece, '' and nothing where the example serves.

    ``moisture_pct`` is that of the wood at the build [%] (8 is common practice, no source);
    ``rows`` are the parts by column of woodref.lumber.cut_list.COLUMNS, sizes as written;
    ``finish`` a finish of woodref finishes and its coats, ``fixing`` a part and the kind that
    holds it.
    """

    name: str = ""
    wood: str = ""
    place: str = ""
    setting: str = ""
    prices: str = ""
    moisture_pct: float = 8.0
    rows: Sequence[Mapping[str, str]] = ()
    finish: tuple[str, int] | None = None
    fixing: tuple[str, str] | None = None


#: Other files to start from, in woodref/templates.
FILES = {
    "piece": "piece.toml",
    "prices": "prices.csv",
    "measurements": "measurements.csv",
    "places": "places.csv",
    "yard": "yard.csv",
}


def template_file(name: str) -> str:
    """The text of one of FILES.

    Raises: InputError with the nearest name for another.
    """
    if name not in FILES:
        known = (*FILES, *KINDS)
        raise InputError(f"no template is called '{name}'{did_you_mean(name, known)}")
    return (files("woodref") / "templates" / FILES[name]).read_text(encoding="utf-8")


def piece_file(kind: str, units: str, start: Start = Start()) -> str:
    """The text of a piece file of a kind; with rows, of those parts, the rest as remarks.

    Parameters: kind of KINDS, '' for none, where there are rows; units 'us' or 'si'; start.
    Raises: InputError for another kind.
    """
    if kind and kind not in KINDS:
        raise InputError(f"no kind of piece is called '{kind}'{did_you_mean(kind, KINDS)}")
    example = _blocks(kind) if kind else {}
    values = _values(example, start, units)
    common, own = (
        {key: _filled(text, values, units) for key, text in blocks.items()}
        for blocks in (_blocks("common"), example)
    )
    if start.rows:
        own = {key: _as_remarks(text) for key, text in own.items()} | _tables(start)
    written = []
    for block in _BLOCKS:
        if block == "span" and start.rows and kind:
            written.append(_EXAMPLES)
        written += [text for text in (common[block], own.get(block)) if text]
    return "\n\n".join(written) + "\n"


def _blocks(name: str) -> dict[str, str]:
    """The blocks of a file of templates, by the word behind their @."""
    text = (files("woodref") / "templates" / "kinds" / f"{name}.txt").read_text(encoding="utf-8")
    parts = re.split(r"^@(\w+)\n", text, flags=re.MULTILINE)
    return {key: body.strip("\n") for key, body in zip(parts[1::2], parts[2::2], strict=True)}


def _as_remarks(text: str) -> str:
    """Lines of a file, each as a remark."""
    return "\n".join(f"# {line}" if line else "" for line in text.split("\n"))


def _tables(start: Start) -> dict[str, str]:
    """The blocks that a maker's own words give."""
    tables = tables_of(start.rows)
    blocks = {key: "\n\n".join(_table(f"[[{key}]]", t) for t in tables[key]) for key in tables}
    if start.finish:
        finish, coats = start.finish
        blocks["finish"] = _table("[finish]", {"name": finish, "coats": coats})
    if start.fixing:
        part, kind = start.fixing
        blocks["fixing"] = _table("[[fixing]]", {"part": part, "kind": kind})
    return blocks


def _table(head: str, table: Mapping[str, Any]) -> str:
    return "\n".join([head, *(f"{key} = {_toml(value)}" for key, value in table.items())])


def _toml(value: str | int | float) -> str:
    """A value as TOML: a number, or a text in quotes, what does not print in it escaped."""
    if isinstance(value, str):
        text = json.dumps(value, ensure_ascii=False)
        return "".join(c if c.isprintable() else f"\\U{ord(c):08X}" for c in text)
    return repr(value)


def _values(example: Mapping[str, str], start: Start, units: str) -> dict[str, str]:
    """What is put into the braces of the text, as TOML where it stands in quotes there."""
    defaults = dict(re.findall(r'^(\w+) = "(.*)"$', example.get("defaults", ""), re.MULTILINE))
    about = example.get("about", "Your own piece; the remarks show the keys there are besides.")
    if start.rows and example:
        about = "Your own parts; all else is an invented example: change it into yours."
    return {
        "about": about,
        "name": _inside(start.name) or defaults["name"],
        "wood": _inside(start.wood) or defaults.get("wood", ""),
        "place": _inside(start.place) or USUAL_PLACE[units],
        "moisture": _toml(start.moisture_pct),
        "setting": f"setting = {_toml(start.setting)}" if start.setting else _SETTING_KEY,
        "prices": f"prices = {_toml(start.prices)}" if start.prices else _PRICES_KEY,
    }


def _inside(text: str) -> str:
    """A text as it stands between the quotes of TOML."""
    return _toml(text)[1:-1]


def _filled(text: str, values: Mapping[str, str], units: str) -> str:
    """The text with its sizes in one system of units and its braces filled, each once."""
    sides = _PAIR.sub(lambda pair: pair[1 if units == "us" else 2], text)
    words = re.compile("|".join(f"{{{key}}}" for key in values))
    filled = words.sub(lambda word: values[word[0][1:-1]], sides)
    return _KEY_TOLD.sub(lambda line: f"{line[1]:<26} # ", filled)
