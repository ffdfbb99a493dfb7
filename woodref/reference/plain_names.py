"""What a plain name means in the yards of a region: 'walnut' in North America, in Europe.

All of it is common practice, from the table plain_names.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from woodref.reference.look_words import REGIONS

#: The kinds of the rows made here: a plain name that means one wood, and one that means
#: different woods by region.
PLAIN, REGIONAL = "plain", "regional"
_SEVERAL = "several woods"

Row = dict[str, Any]


def by_region(plain: Sequence[Row]) -> dict[str, str]:
    """What a plain name means, by region; '' where that is several woods."""
    means = {r["region"]: r["means"] or "" for r in plain}
    return {region: means[region] for region in REGIONS if region in means}


def told_by_region(plain: Sequence[Row]) -> str:
    """'black walnut in North America, European walnut in Europe'; '' where it means none."""
    if not any(by_region(plain).values()):
        return ""
    return ", ".join(f"{means or _SEVERAL} in {r}" for r, means in by_region(plain).items())


def _covers_several(chosen: Sequence[Row]) -> bool:
    """True where the table of names has several unlike woods under the name."""
    several = len({r["species_id"] for r in chosen}) > 1
    return several and chosen[0]["name_kind"] != "group"


def row_in(plain: Sequence[Row], chosen: Sequence[Row], region: str) -> Row | None:
    """The row of plain_names that says what a name means.

    A region without a row of its own takes the meaning of elsewhere, where that is one, and
    where the table of names has not several unlike woods under the name.

    Parameters: plain, the rows of plain_names; chosen, those of the table of names; region of
    the trade, '' for none in particular.
    Returns: None where the table of names decides, and where regions differ.
    """
    here = next((r for r in plain if r["region"] == region), None)
    if here is not None:
        return here
    if regions_differ(plain, region) or _covers_several(chosen):
        return None
    return next(iter(plain), None)


def regions_differ(plain: Sequence[Row], region: str) -> bool:
    """True where a name means one thing here, another there, and nothing says which."""
    here = any(r["region"] == region for r in plain)
    return not here and len({(r["species_id"], r["group_name"]) for r in plain}) > 1


def note_of(plain: Sequence[Row], row: Row) -> str:
    """Why a plain name leads where it does; '' where that is plain.

    Parameters: plain, all rows of the name; row, the one that decides.
    """
    as_it_says = row["means"] and row["means"].lower() == row["name"].lower()
    told = "" if as_it_says and len(plain) == 1 else told_by_region(plain)
    meaning = f"'{row['name']}' is {told} (common practice)" if told else ""
    return "; ".join(x for x in (meaning, row["note"]) if x)
