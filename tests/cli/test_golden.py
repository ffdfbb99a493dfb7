"""One whole answer of every command as JSON, and of each other format one.

The texts for people stand in the pages, whose examples are run (test_docs.py), so that a
sentence that changes is read in a page and in one file here. To renew the files after a change
that is meant: python tests/cli/test_golden.py
"""

import contextlib
import io
import json
import os
import shlex
from pathlib import Path
from unittest import mock

import pytest

from woodref.cli.main import COMMANDS, run

ROOT = Path(__file__).resolve().parents[2]
GOLDEN = Path(__file__).parent / "golden"
ANSWERS = {
    "find": "find mahogany",
    "show": "show 'white oak'",
    "compare": "compare 'European oak' 'European beech' --units si",
    "stability": "stability cherry",
    "rank": "rank --for shelf --place Duluth --kind softwood --rows 2",
    "substitute": "substitute cherry --for tabletop --place Duluth --prices "
    "datasets/demo/yard-prices.csv --rows 2",
    "uses": "uses 'drawer side'",
    "estimate": "estimate datasets/demo/sideboard.toml",
    "movement": "movement cherry --width 14in --from 70F,30% --to 75F,60%",
    "density": "density 'black walnut' --moisture 8",
    "weight": "weight 'black cherry' --thickness 27 --width 200 --length 3m --moisture 60 "
    "--quantity 12 --units si",
    "panel": "panel 'red oak' --stave 5in --stave '4in quarter' --stave '5in 30' --from 8 --to 11",
    "section": "section 'sugar maple' --width 4in --thickness 7/8in --pith-distance 3in --boards 3 "
    "--rings alternating --from 9 --to 6",
    "fastener": "fastener 'black cherry' --screw '#8' --into 1in --through 3/4in",
    "fixing": "fixing 'soft maple' --kind drawer-front --width 7in --spare 1/32in --place Duluth "
    "--month March",
    "gluing": "gluing cherry --length 4in",
    "joint": "joint cherry --kind miter --width 3in --place Duluth",
    "deflection": "deflection 'white oak' --span 36in --width 10in --thickness 3/4in --uniform "
    "'20 lb/ft' --point 40lbf",
    "crate": "crate --length 900 --depth 250 --height 300 --weight 9 --divisor '4000 cm3/kg' "
    "--reach 400 --units si",
    "buy": "buy datasets/demo/shelf-parts.csv --grade 'No. 1 Common' --units si",
    "tally": "tally --board '27 x 180 x 2400 x 4 beech' --units si",
    "emc": "emc 20C --keep 8 --units si",
    "moisture": "moisture --meter 11 --temperature 45F",
    "acclimate": "acclimate 'hard maple' --thickness 8/4",
    "lag": "lag 'black cherry' --thickness 20 --finish shellac --coats 3 --width 400 "
    "--place Savannah --setting air-conditioned-house --units si",
    "delivery": "delivery 'white oak' --thickness 7/8in --width 30in --boards 6 --built "
    "Tucson/unheated-shop/March --place 'Portland, Maine' --setting heated-house --finish "
    "'urethane varnish' --coats 3",
    "place": "place Duluth",
    "season": "season Duluth --setting heated-house",
    "words": "words fsp",
    "sources": "sources 'handbook 607'",
}
#: Commands without an answer of their own kept here, and what holds them.
ELSEWHERE = {
    "batch": "tests/catalog, and the pages show what it says",
    "begin": "test_begin.py, and the pages show a file it writes",
    "finishes": "tests/reference/test_finishes.py: it prints a table of the dataset",
    "own": "test_own.py: what it says depends on tables of the user's own",
    "report": "tests/report",
    "sql": "test_sources.py: the answer is the query's",
    "template": "the pages show both templates",
}
#: The other demo pieces: planned without boards, with a shelf that sags, with joints that fail.
PIECES = {
    f"estimate-{name}": f"estimate datasets/demo/{name}.toml"
    for name in ("hall-bench", "wall-shelf", "trestle-table")
}
#: Each demo piece in other woods: the first screen, and one as JSON.
WITH = {
    "with-trestle-table.txt": "estimate datasets/demo/trestle-table.toml --with 'ash=European oak'",
    "with-hall-bench.txt": "estimate datasets/demo/hall-bench.toml --with 'ash=European oak'",
    "with-sideboard.txt": "estimate datasets/demo/sideboard.toml --with 'oak=European oak'",
    "with-wall-shelf.txt": "estimate datasets/demo/wall-shelf.toml --with 'cherry=white ash'",
    "with-drawer-chest.txt": "estimate datasets/demo/drawer-chest.toml --with 'pine=basswood' "
    "--with 'ash=white oak' --units si",
    "with-european-oak.txt": "substitute 'white oak' --with 'European oak' --place Duluth "
    "--prices datasets/demo/yard-prices.csv",
    "with-teak-part.txt": "substitute cherry --with teak --piece datasets/demo/wall-shelf.toml "
    "--part shelf",
    "with-sideboard.json": "estimate datasets/demo/sideboard.toml --with 'white oak=white ash' "
    "--format json",
}
#: Every other format; of the longest answers the text, of which the pages show the beginning.
FORMATS = {
    "format-panel.csv": "panel 'black cherry' --width 560 --from 7 --to 11 --units si --format csv",
    "format-estimate.csv": "estimate datasets/demo/hall-bench.toml --units si --format csv",
    "format-section.md": "section 'white ash' --width 50 --thickness 50 --ring-angle 45 --from 12 "
    "--to 6 --units si --format markdown",
    "format-show.txt": "show teak --units si --full",
    "format-estimate.txt": "estimate datasets/demo/sideboard.toml --full",
}
CASES = (
    {f"{name}.json": f"{question} --format json" for name, question in ANSWERS.items()}
    | {f"{name}.json": f"{question} --format json" for name, question in PIECES.items()}
    | FORMATS
    | WITH
)


def without_sentences(value):
    """An answer with its figures, names and keys alone: what is said stands in format-estimate."""
    if isinstance(value, dict):
        kept = {key: without_sentences(v) for key, v in value.items()}
        return {key: v for key, v in kept.items() if v not in (None, "", [], {})}
    if isinstance(value, list):
        return [v for v in map(without_sentences, value) if v not in (None, "")]
    return "" if isinstance(value, str) and len(value) > _NAME else value


#: Letters of the longest name in an answer.
_NAME = 40


def kept(name, out):
    """The part of what is printed that is kept in a file."""
    if not name.startswith("estimate"):
        # What the dataset words is no matter of a piece.
        return out.partition("\nBased on\n")[0] + "\n" if name == "format-estimate.txt" else out
    answer = json.loads(out)
    for said in ("answer", "based_on", "cautions", "notes", "assumptions"):
        assert answer.pop(said)
    return json.dumps(without_sentences(answer), indent=1) + "\n"


@pytest.mark.parametrize("name", CASES)
def test_answer_is_the_one_on_file(woodref, monkeypatch, name):
    monkeypatch.chdir(ROOT)
    result = woodref(*shlex.split(CASES[name]))
    assert (result.code, result.err) == (0, "")
    assert kept(name, result.out) == (GOLDEN / name).read_text(encoding="utf-8")


def test_no_answer_on_file_is_left_over():
    assert {p.name for p in GOLDEN.iterdir()} == set(CASES)


def test_every_command_has_an_answer_on_file():
    assert set(ANSWERS) | set(ELSEWHERE) == set(COMMANDS)
    assert not set(ANSWERS) & set(ELSEWHERE)
    assert all(question.split()[0] == name for name, question in ANSWERS.items())


def renew():
    """Write every answer anew."""
    own = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    own |= {"WOODREF_CONFIG": os.devnull, "WOODREF_NO_OWN": "1", "COLUMNS": "100"}
    own["WOODREF_CACHE"] = os.devnull  # nothing kept from before
    for name, question in CASES.items():
        out = io.StringIO()
        with (
            mock.patch.dict(os.environ, own, clear=True),
            contextlib.chdir(ROOT),
            contextlib.redirect_stdout(out),
        ):
            code = run(shlex.split(question))
        if code:
            raise SystemExit(f"{question}: ends with {code}")
        (GOLDEN / name).write_text(kept(name, out.getvalue()), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    renew()
