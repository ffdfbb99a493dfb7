"""Errors that carry a one-line message for people and an exit code for programs."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence


def system_reason(error: OSError) -> str:
    """What the system says is wrong: 'no space left on device'."""
    said = os.strerror(error.errno) if error.errno else error.strerror or str(error)
    return said.lower()


class WoodrefError(Exception):
    """Could not answer: the message is one line saying what is wrong and what to do."""

    exit_code = 1

    def told(self, units: str) -> str:
        """The message in the units 'us' or 'si', as far as it has quantities; in both for ''."""
        return str(self)


class InputError(WoodrefError):
    """The question itself is wrong: a bad size, unit, key, name or file."""

    exit_code = 2

    def headed(self, head: str, tail: str = "") -> InputError:
        """The same mistake behind a head, such as the file it is in, and before a tail."""
        return InputError(f"{head}{self}{tail}")


class UnitsError(InputError):
    """A mistake that is told in both systems of units, and by ``told`` in one of them.

    Parameters: say, the message for 'us', 'si', or '' for both (woodref.units: size_told,
    quantity_told, either_unit).
    """

    def __init__(self, say: Callable[[str], str]) -> None:
        self._say = say
        super().__init__(say(""))

    def told(self, units: str) -> str:
        """The message in a system of units."""
        return self._say(units)

    def headed(self, head: str, tail: str = "") -> UnitsError:
        """The same mistake between a head and a tail, told in the same units."""
        return UnitsError(lambda units: f"{head}{self.told(units)}{tail}")


class ManyMistakesError(InputError):
    """Several mistakes of one file, told together; ``errors`` holds them, ``more`` were left out.

    The message has a line for each. Where nobody looked for more, ``more`` is None.
    """

    def __init__(self, errors: Sequence[InputError], more: int | None = 0) -> None:
        self.errors, self.more = tuple(errors), more
        super().__init__("\n".join(self.lines()))

    def lines(self, units: str = "") -> tuple[str, ...]:
        """A line for each mistake, in a system of units, and one for those left out."""
        more = "perhaps" if self.more is None else self.more
        left = f"and {more} more: mend these first" if more else ""
        return (*(error.told(units) for error in self.errors), *([left] if left else []))


class UnknownNameError(InputError):
    """No wood goes by this name; ``suggestions`` holds the nearest names."""

    def __init__(self, name: str, suggestions: tuple[str, ...] = ()) -> None:
        self.name = name
        self.suggestions = suggestions
        near = "; try its botanical name, or a word of it with woodref find"
        if suggestions:
            near = f"; nearest: {', '.join(suggestions)}"
        super().__init__(f"no wood is called '{name}'{near}")


class PanelNameError(UnknownNameError):
    """The name is that of a panel, not of a wood."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.args = (
            f"'{name}' is a panel, not a wood: a piece names it under [[sheets]], and woodref "
            f"deflection {name} says how it sags",
        )


class AmbiguousNameError(InputError):
    """A trade name that covers several woods; ``candidates`` holds their names."""

    def __init__(self, name: str, candidates: tuple[str, ...]) -> None:
        self.name = name
        self.candidates = candidates
        super().__init__(
            f"'{name}' is sold as several woods; choose one: {', '.join(candidates)} "
            f'(woodref find "{name}" tells them apart)'
        )


class RegionalNameError(InputError):
    """A plain name that means one wood here and another there.

    ``meanings`` holds what it means, by region, '' where that is several woods.
    """

    def __init__(self, name: str, meanings: dict[str, str]) -> None:
        self.name = name
        self.meanings = meanings
        told = " and ".join(f"{m or 'several woods'} in {r}" for r, m in meanings.items())
        super().__init__(f"'{name}' is {told}; name the wood, or say which region")


class NoDataError(WoodrefError):
    """The wood is known, but the number asked for is in no table."""
