"""How many people a load asks for: cautions of the trade, not medical or legal advice."""

from __future__ import annotations

from enum import StrEnum
from math import ceil

from woodref.errors import InputError
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.shipping import ShippingFacts
from woodref.units import LB_TO_KG

#: Where the lifting equation ends: beyond it nothing should be lifted by hand [cm, degree]
#: (unchecked).
REACH_LIMIT_CM, HEIGHT_LIMIT_CM, TWIST_LIMIT_DEG = 63.0, 175.0, 135.0
#: Reach and way up below this count as this much [cm].
_LEAST_CM = 25.0


class Certainty(StrEnum):
    """Whether something holds of a weight, all of its likely range told."""

    YES = "yes"
    PERHAPS = "perhaps"
    NO = "no"


@record
class Lifting:
    """Who can lift a load.

    ``people`` the least number by what one person should lift, at the high end of the weight;
    ``two_people`` whether two can, by the usual limit of two; ``one_person_kg`` what one person
    was taken to lift.
    """

    people: int
    two_people: Certainty
    one_person_kg: float


def lifting(load_kg: Range, facts: ShippingFacts, one_person_kg: float | None = None) -> Lifting:
    """How many people a load asks for, and whether two can lift it.

    Two people can where the high end of the weight stays under the low end of the usual limit
    and under twice what one should lift; perhaps where the expected weight stays under the
    high end of it.

    Parameters: load_kg; facts; one_person_kg what one person should lift at most, by default
    the load constant of an ideal lift [kg].
    Raises: InputError where one person should lift nothing.
    Source: NIOSH Publication 94-110 for the load constant; the limit of two people is common
    practice, no source.
    """
    one = facts.lift.mass_kg if one_person_kg is None else one_person_kg
    if not one > 0.0:
        raise InputError("held that far away nothing should be lifted by hand; come nearer to it")
    limits = [x * LB_TO_KG for x in (facts.two_people.low, facts.two_people.high)]
    if load_kg.high <= min(limits[0], 2.0 * one):
        two = Certainty.YES
    else:
        perhaps = load_kg.expected <= min(limits[1], 2.0 * one)
        two = Certainty.PERHAPS if perhaps else Certainty.NO
    return Lifting(max(1, ceil(load_kg.high / one - 1e-9)), two, one)


def recommended_weight_limit(
    horizontal_cm: float,
    vertical_cm: float = 75.0,
    distance_cm: float = 25.0,
    angle_deg: float = 0.0,
    frequency_multiplier: float = 1.0,
    coupling_multiplier: float = 1.0,
) -> float:
    """The most a lift should weigh for one person [kg]; less the further it is from ideal.

    ``23 (25/H) (1 - 0.003 |V - 75|) (0.82 + 4.5/D) (1 - 0.0032 A) FM CM``.

    Parameters: horizontal_cm hands ahead of the ankles, 25 where nearer; vertical_cm hands
    above the floor; distance_cm the way up or down, 25 where less; angle_deg of twist; the
    multipliers of frequency and of grip, 0 to 1, from the tables of the publication.
    Returns: kg; 0 beyond 63 cm of reach, 175 cm of height or way, 135 degrees of twist.
    Raises: InputError for a negative figure or a multiplier above 1.
    Source: NIOSH Publication 94-110, revised lifting equation; where it ends is unchecked.
    """
    figures = (horizontal_cm, vertical_cm, distance_cm, angle_deg)
    multipliers = (frequency_multiplier, coupling_multiplier)
    if not all(x >= 0.0 for x in figures) or not all(0.0 <= m <= 1.0 for m in multipliers):
        raise InputError("reach, height, way and twist are 0 or more, and a multiplier is 0 to 1")
    too_high = max(vertical_cm, distance_cm) > HEIGHT_LIMIT_CM
    if horizontal_cm > REACH_LIMIT_CM or too_high or angle_deg > TWIST_LIMIT_DEG:
        return 0.0
    return (
        23.0
        * (_LEAST_CM / max(_LEAST_CM, horizontal_cm))
        * (1.0 - 0.003 * abs(vertical_cm - 75.0))
        # 4.5/25 is 0.18: a way of 25 cm or less costs nothing.
        * (0.82 + 4.5 / max(_LEAST_CM, distance_cm))
        * (1.0 - 0.0032 * angle_deg)
        * frequency_multiplier
        * coupling_multiplier
    )
