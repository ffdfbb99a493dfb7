"""Command lines that are answered, from which hostile ones are made."""

from __future__ import annotations

import shlex

#: One or more for every command; files stand in the workspace by their bare names.
QUESTIONS: tuple[str, ...] = (
    "estimate wall-shelf.toml",
    "estimate hall-bench.toml --full",
    "estimate turned-stool.toml --explain",
    "estimate shelf-parts.csv --wood cherry",
    "buy shelf-parts.csv --effort quick",
    "buy shelf-parts.csv --board '5/4 x 5in x 6ft black cherry' --effort quick --yard-widths 6in "
    "--yard-lengths 8ft --prices yard-prices.csv",
    "buy --boards pile.csv shelf-parts.csv --wood ash --effort quick",
    "report wall-shelf.toml -o page.html --effort quick",
    "report wall-shelf.toml -o - --page shop --sources --effort quick",
    "template table --from shelf-parts.csv --wood 'white oak'",
    "template prices",
    "begin --answers plant-stand-answers.txt -o -",
    "begin --answers plant-stand-answers.txt -o begun.toml",
    "crate --length 1m --depth 500mm --height 600mm --weight 20kg",
    "find meranti",
    "find --hue pink",
    "show sapele --sources",
    "show 'white oak'",
    "compare 'black cherry' 'black walnut' hickory",
    "compare cherry walnut --plot woods.svg",
    "stability 'black cherry' --from 7 --to 9",
    "stability cherry --place Duluth",
    "rank --for shelf --rows 3",
    "rank --for tabletop --where 'density_kg_m3 < 700' --prices yard-prices.csv",
    "rank --for desk.toml --plot rank.svg",
    "substitute 'white oak' --for tabletop --rows 2",
    "substitute 'white oak' --with teak",
    "substitute cherry --with teak --piece wall-shelf.toml --part shelf",
    "uses shelf",
    "uses --columns",
    "movement 'black cherry' --width 8in --from 7 --to 9 --explain",
    "movement cherry --width 8in --from 7 --place Duluth --plot year.svg",
    "weight 'black cherry' --length 2.4m --width 200mm --thickness 27mm --quantity 3",
    "weight cherry --shape 'tapered leg' --length 28in --width 2in --thickness 2in --end-width 1in "
    "--end-thickness 1in",
    "weight cherry --shape ring --width 20in --inner 12in --thickness 1in",
    "density cherry --moisture 9",
    "panel cherry --stave 5in --stave '4in quarter' --from 7 --to 9",
    "panel cherry --width 20in --thickness 1in --from 7 --place Duluth --plot panel.svg",
    "section cherry --pith-distance 3in --from 12 --to 6 --width 8in --thickness 1in --boards 3",
    "section cherry --pith-distance 3in --from 12 --to 6 --diameter 2in --plot section.svg",
    "fixing cherry --kind floating-panel --width 14in --gap 3/16in",
    "fixing cherry --kind drawer-front --width 6in --place Duluth --monthly --plot gap.svg",
    "fixing 'hard maple' --kind slotted-screw --width 30in --screw '#10' --slot 1/2in --driest 6 "
    "--wettest 11",
    "gluing cherry --length 4in",
    "joint cherry --kind miter --width 3in --other 'white ash'",
    "joint cherry --kind veneer --width 1in --core 'white ash' --plot joint.svg",
    "fastener 'white oak' --screw '#8' --into 1in --through 3/4in",
    "fastener cherry --lag 5/16in --into 2in --end-grain",
    "deflection cherry --span 36in --width 10in --thickness 3/4in --load books --plot sag.svg",
    "deflection cherry --span 36in --diameter 1in --point 40lbf --at 12in",
    "tally --board '4/4 x 6 x 8ft ash'",
    "tally pile.csv",
    "batch invented-catalog.csv --unit in --prices yard-prices.csv",
    "batch invented-catalog.csv -o answers.csv --unit in --to 12 --ranges",
    "emc 68F 40%",
    "emc 68F --keep 8",
    "moisture --wet 412g --dry 371g",
    "moisture --meter 11 --temperature 45F",
    "acclimate 'hard maple' --thickness 8/4",
    "acclimate 'hard maple' --thickness 4/4 --place Duluth --month May",
    "lag cherry --thickness 3/4in --finish shellac --width 16in",
    "lag cherry --thickness 20mm --place Duluth --plot lag.svg",
    "finishes",
    "place Duluth",
    "place --at 46.8,-92.1",
    "season Duluth --setting heated-house --room heated_to=68F",
    "season --winter 66F,30% --summer 76F,60% --plot air.svg",
    "season --months months.csv",
    "delivery cherry --thickness 3/4in --built 7 --place Duluth --plot way.svg",
    "words fsp",
    "own add measurements.csv --kind measurements --origin 'an invented table'",
    "own add prices.csv --kind prices --origin 'an invented table'",
    "own add places.csv --kind places --origin 'an invented table'",
    "own add yard.csv --kind yard --origin 'an invented table'",
    "own weigh 'white ash' --length 4ft --width 6in --thickness 1in --weight 8.8lb --moisture 8 "
    "--keep --origin 'an invented board'",
    "own list",
    "own remove m1",
    "sources",
    "sources wood-handbook-2021",
    "sql 'select common_name, side_hardness_n from species limit 3'",
)
#: Files of the demo and of the templates by a question that reads each: {} is its name.
READERS: dict[str, tuple[str, ...]] = {
    "wall-shelf.toml": (
        "estimate {}",
        "buy {} --effort quick",
        "report {} -o -",
        "crate {}",
        "rank --for shelf --piece {} --part shelf",
    ),
    "hall-bench.toml": ("estimate {} --format json",),
    "trestle-table.toml": ("estimate {} --full", "report {} --page shop -o -"),
    "turned-stool.toml": ("estimate {} --explain", "buy {} --effort quick"),
    "bookcase.toml": ("estimate {}", "estimate {} --full --units si"),
    "shelf-parts.csv": (
        "buy {} --effort quick",
        "estimate {} --wood cherry",
        "template table --from {} --wood cherry",
    ),
    "sideboard-parts.csv": ("buy {} --effort quick", "batch {} --unit in"),
    "sideboard-boards.csv": ("buy shelf-parts.csv --boards {} --effort quick", "tally {}"),
    "pile.csv": ("tally {}", "tally {} --format json"),
    "invented-catalog.csv": ("batch {} --unit in", "batch {} --unit in -o out.csv --to 12"),
    "invented-catalog.parquet": ("batch {} --unit in", "batch {} --unit in -o out.parquet"),
    "invented-catalog.jsonl": ("batch {} --unit in", "batch {} --unit in -o out.csv"),
    "yard-prices.csv": (
        "buy shelf-parts.csv --effort quick --prices {}",
        "rank --for shelf --rows 2 --prices {}",
        "batch invented-catalog.csv --unit in --prices {}",
    ),
    "sideboard-prices.csv": ("estimate wall-shelf.toml --prices {}",),
    "measurements.csv": ("own add {} --kind measurements --origin x",),
    "prices.csv": ("own add {} --kind prices --origin x",),
    "places.csv": ("own add {} --kind places --origin x",),
    "yard.csv": ("own add {} --kind yard --origin x",),
    "months.csv": ("season --months {}", "season --months {} --plot a.svg"),
    "plant-stand-answers.txt": ("begin --answers {} -o -", "begin --answers {} -o b.toml"),
    "desk.toml": (
        "rank --for {} --rows 2",
        "uses {}",
        "uses {} --text",
        "substitute teak --for {} --rows 2",
    ),
    "maker-logo.svg": ("report branded.toml -o -",),
}
#: Files that TOML is changed in key by key.
PIECES = ("wall-shelf.toml", "hall-bench.toml", "trestle-table.toml", "turned-stool.toml")
CONFIG = 'units = "us"\nprices = "yard-prices.csv"\nplace = "Duluth"\n' + (
    'region = "North America"\nyard = ["cherry", "white oak"]\n[maker]\nname = "x (invented)"\n'
)
MONTHS = "month,temperature,humidity_pct\n" + "".join(
    f"{n},{30 + 4 * n}F,{40 + n}\n" for n in range(1, 13)
)


def split(question: str) -> list[str]:
    """The words of a question."""
    return shlex.split(question)
