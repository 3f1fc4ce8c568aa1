"""The formula language of measures: plain arithmetic on lengths, counts and names."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from enum import StrEnum

from generator.diagnostics import Span


class Kind(StrEnum):
    """What a quantity counts; the words are those the plan uses."""

    LENGTH = "length"  # mm
    STITCHES = "stitches"
    ROUNDS = "rounds"
    NUMBER = "number"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure and its kind; lengths are millimetres."""

    value: float
    kind: Kind = Kind.NUMBER


@dataclass(frozen=True, slots=True)
class Literal:
    """A figure as written, such as ``4``, ``8 %``, ``5 cm`` or ``2 rounds``."""

    value: Quantity
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Name:
    """Another measure."""

    name: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Negative:
    """``-operand``."""

    operand: "Node"
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Binary:
    """``left sign right``, where the sign is one of ``+ - * /``."""

    sign: str
    left: "Node"
    right: "Node"
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Choice:
    """``chosen if left sign right else otherwise``."""

    chosen: "Node"
    sign: str
    left: "Node"
    right: "Node"
    otherwise: "Node"
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Call:
    """A trade helper and its arguments."""

    function: str
    arguments: tuple["Node", ...]
    named: tuple[tuple[str, "Node"], ...]
    start: int
    end: int


Node = Literal | Name | Negative | Binary | Choice | Call


@dataclass(frozen=True, slots=True)
class Formula:
    """A parsed formula; ``names`` and ``functions`` are those it uses, in order, each once."""

    text: str
    span: Span
    root: Node
    names: tuple[str, ...]
    functions: tuple[str, ...]

    def place(self, node: Node) -> Span:
        """Where a part of the formula stands in the source."""
        raise NotImplementedError


Function = Callable[..., Quantity]


def parse_formula(text: str, span: Span) -> Formula:
    """Parse one formula; ``span`` is the place of ``text``. Raises ``PatternError``."""
    raise NotImplementedError


def evaluate(
    formula: Formula, names: Mapping[str, Quantity], functions: Mapping[str, Function]
) -> Quantity:
    """The formula's figure for one size. Raises ``PatternError`` with the place inside it.

    A function gets quantities and may raise a ``PatternError`` without a span: the place of the
    call is added.
    """
    raise NotImplementedError


def order_of(formulas: Mapping[str, Formula], given: Collection[str] = ()) -> tuple[str, ...]:
    """Names in an order in which each comes after all it needs.

    ``given`` are names that exist without a formula. Raises ``PatternError`` for every unknown
    name and every loop.
    """
    raise NotImplementedError
