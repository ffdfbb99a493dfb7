"""What the public functions share: the dataset, opened once, and woods by name."""

from __future__ import annotations

from functools import cache

from woodref.reference.library import Reference
from woodref.reference.woods import Wood


@cache
def reference() -> Reference:
    """Open the packaged dataset, once per process, at the first look-up."""
    return Reference()


def wood_of(name: Wood | str) -> Wood:
    """Return the wood itself, or the one that goes by a name."""
    return name if isinstance(name, Wood) else reference().wood(name)
