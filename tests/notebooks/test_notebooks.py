"""Every notebook runs from top to bottom and shows what is stored in it."""

import importlib.util
import json
import re
from pathlib import Path

import nbformat
import pytest

ROOT = Path(__file__).resolve().parents[2]


def load_refresh():
    """notebooks/refresh.py, which is a program and no part of a package."""
    spec = importlib.util.spec_from_file_location(
        "refresh_notebooks", ROOT / "notebooks" / "refresh.py"
    )
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


refresh = load_refresh()
STORIES = {
    "choosing-a-stable-tabletop",
    "shipping-weight-of-a-finished-piece",
    "substitutes-when-the-first-choice-is-out-of-stock",
}


def test_the_stories_are_there():
    assert {p.stem for p in refresh.NOTEBOOKS} == STORIES


@pytest.mark.parametrize("path", refresh.NOTEBOOKS, ids=lambda p: p.stem)
def test_what_is_stored_is_what_is_shown_now(path):
    stored, fresh = refresh.read(path), refresh.executed(path)
    assert refresh.shown(stored) == refresh.shown(fresh), "run make notebooks"


@pytest.mark.parametrize("path", refresh.NOTEBOOKS, ids=lambda p: p.stem)
def test_a_story_stands_alone_and_tells_what_it_must(path):
    text = path.read_text(encoding="utf-8")
    notebook = refresh.read(path)
    nbformat.validate(notebook)
    prose = " ".join(c.source for c in notebook.cells if c.cell_type == "markdown")
    code = [c for c in notebook.cells if c.cell_type == "code"]
    for word in ("invented", "structural design value", "unchecked", "likely"):
        assert word in prose.lower(), word
    assert "import woodref" in code[0].source
    # The dataset itself is asked too, through the library: a story runs in any folder.
    assert any("woodref.sql(" in c.source for c in code)
    assert not any("datasets/" in c.source for c in code)
    # Run in order, nothing failed, at least one picture with words for those who cannot see it.
    assert [c.execution_count for c in code] == list(range(1, len(code) + 1))
    kinds = [o.output_type for c in code for o in c.outputs]
    assert "error" not in kinds
    pictures = [o for c in code for o in c.outputs if "image/png" in o.get("data", {})]
    assert pictures
    assert all(p.metadata["image/png"]["alt"] for p in pictures)
    streams = [o.name for c in code for o in c.outputs if o.output_type == "stream"]
    assert set(streams) <= {"stdout"}
    # Nothing of the machine or the hour.
    assert json.loads(text) == json.loads(nbformat.writes(refresh.tidied(notebook)))
    assert not re.search(r"/(?:home|tmp|usr|work|root|Users)/|<[\w.]+ object at 0x", text)


def _with_output(text, picture="cGljdHVyZQ=="):
    display = nbformat.v4.new_output(
        "display_data", data={"text/plain": text, "image/png": picture}
    )
    return nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("1", outputs=[display])])


def test_a_changed_word_is_found_and_another_drawing_of_a_picture_is_not():
    stored = _with_output("28 kg")
    assert refresh.stale(stored, _with_output("28 kg", "YW5vdGhlcg==")) == []
    assert refresh.stale(stored, _with_output("29 kg")) == [1]


def test_a_lost_picture_is_found():
    fresh = _with_output("28 kg")
    del fresh.cells[0].outputs[0].data["image/png"]
    assert refresh.stale(_with_output("28 kg"), fresh) == [1]
