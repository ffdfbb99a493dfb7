"""Links of the files of the project, turned into links between the pages of the site."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable

from docs.site.page import ROOT

#: Where a file of the project stands in the site.
_PLACES: dict[str, str] = {
    "README.md": "index.md",
    "DEVELOPERS.md": "about/developers.md",
    "CHANGELOG.md": "about/changelog.md",
    "datasets/LICENSE.md": "data/license.md",
    "datasets/reference/QUALITY.md": "data/quality.md",
    "docs/commands.md": "commands/index.md",
    "docs/data-dictionary.md": "data/index.md",
    "docs/json.md": "files/json.md",
    "docs/pictures.md": "how-to/pictures.md",
    "docs/piece-file.md": "files/piece-file.md",
    "docs/profiles.md": "files/profiles.md",
    "docs/python.md": "python/index.md",
    "docs/tour.md": "how-to/index.md",
    "docs/words.md": "glossary.md",
}
#: The same with every other page of docs, which stands with what concerns no answer.
PLACES: dict[str, str] = _PLACES | {
    f"docs/{file.name}": f"about/{file.name}"
    for file in sorted((ROOT / "docs").glob("*.md"))
    if f"docs/{file.name}" not in _PLACES
}
#: Folders that are carried along as they are, and where they stand in the site.
CARRIED: dict[str, str] = {"docs/pictures": "pictures", "notebooks": "notebooks"}

#: A fenced block.
FENCE = re.compile(r"(^```.*?^```$)", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\((?P<target>[^)\s]+)\)")
_COMMENT = re.compile(r"^<!--.*?-->\n?", re.MULTILINE | re.DOTALL)


def outside_code(text: str, change: Callable[[str], str]) -> str:
    """A text with all that stands outside its fenced blocks changed."""
    parts = FENCE.split(text)
    return "".join(part if i % 2 else change(part) for i, part in enumerate(parts))


def site_link(target: str, file: str) -> str:
    """Where a link of a file of the project leads in the site.

    Raises: ValueError for a file that is no page of the site.
    """
    if "://" in target:
        return target
    name, _, anchor = target.partition("#")
    path = posixpath.normpath(posixpath.join(posixpath.dirname(file), name)) if name else file
    if path == "docs/commands.md" and anchor:
        return f"/commands/{anchor}.md"
    if path in PLACES:
        return f"/{PLACES[path]}{'#' + anchor if anchor else ''}"
    folder, base = posixpath.split(path)
    if folder in CARRIED:
        return f"/{CARRIED[folder]}/{base}"
    raise ValueError(f"{file} links to {target}, which is no page of the site")


def for_site(text: str, file: str) -> str:
    """The text of a file of the project as it stands in the site, its marks left out."""

    def changed(part: str) -> str:
        part = _COMMENT.sub("", part)
        return _LINK.sub(lambda m: f"]({site_link(m['target'], file)})", part)

    return outside_code(text, changed)
