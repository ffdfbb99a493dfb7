"""Step 6, make ready: what commands would otherwise make of the published tables at each run."""

from __future__ import annotations

from pathlib import Path

import pyarrow
import pyarrow.parquet

from woodref.choose import ready
from woodref.drying.finish_fit import CASES, fit_finishes
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference
from woodref.reference.ready import ready_file


def publish_ready(folder: Path) -> list[str]:
    """Write the ready tables beside the dataset of a folder.

    A folder that holds a part of the dataset alone has none.

    Returns: the names of the tables.
    """
    if ready.publish(folder):
        _publish_finish_fits(folder)
    return sorted(path.stem for path in (folder / "ready").glob("*.parquet"))


def _publish_finish_fits(folder: Path) -> None:
    """The resistance of each finish, fitted to the printed test in each of the cases."""
    path = ready_file(folder, "finish_fits")
    path.unlink(missing_ok=True)
    rows = finish_rows(Reference(folder, own=False))
    fitted = [
        {"finish": finish, "coats": coats, "fit_case": n, "vapor_resistance": resistance}
        for n, case in enumerate(CASES)
        for (finish, coats), resistance in fit_finishes(rows, case).vapor_resistance.items()
    ]
    pyarrow.parquet.write_table(
        pyarrow.Table.from_pylist(fitted), path, compression="zstd", use_dictionary=["finish"]
    )
