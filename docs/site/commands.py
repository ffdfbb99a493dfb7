"""A page a command: what docs/commands.md says of it, split where its sections begin."""

from __future__ import annotations

import re
from collections.abc import Iterator

from docs.site.links import for_site
from docs.site.page import Page, blocks, link, menu, plain, read, table
from woodref.cli.short_help import SHORT_HELP

_FILE = "docs/commands.md"


def sections() -> tuple[str, dict[str, str]]:
    """What stands above the first command, and the section of each."""
    parts = re.split(r"^## (.+)\n", read(_FILE), flags=re.MULTILINE)
    return parts[0], dict(zip(parts[1::2], parts[2::2], strict=True))


def _path(name: str) -> str:
    return f"commands/{name}.md"


def _index() -> str:
    head, _ = sections()
    title, _, rest = head.partition("\n")
    rows = [(link(name, _path(name)), plain(told)) for name, told in SHORT_HELP.items()]
    return blocks(
        title,
        table(("command", "what it answers"), rows),
        "## For all commands",
        for_site(rest, _FILE),
        menu(map(_path, SHORT_HELP)),
    )


def pages() -> Iterator[Page]:
    """The list of commands, and each one."""
    yield Page("commands/index.md", _index)
    for name in SHORT_HELP:

        def make(name: str = name) -> str:
            section = sections()[1][name]
            told = re.sub(r"^###", "##", for_site(section, _FILE), flags=re.MULTILINE)
            index = link("commands", "commands/index.md", "for-all-commands")
            shared = f"What holds for all commands, such as units and formats: {index}."
            return blocks(f"# woodref {name}", f"**{plain(SHORT_HELP[name])}**", told, shared)

        yield Page(_path(name), make)
