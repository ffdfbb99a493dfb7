"""What calls on arrays are given: woods by number, figures in one shape, each checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias, TypeVar

import numpy as np

from woodref.arrays import common_index, is_array, numbers, one_shape, refuse_first, within
from woodref.board.movement import ring_angle
from woodref.errors import InputError
from woodref.quantity import MOST_BOARDS
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    import pandas
    from numpy.typing import NDArray

    from woodref.arrays import Flags, Floats, Numbers, Objects

    #: Woods, or names of woods: one or many.
    Woods: TypeAlias = (
        Wood
        | str
        | Sequence[Wood | str]
        | Sequence[Wood]
        | Sequence[str]
        | NDArray[np.object_]
        | NDArray[np.str_]
        | pandas.Series[str]
    )
    #: Cuts by name or ring angle: one or many.
    Cuts: TypeAlias = str | Sequence[str] | NDArray[np.str_] | pandas.Series[str] | Numbers

#: What gives the wood of a name.
Find: TypeAlias = "Callable[[Wood | str], Wood]"
_Figure = TypeVar("_Figure")
_Number = TypeVar("_Number", bound=np.generic)


class Given(NamedTuple):
    """What was handed over, in one shape: the woods are numbers of ``distinct`` ones."""

    which: NDArray[np.intp]
    distinct: list[Wood]
    floats: list[Floats]
    of_series: pandas.Index | None


def given_arrays(find: Find, woods: Woods, **given: Cuts) -> Given:
    """What was handed over, in one shape: woods by number, each name looked up once."""
    if is_array(woods):
        which, distinct = _distinct(woods, find, (str, Wood))
    else:
        which, distinct = np.zeros((), dtype=np.intp), [find(woods)]  # type: ignore[arg-type]
    floats = [
        _angles(v) if n == "cut" else numbers(n.replace("_", " "), v) for n, v in given.items()
    ]
    codes, *shaped = _one_shape(which, floats, ("wood", *given))
    index = common_index((woods, *given.values()))
    return Given(codes, distinct, shaped, index)


def _one_shape(
    which: NDArray[np.intp], floats: Sequence[Floats], names: Sequence[str]
) -> tuple[Any, ...]:
    """The numbers of the woods and the figures, stretched to one shape."""
    arrays: list[Any] = [which, *floats]
    return tuple(one_shape(*arrays, names=names))


def compact(array: NDArray[_Number]) -> NDArray[_Number]:
    """The array without what it repeats along an axis, as stretching makes it."""
    return array[tuple(slice(0, 1) if step == 0 else slice(None) for step in array.strides)]


def full(values: Floats, shape: tuple[int, ...]) -> Floats:
    """Values of a compact array in the shape of the result."""
    return values if values.shape == shape else np.broadcast_to(values, shape).copy()


def _angles(cuts: Cuts) -> Floats:
    """The ring angle of each cut [degree]."""
    if isinstance(cuts, str):
        return np.array(ring_angle(cuts))
    if is_array(cuts) and _kind(cuts) in ("O", "U", "T"):
        which, angles = _distinct(cuts, ring_angle, (str, int, float))
        return np.array(angles)[which]
    return numbers("cut", cuts)


def _kind(values: object) -> str:
    """The kind of the elements as NumPy has it, '' of rows that differ in length."""
    try:
        return np.asarray(values).dtype.kind
    except ValueError:
        return ""


def _distinct(
    values: object, of_one: Callable[[Any], _Figure], kinds: tuple[type, ...]
) -> tuple[NDArray[np.intp], list[_Figure]]:
    """For each value the number of its figure, and the figures of the distinct values."""
    texts = np.asarray(values) if hasattr(values, "dtype") else None
    if texts is not None and texts.dtype.kind == "U" and str in kinds:
        import pyarrow

        encoded = pyarrow.array(texts.ravel()).dictionary_encode()
        which = encoded.indices.to_numpy().astype(np.intp).reshape(texts.shape)
        return which, [of_one(text) for text in encoded.dictionary.to_pylist()]
    import pandas

    array = np.asarray(values, dtype=object)
    try:
        which, distinct = pandas.factorize(array.ravel(), use_na_sentinel=False)
    except TypeError:  # of lists, or of a mapping
        raise InputError(f"names are needed, not {values!r:.60}") from None
    for value in distinct:
        if not isinstance(value, kinds):
            raise InputError(f"a name is needed, not {value!r:.60}")
    return which.reshape(array.shape), [of_one(value) for value in distinct]


def picked(objects: Sequence[object], which: NDArray[np.intp], shape: tuple[int, ...]) -> Objects:
    """The object of each element, in the shape of the result; tuples stay whole."""
    held = np.empty(len(objects), dtype=np.object_)
    for n, one in enumerate(objects):
        held[n] = one
    return np.broadcast_to(held[which], shape)


def inside_of(values: Floats, low: float, high: float) -> Flags:
    """True where a value lies between two ends, on neither."""
    return (values > low) & (values < high)


def _whole(counts: Floats) -> Flags:
    whole: Flags = counts == np.floor(counts)
    return within(counts, 1.0, float(MOST_BOARDS)) & whole


def refuse_uncounted(name: str, counts: Floats) -> None:
    """Refuse what is no whole number from 1 to MOST_BOARDS.

    Raises: InputError with the position of the first such element.
    """

    def refuse(at: tuple[int, ...]) -> None:
        raise InputError(f"{name} is a whole number from 1 to {MOST_BOARDS}, not {counts[at]:g}")

    refuse_first(_whole(counts), refuse)
