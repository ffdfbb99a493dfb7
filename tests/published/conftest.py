"""The checks against print may be asked to write down what they find."""

from checked import register


def pytest_configure(config):
    register(config)
