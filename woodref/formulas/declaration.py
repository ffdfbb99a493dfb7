"""What a formula says of itself: how it is written, and where it is printed.

The declaration stands beside the function and leaves it as it is, so that it takes every engine
as before. ``woodref.explain`` puts numbers into the text; a test works every text out and holds
it against its function.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

#: The handbook most formulas are of.
HANDBOOK = "FPL-GTR-282 (2021)"

_Function = TypeVar("_Function", bound=Callable[..., Any])


class Declaration(NamedTuple):
    """A formula as it is written.

    ``text`` the right side of it, in which a space between two factors multiplies, and so does
    ``x`` or ``times``; a digit right after a symbol or a bracket is its power, unless a symbol
    holds it. ``symbols`` one for each parameter of the function, in order. ``source`` the
    publication or the rule; ``equations`` their numbers there. ``derived`` by its symbol what
    takes its number from all the arguments in place of one, as a moisture content that counts
    no further than fiber saturation.
    """

    text: str
    symbols: tuple[str, ...]
    source: str
    equations: tuple[str, ...]
    derived: dict[str, Callable[..., Any]]


_DECLARED: dict[Callable[..., Any], Declaration] = {}


def formula(
    text: str,
    symbols: tuple[str, ...],
    source: str,
    *equations: str,
    **derived: Callable[..., Any],
) -> Callable[[_Function], _Function]:
    """Declare the text and the source of the function below.

    Parameters
    ----------
    text : str
        As Declaration.
    symbols : tuple of str
        As Declaration.
    source : str
        As Declaration.
    *equations : str
        As Declaration.
    **derived : callable
        As Declaration.

    Returns
    -------
    callable
        What takes the function and gives it back as it was.
    """

    def declare(function: _Function) -> _Function:
        _DECLARED[function] = Declaration(text, symbols, source, equations, derived)
        return function

    return declare


def declaration(function: Callable[..., Any]) -> Declaration:
    """Look up the declaration of a function.

    Parameters
    ----------
    function : callable
        A function that carries one.

    Returns
    -------
    Declaration
        Its text, symbols and source.

    Raises
    ------
    KeyError
        Where it has none.
    """
    return _DECLARED[function]
