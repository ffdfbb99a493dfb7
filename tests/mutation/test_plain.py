"""A decorator written as a call means what it meant."""

from importlib import util
from pathlib import Path

spec = util.spec_from_file_location("mutation_run", Path(__file__).with_name("run.py"))
run = util.module_from_spec(spec)
spec.loader.exec_module(run)

SOURCE = '''
from functools import cache

def doubled(factor):
    def decorate(function):
        return lambda *args: factor * function(*args)
    return decorate

@cache
@doubled(
    2
)
def area(a, b):
    """An area."""
    return a * b

class Board:
    width = 3

    @property
    def half(self):
        return self.width / 2

    @staticmethod
    def name():
        return "board"

    @half.setter
    def half(self, value):
        self.width = 2 * value
'''


def values(source):
    names = {}
    exec(source, names)
    board = names["Board"]()
    return names["area"](2, 5), board.half, board.name()


def test_decorators_as_calls():
    plain = run.plain(SOURCE)
    assert "@cache" not in plain
    assert "@staticmethod" in plain
    assert "area = cache(doubled(2)(area))" in plain
    assert values(plain) == values(SOURCE) == (20, 1.5, "board")


def test_every_room_is_there():
    import tomllib

    rooms = tomllib.loads(run.ROOMS.read_text(encoding="utf-8"))
    for room in rooms.values():
        for pattern in room["files"]:
            assert list(run.ROOT.glob(pattern)), pattern
        for tests in room["tests"]:
            assert (run.ROOT / tests).exists(), tests
