"""The ground of all models: frozen groups of keys that know their place, and kinds of text.

Keys are written with spaces (``cast on``, ``bind off``); the attribute has an underscore. What is
said here of a key is for the library that reads models (``library.py``); to load it and to have it
make its own classes takes longer than to read a pattern, so the models are plain classes.
"""

from calendar import monthrange
from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import cached_property
from typing import (
    Annotated,
    Any,
    ClassVar,
    NoReturn,
    Self,
    TypeVar,
    dataclass_transform,
    get_args,
)

from bindoff import regex as re
from bindoff.records import Record
from bindoff.source.yamltree import NOWHERE, Place

Function = TypeVar("Function", bound=Callable[..., Any])


class Key:
    """What is said of a key: its name, its kind, what it means, and ``limits`` by the library's
    names for them. Among the limits is a ``default``, if it need not be written."""

    def __init__(self, alias: str | None, description: str, limits: Mapping[str, Any]) -> None:
        self.alias, self.description, self.limits = alias, description, limits
        self.annotation: Any = None

    def is_required(self) -> bool:
        """Whether it must be written."""
        return "default" not in self.limits

    @cached_property
    def use(self) -> "TextUse | None":
        """What its texts are for, if that is said."""
        return _use((self.annotation,))


def _use(kinds: tuple[Any, ...]) -> "TextUse | None":
    inner = (kind if isinstance(kind, TextUse) else _use(get_args(kind)) for kind in kinds)
    return next(filter(None, inner), None)


def Field(*, alias: str | None = None, description: str = "", **limits: Any) -> Any:  # noqa: N802
    """A key of a model; or, in ``Annotated``, the limits of a kind of value."""
    return Key(alias, description, limits)


class Rule(Record):
    """In ``Annotated``: gives what was read on, or raises ``ValueError`` with a message, ``||``,
    and help."""

    holds: Callable[[Any], Any]


class Tag(Record):
    """In ``Annotated``: what ``OneOf`` calls a kind."""

    name: str


class OneOf(Record):
    """In ``Annotated``, of kinds with tags: says by what is written which of them it is."""

    which: Callable[[Any], str | None]


def rule(holds: Function) -> Function:
    """A method that gives its model on, or raises ``ValueError`` as a ``Rule`` does."""
    holds.is_rule = True  # type: ignore[attr-defined]
    return holds


Markdown = Annotated[str, Field(description="Prose in Markdown; {{ name }} prints a figure.")]


class TextUse(StrEnum):
    """What a text of the designer's is for; a model says it of each of its texts that is read."""

    TITLE = "title"
    HEAD = "head"
    GAUGE = "gauge"
    MATERIAL = "material"
    STEP = "step"
    TEXT = "text"
    ALT = "alt"
    STITCH = "stitch"


MOST_TITLE = 200  # characters of a title: three lines of a cover hold fewer
Title = Annotated[str, TextUse.TITLE, Field(min_length=1, max_length=MOST_TITLE)]
RowText = Annotated[str, Field(description="A row in the row language, such as *k2, p2; repeat …")]
Rows = RowText | Annotated[tuple[RowText, ...], Field(min_length=1)]
Colour = Annotated[str, Field(pattern=r"^#[0-9a-fA-F]{6}$", examples=["#3d4a57"])]


def _real_day(text: str) -> str:
    year, month, day = (int(part) for part in text.split("-"))
    if year < 1 or not 1 <= month <= 12 or not 1 <= day <= monthrange(year, month)[1]:
        raise ValueError(
            f"there is no day {text}||Write the day as year-month-day, such as 2026-11-02"
        )
    return text


Day = Annotated[
    str,
    Field(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-11-02"]),
    Rule(_real_day),
]

# A version without quotation marks, such as 1.0, is a number to YAML; it is read as written.
Version = Annotated[str, Field(min_length=1, json_schema_extra={"type": ["string", "number"]})]

# Language, script, region and variants of RFC 5646 (BCP 47), section 2.1; no extensions.
_TAG = (
    r"^[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?"
    r"(-([A-Za-z0-9]{5,8}|[0-9][A-Za-z0-9]{3}))*$"
)


def _language_tag(text: str) -> str:
    if not re.fullmatch(_TAG, text):
        raise ValueError(
            f"`{text}` is not the tag of a language"
            "||Write its short tag, such as en, de, pl, el, uk or pt-BR"
        )
    return text


Language = Annotated[
    str,
    Field(examples=["en", "pl"], json_schema_extra={"pattern": _TAG}),
    Rule(_language_tag),
]


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(Field,))
class Model:
    """What all parts of a pattern share: frozen, no unknown keys, spaces in key names.

    The slots with long names are the library's: it fills them without asking the class, the last
    one with nothing.
    """

    __slots__ = (
        "__dict__",
        "__pydantic_extra__",
        "__pydantic_fields_set__",
        "__pydantic_private__",
    )
    model_fields: ClassVar[Mapping[str, Key]] = {}
    other_keys: ClassVar[type | None] = None
    """The kind of what stands under keys that nobody knows, where these are taken."""

    __pydantic_extra__: dict[str, Any] | None
    __pydantic_fields_set__: set[str]
    __pydantic_private__: Place | None

    def __init_subclass__(cls) -> None:
        own = {name: key for name, key in vars(cls).items() if isinstance(key, Key)}
        for name, key in own.items():
            key.annotation = cls.__annotations__[name]
            key.alias = key.alias or name.rstrip("_").replace("_", " ")
            delattr(cls, name)
        cls.model_fields = {**cls.model_fields, **own}

    def __init__(self, **values: object) -> None:
        """One that is written nowhere; nothing is checked."""
        given = {
            n: k.limits["default"] for n, k in self.model_fields.items() if not k.is_required()
        }
        _fill(self, given | values, set(values), None, NOWHERE)

    @classmethod
    def _noted(cls, data: Any, info: Any) -> Any:
        """Notes in the context, if there is one, which model reads this group of keys."""
        if info.context is not None:
            info.context[id(data)] = cls
        return data

    @property
    def model_fields_set(self) -> set[str]:
        """The attributes whose keys are written."""
        return self.__pydantic_fields_set__

    @property
    def place(self) -> Place:
        """Where the group is written; ``place.of(key)`` is where one of its keys is."""
        return self.__pydantic_private__ or NOWHERE

    def at(self, place: Place) -> Self:
        """The same, written at ``place``."""
        return self._copy({}, place)

    def with_values(self, values: Mapping[str, object]) -> Self:
        """The same with other values; which keys are written does not change with them."""
        return self._copy(values, self.place)

    def _copy(self, values: Mapping[str, object], place: Place) -> Self:
        copy = object.__new__(type(self))
        written, others = self.__pydantic_fields_set__, self.__pydantic_extra__
        _fill(copy, {**vars(self), **values}, written, others, place)
        return copy

    def __setattr__(self, name: str, _: object) -> NoReturn:
        raise AttributeError(f"{type(self).__name__} is frozen: its {name} stays what it is")

    def __eq__(self, other: object) -> bool:
        """The same keys say the same, wherever they are written."""
        if type(self) is not type(other):
            return NotImplemented
        others = self.__pydantic_extra__, getattr(other, "__pydantic_extra__", None)
        return vars(self) == vars(other) and others[0] == others[1]

    def __hash__(self) -> int:
        return hash((type(self), *vars(self).values()))


def _fill(
    model: Model, values: dict[str, Any], written: set[str], others: Any, place: Place
) -> None:
    for name, value in zip(Model.__slots__, (values, others, written, place), strict=True):
        object.__setattr__(model, name, value)
