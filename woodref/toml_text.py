"""The tables of a TOML file: what is no TOML is told with its line, whatever stands in it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from woodref.errors import InputError
from woodref.files import one_line, read_text

#: A file written by hand is far smaller; to read a larger one takes seconds [characters].
MOST_CHARACTERS = 1_000_000
#: Names of a key, parted by points, at the most: a thousand take the parser gigabytes.
MOST_NAMES = 16
#: What holds no key: remarks and texts, those of several lines first.
_NO_KEYS = re.compile(
    # Each is taken without its end too, so that none is looked for over and over.
    r"""#[^\n]*|"{3}(?:[^"\\]|\\.|"(?!""))*(?:"{3})?|'{3}(?:[^']|'(?!''))*(?:'{3})?"""
    r"""|"(?:[^"\\\n]|\\[^\n])*"?|'[^'\n]*'?""",
    re.DOTALL,
)
_NAMES = re.compile(rf"(?<![\w-])(?:[\w-]+[ \t]*\.[ \t]*){{{MOST_NAMES}}}")


def load_toml(path: Path, what: str, may_be_empty: bool = False) -> dict[str, Any]:
    """The tables of a TOML file.

    Raises: InputError as read_text, and as parse_toml.
    """
    return parse_toml(read_text(path, what, may_be_empty), str(path))


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """The tables of TOML text; ``file`` is the name used in messages.

    Raises: InputError for malformed TOML with line and column, and for what a person does not
    write: more than MOST_CHARACTERS, keys of more than MOST_NAMES names, tables in tables without
    end.
    """
    if len(text) > MOST_CHARACTERS:
        raise InputError(f"{file}: is longer than {MOST_CHARACTERS:,} characters")
    # A key stands in one line: hardly any has as many points, and needs a closer look.
    if any(line.count(".") >= MOST_NAMES for line in text.split("\n")) and (
        deep := _NAMES.search(_NO_KEYS.sub(_same_lines, text))
    ):
        line = text.count("\n", 0, deep.start()) + 1
        raise InputError(f"{file}: line {line}: a key of more than {MOST_NAMES} names")
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise InputError(f"{file}: is not valid TOML: nested too deep") from None
    except tomllib.TOMLDecodeError as error:
        problem = str(error).splitlines()[0]
        if bare := _bare_text(text, problem):
            raise InputError(f"{file}: {bare}") from None
        raise InputError(f"{file}: is not valid TOML: {problem}") from None
    except ValueError:
        raise InputError(f"{file}: is not valid TOML: a number of too many digits") from None


def _same_lines(held: re.Match[str]) -> str:
    """A word in the place of a text, as long and in as many lines."""
    return re.sub(".", "s", held[0])


#: The line that the parser names.
_LINE = re.compile(r"\(at line ([0-9]+)")
_COMMA = re.compile(r"[0-9]+(,[0-9]+)+(\.[0-9]*)?")
#: A line that gives a key a value, and a value in a list or an inline table.
_VALUE = re.compile(r"\s*(?P<key>[A-Za-z0-9_-]+)\s*=(?P<value>.*)")
_ITEM = re.compile(
    r"(?:(?P<key>[A-Za-z0-9_-]+)\s*=|[\[,])\s*(?P<value>[^\s\[{\]},\"'#][^\[{\]},#]*)"
)


def _bare_text(text: str, problem: str) -> str:
    """What to say of a value that lacks its quotes, such as 19-1/2; '' where none is at fault.

    Parameters: text; problem, what the parser says, with the line it says it of.
    """
    told = _LINE.search(problem)
    lines = text.splitlines()
    number = int(told[1]) if told else len(lines)
    line = lines[number - 1] if 0 < number <= len(lines) else ""
    whole = _VALUE.fullmatch(line)
    if whole is None or _is_toml(line) or not _is_toml("\n".join(lines[: number - 1])):
        return ""  # the fault lies above, or the line inside a longer text
    inside = whole["value"].lstrip().startswith(("[", "{"))
    for item in _ITEM.finditer(whole["value"]) if inside else [whole]:
        value = item["value"].partition("#")[0].strip()
        if value and value[0] not in "\"'=" and not _is_toml(f"x = {value}"):
            key, shown = (one_line(x, 60) for x in (item["key"] or whole["key"], value))
            if _COMMA.fullmatch(value):
                comma = "has a comma; decimals take a point, thousands no mark"
                return f"line {number}: {key}: {shown} {comma}"
            mark = "'" if '"' in value else '"'
            written = f"{mark}{shown}{mark}" if inside else f"{key} = {mark}{shown}{mark}"
            return f"line {number}: {key}: {shown} needs quotes; write {written}"
    return ""


def _is_toml(text: str) -> bool:
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return False
    return True
