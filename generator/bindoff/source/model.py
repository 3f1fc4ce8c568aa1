"""The ground of all models: frozen groups of keys that know their place, and kinds of text.

Keys are written with spaces (``cast on``, ``bind off``); the attribute has an underscore.
"""

import re
from calendar import monthrange
from collections.abc import Mapping
from enum import StrEnum
from typing import Annotated, Any, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    PrivateAttr,
    ValidationInfo,
    model_validator,
)

from bindoff.source.yamltree import NOWHERE, Place

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
    AfterValidator(_real_day),
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
    AfterValidator(_language_tag),
]


class Model(BaseModel):
    """What all parts of a pattern share: frozen, no unknown keys, spaces in key names.

    A default is made by ``model_construct``: to make one by its name, the library makes all that
    reads it while the program is being loaded.
    """

    model_config = ConfigDict(
        defer_build=True,  # one schema for the whole pattern, when it is needed
        frozen=True,
        extra="forbid",
        populate_by_name=False,
        allow_inf_nan=False,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )

    @model_validator(mode="before")
    @classmethod
    def _noted(cls, data: Any, info: ValidationInfo) -> Any:
        """Notes in the context, if there is one, which model reads this group of keys."""
        if info.context is not None:
            info.context[id(data)] = cls
        return data

    _place: Place = PrivateAttr(default_factory=lambda: NOWHERE)

    @property
    def place(self) -> Place:
        """Where the group is written; ``place.of(key)`` is where one of its keys is."""
        return self._place

    def at(self, place: Place) -> Self:
        """The same, written at ``place``."""
        copy = self.model_copy()
        copy._place = place
        return copy

    def with_values(self, values: Mapping[str, object]) -> Self:
        """The same with other values; which keys are written does not change with them."""
        copy = self.model_copy()
        vars(copy).update(values)
        return copy
