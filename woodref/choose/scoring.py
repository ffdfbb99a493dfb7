"""The utility of each criterion of a profile for each wood, and the score: SQL in, rows out.

Utility runs from 0 (poor) to 1 (good), straight between; for ``near`` it falls from 1 at the
target to 0 at the reach. A score is the sum of utility times weight, 100 at most. The spread of
single boards passes through: each criterion is looked at one standard deviation above and
below, and criteria count as independent of each other (our assumption).
"""

from __future__ import annotations

from collections.abc import Sequence

import duckdb

from woodref.choose.columns import valued_sql
from woodref.choose.profile import MIDDLING, Criterion, Profile
from woodref.record import record

#: Shares of the woods that have a figure below which it is poor, and above which it is good,
#: where a profile does not say.
POOR_SHARE, GOOD_SHARE = 0.05, 0.95
#: Standard deviation of a utility nobody knows, which may be anything from 0 to 1.
_UNKNOWN_SD = 12.0**-0.5

SCORE_RULE = (
    "score: each criterion is worth 0 at its poor end to 1 at its good end, straight between, "
    "times its weight; 100 is a wood good in everything"
)


@record
class Scale:
    """A criterion with its share of the score [1] and the ends of its scale filled in."""

    criterion: Criterion
    share: float
    poor: float = 0.0
    good: float = 1.0

    def utility(self, value: str) -> str:
        """The SQL of the utility of a value, itself SQL."""
        c = self.criterion
        if c.target is not None and c.reach is not None:
            raw = f"1.0 - abs({value} - {c.target!r}) / {c.reach!r}"
        else:
            raw = f"({value} - {self.poor!r}) / {self.good - self.poor!r}"
        return f"greatest(0.0, least(1.0, {raw}))"


def scales_of(
    connection: duckdb.DuckDBPyConnection, profile: Profile, pool: str
) -> tuple[Scale, ...]:
    """The scale of each criterion; ends the profile leaves open are those of the woods in pool.

    Parameters: connection with the table ``pool`` of woods.
    """
    scales = []
    for c, share in zip(profile.criteria, profile.weights, strict=True):
        if c.poor is not None and c.good is not None:
            scales.append(Scale(c, share, c.poor, c.good))
        elif c.direction == "near":
            scales.append(Scale(c, share))
        else:
            low, high = connection.execute(
                f"select quantile_cont({c.column.name}::double, {POOR_SHARE}), "
                f"quantile_cont({c.column.name}::double, {GOOD_SHARE}) from {pool}"
            ).fetchall()[0]
            if low is None or low == high:  # no wood has it, or all are alike
                low, high = 0.0, 1.0
            ends = (low, high) if c.direction == "higher" else (high, low)
            scales.append(Scale(c, share, *ends))
    return tuple(scales)


def scored_sql(scales: Sequence[Scale], pool: str) -> str:
    """A query over ``pool`` that adds v, s, u of each criterion, and score and score_sd.

    ``v0`` the value, ``s0`` its spread between boards, ``u0`` its utility, with a middling one
    where an optional criterion is not known; ``score`` [0 to 100] is null where a criterion
    that must be known is not.
    """
    values, utilities, sds = [], [], []
    for n, scale in enumerate(scales):
        values.append(valued_sql(n, scale.criterion.column))
        utility = scale.utility(f"v{n}")
        # Above and below apart: at the target of 'near' both fall, and must not cancel.
        above, below = scale.utility(f"(v{n} + s{n})"), scale.utility(f"(v{n} - s{n})")
        square = f"(({above} - {utility}) ** 2 + ({below} - {utility}) ** 2) / 2.0"
        if scale.criterion.optional:
            utility = f"case when v{n} is null then {MIDDLING!r} else {utility} end"
            square = f"case when v{n} is null then {_UNKNOWN_SD**2!r} else {square} end"
        else:
            utility = f"case when v{n} is not null then {utility} end"
        utilities.append(f"{utility} as u{n}")
        sds.append(f"{(100.0 * scale.share) ** 2!r} * ({square})")
    score = " + ".join(f"{100.0 * s.share!r} * u{n}" for n, s in enumerate(scales))
    return (
        f"select *, {', '.join(utilities)}, {score} as score, sqrt({' + '.join(sds)}) as score_sd "
        f"from (select *, {', '.join(values)} from {pool})"
    )
