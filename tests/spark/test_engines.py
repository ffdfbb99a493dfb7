"""Every public formula gives the same numbers on Spark columns."""

import pytest
from formula_cases import CASES, FORMULAS


@pytest.mark.parametrize("room", sorted({name.partition(".")[0] for name in CASES}))
def test_same_numbers_on_spark(session, room):
    from pyspark.sql import functions

    for name in (n for n in CASES if n.startswith(f"{room}.")):
        function, columns = FORMULAS[name], CASES[name]
        rows = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
        frame = session.createDataFrame(list(zip(*columns.values(), strict=True)), list(columns))
        value = function(**{c: functions.col(c) for c in columns})
        told = [row[0] for row in frame.select(value).collect()]
        assert told == pytest.approx([function(**row) for row in rows], rel=1e-9, abs=1e-9), name


def test_what_is_not_known_and_choices(session):
    from pyspark.sql import functions

    is_known, choose = FORMULAS["engine.is_known"], FORMULAS["engine.choose"]
    frame = session.createDataFrame([(1.0,), (float("nan"),), (None,)], "x double")
    x = functions.col("x")
    told = frame.select(is_known(x), choose(is_known(x), x, 0.0)).collect()
    assert [tuple(row) for row in told] == [(True, 1.0), (False, 0.0), (False, 0.0)]
