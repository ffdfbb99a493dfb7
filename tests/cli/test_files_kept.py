"""No file of the maker's is lost: one line where an answer, a picture or a page would cost one."""

from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
PILE = "thickness,width,length,species\n4/4,8,10,cherry\n"
MOVE = ("movement", "black cherry", "--width", "8in", "--from", "7", "--to", "9")
YEAR = (*MOVE[:4], "--place", "Duluth", "--setting", "heated-house")


def refused(result, said):
    assert (result.code, result.out) == (2, "")
    assert result.err.count("\n") == 1
    assert said in result.err


@pytest.fixture
def pile(tmp_path):
    path = tmp_path / "pile.csv"
    path.write_text(PILE)
    return path


@pytest.fixture
def shelf(tmp_path):
    for name in ("wall-shelf.toml", "wall-shelf-prices.csv"):
        tmp_path.joinpath(name).write_bytes((DEMO / name).read_bytes())
    return tmp_path / "wall-shelf.toml"


@pytest.mark.parametrize("force", [[], ["--force"]])
def test_an_answer_never_takes_the_place_of_what_was_asked_about(
    woodref, tmp_path, pile, shelf, force
):
    before = shelf.read_bytes()
    said = "is read or written by this very command"
    refused(woodref("tally", pile, "--save", pile, *force), said)
    refused(woodref("buy", pile, "--boards", pile, "--save", pile, *force), said)
    refused(woodref("estimate", shelf, "--save", shelf, *force), said)
    refused(woodref("report", shelf, "-o", shelf, *force), said)
    (tmp_path / "linked.svg").hardlink_to(pile)
    refused(woodref("buy", pile, "--plot", tmp_path / "linked.svg", *force), said)
    assert pile.read_text() == PILE
    assert shelf.read_bytes() == before


def test_what_a_piece_names_is_not_replaced_either(woodref, tmp_path, shelf):
    prices = tmp_path / "wall-shelf-prices.csv"
    before = prices.read_bytes()
    refused(
        woodref("estimate", shelf, "--save", prices, "--force"),
        "is read or written by this very command",
    )
    assert prices.read_bytes() == before


@pytest.mark.parametrize(
    "asked",
    [
        (*MOVE, "--save", "FILE.json"),
        (*YEAR, "--plot", "FILE.svg"),
        ("season", "Duluth", "--plot", "FILE.svg"),
        ("compare", "black cherry", "hard maple", "--plot", "FILE.svg"),
        ("report", "SHELF", "-o", "FILE.html"),
        ("template", "prices", "-o", "FILE.csv"),
    ],
    ids=lambda asked: " ".join(asked[:1]),
)
def test_a_file_that_exists_is_replaced_by_force_alone(woodref, tmp_path, shelf, asked):
    words = [str(shelf) if w == "SHELF" else w.replace("FILE", f"{tmp_path}/x") for w in asked]
    path = Path(words[-1])
    path.write_text("kept")
    refused(woodref(*words), "exists already; add --force to replace it")
    assert path.read_text() == "kept"
    assert woodref(*words, "--force").code == 0
    assert path.read_text() != "kept"


def test_a_link_is_not_replaced_by_force(woodref, tmp_path):
    link = tmp_path / "x.json"
    link.symlink_to(tmp_path / "kept.json")
    refused(woodref(*MOVE, "--save", link, "--force"), "is a link, which is never replaced")
    assert link.is_symlink()


def test_a_read_only_file_is_not_replaced_by_force(woodref, tmp_path):
    path = tmp_path / "x.json"
    path.write_text("kept")
    path.chmod(0o444)
    refused(woodref(*MOVE, "--save", path, "--force"), "is read-only, and never replaced")
    assert path.read_text() == "kept"


def test_an_answer_does_not_replace_the_picture_beside_it(woodref, tmp_path):
    path = tmp_path / "x.svg"
    found = woodref(*YEAR, "--plot", path, "--save", path, "--force")
    assert (found.code, found.out) == (2, "")
    assert "is read or written by this very command" in found.err
    assert path.read_text().startswith("<?xml")


def test_rejected_rows_a_person_may_have_corrected_are_kept(woodref, tmp_path, pile):
    pile.write_text(PILE + "4/4,wide,10,cherry\n")
    assert woodref("tally", pile).code == 0
    assert woodref("tally", pile).code == 0  # the same rows again
    rejects = tmp_path / "pile.csv.rejects.csv"
    corrected = rejects.read_text().replace("wide", "7")
    rejects.write_text(corrected)
    refused(
        woodref("tally", pile),
        "pile.csv.rejects.csv: holds rejected rows that",
    )
    assert rejects.read_text() == corrected
    assert woodref("tally", pile, "--force").code == 0
    assert "wide" in rejects.read_text()


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_device_without_end_is_no_list_of_boards(woodref, pile):
    refused(woodref("tally", "/dev/zero"), "is larger than 20 MB, not a list of boards")
    parts = DEMO / "shelf-parts.csv"
    refused(woodref("buy", parts, "--boards", "/dev/zero"), "is larger than 20 MB")


def test_own_figures_that_cannot_be_read_are_not_left_out_in_silence(woodref, tmp_path):
    asked = ("weight", "black cherry", "--length", "8ft", "--width", "6in", "--thickness", "1in")
    (tmp_path / "own").write_text("no folder")
    found = woodref(*asked)
    assert (found.code, found.out) == (1, "")
    assert "the folder of your own figures cannot be read: not a directory" in found.err
    assert woodref(*asked, "--no-own").code == 0


def test_the_same_own_table_is_told(woodref, tmp_path):
    path = tmp_path / "boards.csv"
    path.write_text("species,property,value,unit\nwhite oak,density_12pct,45,lb/ft3\n")
    add = ("own", "add", path, "--kind", "measurements", "--origin", "bench")
    assert woodref(*add).code == 0
    refused(woodref(*add), "its 1 good row is stored already, as m1 of boards.csv")
