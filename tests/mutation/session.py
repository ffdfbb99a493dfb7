"""One session of pytest in which every mutant is a fork of its own."""

from __future__ import annotations

import gc
import json
import mmap
import os
import resource
import sys
import time
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase
from hypothesis import settings as hypothesis_settings
from mutmut.mutation.trampoline import set_mutant_under_test
from mutmut.state import state
from run import ENDLESS, KILLED, NO_TESTS, SURVIVED

#: What pytest leaves out for speed: to look for what was not closed takes three times a small test.
LEAN = ("-p", "no:cacheprovider", "-p", "no:unraisableexception", "-p", "no:threadexception")
#: An example that fails is enough: no smaller one is looked for, and no other failure.
hypothesis_settings.register_profile(
    "mutants",
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.explicit, Phase.generate),
    report_multiple_bugs=False,
)
#: The processor time a test may take: so many times what it usually does, and so much more [s].
TIMES, MORE_S = 3.0, 3.0

#: How many tests of a mutant have passed, which its fork tells.
_PASSED = mmap.mmap(-1, 4)

#: Databases that tests opened as they were collected, and their connections before a fork.
_STORES: list[Any] = []
_BEFORE: list[Any] = []


def _databases() -> None:
    """Note the databases that are open, each of which has a thread that no fork has."""
    stores = (o for o in gc.get_objects() if type(o).__name__ == "Store")
    _STORES[:] = [store for store in stores if "connection" in vars(store)]
    _BEFORE[:] = [store.connection for store in _STORES]


def _forget() -> None:
    """Forget what functions have kept, which would hide who calls them, or unchanged answers."""
    for name, module in list(sys.modules.items()):
        if name.partition(".")[0] in ("woodref", "pipeline"):
            for held in list(vars(module).values()):
                if hasattr(held, "cache_clear"):
                    held.cache_clear()


def _fresh() -> None:
    """Start anew in a fork; to close the old connections would wait for their threads."""
    _forget()
    for store in _STORES:
        store.connection = sys.modules[type(store).__module__].connect()


class _Items:
    """What pytest collected; runs nothing by itself."""

    def __init__(self, work: Callable[[list[pytest.Item]], None]) -> None:
        self._work = work

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Hand the tests over in place of running them."""
        if session.testsfailed:
            raise session.Interrupted("the tests could not be collected")
        self._work(session.items)
        return True


def _passes(
    items: list[pytest.Item],
    before: Callable[[pytest.Item], None],
    after: Callable[[pytest.Item], None],
) -> bool:
    """Run tests up to the first that fails."""
    for number, (item, following) in enumerate(zip(items, [*items[1:], None], strict=True)):
        _PASSED[:] = number.to_bytes(4)
        before(item)
        reports = runtestprotocol(item, nextitem=following, log=False)
        if any(report.failed for report in reports):
            return False
        after(item)
    return True


def _nothing(item: pytest.Item) -> None:
    """Do nothing before or after a test."""


def _limit(seconds: float) -> None:
    """Let the clock end this process after so much more processor time."""
    used = resource.getrusage(resource.RUSAGE_SELF)
    most = int(used.ru_utime + used.ru_stime + seconds) + 1
    resource.setrlimit(resource.RLIMIT_CPU, (most, resource.RLIM_INFINITY))


def _in_a_fork(work: Callable[[], int]) -> int:
    """The exit code of work in a fork, below zero where a signal ended it."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            silence = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silence, 1)
            os.dup2(silence, 2)
            _fresh()
            code = work()
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _stats(items: list[pytest.Item], file: Path) -> None:
    """Run every test once, unchanged: the functions it calls, and the time it takes."""

    def work() -> int:
        set_mutant_under_test("stats")
        os.environ["MUTMUT_DEPENDENCY_DEPTH"] = "-1"
        calls: dict[str, list[str]] = {}
        seconds: dict[str, float] = {}
        clock = time.process_time()

        def note(item: pytest.Item) -> None:
            nonlocal clock
            seconds[item.nodeid], clock = time.process_time() - clock, time.process_time()
            for function in state()._stats:
                calls.setdefault(function, []).append(item.nodeid)
            state()._stats.clear()
            _forget()

        good = _passes(items, _nothing, note)
        file.write_text(json.dumps({"calls": calls, "seconds": seconds}), encoding="utf-8")
        return 0 if good else 1

    if _in_a_fork(work):
        passed = json.loads(file.read_text(encoding="utf-8"))["seconds"]
        first = next((i.nodeid for i in items if i.nodeid not in passed), "")
        raise RuntimeError(f"the tests fail as they are, {first}")


def run_tests(
    folder: Path,
    room: Mapping[str, list[str]],
    names: list[str],
    known: dict[str, str],
    limit_s: float,
) -> int:
    """Run the tests of a room for mutants, and keep what became of each in results.json."""
    file, stats = folder / "results.json", folder / "stats.json"

    def work(items: list[pytest.Item]) -> None:
        _databases()
        _stats(items, stats)
        told = json.loads(stats.read_text(encoding="utf-8"))
        by_id = {item.nodeid: item for item in items}
        order = sorted(told["seconds"], key=told["seconds"].__getitem__)
        gc.disable()  # a fork that collects what it shares copies it
        gc.freeze()
        done, started = dict(known), time.monotonic()
        last = started
        kills: dict[str, Counter[str]] = {}
        for name in names:
            function = name.rpartition("__mutmut_")[0]
            calling = set(told["calls"].get(function, ()))
            first = kills.setdefault(function, Counter())
            tests = [by_id[i] for i in order if i in calling]
            tests.sort(key=lambda item: -first[item.nodeid])
            done[name] = _of(name, tests, told["seconds"])
            if done[name] == KILLED:
                first[tests[int.from_bytes(_PASSED[:])].nodeid] += 1
            if time.monotonic() - started > limit_s:
                break
            if time.monotonic() - last > 20.0:
                last = time.monotonic()
                file.write_text(json.dumps(done), encoding="utf-8")
                print(f"{len(done)} of {len(known) + len(names)}", flush=True)
        file.write_text(json.dumps(done), encoding="utf-8")

    os.chdir(folder / "mutants")
    sys.path.insert(0, str(folder / "mutants"))
    set_mutant_under_test("")
    deselected = [f"--deselect={test}" for test in room.get("deselect", [])]
    options = ["--rootdir=.", "-q", "--tb=no", "--hypothesis-profile=mutants", *LEAN, *deselected]
    return int(pytest.main([*options, *room["tests"]], plugins=[_Items(work)]))


def _of(name: str, tests: list[pytest.Item], seconds: Mapping[str, float]) -> str:
    """What becomes of one mutant, by the seconds that its tests usually take."""
    if not tests:
        return NO_TESTS

    def work() -> int:
        set_mutant_under_test(name)
        return 0 if _passes(tests, limit, _nothing) else 1

    def limit(item: pytest.Item) -> None:
        _limit(TIMES * seconds[item.nodeid] + MORE_S)

    _PASSED[:] = bytes(4)
    code = _in_a_fork(work)
    return SURVIVED if code == 0 else KILLED if code == 1 else ENDLESS
