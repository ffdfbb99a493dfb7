"""A record is a frozen dataclass to whoever looks at it."""

import copy
import dataclasses
import inspect
import pickle
from dataclasses import field

import pytest

from woodref.record import record, replace


@record
class Board:
    """A board."""

    width_mm: float
    name: str = "a board"
    tags: dict = field(default_factory=dict, compare=False)

    @property
    def half_mm(self):
        """Half of it."""
        return self.width_mm / 2


@record
class Stave(Board):
    """A board of a panel."""

    place: int = 0

    def __post_init__(self):
        if self.place < 0:
            raise ValueError("below the first")


@record(eq=False, repr=False)
class Mark:
    """Equal to itself alone."""

    at: int


def test_it_is_told_by_its_signature_before_the_first_is_made():
    assert list(inspect.signature(Mark).parameters) == ["at"]
    assert str(inspect.signature(Stave)).startswith("(width_mm: float, name: str = 'a board'")


def test_it_is_made_by_place_or_by_name_with_what_is_left_out():
    one = Board(38.0)
    assert (one.width_mm, one.name, one.tags, one.half_mm) == (38.0, "a board", {}, 19.0)
    assert one.tags is not Board(38.0).tags
    assert Stave(38.0, "s", place=2) == Stave(name="s", width_mm=38.0, place=2)
    with pytest.raises(TypeError, match="width_mm"):
        Board()
    with pytest.raises(TypeError, match="depth"):
        Board(38.0, depth=2)
    with pytest.raises(ValueError, match="below the first"):
        Stave(38.0, place=-1)


def test_it_is_compared_and_hashed_by_its_fields():
    assert Board(38.0) == Board(38.0, tags={"a": 1}) != Board(39.0)
    assert hash(Board(38.0)) == hash(Board(38.0, tags={"a": 1}))
    assert Stave(38.0) != Board(38.0)
    assert Board(38.0) != (38.0, "a board")
    assert Mark(1) != Mark(1)
    assert repr(Board(38.0)) == "Board(width_mm=38.0, name='a board', tags={})"


def test_it_is_frozen():
    one = Board(38.0)
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.width_mm = 40.0
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.name


def test_it_is_a_dataclass_to_the_standard_library():
    one = Board(38.0)
    assert dataclasses.is_dataclass(one)
    assert [f.name for f in dataclasses.fields(Stave)] == ["width_mm", "name", "tags", "place"]
    assert dataclasses.replace(one, width_mm=40.0) == Board(40.0)
    assert dataclasses.asdict(one) == {"width_mm": 38.0, "name": "a board", "tags": {}}
    assert dataclasses.astuple(one) == (38.0, "a board", {})
    assert pickle.loads(pickle.dumps(one)) == one == copy.deepcopy(one)


def test_a_record_with_other_fields_is_made_quickly_and_checked():
    one = Board(38.0, tags={"a": 1})
    assert replace(one, width_mm=40.0) == dataclasses.replace(one, width_mm=40.0) == Board(40.0)
    assert replace(one).tags is one.tags
    assert type(replace(Stave(1.0), place=3)) is Stave
    with pytest.raises(TypeError, match="no field depth"):
        replace(one, depth=2)
    with pytest.raises(ValueError, match="below the first"):
        replace(Stave(1.0), place=-1)
