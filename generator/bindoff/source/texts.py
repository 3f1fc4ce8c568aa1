"""What a pattern says in words, rows and amounts, wherever it says it."""

from collections.abc import Iterator
from typing import Any

from bindoff.records import Record
from bindoff.source.amount import Amount
from bindoff.source.model import Model, TextUse
from bindoff.source.pattern import Pattern
from bindoff.source.yamltree import Path, Place


class Text(Record):
    """One text that is written; ``path`` are the keys and positions that lead to it."""

    use: TextUse
    path: Path
    place: Place


def texts(pattern: Pattern) -> Iterator[Text]:
    """Every text whose model says what it is for, in the order of the keys."""
    for value in _written(pattern, None, (), pattern.place):
        if isinstance(value, Text):
            yield value


def amounts(pattern: Pattern) -> Iterator[Amount]:
    """Every amount, in the order of the keys."""
    for value in _written(pattern, None, (), pattern.place):
        if isinstance(value, Amount):
            yield value


def _written(value: Any, use: TextUse | None, path: Path, place: Place) -> Iterator[Text | Amount]:
    match value:
        case Amount():
            yield value
        case Model():
            for name, field in value.model_fields.items():
                if name in value.model_fields_set:
                    key = str(field.alias)
                    inner = place.of(key)
                    yield from _written(getattr(value, name), field.use, (*path, key), inner)
        case dict():
            for key, each in value.items():
                yield from _written(each, use, (*path, key), place.of(key))
        case tuple():
            for index, each in enumerate(value):
                yield from _written(each, use, (*path, index), place.of(index))
        case str() if use:
            yield Text(use, path, place)
