"""The models as the library that reads them knows them: it makes a twin of each.

Loaded only to describe the models anew (``keptmodels.py`` keeps what comes of it) or to others.
"""

import io
import pickle
from functools import cache, reduce
from operator import or_
from types import GenericAlias, UnionType, new_class
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Discriminator,
    GetPydanticSchema,
    model_validator,
)
from pydantic import Field as Described
from pydantic import Tag as Tagged
from pydantic_core import CoreSchema, core_schema

from bindoff.source.amount import Amount
from bindoff.source.keptmodels import itself
from bindoff.source.model import Key, Model, OneOf, Rule, Tag
from bindoff.source.yamltree import NOWHERE


class _Twin(BaseModel):
    """The ground of all twins."""

    model_config = ConfigDict(defer_build=True, extra="forbid", allow_inf_nan=False)
    _noted = model_validator(mode="before")(vars(Model)["_noted"])


class _Twins(dict[type[Model], type[BaseModel]]):
    """The library's own class of each model: it describes what is read, and is never made."""

    def __missing__(self, model: type[Model]) -> type[BaseModel]:
        base: type[Model] = model.__mro__[1]
        annotations: dict[str, Any] = {}
        inside: dict[str, Any] = {
            "__module__": model.__module__,
            "__qualname__": model.__qualname__,
            "__doc__": model.__doc__,
            "__annotations__": annotations,
        }
        if model.other_keys:
            inside["model_config"] = ConfigDict(extra="allow")
            annotations["__pydantic_extra__"] = GenericAlias(dict, (str, model.other_keys))
        for name, key in model.model_fields.items():
            if name not in base.model_fields:
                annotations[name], inside[name] = _kind(key.annotation), _described(key)
        for name, each in vars(model).items():
            if getattr(each, "is_rule", False):
                inside[name] = model_validator(mode="after")(each)
        self[model] = new_class(
            model.__name__, (self[base],), exec_body=lambda body: body.update(inside)
        )
        return self[model]


@cache
def _twins() -> _Twins:
    return _Twins({Model: _Twin})


def twin(model: type[Model]) -> type[BaseModel]:
    """The library's own class of ``model``."""
    return _twins()[model]


def _described(key: Key) -> Any:
    limits = dict(key.limits)
    if isinstance(limits.get("default"), Model):
        limits["default"] = twin(type(limits["default"])).model_construct()
    return Described(alias=key.alias, description=key.description or None, **limits)


def _kind(part: Any) -> Any:
    """A kind of value, with what the models say of it in the library's words."""
    match part:
        case Key():
            return _described(part)
        case Rule():
            return AfterValidator(part.holds)
        case Tag():
            return Tagged(part.name)
        case OneOf():
            return Discriminator(part.which)
        case type() if issubclass(part, Amount):
            return Annotated[part, GetPydanticSchema(lambda kind, _: _amount(kind))]
        case type() if issubclass(part, Model):
            return twin(part)
    origin, inner = get_origin(part), tuple(map(_kind, get_args(part)))
    if not inner or origin is Literal:
        return part
    if origin is Annotated:
        return Annotated[inner]
    return reduce(or_, inner) if origin is UnionType else origin[inner]  # type: ignore[index]


def _amount(kind: type[Amount]) -> CoreSchema:
    one: list[CoreSchema | tuple[CoreSchema, str]] = [
        core_schema.int_schema(),
        core_schema.float_schema(),
        core_schema.str_schema(),
    ]
    many = core_schema.union_schema(one)
    written = core_schema.union_schema(
        [
            *one,
            core_schema.tuple_variable_schema(many),
            core_schema.dict_schema(core_schema.str_schema(), many),
        ],
        metadata={
            "pydantic_js_updates": {
                "description": "A number, a length such as 21 cm, or a formula; or a list with one "
                "for each size in order; or a mapping from size name to one."
            }
        },
    )
    return core_schema.no_info_after_validator_function(kind, written)


def json_schema(model: type[Model]) -> dict[str, Any]:
    """The JSON Schema of what ``model`` reads."""
    return twin(model).model_json_schema()


def schema_of(model: type[Model]) -> bytes:
    """What the library makes of ``model``, with classes and functions by their names."""
    made = twin(model)
    made.model_rebuild()
    written = io.BytesIO()
    _Pickler(written).dump(_read_by(made.__pydantic_core_schema__))
    return written.getvalue()


def _read_by(schema: Any) -> Any:
    """What of a schema decides how data are read: not what only a JSON Schema says."""
    if isinstance(schema, dict):
        said = {"metadata"} if isinstance(schema.get("type"), str) else set()
        return {key: _read_by(part) for key, part in schema.items() if key not in said}
    return [_read_by(part) for part in schema] if isinstance(schema, list) else schema


class _Pickler(pickle.Pickler):
    """Puts the models in the places of their twins, and knows the one place that is nowhere."""

    def __init__(self, file: io.BytesIO) -> None:
        super().__init__(file)
        self._models = {twin: model for model, twin in _twins().items()}

    def reducer_override(self, thing: Any) -> Any:
        if thing is NOWHERE:
            return "NOWHERE"
        if isinstance(thing, type) and thing in self._models:
            return itself, (self._models[thing],)
        if type(thing) in self._models:
            return self._models[type(thing)], ()
        return NotImplemented
