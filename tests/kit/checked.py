"""What the checks against print find, written down where the accuracy page asks for it.

``WOODREF_CHECKS=FILE pytest tests/published`` writes FILE, a JSON object by the name of each
check: how it ended, and the numbers it compared. Without the variable nothing is written and
nothing changes. A check that compares single numbers does so by ``pytest.approx``, which is
listened to; one that compares whole tables names its numbers by ``checked``, and then those alone
count.
"""

import contextlib
import json
import os
from pathlib import Path

import numpy as np
import pytest

VARIABLE = "WOODREF_CHECKS"
_recorder = None


def checked(computed, printed, unit=""):
    """Name the numbers that a check compares.

    Parameters: computed; printed, as many; unit of their difference, '' for a share of the print.
    """
    if _recorder is not None:
        _recorder.named += _differences(computed, printed, unit)


def _differences(computed, printed, unit=""):
    """Computed less printed, a dict each: a share of the print where no unit is given."""
    pairs = zip(np.ravel(computed), np.ravel(printed), strict=True)
    out = []
    for value, print_ in ((float(a), float(b)) for a, b in pairs):
        off = value - print_
        if not unit and print_:
            out.append({"off": 100.0 * off / abs(print_), "unit": "%"})
        else:
            out.append({"off": off, "unit": unit})
    return out


class _Listening:
    """What stands for ``pytest.approx``: it compares as that does, and tells what it saw."""

    __array_ufunc__ = None
    __array_priority__ = 100
    __hash__ = None

    def __init__(self, recorder, expected, approx):
        self.recorder, self.expected, self.approx = recorder, expected, approx

    def __repr__(self):
        return repr(self.approx)

    def __eq__(self, actual):
        same = self.approx == actual
        # Texts, dicts and sequences of another length are no numbers to compare.
        with contextlib.suppress(TypeError, ValueError):
            self.recorder.heard += _differences(actual, self.expected)
        return same


class Recorder:
    """A plugin of pytest that keeps what each check compared."""

    def __init__(self, path):
        self.path, self.checks = Path(path), {}
        self.named, self.heard = [], []

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self, item):
        """Listen while a check runs."""
        self.named, self.heard = [], []
        approx = pytest.approx
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(
                pytest, "approx", lambda x, *a, **k: _Listening(self, x, approx(x, *a, **k))
            )
            result = yield
        self._check(item.nodeid)["compared"] += self.named or self.heard
        return result

    def _check(self, nodeid):
        file, _, name = nodeid.partition("::")
        key = f"{Path(file).stem}::{name.partition('[')[0]}"
        return self.checks.setdefault(key, {"passed": 0, "failed": 0, "skipped": 0, "compared": []})

    def pytest_runtest_logreport(self, report):
        """Count how the checks end."""
        if report.when == "call" or not report.passed:
            self._check(report.nodeid)[report.outcome] += 1

    def pytest_sessionfinish(self):
        """Write what was kept."""
        self.path.write_text(json.dumps(self.checks, indent=1), encoding="utf-8")


def register(config):
    """Keep what is compared, where the variable names a file to write it to."""
    global _recorder  # noqa: PLW0603 - one session, one recorder
    if path := os.environ.get(VARIABLE):
        _recorder = Recorder(path)
        config.pluginmanager.register(_recorder)
