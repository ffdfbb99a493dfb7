"""The coefficients of a catalog are the figures that the look-ups of single woods use."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path

import pytest

from woodref.board.movement_basis import MovementMethod
from woodref.choose.coefficients import Coefficients, coefficients, coefficients_of
from woodref.own.intake import take_in
from woodref.reference.bases import ESTIMATED, OWN
from woodref.reference.library import Reference

#: A gravity that is implied by another density is published to four digits.
_NEAR = 1e-3


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


@pytest.fixture(scope="module")
def known(reference: Reference) -> dict[str, Coefficients]:
    return coefficients(reference)


def _same(one: Coefficients, other: Coefficients) -> bool:
    for name, value in asdict(one).items():
        expected = asdict(other)[name]
        if isinstance(value, float) and isinstance(expected, float):
            if value != pytest.approx(expected, rel=_NEAR):
                return False
        elif value != expected:
            return False
    return True


def test_every_wood_has_one_row(reference: Reference, known: dict[str, Coefficients]) -> None:
    count = reference.store.rows("select count(*) as n from {species}")[0]["n"]
    assert len(known) == count


def test_they_are_those_of_the_look_up(
    reference: Reference, known: dict[str, Coefficients]
) -> None:
    printed = [i for i, c in known.items() if c.density_basis != ESTIMATED or not c.movement_method]
    others = [i for i in known if i not in set(printed)]
    # Every wood with figures in print, and every fiftieth of the thousands with a density alone.
    chosen = printed + others[::50]
    woods = reference.woods(chosen)
    unlike = [i for i in chosen if not _same(known[i], coefficients_of(woods[i]))]
    assert unlike == []
    methods = {c.movement_method for c in known.values()}
    assert methods == {None, *(m.value for m in MovementMethod)}


def test_named_woods_alone(reference: Reference, known: dict[str, Coefficients]) -> None:
    two = coefficients(reference, ["quercus-alba", "prunus-serotina"])
    assert two == {i: known[i] for i in ("prunus-serotina", "quercus-alba")}


def test_own_figures_go_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WOODREF_DATA", str(tmp_path / "own"))
    monkeypatch.delenv("WOODREF_NO_OWN", raising=False)
    table = tmp_path / "own.csv"
    table.write_text(
        "species,property,value,unit\n"
        "white ash,shrinkage_tangential,9.1,%\n"
        "white ash,shrinkage_radial,5.1,%\n"
        "black cherry,density_12pct,601,kg/m3\n"
    )
    reference = Reference()
    assert take_in(reference, table, "measurements", "test shop").kept == 3
    rows = coefficients(reference, ["fraxinus-americana", "prunus-serotina"])
    woods = reference.woods(rows)
    assert rows["fraxinus-americana"].movement_basis == OWN
    assert rows["fraxinus-americana"].tangential == 9.1
    assert rows["prunus-serotina"].basic_specific_gravity != 0.47
    for species_id, row in rows.items():
        assert _same(row, coefficients_of(woods[species_id])), species_id
