"""The command line: every command is a thin layer over the library.

A command's module is imported when the command runs, so that a look-up pays for itself
alone; completion, which lists all of them, imports them all.
"""

from __future__ import annotations

import gc
import os
import sys
import warnings
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from typing import Any

import typer
from typer.core import TyperCommand, TyperGroup

from woodref.cli.say import complain
from woodref.cli.short_help import SHORT_HELP
from woodref.errors import (
    InputError,
    ManyMistakesError,
    RegionalNameError,
    WoodrefError,
    system_reason,
)
from woodref.files_in_use import remembered

#: Commands by what they answer, in the order a maker asks, with the module of each.
SECTIONS: dict[str, dict[str, str]] = {
    "A whole piece": {
        "begin": "begin",
        "estimate": "piece",
        "buy": "buying",
        "report": "report",
        "template": "template",
        "crate": "crate",
    },
    "A wood, and one beside another": {
        "find": "lookup",
        "show": "lookup",
        "compare": "lookup",
        "stability": "stability",
    },
    "Choosing a wood": {
        "rank": "rank",
        "substitute": "substitute",
        "uses": "rank",
    },
    "A board, a pile, a joint": {
        "movement": "movement",
        "weight": "weight",
        "density": "weight",
        "panel": "panel",
        "section": "section",
        "fixing": "fixing",
        "gluing": "fixing",
        "joint": "joint",
        "fastener": "fastener",
        "deflection": "deflection",
        "tally": "tally",
        "batch": "batch",
    },
    "Moisture": {
        "emc": "emc",
        "moisture": "emc",
        "acclimate": "lag",
        "lag": "lag",
        "finishes": "lag",
    },
    "Places and seasons": {
        "place": "places",
        "season": "places",
        "delivery": "lag",
    },
    "The data behind the answers": {
        "words": "words",
        "own": "own",
        "sources": "sources",
        "sql": "sources",
    },
}
#: Commands whose answer is a document or a list by nature, which is printed whole.
DOCUMENTS = ("begin", "report", "template", "sources", "sql", "words")
COMMANDS: dict[str, str] = {
    name: module for section in SECTIONS.values() for name, module in section.items()
}


def _command(name: str) -> Any:
    """The command of a name, or the group of commands, built by the module that holds it."""
    holder = typer.Typer(
        add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False
    )
    import_module(f"woodref.cli.{COMMANDS[name]}").register(holder)
    for group in holder.registered_groups:
        if group.name == name and group.typer_instance:
            for each in group.typer_instance.registered_commands:
                each.cls = HelpInGroups
            commands: Any = typer.main.get_command(group.typer_instance)
            for command in commands.commands.values():
                _add_full(command)
            return commands
    holder.registered_commands = [c for c in holder.registered_commands if c.name == name]
    for each in holder.registered_commands:
        each.cls = HelpInGroups
    command = typer.main.get_command(holder)
    if name not in DOCUMENTS:
        _add_full(command)
    return command


def _short_help(name: str, space: int) -> str:
    """What a command is for in so many columns, without the command."""
    text: str = TyperCommand(name, help=SHORT_HELP[name]).get_short_help_str(space)
    return text


def _add_full(command: Any) -> None:
    """Give a command the option --full, where it has none of its own."""
    if any("--full" in p.opts for p in command.params):
        return
    from typer.core import TyperOption

    from woodref.cli.options import FULL_HELP, keep_full

    option = TyperOption(
        param_decls=["--full"],
        is_flag=True,
        default=False,
        envvar="WOODREF_FULL",
        callback=lambda context, _, full: keep_full(context, full),
        expose_value=False,
        help=FULL_HELP,
    )
    # Before --help, after the options of the command.
    command.params.append(option)


class HelpInGroups(TyperCommand):
    """A command whose help has its options in groups."""

    def format_help(self, ctx: Any, formatter: Any) -> None:
        """The help, with words that say what to type."""
        from woodref.cli.help_page import dress

        dress(self)
        super().format_help(ctx, formatter)

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """The options: what you have, where it lives, the answer."""
        from woodref.cli.help_page import grouped

        for heading, records in grouped(self, ctx):
            with formatter.section(heading):
                formatter.write_dl(records)


class Commands(TyperGroup):
    """The commands of COMMANDS, each imported when it is asked for."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The names of the commands, in order."""
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of a name, None where there is none."""
        return _command(cmd_name) if cmd_name in COMMANDS else None

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command to run; one line and the nearest name where there is none."""
        if args[0] not in COMMANDS and not ctx.resilient_parsing:
            from woodref.cli.usage import nearest

            near = nearest(args[0], COMMANDS)
            raise InputError(f"no command '{args[0]}'{near or '; woodref --help lists them'}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """The commands under the headings of SECTIONS."""
        space = formatter.width - 6 - max(len(name) for name in COMMANDS)
        for heading, names in SECTIONS.items():
            with formatter.section(heading):
                formatter.write_dl([(name, _short_help(name, space)) for name in names])


def _version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        from woodref.reference.checksums import dataset_checksum
        from woodref.reference.fields import DATASET_VERSION
        from woodref.reference.store import data_directory

        typer.echo(f"woodref {version('woodref')}, reference dataset {DATASET_VERSION}")
        typer.echo(f"sha256 {dataset_checksum(data_directory())}")
        raise typer.Exit


app = typer.Typer(
    name="woodref",
    cls=Commands,
    invoke_without_command=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 120},
    epilog="Terms: woodref words lists them, and woodref words MC tells what one means.\n\n"
    "Defaults: a flag beats the environment (WOODREF_UNITS=si), which beats the "
    "configuration file, a TOML file with the keys units, prices, place and region, and the table "
    "[maker] of report: config.toml in your configuration directory under woodref, or the file "
    "WOODREF_CONFIG names.",
)


@app.callback()
def root(
    context: typer.Context,
    version: bool = typer.Option(
        False,
        "--version",
        callback=_version,
        is_eager=True,
        help="Print the versions of the program and of its data, check the data, and exit.",
    ),
    no_own: bool = typer.Option(
        False,
        "--no-own",
        envvar="WOODREF_NO_OWN",
        help="Leave your shop's own figures out; it may stand behind a command too.",
    ),
    region: str = typer.Option(
        "",
        "--region",
        envvar="WOODREF_REGION",
        help="Whose yards: North America, Europe or Australia and New Zealand. It says what a "
        "plain name such as walnut means; it may stand behind a command too. Default: North "
        "America with --units us.",
    ),
) -> None:
    """Wood for furniture makers: what a board weighs, how it moves, what a pile measures.

    Every number comes with its likely range and with the printed table it rests on.
    Run a command with --help for an example; those with --plot draw pictures.
    """
    if no_own:
        from woodref.reference.overlay import leave_out

        leave_out()
    if context.invoked_subcommand is None:
        from woodref.cli.questions import screen

        typer.echo(screen())
    elif not context.resilient_parsing:
        from woodref.cli.options import Asked, UnitSystem, known_region
        from woodref.config import load_config

        defaults = load_config()
        context.default_map = {context.invoked_subcommand: defaults}
        Asked.region = known_region(region or defaults.get("region", ""))
        Asked.units = UnitSystem(defaults.get("units", UnitSystem.us))
        Asked.full, Asked.ways = True, ()


def _program_options_first(arguments: Sequence[str]) -> list[str]:
    """The words of the command line, options of the program before the command.

    People put them where they think of them: behind it.

    Raises: InputError for an option without its value.
    """
    first: list[str] = []
    rest: list[str] = []
    words = iter(arguments)
    for word in words:
        if word == "--no-own" or word.startswith("--region="):
            first.append(word)
        elif word == "--region":
            region = next(words, None)
            if region is None:
                raise InputError('--region needs a region, for example --region "North America"')
            first += [word, region]
        else:
            rest.append(word)
    return first + rest


def _refuse_bytes(words: Sequence[str]) -> None:
    """Refuse words, and settings of the environment, that hold bytes which are no text.

    Raises: InputError for the first of them.
    """
    ours = (item for item in os.environ.items() if item[0].startswith("WOODREF_"))
    for word in (*words, *("=".join(item) for item in ours)):
        if not word.isascii() and any("\ud800" <= c <= "\udfff" for c in word):
            raise InputError(
                f"'{word}' holds bytes that are no UTF-8 text; rename what is called so"
            )


def run(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return the exit code: 0 done, 1 could not answer, 2 usage.

    An error of ours, of the parser or of the system is one line on stderr, and so is each mistake
    of a file; a closed pipe and an interrupt end quietly.

    Parameters: arguments of the command line, by default those of the process.
    """
    words: list[str] = []
    try:
        words = _program_options_first(sys.argv[1:] if arguments is None else arguments)
        _refuse_bytes(words)
        with remembered():
            code = app(words, prog_name="woodref", standalone_mode=False)
        sys.stdout.flush()
        return code if isinstance(code, int) else 0
    except WoodrefError as error:
        for line in _told(error, words):
            complain(f"woodref: {line}")
        return error.exit_code
    except typer.TyperException as error:
        from woodref.cli.usage import message_of

        complain(message_of(error))
        return error.exit_code
    except (KeyboardInterrupt, typer.Abort):
        return 130
    except SystemExit as error:  # the parser's own way out of a closed pipe
        return error.code if isinstance(error.code, int) else 1
    except (OSError, MemoryError) as error:
        return _refused_by_system(error)


def _told(error: WoodrefError, words: Sequence[str]) -> Sequence[str]:
    """What an error of ours says of the words that brought it up, in lines, in their units."""
    from woodref.cli.options import Asked

    if isinstance(error, ManyMistakesError):
        return error.lines(Asked.units.value)
    if isinstance(error, RegionalNameError):
        from woodref.cli.usage import with_regions

        return (with_regions(error, words),)
    return (error.told(Asked.units.value),)


def _refused_by_system(error: OSError | MemoryError) -> int:
    """Say that the system refuses; the exit code."""
    if isinstance(error, BrokenPipeError):
        # The reader is gone: nothing to say, and nothing left to flush at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    elif isinstance(error, MemoryError):
        complain("woodref: there is not enough memory for this")
    elif isinstance(error.filename, str):
        complain(f"woodref: {error.filename}: {system_reason(error)}")
    else:
        complain(f"woodref: the answer cannot be written: {system_reason(error)}")
    return 1


def main() -> None:
    """The command ``woodref``: run it and end the process.

    A look-up is over once it is printed: looking for garbage on the way, and taking the
    interpreter and the database apart at the end, would add about a fifth to its time.
    """
    gc.disable()
    if not sys.warnoptions:
        # What libraries say of fonts and of versions to come is no answer.
        warnings.simplefilter("ignore")
    # Python has no stream where the system has none.
    no_answer = sys.stdout is None
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - as long as we run
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    if no_answer:
        complain("woodref: the answer cannot be written: the output is closed")
        os._exit(1)
    try:
        code = run()
    except Exception as error:
        if os.environ.get("WOODREF_TRACEBACK"):
            raise
        complain(
            f"woodref: a mistake of the program, not of yours: {type(error).__name__}: {error}; "
            "set WOODREF_TRACEBACK=1 to see where"
        )
        code = 1
    with suppress(OSError):
        sys.stderr.flush()
    os._exit(code)
