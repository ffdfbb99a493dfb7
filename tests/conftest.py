"""Settings of every test."""

import tempfile

import pytest
from hypothesis import settings

# How long one example takes says more of the machine than of the code, and the same code has the
# same examples each time; tests/kit/examples.py has fewer for what is slow.
settings.register_profile("woodref", deadline=None, derandomize=True)
settings.load_profile("woodref")


@pytest.fixture(scope="session", autouse=True)
def own_cache():
    """Plans that tests find are kept for them alone, and never taken from the user's cache."""
    with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        patch.setenv("WOODREF_CACHE", folder)
        yield
