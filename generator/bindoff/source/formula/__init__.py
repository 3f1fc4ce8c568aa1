"""The formula language of measures: plain arithmetic on lengths, counts and names.

``brim + 5 cm``, ``stitches(around, multiple = 4, plus = 2)``, ``head * 92 %``. A figure has a kind:
lengths add to lengths and counts to counts, a length over a length is a plain number. What makes no
sense in cloth (a length times a length, a length plus a count) is an error with its place.
"""

from bindoff.source.formula.evaluate import Function, evaluate
from bindoff.source.formula.nodes import (
    Binary,
    Call,
    Choice,
    Formula,
    Kind,
    Literal,
    Name,
    Negative,
    Node,
    Quantity,
)
from bindoff.source.formula.order import order_of
from bindoff.source.formula.parse import parse_formula

__all__ = [
    "Binary",
    "Call",
    "Choice",
    "Formula",
    "Function",
    "Kind",
    "Literal",
    "Name",
    "Negative",
    "Node",
    "Quantity",
    "evaluate",
    "order_of",
    "parse_formula",
]
