"""Lowest versions: each dependency states one, and the trial with them is made of them."""

import pytest

from release.versions import PYTHONS, floors, lowest_constraints, project


def test_every_dependency_states_its_lowest_version():
    lowest = floors(project()["dependencies"])
    assert {"duckdb", "typer", "pyarrow"} < set(lowest)
    for name in ("duckdb", "duckdb<3", "duckdb>1.5"):
        with pytest.raises(ValueError, match="says no lowest version"):
            floors([name])


def test_the_floors_stand_in_place_of_the_pins_and_the_rest_is_as_pinned():
    pinned = "# a remark\nDuckDB==2.0.1\nrich==15.0.0\ntyping_extensions==4.16.0\n"
    made = lowest_constraints(pinned, floors(["duckdb>=1.5", "typing-extensions>=4.9,<5"]))
    assert made.splitlines() == ["rich==15.0.0", "duckdb==1.5", "typing-extensions==4.9"]


def test_the_pythons_told_of_are_those_that_are_tried():
    told = [c.rpartition(" ")[2] for c in project()["classifiers"] if " :: 3." in c]
    assert {f"python{version}" for version in told} <= set(PYTHONS)
    assert project()["requires-python"] == f">={told[0]}"
