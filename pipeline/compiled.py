"""Compiled densities: what the compilers' conversion makes of them, and how far they are off.

The Global Wood Density Database turned about 60 % of its records from density at 10 to 18 %
moisture content into basic density by a factor of 0.861, where 0.828 is right: Vieilledent G.
and others (2018), American Journal of Botany 105(10): 1653-1661, doi:10.1002/ajb2.1175. Which
records is not said, so that a mean is lowered by what is expected. Records that repeat the
handbook were not converted. Reyes and others (1992) converted by another equation
(0.0134 + 0.800 D12), which this does not concern.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import sqrt
from typing import NamedTuple

import pandas as pd

#: Source tables of compiled densities.
DATABASE, TROPICAL = "world_wood_density.csv", "tropical_wood_density.csv"
COMPILED = (DATABASE, TROPICAL)
#: Share of the converted records, the factor they were converted by, and the right one.
CONVERTED_SHARE, FACTOR_USED, FACTOR_RIGHT = 0.6, 0.861, 0.828
#: What a converted record is too high by, as a share of it.
TOO_HIGH = 1.0 - FACTOR_RIGHT / FACTOR_USED
LOWERED = (
    f"the mean is lowered by the expected {100.0 * CONVERTED_SHARE * TOO_HIGH:.1f} % of the "
    f"records that may be converted: about {100.0 * CONVERTED_SHARE:.0f} % of the database was "
    f"turned from density at 10 to 18 % by {FACTOR_USED} where {FACTOR_RIGHT} is right "
    "(Vieilledent and others 2018, American Journal of Botany 105)"
)


class Corrected(NamedTuple):
    """A mean of the database without the expected slip, and what is uncertain in that [g/cm3]."""

    mean: float
    sd: float


def corrected(mean: float, suspect: int, suspect_mean: float, records: int) -> Corrected:
    """The mean of a species in the database without the expected slip of conversion.

    Parameters: mean of all its records [g/cm3]; suspect how many of them may be converted, and
    suspect_mean their mean [g/cm3]; records how many there are.
    Returns: the mean, and its standard deviation from not knowing which are converted:
    each is, or is not, with the share of all.
    Source: Vieilledent and others (2018), as above.
    """
    if not suspect:
        return Corrected(mean, 0.0)
    part = suspect / records * suspect_mean * TOO_HIGH
    unsure = sqrt(CONVERTED_SHARE * (1.0 - CONVERTED_SHARE) / suspect)
    return Corrected(mean - CONVERTED_SHARE * part, unsure * part)


class Check(NamedTuple):
    """How compiled means differ from the handbook's: woods, mean and root mean square [g/cm3]."""

    woods: int
    bias: float
    rms: float


#: Tiers of compiled means: name, source table, origin of the woods compared.
TIERS: tuple[tuple[str, str, bool], ...] = (
    ("woods of the United States, records that do not repeat the handbook", DATABASE, False),
    ("imported woods, Global Wood Density Database", DATABASE, True),
    ("imported woods, Reyes and others 1992", TROPICAL, True),
)


def differences(
    handbook: pd.DataFrame, density: pd.DataFrame, table: str, imported: bool, column: str
) -> pd.Series:
    """A column of the density table less the handbook's gravity, one figure a wood.

    Parameters: handbook with species_id, gravity, imported; density; table, imported as in
    TIERS; column of the density table, for woods of the United States that of the records
    which do not repeat the handbook.
    """
    rows = density[density["source_table"].eq(table)].dropna(subset=[column])
    means = rows.groupby("species_id")[column].mean()
    known = handbook[handbook["imported"].eq(imported)].set_index("species_id")["gravity"]
    return (means - known).dropna().astype(float)


def check(differing: pd.Series) -> Check:
    """Number, mean and root mean square of differences; zeros where there are none."""
    if differing.empty:
        return Check(0, 0.0, 0.0)
    rms = float((differing**2).mean() ** 0.5)
    return Check(len(differing), float(differing.mean()), rms)


def tiers(
    handbook: pd.DataFrame, density: pd.DataFrame
) -> Iterable[tuple[str, str, pd.Series, pd.Series]]:
    """(tier, source table, differences of the means as printed, as used) for each of TIERS."""
    both = density.assign(
        lowered_g_cm3=density["independent_mean_g_cm3"] * (1.0 - CONVERTED_SHARE * TOO_HIGH)
    )
    for name, table, imported in TIERS:
        columns = ("independent_mean_g_cm3", "lowered_g_cm3")
        if imported:
            columns = ("mean_g_cm3", "used_mean_g_cm3")
        printed, used = (differences(handbook, both, table, imported, c) for c in columns)
        yield name, table, printed, used


def tier_checks(
    handbook: pd.DataFrame, density: pd.DataFrame
) -> Iterable[tuple[str, Check, Check]]:
    """(tier, check of the means as printed, of the means as used) for each of TIERS."""
    for name, _, printed, used in tiers(handbook, density):
        yield name, check(printed), check(used)


def with_uncertainty(
    measured: pd.DataFrame, handbook: pd.DataFrame, density: pd.DataFrame
) -> pd.DataFrame:
    """The compiled measurements, the spread of their means joined to that of the correction."""
    spread = measured["source_table"].map(uncertainties(handbook, density))
    return measured.assign(uncertainty=(spread**2 + measured["uncertainty"] ** 2).pow(0.5).round(4))


def uncertainties(handbook: pd.DataFrame, density: pd.DataFrame) -> dict[str, float]:
    """Standard deviation of a compiled mean of each source table [g/cm3].

    The root mean square difference from the handbook over the imported woods both hold.
    """
    return {
        table: check(differences(handbook, density, table, True, "used_mean_g_cm3")).rms
        for table in COMPILED
    }
