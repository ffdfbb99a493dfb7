"""Several cartons for one piece: what each holds, from the table [[cartons]] of its file."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping

from woodref.errors import InputError
from woodref.piece.shipping_table import SHIPPING_KEYS, ShippingPlan, read_shipping
from woodref.record import record
from woodref.shipping.load import WHOLE
from woodref.toml_reader import TomlTable

#: Keys of a table of [[cartons]].
CARTON = ("name", "quantity", "holds", *SHIPPING_KEYS)
#: What stands for all that is in no assembly and no lift of its own.
REST = "rest"


@record
class CartonPlan:
    """A carton as the file has it, ``quantity`` times, with what one of them ``holds``.

    ``holds`` counts assemblies and lifts by their names, WHOLE for the rest of the piece.
    """

    name: str
    quantity: int
    holds: Mapping[str, int]
    plan: ShippingPlan


def read_carton(table: TomlTable, units: str) -> CartonPlan:
    """A carton from a table of [[cartons]].

    Raises: InputError naming file, table, key and problem.
    """
    held = table.data.get("holds")
    if not isinstance(held, list) or not held or not all(isinstance(h, str) for h in held):
        raise table.error("holds", 'must be a list, for example ["drawer", "drawer", "rest"]')
    return CartonPlan(
        table.text("name"),
        table.integer("quantity", 1, 1000) if "quantity" in table else 1,
        Counter(WHOLE if name.strip() == REST else name.strip() for name in held),
        read_shipping(table, units),
    )


def check_cartons(
    file: str, cartons: Iterable[CartonPlan], there: Mapping[str, int], known: Collection[str]
) -> None:
    """Refuse cartons that hold what is not there, or more of it than there is.

    Parameters: file for messages; cartons; there, how many of each assembly there are; known, the
    names of all lifts, WHOLE among them.
    Raises: InputError naming file, carton and what it holds.
    """
    packed: Counter[str] = Counter()
    for carton in cartons:
        for name, count in carton.holds.items():
            if name not in known:
                names = ", ".join(REST if k == WHOLE else k for k in known)
                raise InputError(
                    f"{file}: cartons: {carton.name}: nothing is lifted as '{name}'; there is "
                    f"{names}"
                )
            packed[name] += carton.quantity * count
    for name, count in packed.items():
        most = there.get(name, 1)
        if count > most:
            what = "the rest of the piece" if name == WHOLE else name
            raise InputError(f"{file}: cartons hold {count} of {what}, and there is {most}")
