"""Write the Markdown of every page: ``python -m docs.site FOLDER``."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
import time
from pathlib import Path

from docs.site.every import every_drawing, every_page
from docs.site.links import CARRIED
from docs.site.page import ROOT

#: Pages that no menu lists say so, as the generator takes one that is forgotten for a mistake.
_UNLISTED = "---\norphan: true\n---\n\n"


def main() -> int:
    """Make the pages in a folder, which is emptied first."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    folder = parser.parse_args().folder
    shutil.rmtree(folder, ignore_errors=True)
    # The shop's own figures, and what it has set, are no part of the site.
    os.environ |= {"WOODREF_NO_OWN": "1", "WOODREF_CONFIG": os.devnull}
    start = time.process_time()
    count = 0
    for page in every_page():
        target = folder / page.path
        target.parent.mkdir(parents=True, exist_ok=True)
        text = page.make()
        target.write_text(text if page.listed else _UNLISTED + text, encoding="utf-8")
        count += 1
    for drawing in every_drawing():
        (folder / drawing.path).write_text(drawing.make(), encoding="utf-8")
    for carried, place in CARRIED.items():
        shutil.copytree(
            ROOT / carried, folder / place, ignore=shutil.ignore_patterns("*.py", "__pycache__")
        )
    print(f"{count} pages, {time.process_time() - start:.0f} s of processor time")
    return 0


if __name__ == "__main__":
    sys.exit(main())
