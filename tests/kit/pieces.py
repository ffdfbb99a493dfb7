"""Pieces for the pages: those of the demo, and one whose words try to be more than words."""

from functools import cache, partial
from pathlib import Path

from woodref.cli.boards_file import boards_of_piece
from woodref.climate.rooms import room_of
from woodref.lumber.prices import read_prices, resolver
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import piece_from, read_piece
from woodref.reference.library import Reference

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
NAMES = ("hall-bench", "wall-shelf", "sideboard", "trestle-table")
#: Words that would be markup, or turn the line around, where they were not escaped.
NASTY = (
    "<script>alert(1)</script>",
    "a \"quoted\" & 'quoted' name",
    "</td></table><h1>gone</h1>",
    "&lt;b&gt; stays as it is",
    "\N{HEBREW LETTER ALEF}\N{HEBREW LETTER BET} \N{RIGHT-TO-LEFT OVERRIDE}turned",
    "chair \N{CHAIR} \N{GRINNING FACE}",
    "--><img src=x onerror=alert(2)>",
    "]]> <svg onload=alert(3)>",
    "javascript:alert(4)",
    "{{ 7 * 7 }} ${x} %s",
    "a\tb \N{NULL}c",
)


@cache
def library():
    return Reference(own=False)


def rooms():
    return Rooms(partial(room_of, library()))


@cache
def demo(name):
    """The estimate of a demo piece, with its prices, its room and the boards it names."""
    piece = read_piece(DEMO / f"{name}.toml", rooms())
    prices = read_prices(DEMO / piece.prices, resolver(library())) if piece.prices else None
    boards = boards_of_piece(piece, force=False)[0] if piece.buying else ()
    return estimate_piece(library(), piece, prices, boards)


def named(words, room=True, shipping=True):
    """The estimate of a small piece that is called by words of ours, wherever it has a name.

    Parameters: words, at least eleven, no two alike; room, whether it lives in a town;
    shipping, whether a crate is made.
    """
    use = (
        {"place": "Savannah, Georgia", "setting": "heated-house"}
        if room
        else {"driest": {"moisture_pct": 6}, "wettest": {"moisture_pct": 10}}
    )
    top, rail, sheet = words[2], words[3], words[4]
    data = {
        "name": words[0],
        "note": words[1],
        "units": "us",
        "build": {"moisture_pct": 8},
        "use": use,
        "sheets": [{"name": sheet, "thickness": "1/4", "density": "40 lb/ft3"}],
        "parts": [
            {
                "name": top,
                "species": "black cherry",
                "length": "40",
                "width": "18",
                "thickness": "3/4",
                "staves": 4,
                "lift": words[5],
                "note": words[6],
            },
            {
                "name": rail,
                "species": "white ash",
                "length": "36",
                "width": "3",
                "thickness": "3/4",
            },
            {"name": words[7], "sheet": sheet, "length": "20", "width": "10"},
        ],
        "span": [{"name": words[8], "part": rail, "uniform": "10 lb/ft"}],
        "fixing": [
            {
                "name": words[9],
                "part": top,
                "kind": "slotted-hole",
                "distance": "8",
                "screw": "#8",
                "slot": "1/2",
                "note": words[6],
            }
        ],
        "items": [{"name": words[10], "mass": "1 lb"}],
    }
    if shipping:
        data["shipping"] = {"length": "42", "depth": "20", "height": "30"}
    return estimate_piece(library(), piece_from(data, words[-1], rooms()))
