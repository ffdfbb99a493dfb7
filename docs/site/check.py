"""Check the finished site: ``python -m docs.site.check build/site``.

No page may load anything from elsewhere, and every link must lead to a page, and a place on it.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

#: What a browser loads by itself, by tag, and the attribute that says from where.
_LOADED = {
    "audio": "src",
    "embed": "src",
    "iframe": "src",
    "img": "src",
    "link": "href",
    "object": "data",
    "script": "src",
    "source": "src",
    "video": "src",
}
#: Addresses on other machines in a style sheet, and style sheets it brings in.
_STYLE_LOADS = re.compile(r"""(?:url\(|@import)\s*["']?((?:https?:)?//[^"')\s]+)""")


class _Seen(HTMLParser):
    """What a page loads, where it links to, and the places on it that can be linked to."""

    def __init__(self) -> None:
        super().__init__()
        self.loads: list[str] = []
        self.links: list[str] = []
        self.places: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note the addresses and the name of an element."""
        has = dict(attrs)
        if tag in _LOADED and (target := has.get(_LOADED[tag])):
            self.loads.append(target)
        if tag == "a" and (target := has.get("href")):
            self.links.append(target)
        if name := has.get("id"):
            self.places.add(name)


def _elsewhere(address: str) -> bool:
    parts = urlsplit(address)
    return bool(parts.netloc) or parts.scheme not in ("", "data")


def _pages(folder: Path) -> list[Path]:
    """The pages; what the theme brings along for its own making is none."""
    return sorted(p for p in folder.rglob("*.html") if "_static" not in p.parts)


def mistakes(folder: Path) -> Iterator[str]:
    """What is wrong with the site, a line each."""
    seen: dict[Path, _Seen] = {}
    if not _pages(folder):
        yield f"{folder} holds no page"
    for page in _pages(folder):
        seen[page] = _Seen()
        seen[page].feed(page.read_text(encoding="utf-8"))
    for style in sorted(folder.rglob("*.css")):
        for target in _STYLE_LOADS.findall(style.read_text(encoding="utf-8")):
            yield f"{style.relative_to(folder)}: loads {target}"
    for page, what in seen.items():
        name = page.relative_to(folder)
        yield from (f"{name}: loads {x}" for x in what.loads if _elsewhere(x))
        for target in what.links + [x for x in what.loads if not _elsewhere(x)]:
            parts = urlsplit(target)
            if parts.scheme or parts.netloc:
                continue
            file = (page.parent / unquote(parts.path)).resolve() if parts.path else page.resolve()
            if not file.is_file():
                yield f"{name}: {target} leads nowhere"
            elif parts.fragment and file in seen and parts.fragment not in seen[file].places:
                yield f"{name}: {target} names no place on its page"


def main() -> int:
    """Print what is wrong; 1 where something is."""
    folder = Path(sys.argv[1]).resolve()
    wrong = list(mistakes(folder))
    print("\n".join(wrong), file=sys.stderr)
    pages = len(_pages(folder))
    size = sum(f.stat().st_size for f in folder.rglob("*") if f.is_file())
    print(f"{pages} pages, {size / 1e6:.1f} MB, {len(wrong)} mistakes")
    return int(bool(wrong))


if __name__ == "__main__":
    sys.exit(main())
