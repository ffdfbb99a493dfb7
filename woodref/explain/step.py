"""One step of an explanation, made from a formula and its arguments.

The text of a formula and its source are declared beside it (woodref.formulas.declaration); here
numbers are put in for its symbols. They are SI (mm, kg, N, MPa), rounded for reading; written as
arithmetic, they can be worked out again by hand, or by a test.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Any, NamedTuple, TypeAlias

from woodref.formulas.declaration import Declaration, declaration


class Step(NamedTuple):
    """One step: what of which thing, the formula, its numbers, the result with its unit."""

    of: str
    what: str
    formula: str
    numbers: str
    result: float
    unit: str
    source: str


def n(value: float) -> str:
    """A number as it is written into a step: six digits, a negative one in brackets."""
    text = f"{value:.6g}"
    return f"({text})" if text.startswith("-") else text


class Worked(NamedTuple):
    """A formula with its arguments: how it is written, with numbers, and what comes out.

    ``apart`` true where another formula keeps a symbol for it, told by ``where`` after a comma.
    """

    text: str
    numbers: str
    value: float
    source: str
    equations: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    is_sum: bool = False
    apart: bool = False


Argument: TypeAlias = "float | Worked"


def worked(
    function: Callable[..., Any], *arguments: Argument, called: Mapping[str, str] | None = None
) -> Worked:
    """A declared formula worked out.

    Parameters: function, declared by woodref.formulas.declaration; arguments, numbers or
    formulas worked out themselves, which stand in the place of their symbol; called, other
    names of its symbols. An argument left to its default is a constant, written as a number.
    Returns: Worked; of equations, also those of the same publication that its arguments name.
    """
    declared = declaration(function)
    defaults = function.__defaults__ or ()
    left = len(declared.symbols) - len(arguments)
    every = (*arguments, *defaults[len(defaults) - left :])
    numbers = [a.value if isinstance(a, Worked) else a for a in every]
    given: dict[str, Argument] = dict(zip(declared.symbols, every, strict=True))
    given |= {symbol: of(*numbers) for symbol, of in declared.derived.items()}
    names = dict(called or {}) | {
        symbol: n(number)
        for symbol, number in zip(declared.symbols[len(arguments) :], numbers[-left:], strict=False)
    }
    inner = [a for a in every if isinstance(a, Worked)]
    equations = [e for a in inner if a.source == declared.source for e in a.equations]
    text, written, is_sum = _written(declared, given, names)
    return Worked(
        text,
        written,
        float(function(*numbers)),
        declared.source,
        tuple(dict.fromkeys((*equations, *declared.equations))),
        tuple(
            line
            for symbol, a in zip(declared.symbols, every, strict=True)
            if isinstance(a, Worked)
            for line in (*((f"{symbol} = {a.text}",) if a.apart else ()), *a.where)
        ),
        is_sum,
    )


def _written(
    declared: Declaration, given: Mapping[str, Argument], names: Mapping[str, str]
) -> tuple[str, str, bool]:
    """The text and the arithmetic of a formula, and whether it is a sum."""
    text, numbers, depth, is_sum = "", "", 0, False
    factor = False  # true where what follows is another factor
    tokens = [*_tokens(declared), ("end", "", "")]
    for (kind, space, word), (after, *_) in pairwise(tokens):
        shown, number = word, word
        if kind == "symbol":
            fast = numbers.endswith("/ ") or after in ("power", "^")
            alone = len(tokens) == 2
            shown, number = _put_in(word, given[word], names, fast, alone)
        text += space + shown
        if factor and kind in ("symbol", "number", "function", "("):
            numbers += " * "
        numbers += number if kind in ("symbol", "number", "function", "(", ")") else ""
        numbers += f" {_OPERATORS[kind]} " if kind in _OPERATORS else ""
        numbers += f" ** {word}" if kind == "power" else ""
        factor = kind in ("symbol", "number", "power", ")")
        depth += (kind == "(") - (kind == ")")
        is_sum |= depth == 0 and kind in ("+", "-")
    return text, numbers, is_sum


def _put_in(
    symbol: str, value: Argument, names: Mapping[str, str], fast: bool, alone: bool
) -> tuple[str, str]:
    """What stands in the place of a symbol, as text and as numbers.

    Parameters: fast, true where what stands beside it would take hold of a part of a product.
    """
    if not isinstance(value, Worked):
        return names.get(symbol, symbol), n(value)
    ends = ("", "") if alone or not (value.is_sum or fast) else ("(", ")")
    numbers = value.numbers.join(ends)
    return (symbol if value.apart else value.text.join(ends)), numbers


#: Signs and words of a text, and what they are in arithmetic.
_OPERATORS = {"+": "+", "-": "-", "/": "/", "^": "**", "x": "*", "times": "*"}


def _tokens(declared: Declaration) -> Iterator[tuple[str, str, str]]:
    """Kind, the space before, and the word of each token of a text; an operator is its kind."""
    symbols = sorted({*declared.symbols, *declared.derived} - {""}, key=len, reverse=True)
    pattern = re.compile(
        r"(?P<space> *)(?:"
        rf"(?P<symbol>(?:{'|'.join(map(re.escape, symbols))})(?![A-Za-z]))"
        r"|(?P<number>\d+(?:\.\d+)?)|(?P<function>sqrt)|(?P<sign>[-+/^()]|x\b|times\b))"
    )
    at, text, powered = 0, declared.text, False
    while at < len(text):
        match = pattern.match(text, at)
        if match is None:
            raise ValueError(f"{text!r} cannot be read from {text[at:]!r} on")
        kind, word = str(match.lastgroup), match[str(match.lastgroup)]
        if powered and kind == "number" and not match["space"]:
            kind = "power"
        yield (word if kind == "sign" else kind), match["space"], word
        powered = kind == "symbol" or word == ")"
        at = match.end()


def added(*terms: Worked) -> Worked:
    """The sum of formulas; source as the first."""
    first = terms[0]
    return first._replace(
        text=" + ".join(t.text for t in terms),
        where=tuple(dict.fromkeys(w for t in terms for w in t.where)),
        **_sum(terms),
    )


def total(terms: Iterable[Worked]) -> Worked:
    """The sum of one formula over several things; its text is written once."""
    every = list(terms)
    return every[0]._replace(**_sum(every))


def _sum(terms: Iterable[Worked]) -> dict[str, Any]:
    every = list(terms)
    return {
        "numbers": " + ".join(t.numbers for t in every),
        "value": sum(t.value for t in every),
        "is_sum": len(every) > 1 or every[0].is_sum,
    }


def times(count: float, one: Worked, symbol: str = "") -> Worked:
    """A product times a number; its text names the number where a symbol is given."""
    return one._replace(
        text=f"{symbol} x {one.text}" if symbol else one.text,
        numbers=f"{n(count)} * {one.numbers}",
        value=count * one.value,
    )


def cited(computed: Worked) -> str:
    """The source of a formula, with its equations."""
    if not computed.equations:
        return computed.source
    *others, last = computed.equations
    numbers = f"{', '.join(others)} and {last}" if others else last
    return f"{computed.source}, Eq. {numbers}"


def step(of: str, what: str, computed: Worked, unit: str, result: float | None = None) -> Step:
    """The step that shows a formula worked out.

    Parameters: result, of the answer that is explained, where it came about in another order
    of the same arithmetic, so that the two agree to the last digit.
    """
    written = ", ".join((computed.text, *computed.where))
    value = computed.value if result is None else result
    return Step(of, what, written, computed.numbers, value, unit, cited(computed))
