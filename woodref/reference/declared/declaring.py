"""What a table is declared with: fields, keys, and the columns many tables share."""

from __future__ import annotations

from woodref.record import record
from woodref.reference.bases import BASES


@record
class Field:
    """One column: its name, type (string, integer, number, boolean), unit and limits."""

    name: str
    type: str
    description: str
    unit: str = ""
    required: bool = False
    unique: bool = False
    minimum: float | None = None
    maximum: float | None = None
    enum: tuple[str, ...] = ()


@record
class Table:
    """One table: its fields and keys; ``foreign_keys`` maps a field to 'table.field'."""

    name: str
    title: str
    description: str
    fields: tuple[Field, ...]
    primary_key: tuple[str, ...] = ()
    foreign_keys: tuple[tuple[str, str], ...] = ()

    @property
    def columns(self) -> tuple[str, ...]:
        """The column names, in order."""
        return tuple(f.name for f in self.fields)


def string(name: str, description: str, required: bool = False, **more: object) -> Field:
    """A column of text."""
    return Field(name, "string", description, required=required, **more)  # type: ignore[arg-type]


def number(name: str, description: str, unit: str = "", **more: object) -> Field:
    """A column of numbers."""
    return Field(name, "number", description, unit, **more)  # type: ignore[arg-type]


def integer(name: str, description: str, **more: object) -> Field:
    """A column of whole numbers."""
    return Field(name, "integer", description, **more)  # type: ignore[arg-type]


SPECIES_ID = string(
    "species_id",
    "identifier of the wood: botanical name as a slug, plus a qualifier where needed",
    required=True,
)
BASIS = string("basis", "how the printed value is known", required=True, enum=tuple(BASES))
#: Where in datasets/sources a row comes from.
ORIGIN = (
    string("source_table", "file of datasets/sources the row stands in", required=True),
    integer("source_line", "line of that file, the header being line 1", required=True, minimum=2),
)
#: Where in print a row stands.
PRINT = (
    string("source_id", "publication, see the table sources", required=True),
    string("edition", "edition or report number as recorded"),
    string("printed_table", "number or name of the printed table"),
    string("page", "page of the publication"),
    BASIS,
)
#: Keys to the table of publications and to the table of woods.
SOURCE_KEY = (("source_id", "sources.source_id"),)
SPECIES_KEY = (("species_id", "species.species_id"),)
