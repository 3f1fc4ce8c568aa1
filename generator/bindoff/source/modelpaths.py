"""Which model holds a key: a path through the data followed through the types of the models."""

from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel

from bindoff.source.models import STEPS, Pattern, Step


def model_at(path: tuple[str | int, ...], data: Any) -> type[BaseModel] | None:
    """The model of the value at ``path`` in ``data``; ``None`` where that is no group of keys."""
    annotation: Any = Pattern
    for part in path:
        annotation = _inside(_fitting(annotation, data), part)
        data = data[part]
    found = _fitting(annotation, data)
    return found if _is_model(found) else None


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def _inside(annotation: Any, part: str | int) -> Any:
    """The type of what lies one step further in."""
    if _is_model(annotation):
        fields = annotation.model_fields.values()
        return next((field.annotation for field in fields if field.alias == part), None)
    inner = get_args(annotation)
    match get_origin(annotation):
        case origin if origin is dict:
            return inner[1]
        case origin if origin is tuple:
            return inner[0]
    return None


def _fitting(annotation: Any, data: Any) -> Any:
    """The member of a union that ``data`` is meant for."""
    options = tuple(_options(annotation))
    if isinstance(data, list):
        return next((each for each in options if get_origin(each) is tuple), None)
    models = [each for each in options if _is_model(each)]
    if len(models) < 2 or not isinstance(data, dict):
        return models[0] if models else options[0]
    if issubclass(models[0], Step):
        return STEPS.get(next((key for key in data if key in STEPS), ""), Step)
    return next((each for each in models if data.get("shape") in _shapes(each)), None)


def _shapes(model: type[BaseModel]) -> tuple[Any, ...]:
    return get_args(model.model_fields["shape"].annotation)


def _options(annotation: Any) -> Iterator[Any]:
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _options(get_args(annotation)[0])
    elif origin in (Union, UnionType):
        for each in get_args(annotation):
            yield from _options(each)
    else:
        yield annotation
