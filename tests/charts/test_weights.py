"""Where the weight of a piece is: bars that add up, the heaviest first and named in the title."""

from pathlib import Path

import pytest
from seen import assert_readable

import woodref
from woodref.charts import weights
from woodref.charts.weights import MOST, bars_of, weight_by_part

DEMO = Path(__file__).parents[2] / "datasets" / "demo"


@pytest.fixture(scope="module", params=["turned-stool", "hall-bench"])
def piece(request):
    return woodref.estimate(DEMO / f"{request.param}.toml")


def test_the_bars_add_up_to_the_piece(piece):
    bars = bars_of(piece)
    whole = piece.mass_kg["build"].expected
    assert sum(b.mass_kg.expected for b in bars) == pytest.approx(whole, rel=0.006)
    parts = [b.mass_kg.expected for b in bars if not b.name.startswith("the ")]
    assert parts == sorted(parts, reverse=True)
    assert len(bars) <= MOST + 1


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_title_names_the_weight_and_the_heaviest(piece, units):
    figure = weight_by_part(piece, units)
    seen = assert_readable(figure)
    title = " ".join(figure.get_suptitle().split())
    first = next(b for b in bars_of(piece) if b.material)
    assert f"the heaviest: {first.name} " in title
    unit = "lb" if units == "us" else "kg"
    assert f" {unit} (" in title
    assert sum(w.endswith(" %") and unit in w for w in seen) == len(bars_of(piece))


def test_many_parts_have_one_bar_for_the_lightest(piece, monkeypatch):
    monkeypatch.setattr(weights, "MOST", 2)
    bars = bars_of(piece)
    whole = piece.mass_kg["build"].expected
    assert len(bars) == 3
    assert bars[-1].name.startswith("the ")
    assert bars[-1].name.endswith(" lightest")
    assert sum(b.mass_kg.expected for b in bars) == pytest.approx(whole, rel=0.006)
    assert_readable(weight_by_part(piece, "us"))
