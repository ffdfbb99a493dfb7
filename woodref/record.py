"""Frozen records: dataclasses whose methods are made when the first of them is, not on import.

A frozen dataclass compiles six methods as its module is imported, which took a quarter of the
time of a command that uses few of them. A record is a dataclass to whoever looks at it
(``dataclasses.fields``, ``replace``, ``asdict``); comparing, hashing and printing are shared, and
its ``__init__`` is compiled with the first record.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from types import MethodType
from typing import Any, TypeVar, dataclass_transform, overload

_Class = TypeVar("_Class", bound=type)
_Record = TypeVar("_Record")


def _compiled(cls: type) -> Callable[..., None]:
    """The ``__init__`` of a record, which fills its dictionary at one go."""
    names: dict[str, Any] = {}
    parameters, entries = ["self"], []
    for f in fields(cls):
        default, value = "", f.name
        if f.default is not MISSING:
            names[f"default_{f.name}"] = f.default
            default = f"=default_{f.name}"
        elif f.default_factory is not MISSING:
            names[f"make_{f.name}"] = f.default_factory
            names["MISSING"] = MISSING
            default, value = "=MISSING", f"make_{f.name}() if {f.name} is MISSING else {f.name}"
        parameters.append(f"{f.name}{default}")
        entries.append(f"{f.name}={value}")
    lines = [f"def __init__({', '.join(parameters)}):"]
    lines.append(f"    self.__dict__.update({', '.join(entries)})")
    if hasattr(cls, "__post_init__"):
        lines.append("    self.__post_init__()")
    # Made of the names of fields alone, as dataclasses does it.
    exec("\n".join(lines), names)  # noqa: S102  # nosec B102
    made: Callable[..., None] = names["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    made.__annotations__ = {f.name: f.type for f in fields(cls)}
    return made


class _LateInit:
    """The ``__init__`` of a record until the first is made."""

    def __init__(self, cls: type) -> None:
        self._cls = cls

    def _made(self) -> Callable[..., None]:
        made = _compiled(self._cls)
        type.__setattr__(self._cls, "__init__", made)
        return made

    def __get__(self, instance: object, owner: type | None = None) -> Any:
        return self if instance is None else MethodType(self, instance)

    def __call__(self, instance: object, /, *args: Any, **kwargs: Any) -> None:
        self._made()(instance, *args, **kwargs)

    @property
    def __signature__(self) -> inspect.Signature:
        return inspect.signature(self._made())


def _set(self: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _compared(self: object) -> tuple[object, ...]:
    cls, held = type(self), self.__dict__
    names = cls.__dict__.get("_compared_fields")
    if names is None:
        names = tuple(f.name for f in fields(cls) if f.compare)  # type: ignore[arg-type]
        type.__setattr__(cls, "_compared_fields", names)
    return tuple([held[name] for name in names])


def _equal(self: object, other: object) -> Any:
    return _compared(self) == _compared(other) if type(other) is type(self) else NotImplemented


def _hash(self: object) -> int:
    return hash(_compared(self))


def _repr(self: object) -> str:
    held = ", ".join(
        f"{f.name}={getattr(self, f.name)!r}"
        for f in fields(self)  # type: ignore[arg-type]
        if f.repr
    )
    return f"{type(self).__qualname__}({held})"


def replace(one: _Record, /, **changes: Any) -> _Record:
    """Make a record like another but for some fields: ``dataclasses.replace``, at a fifth of it.

    Parameters
    ----------
    one : a record
        The record.
    **changes
        The fields that differ, by name.

    Returns
    -------
    a record
        Of the same class.

    Raises
    ------
    TypeError
        For a name that is no field.
    """
    cls = type(one)
    names = cls.__dict__.get("_field_names")
    if names is None:
        names = tuple(f.name for f in fields(cls))  # type: ignore[arg-type]
        type.__setattr__(cls, "_field_names", names)
    held = one.__dict__
    of_new = {name: changes.pop(name) if name in changes else held[name] for name in names}
    if changes:
        raise TypeError(f"{cls.__name__} has no field {', '.join(changes)}")
    new = object.__new__(cls)
    new.__dict__.update(of_new)
    checked = getattr(new, "__post_init__", None)
    if checked is not None:
        checked()
    return new


@overload
def record(cls: _Class, /) -> _Class: ...
@overload
def record(*, eq: bool = True, repr: bool = True) -> Callable[[_Class], _Class]: ...


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: Any = None, /, *, eq: bool = True, repr: bool = True) -> Any:
    """Make a class a frozen record of its annotated fields.

    Parameters
    ----------
    cls : type, optional
        The class.
    eq : bool, optional
        False for records that are equal to themselves alone.
    repr : bool, optional
        False for a class that prints itself, or whose parent does.

    Returns
    -------
    type
        The class.
    """

    def made(cls: type) -> type:
        # No method is asked for, so that none is compiled.
        dataclass(init=False, repr=False, eq=False)(cls)
        methods: dict[str, Any] = {
            "__init__": _LateInit(cls),
            "__setattr__": _set,
            "__delattr__": _delete,
        }
        if eq:
            methods |= {"__eq__": _equal, "__hash__": _hash}
        if repr:
            methods["__repr__"] = _repr
        for name, method in methods.items():
            if name not in cls.__dict__:
                setattr(cls, name, method)
        return cls

    return made if cls is None else made(cls)
