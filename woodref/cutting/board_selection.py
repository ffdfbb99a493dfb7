"""The best set of boards among many that were filled: a small program in whole numbers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from woodref.cutting.problem import FilledBoard, Plan, Problem
from woodref.cutting.work import Work

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Nodes of the solver's search at most, and steps that a program and each of its entries count.
_NODES, _PROGRAM, _ENTRY = 100, 100_000_000, 100_000
#: Boards of several sizes that come so near to the least are as good as that.
_NEAR = 1e-3


def best_set(
    problem: Problem,
    pool: Sequence[FilledBoard],
    wanted: Counter[int],
    boards_known: int,
    work: Work,
) -> Plan | None:
    """Boards of the pool that give all blanks with the fewest boards, or the least wood.

    Parameters: problem; pool of boards; wanted blanks by kind; boards_known,
    how many a known plan takes; work that is counted.
    Returns: the boards and the blanks they leave; None where the solver comes to none.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    stock = problem.stock
    kinds = sorted(wanted)
    row = {i: k for k, i in enumerate(kinds)}
    rows, columns, numbers = list(range(len(kinds))), [], [1.0] * len(kinds)
    columns = [len(pool) + k for k in range(len(kinds))]
    for j, board in enumerate(pool):
        for i, n in board.counts.items():
            if i in row:
                rows.append(row[i])
                columns.append(j)
                numbers.append(float(n))
    shape = (len(kinds), len(pool) + len(kinds))
    covered = csr_array((numbers, _places(rows, columns)), shape=shape)
    rules = [LinearConstraint(covered, lb=np.array([wanted[i] for i in kinds]))]
    finite = [s for s, x in enumerate(stock) if x.quantity is not None]
    if finite:
        of = [(finite.index(b.stock), j) for j, b in enumerate(pool) if b.stock in finite]
        places = _places([k for k, _ in of], [j for _, j in of])
        taken = csr_array(([1.0] * len(of), places), shape=(len(finite), shape[1]))
        rules.append(LinearConstraint(taken, ub=np.array([stock[s].quantity for s in finite])))
    areas = np.array([stock[b.stock].area_m2 for b in pool])
    cost = 1.0 + 1e-4 * areas / areas.max() if problem.aim == "boards" else areas + 1e-6
    # A blank left costs more than all the boards that could hold it.
    missing = np.array([problem.areas[i] for i in kinds])
    penalty = 10.0 * float(cost.sum()) * missing / missing.min()
    work.spend(_PROGRAM + _ENTRY * len(numbers))
    # Half a board less is no plan.
    one_size = problem.aim == "boards" and areas.max() - areas.min() < 1e-9
    near = 0.5 / max(1, boards_known) if one_size else _NEAR
    solved = milp(
        np.concatenate([cost, penalty]),
        constraints=rules,
        integrality=np.ones(shape[1]),
        bounds=Bounds(0.0, np.array([*[np.inf] * len(pool), *(wanted[i] for i in kinds)])),
        options={"node_limit": _NODES, "mip_rel_gap": near},
    )
    if solved.x is None:
        return None
    times = np.rint(solved.x[: len(pool)]).astype(int)
    left: Counter[int] = Counter(wanted)
    boards = []
    for j in np.flatnonzero(times).tolist():
        for _ in range(times[j]):
            board = problem.without_extra(pool[j], left)
            if board.area > 0.0:
                boards.append(board)
                left.subtract(board.kinds)
    return boards, +left


def _places(rows: Sequence[int], columns: Sequence[int]) -> tuple[NDArray[np.int32], ...]:
    """Where the numbers of a matrix stand, in the kind of integers that every SciPy hands on."""
    return np.array(rows, dtype=np.int32), np.array(columns, dtype=np.int32)
