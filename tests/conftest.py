"""Settings of every test."""

from hypothesis import settings

# How long one example takes says more of the machine than of the code, and the same code has the
# same examples each time; tests/kit/examples.py has fewer for what is slow.
settings.register_profile("woodref", deadline=None, derandomize=True)
settings.load_profile("woodref")
