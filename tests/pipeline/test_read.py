"""Source tables as read: text as it stands, how a number is known in the words of the dataset."""

import pytest

from pipeline.read import SOURCE_BASES, read_table
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
