"""Cases by kind, each drawn by a generator of random numbers that a seed fixes."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from random import Random
from typing import Any

import duckdb

from fuzzing import hostile, toml_keys
from fuzzing.case import DEVICE, FIFO, FOLDER, LOOP, Case
from fuzzing.questions import PIECES, QUESTIONS, READERS, split
from fuzzing.workspace import Workspace
from woodref.choose.profile import parse_profile
from woodref.cli.main import COMMANDS, _command
from woodref.cli.options import opened
from woodref.climate.rooms import room_of
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece

ENVIRONMENT = (
    *("WOODREF_UNITS", "WOODREF_PRICES", "WOODREF_PLACE", "WOODREF_REGION", "WOODREF_NO_OWN"),
    *("WOODREF_FULL", "WOODREF_CONFIG", "WOODREF_DATA", "WOODREF_CACHE", "COLUMNS", "LINES"),
    *("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "TERM", "NO_COLOR", "LANG"),
    *("SOURCE_DATE_EPOCH", "MPLCONFIGDIR", "TMPDIR"),
)
_FORMATS = ("table", "json", "csv", "markdown")


@cache
def _parameters(command: str, under: str = "") -> tuple[Any, ...]:
    """The options and arguments of a command, or of one under it."""
    made = _command(command)
    return tuple((made.commands[under] if under else made).params)


def _command_of(words: list[str]) -> tuple[str, str]:
    return (words[0], words[1]) if words[0] == "own" else (words[0], "")


def _with_format(words: list[str], random: Random) -> list[str]:
    if words[0] in ("begin", "report", "template") or "--format" in words:
        return words
    if words[:2] == ["own", "remove"]:
        return words
    return [*words, "--format", random.choice(_FORMATS)] if random.random() < 0.6 else words


def options(random: Random) -> Case:
    """A command line that is answered, with an option, or a word of it, that is hostile."""
    words = split(random.choice(QUESTIONS))
    under = 2 if words[0] == "own" else 1
    for _ in range(random.choice((1, 1, 1, 2, 3))):
        drawn = random.random()
        if words[0] not in COMMANDS or words[0] == "own":
            drawn = 0.6 + 0.4 * drawn  # of the words alone
        if drawn < 0.6:
            parameter = random.choice(_parameters(*_command_of(words)))
            words = _set(words, parameter, random)
        elif len(words) > under and drawn < 0.95:
            at = random.randrange(under, len(words))
            value = hostile.word(random) if drawn < 0.75 else hostile.twisted(words[at], random)
            words[at] = value
        else:
            words.insert(random.randint(0, len(words)), hostile.word(random))
    words = [w.replace("\x00", "") for w in words]  # the system lets none through
    return Case("options", _with_format(words, random) if words[0] in COMMANDS else words)


def _set(words: list[str], parameter: Any, random: Random) -> list[str]:
    name = parameter.opts[0]
    if not name.startswith("-"):
        return [*words, hostile.word(random)]
    if name in ("--help", "--format", "--output", "--plot", "--save"):
        return words
    if getattr(parameter, "is_flag", False):
        return [*words, name]
    value = hostile.word(random)
    if name in words and words.index(name) + 1 < len(words):
        at = words.index(name) + 1
        return [*words[:at], value, *words[at + 1 :]]
    return [*words, name, value]


def written_to(random: Random) -> Case:
    """A file to write that is a hostile path."""
    option, suffix = random.choice((("--plot", ".svg"), ("--save", ".json"), ("--plot", ".png")))
    question = random.choice([q for q in QUESTIONS if option in _names(split(q))])
    words = split(question)
    if option in words:
        at = words.index(option)
        del words[at : at + 2]
    value = random.choice((hostile.word(random), hostile.word(random) + suffix, "x" * 400 + suffix))
    value = value.replace("\x00", "")
    there = random.choice((None, FIFO, DEVICE, FOLDER, LOOP, b"mine"))
    if there is not None and random.random() < 0.5:
        name = f"there{suffix}"
        return Case("targets", [*words, option, name, *_forced(random)], {name: there})
    return Case("targets", [*words, option, value, *_forced(random)])


def _forced(random: Random) -> list[str]:
    return ["--force"] if random.random() < 0.5 else []


def _names(words: list[str]) -> set[str]:
    return {name for p in _parameters(*_command_of(words)) for name in p.opts}


def keys(workspace: Workspace, random: Random) -> Case:
    """A piece file, or a profile, one key of which holds a hostile value."""
    name = random.choice((*PIECES, "bookcase.toml", "desk.toml"))
    data, found = _tables(workspace, name)
    place = random.choice(found)
    value = toml_keys.Raw(random.choice(hostile.TOML))
    text = toml_keys.with_value(data, place, value)
    question = random.choice(READERS[name])
    return _reading("keys", question, text.encode("utf-8", "surrogatepass"), ".toml", random)


def every_key(workspace: Workspace) -> list[tuple[str, toml_keys.Place, str]]:
    """Every key that a piece or a profile may have, where it stands first, with every value."""
    first: dict[tuple[bool, toml_keys.Path, str], tuple[str, toml_keys.Place]] = {}
    for name in (*PIECES, "bookcase.toml", "desk.toml"):
        for place in _tables(workspace, name)[1]:
            any_row = tuple(0 if isinstance(step, int) else step for step in place.table)
            first.setdefault((name == "desk.toml", any_row, place.key), (name, place))
    return [(*found, value) for found in first.values() for value in hostile.TOML]


def one_key(workspace: Workspace, chosen: tuple[str, toml_keys.Place, str], random: Random) -> Case:
    """The case of a key and a value."""
    name, place, value = chosen
    text = toml_keys.with_value(_tables(workspace, name)[0], place, toml_keys.Raw(value))
    return _reading("keys", random.choice(READERS[name]), text.encode(), ".toml", random)


_TABLES: dict[str, tuple[dict[str, Any], list[toml_keys.Place]]] = {}


def _tables(workspace: Workspace, name: str) -> tuple[dict[str, Any], list[toml_keys.Place]]:
    """The tables of a file, and every key that one of them may hold."""
    if name not in _TABLES:
        text = workspace.given[name].decode()
        rooms = Rooms(partial(room_of, opened("North America")))
        read: Callable[[str], object] = lambda t: parse_piece(t, name, rooms)  # noqa: E731
        if name == "desk.toml":
            read = lambda t: parse_profile(t, name, "desk")  # noqa: E731
        _TABLES[name] = toml_keys.loaded(text), toml_keys.places(text, read)
    return _TABLES[name]


def _reading(
    kind: str, question: str, data: bytes | str, suffix: str, random: Random, named: bool = True
) -> Case:
    """A case that reads a hostile file."""
    name = f"hostile{suffix}"
    words = split(question.format(name))
    fault = name if named else ""
    return Case(kind, _with_format(words, random), {name: data}, at_fault=fault)


def structures(workspace: Workspace, random: Random) -> Case:
    """A file of any kind whose lines, cells or values are others."""
    name = random.choice([n for n in READERS if not n.endswith(".parquet")])
    text = workspace.given[name].decode()
    for _ in range(random.choice((1, 1, 2))):
        change = (
            hostile.cells_changed
            if name.endswith(".csv") and random.random() < 0.8
            else hostile.lines_changed
        )
        text = change(text, random)
    return _file(name, text.encode("utf-8", "surrogatepass"), random, "structure")


def bytewise(workspace: Workspace, random: Random) -> Case:
    """A file of any kind some bytes of which are others."""
    name = random.choice(list(READERS))
    return _file(name, hostile.broken(workspace.given[name], random), random, "bytes")


def no_files(random: Random) -> Case:
    """A pipe, a device, a folder or a link to itself where a file is read."""
    name = random.choice(list(READERS))
    return _file(name, random.choice((FIFO, DEVICE, FOLDER, LOOP)), random, "no file")


def _file(name: str, data: bytes | str, random: Random, kind: str) -> Case:
    question = random.choice(READERS[name])
    if name == "maker-logo.svg":
        return Case(kind, split(question), {name: data})
    # What a wood is called in a file of another kind is no fault of the file that is hostile.
    return _reading(kind, question, data, name[name.rindex(".") :], random)


def configuration(workspace: Workspace, random: Random) -> Case:
    """A configuration file that is hostile."""
    text = workspace.given["full-config.toml"].decode()
    drawn = random.random()
    data: bytes | str
    if drawn < 0.4:
        name = random.choice(("units", "prices", "place", "region", "yard", "maker", "x", "a.b.c"))
        data = f"{name} = {random.choice(hostile.TOML)}\n".encode()
    elif drawn < 0.6:
        data = hostile.lines_changed(text, random).encode("utf-8", "surrogatepass")
    elif drawn < 0.8:
        data = hostile.broken(text.encode(), random)
    else:
        data = random.choice((FIFO, DEVICE, FOLDER, LOOP, b"", b"\xef\xbb\xbf" + text.encode()))
    question = random.choice(
        (
            "show cherry",
            "movement cherry --width 8in --from 7 --to 9",
            "report wall-shelf.toml -o -",
        )
    )
    words = _with_format(split(question), random)
    return Case("configuration", words, {"config.toml": data})


def environment(random: Random) -> Case:
    """A variable of the environment that is hostile."""
    question = random.choice(
        ("show cherry", "season Duluth", "own list", "find oak", "estimate wall-shelf.toml")
    )
    names = random.sample(ENVIRONMENT, random.choice((1, 1, 2)))
    values = {n: hostile.word(random).replace("\x00", "") for n in names}
    return Case("environment", _with_format(split(question), random), environment=values)


def overlay(workspace: Workspace, random: Random) -> Case:
    """A file of own figures that was tampered with."""
    kind = random.choice(list(OVERLAYS))
    data = _tampered(kind, random)
    if random.random() < 0.3:
        data = hostile.broken(data, random)
    question = random.choice(
        (
            *(
                "show cherry",
                "own list",
                "rank --for shelf --rows 2",
                "season Quiet",
                "own remove m1",
            ),
            *("estimate wall-shelf.toml", "weight cherry --length 1m --width 9in --thickness 1in"),
            "sql 'select * from own_measurements'",
        )
    )
    folder = {"WOODREF_DATA": "given"}
    name = f"given/{kind}-2.parquet/{kind[0] if kind != 'places' else 'a'}1.parquet"
    words = _with_format(split(question), random)
    return Case("overlay", words, {name: data}, environment=folder)


OVERLAYS: dict[str, dict[str, str]] = {
    "measurements": {
        **{"batch": "'m1'", "origin": "'shop'", "added": "'2026-01-02'", "file": "'x.csv'"},
        **{"line": "2", "species_id": "'prunus-serotina'", "species": "'black cherry'"},
        **{"property_id": "'density_12pct'", "condition": "'12pct'", "value": "580.0"},
        **{"moisture_content_pct": "12.0", "sample_size": "3", "printed_value": "'36'"},
        **{"printed_unit": "'lb/ft3'", "measured": "'2026-01-01'", "note": "'n'"},
    },
    "prices": {
        **{"batch": "'p1'", "origin": "'shop'", "added": "'2026-01-02'", "file": "'x.csv'"},
        **{"line": "2", "species": "'black cherry'", "thickness": "'4/4'", "price": "'9.80'"},
        **{"per": "'board foot'", "low": "''", "high": "''", "currency": "'USD'", "note": "''"},
        **{"grade": "''", "date": "''", "width": "''", "length": "''"},
    },
    "places": {
        **{"batch": "'a1'", "origin": "'shop'", "added": "'2026-01-02'", "file": "'x.csv'"},
        **{"line": "2", "place": "'Quiet Valley'", "month": "i", "temperature_c": "10.0::double"},
        **{"relative_humidity_pct": "50.0::double", "note": "''"},
    },
    "yard": {
        **{"batch": "'y1'", "origin": "'shop'", "added": "'2026-01-02'", "file": "'x.csv'"},
        **{"line": "2", "species": "'black cherry'", "thickness": "'4/4'", "note": "''"},
    },
}
_TAMPERED = (
    *("'nan'::double", "'inf'::double", "-1.0", "1e300", "null", "''", "chr(27) || '[31m'"),
    *("chr(8238) || 'x'", "chr(133)", "repeat('x', 5000)", "[1]", "date '2020-01-01'", "true"),
    *("'x'", "-5", "99999999999", "1e-300", "'1e999'", "'nan'", "chr(10) || 'x'"),
)


def _tampered(kind: str, random: Random) -> bytes:
    """A Parquet file of own figures, a column of which holds what is never written there."""
    columns = dict(OVERLAYS[kind])
    for _ in range(random.choice((1, 1, 2))):
        name = random.choice(list(columns))
        if random.random() < 0.15:
            del columns[name]
        else:
            columns[name] = random.choice(_TAMPERED)
    return overlay_file(columns)


def overlay_file(columns: dict[str, str]) -> bytes:
    """A Parquet file of own figures with twelve rows, each column as SQL gives it."""
    rows = ", ".join(f"{value} as {name}" for name, value in columns.items())
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "own.parquet"
        duckdb.sql(f"select {rows} from range(1, 13) t(i)").write_parquet(str(file))
        return file.read_bytes()


_CLAUSES = (
    *("select", "from species", "where", "nan", "1/0", "density_kg_m3", "common_name", "order by"),
    *("limit 3", "limit -1", "'x'", "chr(27)", "chr(8238)", "union all", "(", ")", ",", "*", "[1]"),
    *(
        "{'a': 1}",
        "'inf'::double",
        "interval 1 day",
        "date '2020-01-01'",
        "''::blob",
        "'\\xAA'::blob",
    ),
    *("1::decimal(18,3)", "range(5)", "uuid()", "null", "map {1: 'nan'::double}", "as", '"', "--x"),
    *("count(*)", "group by all", "names", "read_csv('/etc/passwd')", "time '01:02:03'", ";"),
    *("1e300 * 1e300", "struct_pack(x := 'nan'::double)", "repeat('x', 1000)", "chr(133)"),
)


def queries(random: Random) -> Case:
    """A statement of SQL, or a condition on woods, put together of pieces."""
    if random.random() < 0.5:
        text = "select " + ", ".join(random.sample(_CLAUSES, random.choice((1, 2, 3))))
        text += random.choice(("", " from species limit 2", " from names limit 2"))
    else:
        text = " ".join(random.choice(_CLAUSES) for _ in range(random.choice((2, 4, 7))))
    if random.random() < 0.2:
        text = hostile.twisted(text, random)
    text = text.replace("\x00", "")
    if random.random() < 0.7:
        return Case("queries", _with_format(["sql", text], random))
    condition = " ".join(
        random.choice(
            (
                "density_kg_m3",
                "<",
                ">=",
                "700",
                "and",
                "nan",
                "1",
                "(",
                "side_hardness_n",
                "=",
                "or",
                "-5",
                "1e999",
                "kind",
                "'hardwood'",
                "lightness",
                "0",
                "==",
                "!",
            )
        )
        for _ in range(random.choice((1, 3, 3, 5, 7)))
    )
    return Case(
        "queries",
        _with_format(["rank", "--for", "shelf", "--rows", "2", "--where", condition], random),
    )


def kinds(workspace: Workspace) -> dict[str, Callable[[Random], Case]]:
    """What draws a case of each kind."""
    return {
        "options": options,
        "targets": written_to,
        "keys": partial(keys, workspace),
        "structure": partial(structures, workspace),
        "bytes": partial(bytewise, workspace),
        "no file": no_files,
        "configuration": partial(configuration, workspace),
        "environment": environment,
        "overlay": partial(overlay, workspace),
        "queries": queries,
    }


#: How many of a hundred cases are of a kind.
SHARES = {
    **{"options": 46, "targets": 2, "keys": 20, "structure": 8, "bytes": 6, "no file": 2},
    **{"configuration": 6, "environment": 4, "overlay": 3, "queries": 3},
}


def drawn(workspace: Workspace, random: Random) -> Case:
    """A case of any kind."""
    of = kinds(workspace)
    kind = random.choices(list(SHARES), weights=list(SHARES.values()))[0]
    return of[kind](random)
