"""Who makes a piece: the table [maker] of a piece file or of the configuration file."""

from __future__ import annotations

from pathlib import Path

from woodref.files import path_beside
from woodref.record import record
from woodref.toml_reader import TomlTable

#: Keys of the table [maker].
MAKER = ("name", "address", "logo")
#: The kinds of picture a logo can be, by the ending of its file.
LOGOS = {".png": "image/png", ".svg": "image/svg+xml"}


@record
class Maker:
    """The name a shop goes by, its address in one line, and the file of its logo, None for none."""

    name: str
    address: str = ""
    logo: Path | None = None


def read_maker(table: TomlTable) -> Maker:
    """The maker from the table [maker]; the path of the logo is seen from the file.

    Raises: InputError naming file, table, key and problem.
    """
    logo = None
    if "logo" in table:
        logo = path_beside(Path(table.file), table.text("logo", '"logo.svg"'))
        if logo.suffix.lower() not in LOGOS:
            table.tell(table.error("logo", f"must be a file that ends in {' or '.join(LOGOS)}"))
    return Maker(
        table.text("name"), table.text("address", '"a line"') if "address" in table else "", logo
    )
