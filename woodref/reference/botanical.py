"""What a botanical name means that stands in no names table: a genus, a species of a genus."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from woodref.reference.names import fold

#: Words after a genus that mean all its species, or a part of it.
_WHOLE_GENUS = ("spp", "sp", "subg", "sect")


def listed_names(text: str) -> list[str]:
    """The names of a list parted by semicolons: 'Swietenia spp.; Khaya spp.' gives two."""
    return [part.strip() for part in text.split(";") if part.strip()]


@lru_cache(maxsize=65_536)
def _folded(names: str) -> tuple[str, ...]:
    """The names of a list, folded: those of the dataset are, once for all names asked about."""
    return tuple(fold(part) for part in listed_names(names))


def botanical_meanings(name: str, known: Iterable[Mapping[str, str]]) -> list[tuple[str, str]]:
    """The woods a botanical name can mean, as (species_id, note), the first rule that fits.

    The name as a wood's own, or its species_id; a genus ('Quercus', 'Quercus spp.') as every
    wood of the genus; a species whose genus is printed as a whole ('Khaya nyasica') as the
    wood printed so.

    Parameters: name as typed; known rows with species_id and botanical_name, whose names may
    be several parted by semicolons.
    """
    key = fold(name)
    if not key:
        return []
    woods = [(row["species_id"], _folded(row["botanical_name"])) for row in known]
    own = [(i, "") for i, names in woods if key in names or (key,) == _folded(i)]
    if own:
        return own
    # A word is added so that the genus is not taken for a plural ('Abies').
    genus, *rest = fold(f"{name} x").split()
    if len(rest) == 1 or rest[0] in _WHOLE_GENUS:
        note = f"of the genus {genus.capitalize()}"
        return [(i, note) for i, names in woods if any(n.split()[0] == genus for n in names)]
    if any(
        n.startswith(f"{genus} ") and n.split()[1] not in _WHOLE_GENUS
        for _, names in woods
        for n in names
    ):
        return []  # species of the genus are printed by name: this one is not among them
    whole = [i for i, names in woods if f"{genus} spp" in names]
    return [(i, f"printed for {genus.capitalize()} spp.") for i in whole]
