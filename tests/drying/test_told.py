"""What this room answers, to three digits and in words, as told.txt holds it."""

from pathlib import Path

import pytest
from small_woods import BARE as NO_FIGURES
from small_woods import SUGAR_MAPLE, WHITE_OAK
from told import assert_held, by_name, grid_of, said

from woodref.climate.seasons import season, two_seasons
from woodref.climate.settings import SETTINGS
from woodref.drying import acclimation, ambient, board_lag, delivery, finish, follow, lag
from woodref.quantity import Range
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference

ROWS = finish_rows(Reference(own=False))
#: A dry winter and a damp summer in a heated house.
HOUSE = season(two_seasons((-5.0, 75.0), (23.0, 75.0)), SETTINGS["heated house"])
MONTHS = ambient.months_between(6.0, 11.0)
WARM = tuple(15.0 + n for n in range(12))
DAY = 86_400.0


def on(name="", coats=None, one_face=False):
    """A finish of the table; bare wood where none is named."""
    return finish.finish_on(ROWS, name, coats, one_face) if name else finish.BARE


def board(thickness=20.0, of=WHITE_OAK):
    """A board of a wood."""
    return follow.board_of(of, thickness)


def told(value):
    """A figure or a range to three digits."""
    if isinstance(value, Range):
        return f"{value.expected:.3g} ({value.low:.3g} to {value.high:.3g})"
    if isinstance(value, follow.DryingBoard):
        return f"{value.thickness_mm:g} mm"
    return f"{value:.3g}" if isinstance(value, float) else str(value)


def each(values):
    """Figures and ranges to three digits; of a record, its fields."""
    return [told(v) for v in values]


def fields(record, *names):
    """Fields of an answer by their names, to three digits."""
    return [f"{name}: {told(getattr(record, name))}" for name in names]


def table(answer):
    """The table that an answer shows itself as."""
    return [[told(cell) for cell in row] for row in grid_of(answer)]


NAMES = {
    **{m.__name__.rpartition(".")[2]: m for m in (acclimation, ambient, board_lag, delivery)},
    **{m.__name__.rpartition(".")[2]: m for m in (finish, follow, lag)},
    **{f.__name__: f for f in (on, board, told, each, fields, table, said)},
    **{"OAK": WHITE_OAK, "MAPLE": SUGAR_MAPLE, "NO_FIGURES": NO_FIGURES, "HOUSE": HOUSE},
    **{"MONTHS": MONTHS, "WARM": WARM, "DAY": DAY, "Range": Range},
}
HELD = by_name(Path(__file__).with_name("told.txt"))


@pytest.mark.parametrize("about", HELD)
def test_the_answers_are_those_held(about):
    assert_held(HELD[about], NAMES, "drying")
