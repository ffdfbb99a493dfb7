"""Every table of the reference dataset, each field declared once.

The pandera schemas, the Parquet field metadata, ``datapackage.json``, the data
dictionary page and the column names offered by queries are generated from here.
The fields stand in ``woodref/reference/declared``. Plain Python, light to import.
"""

from __future__ import annotations

from woodref.reference.declared.climate import CLIMATE, PLACES
from woodref.reference.declared.declaring import Table
from woodref.reference.declared.elastic import (
    ELASTIC_RATIOS,
    POISSONS_RATIOS,
    SLOPE_OF_GRAIN,
    SPECIFIC_GRAVITY_FUNCTIONS,
)
from woodref.reference.declared.estimated import ACCURACY, ESTIMATES, STRENGTH_FUNCTIONS
from woodref.reference.declared.fasteners import (
    FASTENER_LOADS,
    FASTENERS,
    LAG_SCREW_FACTORS,
    SCREW_LENGTH_LIMITS,
)
from woodref.reference.declared.looks import (
    LOOKS,
    PLAIN_NAMES,
    RESEMBLANCES,
    STOCK,
    USES_OF_WOODS,
)
from woodref.reference.declared.measured import (
    DENSITY,
    DISAGREEMENTS,
    FIBER_SATURATION,
    IMPLIED,
    MEASUREMENTS,
    PROPERTY_TABLE,
    SHRINKAGE_RELATIONS,
    VARIABILITY,
)
from woodref.reference.declared.moisture import EMC, FINISHES, INSTALLATION
from woodref.reference.declared.origins import REJECTED, SOURCES
from woodref.reference.declared.rated import CAUTIONS, RATINGS
from woodref.reference.declared.technical import (
    BEAM_CONSTANTS,
    FACTS,
    FINISH_LIFE,
    KILN_SCHEDULES,
    OUTDOOR_MOISTURE,
    PANELS,
    SHELF_LENGTHS,
    STORAGE_HEATING,
    WOODS_NAMED,
)
from woodref.reference.declared.trade import LUMBER_SIZES, PRACTICE, SHIPPING, WORKED_EXAMPLES
from woodref.reference.declared.woods import GROUPS, NAMES, SPECIES

#: The version of the data, printed by ``woodref --version``.
DATASET_VERSION = "2.0.0"

TABLES: dict[str, Table] = {
    t.name: t
    for t in (
        SPECIES,
        NAMES,
        GROUPS,
        PROPERTY_TABLE,
        MEASUREMENTS,
        DENSITY,
        FIBER_SATURATION,
        IMPLIED,
        SHRINKAGE_RELATIONS,
        STRENGTH_FUNCTIONS,
        ESTIMATES,
        ACCURACY,
        RATINGS,
        SOURCES,
        CAUTIONS,
        REJECTED,
        DISAGREEMENTS,
        EMC,
        FINISHES,
        VARIABILITY,
        LUMBER_SIZES,
        SHIPPING,
        PRACTICE,
        INSTALLATION,
        WORKED_EXAMPLES,
        PLACES,
        CLIMATE,
        LOOKS,
        USES_OF_WOODS,
        STOCK,
        RESEMBLANCES,
        PLAIN_NAMES,
        OUTDOOR_MOISTURE,
        ELASTIC_RATIOS,
        POISSONS_RATIOS,
        SPECIFIC_GRAVITY_FUNCTIONS,
        SLOPE_OF_GRAIN,
        FASTENERS,
        FASTENER_LOADS,
        SCREW_LENGTH_LIMITS,
        LAG_SCREW_FACTORS,
        BEAM_CONSTANTS,
        SHELF_LENGTHS,
        PANELS,
        STORAGE_HEATING,
        KILN_SCHEDULES,
        FINISH_LIFE,
        FACTS,
        WOODS_NAMED,
    )
}
