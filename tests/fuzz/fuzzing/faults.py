"""What is wrong with an answer to hostile input, whatever the input was."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

from fuzzing.case import Case, Outcome

LONGEST_LINE = 300
#: Mistakes of one file that are told at once, and the line that counts the others.
MOST_LINES = 11
#: A number that is none, where people or programs read a number.
_NO_NUMBER = re.compile(r"(?<![\w'\"./-])[-+]?(?:nan|inf|infinity)(?![\w'\"./=-])", re.IGNORECASE)
#: The same with a unit behind it, which no word of the input is.
_NO_QUANTITY = re.compile(
    r"(?<![\w'\"])-?(?:nan|inf) (?:in|ft|mm|m|lb|lbf|kg|N|psi|MPa|C|F|%|board feet|days|ft2|m2)\b"
)


def unprintable(text: str, but: str = "\n") -> str:
    """The first character that steers a terminal, turns a direction or is none; '' without."""
    return next((c for c in text if not c.isprintable() and c not in but), "")


def _no_number(case: Case, text: str) -> bool:
    """Does a text of ours hold a number that is none, and that the input does not say itself?"""
    told = (
        " ".join(case.arguments)
        + " ".join(case.environment.values())
        + " ".join(str(data) for data in case.files.values())
    )
    # What a damaged file of own figures holds is not read off its bytes.
    word = case.kind == "overlay" or re.search("nan|inf", told, re.IGNORECASE)
    pattern = _NO_QUANTITY if word else _NO_NUMBER
    return any(match.group() not in told for match in pattern.finditer(text))


def faults(case: Case, outcome: Outcome) -> list[str]:
    """What is wrong, each in a few words that are the same for the same fault."""
    wrong: list[str] = []
    if outcome.error is not None:
        last = outcome.traceback.strip().splitlines()
        place = next((x.strip() for x in reversed(last) if "/woodref/" in x), "")
        place = re.sub(r'File ".*/woodref/', "woodref/", place).replace('"', "")
        return [f"a mistake of the program: {type(outcome.error).__name__} at {place}"]
    if outcome.code not in (0, 1, 2):
        wrong.append(f"exit code {outcome.code}")
    wrong += _of_error(case, outcome)
    wrong += _of_answer(case, outcome)
    for name, data in outcome.made.items():
        wrong += _of_file(case, name, data)
    if outcome.left:
        wrong.append(
            f"left behind: {sorted(re.sub(r'[a-z0-9_]{8}', '*', n) for n in outcome.left)}"
        )
    return wrong


def _of_error(case: Case, outcome: Outcome) -> list[str]:
    wrong = []
    lines = outcome.err.splitlines()
    if outcome.err and not outcome.err.endswith("\n"):
        wrong.append("stderr: the last line has no end")
    if outcome.err.count("\n") != len(lines) or (bad := unprintable(outcome.err)):
        wrong.append(f"stderr: an unprintable character {bad!a}")
    if any(len(line) > LONGEST_LINE for line in lines):
        wrong.append(f"stderr: a line longer than {LONGEST_LINE}")
    if "Traceback" in outcome.err or "a mistake of the program" in outcome.err:
        wrong.append("stderr: a traceback or a mistake of the program")
    if outcome.code in (1, 2):
        if not lines:
            wrong.append(f"exit code {outcome.code} without a word")
        if len(lines) > MOST_LINES and case.arguments[:2] != ["own", "add"]:
            wrong.append(f"stderr: more than {MOST_LINES} lines")
        # A file may name another, such as its price list, which is at fault then.
        if (
            case.at_fault
            and outcome.code == 2
            and not re.search(
                r"[\w-]+\.(?:toml|csv|txt|jsonl|parquet)|: (?:there is no such|is a folder"
                r"|is larger than|cannot be read as)",
                _first(outcome.err),
            )
        ):
            wrong.append(f"stderr does not name the file: {_gist(outcome.err)}")
    return wrong


def _first(text: str) -> str:
    return text.splitlines()[0] if text else ""


def _gist(text: str) -> str:
    """A message without what a case put into it."""
    return re.sub(r"'[^']*'|\"[^\"]*\"|[0-9.]+", "_", text.splitlines()[0] if text else "")[:90]


def _of_answer(case: Case, outcome: Outcome) -> list[str]:
    wrong = []
    if bad := unprintable(outcome.out):
        wrong.append(f"stdout: an unprintable character {bad!a}")
    if outcome.code == 0 and _no_number(case, outcome.out):
        wrong.append("stdout: a number that is none")
    if outcome.code == 0 and "json" in case.arguments and case.arguments[0] != "report":
        try:
            json.loads(outcome.out, parse_constant=_refuse)
        except ValueError as error:
            if outcome.out.startswith("{"):
                wrong.append(f"stdout: no JSON: {error}")
    return wrong


def _refuse(constant: str) -> None:
    raise ValueError(f"{constant} is no JSON")


def _of_file(case: Case, name: str, data: bytes) -> list[str]:
    wrong = []
    if name.endswith((".svg", ".html", ".csv", ".toml", ".json")):
        text = data.decode("utf-8", "backslashreplace")
        # No line of a picture or a page ends between a number and its unit.
        # Rows that people gave are written as they stand.
        if not name.endswith((".csv", ".toml")) and (bad := unprintable(text, "\n\xa0")):
            wrong.append(f"{_suffix(name)}: an unprintable character {bad!a}")
        if name.endswith((".svg", ".csv")) and _no_number(case, text):
            wrong.append(f"{_suffix(name)}: a number that is none")
    if name.endswith(".svg"):
        try:
            ElementTree.fromstring(data)
        except ElementTree.ParseError as error:
            wrong.append(f"svg: not well formed: {error}")
    return wrong


def _suffix(name: str) -> str:
    return name.rpartition(".")[2]
