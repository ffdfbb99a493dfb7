"""The command line: every command is a thin layer over the library."""

from __future__ import annotations

import sys

import typer

from woodref.cli import calculate
from woodref.errors import WoodrefError

app = typer.Typer(
    name="woodref",
    help="Wood properties for furniture makers: weight, hardness, movement, cost, each with "
    "its spread and its source.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
calculate.register(app)


@app.callback()
def root() -> None:
    """Wood properties for furniture makers."""


def main() -> None:
    """Run the command line; an error of ours is one line on stderr and an exit code."""
    try:
        app()
    except WoodrefError as error:
        sys.stderr.write(f"woodref: {error}\n")
        sys.exit(error.exit_code)
