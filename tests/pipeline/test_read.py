"""Source tables as read: text as it stands, how a number is known in the words of the dataset."""

import tomllib

import pytest

from pipeline import __main__ as cli
from pipeline.read import SOURCE_BASES, SOURCES, read_origins, read_table
from woodref.reference.bases import BASES


def test_the_words_of_the_tables_become_those_of_the_dataset(tmp_path):
    lines = [f"{n},{word}" for n, word in enumerate(SOURCE_BASES)]
    (tmp_path / "some.csv").write_text("\n".join(["name,basis", *lines, ""]), encoding="utf-8")
    bases = read_table("some", tmp_path)["basis"]
    assert list(bases) == list(SOURCE_BASES.values())
    assert set(bases) - {""} < set(BASES)


def test_another_word_is_refused_with_its_line(tmp_path):
    (tmp_path / "some.csv").write_text("name,basis\na,seen\nb,checked\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"some\.csv line 3: 'checked' is not a basis; use seen2"):
        read_table("some", tmp_path)


GOOD = "wood,mc_pct\nash,12\n"
#: A table that is not as declared, and what is said of it.
WRONG = {
    "missing": (None, r"some\.csv: is missing in "),
    "empty": ("", r"some\.csv: is no table"),
    "no text": (b"wood,mc_pct\n\xff,12\n", r"some\.csv: is no table: 'utf-8' codec"),
    "a quote without end": ('wood,mc_pct\n"ash,12\n', r"some\.csv: is no table: unexpected end"),
    "a column lost": ("wood\nash\n", r"some\.csv: has no column 'mc_pct'; headings\.toml declares"),
    "a column called anew": ("wood,mc\nash,12\n", r"some\.csv: has no column 'mc_pct'"),
    "a column more": ("wood,mc_pct,x\nash,12,1\n", r"some\.csv: has a new column 'x'"),
    "another order": ("mc_pct,wood\n12,ash\n", r"some\.csv: its columns stand in another order"),
    "a short row": ("wood,mc_pct\nash\n", r"some\.csv line 2: has 1 cells, the heading 2"),
    "a long row": ("wood,mc_pct\nash,12,1\n", r"some\.csv line 2: has 3 cells, the heading 2"),
    "a row twice": (f"{GOOD}oak,9\nash,12\n", r"some\.csv line 4: is line 2 once more"),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_table_that_is_not_as_declared_is_refused_in_a_line(tmp_path, name):
    data, said = WRONG[name]
    (tmp_path / "headings.toml").write_text('some = ["wood", "mc_pct"]\n', encoding="utf-8")
    if data is not None:
        (tmp_path / "some.csv").write_bytes(data if isinstance(data, bytes) else data.encode())
    with pytest.raises(ValueError, match=said) as caught:
        read_table("some", tmp_path)
    assert "\n" not in str(caught.value)


def test_a_table_that_is_as_declared_is_read_with_its_lines(tmp_path):
    (tmp_path / "headings.toml").write_text('some = ["wood", "mc_pct"]\n', encoding="utf-8")
    (tmp_path / "some.csv").write_text(GOOD, encoding="utf-8")
    rows = read_table("some", tmp_path).to_dict("records")
    assert rows == [{"wood": "ash", "mc_pct": "12", "source_table": "some.csv", "source_line": 2}]


def test_every_table_has_its_heading_declared():
    declared = tomllib.loads((SOURCES / "headings.toml").read_text(encoding="utf-8"))
    assert set(declared) == {path.stem for path in SOURCES.glob("*.csv")}


def test_origins_that_are_no_toml_are_refused_in_a_line(tmp_path):
    (tmp_path / "origins.toml").write_text("[", encoding="utf-8")
    with pytest.raises(ValueError, match=r"origins\.toml: "):
        read_origins(tmp_path)


@pytest.mark.parametrize("error", [KeyError("mc_pct"), FileNotFoundError(2, "none", "x.csv")])
def test_what_a_build_lacks_is_told_in_a_line(monkeypatch, capsys, error):
    def lacking():
        raise error

    monkeypatch.setattr(cli, "assemble", lacking)
    assert cli.main(["build"]) == 1
    assert capsys.readouterr().err.count("\n") == 1
