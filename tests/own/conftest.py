import pytest

from woodref.reference.library import Reference


@pytest.fixture(autouse=True)
def data_home(tmp_path, monkeypatch):
    """An overlay of the test's own."""
    home = tmp_path / "data"
    monkeypatch.setenv("WOODREF_DATA", str(home))
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    return home


@pytest.fixture
def reference():
    return Reference()


@pytest.fixture
def table(tmp_path):
    """Writes a CSV table and returns its path."""

    def write(text, name="table.csv", encoding="utf-8"):
        path = tmp_path / name
        path.write_bytes(text.encode(encoding))
        return path

    return write
