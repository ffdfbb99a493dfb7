"""What this room answers, whole and in words, as told.txt holds it."""

from dataclasses import replace
from pathlib import Path

import pytest
from small_woods import BARE, BLACK_WALNUT, SUGAR_MAPLE, WHITE_OAK, wood
from told import assert_held, by_name, said

from woodref.joinery import (
    clearance,
    fastener,
    fit,
    fixing_rules,
    fixing_types,
    hardware,
    holding,
    joint_types,
    joints,
    mend,
    miter,
    travel,
)
from woodref.joinery.fixing_types import FixingError, Sizes
from woodref.joinery.joint_types import JointKind
from woodref.quantity import Range
from woodref.reference.fasteners import fastener_tables
from woodref.reference.library import Reference

LIBRARY = Reference(own=False)
TABLES = fastener_tables(LIBRARY)
YEAR = travel.MoistureRange(8.0, 6.0, 11.0)


def fixing(kind, width=None, moisture=YEAR, of=WHITE_OAK, **said):
    """A fixing, the sizes of it as given_hole=9.0."""
    sizes = {k[6:]: v for k, v in said.items() if k.startswith("given_")}
    more = {k: v for k, v in said.items() if not k.startswith("given_")}
    spec = fixing_types.fixing_spec(kind, width_mm=width, sizes=Sizes(**sizes), **more)
    return clearance.fixing_of(spec, of, moisture)


def refused(**said):
    """The key that a fixing lies wrong in, and the words in both units."""
    try:
        fixing_types.fixing_spec(said.pop("kind", "slotted-hole"), **said)
    except FixingError as error:
        return error.key, str(error), error.told("us"), error.told("si")
    return "taken"


def joint(kind, width, of=WHITE_OAK, moisture=YEAR, **said):
    return joints.joint_of(joint_types.joint_spec(JointKind(kind), width, **said), of, moisture)


def held(of, driven, into=25.4, **more):
    """What a fastener holds in a wood of the dataset."""
    return holding.holding(LIBRARY.wood(of), driven, TABLES, into, **more)


NAMES = {
    **{m.__name__.rpartition(".")[2]: m for m in (clearance, fastener, fit, fixing_rules)},
    **{m.__name__.rpartition(".")[2]: m for m in (fixing_types, hardware, joint_types, joints)},
    **{m.__name__.rpartition(".")[2]: m for m in (mend, miter, travel)},
    **{f.__name__: f for f in (fixing, refused, joint, said, held, replace, wood)},
    **{"Sizes": Sizes, "JointKind": JointKind, "Range": Range, "LIBRARY": LIBRARY},
    **{"TABLES": TABLES, "YEAR": YEAR, "OAK": WHITE_OAK, "MAPLE": SUGAR_MAPLE, "BARE": BARE},
    **{"WALNUT": BLACK_WALNUT, "MoistureRange": travel.MoistureRange, "holding": holding},
}
HELD = by_name(Path(__file__).with_name("told.txt"))


@pytest.mark.parametrize("about", HELD)
def test_the_answers_are_those_held(about):
    assert_held(HELD[about], NAMES, "joinery")
