"""What this room answers, whole and in words, as told.txt holds it."""

from dataclasses import replace
from math import inf, nan
from pathlib import Path

import numpy
import pandas
import pytest
from small_woods import BARE, BLACK_WALNUT, SUGAR_MAPLE, WHITE_OAK, wood
from told import assert_held, by_name, said

from woodref.board import (
    arrays,
    beam_material,
    cross_section,
    densities_agree,
    movement,
    outline,
    panel,
    panel_section,
    sag_limits,
    shapes,
    span,
    stability,
    weight,
)
from woodref.board.deflection import deflection
from woodref.board.shapes import Shape
from woodref.board.span import Span
from woodref.reference.library import Reference
from woodref.reference.panels import panel_figures
from woodref.reference.sag_rules import Carried, sag_rules

LIBRARY = Reference(own=False)
RULES = sag_rules(LIBRARY)
SHELF = Span(914.4, 254.0, 19.05, uniform_n_m=291.878)


def sag(of="eastern white pine", moisture=8.0, creep=None, limit=None, **of_span):
    """A shelf of a wood, or of a panel by its name after 'panel '."""
    material = beam(of) if of.startswith("panel ") else beam_material.of_wood(one(of), moisture)
    return deflection(material, replace(SHELF, **of_span), RULES, creep, limit)


def beam(name):
    """A panel as a beam."""
    return beam_material.of_panel(name[6:], panel_figures(LIBRARY, name[6:]))


def one(name):
    """A wood of the dataset."""
    return LIBRARY.wood(name)


def section(side="below", distance=50.0, offset=0.0, size=(250.0, 25.0), moistures=(12.0, 6.0)):
    """The cross-section of a board of white oak."""
    pith = outline.pith_beside(side, distance, offset, *size)
    return cross_section.board_section(WHITE_OAK, *size, pith, *moistures)


def columns(result):
    """The columns of an array result, as lists."""
    return {name: numpy.ravel(c).tolist() for name, c in result.columns().items()}


def find(name):
    return LIBRARY.wood(name) if isinstance(name, str) else name


NAMES = {
    **{m.__name__.rpartition(".")[2]: m for m in (arrays, beam_material, cross_section, outline)},
    **{m.__name__.rpartition(".")[2]: m for m in (densities_agree, movement, panel, stability)},
    **{m.__name__.rpartition(".")[2]: m for m in (panel_section, sag_limits, shapes, span)},
    **{f.__name__: f for f in (sag, beam, one, said, section, columns, find, replace, wood)},
    **{"weight": weight, "Shape": Shape, "Span": Span, "Carried": Carried, "RULES": RULES},
    **{"LIBRARY": LIBRARY, "OAK": WHITE_OAK, "MAPLE": SUGAR_MAPLE, "WALNUT": BLACK_WALNUT},
    **{"BARE": BARE, "inf": inf, "nan": nan, "numpy": numpy, "pandas": pandas, "SHELF": SHELF},
    "panel_figures": panel_figures,
}
HELD = by_name(Path(__file__).with_name("told.txt"))


@pytest.mark.parametrize("about", HELD)
def test_the_answers_are_those_held(about):
    assert_held(HELD[about], NAMES, "board")
