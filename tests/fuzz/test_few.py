"""Some hostile inputs of every kind, the same each time; ``make fuzz`` tries many more."""

from random import Random

import pytest
from fuzzing import cases
from fuzzing.case import Case, Outcome
from fuzzing.faults import faults
from fuzzing.workspace import Workspace

SEED = 14
#: Inputs by kind, about as many as there is time for.
INPUTS = {
    **{"options": 16, "targets": 4, "keys": 16, "structure": 8, "bytes": 4, "no file": 4},
    **{"configuration": 8, "environment": 3, "overlay": 3, "queries": 3},
}


@pytest.fixture(scope="module")
def workspace(tmp_path_factory):
    return Workspace(tmp_path_factory.mktemp("fuzz") / "w")


def test_every_kind_is_tried():
    assert set(INPUTS) == set(cases.SHARES)


@pytest.mark.parametrize("kind", INPUTS)
def test_hostile_input_is_answered_or_refused_in_a_line(workspace, kind):
    draw = cases.kinds(workspace)[kind]
    for number in range(INPUTS[kind]):
        case = draw(Random(f"{SEED} {kind} {number}"))
        assert faults(case, workspace.ask(case)) == [], case.told()


CASE = Case("options", ["show", "cherry", "--format", "json"])


@pytest.mark.parametrize(
    ("outcome", "fault"),
    [
        (Outcome(3, "", "", {}, []), "exit code 3"),
        (Outcome(2, "", "", {}, []), "without a word"),
        (Outcome(2, "", "woodref: a\x1b[31m\n", {}, []), "unprintable"),
        (Outcome(2, "", "woodref: a\u202eb\n", {}, []), "unprintable"),
        (Outcome(2, "", f"woodref: {'x' * 300}\n", {}, []), "longer than 300"),
        (Outcome(2, "", "x\n" * 12, {}, []), "more than 11 lines"),
        (Outcome(1, "", "woodref: a mistake of the program\n", {}, []), "a mistake of the program"),
        (Outcome(0, '{"a": NaN}', "", {}, []), "no JSON"),
        (Outcome(0, "weighs nan lb", "", {}, []), "a number that is none"),
        (Outcome(0, "a\x85b", "", {}, []), "unprintable"),
        (Outcome(0, "", "", {"a.svg": b"<svg>\x0b</svg>"}, []), "unprintable"),
        (Outcome(0, "", "", {"a.svg": b"<svg>"}, []), "not well formed"),
        (Outcome(0, "", "", {}, [".half"]), "left behind"),
    ],
)
def test_a_fault_is_seen_where_there_is_one(outcome, fault):
    assert any(fault in wrong for wrong in faults(CASE, outcome))


def test_nothing_is_seen_where_nothing_is_wrong():
    assert faults(CASE, Outcome(0, '{"a": 1.0}\n', "", {}, [])) == []
    assert faults(CASE, Outcome(2, "", "woodref: no wood is called 'x'\n", {}, [])) == []
