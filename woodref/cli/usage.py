"""What the parser of the command line complains about, in one line with the nearest choice."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from woodref.errors import RegionalNameError
from woodref.files import closest

_CHOICE = re.compile(r"'(?P<given>.*)' is not one of (?P<choices>.*?)\.?$", re.DOTALL)


def nearest(word: str, choices: Iterable[str]) -> str:
    """'; nearest: flat' for a misspelt word, '' where nothing is near."""
    known = list(choices)
    begun = [choice for choice in known if choice.startswith(word)]
    near = begun[0] if len(word) > 3 and begun else closest(word, known)
    return f"; nearest: {near}" if near else ""


def _options(command: Any) -> list[str]:
    """The long options of a command."""
    return [o for p in command.params for o in p.opts if o.startswith("--")] + ["--help"]


def _example(command: Any) -> str:
    """'; for example: woodref ...' from the first example of a command's help."""
    lines = [line.strip() for line in (command.epilog or "").splitlines()]
    example = next((line for line in lines if line.startswith("woodref ")), "")
    return f"; for example: {example}" if example else ""


def _parameter_message(error: Any, name: str, command: Any) -> str:
    """What is wrong with one option or argument."""
    message = " ".join(error.message.split()).rstrip(".")
    choice = _CHOICE.search(message)
    if hasattr(error, "param_type"):
        return f"{name} is missing{_example(command)}"
    if choice:
        choices = [c.strip(" '") for c in choice["choices"].split(",")]
        near = nearest(choice["given"], choices)
        return f"{name} cannot be '{choice['given']}'; use {', '.join(choices)}{near}"
    return f"{name}: {message.replace('a valid int', 'a whole number')}"


def _quoted(word: str) -> str:
    """A word of a command to type, in quotes where a shell needs them."""
    plain = word and not re.search(r"""[\s"'$&|;<>()*?\\]""", word)
    return word if plain else '"' + word.replace('"', '\\"') + '"'


def with_regions(error: RegionalNameError, words: Sequence[str]) -> str:
    """What a plain name means by region, and the command to type for each.

    Parameters: error; words of the command line that brought it up.
    """
    asked = " ".join(map(_quoted, ["woodref", *words]))
    told = " and ".join(f"{m or 'several woods'} in {r}" for r, m in error.meanings.items())
    typed = ", or ".join(f"{asked} --region {_quoted(r)}" for r in error.meanings)
    return f"'{error.name}' is {told}; type {typed}"


def message_of(error: Any) -> str:
    """One line for an error of the command-line parser.

    The parser's exceptions are told apart by what they carry, as their classes are no
    part of its public interface.
    """
    context = getattr(error, "ctx", None)
    where = context.command_path if context else "woodref"
    parameter = getattr(error, "param", None)
    text = " ".join(str(error.format_message()).split()).rstrip(".")
    if context is not None and hasattr(error, "possibilities"):
        near = nearest(error.option_name, _options(context.command))
        text = f"no option {error.option_name}{near or f'; {where} --help lists them'}"
    elif context is not None and parameter is not None:
        name = parameter.opts[0] if parameter.opts[0].startswith("-") else parameter.name.upper()
        text = _parameter_message(error, name, context.command)
    elif context is not None and "unexpected extra argument" in text:
        text += f"; put a name of several words in quotes{_example(context.command)}"
    return f"{where}: {text}"
