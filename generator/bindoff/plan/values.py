"""Computed values with their derivation: one number, one home.

Every table, sentence, caption and the text version read the same ``Value``. Lengths are millimetres
throughout the plan.
"""

from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.formula import Kind as Kind


class Value(Record):
    """One size's figure.

    ``exact`` is the unrounded result, ``rounded`` what is printed and worked. ``error_mm`` is how
    far the rounding moves the fabric (rounded minus exact), ``None`` where that has no meaning.
    """

    exact: float
    rounded: float
    formula: str
    inputs: tuple[tuple[str, float], ...] = ()
    error_mm: float | None = None


class Measure(Record):
    """A named value for every size, in the pattern's size order, and the place that made it."""

    name: str
    kind: Kind
    values: tuple[Value, ...]
    span: Span | None = None

    @property
    def rounded(self) -> tuple[float, ...]:
        """The worked figure per size."""
        return tuple(value.rounded for value in self.values)

    @property
    def counts(self) -> tuple[int, ...]:
        """The worked figure per size as whole numbers."""
        return tuple(round(value.rounded) for value in self.values)
