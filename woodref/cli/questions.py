"""What a shop asks, with the command to type: the screen of the program without a command."""

from __future__ import annotations

from collections.abc import Iterator

#: Questions in the words of a shop, each with the command that answers it, in groups: a piece; a
#: wood; a board, a joint, a pile; the air; the rest.
QUESTIONS: tuple[tuple[tuple[str, str], ...], ...] = (
    (
        ("What will it weigh?", "woodref estimate PARTS.csv --wood ash --place Boston"),
        ("How do I describe it?", "woodref begin"),
        ("What must I buy?", "woodref buy PARTS.csv --wood ash"),
        ("A page for a client?", "woodref report PIECE.toml -o page.html"),
    ),
    (
        ("What is cherry like?", "woodref show cherry"),
        ("Which is harder?", 'woodref compare hickory "hard maple"'),
        ("A wood for tabletops?", "woodref rank --for tabletop"),
        ("What can replace it?", "woodref substitute cherry --for tabletop"),
    ),
    (
        ("How far will it move?", "woodref movement cherry --width 30in --place Boston"),
        ("How to hold it down?", "woodref fixing cherry --kind button --width 30in"),
        ("Will a shelf sag?", "woodref deflection ash --span 3ft --width 10in --thickness 3/4in"),
        ("How many board feet?", 'woodref tally --board "4/4 x 7in x 10ft x 3 cherry"'),
    ),
    (
        ("How dry will it get?", "woodref season Boston"),
        ("How long to rest it?", "woodref acclimate ash --thickness 8/4 --place Boston"),
        ("What does MC mean?", "woodref words MC"),
        ("Every command?", "woodref --help"),
    ),
)
_HEAD = "What do you want to know? Type the command, with your own wood, sizes and town."
_WIDTH = 80


def screen() -> str:
    """The questions and their commands, on one screen."""
    return "\n".join([_HEAD, *(line for group in QUESTIONS for line in ("", *_lines(group)))])


def _lines(group: tuple[tuple[str, str], ...]) -> Iterator[str]:
    """The lines of a group; a command that is too long stands on a line by itself."""
    column = max(len(asked) for part in QUESTIONS for asked, _ in part) + 2
    for asked, typed in group:
        line = f"{asked.ljust(column)}{typed}"
        if len(line) <= _WIDTH:
            yield line
        else:
            yield asked
            yield typed.rjust(min(_WIDTH, column + len(typed)))
