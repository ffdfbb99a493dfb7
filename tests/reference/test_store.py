import shutil

import pytest

from woodref.errors import WoodrefError
from woodref.reference.store import Store, data_directory


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "it's a copy"
    shutil.copytree(data_directory(), copy)
    return copy


def test_tables_are_read_wherever_the_folder_is(folder):
    store = Store(folder)
    rows = store.rows("select species_id from {species} where common_name = ?", ["sugar maple"])
    assert rows == [{"species_id": "acer-saccharum"}]


@pytest.mark.parametrize("damage", ["missing", "empty", "not Parquet"])
def test_a_damaged_dataset_is_one_line(folder, damage):
    file = folder / "names.parquet"
    if damage == "missing":
        file.unlink()
    else:
        file.write_bytes(b"" if damage == "empty" else b"plain text, and more than a few bytes")
    with pytest.raises(WoodrefError, match="cannot be read") as caught:
        Store(folder).rows("select * from {names}")
    assert "\n" not in str(caught.value)
