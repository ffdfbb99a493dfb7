"""The check finds what differs and says where."""

from __future__ import annotations

import pytest
from small_dataset import small_frames

import pipeline.__main__ as cli
from pipeline.check import SHOWN, differences, table_differences
from pipeline.dataset import write_dataset


def _rebuilt(tmp_path, change):
    frames = small_frames()
    change(frames)
    write_dataset(frames, tmp_path / "new" / "reference", tmp_path / "new" / "page.md")
    return tmp_path / "new" / "reference"


def test_nothing_differs(published, tmp_path):
    assert differences(published, _rebuilt(tmp_path, lambda frames: None)) == []


def test_a_changed_cell_is_named_by_key_and_column(published, tmp_path):
    def change(frames):
        frames["measurements"].loc[0, "value"] = 4.8

    lines = differences(published, _rebuilt(tmp_path, change))
    assert "measurements.parquet: differs" in lines
    assert "  changed: measurement_id=some.csv:2:radial: value: 4.9 -> 4.8" in lines


def test_an_emptied_cell_is_called_empty(published, tmp_path):
    def change(frames):
        frames["measurements"].loc[1, "plausibility_flag"] = None

    lines = differences(published, _rebuilt(tmp_path, change))
    changed = "plausibility_flag: 'radial above tangential' -> empty"
    assert f"  changed: measurement_id=some.csv:3:radial: {changed}" in lines


def test_added_and_removed_rows_are_named(published, tmp_path):
    def change(frames):
        frames["species"].loc[2, "species_id"] = "cherry"

    lines = differences(published, _rebuilt(tmp_path, change))
    assert "  row added: species_id=cherry" in lines
    assert "  row removed: species_id=cedar" in lines


def test_missing_stale_and_changed_files_are_named(published, tmp_path):
    new = _rebuilt(tmp_path, lambda frames: None)
    (published / "rejected.parquet").unlink()
    (published / "old.parquet").write_bytes(b"")
    (published / "QUALITY.md").write_text("# Quality by hand\n")
    lines = differences(published, new)
    assert "rejected.parquet: missing from reference" in lines
    assert "old.parquet: no longer built" in lines
    assert "  line 1: '# Quality by hand' -> '# Quality of the reference dataset'" in lines


def test_long_lists_are_cut():
    frame = small_frames()["species"]
    many = frame.loc[[0] * 30].assign(species_id=[f"wood-{i}" for i in range(30)])
    lines = table_differences(frame, many, ("species_id",))
    assert f"  ... and {30 - SHOWN} more" in lines


def test_a_new_column_is_named():
    frame = small_frames()["species"]
    assert table_differences(frame, frame.assign(extra=1), ("species_id",)) == [
        "  columns: gone none, new ['extra']"
    ]


@pytest.fixture
def checkout(published, tmp_path, monkeypatch):
    monkeypatch.setattr(cli, "ROOT", tmp_path)
    monkeypatch.setattr(cli, "REFERENCE", published)
    monkeypatch.setattr(cli, "DICTIONARY", tmp_path / "page.md")
    monkeypatch.setattr(cli, "assemble", small_frames)
    return published


def test_check_passes_on_what_was_just_built(checkout, capsys):
    assert cli.main(["check"]) == 0
    assert capsys.readouterr().out == "reference dataset is up to date\n"


def test_check_fails_on_a_changed_source(checkout, capsys, monkeypatch):
    frames = small_frames()
    frames["species"].loc[0, "common_name"] = "white ash"
    monkeypatch.setattr(cli, "assemble", lambda: frames)
    assert cli.main(["check"]) == 1
    out = capsys.readouterr().out
    assert "changed: species_id=ash: common_name: 'ash' -> 'white ash'" in out
    assert "python -m pipeline build" in out


def test_check_fails_on_a_data_dictionary_written_by_hand(checkout, capsys, tmp_path):
    (tmp_path / "page.md").write_text("by hand\n")
    assert cli.main(["check"]) == 1
    assert "page.md: differs" in capsys.readouterr().out


def test_build_into_another_folder(checkout, tmp_path):
    assert cli.main(["build", "--out", str(tmp_path / "elsewhere")]) == 0
    assert (tmp_path / "elsewhere" / "species.parquet").is_file()
    assert (tmp_path / "elsewhere" / "page.md").is_file()


def test_an_invalid_dataset_is_told_in_words(checkout, capsys, monkeypatch):
    frames = small_frames()
    frames["species"].loc[0, "data_coverage"] = "splendid"
    monkeypatch.setattr(cli, "assemble", lambda: frames)
    assert cli.main(["build"]) == 1
    assert "splendid" in capsys.readouterr().err


@pytest.mark.pinned
def test_the_published_dataset_is_what_the_sources_give(capsys):
    assert cli.main(["check"]) == 0, capsys.readouterr().out
