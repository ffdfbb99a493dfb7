"""No decision reads a sentence: with a mark behind every one, the same is decided."""

import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PROGRAM = ROOT / "tests" / "kit" / "marked.py"
DEMO = "datasets/demo"
QUESTIONS = [
    f"estimate {DEMO}/hall-bench.toml --explain",
    f"estimate {DEMO}/trestle-table.toml",
    f"estimate {DEMO}/wall-shelf.toml",
    f'buy {DEMO}/shelf-parts.csv --board "5/4 x 5in x 6ft cherry" --effort quick',
    "crate --length 1m --depth 500mm --height 600mm --weight 20kg",
    "find meranti",
    "show teak --sources",
    'show "white oak group"',
    "compare cherry walnut hickory",
    "stability cherry --place Duluth",
    f"rank --for tabletop --prices {DEMO}/yard-prices.csv --rows 3",
    'substitute "white oak" --for tabletop --rows 3',
    "uses shelf",
    "movement cherry --width 8in --from 7 --place Duluth",
    "weight wenge --length 2.4m --width 200mm --thickness 27mm",
    "panel cherry --stave 5in --thickness 1in --from 7 --to 9",
    "section cherry --pith-distance 3in --from 12 --to 6 --width 4in --thickness 1in --boards 3",
    "fixing cherry --kind floating-panel --width 14in --gap 3/16in",
    "fixing cherry --kind breadboard --width 40in --slot 3/8in --peg 1/4in --place Duluth",
    "fixing cherry --kind slotted-hole --distance 9in --screw '#8' --into 5/8in",
    "fastener cherry --nail '8d box' --through 3/4in",
    "gluing cherry --length 4in",
    "joint cherry --kind tenon --width 6in --place Duluth --explain",
    'deflection cherry --span 36in --width 10in --thickness 3/4in --uniform "20 lb/ft" --explain',
    'tally --board "4/4 x 6 x 8ft ash"',
    "emc 68F --keep 8",
    "moisture --meter 11 --temperature 45F",
    'acclimate "hard maple" --thickness 4/4 --place Duluth --month May',
    "lag cherry --thickness 3/4in --finish shellac --width 16in",
    "finishes",
    "season Duluth",
    "delivery cherry --thickness 3/4in --built 7 --place Duluth",
    "sources wood-handbook-2021",
]


def answers(how):
    env = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    env |= {"WOODREF_CONFIG": os.devnull, "WOODREF_NO_OWN": "1", "PYTHONPATH": str(ROOT)}
    env["WOODREF_CACHE"] = os.environ["WOODREF_CACHE"]  # that of the tests
    process = subprocess.run(
        [sys.executable, PROGRAM, how],
        input=json.dumps([shlex.split(q) for q in QUESTIONS]),
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        env=env,
    )
    return json.loads(process.stdout)


@pytest.fixture(scope="module")
def both():
    return answers("plain"), answers("marked")


def test_the_mark_is_seen_in_answers_of_every_command(both):
    plain, marked = both
    assert sum(plain["marks"]) == 0
    bare = [q for q, n in zip(QUESTIONS, marked["marks"], strict=True) if n == 0]
    assert bare == []


@pytest.mark.parametrize("n", range(len(QUESTIONS)), ids=[q.split()[0] for q in QUESTIONS])
def test_no_number_verdict_or_choice_reads_a_sentence(both, n):
    plain, marked = (result["answers"][n] for result in both)
    assert plain[0] == 0
    assert marked == plain
