"""``python -m woodref`` is the command ``woodref``."""

from woodref.cli.main import main

main()
