"""Gives every group of keys its place in the file, and every amount its place and its formulas."""

from collections.abc import Callable
from typing import Any

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.source.amount import Amount
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern
from bindoff.source.yamltree import NOWHERE, Place

Change = Callable[[Amount, str, Place], Amount]


def placed(pattern: Pattern, place: Place) -> tuple[Pattern, tuple[Diagnostic, ...]]:
    """``pattern``, written at ``place``, with places and formulas; and the faults of its amounts.

    An amount at fault stays unread.
    """
    findings: list[Diagnostic] = []
    sizes = tuple(pattern.sizes)

    def read(amount: Amount, name: str, place: Place) -> Amount:
        try:
            return amount.read(name, place, sizes)
        except PatternError as error:
            findings.extend(error.findings)
            return amount

    made: Pattern = _changed(pattern, "", place, read)
    return made, tuple(findings)


def with_amounts(pattern: Pattern, change: Callable[[Amount], Amount]) -> Pattern:
    """``pattern`` with every amount that is written changed."""
    made: Pattern = _changed(pattern, "", pattern.place, lambda amount, *_: change(amount))
    return made


def _changed(
    value: Any, name: str, place: Place, change: Callable[[Amount, str, Place], Amount]
) -> Any:
    def inner(value: Any, part: str | int) -> Any:
        return _changed(value, str(part), place.of(part), change)

    match value:
        case Amount():
            return change(value, name, place)
        case Model():
            if value.place is not NOWHERE:  # a mirrored piece has steps of another
                place = value.place
            parts = {
                attribute: inner(part, str(field.alias))
                for attribute, field in type(value).model_fields.items()
                if not isinstance(part := getattr(value, attribute), Amount)
                or attribute in value.model_fields_set
            }
            return value.at(place).with_values(parts)
        case dict():
            return {key: inner(each, key) for key, each in value.items()}
        case tuple():
            return tuple(inner(each, index) for index, each in enumerate(value))
        case _:
            return value
