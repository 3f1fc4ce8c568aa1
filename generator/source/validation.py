"""From plain data to the models: every fault with its place, in words for a designer."""

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from generator.diagnostics import Diagnostic, PatternError
from generator.source.models import STEPS, Pattern
from generator.source.yamltree import YamlTree

Path = tuple[str | int, ...]

# Scalars that YAML may read as a number although the designer means the characters.
_TEXTS = ("title", "version", "date", "designer")


def validate(tree: YamlTree) -> Pattern:
    """The pattern in ``tree``.

    Raises:
        PatternError: with every fault found (ids ``source.…``).
    """
    try:
        return Pattern.model_validate(_with_texts(tree))
    except ValidationError as error:
        raise PatternError(_findings(error.errors(), tree)) from None


def _with_texts(tree: YamlTree) -> Any:
    """The data with the head's texts as they were typed, so that ``1.0`` stays ``1.0``."""
    data = dict(tree.data)
    for key in _TEXTS:
        if isinstance(data.get(key), int | float) and not isinstance(data[key], bool):
            data[key] = tree.text((key,))
    for index, change in enumerate(data.get("changes") or ()):
        if isinstance(change, dict) and isinstance(change.get("version"), int | float):
            change["version"] = tree.text(("changes", index, "version"))
    return data


def _findings(errors: list[ErrorDetails], tree: YamlTree) -> list[Diagnostic]:
    """One finding a fault: unions report each of their branches, and a list with a faulty item
    is reported as too short; both are dropped in favour of the first real cause."""
    found: dict[Path, Diagnostic] = {}
    for error in errors:
        path = _real_path(error["loc"], tree.data)
        if error["type"] == "too_short" and len(error.get("input") or ()) > 0:
            continue
        if path not in found:
            found[path] = _finding(error, path, tree)
    return list(found.values())


def _real_path(loc: tuple[int | str, ...], data: Any) -> Path:
    """``loc`` without the names of union branches, as far as the data goes; for a missing key,
    the key stays at the end."""
    path: list[str | int] = []
    for index, part in enumerate(loc):
        inside = isinstance(data, dict) and part in data
        inside = inside or (isinstance(data, list) and isinstance(part, int) and part < len(data))
        if inside:
            path.append(part)
            data = data[part]
        elif index == len(loc) - 1 and isinstance(data, dict) and isinstance(part, str):
            path.append(part)
    return tuple(path)


def _finding(error: ErrorDetails, path: Path, tree: YamlTree) -> Diagnostic:
    name = _said(path)
    key = path[-1] if path else "pattern"
    place = tree.span(path)
    kind = error["type"]
    context = error.get("ctx", {})
    match kind:
        case "missing":
            owner = path[:-1]
            where = f"under {_said(owner)}" if owner else "at the top level of the file"
            return Diagnostic(
                "source.missing",
                f"`{key}` is missing",
                f"Add a line `{key}: …` {where}",
                tree.span(owner, key=True) if owner else tree.span(()),
            )
        case "extra_forbidden":
            known = _known_keys(error["loc"])
            return Diagnostic(
                "source.unknown-key",
                f"`{key}` is not a key that can stand here",
                _instead(str(key), known),
                tree.span(path, key=True),
            )
        case "union_tag_not_found":
            return Diagnostic(
                "source.step",
                "this step does not say what to do",
                "Start it with one of: " + ", ".join(f"`{verb}:`" for verb in STEPS),
                place,
            )
        case "literal_error":
            return Diagnostic(
                "source.choice",
                f"{name} can not be `{tree.text(path)}`",
                f"Write one of: {context.get('expected', '')}",
                place,
            )
        case "value_error":
            message, _, help = str(context.get("error", error["msg"])).partition("||")
            return Diagnostic("source.value", message, help or "Correct the value", place)
        case "string_pattern_mismatch":
            return Diagnostic(
                "source.format",
                f"{name} is not written as it must be: `{tree.text(path)}`",
                _FORMATS.get(str(key), "Follow the examples in the guide"),
                place,
            )
        case _:
            message, help = _WRONG_KIND.get(
                kind, (f"can not be read: {error['msg'].lower()}", "Correct the value")
            )
            return Diagnostic(
                "source.value",
                f"{name} {message}",
                help.format(**{k: str(v) for k, v in context.items()}),
                place,
            )


_FORMATS: Mapping[str, str] = {
    "colour": 'Write six hexadecimal digits after #, in quotes, such as "#3d4a57"',
    "date": "Write the day as year-month-day, such as 2026-11-02",
}

_WRONG_KIND: Mapping[str, tuple[str, str]] = {
    "string_type": ("must be text", "Write words here, in quotes if it looks like a number"),
    "string_too_short": ("is empty", "Write a few words here"),
    "too_short": ("is empty", "Give at least {min_length}"),
    "dict_type": ("must be a group of `key: value` lines", "Indent its lines below this key"),
    "model_type": ("must be a group of `key: value` lines", "Indent its lines below this key"),
    "model_attributes_type": (
        "must be a group of `key: value` lines",
        "Indent its lines below this key",
    ),
    "tuple_type": ("must be a list", "Put each entry on a line of its own that starts with `- `"),
    "int_type": ("must be a whole number", "Write a number without a fraction"),
    "int_parsing": ("must be a whole number", "Write a number without a fraction"),
    "int_from_float": ("must be a whole number", "Write a number without a fraction"),
    "float_type": ("must be a number", "Write a number such as 22 or 9.5"),
    "float_parsing": ("must be a number", "Write a number such as 22 or 9.5"),
    "bool_parsing": ("must be true or false", "Write true or false"),
    "bool_type": ("must be true or false", "Write true or false"),
    "greater_than": ("is too small", "Write a number above {gt}"),
    "greater_than_equal": ("is too small", "Write {ge} or more"),
    "less_than_equal": ("is too large", "Write {le} or less"),
}


def _said(path: Path) -> str:
    """A path as a designer would say it: ``gauge``, ``step 3 of pieces, hat``."""
    words: list[str] = []
    for part in path:
        if isinstance(part, int):
            words.append(f"number {part + 1}")
        else:
            words.append(part)
    return "`" + " › ".join(words) + "`" if words else "the pattern"


def _instead(key: str, known: tuple[str, ...]) -> str:
    close = get_close_matches(key, known, n=1)
    listed = ", ".join(f"`{name}`" for name in known)
    if close:
        return f"Write `{close[0]}` if that is what you mean; known here are {listed}"
    return f"Known here are {listed}"


def _known_keys(loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """The keys of the model that holds the unknown key at ``loc``."""
    model: Any = Pattern
    for part in loc[:-1]:
        if isinstance(part, str) and part in STEPS and model is None:
            model = STEPS[part]
        elif isinstance(model, type) and issubclass(model, BaseModel):
            model = _inner(model, part)
    if isinstance(model, type) and issubclass(model, BaseModel):
        return tuple(field.alias or name for name, field in model.model_fields.items())
    return ()


def _inner(model: type[BaseModel], part: int | str) -> Any:
    """The model inside a field, through optionals, tuples and mappings; ``None`` for steps."""
    for name, field in model.model_fields.items():
        if part in (field.alias, name):
            models = _models_in(field.annotation)
            return models[0] if len(models) == 1 else None
    return model


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for argument in get_args(annotation) for model in _models_in(argument)]
