import shutil

import pytest
from small_dataset import small_frames

from pipeline.dataset import write_dataset
from pipeline.publish import read_published
from pipeline.read import REFERENCE


@pytest.fixture(scope="session")
def frames():
    """The published tables, read once; nobody changes them."""
    return read_published(REFERENCE)


@pytest.fixture(scope="session")
def small_built(tmp_path_factory):
    """The small dataset as it is written, with its page; nobody changes it."""
    folder = tmp_path_factory.mktemp("small")
    write_dataset(small_frames(), folder / "reference", folder / "page.md")
    return folder


@pytest.fixture
def published(small_built, tmp_path):
    """The folder of the small dataset, for one test to change, with page.md beside it."""
    shutil.copytree(small_built, tmp_path, dirs_exist_ok=True)
    return tmp_path / "reference"
