"""What the library makes of the models, kept for the next run: to make it takes longer than to read
a pattern by it."""

import io
import pickle
from functools import cache
from typing import Any

from pydantic_core import SchemaValidator

from bindoff.kept import Shelf
from bindoff.source.pattern import Pattern
from bindoff.source.yamltree import NOWHERE

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
    """Reads plain data as a ``Pattern``, and finds the faults that ``Pattern`` itself would."""
    return SchemaValidator(pickle.loads(SHELF.get("", schema)))


def schema() -> bytes:
    """The schema of ``Pattern``, with its classes and functions by their names."""
    Pattern.model_rebuild()
    written = io.BytesIO()
    _Pickler(written).dump(Pattern.__pydantic_core_schema__)
    return written.getvalue()


class _Pickler(pickle.Pickler):
    """Knows that there is only one place that is nowhere."""

    def reducer_override(self, thing: Any) -> Any:
        return "NOWHERE" if thing is NOWHERE else NotImplemented
