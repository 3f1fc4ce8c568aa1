"""What most of our data are: records of named, typed values that nothing changes later.

A program that runs for half a second has three hundred kinds of them, and can't wait while the
standard library writes and compiles methods for each: a ``Record`` is made forty times as fast. To
the reader, the type checker and the functions of ``dataclasses`` it is a frozen dataclass with
slots. Where only some of its fields are compared it is ``Said``; where they are set later,
``Changing``.
"""

from dataclasses import Field, fields, make_dataclass
from dataclasses import field as described
from functools import cache
from operator import attrgetter
from typing import TYPE_CHECKING, Any, ClassVar, dataclass_transform

from msgspec import Struct, field
from msgspec.structs import astuple as values_of
from msgspec.structs import replace

__all__ = ["Changing", "Record", "Said", "field", "names_of", "replace", "values_of"]


class _Fields:
    """The fields of a record as ``dataclasses`` asks for them, described at the first question."""

    def __get__(self, _: object, kind: type[Struct]) -> dict[str, Field[Any]]:
        return _described(kind)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
class Record(Struct, frozen=True):
    """The base of all records; a class may say ``eq=False`` or ``order=True`` as a dataclass may.

    ``dataclasses.replace``, ``fields``, ``asdict`` and ``is_dataclass`` take it; ``replace`` from
    this module does it much faster, and takes nothing else.
    """

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    else:
        __dataclass_fields__ = _Fields()


class Said(Record, eq=False):
    """The base of records that are equal where they say the same: fields in ``UNSAID`` don't
    count."""

    UNSAID: ClassVar[frozenset[str]] = frozenset()

    def __eq__(self, other: object) -> bool:
        if type(self) is not type(other):
            return NotImplemented
        said = _said_by(type(self))
        return bool(said(self) == said(other))

    def __ne__(self, other: object) -> bool:
        return not self == other  # a struct's own compares identities

    def __hash__(self) -> int:
        return hash(_said_by(type(self))(self))


@cache
def _said_by(kind: type[Said]) -> "attrgetter[Any]":
    return attrgetter(*(name for name in kind.__struct_fields__ if name not in kind.UNSAID))


@dataclass_transform(field_specifiers=(field,))
class Changing(Struct, eq=False):
    """The base of records whose fields are set later; each equals itself alone."""

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    else:
        __dataclass_fields__ = _Fields()


def names_of(record: Any) -> tuple[str, ...]:
    """The names of the fields of a record or of another dataclass, or of its class.

    Of a record this is much faster than ``dataclasses.fields``: for walks over whole documents.
    """
    kind = record if isinstance(record, type) else type(record)
    known = getattr(kind, "__struct_fields__", None)
    return known if known is not None else tuple(each.name for each in fields(record))


@cache
def _described(kind: type[Struct]) -> dict[str, Field[Any]]:
    names, defaults = kind.__struct_fields__, kind.__struct_defaults__
    bare = len(names) - len(defaults)
    fields = [(name, Any) for name in names[:bare]]
    given = [
        (name, Any, described(default=default))
        for name, default in zip(names[bare:], defaults, strict=True)
    ]
    twin: Any = make_dataclass(kind.__name__, [*fields, *given], eq=False)
    found: dict[str, Field[Any]] = twin.__dataclass_fields__
    return found
