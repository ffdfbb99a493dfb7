"""Whole answers, letter by letter: the figures from the dataset, and the words around them.

To renew them after a change that is meant: python tests/cli/test_golden.py
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

GOLDEN = Path(__file__).parent / "golden"
CASES = {
    "find-mahogany.txt": "find|mahogany",
    "show-white-oak.txt": "show|white oak",
    "show-white-oak-si.txt": "show|white oak|--units|si",
    "show-teak.txt": "show|teak",
    "compare-hickory-hard-maple.txt": "compare|hickory|hard maple",
    "compare-oak-beech-si.txt": "compare|European oak|European beech|--units|si",
    "movement-cherry.txt": "movement|cherry|--width|14in|--from|70F,30%|--to|75F,60%",
    "movement-cherry-si.md": "movement|cherry|--width|350|--from|6|--to|10|--units|si"
    "|--format|markdown",
    "movement-wanted.txt": "movement|cherry|--width|8in|--wanted|--from|green|--to|8",
    "movement-thickness.csv": "movement|white ash|--thickness|8/4|--from|12|--to|7|--format|csv",
    "weight-cherry.txt": "weight|cherry|--thickness|4/4|--width|8in|--length|10ft|--moisture|8",
    "weight-cherry-green.json": "weight|cherry|--thickness|27|--width|200|--length|3m|--moisture|60"
    "|--quantity|12|--units|si|--format|json",
    "weight-leg.txt": "weight|white ash|--shape|tapered-leg|--length|28in|--width|2in"
    "|--thickness|2in|--end-width|1in|--removed|3 in3|--quantity|4",
    "weight-ring-si.md": "weight|teak|--shape|ring|--diameter|600|--inner|440|--thickness|20"
    "|--units|si|--format|markdown",
    "crate-sideboard.txt": "crate|--length|60in|--depth|18in|--height|34in|--weight|140lb"
    "|--weight-low|128lb|--weight-high|152lb|--padding|2in|--wall|1/2in|--batten-width|2-1/2in"
    "|--batten-thickness|3/4in|--pallet",
    "crate-carton-si.json": "crate|--length|900|--depth|250|--height|300|--weight|9|--divisor"
    "|4000 cm3/kg|--reach|400|--units|si|--format|json",
    "density-walnut.txt": "density|black walnut|--moisture|8",
    "density-walnut-si.csv": "density|black walnut|--units|si|--format|csv",
    "section-red-oak.txt": "section|red oak|--width|10in|--thickness|1in|--pith-distance|2in"
    "|--from|12|--to|6",
    "section-leg-si.md": "section|white ash|--width|50|--thickness|50|--ring-angle|45|--from|12"
    "|--to|6|--units|si|--format|markdown",
    "section-round.csv": "section|white oak|--diameter|1-1/2in|--ring-angle|0|--from|30|--to|8"
    "|--format|csv",
    "section-panel.json": "section|sugar maple|--width|4in|--thickness|7/8in|--pith-distance|3in"
    "|--boards|3|--rings|alternating|--from|9|--to|6|--format|json",
    "panel-red-oak.txt": "panel|red oak|--stave|5in|--stave|4in quarter|--stave|5in 30|--from|8"
    "|--to|11",
    "panel-cherry-si.csv": "panel|cherry|--width|560|--from|7|--to|11|--units|si|--format|csv",
    "fixing-panel.txt": "fixing|cherry|--kind|floating-panel|--width|14in|--gap|3/16in"
    "|--month|February|--place|Columbus, Ohio",
    "fixing-breadboard.txt": "fixing|sugar maple|--kind|breadboard|--width|42in|--at|2in"
    "|--peg|3/8in|--staves|8|--built|7|--driest|6|--wettest|10",
    "fixing-hole-si.md": "fixing|white ash|--kind|round-hole|--distance|230|--screw|4|--hole|9"
    "|--washer|16|--recess|22|--units|si|--format|markdown",
    "fixing-drawer.json": "fixing|soft maple|--kind|drawer-front|--width|7in|--spare|1/32in"
    "|--place|Duluth|--month|March|--format|json",
    "gluing-cherry.txt": "gluing|cherry|--length|4in",
    "stability-cherry.txt": "stability|cherry",
    "rank-tabletop.txt": "rank|--for|tabletop|--harder-than|cherry|--exclude-controlled"
    "|--prices|datasets/demo/yard-prices.csv|--max-price|9",
    "rank-bench-si.md": "rank|--for|outdoor-bench|--units|si|--limit|8|--format|markdown",
    "rank-shelf.json": "rank|--for|shelf|--place|Duluth|--kind|softwood|--limit|2|--format|json",
    "substitute-walnut.txt": "substitute|black walnut|--for|tabletop|--prices|"
    "datasets/demo/yard-prices.csv|--listed|--limit|4",
    "substitute-sideboard.txt": "substitute|white oak|--for|tabletop|--piece|"
    "datasets/demo/sideboard.toml|--part|top|--listed|--limit|3",
    "substitute-bench-si.md": "substitute|teak|--for|outdoor-bench|--units|si|--limit|3"
    "|--format|markdown",
    "substitute-cherry.json": "substitute|cherry|--for|tabletop|--place|Duluth|--prices|"
    "datasets/demo/yard-prices.csv|--listed|--limit|2|--format|json",
    "rank-bowl.csv": "rank|--for|turned-bowl|--where|side_hardness_n > 4000|--format|csv",
    "uses.txt": "uses",
    "uses-drawer-side.txt": "uses|drawer side",
    "emc.txt": "emc|68F|40%",
    "emc-for.json": "emc|20C|--for|8|--units|si|--format|json",
    "acclimate-maple.txt": "acclimate|hard maple|--thickness|8/4",
    "lag-ash.txt": "lag|white ash|--thickness|3/4in|--finish|linseed oil"
    "|--finish|urethane varnish|--coats|3",
    "lag-cherry-si.md": "lag|cherry|--thickness|20|--finish|shellac|--coats|3|--width|400"
    "|--place|Savannah|--setting|air-conditioned-house|--units|si|--format|markdown",
    "delivery-oak.txt": "delivery|white oak|--thickness|7/8in|--width|30in|--boards|6"
    "|--built|Tucson/unheated-shop/March|--place|Portland, Maine|--setting|heated-house"
    "|--finish|urethane varnish|--coats|3",
    "moisture-oven.txt": "moisture|--wet|412g|--dry|371g",
    "moisture-meter.md": "moisture|--meter|11|--temperature|45F|--format|markdown",
    "buy-shelf.txt": "buy|datasets/demo/shelf-parts.csv|--board|4/4 x 6 x 9ft x 2 cherry"
    "|--board|5/4 x 5 x 6ft cherry|--yard-widths|6|--yard-lengths|8|--seconds|60"
    "|--prices|datasets/demo/sideboard-prices.csv|--grade|FAS",
    "buy-amount-si.json": "buy|datasets/demo/shelf-parts.csv|--grade|No. 1 Common|--units|si"
    "|--format|json",
    "tally.txt": "tally|--board|4/4 x 7-1/2 x 10ft x 3 red oak|--board|8/4 x 6 x 8ft ash",
    "tally-si.json": "tally|--board|27 x 180 x 2400 x 4 beech|--units|si|--format|json",
}


@pytest.mark.parametrize("name", CASES)
def test_answer_is_the_one_on_file(woodref, name):
    result = woodref(*CASES[name].split("|"))
    assert (result.code, result.err) == (0, "")
    assert result.out == (GOLDEN / name).read_text(encoding="utf-8")


def test_no_answer_on_file_is_left_over():
    ours = {p.name for p in GOLDEN.iterdir() if not p.name.startswith("estimate-")}
    assert ours == set(CASES)


def renew():
    """Write every answer anew."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    for name, question in CASES.items():
        process = subprocess.run(
            [sys.executable, "-m", "woodref", *question.split("|")],
            capture_output=True,
            check=True,
            env={**kept, "WOODREF_CONFIG": os.devnull},
        )
        (GOLDEN / name).write_bytes(process.stdout)


if __name__ == "__main__":
    renew()
