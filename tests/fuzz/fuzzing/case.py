"""One thing tried: a command line with its files and its environment, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass, field

#: What stands in the place of a file and is none.
FIFO, DEVICE, FOLDER, LOOP = "a fifo", "an endless device", "a folder", "a link to itself"


@dataclass
class Case:
    """A command line, the files it finds beside it, and what is set in its environment.

    ``files`` hold bytes, or the word for what is no plain file; ``at_fault`` is the file that an
    error has to name, '' where none is.
    """

    kind: str
    arguments: list[str]
    files: dict[str, bytes | str] = field(default_factory=dict)
    environment: dict[str, str] = field(default_factory=dict)
    at_fault: str = ""

    def told(self) -> str:
        """The case as a person can try it again: the command line, and the beginning of a file."""
        lines = [f"woodref {' '.join(map(_short, self.arguments))}"]
        lines += [f"    {name}={_short(value)}" for name, value in self.environment.items()]
        lines += [f"    {name}: {_short(data)}" for name, data in self.files.items()]
        return "\n".join(lines)


def _short(value: str | bytes) -> str:
    text = repr(value)
    return text if len(text) <= 400 else f"{text[:300]} ... {text[-60:]}"


@dataclass
class Outcome:
    """The exit code, what was printed, the files that are new, and an error that came through."""

    code: int | None
    out: str
    err: str
    made: dict[str, bytes]
    left: list[str]
    error: BaseException | None = None
    traceback: str = ""
    seconds: float = 0.0
