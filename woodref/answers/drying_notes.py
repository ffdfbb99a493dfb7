"""What every answer about moisture and time says: cautions, and where its figures come from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Heed
from woodref.answers.provenance import basis_notes, sentence, sentences, unchecked_note
from woodref.answers.words import listed
from woodref.reference.bases import UNCHECKED, in_words
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.drying.finish import Finish
    from woodref.drying.follow import DryingBoard

#: The temperature of the test of what finishes keep out, FPL-RP-462 (1985) [degC].
FILM_TEST_C = 26.7

ONE_FACE = (
    "Warning: finished on one face only the other takes up and gives off water faster, and the "
    "board warps: finish both faces alike."
)


def finish_notes(finishes: Sequence[Finish], units: str) -> list[str]:
    """Where the resistance of each finish comes from, and how it is known."""
    own = [f for f in finishes if f.resistance is not None]
    named = [f for f in finishes if f.name and f.resistance is None]
    return [
        *(f"{sentence(f.label)}: resistance as you gave it, of the whole film." for f in own),
        *(
            f"{sentence(f.sold_as)} was not tested; nearest tested: {f.name}: {f.why} (our "
            "judgment); your own figure may take its place: sd 0.8 m, 2.5 perms."
            for f in named
            if f.sold_as
        ),
        *(
            f"{f.label}: resistance fitted to the moisture it kept out in the test, "
            f"{'; '.join(f.sources)} [{in_words(f.basis)}]"
            + ("; its rows carry notes: woodref finishes --format json." if f.noted else ".")
            for f in named
        ),
        *(
            [
                "The test: ponderosa pine sapwood brought from 30 to 90 % relative humidity at "
                f"{KINDS['temperature'].text(FILM_TEST_C, units)} for 1, 7 and 14 days "
                "(FPL-RP-462, 1985); your film may be thicker or thinner, and a worn one resists "
                "less."
            ]
            if named
            else []
        ),
    ]


def physics_notes(board: DryingBoard, finishes: Sequence[Finish], units: str) -> list[str]:
    """The cautions of every answer about lag, and what it is computed from."""
    # An estimate without a delivery says one thing of finishes, and follows no board.
    from woodref.drying.lag import CAUTION, RANGE_RULE, RELATION

    return [
        *sentences([CAUTION, RANGE_RULE], units),
        *finish_notes(finishes, units),
        *sentences([RELATION], units),
        *basis_notes(board.density.values[:1]),
    ]


def first_lines(finishes: Sequence[Finish]) -> list[str]:
    """What must stand above the figures: a finish on one face, and a test that is recalled."""
    unchecked = [f.label for f in finishes if f.basis == UNCHECKED]
    return [
        *([Heed(ONE_FACE)] if any(f.one_face for f in finishes) else []),
        *([unchecked_note(f"the test of {listed(unchecked)}")] if unchecked else []),
    ]
