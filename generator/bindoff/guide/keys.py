"""What each key is, from the models that read it, with its example."""

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, get_args

from bindoff.files import packaged_template
from bindoff.guide.topics import SHARED, TOPICS
from bindoff.records import Record
from bindoff.source.library import json_schema
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern
from bindoff.source.steps.step import Step
from bindoff.source.yamltree import read_yaml


class KeyHelp(Record):
    """A key: its ``group``, how it is written, what it says, the words it takes if these are fixed,
    whether it must be there, and lines that work."""

    group: str
    key: str
    says: str
    choices: tuple[str, ...]
    required: bool
    example: tuple[str, ...]


class Group(Record):
    """Keys that stand together, and what they say as a whole."""

    name: str
    says: str
    keys: tuple[KeyHelp, ...]


@cache
def groups() -> Mapping[str, Group]:
    """Every group of keys by the name of its model."""
    examples = read_yaml(packaged_template("guide/examples.yaml") or "{}", "examples.yaml").data
    return {
        name: Group(name, " ".join((model.__doc__ or "").split("\n\n")[0].split()), keys)
        for name, model in all_models().items()
        if (keys := tuple(_keys(name, model, examples.get(name, {}))))
    }


def all_models() -> dict[str, type[Model]]:
    """Every group of keys of a pattern, by the name of its model."""
    found: dict[str, type[Model]] = {"Step": Step}
    waiting: list[object] = [Pattern]
    while waiting:
        each = waiting.pop()
        if isinstance(each, type) and issubclass(each, Model):
            if each.__name__ not in found:
                found[each.__name__] = each
                waiting += [field.annotation for field in each.model_fields.values()]
        else:
            waiting += get_args(each)
    return found


def _keys(name: str, model: type[Model], examples: Mapping[str, str]) -> Iterator[KeyHelp]:
    schema = json_schema(model)
    required = frozenset(schema.get("required", ()))
    for key, about in schema["properties"].items():
        if name.endswith("Step") and name != "Step" and key in SHARED:
            continue
        yield KeyHelp(
            name,
            key,
            about.get("description", ""),
            tuple(_choices(about)),
            key in required,
            tuple(str(examples.get(key, "")).rstrip("\n").split("\n")),
        )


def _choices(about: Mapping[str, Any]) -> Iterator[str]:
    for each in (about, *about.get("anyOf", ()), about.get("items", {})):
        if isinstance(each, Mapping):
            yield from (str(choice) for choice in each.get("enum", ()))
            if "const" in each:
                yield str(each["const"])


def named(word: str) -> tuple[KeyHelp, ...]:
    """Every key of that name, in the guide's order."""
    wanted = word.strip().rstrip(":").lower().replace("_", " ")
    return tuple(
        key
        for topic in TOPICS
        for name in topic.groups
        for key in groups()[name].keys
        if key.key == wanted
    )


def taking(word: str) -> tuple[KeyHelp, ...]:
    """Every key that may be this word, in the guide's order."""
    wanted = word.strip().lower()
    return tuple(
        key
        for topic in TOPICS
        for name in topic.groups
        for key in groups()[name].keys
        if wanted in key.choices
    )
