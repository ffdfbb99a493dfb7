"""Generated pages: what they count, and that the committed ones are in step."""

from __future__ import annotations

from small_dataset import small_frames

from pipeline.dictionary import dictionary_text
from pipeline.markdown import table
from pipeline.quality import quality_text, woods_in_full, woods_with_a_value
from pipeline.read import REFERENCE, ROOT
from woodref.reference.fields import TABLES
from woodref.reference.properties import PROPERTIES


def test_a_markdown_table_sets_numbers_right():
    assert table(("name", "n"), [("a|b", 1), ("c", -2.5)]) == [
        "| name | n |",
        "| --- | ---: |",
        "| a\\|b | 1 |",
        "| c | -2.5 |",
        "",
    ]


def test_the_dictionary_names_every_table_column_and_property(frames):
    text = dictionary_text(frames)
    for name in frames:
        assert f"### {name}\n" in text
        for column in TABLES[name].columns:
            assert f"| `{column}` |" in text
    for property_id in PROPERTIES:
        assert f"| `{property_id}` |" in text


def test_the_committed_pages_are_in_step(frames):
    page = (ROOT / "docs" / "data-dictionary.md").read_text(encoding="utf-8")
    assert page == dictionary_text(frames)
    quality = (REFERENCE / "QUALITY.md").read_text(encoding="utf-8")
    assert quality == quality_text(frames)


def test_the_dictionary_counts_what_is_filled():
    text = dictionary_text(small_frames())
    assert "| `plausibility_flag` | string |  | why the value is outside physical sense" in text
    assert "| `shrinkage_radial` | range | % | `shrinkage_radial_pct` | 2 | 3 |" in text
    assert "| `handbook` | Handbook (1999) | public domain | read | 3 |" in text


def test_quality_tells_counts_disagreements_doubts_and_rejections():
    text = quality_text(small_frames())
    assert "| partial | some of those | 2 |" in text
    assert "| Handbook (1999) | 3 | 3 |" in text
    assert "| radial shrinkage, green to ovendry | series | 1 | 102.0 | 102.0 |" in text
    assert "| ash | shrinkage_radial | range | 9.9 % | some.csv 3 | no | radial above" in text
    assert "| not a number | some.csv | 1 |" in text


def test_coverage_counts():
    frames = small_frames()
    assert woods_with_a_value(frames["measurements"]) == 2
    assert woods_in_full(frames["species"]) == 0
    frames["measurements"]["property_id"] = "green_moisture_content_sapwood"
    assert woods_with_a_value(frames["measurements"]) == 0
