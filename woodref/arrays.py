"""Arrays of one shape, out of what is handed over: arrays, series, lists and single numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar

from woodref.display import Shown
from woodref.errors import InputError
from woodref.record import record

if TYPE_CHECKING:
    import numpy as np
    import pandas
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
    Flags: TypeAlias = NDArray[np.bool_]
    Objects: TypeAlias = NDArray[np.object_]
    #: Many numbers.
    Array: TypeAlias = (
        Sequence[float]
        | NDArray[np.floating]
        | NDArray[np.integer]
        | pandas.Series[float]
        | pandas.Series[int]
    )
    #: One number or many.
    Numbers: TypeAlias = float | Array


#: Types of single values, told at a glance.
_SINGLE = frozenset((str, float, int))
_Number = TypeVar("_Number", bound="np.generic")


def is_array(value: object) -> bool:
    """True for what holds many values; a text and an array without a dimension are one."""
    if type(value) in _SINGLE or isinstance(value, str):
        return False
    dimensions = getattr(value, "ndim", None)
    return hasattr(value, "__iter__") if dimensions is None else dimensions > 0


def one(value: object) -> Any:
    """The plain value of what is_array does not hold for."""
    if type(value) in _SINGLE:
        return value
    item = getattr(value, "item", None)
    return item() if callable(item) else value


@record(eq=False)
class RangeArrays:
    """Expected values with the low and the high ends of their ranges, arrays of one shape."""

    expected: Floats
    low: Floats
    high: Floats

    def __iter__(self) -> Iterator[Floats]:
        """Expected, low, high, in this order."""
        return iter((self.expected, self.low, self.high))


@record(eq=False, repr=False)
class ArrayResult(Shown):
    """Results as arrays of one shape; ``index`` that of the series they came from, or None."""

    index: pandas.Index | None

    def columns(self) -> dict[str, NDArray[np.generic]]:
        """The columns of the frame, by name, each of the shape of the result."""
        raise NotImplementedError

    @property
    def shape(self) -> tuple[int, ...]:
        """The one shape of all arrays."""
        held = (getattr(self, f.name) for f in fields(self) if f.name != "index")
        return tuple(next(array.shape for array in held if hasattr(array, "shape")))

    def __len__(self) -> int:
        """The length of the first axis."""
        return self.shape[0]

    def to_frame(self) -> pandas.DataFrame:
        """A frame of one row for each element, in the order of the arrays.

        Returns: ranges as columns of their own; the index of the series handed over, if any.
        """
        import pandas

        flat = {name: values.ravel() for name, values in self.columns().items()}
        return pandas.DataFrame(flat, index=self.index if len(self.shape) == 1 else None)

    def _line(self) -> str:
        names = [f.name for f in fields(self) if f.name != "index"]
        return f"{' x '.join(map(str, self.shape))} of {', '.join(names)}"

    def _repr_html_(self) -> str:
        return str(self.to_frame().to_html(max_rows=10, show_dimensions=True))


def numbers(name: str, value: object) -> Floats:
    """Floats of what was handed over.

    Parameters: name of the parameter, for messages; value.
    Raises: InputError for what is no number.
    """
    import numpy as np

    if is_array(value) and not hasattr(value, "__len__"):
        value = list(value)  # type: ignore[call-overload]  # a generator
    try:
        array = np.asarray(value)
        if array.dtype.kind not in "US":  # a text is no number, whatever it says
            return array.astype(np.float64)
    except (TypeError, ValueError):
        pass
    raise InputError(f"{name} takes numbers, not {value!r:.60}")


def one_shape(*arrays: NDArray[_Number], names: Sequence[str]) -> list[NDArray[_Number]]:
    """Arrays stretched to one shape, single values to all elements.

    Parameters: arrays; names of what they hold, for the message.
    Raises: InputError where their shapes do not go together.
    """
    import numpy as np

    try:
        return list(np.broadcast_arrays(*arrays))
    except ValueError:
        told = (f"{n} {a.shape}" for n, a in zip(names, arrays, strict=True) if a.shape)
        raise InputError(f"arrays of one shape are needed, not {', '.join(told)}") from None


def common_index(values: Sequence[object]) -> pandas.Index | None:
    """The index of the series among values, None without a series.

    Raises: InputError where two series have different indexes.
    """
    common: pandas.Index | None = None
    for value in values:
        index = getattr(value, "index", None)
        if index is None or isinstance(value, Sequence):  # a list has a method of that name
            continue
        if common is not None and not common.equals(index):
            raise InputError("the series have different indexes; align them first")
        common = index
    return common


def within(values: Floats, low: float | Floats, high: float | Floats) -> Flags:
    """True where a value lies between two ends, or on one."""
    return (values >= low) & (values <= high)


def refuse_first(good: Flags, refuse: Callable[[tuple[int, ...]], object]) -> None:
    """Have the first element that is not good refused, with its position in the message.

    Parameters: good, false where an element cannot be computed; refuse, called with the position
    of the first such, which raises the error a single value would.
    """
    import numpy as np

    if good.all():
        return
    position = tuple(int(i) for i in np.argwhere(~good)[0])
    where = ", ".join(map(str, position)) or "0"
    try:
        refuse(position)
    except InputError as error:
        raise error.headed("", f" (element {where})") from None
    raise AssertionError(f"element {where} was not refused")
