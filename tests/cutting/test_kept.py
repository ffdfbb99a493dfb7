import json

import pytest

from woodref.cutting import kept
from woodref.cutting.kept import kept_or_packed
from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack
from woodref.user_folders import user_folder

BLANKS = [Blank("rail", 500.0, 60.0, 5), Blank("stile", 700.0, 50.0, 3), Blank("wide", 90.0, 400.0)]
STOCK = [StockBoard("board", 2000.0, 150.0, 4), StockBoard("long", 2400.0, 120.0)]
ASKED = (BLANKS, STOCK, 3.0, "wood", "quick")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("WOODREF_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache" / "plans"


@pytest.fixture
def searches(monkeypatch):
    """The searches that were made, counted."""
    made = []

    def counted(*given):
        made.append(given)
        return pack(*given)

    monkeypatch.setattr(kept, "pack", counted)
    return made


def test_a_plan_is_searched_once(folder, searches):
    plans = [kept_or_packed(*ASKED) for _ in range(3)]
    assert plans[0] == plans[1] == plans[2] == pack(*ASKED)
    assert plans[0].too_large == (2,)
    assert len(searches) == 1
    assert [f.suffix for f in folder.iterdir()] == [".json"]


def test_names_are_no_part_of_a_plan(folder, searches):
    kept_or_packed(*ASKED)
    other = [
        Blank(f"{b.name} of another piece", *(b.length_mm, b.width_mm, b.quantity)) for b in BLANKS
    ]
    plan = kept_or_packed(other, *ASKED[1:])
    assert len(searches) == 1
    assert plan.blanks == tuple(other)


@pytest.mark.parametrize(
    "asked",
    [
        (BLANKS[:2], *ASKED[1:]),
        (BLANKS, STOCK[:1], *ASKED[2:]),
        (*ASKED[:2], 3.2, *ASKED[3:]),
        (*ASKED[:3], "boards", "quick"),
        (*ASKED[:4], "usual"),
        (*ASKED, 7),
        (*ASKED, 0, None, True),
    ],
)
def test_another_question_is_searched_anew(folder, searches, asked):
    kept_or_packed(*ASKED)
    kept_or_packed(*asked)
    assert len(searches) == 2


def test_a_search_that_changed_finds_its_own_plans(folder, searches, monkeypatch):
    kept_or_packed(*ASKED)
    monkeypatch.setattr(kept, "ALGORITHM", -1)
    kept_or_packed(*ASKED)
    assert len(searches) == 2


def changed(text):
    """A plan with another number in it, which is valid JSON all the same."""
    entry = json.loads(text)
    entry["plan"][3] += 1
    return json.dumps(entry)


@pytest.mark.parametrize(
    "damage", [lambda text: text[:-9], lambda text: "", lambda text: "[]", changed]
)
def test_a_damaged_plan_is_found_anew_and_kept(folder, searches, damage):
    first = kept_or_packed(*ASKED)
    (file,) = folder.iterdir()
    whole = file.read_text()
    file.write_text(damage(whole))
    assert kept_or_packed(*ASKED) == first
    assert len(searches) == 2
    assert file.read_text() == whole


def test_a_folder_that_cannot_be_written_keeps_nothing(tmp_path, monkeypatch):
    file = tmp_path / "file"
    file.write_text("")
    monkeypatch.setenv("WOODREF_CACHE", str(file))
    assert kept_or_packed(*ASKED) == pack(*ASKED)
    assert file.read_text() == ""


def test_an_interrupted_plan_is_not_kept(folder):
    def stop(progress):
        raise KeyboardInterrupt

    plan = kept_or_packed(*ASKED, 0, stop)
    assert plan.interrupted
    assert not folder.exists()


def test_the_oldest_plans_make_room(folder, monkeypatch):
    monkeypatch.setattr(kept, "_MOST", 3)
    for seed in range(5):
        kept_or_packed(*ASKED, seed)
    assert len(list(folder.glob("*.json"))) == 3


def test_the_folder_is_that_of_the_system(monkeypatch, tmp_path):
    monkeypatch.delenv("WOODREF_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr("sys.platform", "linux")
    assert user_folder("cache") == tmp_path / "woodref"
