"""What the public functions share: the dataset, opened once, and woods by name."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.reference.library import Reference
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.woods import Wood
from woodref.rows import RejectedRow

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList


@cache
def reference(region: str = NORTH_AMERICA) -> Reference:
    """Open the packaged dataset, once per process and region, at the first look-up."""
    return Reference(region=region)


def wood_of(name: Wood | str) -> Wood:
    """Return the wood itself, or the one that goes by a name."""
    return name if isinstance(name, Wood) else reference().wood(name)


def refuse_rejects(path: Path, rejects: Sequence[RejectedRow]) -> None:
    """Refuse a file of rows some of which cannot be read, with the line of the first."""
    if rejects:
        first, more = rejects[0], len(rejects) - 1
        others = f" (and {more} more)" if more else ""
        raise InputError(f"{path}, line {first.line}: {first.reason}{others}")


def price_list(file: str | Path | None) -> PriceList | None:
    """Read the price list of a file, else the shop's own; None where there is neither."""
    from woodref.own.prices import price_list as first_of

    return first_of(reference(), Path(file) if file else None)
