"""What the library makes of the models, kept for the next run: to make it takes longer than to read
a pattern by it."""

import pickle
from functools import cache

from pydantic_core import SchemaValidator

from bindoff.kept import Shelf
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern

SOURCES = (
    "source",
    "source/formula",
    "source/rowlang",
    "source/steps",
    "diagnostics.py",
    "english.py",
    "records.py",
    "regex.py",
)
"""All that the models name, and what that names: limits and words of theirs may come from it."""

SHELF: Shelf[bytes] = Shelf(__file__, 1, ("pydantic", "pydantic_core"), SOURCES)


@cache
def reader() -> SchemaValidator:
    """Reads plain data as a ``Pattern``, and finds its faults."""
    return SchemaValidator(pickle.loads(SHELF.get("", schema)))


def schema() -> bytes:
    """The schema of ``Pattern``, with its classes and functions by their names."""
    from bindoff.source.library import schema_of

    return schema_of(Pattern)


def itself(model: type[Model]) -> type[Model]:
    """What stands in the kept schema for each of the library's own classes."""
    return model
