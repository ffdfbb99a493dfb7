"""Settings of every test."""

from hypothesis import settings

# How long one example takes says more of the machine than of the code.
settings.register_profile("woodref", deadline=None)
settings.load_profile("woodref")
