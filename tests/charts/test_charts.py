"""Every picture is had by one import, and its example holds."""

import re

from woodref.charts import charts


def test_every_name_is_there_and_documented():
    for name in charts.__all__:
        assert getattr(charts, name).__doc__, name


def test_the_example_draws_what_it_says(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    lines = re.findall(r"^    (.+)$", charts.__doc__, re.MULTILINE)
    assert len(lines) == 4
    exec("\n".join(lines), {})
    assert (tmp_path / "woods.svg").read_text(encoding="utf-8").startswith("<?xml")
