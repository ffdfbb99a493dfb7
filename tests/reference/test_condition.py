"""Conditions in SQL: the parts they are told by."""

from __future__ import annotations

from woodref.reference.condition import parts_of


def test_parts_of_a_condition() -> None:
    columns = ("side_hardness_n", "density_kg_m3", "a", "b")
    parts = parts_of("side_hardness_n >= 4000 AND density_kg_m3 < 700.5", columns)
    assert [p.text for p in parts] == ["side_hardness_n >= 4000", "density_kg_m3 < 700.5"]
    for whole in ("a > 1 or b > 2", "a between 1 and 2", "not a > 1", "a > b", "(a > 1 and b < 2)"):
        assert parts_of(whole, columns) == ()
    assert parts_of("1 < 2", columns) == parts_of("c > 1", columns) == ()
