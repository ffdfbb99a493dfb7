"""How the help of a command is laid out: options in groups, and words that say what to type."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

#: What to type for an option, by its name: one word means one thing in every command.
_PLACEHOLDERS: dict[str, tuple[str, ...]] = {
    "SIZE": (
        *("--length", "--width", "--thickness", "--depth", "--height", "--diameter", "--inner"),
        *("--end-width", "--end-thickness", "--other-width", "--span", "--distance", "--fixed"),
        *("--gap", "--groove", "--tongue", "--engage", "--spare", "--hole", "--slot", "--washer"),
        *("--recess", "--peg", "--widest", "--narrowest", "--stave", "--pith-distance"),
        *("--offset", "--ring-radius", "--padding", "--wall", "--batten-width", "--at"),
        *("--batten-thickness", "--pallet-height", "--reach", "--hands", "--rise", "--kerf"),
        *(
            "--planing",
            "--width-allowance",
            "--length-allowance",
            "--end-trim",
            "--safe-length",
            "--into",
        ),
        "--through",
    ),
    "SIZES": ("--yard-widths", "--yard-lengths", "--yard-thicknesses"),
    "SCREW": ("--screw", "--lag"),
    "NAIL": ("--nail",),
    "MC": ("--from", "--to", "--moisture", "--driest", "--wettest"),
    "MC|TOWN": ("--built",),
    "AIR": ("--winter", "--summer"),
    "TOWN": ("--place",),
    "ROOM": ("--setting",),
    "MONTH": ("--month",),
    "WEIGHT": ("--weight", "--weight-low", "--weight-high", "--packing-weight", "--wet", "--dry"),
    "DENSITY": ("--wall-density", "--batten-density"),
    "LOAD": ("--load", "--uniform", "--point"),
    "WOOD": ("--wood", "--core", "--other"),
    "USE": ("--for",),
    "CUT": ("--cut", "--core-cut", "--other-cut"),
    "DEGREES": ("--ring-angle", "--corner"),
    "PERCENT": ("--waste", "--keep", "--meter"),
    "DEGREES F|C": ("--temperature", "--calibration"),
    "NAME": ("--finish", "--grade", "--property", "--origin", "--part", "--region"),
    "BOARD": ("--board",),
    "KIND": ("--kind", "--shape", "--side", "--support"),
    "LIMIT": ("--where",),
    "WORD": ("--lightness",),
    "UNIT": ("--unit",),
    "L/240": ("--limit",),
    "PRICE": ("--max-price",),
    "TIMES": ("--creep",),
    "NUMBER": ("--divisor",),
    "MEMORY": ("--memory",),
    "N": ("--rows", "--quantity", "--boards", "--staves", "--coats", "--days"),
    "SEED": ("--seed",),
    "VOLUME": ("--volume", "--removed"),
    "FILE": ("--prices", "--output"),
    "NAME=FILE": ("--price-lists",),
    "FIGURE": ("--want", "--columns"),
}
_OF_OPTION = {name: word for word, names in _PLACEHOLDERS.items() for name in names}
#: What to type for an option that is not named above, by the type of its value.
_OF_TYPE = {"path": "FILE", "int": "N", "float": "NUMBER"}
#: What to type for an argument, by its name.
_OF_ARGUMENT = {"species": "WOOD", "file": "FILE", "piece": "PIECE", "table": "FILE"}

_WHERE = (
    *("--place", "--setting", "--room", "--month", "--months", "--built", "--driest", "--wettest"),
    *("--winter", "--summer", "--southern"),
)
_ANSWER = (
    *("--units", "--format", "--full", "--explain", "--save", "--force", "--plot", "--chart"),
    *("--monthly", "--sources", "--rows", "--columns", "--ranges", "--output", "-o", "--macros"),
    *("--text", "--effort", "--seed", "--page", "--date", "--help", "--version", "--unit"),
)
_HAVE, _ASK, _LIVES, _TOLD = "What you have", "What you ask for", "Where it lives", "The answer"
#: Commands that look for woods, and are told what to look for.
_CHOOSING = ("find", "show", "compare", "rank", "substitute", "uses", "sources", "sql", "words")


def dress(command: Any) -> None:
    """Give the options and arguments of a command words that say what to type."""
    for p in command.params:
        if p.metavar is not None:
            continue
        if p.param_type_name == "argument":
            word = _OF_ARGUMENT.get(p.name, p.name.upper())
            p.metavar = f"{word}..." if p.nargs == -1 else word
        elif not p.is_flag and not getattr(p.type, "choices", None):
            named = next((_OF_OPTION[o] for o in p.opts if o in _OF_OPTION), None)
            p.metavar = named or _OF_TYPE.get(p.type.name)


def grouped(command: Any, context: Any) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """The options of a command under their headings, in the order they are declared."""
    have = _ASK if context.info_name in _CHOOSING else _HAVE
    groups: dict[str, list[tuple[str, str]]] = {"Arguments": [], have: [], _LIVES: [], _TOLD: []}
    for p in command.get_params(context):
        record = p.get_help_record(context)
        if record is None:
            continue
        heading = have
        if p.param_type_name == "argument":
            heading = "Arguments"
        elif any(o in _WHERE for o in p.opts):
            heading = _LIVES
        elif any(o in _ANSWER for o in p.opts):
            heading = _TOLD
        groups[heading].append(record)
    for heading, records in groups.items():
        if records:
            yield heading, records
