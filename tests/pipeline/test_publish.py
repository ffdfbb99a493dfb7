"""Published files: the same bytes each time, all or nothing."""

from __future__ import annotations

import pandas as pd
import pyarrow.parquet
import pytest
from small_dataset import folder_bytes, small_frames

from pipeline.dataset import write_dataset
from pipeline.publish import ordered, publish, read_published, write_parquet, write_text
from woodref.reference.fields import TABLES


def test_twice_built_is_the_same_bytes(tmp_path):
    for name in ("one", "two"):
        write_dataset(small_frames(), tmp_path / name / "reference", tmp_path / name / "page.md")
    assert folder_bytes(tmp_path / "one" / "reference") == folder_bytes(
        tmp_path / "two" / "reference"
    )
    assert (tmp_path / "one" / "page.md").read_bytes() == (tmp_path / "two/page.md").read_bytes()


def test_the_order_of_assembly_does_not_reach_the_files(tmp_path):
    frames = small_frames()
    turned = {
        n: f.iloc[::-1].reset_index(drop=True) if n in ("species", "measurements") else f
        for n, f in frames.items()
    }
    write_dataset(frames, tmp_path / "one", tmp_path / "one.md")
    write_dataset(turned, tmp_path / "two", tmp_path / "two.md")
    assert folder_bytes(tmp_path / "one") == folder_bytes(tmp_path / "two")


def test_what_is_published_reads_back(tmp_path):
    frames = small_frames()
    publish(frames, {}, tmp_path / "reference")
    back = read_published(tmp_path / "reference")
    assert set(back) == set(frames)
    for name, frame in frames.items():
        pd.testing.assert_frame_equal(back[name], frame)


def test_descriptions_and_units_are_in_the_file(tmp_path):
    path = write_parquet("measurements", small_frames()["measurements"], tmp_path)
    file = pyarrow.parquet.ParquetFile(path)
    field = file.schema_arrow.field("moisture_content_pct")
    assert field.metadata[b"unit"] == b"%"
    assert file.schema_arrow.metadata[b"title"] == TABLES["measurements"].title.encode()
    assert b"pandas" not in file.schema_arrow.metadata
    assert file.metadata.row_group(0).column(0).compression == "ZSTD"


def test_rows_of_one_wood_stand_together():
    frame = ordered("measurements", small_frames()["measurements"].iloc[::-1])
    assert list(frame["species_id"]) == ["ash", "ash", "beech"]


def test_a_failed_write_leaves_the_folder_as_it_was(tmp_path):
    folder = tmp_path / "reference"
    publish(small_frames(), {"QUALITY.md": "fine\n"}, folder)
    before = folder_bytes(folder)
    broken = {**small_frames(), "sources": pd.DataFrame({"source_id": [object()]})}
    with pytest.raises(Exception, match=r"."):
        publish(broken, {"QUALITY.md": "new\n"}, folder)
    assert folder_bytes(folder) == before
    assert [p.name for p in tmp_path.iterdir()] == ["reference"]


def test_an_invalid_dataset_is_not_written(tmp_path):
    frames = small_frames()
    frames["species"].loc[0, "data_coverage"] = "splendid"
    with pytest.raises(ValueError, match="splendid"):
        write_dataset(frames, tmp_path / "reference", tmp_path / "page.md")
    assert list(tmp_path.iterdir()) == []


def test_a_table_that_is_no_longer_built_goes(tmp_path):
    frames = small_frames()
    publish(frames, {}, tmp_path)
    del frames["disagreements"]
    publish(frames, {}, tmp_path)
    assert not (tmp_path / "disagreements.parquet").exists()


def test_write_text_replaces(tmp_path):
    path = tmp_path / "docs" / "page.md"
    write_text(path, "one\n")
    write_text(path, "two\n")
    assert path.read_bytes() == b"two\n"
    assert [p.name for p in path.parent.iterdir()] == ["page.md"]
